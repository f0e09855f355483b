package validate_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/testdata/bounded"
	"growtuck/testdata/samples"
	"growtuck/validate"
)

// Whatever the bytes, a draft is checked or refused: no panic, every fault a
// place in the file, every finding whole.
func FuzzCheckDraft(f *testing.F) {
	drafts, err := filepath.Glob(filepath.Join(draftFolder, "*.csv"))
	require.NoError(f, err)
	for _, p := range drafts {
		text, err := os.ReadFile(p)
		require.NoError(f, err)
		f.Add(text)
	}
	f.Add([]byte(little))
	f.Add([]byte(settled))
	f.Add([]byte("field,part,value\n,,"))
	ref := samples.Reference(f)
	rules := make(map[string]validate.Rule)
	for _, r := range validate.DraftRules() {
		rules[r.Code] = r
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		defer bounded.By(t, 1<<30)()
		findings, err := validate.CheckDraft(ref, bytes.NewReader(text), "draft.csv", options())
		if err != nil {
			for _, f := range findings { // what was likely typed wrong, and explains something
				require.Equal(t, "L01", f.Rule)
				require.NotContains(t, f.String(), "slip.clears 0")
			}
			require.LessOrEqual(t, len(findings), 1)
			require.NotEmpty(t, err.Error())
			var joined interface{ Unwrap() []error }
			if errors.As(err, &joined) {
				for _, e := range joined.Unwrap() {
					var fault *data.Error
					require.ErrorAs(t, e, &fault)
				}
			}
			return
		}
		for _, f := range findings {
			r, known := rules[f.Rule]
			require.True(t, known, f.Rule)
			require.LessOrEqual(t, f.Severity, r.Severity)
			require.NotContains(t, f.String(), "NaN")
			require.NotContains(t, f.String(), "Inf")
			require.NotContains(t, f.String(), "%!")
		}
	})
}

func FuzzReadExceptions(f *testing.F) {
	f.Add([]byte("rule,file,subject,reason\nS04,cardigan.csv,front_left,double-breasted\n"))
	f.Add([]byte("rule,file,subject,reason\nS99,\"a.csv,,x\n\n#\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		defer bounded.By(t, 1<<30)()
		list, err := validate.ReadExceptions(bytes.NewReader(text), "known.csv")
		for _, e := range list {
			require.NotEmpty(t, e.Reason)
			require.NotZero(t, e.Line)
		}
		if err != nil {
			require.Contains(t, err.Error(), "known.csv")
		}
	})
}
