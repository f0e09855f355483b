package list

import (
	"bufio"
	"bytes"
	"io"
	"strings"
)

// eachLines holds what is copied of each child, a line each, where a line for each
// child is asked for.
type eachLines struct {
	list    *List
	json    bool
	columns []string // that are worked out
	lines   []byte
}

// copy adds the child that was read to the block.
func (e *eachLines) copy(b *block, r *childReader) {
	if e.json {
		b.out = r.copyFields(b.out)
	} else {
		b.out = r.copyCells(b.out)
	}
	b.out = append(b.out, '\n') // there is none in a line of a list
}

// WriteEach writes a line for each child: its size, and how many cm the size is
// more than the child in each measurement.
func (r *OrderResult) WriteEach(w io.Writer) error {
	e := r.each
	out := bufio.NewWriterSize(w, blockSize)
	if !e.json && e.list.options.Header {
		header := append(e.list.copiedHeader(), strings.Join(e.columns, string(rune(e.list.separator)))...)
		out.Write(append(header, '\n'))
	}
	var line []byte
	i := 0
	for copied := range bytes.Lines(e.lines) {
		copied = copied[:len(copied)-1]
		size, child := &r.Sizes[r.Plan.Sizes[i]], r.Children.Child(i)
		i++
		if e.json {
			line = e.appendFields(line[:0], copied, size, child)
		} else {
			line = e.appendCells(line[:0], copied, size, child)
		}
		out.Write(append(line, '\n'))
	}
	return out.Flush()
}

func (e *eachLines) appendCells(line, copied []byte, size *SizeCount, child []float64) []byte {
	line = append(line, copied...)
	from := len(line)
	line = append(line, size.Label...)
	e.list.separator.localize(line[from:])
	for i, need := range child {
		line = append(line, byte(e.list.separator))
		from = len(line)
		line = appendNumber(line, size.BodyCm[i]-need)
		e.list.separator.localize(line[from:])
	}
	return line
}

func (e *eachLines) appendFields(line, copied []byte, size *SizeCount, child []float64) []byte {
	line = append(append(append(line, '{'), copied...), `"size":`...)
	line = appendText(line, size.Label)
	for i, need := range child {
		line = append(append(append(line, `,"`...), e.columns[i+1]...), `":`...)
		line = appendNumber(line, size.BodyCm[i]-need)
	}
	return append(line, '}')
}
