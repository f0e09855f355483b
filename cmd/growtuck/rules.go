package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/validate"
)

func newRulesCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "rules",
		GroupID: groupLookUp,
		Short:   "The rules that drafts and tables are checked by",
		Long: `rules lists every rule with its code, which stays the same from one edition to
the next, and the worst that it reports: stop (do not start), warn (likely to
disappoint) or note (worth knowing).`,
		Example: `  growtuck rules
  growtuck rules --format markdown`,
		Args: noArguments,
		RunE: func(cmd *cobra.Command, args []string) error { return a.print(rulesReport()) },
	}
}

type ruleRecord struct {
	Rule     string `json:"rule"`
	Group    string `json:"group"`
	Severity string `json:"severity"`
	Title    string `json:"title"`
}

type rulesDocument struct {
	Rules []ruleRecord `json:"rules"`
}

func rulesReport() report {
	g := grid{columns: []column{{head: "rule"}, {head: "group"}, {head: "worst"}, {head: "what it reports", wrap: true}}}
	records := []ruleRecord{}
	for _, r := range slices.Concat(validate.DraftRules(), validate.RowRules()) {
		rec := ruleRecord{r.Code, r.Group, r.Severity.String(), strings.TrimSuffix(r.Title, ".")}
		records = append(records, rec)
		g.rows = append(g.rows, tableRow(rec.Rule, rec.Group, rec.Severity, rec.Title))
	}
	return report{
		heading:  []string{"Rules for drafts (growtuck check) and for tables (growtuck rows)"},
		grids:    []grid{g},
		rows:     records,
		document: rulesDocument{records},
	}
}
