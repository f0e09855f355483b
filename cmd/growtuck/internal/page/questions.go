package page

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"net/http"
	"slices"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
	"growtuck/validate"
)

// A question is something that is answered as the command of its name does. It must
// read no file that a parameter names.
type question struct {
	name, summary string
	method        string // GET or POST
	media         string // of the answer
	body          string // what is posted, in words; "" for nothing
	list          bool   // a list of children is posted
	fields        []ask.Field
	answer        any // a value of the answer's type, a oneOf, or nil where it is no JSON
	example       example
	// respond answers a request, or what was posted.
	respond func(s *site, r *ask.Request, body []byte) ([]byte, error)
}

// most is how many bytes may be posted.
func (q question) most() int64 {
	if q.list {
		return maxForm
	}
	return maxBody
}

// oneOf is an answer that has one of several types.
type oneOf []any

// Unusable is what was posted and cannot be used, with the findings that say why.
type unusable struct {
	findings []validate.Finding
	err      error
}

func (e *unusable) Error() string { return e.err.Error() }

func (e *unusable) Unwrap() error { return e.err }

// The media types of most answers.
const (
	mediaJSON = "application/json"
	mediaCSV  = "text/csv; charset=utf-8"
	mediaSVG  = "image/svg+xml"
)

// A reporter makes the document that a command of the same name prints.
type reporter func(*sizing.Reference, *ask.Request, tell.Style) (tell.Document, error)

// get is a question that is answered with a document.
func get(name, summary string, answer any, fields []ask.Field, ex example, report reporter) question {
	return question{name: name, summary: summary, method: http.MethodGet, media: mediaJSON, answer: answer, fields: fields, example: ex, respond: written(report, "json")}
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
	return get(name, summary, answer, nil, example{}, func(ref *sizing.Reference, _ *ask.Request, _ tell.Style) (tell.Document, error) { return of(ref), nil })
}

func post(name, summary, body, media string, answer any, ex string, respond func(*site, []byte) ([]byte, error)) question {
	return question{name: name, summary: summary, method: http.MethodPost, media: media, body: body, answer: answer, example: example{body: ex},
		respond: func(s *site, _ *ask.Request, body []byte) ([]byte, error) { return respond(s, body) }}
}

// questions are what is answered under /api/.
func questions(e Engine) []question {
	const rows = "rows with the columns of body.csv, as CSV"
	const children = "a list of children, a line each: CSV with a header, or lines of JSON"
	all := []question{
		{name: "", summary: "What can be asked", method: http.MethodGet, media: mediaJSON, answer: indexDocument{}, respond: index},
		get("size", "Body measurements at one or more sizes, as growtuck size", tell.SizeDocument{}, ask.SizeQuery(), sizeExample, sizes),
		get("profile", "Which size each of a child's measurements is, as growtuck profile", tell.ProfileDocument{}, ask.ProfileFields(), profileExample, profile),
		get("blend", "A child's measurements, those not taken filled in, as growtuck blend", tell.BlendDocument{}, ask.BlendQuery(), bodyExample, work.Blend),
		get("grow", "How a child grows, as growtuck grow", tell.GrowDocument{}, ask.GrowQuery(), bodyExample, work.Grow),
		get("wears", "From when until when a garment fits a child, or ages of a usual child, as growtuck wears", tell.WearsDocument{}, ask.WearsFields(), garmentExample, work.WearsOne),
		get("garments", "The garments and what they can have, as growtuck garment", tell.GarmentsDocument{}, nil, example{},
			func(ref *sizing.Reference, _ *ask.Request, _ tell.Style) (tell.Document, error) {
				return tell.Garments(ref)
			}),
		get("garment", "Finished measurements of a garment, as growtuck garment", tell.GarmentDocument{}, ask.GarmentQuery(), garmentExample, work.Garment),
		get("plan", "Stitches and rows for a garment, as growtuck plan", oneOf{tell.PlanDocument{}, tell.GradedDocument{}, tell.ProgressDocument{}, tell.WeighedDocument{}}, ask.PlanFields(), planExample, work.Plan),
		{name: "draw", summary: "A garment drawn to scale, as growtuck draw", method: http.MethodGet, media: mediaSVG, fields: ask.DrawQuery(), example: garmentExample, respond: draw},
		{name: "batch", summary: "Sizes and measurements for each child of a list, as growtuck batch", method: http.MethodPost, media: mediaJSON, body: children, list: true,
			fields: ask.BatchFields(), answer: tell.BatchDocument{}, example: batchExample, respond: batch},
		{name: "order", summary: "How many of each size to make for a list of children, as growtuck order", method: http.MethodPost, media: mediaJSON, body: children, list: true,
			fields: ask.OrderFields(), answer: tell.OrderAnswer{}, example: orderExample, respond: order},
		post("check", "Faults and cautions of a draft, as growtuck check", "a draft: CSV, or a workbook that growtuck export wrote", mediaJSON, []tell.Finding{}, draftExample, checkDraft),
		post("rows", "Faults of proposed chart rows, as growtuck rows", rows, mediaJSON, []tell.Finding{}, rowsExample, checkRows),
		post("review", "The review sheet of proposed chart rows, as growtuck rows --review", rows, "text/markdown; charset=utf-8", nil, rowsExample, review),
		look("charts", "The charts and their sizes, as growtuck charts", tell.ChartsDocument{}, tell.Charts),
		look("measurements", "The measurements and how to take them, as growtuck measurements", tell.MeasurementsDocument{}, tell.Measurements),
		look("additions", "Parts to sew on, as growtuck additions", tell.AdditionsDocument{}, tell.Additions),
		look("sources", "Where the figures come from, as growtuck sources", tell.SourcesDocument{}, tell.Sources),
		look("rules", "The rules that drafts and tables are checked by, as growtuck rules", tell.RulesDocument{}, func(*sizing.Reference) tell.Document { return tell.Rules() }),
		look("version", "The versions of the program and of its tables, as growtuck version", tell.Version{}, func(*sizing.Reference) tell.Document { return e.Version.Document() }),
	}
	files := downloads()
	for _, name := range slices.Sorted(maps.Keys(files)) {
		q := files[name]
		q.name, q.summary, q.method = "export/"+name, "A file to keep, as growtuck export: "+q.summary, http.MethodGet
		all = append(all, q)
	}
	return all
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
	if err != nil {
		return nil, &unusable{findings, err}
	}
	var out bytes.Buffer
	err = (tell.Style{}).WriteFindingsJSON(&out, findings)
	return out.Bytes(), err
}

func review(s *site, body []byte) ([]byte, error) {
	tables, err := s.engine.Tables()
	if err != nil {
		return nil, err
	}
	findings, err := work.CheckProposal(body, "standard input", tables)
	if err != nil {
		return nil, &unusable{validate.Unreadable(err), err}
	}
	sheet, err := work.ReviewProposal(body, "standard input", tables)
	if err != nil {
		return nil, &unusable{findings, err}
	}
	return tell.ReviewSheet(sheet, findings), nil
}
