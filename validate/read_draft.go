package validate

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"growtuck/data"
	"growtuck/sizing"
)

// Limits beyond which a file is not read as a draft.
const (
	MaxDraftBytes = 1 << 20
	MaxDraftRows  = 2000
	maxDraftCell  = 400 // bytes
	maxFaults     = 100 // reported
)

// draftColumns is the header of a draft.
var draftColumns = []string{"field", "part", "value", "unit", "note"}

// Opener opens a file that a draft names, by its path from the draft's folder.
type Opener func(path string) (io.ReadCloser, error)

// ReadDraft reads a draft: CSV in UTF-8 with the header
// field,part,value,unit,note and the rows that [DraftFields] lists; cells left
// empty at the end of a row may be left off, and lines that start with # are
// comments. name is the file's name for messages. All faults are returned,
// joined, each a [*data.Error]; a draft with faults is not returned.
func ReadDraft(ref *sizing.Reference, in io.Reader, name string, open Opener) (*Draft, error) {
	r := newDraftReader(ref, name, open)
	rows, ok := r.rows(in)
	if !ok {
		return nil, r.faults()
	}
	return r.read(rows)
}

// A Row is a row of a draft, as its cells have it.
type Row struct {
	Field string `json:"field" doc:"what the row is about"`
	Part  string `json:"part,omitempty" doc:"part of the garment, or the like"`
	Value string `json:"value" doc:"the value as it is written"`
	Unit  string `json:"unit,omitempty" doc:"its unit"`
	Note  string `json:"note,omitempty" doc:"the author's note"`
}

// DraftOf makes a draft of rows that are in no file, as [ReadDraft] makes it of
// their table. Faults and findings have the places that the rows would have in
// that table.
func DraftOf(ref *sizing.Reference, rows []Row, name string, open Opener) (*Draft, error) {
	r := newDraftReader(ref, name, open)
	entries := make([]*Entry, len(rows))
	for i, row := range rows {
		e := &Entry{Line: i + 2, Field: row.Field, Part: row.Part, Value: row.Value, Unit: row.Unit, Note: row.Note}
		at := 1
		for cell, text := range []string{row.Field, row.Part, row.Value, row.Unit, row.Note} {
			e.columns[cell] = at
			at += len(text) + 1
		}
		entries[i] = e
	}
	return r.read(entries)
}

func newDraftReader(ref *sizing.Reference, name string, open Opener) *draftReader {
	return &draftReader{ref: ref, open: open, draft: &Draft{Name: name, byKey: make(map[key]*Entry)}}
}

// read makes the draft of its rows.
func (r *draftReader) read(rows []*Entry) (*Draft, error) {
	r.entries(rows)
	if len(r.errs) == 0 {
		r.resolve()
	}
	if len(r.errs) > 0 {
		return nil, r.faults()
	}
	return r.draft, nil
}

type draftReader struct {
	ref   *sizing.Reference
	open  Opener
	draft *Draft
	errs  []error
	// wearers are those of drafts with the same rows about the child; nil: not kept.
	wearers map[string]Draft
}

func (r *draftReader) fault(line, column int, format string, args ...any) {
	r.errs = append(r.errs, &data.Error{File: r.draft.Name, Line: line, Column: column, Msg: fmt.Sprintf(format, args...)})
}

func (r *draftReader) faults() error {
	if extra := len(r.errs) - maxFaults; extra > 0 {
		r.errs = r.errs[:maxFaults]
		r.fault(0, 0, "has %d more faults", extra)
	}
	return errors.Join(r.errs...)
}

// rows reads the cells. ok is false where they cannot be used.
func (r *draftReader) rows(in io.Reader) (rows []*Entry, ok bool) {
	text, err := io.ReadAll(io.LimitReader(in, MaxDraftBytes+1))
	if err != nil {
		r.fault(0, 0, "cannot be read: %v", err)
		return nil, false
	}
	if !r.isText(text) {
		return nil, false
	}
	if after, ok := bytes.CutPrefix(text, []byte("\ufeff")); ok {
		r.draft.byteOrderMark = true
		text = after
	}
	r.draft.carriageReturns = bytes.Contains(text, []byte("\r\n"))
	c := newDraftCSV(text)
	header := false
	for len(r.errs) <= maxFaults {
		cells, err := c.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			r.quoteFault(err)
			continue
		}
		line, _ := c.FieldPos(0)
		if !header {
			header = true
			if !r.header(cells, line) {
				return nil, false
			}
			continue
		}
		if len(rows) == MaxDraftRows {
			r.fault(line, 0, "is one row too many; a draft has at most %d rows", MaxDraftRows)
			return nil, false
		}
		if e := r.row(c, cells, line); e != nil {
			rows = append(rows, e)
		}
	}
	if !header && len(r.errs) == 0 {
		r.fault(0, 0, "is empty; want the header %s and rows under it", strings.Join(draftColumns, ","))
	}
	return rows, header
}

