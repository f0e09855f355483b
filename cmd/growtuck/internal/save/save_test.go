package save

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func read(t *testing.T, path string) string {
	t.Helper()
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(content)
}

func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	var all []string
	for _, e := range entries {
		all = append(all, e.Name())
	}
	return all
}

func TestOne(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "x.csv")
	one, two := File{path, []byte("one")}, File{path, []byte("two")}
	require.NoError(t, One(one, false))
	err := One(two, false)
	require.EqualError(t, err, path+" already exists; use --force to overwrite")
	var target *TargetError
	require.ErrorAs(t, err, &target)
	require.Equal(t, "one", read(t, path))
	require.NoError(t, One(two, true))
	require.Equal(t, "two", read(t, path))

	// A folder cannot be replaced by a file, and nothing else is left.
	require.NoError(t, os.Mkdir(filepath.Join(dir, "folder"), 0o755))
	require.ErrorAs(t, One(File{filepath.Join(dir, "folder"), nil}, true), &target)
	require.ErrorIs(t, One(File{filepath.Join(dir, "none", "x.csv"), nil}, false), fs.ErrNotExist)
	require.Equal(t, []string{"folder", "x.csv"}, names(t, dir))
}

func TestAllWritesAllOrNone(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new")
	files := []File{{filepath.Join(dir, "a"), []byte("1")}, {filepath.Join(dir, "b"), []byte("2")}}
	require.NoError(t, All(dir, files[1:], false))
	require.EqualError(t, All(dir, files, false), files[1].Path+" already exists; use --force to overwrite")
	require.Equal(t, []string{"b"}, names(t, dir))
	require.NoError(t, All(dir, files, true))
	require.Equal(t, []string{"a", "b"}, names(t, dir))
}

func TestPending(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "x")
	for _, commit := range []bool{false, true} {
		p, err := Begin(path, false)
		require.NoError(t, err)
		_, err = p.Write([]byte("content"))
		require.NoError(t, err)
		require.NoFileExists(t, path, "until it is whole")
		require.Len(t, names(t, dir), 1)
		if !commit {
			p.Discard()
			require.Empty(t, names(t, dir))
			continue
		}
		require.NoError(t, p.Commit())
		require.Equal(t, "content", read(t, path))
	}
}

// A file that was created while another was written stays.
func TestPendingDoesNotReplaceWhatCameMeanwhile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "x")
	p, err := Begin(path, false)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, []byte("first"), 0o600))
	require.ErrorIs(t, p.Commit(), fs.ErrExist)
	require.Equal(t, "first", read(t, path))
	require.Equal(t, []string{"x"}, names(t, dir))
}
