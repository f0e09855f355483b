package validate_test

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/fixture"
	"growtuck/testdata/samples"
	"growtuck/validate"
)

// What findings propose to change is there: an edit is of a field that drafts
// have, and begins from the value that the row has.
func TestEditsAreOfTheDraft(t *testing.T) {
	ref := samples.Reference(t)
	var fields []string
	for _, f := range validate.DraftFields() {
		fields = append(fields, f.Name)
	}
	paths, err := filepath.Glob(filepath.Join("testdata", "rules", "*.txt"))
	require.NoError(t, err)
	edits := 0
	for _, path := range paths {
		f, err := fixture.Read(path, draftFolder)
		require.NoError(t, err)
		draft, err := validate.ReadDraft(ref, strings.NewReader(f.Bad), "draft.csv", options().Open)
		require.NoError(t, err)
		findings, err := draft.Check(ref)
		require.NoError(t, err)
		for _, found := range findings {
			for _, e := range found.Edits() {
				edits++
				require.Contains(t, fields, e.Field, found)
				require.NotEqual(t, e.From, e.To, found)
				i := slices.IndexFunc(draft.Entries(), func(row *validate.Entry) bool {
					_, counted := e.From.(int)
					return row.Field == e.Field && row.Part == e.Part && counted == (row.Count > 0)
				})
				if i < 0 {
					continue // a row to add, or the sum of others
				}
				switch from := e.From.(type) {
				case int:
					require.Equal(t, draft.Entries()[i].Count, from, found)
					require.Equal(t, draft.Entries()[i].Unit, e.Unit, found)
				case sizing.Length:
					require.InDelta(t, draft.Entries()[i].Cm, float64(from), 1e-9, found)
				}
			}
		}
	}
	require.Greater(t, edits, 100)
}
