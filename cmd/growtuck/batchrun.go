package main

import (
	"bytes"
	"errors"
	"io"
	"runtime"
	"strconv"
)

// A block is some lines of a list, and what became of them.
type block struct {
	lines  []byte
	first  int   // number of the first line
	read   int64 // bytes of the list read when it was made
	long   bool  // part of a line that is too long
	starts bool  // the first part of such a line

	out      []byte
	rejects  []byte    // lines set aside, unchanged
	faults   []byte    // what is wrong with them, a line each
	figures  []float64 // for growtuck order
	children int
	refused  int

	done chan struct{}
}

func newBlock() *block {
	return &block{lines: make([]byte, 0, blockSize), out: make([]byte, 0, 2*blockSize), done: make(chan struct{}, 1)}
}

func (b *block) reset() {
	*b = block{lines: b.lines[:0], out: b.out[:0], rejects: b.rejects[:0], faults: b.faults[:0], figures: b.figures[:0], done: b.done}
}

// A fault is what is wrong with a line. It holds nothing that was measured.
type fault struct {
	column int    // where, in bytes from 1; 0 for all of the line
	msg    string // what, and what would be right
}

var errTooLong = &fault{msg: "is longer than 256 KiB: no child's measurements"}

// refuse sets a line aside.
func (b *block) refuse(name string, number int, line []byte, f *fault) {
	b.refused++
	b.rejects = append(b.rejects, line...)
	b.faults = append(b.faults, name...)
	b.faults = append(b.faults, ':')
	b.faults = strconv.AppendInt(b.faults, int64(number), 10)
	if f.column > 0 {
		b.faults = append(b.faults, ':')
		b.faults = strconv.AppendInt(b.faults, int64(f.column), 10)
	}
	b.faults = append(b.faults, ": "...)
	b.faults = append(b.faults, f.msg...)
	b.faults = append(b.faults, '\n')
}

// A handler takes one child's line, without its end, and adds to the block what
// comes of it.
type handler func(b *block, line []byte) *fault

// A pipeline takes a list through handlers, one for each core, and hands the
// blocks on in the order of the list. It holds a few blocks at a time, however
// long the list is.
type pipeline struct {
	list    *lineReader
	name    string // of the list, for faults
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
	over := make(chan struct{})
	defer close(over)
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
			case <-over:
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
		<-b.done
		if err := p.write(b); err != nil {
			return err
		}
		free <- b
	}
}

func (p *pipeline) handle(b *block, handle handler) {
	if b.long {
		if b.starts {
			b.refuse(p.name, b.first, b.lines, errTooLong)
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
		if f := handle(b, line); f != nil {
			b.out, b.figures = b.out[:out], b.figures[:figures]
			b.refuse(p.name, number, whole, f)
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

// isBlank reports that a line has nothing in it but separators: spreadsheets
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

// errStopped says that the maker stopped the run.
var errStopped = errors.New("stopped; what was written so far is not the whole list")
