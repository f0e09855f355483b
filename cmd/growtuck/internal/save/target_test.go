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

// What is private stays so while it is replaced, and a private file begins so, however
// new files are made.
func TestPrivateMeanwhile(t *testing.T) {
	defer syscall.Umask(syscall.Umask(0))
	dir := t.TempDir()
	path := filepath.Join(dir, "file")
	mode := func(name string) fs.FileMode {
		info, err := os.Stat(filepath.Join(dir, name))
		require.NoError(t, err)
		return info.Mode().Perm()
	}
	only := func() string {
		for _, name := range names(t, dir) {
			if name != "file" {
				return name
			}
		}
		return ""
	}
	p, err := BeginPrivate(path, false)
	require.NoError(t, err)
	require.Equal(t, fs.FileMode(0o600), mode(only()))
	require.NoError(t, p.Commit())
	require.Equal(t, fs.FileMode(0o600), mode("file"))
	for _, was := range []fs.FileMode{0o600, 0o644, 0o640} {
		require.NoError(t, os.Chmod(path, was))
		p, err = Begin(path, true)
		require.NoError(t, err)
		require.Zero(t, mode(only())&0o077, "nobody else reads it meanwhile")
		require.NoError(t, p.Commit())
		require.Equal(t, was, mode("file"))
	}
}

// What a killed run left is removed; what a run writes, and what is not ours, stays.
func TestSweep(t *testing.T) {
	dir := t.TempDir()
	write := func(name string) { require.NoError(t, os.WriteFile(filepath.Join(dir, name), nil, 0o600)) }
	for _, name := range []string{Prefix + "3w5e11264sgsf", Prefix + "x.csv", Prefix, "x.csv", Prefix + "UPPER"} {
		write(name)
	}
	require.NoError(t, os.Mkdir(filepath.Join(dir, Prefix+"folder"), 0o755))
	require.NoError(t, os.Symlink("x.csv", filepath.Join(dir, Prefix+"link")))
	p, err := Begin(filepath.Join(dir, "new.csv"), false)
	require.NoError(t, err)
	require.Equal(t, []string{filepath.Join(dir, Prefix+"3w5e11264sgsf")}, Sweep(filepath.Join(dir, "new.csv"), filepath.Join(dir, "other.csv")))
	require.NoError(t, p.Commit())
	require.FileExists(t, filepath.Join(dir, "new.csv"))
	require.Empty(t, Sweep(filepath.Join(dir, "new.csv")))
	require.Len(t, names(t, dir), 7)
}

// Of a set none is replaced where one cannot be written.
func TestSetIsReplacedAsOne(t *testing.T) {
	dir := t.TempDir()
	a, b := filepath.Join(dir, "a"), filepath.Join(dir, "gone", "b")
	require.NoError(t, os.WriteFile(a, []byte("old"), 0o600))
	require.Error(t, All("", []File{{a, []byte("new")}, {b, []byte("new")}}, true))
	require.Equal(t, "old", read(t, a))
	require.Equal(t, []string{"a"}, names(t, dir))
}
