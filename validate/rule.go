package validate

// Rule is an entry of the rule list. Codes are stable: a rule that goes leaves
// its code unused.
type Rule struct {
	Code     string   `json:"code"`     // as F01: a letter for the group, a number
	Group    string   `json:"group"`    // as "fit"
	Title    string   `json:"title"`    // one line
	Severity Severity `json:"severity"` // the worst it reports
}
