//go:build !nobooks

package workbook

import (
	"archive/zip"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// Limits of what is in the parts, which are weighed before the reading library sees
// them: it keeps every element in memory, and copies a shared text for every cell
// that names it.
const (
	maxCellText  = 4 << 10 // bytes of the text of one cell
	maxSheetText = 1 << 20 // and of all cells of a sheet
	maxTexts     = 20_000  // shared texts
	maxElements  = 60_000  // of a part that is no sheet
	maxCells     = maxRows * maxColumns
	maxSheets    = 60
	maxDepth     = 60 // of elements within each other
)

// A scale weighs the parts of a workbook.
type scale struct {
	shared []int // bytes of each shared text
}

// weigh refuses a workbook with too much in it. Shared texts are weighed first, as
// sheets name them.
func weigh(z *zip.Reader) error {
	s := new(scale)
	for _, texts := range []bool{true, false} {
		for _, p := range z.File {
			lower := strings.ToLower(p.Name)
			if !strings.HasSuffix(lower, ".xml") && !strings.HasSuffix(lower, ".rels") || strings.HasSuffix(lower, "sharedstrings.xml") != texts {
				continue
			}
			if err := s.part(p, texts, strings.Contains(lower, "worksheets/") && strings.HasSuffix(lower, ".xml")); err != nil {
				return fmt.Errorf("%.80s: %w", p.Name, err)
			}
		}
	}
	return nil
}

var errCharset = errors.New("is in another encoding than UTF-8; save the workbook anew")

func (s *scale) part(p *zip.File, texts, sheet bool) error {
	in, err := p.Open()
	if err != nil {
		return err
	}
	defer in.Close()
	d := xml.NewDecoder(&tagWatch{in: in})
	d.CharsetReader = func(string, io.Reader) (io.Reader, error) { return nil, errCharset }
	w := weighing{scale: s, texts: texts, sheet: sheet}
	for {
		token, err := d.Token()
		switch {
		case err == io.EOF:
			return nil
		case errors.Is(err, errCharset):
			return errCharset
		case errors.Is(err, errTag):
			return errTag
		case err != nil:
			return errors.New("is damaged: " + plain(err))
		}
		if err := w.add(token); err != nil {
			return err
		}
	}
}

// maxTag is the longest tag, with its attributes, in bytes.
const maxTag = 64 << 10

var errTag = fmt.Errorf("has a tag of more than %d kB", maxTag>>10)

// A tagWatch refuses tags that are too long before they are taken apart.
type tagWatch struct {
	in   io.Reader
	open int // bytes since a tag was opened; 0 outside of one
}

func (w *tagWatch) Read(p []byte) (int, error) {
	n, err := w.in.Read(p)
	for _, c := range p[:n] {
		switch {
		case c == '<':
			w.open = 1
		case c == '>':
			w.open = 0
		case w.open > 0:
			w.open++
		}
		if w.open > maxTag {
			return 0, errTag
		}
	}
	return n, err
}

// A weighing is a part being weighed.
type weighing struct {
	*scale
	texts, sheet           bool
	elements, depth, cells int
	sheets                 int    // named
	text, total            int    // bytes of the cell or shared text, and of the sheet
	kind                   string // of the cell
	value                  []byte // of a cell that names a shared text
}

func (w *weighing) add(token xml.Token) error {
	switch e := token.(type) {
	case xml.StartElement:
		w.elements++
		w.depth++
		if w.depth > maxDepth {
			return fmt.Errorf("has elements within each other more than %d deep", maxDepth)
		}
		if w.elements > maxElements && !w.sheet {
			return fmt.Errorf("has more than %d elements", maxElements)
		}
		switch {
		case e.Name.Local == "sheet" && !w.sheet: // several may be of one part
			if w.sheets++; w.sheets > maxSheets {
				return fmt.Errorf("has more than %d sheets", maxSheets)
			}
		case w.sheet && e.Name.Local == "c":
			w.cells++
			w.text, w.kind, w.value = 0, attribute(e, "t"), w.value[:0]
		case w.texts && e.Name.Local == "si":
			w.text = 0
		}
	case xml.CharData:
		w.text += len(e)
		if w.kind == "s" && len(w.value) < 12 {
			w.value = append(w.value, e[:min(len(e), 12)]...)
		}
	case xml.EndElement:
		w.depth--
		switch {
		case w.sheet && e.Name.Local == "c":
			return w.endCell()
		case w.texts && e.Name.Local == "si":
			w.shared = append(w.shared, w.text)
			if len(w.shared) > maxTexts {
				return fmt.Errorf("has more than %d texts", maxTexts)
			}
			if w.text > maxCellText {
				return tooLong(w.text)
			}
		}
	}
	if w.sheet && w.elements > 6*maxCells {
		return fmt.Errorf("has more than %d elements", 6*maxCells)
	}
	return nil
}

func (w *weighing) endCell() error {
	if n, err := strconv.Atoi(strings.TrimSpace(string(w.value))); err == nil && w.kind == "s" && n >= 0 && n < len(w.shared) {
		w.text = w.shared[n]
	}
	w.total += w.text
	w.kind = ""
	switch {
	case w.text > maxCellText:
		return tooLong(w.text)
	case w.total > maxSheetText:
		return fmt.Errorf("has more than %d MB of text in its cells", maxSheetText>>20)
	case w.cells > maxCells:
		return fmt.Errorf("has more than %d cells", maxCells)
	}
	return nil
}

func tooLong(n int) error {
	return fmt.Errorf("has a text of %d bytes in a cell; want at most %d", n, maxCellText)
}
