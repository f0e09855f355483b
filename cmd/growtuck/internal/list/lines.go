package list

import (
	"bytes"
	"errors"
	"io"

	"growtuck/data/table"
)

// blockSize is how much of a list is read, sized and written at a time. No line
// is longer.
const blockSize = 256 << 10

// A lineReader reads a list in blocks of whole lines. A line is a child, so a
// quote that is not closed spoils its own line and no other.
type lineReader struct {
	in    io.Reader
	rest  []byte // read, not yet returned
	line  int    // lines returned so far
	bytes int64  // bytes read
	long  bool   // within a line that is longer than a block
	err   error  // of in, once there is one
}

func newLineReader(in io.Reader) *lineReader {
	return &lineReader{in: &lazyText{in: in}, rest: make([]byte, 0, blockSize)}
}

// A lazyText finds out how a list is written when it is first read: a list may be
// opened before there is any of it.
type lazyText struct {
	in   io.Reader
	text *table.Text
}

func (l *lazyText) Read(p []byte) (int, error) {
	if l.text == nil {
		l.text = table.NewText(l.in)
	}
	return l.text.Read(p)
}

// more reads further into buf, which has room.
func (r *lineReader) more(buf []byte) []byte {
	for range 100 { // a reader may return nothing, but not for ever
		n, err := r.in.Read(buf[len(buf):cap(buf)])
		buf = buf[:len(buf)+n]
		r.bytes += int64(n)
		if r.err = err; err != nil || n > 0 {
			return buf
		}
	}
	r.err = io.ErrNoProgress
	return buf
}

var errNoLines = errors.New("has no line ending in its first 256 KiB; it is not a list of children")

// peek returns the beginning of the list.
func (r *lineReader) peek() ([]byte, error) {
	for len(r.rest) == 0 && r.err == nil {
		r.rest = r.more(r.rest)
	}
	return r.rest, r.failure()
}

// next line, with its end. io.EOF where there is none.
func (r *lineReader) next() ([]byte, error) {
	for {
		if i := bytes.IndexByte(r.rest, '\n'); i >= 0 {
			line := r.rest[:i+1]
			r.rest = r.rest[i+1:]
			r.line++
			return line, nil
		}
		switch {
		case r.failure() != nil:
			return nil, r.failure()
		case r.err == io.EOF && len(r.rest) == 0:
			return nil, io.EOF
		case r.err == io.EOF:
			line := r.rest
			r.rest = nil
			r.line++
			return line, nil
		case len(r.rest) >= blockSize:
			return nil, errNoLines
		case len(r.rest) == cap(r.rest):
			r.rest = append(make([]byte, 0, blockSize), r.rest...)
		}
		r.rest = r.more(r.rest)
	}
}

// failure is why the list cannot be read on; nil at its end.
func (r *lineReader) failure() error {
	if r.err == io.EOF {
		return nil
	}
	return r.err
}

// block fills b with whole lines, as soon as there are any: a list that comes
// slowly is sized as it arrives. A line longer than a block is given in parts, marked
// as long. It returns io.EOF at the end.
func (r *lineReader) block(b *block) error {
	b.reset()
	b.lines = append(b.lines, r.rest...)
	r.rest = r.rest[:0]
	for {
		if cut := bytes.LastIndexByte(b.lines, '\n') + 1; cut > 0 {
			if r.long { // the end of the long line comes alone
				cut = bytes.IndexByte(b.lines, '\n') + 1
			}
			r.rest = append(r.rest, b.lines[cut:]...)
			b.lines = b.lines[:cut]
			r.number(b, r.long, false)
			return nil
		}
		switch {
		case r.failure() != nil:
			return r.failure()
		case r.err == io.EOF && len(b.lines) == 0:
			return io.EOF
		case r.err == io.EOF:
			r.number(b, r.long, false)
			return nil
		case len(b.lines) == cap(b.lines):
			r.number(b, true, true)
			return nil
		}
		b.lines = r.more(b.lines)
	}
}

// number numbers a block. unfinished says that its last line goes on.
func (r *lineReader) number(b *block, long, unfinished bool) {
	b.first, b.long, b.read = r.line+1, long, r.bytes
	if long && !r.long {
		b.starts = true
	}
	r.long = unfinished
	if unfinished {
		return
	}
	r.line += bytes.Count(b.lines, []byte("\n"))
	if b.lines[len(b.lines)-1] != '\n' { // the last of the list
		r.line++
	}
}
