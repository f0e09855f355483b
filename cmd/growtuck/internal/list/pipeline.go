package list

import (
	"bytes"
	"errors"
	"io"
	"runtime"
	"strconv"

	"growtuck/sizing"
)

// A block is some lines of a list and their results.
type block struct {
	lines  []byte
	first  int   // number of the first line
	read   int64 // bytes of the list read when it was made
	long   bool  // part of a line that is too long
	starts bool  // the first part of such a line

	out      []byte
	rejects  []byte // lines that were rejected, unchanged
	errors   []*LineError
	rejected int
	doubted  int       // children of whom something is in doubt
	figures  []float64 // for an order
	children int

	done chan struct{}
}

func newBlock() *block {
	return &block{lines: make([]byte, 0, blockSize), out: make([]byte, 0, 2*blockSize), done: make(chan struct{}, 1)}
}

func (b *block) reset() {
	*b = block{lines: b.lines[:0], out: b.out[:0], rejects: b.rejects[:0], errors: b.errors[:0], figures: b.figures[:0], done: b.done}
}

// A LineError says what is wrong with a line. It holds nothing that was measured.
type LineError struct {
	List   string // the list's name
	Line   int
	Column int    // where, in bytes from 1; 0 for all of the line
	Reason string // what, and what would be right
}

// Error is the place and what is wrong there: "children.csv:3:11: …".
func (e *LineError) Error() string {
	text := e.List + ":" + strconv.Itoa(e.Line)
	if e.Column > 0 {
		text += ":" + strconv.Itoa(e.Column)
	}
	return text + ": " + e.Reason
}

// A Listener is called while a list is read, with what is not part of the result.
// All its functions are set, and called from one goroutine.
type Listener struct {
	Doubt    func(sizing.Fact)               // of a column, before the first line
	Rejected func([]*LineError)              // the lines of a block that were rejected
	Read     func(children int, bytes int64) // a block is done: its children, and where the list is
}

// reject keeps a line that cannot be used, and what is wrong with it.
func (b *block) reject(name string, number int, line []byte, wrong *LineError) {
	wrong.List, wrong.Line = name, number
	b.rejected++
	b.rejects = append(b.rejects, line...)
	b.errors = append(b.errors, wrong)
}

// A handler takes one child's line, without its line end, and adds its result to
// the block.
type handler func(b *block, line []byte) *LineError

// A pipeline takes a list through handlers, one for each core, and hands the
// blocks on in the order of the list. It holds a few blocks at a time, however
// long the list is.
type pipeline struct {
	list    *lineReader
	name    string // of the list
	handler func() (handler, error)
	write   func(*block) error
	stop    <-chan struct{} // closed to stop; nil where nothing does
}

func (p *pipeline) run() error {
	workers := runtime.GOMAXPROCS(0)
	free := make(chan *block, 2*workers+1)
	for range cap(free) {
		free <- newBlock()
	}
	work := make(chan *block, cap(free))
	inOrder := make(chan *block, cap(free))
	returned := make(chan struct{})
	defer close(returned)
	for range workers {
		handle, err := p.handler()
		if err != nil {
			close(work)
			return err
		}
		go func() {
			for b := range work {
				p.handle(b, handle)
				b.done <- struct{}{}
			}
		}()
	}
	var failure error
	go func() {
		defer close(work)
		defer close(inOrder)
		for {
			var b *block
			select {
			case <-returned:
				return
			case b = <-free:
			}
			if err := p.list.block(b); err != nil {
				if err != io.EOF {
					failure = err // seen after inOrder is closed
				}
				return
			}
			work <- b
			inOrder <- b
		}
	}()
	for {
		var b *block
		var ok bool
		select {
		case <-p.stop:
			return errStopped
		case b, ok = <-inOrder:
		}
		if !ok {
			return failure
		}
		select {
		case <-p.stop: // though a block is there too
			return errStopped
		case <-b.done:
		}
		if err := p.write(b); err != nil {
			return err
		}
		free <- b
	}
}

func (p *pipeline) handle(b *block, handle handler) {
	if b.long {
		if b.starts {
			b.reject(p.name, b.first, b.lines, &LineError{Reason: "is longer than 256 KiB, which no child's line is"})
		} else {
			b.rejects = append(b.rejects, b.lines...)
		}
		return
	}
	number := b.first
	for rest := b.lines; len(rest) > 0; number++ {
		whole := rest
		if i := bytes.IndexByte(rest, '\n'); i >= 0 {
			whole, rest = rest[:i+1], rest[i+1:]
		} else {
			rest = nil
		}
		line := trimEnd(whole)
		if isBlank(line) {
			continue
		}
		out, figures := len(b.out), len(b.figures)
		if wrong := handle(b, line); wrong != nil {
			b.out, b.figures = b.out[:out], b.figures[:figures]
			b.reject(p.name, number, whole, wrong)
			continue
		}
		b.children++
	}
}

// trimEnd takes the end off a line.
func trimEnd(line []byte) []byte {
	line = bytes.TrimSuffix(line, []byte("\n"))
	return bytes.TrimSuffix(line, []byte("\r"))
}

// isBlank reports whether a line has nothing in it but separators: spreadsheets
// write such lines below a list.
func isBlank(line []byte) bool {
	for _, c := range line {
		switch c {
		case ' ', '\t', ',', ';', '\r':
		default:
			return false
		}
	}
	return true
}

// errStopped says that the user stopped the run.
var errStopped = errors.New("stopped; what was written so far is not the whole list")
