package main

import (
	"cmp"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"golang.org/x/term"

	"growtuck/cmd/growtuck/internal/save"
	"growtuck/cmd/growtuck/internal/tell"
)

// style is how the facts are told that were asked for.
func (a *app) style() tell.Style { return tell.Style{Unit: a.unit} }

// checkOutput refuses formats and units that there are not.
func (a *app) checkOutput() error {
	if !slices.Contains(tell.Formats, a.format) {
		return usagef("unknown format %.80q; known are %s", a.format, strings.Join(tell.Formats, ", "))
	}
	if !slices.Contains(tell.Units, a.unit) {
		return usagef("unknown unit %.80q; known are %s", a.unit, strings.Join(tell.Units, ", "))
	}
	return nil
}

// print writes the document in the format asked for, in one piece.
func (a *app) print(d tell.Document) error {
	asides := d.Asides
	if a.format == "csv" || a.format == "json" {
		asides = slices.Concat(d.Doubts, asides)
	}
	if a.format == "csv" {
		asides = slices.Concat(asides, d.CSVAsides)
	}
	a.notes(asides)
	if a.format == "csv" { // there is no place for them among the rows
		for _, line := range d.Credits {
			fmt.Fprintln(a.stderr, line)
		}
	}
	return d.Write(a.stdout, a.format, lineWidth(a.stdout))
}

// printed prints a document, or returns why there is none.
func (a *app) printed(d tell.Document, err error) error {
	if err != nil {
		return err
	}
	return a.print(d)
}

// notes prints notes on standard error.
func (a *app) notes(texts []string) {
	for _, t := range texts {
		a.say("note: " + t)
	}
}

// The widths of lines that are written for people: what is usual, and what is believed
// of COLUMNS or a terminal.
const (
	usualWidth  = 100
	leastWidth  = 30
	widestWidth = 300
)

// lineWidth is the number of characters on a line: what COLUMNS says, or the terminal
// that out is.
func lineWidth(out io.Writer) int {
	if n, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && n >= leastWidth && n <= widestWidth {
		return n
	}
	if f := terminal(out); f != nil {
		if n, _, err := term.GetSize(int(f.Fd())); err == nil && n > 0 {
			return min(max(n, leastWidth), widestWidth)
		}
	}
	return usualWidth
}

// terminal is the terminal that out is; nil where it is none.
func terminal(out io.Writer) *os.File {
	if results, ok := out.(*resultWriter); ok {
		out = results.to
	}
	if f, ok := out.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		return f
	}
	return nil
}

// fitting breaks the lines of messages and findings that a terminal would break within
// words. In a file, and for another program, each stays a line.
func fitting(text string, out io.Writer) string {
	if terminal(out) == nil {
		return text
	}
	return broken(text, lineWidth(out))
}

// broken breaks longer lines than the width between words, but for commands to copy. What
// was set in stays so; the rest is set in by two.
func broken(text string, width int) string {
	var b strings.Builder
	for line := range strings.Lines(text) {
		if utf8.RuneCountInString(line) > width+1 && !strings.HasPrefix(line, "  growtuck ") {
			indent := line[:len(line)-len(strings.TrimLeft(line, " "))]
			line = strings.Join(tell.Wrap(line, width, indent, cmp.Or(indent, "  ")), "\n") + "\n"
		}
		b.WriteString(line)
	}
	return b.String()
}

// reflowed sets text that was written for lines of the usual width on narrower ones.
// Lines that begin with a space are examples, and stay.
func reflowed(text string, width int) string {
	var all []string
	for _, p := range strings.Split(text, "\n\n") {
		if !strings.HasPrefix(p, " ") && !strings.Contains(p, "\n ") {
			p = strings.Join(tell.Wrap(p, width, "", ""), "\n")
		}
		all = append(all, p)
	}
	return strings.Join(all, "\n\n")
}

// writeFiles writes files and says so.
func (a *app) writeFiles(files []save.File, force bool, credits []string) error {
	return a.writeInto("", files, force, nil, credits)
}

// writeInto writes files, into a folder if one is named, and says so under a
// heading.
func (a *app) writeInto(folder string, files []save.File, force bool, heading, credits []string) error {
	paths := []string{folder}
	for _, f := range files {
		paths = append(paths, f.Path)
	}
	a.sweep(paths...)
	if err := save.All(folder, files, force); err != nil {
		return err
	}
	var written []tell.File
	for _, f := range files {
		written = append(written, tell.File{Path: f.Path, Bytes: len(f.Content)})
	}
	return a.print(tell.Files(written, heading, credits))
}

// sweep removes what killed runs left beside files that are to be written; "" is none.
func (a *app) sweep(paths ...string) {
	for _, name := range save.Sweep(paths...) {
		a.say("note: " + name + " was removed: a run that was killed had left it unfinished")
	}
}

// A resultWriter is where results go. It keeps the first error of writing, as help
// is written by code that does not look at it.
type resultWriter struct {
	to  io.Writer
	err error
}

func (w *resultWriter) Write(p []byte) (int, error) {
	n, err := w.to.Write(p)
	if err == nil {
		return n, nil
	}
	if w.err == nil {
		w.err = fmt.Errorf("standard output: %w", err)
	}
	return n, w.err
}
