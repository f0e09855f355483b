package tell

import (
	"slices"
	"strings"

	"growtuck/sizing"
)

type chartRecord struct {
	Chart  string   `json:"chart" doc:"id of the chart"`
	Title  string   `json:"title" doc:"title in words"`
	Scale  string   `json:"scale" doc:"months, years, height or band; empty where the chart does not have the value"`
	Sex    string   `json:"sex" doc:"m, f or both"`
	Sizes  []string `json:"sizes" doc:"the sizes, in order"`
	Source string   `json:"source" doc:"id of the source"`
	Note   string   `json:"note" doc:"what to know about it; may be empty"`
}

// A ChartsDocument is the charts, as JSON.
type ChartsDocument struct {
	Charts  []chartRecord `json:"charts" doc:"the runs of sizes of all charts"`
	Credits []string      `json:"credits" doc:"credit lines that the sources used ask for"`
}

// Charts reports the charts.
func Charts(ref *sizing.Reference) Document {
	r := Document{Heading: []string{"Charts, by the ids that --chart takes"}}
	g := Table{Columns: []Column{{Head: "chart"}, {Head: "what it is", Wrap: true}, {Head: "scale"}, {Head: "sizes"}, {Head: "notes"}}}
	records := []chartRecord{}
	for _, c := range ref.Charts() {
		note := ""
		if c.Note != "" {
			note = r.Notes.mark(c.Note)
		}
		r.Sources = append(r.Sources, c.Source)
		id, title := c.ID, c.Title
		var scales []string
		for _, run := range c.Runs() {
			rec := chartRecord{Chart: c.ID, Title: c.Title, Scale: string(run.Scale), Sex: string(run.Sex), Source: c.Source, Note: c.Note}
			for _, m := range run.Sizes {
				rec.Sizes = append(rec.Sizes, m.Size)
			}
			records = append(records, rec)
			if len(rec.Sizes) == 0 || slices.Contains(scales, rec.Scale) {
				continue // the other sex: the same sizes, or nearly
			}
			scales = append(scales, rec.Scale)
			g.Rows = append(g.Rows, NewRow(id, title, scaleWords(run.Scale), sizesWords(rec), note))
			id, title, note = "", "", ""
		}
	}
	r.Tables = []Table{g}
	r.Sources = InOrder(r.Sources)
	r.Credits = CreditLines(ref, r.Sources)
	r.Rows = records
	r.JSON = ChartsDocument{records, r.Credits}
	return r
}

func scaleWords(s sizing.Scale) string {
	switch s {
	case sizing.Height:
		return "height, cm"
	case sizing.Band:
		return "names"
	}
	return string(s)
}

// sizesWords lists the sizes of a run, or its ends.
func sizesWords(r chartRecord) string {
	if r.Scale == string(sizing.Band) {
		return strings.Join(r.Sizes, ", ")
	}
	return r.Sizes[0] + " to " + r.Sizes[len(r.Sizes)-1]
}
