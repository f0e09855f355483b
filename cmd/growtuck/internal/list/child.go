package list

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"growtuck/sizing"
)

// A childReader reads the children of a list, one at a time. It is for one
// goroutine.
type childReader struct {
	ref     *sizing.Reference
	list    *List
	cells   []cell
	scratch []byte

	sex      sizing.Sex
	age      float64   // years, 0 where not known
	measured []float64 // in the order of the list's measurements, NaN where not taken

	// Of JSON lines: the fields, the names of those that are copied, and the
	// columns by name.
	fields map[string]json.RawMessage
	copied []string
	named  map[string]*column
}

func newChildReader(ref *sizing.Reference, l *List) *childReader {
	return &childReader{ref: ref, list: l, measured: make([]float64, len(l.measured)), named: make(map[string]*column)}
}

// readLine reads a child from a line of the list.
func (r *childReader) readLine(line []byte) *LineError {
	if !utf8.Valid(line) {
		return &LineError{Reason: notUTF8}
	}
	if r.list.json {
		return r.readJSON(line)
	}
	return r.readCSV(line)
}

func (r *childReader) readCSV(line []byte) *LineError {
	var wrong *LineError
	if r.cells, r.scratch, wrong = splitLine(line, r.list.separator, r.cells, r.scratch); wrong != nil {
		return wrong
	}
	if len(r.cells) != len(r.list.columns) {
		return r.wrongCount()
	}
	r.clear()
	for i := range r.list.columns {
		c := &r.list.columns[i]
		if c.role == copiedColumn || c.role == computedColumn {
			continue
		}
		if reason := r.set(c, r.cells[i].text); reason != "" {
			return &LineError{Column: r.cells[i].at, Reason: c.name + ": " + reason}
		}
	}
	return nil
}

func (r *childReader) clear() {
	r.sex, r.age = sizing.Both, 0
	for i := range r.measured {
		r.measured[i] = math.NaN()
	}
}

// wrongCount says that a line has too many cells or too few.
func (r *childReader) wrongCount() *LineError {
	n, want := len(r.cells), len(r.list.columns)
	reason := fmt.Sprintf("cells: %d, but the list has %d columns", n, want)
	if n > want && r.list.separator == ',' {
		reason += "; quote a number with a comma in it"
	}
	return &LineError{Reason: reason}
}

const (
	notUTF8     = "is not in UTF-8; save the list in UTF-8, or give --latin-1 if it is in Latin-1"
	notLength   = "not a length; write 24.5, 24.5 cm, 245 mm, 9 3/4 in or 3 ft 7 in, or leave the cell empty"
	notWeight   = "not a weight; write 17.2, 17.2 kg or 38 lb, or leave the cell empty"
	notAge      = "not an age from 0 to 20 years; write 4.5, 4y6m or 30m"
	otherUnit   = "names another unit than the header; leave the wrong one out"
	notSex      = "not one of m, f, both"
	notPositive = "must be greater than 0"
)

// set reads a cell of a column. It returns what is wrong, without the number.
func (r *childReader) set(c *column, text []byte) string {
	text = trimSpace(text)
	if len(text) == 0 {
		return ""
	}
	switch c.role {
	case sexColumn:
		return r.setSex(text)
	case ageColumn:
		return r.setAge(text, c.unit)
	case measuredColumn:
		v, ok := plainNumber(text)
		if ok && c.unit != "cm" && c.unit != "kg" {
			ok = false // rare, so it may be slow
		}
		if !ok {
			var err error
			if v, err = c.amount(string(text)); err != nil {
				var other *sizing.BesideError
				switch {
				case errors.As(err, &other):
					return otherUnit
				case slices.Contains(weightUnits, c.unit):
					return notWeight
				}
				return notLength
			}
		}
		if v <= 0 {
			return notPositive
		}
		r.measured[c.index] = v
	}
	return ""
}

// amount reads a length or a weight in all its forms.
func (c *column) amount(text string) (float64, error) {
	in := "cm"
	if slices.Contains(weightUnits, c.unit) {
		in = "kg"
	}
	if c.named {
		return sizing.ParseBeside(in, text, c.unit)
	}
	return sizing.ParseMeasured(in, text, c.unit)
}

func (r *childReader) setSex(text []byte) string {
	if len(text) == 1 {
		switch text[0] {
		case 'm', 'M':
			r.sex = sizing.Boy
			return ""
		case 'f', 'F':
			r.sex = sizing.Girl
			return ""
		}
	}
	var err error
	if r.sex, err = sizing.ParseSex(string(text)); err != nil {
		return notSex
	}
	return ""
}

func (r *childReader) setAge(text []byte, unit string) string {
	if v, ok := plainNumber(text); ok && unit != "weeks" && unit != "m" {
		if unit == "months" {
			v /= 12
		}
		if !(v > 0 && v <= 20) {
			return notAge
		}
		r.age = v
		return ""
	}
	var child sizing.Child
	if err := r.ref.Set(&child, "age", strings.TrimSpace(string(text)), unit); err != nil || child.AgeYears > sizing.MostYears {
		var other *sizing.BesideError
		if errors.As(err, &other) {
			return otherUnit
		}
		return notAge
	}
	r.age = child.AgeYears
	return ""
}

func trimSpace(text []byte) []byte {
	for len(text) > 0 && text[0] == ' ' {
		text = text[1:]
	}
	for len(text) > 0 && text[len(text)-1] == ' ' {
		text = text[:len(text)-1]
	}
	return text
}

// plainNumber reads digits with at most one point, at most three before it and
// six after: what nearly every cell holds. The division is exact, so the
// number is the one that strconv gives.
func plainNumber(text []byte) (float64, bool) {
	const mostDigits, mostDecimals = 3, 6
	digits, decimals, point := 0, 0, false
	value := 0
	for _, c := range text {
		switch {
		case c >= '0' && c <= '9':
			value = value*10 + int(c-'0')
			if point {
				decimals++
			} else {
				digits++
			}
		case c == '.' && !point:
			point = true
		default:
			return 0, false
		}
	}
	if digits == 0 || digits > mostDigits || decimals > mostDecimals || point && decimals == 0 {
		return 0, false
	}
	return float64(value) / tens[decimals], true
}

var tens = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6}
