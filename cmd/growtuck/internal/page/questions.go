package page

import (
	"bytes"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/validate"
)

// A question is something that is answered as the command of its name does. It must
// read no file that a parameter names.
type question struct {
	name, summary string
	method        string // GET or POST
	media         string // of the answer
	body          string // what is posted, in words; "" for nothing
	fields        []ask.Field
	answer        any // a value of the answer's type, a oneOf, or nil where it is no JSON
	// respond answers a request, or what was posted. An unusable error has an answer
	// of its own.
	respond func(s *site, r *ask.Request, body []byte) ([]byte, error)
}

// oneOf is an answer that has one of several types.
type oneOf []any

// Unusable is what was posted and cannot be used, with the findings that say why.
type unusable struct {
	answer []byte
	err    error
}

func (e *unusable) Error() string { return e.err.Error() }

func (e *unusable) Unwrap() error { return e.err }

// ask answers a question with its parameters, or what was posted.
func (s *site) ask(q question, query url.Values, body []byte) ([]byte, error) {
	values, faults := ask.FromQuery(q.fields, query)
	if len(faults) > 0 {
		return nil, faults
	}
	r, faults := ask.Read(s.engine.Reference, q.fields, values, sizing.Child{})
	if len(faults) > 0 {
		return nil, faults
	}
	answer, err := q.respond(s, r, body)
	if errors.Is(err, ask.ErrNoChild) {
		err = &ask.Fault{Field: "set", Err: errors.New("no child; give measurements as set=chest=53cm, or a size")}
	}
	return answer, err
}

// The media types of most answers.
const (
	mediaJSON = "application/json"
	mediaCSV  = "text/csv; charset=utf-8"
	mediaSVG  = "image/svg+xml"
)

// A reporter makes the document that a command of the same name prints.
type reporter func(*sizing.Reference, *ask.Request, tell.Style) (tell.Document, error)

// get is a question that is answered with a document.
func get(name, summary string, answer any, fields []ask.Field, report reporter) question {
	return question{name: name, summary: summary, method: http.MethodGet, media: mediaJSON, answer: answer, fields: fields, respond: written(report, "json")}
}

// written answers with a document in a format.
func written(report reporter, format string) func(*site, *ask.Request, []byte) ([]byte, error) {
	return func(s *site, r *ask.Request, _ []byte) ([]byte, error) {
		d, err := report(s.engine.Reference, r, tell.Style{})
		if err != nil {
			return nil, err
		}
		var out bytes.Buffer
		err = d.Write(&out, format, 0)
		return out.Bytes(), err
	}
}

// look is a question without parameters.
func look(name, summary string, answer any, of func(*sizing.Reference) tell.Document) question {
	return get(name, summary, answer, nil, func(ref *sizing.Reference, _ *ask.Request, _ tell.Style) (tell.Document, error) { return of(ref), nil })
}

func post(name, summary, body, media string, answer any, respond func(*site, []byte) ([]byte, error)) question {
	return question{name: name, summary: summary, method: http.MethodPost, media: media, body: body, answer: answer,
		respond: func(s *site, _ *ask.Request, body []byte) ([]byte, error) { return respond(s, body) }}
}

// questions are what is answered under /api/.
func questions(e Engine) []question {
	const rows = "rows with the columns of body.csv, as CSV"
	return []question{
		get("size", "Body measurements at one or more sizes, as growtuck size", tell.SizeDocument{}, ask.SizeQuery(), sizes),
		get("profile", "Which size each of a child's measurements is, as growtuck profile", tell.ProfileDocument{}, ask.ProfileFields(), profile),
		get("blend", "A child's measurements, those not taken filled in, as growtuck blend", tell.BlendDocument{}, ask.BlendQuery(), work.Blend),
		get("grow", "How a child grows, as growtuck grow", tell.GrowDocument{}, ask.GrowQuery(), work.Grow),
		get("wears", "From when until when a garment fits a child, or ages of a usual child, as growtuck wears", tell.WearsDocument{}, ask.WearsFields(), work.WearsOne),
		get("garments", "The garments and what they can have, as growtuck garment", tell.GarmentsDocument{}, nil,
			func(ref *sizing.Reference, _ *ask.Request, _ tell.Style) (tell.Document, error) {
				return tell.Garments(ref)
			}),
		get("garment", "Finished measurements of a garment, as growtuck garment", tell.GarmentDocument{}, ask.GarmentQuery(), work.Garment),
		get("plan", "Stitches and rows for a garment, as growtuck plan", oneOf{tell.PlanDocument{}, tell.GradedDocument{}, tell.ProgressDocument{}, tell.WeighedDocument{}}, ask.PlanFields(), work.Plan),
		{name: "draw", summary: "A garment drawn to scale, as growtuck draw", method: http.MethodGet, media: mediaSVG, fields: ask.DrawQuery(), respond: draw},
		post("check", "Faults and cautions of a draft, as growtuck check", "a draft: CSV, or a workbook that growtuck export wrote", mediaJSON, []tell.Finding{}, checkDraft),
		post("rows", "Faults of proposed chart rows, as growtuck rows", rows, mediaJSON, []tell.Finding{}, checkRows),
		post("review", "The review sheet of proposed chart rows, as growtuck rows --review", rows, "text/markdown; charset=utf-8", nil, review),
		look("charts", "The charts and their sizes, as growtuck charts", tell.ChartsDocument{}, tell.Charts),
		look("measurements", "The measurements and how to take them, as growtuck measurements", tell.MeasurementsDocument{}, tell.Measurements),
		look("additions", "Parts to sew on, as growtuck additions", tell.AdditionsDocument{}, tell.Additions),
		look("sources", "Where the figures come from, as growtuck sources", tell.SourcesDocument{}, tell.Sources),
		look("rules", "The rules that drafts and tables are checked by, as growtuck rules", tell.RulesDocument{}, func(*sizing.Reference) tell.Document { return tell.Rules() }),
		look("version", "The versions of the program and of its tables, as growtuck version", tell.Version{}, func(*sizing.Reference) tell.Document { return e.Version.Document() }),
	}
}