// newDraftCSV reads the cells of a draft.
func newDraftCSV(text []byte) *csv.Reader {
	c := csv.NewReader(bytes.NewReader(text))
	c.Comment = '#'
	c.FieldsPerRecord = -1
	c.TrimLeadingSpace = true
	return c
}

func (r *draftReader) isText(text []byte) bool {
	switch {
	case len(text) > MaxDraftBytes:
		r.fault(0, 0, "is more than %d bytes; too long for a draft", MaxDraftBytes)
	case bytes.HasPrefix(text, []byte("\xff\xfe")) || bytes.HasPrefix(text, []byte("\xfe\xff")):
		r.fault(1, 1, "is in UTF-16; save it as CSV in UTF-8")
	case bytes.HasPrefix(text, []byte("PK\x03\x04")):
		r.fault(1, 1, "is a workbook or an archive; save the sheet as CSV in UTF-8")
	case bytes.IndexByte(text, 0) >= 0:
		at := bytes.IndexByte(text, 0)
		r.fault(1+bytes.Count(text[:at], []byte("\n")), 0, "has a byte of value 0, so it is not text")
	case !utf8.Valid(text):
		line := 1
		for l := range bytes.Lines(text) {
			if !utf8.Valid(l) {
				r.fault(line, 0, "is not in UTF-8; save it as CSV in UTF-8")
			}
			line++
		}
	default:
		return true
	}
	return false
}

func (r *draftReader) quoteFault(err error) {
	var p *csv.ParseError
	if !errors.As(err, &p) {
		r.fault(0, 0, "%v", err)
		return
	}
	msg := p.Err.Error()
	switch {
	case errors.Is(p.Err, csv.ErrBareQuote):
		msg = `has a " inside a cell; write inches with the unit in, and quote a cell with " in it as "a ""b"" c"`
	case errors.Is(p.Err, csv.ErrQuote):
		msg = `has a " that is not closed, or letters after the closing "`
	}
	r.fault(p.Line, p.Column, "%s", msg)
}

func (r *draftReader) header(cells []string, line int) bool {
	got := strings.Join(cells, ",")
	if slices.Equal(cells, draftColumns) {
		return true
	}
	want := strings.Join(draftColumns, ",")
	if len(cells) == 1 {
		for _, d := range []struct{ sign, name string }{{";", "semicolons"}, {"\t", "tabs"}, {"|", "vertical bars"}, {":", "colons"}, {" ", "spaces"}} {
			if strings.Count(got, d.sign) == len(draftColumns)-1 {
				r.fault(line, 1, "separates its columns with %s; use commas: %s", d.name, want)
				return false
			}
		}
	}
	r.fault(line, 1, "has the header %s; want %s", clip(got), want)
	return false
}

func (r *draftReader) row(c *csv.Reader, cells []string, line int) *Entry {
	if len(cells) > len(draftColumns) {
		_, col := c.FieldPos(len(draftColumns))
		r.fault(line, col, "has %d cells; want at most %d: put a value or note with a comma in quotes", len(cells), len(draftColumns))
		return nil
	}
	if len(cells) < 3 {
		r.fault(line, 1, "has %d cells; want field, part and value at least (%s)", len(cells), strings.Join(draftColumns, ","))
		return nil
	}
	e := &Entry{Line: line}
	text := [5]string{}
	for i := range text {
		if i < len(cells) {
			text[i] = strings.TrimSpace(cells[i])
			_, e.columns[i] = c.FieldPos(i)
		} else {
			e.columns[i] = e.columns[i-1]
		}
		if len(text[i]) > maxDraftCell {
			r.fault(line, e.columns[i], "has a cell of %d bytes; want at most %d", len(text[i]), maxDraftCell)
			return nil
		}
	}
	e.Field, e.Part, e.Value, e.Unit, e.Note = text[0], text[1], text[2], text[3], text[4]
	return e
}

func clip(s string) string {
	if len(s) > 60 {
		return fmt.Sprintf("%q…", s[:60])
	}
	return fmt.Sprintf("%q", s)
}
