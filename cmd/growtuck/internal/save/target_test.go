//go:build unix

package save

import (
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// What cannot be overwritten stays, replaced or not.
func TestTargets(t *testing.T) {
	dir := t.TempDir()
	path := func(name string) string { return filepath.Join(dir, name) }
	require.NoError(t, os.Mkdir(path("folder"), 0o755))
	require.NoError(t, os.WriteFile(path("file"), []byte("old"), 0o644))
	require.NoError(t, syscall.Mkfifo(path("pipe"), 0o644))
	for name, to := range map[string]string{"link-to-nowhere": "nowhere", "link-to-itself": "link-to-itself", "link-to-folder": "folder", "link-to-device": os.DevNull} {
		require.NoError(t, os.Symlink(to, path(name)))
	}
	before := names(t, dir)
	for _, c := range []struct {
		name    string
		replace bool
		want    string // of a TargetError
	}{
		{"file", false, path("file") + " " + exists},
		{"folder", false, path("folder") + " " + isFolder},
		{"folder", true, path("folder") + " " + isFolder},
		{"pipe", false, path("pipe") + " " + exists},
		{"pipe", true, path("pipe") + " " + notRegular},
		{"link-to-nowhere", false, path("link-to-nowhere") + " " + exists},
		{"link-to-nowhere", true, path("link-to-nowhere") + " " + brokenLink},
		{"link-to-itself", true, path("link-to-itself") + " " + brokenLink},
		{"link-to-folder", true, path("folder") + " " + notRegular},
		{"link-to-device", true, os.DevNull + " " + notRegular},
	} {
		err := One(File{path(c.name), []byte("new")}, c.replace)
		require.EqualError(t, err, c.want)
		require.IsType(t, &TargetError{}, err)
	}
	err := One(File{path("file/deeper"), nil}, true)
	require.EqualError(t, err, "write "+path("file/deeper")+": not a directory")
	require.Equal(t, before, names(t, dir))
	require.Equal(t, "old", read(t, path("file")))
}

// A link is followed, and stays one; permissions are kept.
func TestReplacedThroughALink(t *testing.T) {
	dir := t.TempDir()
	file, link := filepath.Join(dir, "file"), filepath.Join(dir, "link")
	require.NoError(t, os.WriteFile(file, []byte("old"), 0o600))
	require.NoError(t, os.Symlink("file", link))
	require.NoError(t, One(File{link, []byte("new")}, true))
	require.Equal(t, "new", read(t, file))
	info, err := os.Lstat(link)
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&fs.ModeSymlink)
	info, err = os.Stat(file)
	require.NoError(t, err)
	require.Equal(t, fs.FileMode(0o600), info.Mode())
}

// A file that breaks off while it is written is removed, and the error names the
// file that was asked for.
func TestFailedWrite(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "x")
	p, err := Begin(path, false)
	require.NoError(t, err)
	require.NoError(t, p.file.Close())
	_, err = p.Write([]byte("content"))
	require.EqualError(t, err, "write "+path+": file already closed")
	require.ErrorIs(t, p.Commit(), fs.ErrClosed)
	require.Empty(t, names(t, dir))
}
