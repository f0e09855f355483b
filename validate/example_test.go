package validate_test

import (
	"fmt"
	"strings"

	"growtuck/sizing"
	"growtuck/validate"
)

// A sturdy two-year-old's trousers, drafted tighter at the hips than a classic fit. What is printed
// is for a program: the rule, the place, and the ids of the facts that it would put
// into words.
func ExampleCheckDraft() {
	ref, err := sizing.Default()
	if err != nil {
		fmt.Println(err)
		return
	}
	draft := strings.NewReader(`field,part,value,unit,note
garment,,trousers,,
fit,,classic,,
layer,,skin,,
body,height,88,cm,
body,hip,56,cm,
craft,,knit,,
stitch_gauge,,20,10 cm,
row_gauge,,28,10 cm,
finished,hip,52,cm,
`)
	findings, err := validate.CheckDraft(ref, draft, "trousers.csv", validate.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range findings {
		if f.Subject == "hip" {
			fmt.Println(f.Rule, f.Severity, f.Place(), f.Subject, f.Found.ID, f.Fix.ID)
		}
	}
	// Output:
	// U03 note trousers.csv:8:15 hip gauge.one-stitch fix.count-over
	// F02 warn trousers.csv:10:14 hip fit.other-class fix.with-slip
}
