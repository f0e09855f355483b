package main

import (
	"github.com/spf13/cobra"

	"growtuck/sizing"
)

func newSourcesCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "sources",
		GroupID: groupLookUp,
		Short:   "Where the figures come from, with credit lines",
		Long: `sources lists what the figures rest on, under the ids that the other commands
print: the document, its edition, the rights in it, and the line to credit it by.`,
		Example: `  growtuck sources
  growtuck sources --format markdown`,
		Args: noArguments,
		RunE: func(cmd *cobra.Command, args []string) error {
			ref, err := a.reference()
			if err != nil {
				return err
			}
			return a.print(sourcesReport(ref))
		},
	}
}

type sourceRecord struct {
	Source    string  `json:"source"`
	Title     string  `json:"title"`
	Publisher string  `json:"publisher"`
	Edition   string  `json:"edition"`
	Year      *figure `json:"year"`
	Rights    string  `json:"rights"`
	Credit    string  `json:"credit"`
}

type sourcesDocument struct {
	Sources []sourceRecord `json:"sources"`
	Credits []string       `json:"credits"`
}

func sourcesReport(ref *sizing.Reference) report {
	g := grid{columns: []column{{head: "source"}, {head: "title", wrap: true}}}
	records := []sourceRecord{}
	var used []string
	for _, s := range ref.Sources() {
		records = append(records, sourceRecord{s.ID, s.Title, s.Publisher, s.Edition, (*figure)(s.Year), s.Rights, s.Credit})
		used = append(used, s.ID)
		line := tableRow(s.ID, s.Title)
		line.under = []string{"published by: " + s.Publisher, "edition: " + s.Edition, "rights: " + s.Rights, "credit line: " + s.Credit}
		g.rows = append(g.rows, line)
	}
	return report{
		heading:  []string{"Sources, as the other commands name them"},
		grids:    []grid{g},
		credits:  creditLines(ref, used),
		rows:     records,
		document: sourcesDocument{records, creditLines(ref, used)},
	}
}
