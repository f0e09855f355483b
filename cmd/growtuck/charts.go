package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/sizing"
)

func newChartsCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "charts",
		GroupID: groupLookUp,
		Short:   "The charts, their sizes and what to know about them",
		Long: `charts lists the size charts: on which scale their sizes stand (months or years of
age, height in cm, or mere names), from which size to which, and for whom.`,
		Example: `  growtuck charts
  growtuck charts --format json`,
		Args: noArguments,
		RunE: func(cmd *cobra.Command, args []string) error {
			ref, err := a.reference()
			if err != nil {
				return err
			}
			return a.print(chartsReport(ref))
		},
	}
}

type chartRecord struct {
	Chart  string   `json:"chart"`
	Title  string   `json:"title"`
	Scale  string   `json:"scale"`
	Sex    string   `json:"sex"`
	Sizes  []string `json:"sizes"`
	Source string   `json:"source"`
	Note   string   `json:"note"`
}

type chartsDocument struct {
	Charts  []chartRecord `json:"charts"`
	Credits []string      `json:"credits"`
}

func chartsReport(ref *sizing.Reference) report {
	r := report{heading: []string{"Charts, as --chart takes them"}}
	g := grid{columns: []column{{head: "chart"}, {head: "what it is", wrap: true}, {head: "scale"}, {head: "sizes"}, {head: "notes"}}}
	records := []chartRecord{}
	for _, c := range ref.Charts() {
		note := ""
		if c.Note != "" {
			note = r.notes.mark(c.Note)
		}
		r.sources = append(r.sources, c.Source)
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
			g.rows = append(g.rows, tableRow(id, title, scaleWords(run.Scale), sizesWords(rec), note))
			id, title, note = "", "", ""
		}
	}
	r.grids = []grid{g}
	r.sources = inOrder(r.sources)
	r.credits = creditLines(ref, r.sources)
	r.rows = records
	r.document = chartsDocument{records, r.credits}
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
