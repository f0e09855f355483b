package validate

import (
	"fmt"
	"strings"

	"growtuck/sizing"
)

// Gather says what is found of many rows for one cause once: of findings of a rule
// that say the same, the first stays, with the lines of the others. Findings about a
// file as a whole, and those that name different things, stay apart.
func Gather(findings []Finding) []Finding {
	first := make(map[string]int)
	var out []Finding
	for _, f := range findings {
		cause := strings.Join([]string{f.Rule, f.Severity.String(), f.File, f.Found.String(), f.Expected.String(), f.By.String(), remedy(f.Fix)}, "\x00")
		i, known := first[cause]
		switch {
		case f.Line == 0 || f.Likeliest():
			out = append(out, f)
		case known:
			out[i].Also = append(out[i].Also, f.Line)
		default:
			first[cause] = len(out)
			out = append(out, f)
		}
	}
	return out
}

// remedy is what a fix does, in whichever row.
func remedy(fix sizing.Fact) string {
	text := fix.ID
	for _, a := range fix.Args {
		if e, ok := a.(CellEdit); ok {
			e.Line, e.Key = 0, nil
			a = e
		}
		text += fmt.Sprintf(" %v", a)
	}
	return text
}
