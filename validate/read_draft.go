package validate

import (
	"fmt"
	"io"

	"growtuck/data"
	"growtuck/data/table"
	"growtuck/sizing"
)

// Limits beyond which a file is not read as a draft.
const (
	MaxDraftBytes = 1 << 20
	MaxDraftRows  = 2000
	maxDraftCell  = 400 // bytes
)

// draftColumns is the header of a draft.
var draftColumns = []string{"field", "part", "value", "unit", "note"}

// Opener opens a file that a draft names, by its path from the draft's folder.
type Opener func(path string) (io.ReadCloser, error)

// ReadDraft reads a draft: a table with the header field,part,value,unit,note and
// the rows that [DraftFields] lists; cells left empty at the end of a row may be left
// off, and lines that start with # are comments. How it may be written is in package
// table. name is the file's name for messages. Faults are returned joined, each a
// [*data.Error]; a draft with faults is not returned.
func ReadDraft(ref *sizing.Reference, in io.Reader, name string, open Opener) (*Draft, error) {
	r := newDraftReader(ref, name, open)
	rows, ok := r.rows(in)
	if !ok {
		return nil, r.faults.Err()
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
	return &draftReader{ref: ref, open: open, faults: data.Faults{File: name}, draft: &Draft{Name: name, byKey: make(map[key]*Entry)}}
}

// read makes the draft of its rows.
func (r *draftReader) read(rows []*Entry) (*Draft, error) {
	r.entries(rows)
	if r.faults.Len() == 0 {
		r.resolve()
	}
	if r.faults.Len() > 0 {
		return nil, r.faults.Err()
	}
	return r.draft, nil
}

type draftReader struct {
	ref    *sizing.Reference
	open   Opener
	draft  *Draft
	faults data.Faults
	// wearers are those of drafts with the same rows about the child; nil: not kept.
	wearers map[string]Draft
}

func (r *draftReader) fault(line, column int, format string, args ...any) {
	r.faults.Add(&data.Error{File: r.draft.Name, Line: line, Column: column, Msg: fmt.Sprintf(format, args...)})
}

// rows reads the cells. ok is false where they cannot be used.
func (r *draftReader) rows(in io.Reader) (rows []*Entry, ok bool) {
	t, err := table.Open(in, r.draft.Name, MaxDraftBytes)
	if err == nil {
		r.draft.byteOrderMark, r.draft.carriageReturns = t.Mark && !t.UTF16, t.CarriageReturns
		err = t.Header(draftColumns, 3)
	}
	if err != nil {
		r.faults.Add(err)
		return nil, false
	}
	for {
		row, err := t.Next()
		switch {
		case err == io.EOF:
			return rows, true
		case err != nil:
			r.faults.Add(err)
			continue
		case len(rows) == MaxDraftRows:
			r.fault(row.Line, 0, "is one row too many; a draft has at most %d rows", MaxDraftRows)
			return nil, false
		}
		if e := r.row(row); e != nil {
			rows = append(rows, e)
		}
	}
}

func (r *draftReader) row(row table.Row) *Entry {
	e := &Entry{Line: row.Line}
	for i, c := range row.Cells {
		e.columns[i] = c.Column
		if len(c.Text) > maxDraftCell {
			r.fault(row.Line, c.Column, "has a cell of %d bytes; want at most %d", len(c.Text), maxDraftCell)
			return nil
		}
	}
	for i, to := range []*string{&e.Field, &e.Part, &e.Value, &e.Unit, &e.Note} {
		*to = row.Cells[i].Text
	}
	return e
}

func clip(s string) string { return fmt.Sprintf("%.80q", s) }
