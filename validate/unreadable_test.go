package validate_test

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/testdata/samples"
	"growtuck/validate"
)

// Each fault of a draft that cannot be read is a finding at its place; a draft
// that can be read has none.
func TestUnreadable(t *testing.T) {
	ref := samples.Reference(t)
	text, err := os.ReadFile(filepath.Join(draftFolder, "trousers.csv"))
	require.NoError(t, err)
	_, err = validate.CheckDraft(ref, strings.NewReader(string(text)), "draft.csv", validate.Options{})
	require.NoError(t, err)
	require.Empty(t, validate.Unreadable(err))

	bad := strings.NewReplacer("fit,,classic", "fit,,snug", "finished,thigh,37.6,cm", "finished,thigh,abc,cm").Replace(string(text))
	_, err = validate.CheckDraft(ref, strings.NewReader(bad), "draft.csv", validate.Options{})
	require.Error(t, err)
	found := validate.Unreadable(err)
	require.Len(t, found, 2)
	require.Equal(t, [3]int{4, 6, int(validate.Stop)}, [3]int{found[0].Line, found[0].Column, int(found[0].Severity)})
	require.Equal(t, "draft.csv", found[1].File)
	require.Contains(t, found[1].Found.String(), `"abc"`)
	for _, f := range found {
		require.Equal(t, "D06", f.Rule)
	}

	plain := validate.Unreadable(&fs.PathError{Op: "open", Path: "x.csv", Err: errors.New("no such file")})
	require.Len(t, plain, 1)
	require.Equal(t, "open x.csv: no such file", plain[0].Found.String())
}

// A yoke whose split is not given was not checked, and that is said.
func TestYokeWithoutItsSplit(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(draftFolder, "pram-suit.csv"))
	require.NoError(t, err)
	var kept []string
	for line := range strings.Lines(string(text)) {
		if !strings.HasPrefix(line, "split,") {
			kept = append(kept, line)
		}
	}
	ref := samples.Reference(t)
	require.Empty(t, ofRule(check(t, ref, string(text)), "S14"))
	found := ofRule(check(t, ref, strings.Join(kept, "")), "S14")
	require.Len(t, found, 1)
	require.Equal(t, "split", found[0].Subject)
	require.Equal(t, "yoke.no-split", found[0].Found.ID)
}
