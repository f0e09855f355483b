package list

import "bytes"

// A cell is one cell of a line: unchanged, and what it says.
type cell struct {
	raw, text []byte
	at        int // its first byte in the line, from 1
}

// splitLine splits a line into cells. Quoted cells may hold separators, and
// quotes written twice; they end on their line. scratch holds the text of such
// cells and is returned, grown, for the next line.
func splitLine(line []byte, sep separator, cells []cell, scratch []byte) ([]cell, []byte, *LineError) {
	cells, scratch = cells[:0], scratch[:0]
	for at := 0; ; {
		rest := line[at:]
		if len(rest) > 0 && rest[0] == '"' {
			end, text, grown, wrong := quoted(rest, at, scratch)
			scratch = grown
			if wrong != nil {
				return cells, scratch, wrong
			}
			if end < len(rest) && rest[end] != byte(sep) {
				return cells, scratch, &LineError{Column: at + end + 1,
					Reason: "a cell goes on after its closing quote; separate cells with " + sep.name() + " and write a quote inside a quoted cell twice"}
			}
			cells = append(cells, cell{rest[:end], text, at + 1})
			if end == len(rest) {
				return cells, scratch, nil
			}
			at += end + 1
			continue
		}
		end := bytes.IndexByte(rest, byte(sep))
		if end < 0 {
			return append(cells, cell{rest, rest, at + 1}), scratch, nil
		}
		cells = append(cells, cell{rest[:end], rest[:end], at + 1})
		at += end + 1
	}
}

// quoted reads a quoted cell at the beginning of rest: where it ends and what
// it says.
func quoted(rest []byte, at int, scratch []byte) (end int, text, grown []byte, wrong *LineError) {
	from := len(scratch)
	twice := false
	for i := 1; ; {
		j := bytes.IndexByte(rest[i:], '"')
		if j < 0 {
			return 0, nil, scratch, &LineError{Column: at + 1, Reason: "a quote is not closed on its line; a child is one line"}
		}
		i += j
		if i+1 < len(rest) && rest[i+1] == '"' {
			twice = true
			i += 2
			continue
		}
		if !twice {
			return i + 1, rest[1:i], scratch, nil
		}
		for k := 1; k < i; k++ {
			scratch = append(scratch, rest[k])
			if rest[k] == '"' {
				k++
			}
		}
		return i + 1, scratch[from:], scratch, nil
	}
}

// A separator comes between the cells of a line.
type separator byte

func (s separator) name() string {
	switch s {
	case '\t':
		return "tabs"
	case ';':
		return "semicolons"
	}
	return "commas"
}

// localize puts decimal commas into numbers where the separator is a semicolon, as
// spreadsheets do, to many of which 4.4 is the fourth of April.
func (s separator) localize(numbers []byte) []byte {
	if s == ';' {
		for i, c := range numbers {
			if c == '.' {
				numbers[i] = ','
			}
		}
	}
	return numbers
}
