package tell

import (
	"slices"

	"growtuck/sizing"
)

// CreditLines returns the credit lines that the sources used ask for; an empty
// list, not nil, where none does.
func CreditLines(ref *sizing.Reference, used []string) []string {
	lines := []string{}
	for _, s := range ref.Sources() {
		if s.CreditAsked == "yes" && slices.Contains(used, s.ID) {
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
