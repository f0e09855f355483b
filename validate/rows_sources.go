package validate

import (
	"regexp"
	"strings"
	"sync"

	"growtuck/sizing"
)

// checkSources checks that a document is found by its locator: not by a page of the
// web, nor by a number that is mistyped.
func (ts *tableSet) checkSources() {
	for _, r := range ts.t.Sources {
		at := rowAt{ts: ts, rule: "R10", table: "sources.csv", line: r.Line, subject: r.ID}
		doi := doiWithin().FindString(r.Locator)
		switch {
		case r.Locator == "" || r.Locator == doi:
		case doi != "" && (webPage(r.Locator) || strings.EqualFold(strings.TrimSpace(r.Locator[:len(r.Locator)-len(doi)]), "doi:")):
			at.to(doCell(at.set("locator", doi))).suspect("locator", sizing.NewFact("rows.not-allowed", r.Locator), sizing.NewFact("rows.locator"))
		case webPage(r.Locator):
			at.suspect("locator", sizing.NewFact("rows.web-page", r.Locator), sizing.NewFact("rows.locator"))
		case placeholder().MatchString(r.Locator):
			at.suspect("locator", sizing.NewFact("rows.placeholder", r.Locator), sizing.NewFact("rows.locator"))
		case mistypedNumber(r.Locator):
			at.suspect("locator", sizing.NewFact("rows.check-digit", r.Locator), sizing.NewFact("rows.locator"))
		}
	}
}

// doiWithin is a DOI at the end of a text (ISO 26324).
var doiWithin = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`10\.[0-9]{4,9}/\S+$`) })

// mistypedNumber reports an ISBN or ISSN whose check digit is wrong (ISO 2108 and 3297).
func mistypedNumber(locator string) bool {
	kind, number, _ := strings.Cut(strings.ToUpper(locator), " ")
	digits := strings.NewReplacer("-", "", " ", "").Replace(number)
	ten := 0 // the sum of the digits, each by its place from the right
	thirteen := 0
	for i, d := range digits {
		v := int(d - '0')
		if d == 'X' && i == len(digits)-1 {
			v = 10
		} else if v < 0 || v > 9 {
			return kind == "ISBN" || kind == "ISSN"
		}
		ten += v * (len(digits) - i)
		thirteen += v * (1 + 2*(i%2))
	}
	switch {
	case kind == "ISBN" && len(digits) == 13:
		return thirteen%10 != 0
	case kind == "ISBN":
		return len(digits) != 10 || ten%11 != 0
	case kind == "ISSN":
		return len(digits) != 8 || ten%11 != 0
	}
	return false
}
