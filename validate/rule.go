package validate

// Rule is an entry of the rule list. Codes are stable: the code of a removed rule
// is not used again.
type Rule struct {
	Code     string   `json:"code"`     // such as F01: a letter for the group, a number
	Group    string   `json:"group"`    // as "fit"
	Title    string   `json:"title"`    // one line
	Severity Severity `json:"severity"` // the highest severity it reports
}
