//go:build linux

package save

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// A set is written over another by a process of its own, which the test kills.
const setEnv = "GROWTUCK_SAVE_SET"

func TestMain(m *testing.M) {
	if folder := os.Getenv(setEnv); folder != "" {
		for i := range 1_000_000 {
			if err := All(folder, set(folder, strconv.Itoa(i)), true); err != nil {
				os.Exit(3)
			}
		}
	}
	os.Exit(m.Run())
}

// set is a dozen files of one content, long enough for a write to take its time.
func set(folder, content string) []File {
	var files []File
	for i := range 12 {
		files = append(files, File{filepath.Join(folder, strconv.Itoa(i)), bytes.Repeat([]byte(content+"\n"), 2000)})
	}
	return files
}

// Killed at any moment, a folder holds the files of one run, and all else that it held.
func TestSetsKilled(t *testing.T) {
	dir := t.TempDir()
	folder := filepath.Join(dir, "set")
	require.NoError(t, All(folder, set(folder, "first"), false))
	require.NoError(t, os.WriteFile(filepath.Join(folder, "own"), []byte("kept"), 0o600))
	require.NoError(t, os.MkdirAll(filepath.Join(folder, "deeper", "still"), 0o750))
	require.NoError(t, os.WriteFile(filepath.Join(folder, "deeper", "still", "own"), []byte("kept too"), 0o640))
	require.NoError(t, os.Symlink("own", filepath.Join(folder, "link")))
	require.NoError(t, os.Chmod(folder, 0o750))
	changed, swept := 0, 0
	last := []byte("first\n")
	for round := range 40 {
		c := exec.Command(os.Args[0])
		c.Env = append(os.Environ(), setEnv+"="+folder)
		require.NoError(t, c.Start())
		time.Sleep(time.Duration(5+round*37%160) * time.Millisecond)
		require.NoError(t, c.Process.Kill())
		require.Error(t, c.Wait())
		require.Equal(t, syscall.SIGKILL, c.ProcessState.Sys().(syscall.WaitStatus).Signal())

		content, err := os.ReadFile(filepath.Join(folder, "0"))
		require.NoError(t, err)
		for _, f := range set(folder, "") {
			got, err := os.ReadFile(f.Path)
			require.NoError(t, err)
			require.True(t, bytes.Equal(content, got), "a mix: %s of %.9q beside %.9q", f.Path, got, content)
		}
		if !bytes.Equal(content[:len(last)], last) {
			changed++
		}
		last = content[:bytes.IndexByte(content, '\n')+1]
		for path, want := range map[string]string{"own": "kept", "link": "kept", "deeper/still/own": "kept too"} {
			require.Equal(t, want, read(t, filepath.Join(folder, path)))
		}
		info, err := os.Stat(folder)
		require.NoError(t, err)
		require.Equal(t, fs.FileMode(0o750), info.Mode().Perm())
		swept += len(Sweep(folder))
		require.Equal(t, []string{"set"}, names(t, dir), "nothing else is left")
	}
	t.Logf("of 40 runs %d wrote a set to its end, %d were killed within one", changed, swept)
}

func TestSetsKeepWhatIsThere(t *testing.T) {
	for name, c := range map[string]struct {
		make func(t *testing.T, folder string)
		want string
	}{
		"a link among the files": {func(t *testing.T, folder string) {
			require.NoError(t, os.WriteFile(folder+"-real", []byte("elsewhere"), 0o644))
			require.NoError(t, os.Remove(filepath.Join(folder, "1")))
			require.NoError(t, os.Symlink(folder+"-real", filepath.Join(folder, "1")))
		}, "is a link, and the files of the folder are replaced as one"},
		"a pipe beside them": {func(t *testing.T, folder string) {
			require.NoError(t, syscall.Mkfifo(filepath.Join(folder, "pipe"), 0o600))
		}, "is not a file that can be overwritten"},
		"the folder one is in": {func(t *testing.T, folder string) { t.Chdir(folder) }, "is the folder that you are in"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			folder := filepath.Join(dir, "set")
			require.NoError(t, All(folder, set(folder, "old"), false))
			c.make(t, folder)
			before := read(t, filepath.Join(folder, "0"))
			err := All(folder, set(folder, "new"), true)
			var target *TargetError
			require.True(t, errors.As(err, &target), "%v", err)
			require.ErrorContains(t, err, c.want)
			require.Equal(t, before, read(t, filepath.Join(folder, "0")))
			require.NotContains(t, names(t, dir), Prefix)
			require.Empty(t, Sweep(folder), "nothing is left")
		})
	}
}

// Through a link to the folder the folder itself changes, and the link stays; files keep
// their permissions.
func TestSetsThroughALink(t *testing.T) {
	dir := t.TempDir()
	folder, link := filepath.Join(dir, "set"), filepath.Join(dir, "link")
	require.NoError(t, All(folder, set(folder, "old"), false))
	require.NoError(t, os.Chmod(filepath.Join(folder, "3"), 0o600))
	require.NoError(t, os.Symlink("set", link))
	require.NoError(t, All(link, set(link, "new"), true))
	require.Contains(t, read(t, filepath.Join(folder, "3")), "new")
	to, err := os.Readlink(link)
	require.NoError(t, err)
	require.Equal(t, "set", to)
	info, err := os.Stat(filepath.Join(folder, "3"))
	require.NoError(t, err)
	require.Equal(t, fs.FileMode(0o600), info.Mode())
	require.Equal(t, []string{"link", "set"}, names(t, dir))
}
