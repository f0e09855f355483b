package page

import (
	"bytes"
	"io"
	"net/http"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// downloads are the files that the page offers and /api/export/ answers with, by their
// names.
func downloads() map[string]question {
	csv := func(summary string, fields []ask.Field, ex example, report reporter) question {
		return question{summary: summary, media: mediaCSV, fields: fields, example: ex, respond: written(report, "csv")}
	}
	pattern := func(summary, media, format string) question {
		return question{summary: summary, media: media, fields: ask.Exported(ask.WholeFields()), example: planExample,
			respond: func(s *site, r *ask.Request, body []byte) ([]byte, error) {
				report := written(func(ref *sizing.Reference, r *ask.Request, _ tell.Style) (tell.Document, error) {
					return work.Pattern(ref, r, tell.Style{Unit: r.Unit})
				}, format)
				return report(s, r, body)
			}}
	}
	blank := func(name, summary string) question {
		return question{summary: summary, media: mediaXLSX, respond: func(s *site, _ *ask.Request, _ []byte) ([]byte, error) {
			return work.XLSX(work.BlankBook(s.engine.Reference, name))
		}}
	}
	return map[string]question{
		"body.csv":      csv("the body measurements", ask.BodyQuery(), bodyExample, work.Bodies),
		"finished.csv":  csv("the finished measurements", ask.FinishedQuery(), garmentExample, work.FinishedOf),
		"plan.csv":      csv("the plan", ask.WholeFields(), planExample, work.Plan),
		"draft.csv":     {summary: "the plan as a draft for growtuck check", media: mediaCSV, fields: ask.DraftFields(), example: planExample, respond: draft},
		"plan.xlsx":     {summary: "the plan as a workbook", media: mediaXLSX, fields: ask.Exported(ask.PlanFields()), example: planExample, respond: book},
		"pattern.html":  pattern("the pattern, for print", "text/html; charset=utf-8", "html"),
		"pattern.md":    pattern("the pattern as text", "text/markdown; charset=utf-8", "markdown"),
		"drawing.svg":   {summary: "the drawing", media: mediaSVG, fields: ask.DrawQuery(), example: garmentExample, respond: draw},
		"measuring.svg": {summary: "where to measure", media: mediaSVG, fields: ask.Named("sex", "age"), example: measuringExample, respond: measuring},
		"drawing.png":   {summary: "the drawing as a picture", media: "image/png", fields: ask.DrawQuery(), example: garmentExample, respond: drawPNG},
		"child.xlsx":    blank("child.xlsx", "a form for a child's measurements"),
		"draft.xlsx":    blank("draft.xlsx", "a form for a draft"),
	}
}

const mediaXLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"

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

func measuring(s *site, r *ask.Request, _ []byte) ([]byte, error) {
	var out bytes.Buffer
	err := work.MeasuringOf(s.engine.Reference, r.Child).SVG(&out)
	return out.Bytes(), err
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

func drawPNG(s *site, r *ask.Request, _ []byte) ([]byte, error) {
	d, err := work.Draw(s.engine.Reference, r, tell.Style{Unit: r.Unit})
	if err != nil {
		return nil, err
	}
	return d.PNG()
}

// file answers with a file of the maker's view. Its address is that of the view.
func (s *site) file(w http.ResponseWriter, r *http.Request) {
	s.answerFile(w, r, s.readState(r.URL.RawQuery))
}

// fileOfSizes answers with a file of the designer's view.
func (s *site) fileOfSizes(w http.ResponseWriter, r *http.Request) {
	s.answerFile(w, r, s.designerState(r.URL.RawQuery))
}

func (s *site) answerFile(w http.ResponseWriter, r *http.Request, st *state) {
	name := r.PathValue("name")
	q, ok := s.downloads[name]
	if !ok {
		http.NotFound(w, r)
		return
	}
	st.ctx = r.Context()
	out, err := s.fileOf(st, q)
	if err != nil {
		w.Header().Set("Content-Type", "text/plain; charset=utf-8")
		w.WriteHeader(http.StatusBadRequest)
		_, _ = io.WriteString(w, "This address does not give "+q.summary+":\n"+err.Error()+"\n")
		return
	}
	file := name
	if _, err := s.engine.Reference.Parts(st.Garment); err == nil && q.takes("garment") { // not every file takes the garment, which may be any text
		file = st.Garment + "-" + name
	}
	w.Header().Set("Content-Disposition", `attachment; filename="`+file+`"`)
	writeAnswer(w, http.StatusOK, q.media, out)
}

// fileOf makes a file of a state.
func (s *site) fileOf(st *state, q question) ([]byte, error) {
	if !q.takes("size") { // it takes one for widths and one for lengths
		for _, name := range []string{"widths", "lengths"} {
			if size := st.raw.Get("size"); size != "" && !st.raw.Has(name) {
				st.raw.Set(name, size)
			}
		}
	}
	r, faults := s.request(st, q.fields)
	if len(faults) > 0 {
		return nil, faults
	}
	r.FromFile = len(r.Run) == 0 // a run of sizes is for no child
	if st.Value("tape") == "in" {
		r.Unit = "in"
	}
	return q.respond(s, r, nil)
}

// takes reports whether a question has a field.
func (q question) takes(name string) bool {
	_, ok := ask.Lookup(q.fields, name)
	return ok
}

// ending is how a file's name ends.
func ending(name string) string { return name[strings.LastIndex(name, ".")+1:] }