func sizes(ref *sizing.Reference, r *ask.Request, st tell.Style) (tell.Document, error) {
	return work.Sizes(ref, r, r.Run, st)
}

func profile(ref *sizing.Reference, r *ask.Request, st tell.Style) (tell.Document, error) {
	d, err := work.Profile(ref, r, st)
	if errors.Is(err, work.ErrNothingToFind) {
		err = fmt.Errorf("%w; give some as set=chest=53cm", err)
	}
	return d, err
}

func draw(s *site, r *ask.Request, _ []byte) ([]byte, error) {
	d, err := work.Draw(s.engine.Reference, r, tell.Style{Unit: r.Unit})
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	err = d.Panel.SVG(&out, d.Options)
	return out.Bytes(), err
}

// checkDraft checks a draft without the child's table that it may name: nothing on
// this machine is opened for whoever asks.
func checkDraft(s *site, body []byte) ([]byte, error) {
	findings, err := work.CheckDraft(s.engine.Reference, bytes.NewReader(body), "standard input", validate.Options{})
	return answerFindings(append(findings, validate.Unreadable(err)...), err)
}

func checkRows(s *site, body []byte) ([]byte, error) {
	tables, err := s.engine.Tables()
	if err != nil {
		return nil, err
	}
	findings, err := work.CheckProposal(body, "standard input", tables)
	if err == nil {
		err = work.Headless(findings)
		return answerFindings(findings, err)
	}
	return answerFindings(validate.Unreadable(err), err)
}

// answerFindings answers with findings, those that say why something cannot be used
// among them.
func answerFindings(findings []validate.Finding, err error) ([]byte, error) {
	var out bytes.Buffer
	if err := (tell.Style{}).WriteFindingsJSON(&out, findings); err != nil {
		return nil, err
	}
	if err != nil {
		return nil, &unusable{out.Bytes(), err}
	}
	return out.Bytes(), nil
}

func review(s *site, body []byte) ([]byte, error) {
	tables, err := s.engine.Tables()
	if err != nil {
		return nil, err
	}
	findings, err := work.CheckProposal(body, "standard input", tables)
	if err != nil {
		return nil, err
	}
	sheet, err := work.ReviewProposal(body, "standard input", tables)
	if err != nil {
		return nil, err
	}
	return tell.ReviewSheet(sheet, findings), nil
}

// downloads are the files that the page offers, by their names.
func downloads() map[string]question {
	csv := func(summary string, fields []ask.Field, report reporter) question {
		return question{summary: summary, media: mediaCSV, fields: fields, respond: written(report, "csv")}
	}
	return map[string]question{
		"body.csv":     csv("the body measurements", ask.BlendQuery(), work.Blend),
		"finished.csv": csv("the finished measurements", ask.GarmentQuery(), work.Garment),
		"plan.csv":     csv("the plan", ask.WholeFields(), work.Plan),
		"draft.csv":    {summary: "the plan as a draft for growtuck check", media: mediaCSV, fields: ask.WholeFields(), respond: draft},
		"plan.xlsx": {summary: "the plan as a workbook", media: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
			fields: ask.PlanFields(), respond: book},
		"pattern.html": pattern("the pattern, for print", "text/html; charset=utf-8"),
		"pattern.md":   pattern("the pattern as text", "text/markdown; charset=utf-8"),
		"drawing.svg":  {summary: "the drawing", media: mediaSVG, fields: ask.DrawQuery(), respond: draw},
	}
}

// pattern is the pattern as a file of the media type.
func pattern(summary, media string) question {
	return question{summary: summary, media: media, fields: ask.WholeFields(), respond: func(s *site, r *ask.Request, _ []byte) ([]byte, error) {
		p, err := work.MakePlan(s.engine.Reference, r)
		if err != nil {
			return nil, err
		}
		format := "markdown"
		if strings.HasPrefix(media, "text/html") {
			format = "html"
		}
		var out bytes.Buffer
		err = work.PatternOf(s.engine.Reference, r, tell.Style{Unit: r.Unit, Over4In: r.Over4In()}, p).Write(&out, format, 0)
		return out.Bytes(), err
	}}
}

func draft(s *site, r *ask.Request, _ []byte) ([]byte, error) {
	p, err := work.MakePlan(s.engine.Reference, r)
	if err != nil {
		return nil, err
	}
	return plan.DraftCSV(p.Draft)
}

func book(s *site, r *ask.Request, _ []byte) ([]byte, error) {
	e, err := work.ExportPlan(s.engine.Reference, r, tell.Style{Unit: r.Unit}, s.engine.Edition, "plan.xlsx")
	if err != nil {
		return nil, err
	}
	return e.Files[0].Content, nil
}

// takes reports whether a question has a field.
func (q question) takes(name string) bool {
	_, ok := ask.Lookup(q.fields, name)
	return ok
}

// ending is how a file's name ends.
func ending(name string) string { return name[strings.LastIndex(name, ".")+1:] }
