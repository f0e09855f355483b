package main

import (
	"bufio"
	"bytes"
	"strings"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing/order"
)

// eachRow holds what is written again of each child, a line each, where a line
// for each child is asked for.
type eachRow struct {
	list  *childList
	json  bool
	lines []byte
}

// add adds the child that was read to the block.
func (e *eachRow) add(b *block, r *childReader) {
	if e.json {
		b.out = r.carryJSON(b.out)
	} else {
		b.out = r.carry(b.out)
	}
	b.out = append(b.out, '\n') // there is none in a line of a list
}

// eachColumns are the columns that are written of each child.
func eachColumns(ids []string) []string {
	columns := []string{"size"}
	for _, id := range ids {
		columns = append(columns, id+"_off_cm")
	}
	return columns
}

// writeEach writes a line for each child: its size, and how many cm the size is
// more than the child in each measurement.
func (r *orderReport) writeEach(e *eachRow, labels []string, offer [][]float64, plan *order.Plan) error {
	out := bufio.NewWriterSize(r.stdout, blockSize)
	sep := e.list.sep
	if !e.json && r.flags.list.header {
		head := append(e.list.carriedHead(), strings.Join(eachColumns(r.ids), string(sep))...)
		out.Write(append(head, '\n'))
	}
	var line []byte
	i := 0
	for carried := range bytes.Lines(e.lines) {
		carried = carried[:len(carried)-1]
		size := plan.Sizes[i]
		child := r.children.Child(i)
		i++
		if e.json {
			line = append(append(append(line[:0], '{'), carried...), `"size":`...)
			line = appendText(line, labels[size])
		} else {
			label := labels[size]
			if sep == ';' {
				label = strings.ReplaceAll(label, ".", ",")
			}
			line = append(append(line[:0], carried...), label...)
		}
		for j, need := range child {
			off := tell.Figure(offer[size][j] - need)
			if e.json {
				line = append(append(append(line, `,"`...), r.ids[j]...), `_off_cm":`...)
				line = append(line, off.String()...)
				continue
			}
			text := []byte(off.String())
			if sep == ';' {
				text = bytes.Replace(text, []byte("."), []byte(","), 1)
			}
			line = append(append(line, sep), text...)
		}
		if e.json {
			line = append(line, '}')
		}
		out.Write(append(line, '\n'))
	}
	return out.Flush()
}
