//go:build unix

package work

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/testdata/samples"
)

// A job that checks drafts from elsewhere can trust it: the child that a draft names is
// a regular file inside the draft's folder, and no message holds more than 80
// characters of any file.
func TestChildStaysInTheDraftsFolder(t *testing.T) {
	dir := t.TempDir()
	drafts := filepath.Join(dir, "drafts")
	require.NoError(t, os.MkdirAll(filepath.Join(drafts, "in"), 0o755))
	const child = "measurement,value,unit\nhead,51,cm\nheight,104,cm\n"
	secret := "TOKEN=" + strings.Repeat("secret", 50)
	write := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	write("outside.csv", secret)
	write("child.csv", child)
	write("drafts/in/child.csv", child)
	write("drafts/long.csv", secret)
	write("drafts/bytes.csv", "\x00\x01\x02"+secret)
	link := func(to, name string) { require.NoError(t, os.Symlink(to, filepath.Join(drafts, name))) }
	link("../outside.csv", "leads-out.csv")
	link(filepath.Join(dir, "outside.csv"), "absolute.csv")
	link("..", "up")
	link("in/child.csv", "stays.csv")
	link("itself.csv", "itself.csv")
	require.NoError(t, syscall.Mkfifo(filepath.Join(drafts, "pipe.csv"), 0o600))
	decode := func(p string) (string, error) {
		path := filepath.Join(drafts, "hat.csv")
		draft := "field,part,value,unit,note\ngarment,,hat,,\nfit,,classic,,\nlayer,,skin,,\nfinished,brim,46,cm,\nfinished,hat_height,19,cm,\nchild,," + p + ",,\n"
		require.NoError(t, os.WriteFile(path, []byte(draft), 0o600))
		_, err := CheckDraftFile(samples.Reference(t), path, nil, nil, plainText)
		if err != nil {
			return err.Error(), err
		}
		return "", nil
	}
	for _, p := range []string{"in/child.csv", "stays.csv", "in/../in/child.csv", `in\child.csv`} {
		said, err := decode(p)
		require.NoError(t, err, "%s: %s", p, said)
	}
	for _, p := range []string{"../child.csv", "../outside.csv", "in/../../outside.csv", "/etc/passwd", "../../../../../proc/self/environ", "/proc/self/environ", `..\outside.csv`, "C:/child.csv",
		"leads-out.csv", "absolute.csv", "up/outside.csv", "itself.csv", "pipe.csv", "in", ".", "nobody.csv", "long.csv", "bytes.csv", strings.Repeat("x/", 150)} {
		said, err := decode(p)
		require.Error(t, err, p)
		require.LessOrEqual(t, strings.Count(said, "secret"), 14, said) // 80 characters hold no more
		if p != "long.csv" {
			require.NotContains(t, said, "secret", p)
		}
		require.NotContains(t, said, "root:", p)
		for line := range strings.Lines(said) {
			require.Less(t, len(line), 400, p)
		}
	}
}

func plainText(in io.Reader) io.Reader { return in }
