package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/testdata/proof"
)

const noChild = ""

// try runs the program in memory.
func try(t *testing.T, stdin string, args ...string) (code int, stdout, stderr string) {
	t.Helper()
	var out, err bytes.Buffer
	code = run(args, strings.NewReader(stdin), &out, &err)
	return code, out.String(), err.String()
}

func TestExitCodes(t *testing.T) {
	sample := filepath.Join("..", "..", "testdata", "children", "ines.csv")
	tests := []struct {
		args   string
		code   int
		stderr string // contained
	}{
		{"size 3", 0, ""},
		{"--help", 0, ""},
		{"help size", 0, ""},
		{"blend " + sample, 0, ""},

		{"size 20", 2, "size 20 is outside chart child"},
		{"size 3 --chart chld", 2, `unknown chart "chld"; did you mean "child"?`},
		{"size 3 --sex q", 2, `sex "q" is not one of m, f, both`},
		{"size 3 --only chst", 2, `unknown measurement "chst"; did you mean "chest"?`},
		{"blend -", 2, "standard input: is empty"},
		{"blend --sex m", 1, "nothing to estimate from"},
		{"blend --set chest=4furlong", 2, `unknown unit "furlong"`},
		{"garment pulover --size 3", 2, `did you mean "pullover"?`},
		{"garment hat --size 3 --growth 9", 2, `growth "9": want a number from 0 to 4`},
		{"garment hat --size 3 --growth NaN", 2, `growth "NaN": want a number from 0 to 4`},

		{"", 2, "no command given"},
		{"siz 3", 2, `unknown command "siz"; did you mean "size"?`},
		{"wander", 2, `unknown command "wander"; growtuck --help lists them`},
		{"help wander", 2, `unknown command "wander"`},
		{"completion csh", 2, "completion is for one of bash"},
		{"size", 2, "no size given"},
		{"size 3 --colour", 2, "unknown flag: --colour"},
		{"size 3 --format", 2, "flag needs an argument: --format"},
		{"size 3 --format xml", 2, `unknown format "xml"`},
		{"size -3", 2, "unknown shorthand flag"},
		{"blend", 2, "no child"},
		{"profile", 2, "no child"},
		{"blend a.csv b.csv", 2, `one child at a time; leave "b.csv" out`},
		{"blend --set chest", 2, `"chest": want a measurement and its value`},
		{"blend --set chest=53 --widths 2", 2, "widths without lengths"},
		{"blend --set chest=53 --lengths 2", 2, "lengths without widths"},
		{"blend --set chest=53 --chart craft", 2, "chart needs a size"},
		{"garment hat", 2, "no child"},
		{"garment --size 3", 2, "no garment given"},
		{"garment hat --size 3 --widths 2", 2, "size is for everything"},
		{"garment hat --size 3 --growth abc", 2, `growth "abc": want a number from 0 to 4`},
		{"garment hat --size 3 --extra brim", 2, `extra "brim": want a part and a length`},
		{"garment hat --size 3 --extra brim=1 --extra brim=2", 2, "extra brim is given twice"},
		{"plan hat --sizes 2,2 --craft knit --gauge 18x24/10cm", 2, "sizes 2,2: 2 is the same size as 2; name each once"},
		{"plan hat --sizes 2,4,2y --craft knit --gauge 18x24/10cm", 2, "2y is the same size as 2"},
		{"export a.xlsx hat --size 2 --sizes 4,4 --craft knit --gauge 18x24/10cm", 2, "4 is the same size as 4"},
		{"tables", 2, "tables takes one folder"},
		{"version 2", 2, "version takes no arguments"},
	}
	for _, tt := range tests {
		t.Run(tt.args, func(t *testing.T) {
			code, stdout, stderr := try(t, noChild, strings.Fields(tt.args)...)
			require.Equal(t, tt.code, code, "exit code; standard error: %s", stderr)
			if tt.code == 0 {
				require.NotEmpty(t, stdout)
				require.Empty(t, stderr)
				return
			}
			require.Empty(t, stdout)
			require.Contains(t, stderr, tt.stderr)
			for line := range strings.Lines(stderr) {
				require.True(t, strings.HasPrefix(line, "growtuck: "), line)
			}
		})
	}
}

