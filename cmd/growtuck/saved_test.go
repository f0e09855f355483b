package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/require"
)

// savings are how programs save a table in UTF-8 with LF and commas, if not so. No
// cell of the tables here has a comma or a semicolon.
var savings = map[string]func(string) string{
	"a mark":         func(s string) string { return "\ufeff" + s },
	"CR LF":          func(s string) string { return strings.ReplaceAll(s, "\n", "\r\n") },
	"CR":             func(s string) string { return strings.ReplaceAll(s, "\n", "\r") },
	"no end of line": func(s string) string { return strings.TrimSuffix(s, "\n") },
	"semicolons": func(s string) string {
		return strings.NewReplacer(",", ";", "0.5", "0,5", "6.5", "6,5").Replace(s)
	},
	"tabs":            func(s string) string { return strings.ReplaceAll(s, ",", "\t") },
	"UTF-16 LE":       func(s string) string { return wide("\ufeff"+s, 0) },
	"UTF-16 BE":       func(s string) string { return wide("\ufeff"+s, 1) },
	"UTF-16, no mark": func(s string) string { return wide(s, 0) },
	"UTF-16 as Unicode": func(s string) string {
		return wide("\ufeff"+strings.NewReplacer(",", "\t", "\n", "\r\n").Replace(s), 0)
	},
	"titles": func(s string) string {
		head, rest, _ := strings.Cut(s, "\n")
		return strings.ToUpper(strings.ReplaceAll(head, ",", " , ")) + "\n" + rest
	},
}

// wide is a text in UTF-16, the low byte at place low of two.
func wide(s string, low int) string {
	var out []byte
	for _, u := range utf16.Encode([]rune(s)) {
		two := [2]byte{}
		two[low], two[1-low] = byte(u), byte(u>>8)
		out = append(out, two[:]...)
	}
	return string(out)
}

const (
	savedChild = "measurement,value,unit\nname,Zoë,\nage,4½,\nheight,110.5,cm\nchest,53,cm\n"
	savedDraft = "field,part,value,unit,note\ngarment,,hat,,für Zoë\nfit,,classic,,\nlayer,,skin,,\nchild,,zoe.csv,,\nfinished,brim,46.5,cm,\nfinished,hat_height,30.5,cm,\n"
	savedKnown = "rule,file,subject,reason\nF01,hat.csv,brim,so it is für Zoë\n"
	savedRows  = "chart,size,sex,measurement,statistic,value,unit,source,where,basis,review,note\ncraft,4,both,chest,given,60.5,cm,craft-2018,p. 15,published,read twice,größer\n"
	savedList  = "id,name,age,height,chest\n1,Zoë,4,110.5,53\n2,Ada,5,116.5,55\n"
)

// Whatever reads a table reads it however it was saved.
func TestTablesAsTheyAreSaved(t *testing.T) {
	for _, c := range []struct {
		name, file, text string
		args             []string
	}{
		{"a child", "zoe.csv", savedChild, []string{"blend", "zoe.csv", "--format", "csv"}},
		{"a draft", "hat.csv", savedDraft, []string{"check", "hat.csv"}},
		{"the child of a draft", "zoe.csv", savedChild, []string{"check", "hat.csv"}},
		{"exceptions", "known.csv", savedKnown, []string{"check", "hat.csv", "--exceptions", "known.csv"}},
		{"proposed rows", "rows.csv", savedRows, []string{"rows", "rows.csv", "--review"}},
		{"a list", "list.csv", savedList, []string{"order", "list.csv", "--sizes", "4,6", "--format", "csv"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			t.Chdir(dir)
			for name, text := range map[string]string{"zoe.csv": savedChild, "hat.csv": savedDraft, "known.csv": savedKnown} {
				require.NoError(t, os.WriteFile(name, []byte(text), 0o600))
			}
			said := func(text string, more ...string) string {
				require.NoError(t, os.WriteFile(filepath.Join(dir, c.file), []byte(text), 0o600))
				_, stdout, stderr := try(t, "", append(c.args, more...)...)
				return loose(stdout + stderr)
			}
			want := said(c.text)
			require.NotContains(t, want, "is empty")
			for name, saved := range savings {
				require.Equal(t, want, said(saved(c.text)), name)
			}
			latin := []byte(nil)
			for _, r := range c.text {
				latin = append(latin, byte(r))
			}
			require.Contains(t, said(string(latin)), "give --latin-1")
			require.Equal(t, want, said(string(latin), "--latin-1"))
		})
	}
}

// loose leaves out where and how a file is to be rewritten, which R02 and the notes
// on form say.
func loose(out string) string {
	var kept []string
	for line := range strings.Lines(out) {
		if !strings.Contains(line, "R02") && !strings.Contains(line, "of severity") && !strings.Contains(line, "## Findings") && !strings.Contains(line, "note D0") && !strings.Contains(line, "findings") {
			kept = append(kept, strings.ReplaceAll(line, "30,5", "30.5")) // as the draft has it
		}
	}
	return strings.Join(kept, "")
}

// A table of the reference that a spreadsheet saved is put into canonical form.
func TestSavedTableIsRewritten(t *testing.T) {
	plain, err := os.ReadFile(filepath.Join("..", "..", "data", "ratios.csv"))
	require.NoError(t, err)
	require.False(t, bytes.ContainsAny(plain, ";\""))
	path := filepath.Join(t.TempDir(), "ratios.csv")
	for name, saved := range savings {
		require.NoError(t, os.WriteFile(path, []byte(saved(string(plain))), 0o600))
		code, _, stderr := try(t, "", "rows", "--write", path)
		require.Zero(t, code, stderr, name)
		got, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, string(plain), string(got), name)
	}
}
