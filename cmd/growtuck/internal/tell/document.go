package tell

import (
	"bytes"
	"encoding/json"
	"io"
	"slices"
	"strconv"
	"strings"
)

// A Document is the output of a command, for every format.
type Document struct {
	Doubts    []string // about what was said of the child: above all else
	Heading   []string // paragraphs above the tables
	Chapters  []Chapter
	Drawing   *Drawing // of the chapter that has its place
	Tables    []Table  // for text, Markdown and HTML
	Remarks   []string // paragraphs under the tables
	Notes     Notes    // footnotes
	Sources   []string // ids of the sources that what is shown rests on
	Credits   []string // lines that the sources ask for
	Asides    []string // notes that go to standard error, in every format
	CSVAsides []string // notes that tables have room for and CSV has not
	Rows      any      // a slice of flat structs, for CSV
	JSON      any      // for JSON
	// Records makes Rows and JSON, where most readers want neither and they take long.
	Records func() (rows, document any)
}

// Recorded is the document with its records made.
func (d Document) Recorded() Document {
	if d.Records != nil {
		d.Rows, d.JSON = d.Records()
	}
	return d
}

// A Drawing is a garment drawn to scale, where a writer shows it.
type Drawing struct {
	// Draw draws it as SVG: inline for a page, else with its own colours and paper.
	// It is "" where it cannot be drawn.
	Draw func(inline bool) string
	File string // that it is in, beside a text; "" where it is in none
}

// SVG is the drawing for a page.
func (d *Drawing) SVG() string { return d.Draw(true) }

// words stand in the drawing's place in a text.
func (d *Drawing) words() string {
	return "Drawn to scale by growtuck draw, and in the pattern as HTML or as a workbook."
}

// Notes are footnotes, each text once.
type Notes []string

// mark returns the mark of a footnote, "[1]", adding it if it is new.
func (n *Notes) mark(text string) string {
	i := slices.Index(*n, text)
	if i < 0 {
		i = len(*n)
		*n = append(*n, text)
	}
	return "[" + strconv.Itoa(i+1) + "]"
}

func (n *Notes) marks(texts []string) string {
	var all []string
	for _, t := range texts {
		if m := n.mark(t); !slices.Contains(all, m) {
			all = append(all, m)
		}
	}
	return strings.Join(all, " ")
}

// Formats are what Write takes.
var Formats = []string{"table", "csv", "json", "markdown", "html"}

// Write writes the document in one of the formats; a table is laid out for lines
// of width characters.
func (d Document) Write(w io.Writer, format string, width int) error {
	var out bytes.Buffer
	var err error
	switch format {
	case "csv":
		err = writeCSV(&out, d.Recorded().Rows)
	case "json":
		err = writeJSON(&out, d.Recorded().JSON)
	case "markdown":
		writeMarkdown(&out, d)
	case "html":
		err = writeHTML(&out, d)
	default:
		out.Grow(32 << 10) // a plan's
		writeText(&out, d, width)
	}
	if err != nil {
		return err
	}
	_, err = w.Write(out.Bytes())
	return err
}

func writeJSON(w io.Writer, document any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(document)
}