// odd are arguments that nobody should give.
var odd = []string{
	"", " ", "-", "--", "=", "chest=", "=53", "chest==", "chest=-5", "chest=0", "chest=1e999", "chest=NaN", "chest=Inf",
	"chest=99999999999999999999", "height=1", "height=999", "0", "-0", "00", "1e3", "NaN", "Inf", "-1", "3..5", "3,5", "0cm", "999cm",
	"1/0", "1/2", "99999999999999999999m", "3y99m", "0y", "toddler", "\x00", "\xff\xfe", "\x1b[31m", "ÿ", "½", "男の子", strings.Repeat("9", 5000),
	strings.Repeat("a", 5000), "../../..", "/dev/null", ".", "%s%n", "m", "2-4",
}

// By default each odd argument goes through a third of the forms.
func TestOddArgumentsDoNotPanic(t *testing.T) {
	t.Parallel()
	forms := []string{
		"size %s", "size %s --chart craft-head", "size %s --chart measured --sex f", "size %s --chart craft-foot --linear",
		"size 3 %s --format json", "size 3 --chart %s", "size 3 --only %s", "size 3 --sex %s", "size 3 --format %s", "size 3 --unit %s",
		"blend %s", "blend --set %s", "blend --set chest=53 --set %s", "blend --set chest=53 --age %s", "blend --set chest=53 --widths %s --lengths 3",
		"blend --set height=100 --set %s --format csv",
		"profile --set %s", "profile --set chest=53 --chart %s",
		"garment %s", "garment %s --size 3", "garment hat --size %s", "garment hat --size 3 --fit %s", "garment hat --size 3 --layer %s",
		"garment hat --size 3 --growth %s", "garment hat --size 3 --option %s", "garment hat --size 3 --extra %s", "garment hat --size 3 --extra brim=%s",
		"charts %s", "sources --tables %s", "help %s", "%s", "completion %s",
	}
	for i, form := range forms {
		for j, arg := range odd {
			if (i+j)%3 != 0 && !proof.Whole() {
				continue
			}
			var args []string
			for _, word := range strings.Fields(form) {
				args = append(args, strings.ReplaceAll(word, "%s", arg))
			}
			code, _, stderr := try(t, "", args...)
			if code != 0 && code != 1 && code != 2 {
				t.Errorf("%q: exit code %d", args, code)
			}
			if code != 0 && stderr == "" {
				t.Errorf("%q: exit code %d without a word", args, code)
			}
		}
	}
}

func TestOddChildFilesDoNotPanic(t *testing.T) {
	const header = "measurement,value,unit\n"
	files := []string{
		"", "\n", "\xef\xbb\xbf", header, "\xef\xbb\xbf" + header + "chest,53,cm\n", "measurement\n", header + "chest\n", header + "chest,53,cm,more,and,more\n",
		header + "\"chest", header + "chest,\"5\"3\",cm\n", header + "chest,53,cm\nchest,54,cm\n", header + "height,99999,cm\n", header + "sex,\x00,\n",
		header + strings.Repeat("chest,,\n", 10000), strings.Repeat("x", 2<<20), header + "age,4.5,parsecs\n", header + "name,=1+1,\nheight,104,cm\n",
		"#" + header, header + "height,104,kg\n", header + "weight,17,cm\n", strings.ReplaceAll(header, "\n", "\r\n") + "height,104,cm\r\n",
	}
	for _, file := range files {
		for _, args := range [][]string{
			{"blend", "-"}, {"profile", "-"}, {"garment", "one-piece-hooded", "-"}, {"blend", "-", "--widths", "6", "--lengths", "10"},
		} {
			code, _, stderr := try(t, file, args...)
			if code == 2 && file != "" || code != 0 && stderr == "" {
				t.Errorf("%q < %.40q: exit code %d: %s", args, file, code, stderr)
			}
		}
	}
}

// brokenWriter fails as a closed pipe or a full disk does.
type brokenWriter struct{ err error }

