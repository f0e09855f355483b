package workbook

import (
	"archive/zip"
	"encoding/xml"
	"fmt"
	"io"
	"path"
	"strings"

	"github.com/xuri/excelize/v2"
)

// facts are properties of a sheet besides its values. excelize reads them too,
// but allocates the sheet up to its last row and column: a sheet of a few bytes
// could then fill the memory.
type facts struct {
	merged     []block
	uncomputed map[string]bool // cells with a formula and no value
	dates      map[string]bool // cells with a number that is shown as a date
	truths     map[string]bool // cells with TRUE or FALSE
	last       int             // row with a value
}

// A block is a range of cells.
type block struct{ col1, row1, col2, row2 int }

// scan reads the facts of a sheet.
func (f *File) scan(sheet string) (facts, error) {
	var none facts
	name, err := f.part(sheet)
	if err != nil {
		return none, err
	}
	in, err := openPart(f.parts, name)
	if err != nil {
		return none, err
	}
	defer in.Close()
	out := facts{uncomputed: make(map[string]bool), dates: make(map[string]bool), truths: make(map[string]bool)}
	dateStyles := f.dateStyles()
	d := xml.NewDecoder(in)
	var c scannedCell
	for {
		token, err := d.Token()
		if err == io.EOF {
			return out, nil
		}
		if err != nil {
			return none, err
		}
		switch e := token.(type) {
		case xml.StartElement:
			switch e.Name.Local {
			case "c":
				kind := attribute(e, "t")
				plain := kind == "" || kind == "n"
				c = scannedCell{name: attribute(e, "r"), plain: plain, date: kind == "d" || plain && dateStyles[attribute(e, "s")], truth: kind == "b"}
			case "f":
				c.formula = true
			case "v", "is":
				c.value = true
			case "mergeCell":
				if b, ok := newBlock(attribute(e, "ref")); ok {
					out.merged = append(out.merged, b)
				}
			}
		case xml.CharData:
			c.filled = c.filled || c.value && len(e) > 0
		case xml.EndElement:
			if e.Name.Local == "c" {
				out.add(c)
			}
		}
	}
}

// A scannedCell is what the elements of a cell say.
type scannedCell struct {
	name          string
	formula       bool
	value, filled bool // an element for a value; and something in it
	plain, date   bool // a number; shown as a date
	truth         bool // TRUE or FALSE
}

func (f *facts) add(c scannedCell) {
	if _, row, err := excelize.CellNameToCoordinates(c.name); err == nil && c.value {
		f.last = max(f.last, row)
	}
	// Some programs write an empty value for a formula they did not calculate.
	if c.formula && !c.filled && c.plain {
		f.uncomputed[c.name] = true
	}
	if c.truth && c.filled {
		f.truths[c.name] = true
	}
	if c.date && c.filled {
		f.dates[c.name] = true
	}
}

func newBlock(ref string) (b block, ok bool) {
	from, to, ok := strings.Cut(ref, ":")
	if !ok {
		return b, false
	}
	var err1, err2 error
	b.col1, b.row1, err1 = excelize.CellNameToCoordinates(from)
	b.col2, b.row2, err2 = excelize.CellNameToCoordinates(to)
	return b, err1 == nil && err2 == nil
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// part finds the part of the archive that a sheet is.
func (f *File) part(sheet string) (string, error) {
	id, err := f.find("xl/workbook.xml", func(e xml.StartElement) (string, bool) {
		if e.Name.Local != "sheet" || attribute(e, "name") != sheet {
			return "", false
		}
		for _, a := range e.Attr {
			if a.Name.Local == "id" && a.Name.Space != "" {
				return a.Value, true
			}
		}
		return "", false
	})
	if err != nil {
		return "", err
	}
	target, err := f.find("xl/_rels/workbook.xml.rels", func(e xml.StartElement) (string, bool) {
		return attribute(e, "Target"), e.Name.Local == "Relationship" && attribute(e, "Id") == id
	})
	if err != nil {
		return "", err
	}
	if strings.HasPrefix(target, "/") {
		return strings.TrimPrefix(path.Clean(target), "/"), nil
	}
	return path.Join("xl", target), nil
}

// find returns what is wanted of the first element that has it.
func (f *File) find(part string, want func(xml.StartElement) (string, bool)) (string, error) {
	in, err := openPart(f.parts, part)
	if err != nil {
		return "", err
	}
	defer in.Close()
	d := xml.NewDecoder(in)
	for {
		token, err := d.Token()
		if err != nil {
			return "", fmt.Errorf("%s does not name it: %w", part, err)
		}
		if e, ok := token.(xml.StartElement); ok {
			if v, ok := want(e); ok {
				return v, nil
			}
		}
	}
}

func openPart(z *zip.Reader, name string) (io.ReadCloser, error) {
	for _, p := range z.File {
		if strings.EqualFold(p.Name, name) {
			return p.Open()
		}
	}
	return nil, fmt.Errorf("has no part %s", name)
}
