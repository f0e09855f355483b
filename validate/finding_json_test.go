package validate_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/testdata/fixture"
	"growtuck/testdata/samples"
	"growtuck/validate"
)

// Findings of every rule, and those with advice, are read back from JSON as they were.
func TestFindingsComeBackFromJSON(t *testing.T) {
	ref := samples.Reference(t)
	var all []validate.Finding
	paths, err := filepath.Glob(filepath.Join("testdata", "rules", "*.txt"))
	require.NoError(t, err)
	for _, path := range paths {
		f, err := fixture.Read(path, draftFolder)
		require.NoError(t, err)
		all = append(all, check(t, ref, f.Bad)...)
	}
	slips, err := os.Open(filepath.Join(draftFolder, "cardigan-slips.csv"))
	require.NoError(t, err)
	defer slips.Close()
	advised, err := validate.CheckDraft(ref, slips, "cardigan-slips.csv", options())
	require.NoError(t, err)
	require.NotEmpty(t, advised[0].RowEdits())
	all = append(all, advised...)
	require.Greater(t, len(all), 300)

	text, err := json.Marshal(all)
	require.NoError(t, err)
	var back []validate.Finding
	require.NoError(t, json.Unmarshal(text, &back))
	require.Equal(t, all, back)
	require.Error(t, json.Unmarshal([]byte(`{"rule":"F01","severity":"grave"}`), &validate.Finding{}))
}
