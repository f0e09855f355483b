package tell

import (
	"slices"

	"growtuck/sizing"
)

// creditAsked are the sources whose publishers ask that their credit line
// stands wherever their figures are shown.
var creditAsked = []string{"craft-2018"}

// CreditLines returns the credit lines that the sources used ask for; an empty
// list, not nil, where none does.
func CreditLines(ref *sizing.Reference, used []string) []string {
	lines := []string{}
	for _, s := range ref.Sources() {
		if slices.Contains(used, s.ID) && slices.Contains(creditAsked, s.ID) {
			lines = append(lines, s.Credit)
		}
	}
	return lines
}

// InOrder sorts and compacts ids of sources; an empty list where there are
// none.
func InOrder(ids []string) []string {
	sorted := slices.Sorted(slices.Values(ids))
	if sorted = slices.Compact(sorted); sorted == nil {
		return []string{}
	}
	return sorted
}
