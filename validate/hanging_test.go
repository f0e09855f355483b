package validate_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/proof"
	"growtuck/validate"
)

// What hangs has one limit: every length over it is told the limit, and every length
// up to it passes, whatever hangs.
func TestHangingPartsHaveOneLimit(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	step := 8
	if proof.Whole() {
		step = 1
	}
	for _, height := range []float64{88, 110, 134, 152} {
		for _, field := range []string{"tail", "fringe", "tie"} {
			limits := map[string]int{}
			passed, stopped := 0, 0
			for cm := 5; cm <= 90; cm += step {
				draft := fmt.Sprintf("field,part,value,unit,note\ngarment,,one-piece,,\nfit,,classic,,\nlayer,,skin,,\nbody,height,%g,cm,\n%s,seat,%d,cm,\n", height, field, cm)
				findings, err := validate.CheckDraft(ref, strings.NewReader(draft), "draft.csv", validate.Options{})
				require.NoError(t, err)
				told := false
				for _, f := range findings {
					if f.Rule == "C04" && f.Fix.ID == "fix.shorter-than" {
						told = true
						limits[fmt.Sprint(f.Fix.Args...)]++
						require.Less(t, float64(f.Fix.Args[0].(sizing.Length)), float64(cm))
					}
				}
				if told {
					stopped++
				} else {
					require.Zero(t, stopped, "%s of %d cm passes where a shorter one does not", field, cm)
					passed++
				}
			}
			require.Len(t, limits, 1, "%s at %g cm", field, height)
			require.Positive(t, passed)
		}
	}
}
