// Package table reads tables of text as people and programs save them: in UTF-8, with
// a mark or without, in UTF-16, or, where that is said, in Latin-1; with lines that end
// in LF, CR LF or CR; with cells separated by commas, semicolons or tabs; and with
// titles in any case and order.
package table

import (
	"bytes"
	"io"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"

	"growtuck/data"
)

// A Text is a file's text in UTF-8, as it is read: without a mark, and with LF or CR LF
// at the ends of lines.
type Text struct {
	io.Reader
	Mark    bool // it began with a byte order mark
	UTF16   bool // it was in UTF-16
	Returns bool // its lines ended in CR alone
}

var (
	mark8  = []byte("\ufeff")
	markLE = []byte{0xff, 0xfe}
	markBE = []byte{0xfe, 0xff}
)

// NewText finds out from its beginning how a file is written. It waits for no more
// than the first line.
func NewText(in io.Reader) *Text {
	t := new(Text)
	head, in := begin(in, nil, tells)
	if order, ok := utf16Order(head); ok {
		t.UTF16, t.Mark = true, bytes.HasPrefix(head, markLE) || bytes.HasPrefix(head, markBE)
		in = transform.NewReader(io.MultiReader(bytes.NewReader(head), in), unicode.UTF16(order, unicode.UseBOM).NewDecoder())
		head = nil
	} else if bytes.HasPrefix(head, mark8) {
		t.Mark, head = true, head[len(mark8):]
	}
	head, in = begin(in, head, func(b []byte) bool {
		i := bytes.IndexAny(b, "\r\n")
		return i >= 0 && (b[i] == '\n' || i+1 < len(b))
	})
	t.Reader = io.MultiReader(bytes.NewReader(head), in)
	if i := bytes.IndexAny(head, "\r\n"); i >= 0 && head[i] == '\r' && (i+1 == len(head) || head[i+1] != '\n') {
		t.Returns = true
		t.Reader = returnsReader{t.Reader}
	}
	return t
}

// mostHead is how much of a file is read to find out how its lines end.
const mostHead = 1 << 16

// tells reports whether a beginning tells the encoding: four bytes do, and a whole line
// in plain letters.
func tells(b []byte) bool {
	return len(b) >= 4 || len(b) > 0 && b[0] < 0x80 && bytes.IndexByte(b, '\n') >= 0 && bytes.IndexByte(b, 0) < 0
}

// begin reads the beginning of a file until it is enough, or there is no more, and
// returns it and the rest.
func begin(in io.Reader, head []byte, enough func([]byte) bool) ([]byte, io.Reader) {
	var buf []byte
	for range mostHead { // a reader may return nothing, but not for ever
		if enough(head) || len(head) >= mostHead {
			break
		}
		if buf == nil {
			buf = make([]byte, 4096)
		}
		n, err := in.Read(buf)
		if head = append(head, buf[:n]...); err != nil {
			return head, endReader{err}
		}
	}
	return head, in
}

// An endReader is the end of a file.
type endReader struct{ err error }

func (r endReader) Read([]byte) (int, error) { return 0, r.err }

// utf16Order tells the order of the bytes of UTF-16, by its mark, or by the zeros
// beside plain letters.
func utf16Order(head []byte) (unicode.Endianness, bool) {
	switch {
	case bytes.HasPrefix(head, markLE):
		return unicode.LittleEndian, true
	case bytes.HasPrefix(head, markBE):
		return unicode.BigEndian, true
	case len(head) < 4:
		return unicode.BigEndian, false
	case head[0] != 0 && head[1] == 0 && head[2] != 0 && head[3] == 0:
		return unicode.LittleEndian, true
	case head[0] == 0 && head[1] != 0 && head[2] == 0 && head[3] != 0:
		return unicode.BigEndian, true
	}
	return unicode.BigEndian, false
}

// A returnsReader ends lines with LF in place of CR.
type returnsReader struct{ in io.Reader }

func (r returnsReader) Read(p []byte) (int, error) {
	n, err := r.in.Read(p)
	for i, c := range p[:n] {
		if c == '\r' {
			p[i] = '\n'
		}
	}
	return n, err
}

// Latin1 reads a file in Latin-1, as Windows has it (code page 1252), unless it begins
// as one in UTF-16, with a mark, or as an archive, which workbooks are.
func Latin1(in io.Reader) io.Reader {
	head, in := begin(in, nil, tells)
	in = io.MultiReader(bytes.NewReader(head), in)
	if _, wide := utf16Order(head); wide || bytes.HasPrefix(head, mark8) || bytes.HasPrefix(head, []byte("PK\x03\x04")) {
		return in
	}
	return latin1().Reader(in)
}

// Latin1Unless reads a short file as [Latin1] does, unless it is in UTF-8 as it is.
func Latin1Unless(in io.Reader) io.Reader {
	raw, err := io.ReadAll(io.LimitReader(in, data.MaxBytes+1))
	if err != nil {
		return io.MultiReader(bytes.NewReader(raw), endReader{err})
	}
	if utf8.Valid(raw) {
		return bytes.NewReader(raw)
	}
	return Latin1(bytes.NewReader(raw))
}

func latin1() *encoding.Decoder { return charmap.Windows1252.NewDecoder() }
