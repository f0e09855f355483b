//go:build !nobooks

package workbook

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"
)

// Limits beyond which a file is not read as a workbook that was filled in.
const (
	MaxBytes     = 8 << 20  // as it lies on the disk
	maxParts     = 400      // in the archive
	maxUnpacked  = 16 << 20 // all parts
	maxSheetPart = 6 << 20  // one part that is read: a sheet, the texts, the styles
	maxRows      = 3000     // of a sheet
	maxColumns   = 60
)

var (
	magic    = []byte("PK\x03\x04")
	oldMagic = []byte("\xd0\xcf\x11\xe0") // of old workbooks, and of those with a password
)

// Is reports whether a file with this beginning is a workbook or another archive,
// and not text. [Open] says what is wrong with those that it does not read.
func Is(head []byte) bool { return bytes.HasPrefix(head, magic) || bytes.HasPrefix(head, oldMagic) }

// A File is a workbook that was filled in. Name is the file's, for messages.
type File struct {
	name   string
	file   *excelize.File
	parts  *zip.Reader
	sheets []string
	cells  map[string][][]string
}

// An Error is a fault in a workbook: which cell, and what would be right.
type Error struct {
	File, Sheet, Cell string // Sheet and Cell may be empty
	Msg               string
}

func (e *Error) Error() string {
	where := e.File
	if e.Sheet != "" {
		where += ": " + on(e.Sheet, e.Cell)
	}
	return where + ": " + e.Msg
}

// MaxMemory is what reading a workbook takes of memory at most, whatever is in it.
const MaxMemory = 256 << 20

// Open reads a workbook. Nothing in it makes it panic or take more than
// [MaxMemory]: its parts are bounded, and weighed before they are read.
func Open(in io.Reader, name string) (f *File, err error) {
	raw, err := io.ReadAll(io.LimitReader(in, MaxBytes+1))
	if err != nil {
		return nil, &Error{File: name, Msg: fmt.Sprintf("cannot be read: %v", err)}
	}
	if len(raw) > MaxBytes {
		return nil, &Error{File: name, Msg: fmt.Sprintf("is more than %d MB; too long for a child, draft or plan", MaxBytes>>20)}
	}
	parts, err := inspect(raw, name)
	if err != nil {
		return nil, err
	}
	if err := weigh(parts); err != nil {
		return nil, &Error{File: name, Msg: err.Error()}
	}
	defer guard(name, &err)
	x, err := excelize.OpenReader(bytes.NewReader(raw), excelize.Options{RawCellValue: true, UnzipSizeLimit: maxUnpacked, UnzipXMLSizeLimit: maxUnpacked})
	if err != nil {
		return nil, &Error{File: name, Msg: "cannot be opened as a workbook: " + plain(err)}
	}
	f = &File{name: name, file: x, parts: parts, cells: make(map[string][][]string)}
	cells := 0
	for _, s := range x.GetSheetList() {
		rows, err := readRows(x, s)
		for _, r := range rows {
			cells += len(r)
		}
		if err == nil && cells > 2*maxCells {
			err = fmt.Errorf("there are more than %d cells on the sheets up to here", 2*maxCells)
		}
		if err != nil {
			x.Close()
			return nil, &Error{File: name, Sheet: s, Cell: "A1", Msg: "cannot be read: " + plain(err)}
		}
		f.sheets = append(f.sheets, s)
		f.cells[s] = rows
	}
	return f, nil
}

// Close releases the workbook.
func (f *File) Close() error { return f.file.Close() }

// guard turns a panic of the reading library over a damaged file into an error.
func guard(name string, err *error) {
	if p := recover(); p != nil {
		*err = &Error{File: name, Msg: fmt.Sprintf("is damaged: %v", p)}
	}
}

// plain is a message on one line.
func plain(err error) string { return strings.Join(strings.Fields(err.Error()), " ") }

// inspect refuses archives that are not a workbook, or unpack to too much, before
// any of it is unpacked. The archive reader holds parts to the sizes stated.
func inspect(raw []byte, name string) (*zip.Reader, error) {
	fault := func(format string, args ...any) (*zip.Reader, error) {
		return nil, &Error{File: name, Msg: fmt.Sprintf(format, args...)}
	}
	if bytes.HasPrefix(raw, oldMagic) {
		return fault("is a workbook of the old kind, or has a password; save it as .xlsx without one")
	}
	if len(raw) == 0 {
		return fault("is empty")
	}
	z, err := zip.NewReader(bytes.NewReader(raw), int64(len(raw)))
	if err != nil {
		return fault("is not a workbook: %s", plain(err))
	}
	if len(z.File) > maxParts {
		return fault("has %d parts; want at most %d", len(z.File), maxParts)
	}
	var total uint64
	workbook, opendocument := false, false
	for _, part := range z.File {
		total += part.UncompressedSize64
		lower := strings.ToLower(part.Name)
		if strings.HasSuffix(lower, ".xml") && part.UncompressedSize64 > maxSheetPart {
			return fault("unpacks %s to %d MB; want at most %d", part.Name, part.UncompressedSize64>>20, maxSheetPart>>20)
		}
		if total > maxUnpacked {
			return fault("unpacks to more than %d MB; too long for a child, draft or plan", maxUnpacked>>20)
		}
		workbook = workbook || lower == "xl/workbook.xml"
		opendocument = opendocument || lower == "content.xml"
	}
	switch {
	case opendocument && !workbook:
		return fault("is a spreadsheet of the OpenDocument kind; save it as .xlsx, or the sheet as CSV")
	case !workbook:
		return fault("is an archive but not a workbook")
	}
	return z, nil
}

// readRows reads the stored values of a sheet, as far as a table may reach.
func readRows(x *excelize.File, sheet string) ([][]string, error) {
	rows, err := x.Rows(sheet)
	if err != nil {
		var notSheet excelize.ErrSheetNotExist
		if errors.As(err, &notSheet) || strings.Contains(err.Error(), "not a worksheet") {
			return nil, nil // a sheet that is one chart
		}
		return nil, err
	}
	defer rows.Close()
	var out [][]string
	for rows.Next() && len(out) < maxRows {
		cells, err := rows.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			return nil, err
		}
		if len(cells) > maxColumns {
			cells = slices.Clone(cells[:maxColumns]) // releases the rest
		}
		out = append(out, cells)
	}
	return out, rows.Error()
}
