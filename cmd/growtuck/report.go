package main

import (
	"bytes"
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"

	"growtuck/sizing"
)

// formats are what --format takes.
var formats = []string{"table", "csv", "json", "markdown"}

// A report is what a command has to say, for every format.
type report struct {
	heading  []string // paragraphs above the tables
	grids    []grid   // for table and markdown
	remarks  []string // paragraphs under the tables
	notes    notes    // footnotes
	sources  []string // ids of the sources that what is shown rests on
	credits  []string // lines that the sources ask for
	asides   []string // notes for standard error, in every format
	rows     any      // a slice of flat structs, for CSV
	document any      // for JSON
}

// Notes are footnotes, each text once.
type notes []string

// mark returns the mark of a footnote, "[1]", adding it if it is new.
func (n *notes) mark(text string) string {
	i := slices.Index(*n, text)
	if i < 0 {
		i = len(*n)
		*n = append(*n, text)
	}
	return "[" + strconv.Itoa(i+1) + "]"
}

func (n *notes) marks(texts []string) string {
	var all []string
	for _, t := range texts {
		if m := n.mark(t); !slices.Contains(all, m) {
			all = append(all, m)
		}
	}
	return strings.Join(all, " ")
}

// checkOutput refuses formats and units that there are not.
func (a *app) checkOutput() error {
	if !slices.Contains(formats, a.format) {
		return usagef("unknown format %q; known are %s", a.format, strings.Join(formats, ", "))
	}
	if !slices.Contains(units, a.unit) {
		return usagef("unknown unit %q; known are %s", a.unit, strings.Join(units, ", "))
	}
	return nil
}

// print writes the report in the format asked for, in one piece.
func (a *app) print(r report) error {
	var out bytes.Buffer
	var err error
	switch a.format {
	case "csv":
		err = writeCSV(&out, r.rows)
	case "json":
		err = writeJSON(&out, r.document)
	case "markdown":
		writeMarkdown(&out, a.worded(r))
	default:
		writeTable(&out, a.worded(r), lineWidth())
	}
	if err != nil {
		return err
	}
	for _, aside := range r.asides {
		a.say("note: " + aside)
	}
	if a.format == "csv" { // there is no place for them among the rows
		for _, line := range r.credits {
			fmt.Fprintln(a.stderr, line)
		}
	}
	_, err = a.stdout.Write(out.Bytes())
	return err
}

// worded puts inches beside the centimetres in the report's words, where
// inches are asked for.
func (a *app) worded(r report) report {
	if a.unit == "cm" {
		return r
	}
	inches := func(texts []string) []string {
		out := make([]string, len(texts))
		for i, t := range texts {
			out[i] = sizing.WithInches(t)
		}
		return out
	}
	r.heading, r.remarks, r.notes = inches(r.heading), inches(r.remarks), inches(r.notes)
	grids := slices.Clone(r.grids)
	for i, g := range grids {
		grids[i].rows = slices.Clone(g.rows)
		for k := range g.rows {
			grids[i].rows[k].under = inches(g.rows[k].under)
		}
	}
	r.grids = grids
	return r
}

// lineWidth is the number of characters on a line: what COLUMNS says, within
// reason, or 100.
func lineWidth() int {
	if n, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && n >= 60 && n <= 300 {
		return n
	}
	return 100
}
