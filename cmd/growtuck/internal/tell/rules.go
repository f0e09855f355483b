package tell

import (
	"slices"
	"strings"

	"growtuck/validate"
)

type ruleRecord struct {
	Rule     string `json:"rule" doc:"code of the rule"`
	Group    string `json:"group" doc:"group of the rule"`
	Severity string `json:"severity" doc:"stop, warn or note; of a rule, the worst that it reports"`
	Title    string `json:"title" doc:"title in words"`
}

// A RulesDocument is the rules, as JSON.
type RulesDocument struct {
	Rules []ruleRecord `json:"rules" doc:"the rules of drafts and of tables"`
}

// Rules reports the rules for drafts and tables.
func Rules() Document {
	g := Table{Columns: []Column{{Head: "rule"}, {Head: "group"}, {Head: "worst"}, {Head: "what it reports", Wrap: true}}}
	records := []ruleRecord{}
	for _, r := range slices.Concat(validate.DraftRules(), validate.RowRules()) {
		rec := ruleRecord{r.Code, r.Group, r.Severity.String(), strings.TrimSuffix(r.Title, ".")}
		records = append(records, rec)
		g.Rows = append(g.Rows, NewRow(rec.Rule, rec.Group, rec.Severity, rec.Title))
	}
	return Document{
		Heading: []string{"Rules for drafts (growtuck check) and for tables (growtuck rows)"},
		Tables:  []Table{g},
		Rows:    records,
		JSON:    RulesDocument{records},
	}
}