func (w brokenWriter) Write([]byte) (int, error) { return 0, w.err }

func TestUnwritableOutput(t *testing.T) {
	var stderr bytes.Buffer
	gone := brokenWriter{&os.PathError{Op: "write", Path: "/dev/stdout", Err: syscall.EPIPE}}
	require.Equal(t, 1, run([]string{"size", "3"}, strings.NewReader(""), gone, &stderr))
	require.Empty(t, stderr.String(), "a reader that has gone is told nothing")

	full := brokenWriter{&os.PathError{Op: "write", Path: "/dev/stdout", Err: syscall.ENOSPC}}
	require.Equal(t, 2, run([]string{"size", "3"}, strings.NewReader(""), full, &stderr))
	require.Equal(t, "growtuck: standard output: write /dev/stdout: no space left on device\n", stderr.String())
}

func TestUnreadableInput(t *testing.T) {
	var stdout, stderr bytes.Buffer
	code := run([]string{"blend", "-"}, io.MultiReader(strings.NewReader("measurement,"), brokenReader{}), &stdout, &stderr)
	require.Equal(t, 1, code)
	require.Equal(t, "growtuck: standard input: cannot be read: the tape ran out\n", stderr.String())
	require.Empty(t, stdout.String())
}

type brokenReader struct{}

func (brokenReader) Read([]byte) (int, error) { return 0, errors.New("the tape ran out") }

// Every command says in its help what it does, and shows it.
func TestEveryCommandHasHelpAndAnExample(t *testing.T) {
	for _, of := range commands() {
		c := of.build(&app{})
		require.Equal(t, of.name, c.Name())
		require.NotEmpty(t, c.Short, c.Name())
		require.NotEmpty(t, c.Long, c.Name())
		require.Contains(t, c.Example, "growtuck "+c.Name(), c.Name())
		require.NotEmpty(t, c.GroupID, c.Name())
	}
}

// The examples in the help run.
func TestExamplesRun(t *testing.T) {
	t.Chdir(t.TempDir())
	sample := "measurement,value,unit\nsex,m,\nheight,110.5,cm\nchest,53,cm\n"
	require.NoError(t, os.WriteFile("child.csv", []byte(sample), 0o644))
	for _, name := range []string{"ada.csv", "ben.csv", "a.csv", "b.csv", "c.csv"} {
		require.NoError(t, os.WriteFile(name, []byte(sample), 0o644))
	}
	require.NoError(t, os.WriteFile("draft.csv", []byte("field,part,value,unit,note\ngarment,,hat,,\nfit,,classic,,\nlayer,,skin,,\nchild,,child.csv,,\nfinished,brim,47,cm,\nfinished,hat_height,19.5,cm,\n"), 0o644))
	require.NoError(t, os.WriteFile("proposed.csv", []byte("chart,size,sex,measurement,statistic,value,unit,source,where,basis,review,note\ncraft,4,both,calf,given,22,cm,craft-2018,p. 99,published,read twice,\n"), 0o644))
	require.NoError(t, os.WriteFile("children.csv", []byte("name,sex,height,chest\nAda,f,104,53\nBen,m,110.5,55\nCem,m,122,60\n"), 0o644))
	require.NoError(t, os.WriteFile("piece.csv", []byte("Ada,f,104,53\nBen,m,110.5,55\n"), 0o644))
	examples := wholeRoot(&app{}).Example
	for _, c := range commands() {
		examples += "\n" + c.build(&app{}).Example
	}
	for line := range strings.Lines(examples) {
		args := words(strings.TrimSpace(line))
		if len(args) == 0 || args[1] == "page" { // which runs until it is stopped
			continue
		}
		code, stdout, stderr := try(t, sample, args[1:]...)
		require.Zero(t, code, "%s: %s", line, stderr)
		require.NotEmpty(t, stdout, line)
	}
}

// words splits a command line at spaces that are not in double quotes.
func words(line string) []string {
	var out []string
	for i, piece := range strings.Split(line, `"`) {
		if i%2 == 1 {
			out = append(out, piece)
		} else {
			out = append(out, strings.Fields(piece)...)
		}
	}
	return out
}
