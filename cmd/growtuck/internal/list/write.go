package list

import (
	"bytes"
	"encoding/json"
	"math"
	"strconv"
	"unicode/utf8"
)

// write adds a child's line to out: the columns that are copied, then those that
// were worked out.
func (s *childSizer) write(out []byte, r *childReader, doubted bool) []byte {
	if s.json {
		return s.writeJSON(out, r, doubted)
	}
	sep := byte(s.separator)
	out = r.copyCells(out)
	size, place := s.chartSize(s.heightIndex, r.sex)
	out = append(append(append(append(out, size...), sep), place...), sep)
	size, place = s.chartSize(s.chestIndex, r.sex)
	out = append(append(append(append(out, size...), sep), place...), sep)
	if doubted {
		out = append(out, s.check()...)
	}
	for i := range s.columns {
		out = append(out, sep)
		if v := s.figure(&s.columns[i]); !math.IsNaN(v) {
			from := len(out)
			out = appendNumber(out, v)
			s.separator.localize(out[from:])
		}
	}
	return append(out, '\n')
}

// writeJSON adds a child as a line of JSON.
func (s *childSizer) writeJSON(out []byte, r *childReader, doubted bool) []byte {
	out = append(out, '{')
	out = r.copyFields(out)
	column := 0
	name := func() {
		if column > 0 {
			out = append(out, ',')
		}
		out = append(out, '"')
		out = append(out, s.headers[column]...)
		out = append(out, '"', ':')
		column++
	}
	text := func(s string) {
		name()
		if s == "" {
			out = append(out, "null"...)
		} else {
			out = appendText(out, s)
		}
	}
	for _, index := range []int{s.heightIndex, s.chestIndex} {
		size, place := s.chartSize(index, r.sex)
		text(size)
		text(place)
	}
	if doubted {
		text(s.check())
	} else {
		text("")
	}
	for i := range s.columns {
		name()
		if v := s.figure(&s.columns[i]); math.IsNaN(v) {
			out = append(out, "null"...)
		} else {
			out = appendNumber(out, v)
		}
	}
	return append(out, '}', '\n')
}

// appendNumber writes a number to a hundredth.
func appendNumber(out []byte, v float64) []byte {
	h := math.Round(v * 100)
	if !(h >= 0 && h < 1e15) {
		return strconv.AppendFloat(out, h/100+0, 'f', -1, 64) // + 0: not -0
	}
	n := int64(h)
	out = strconv.AppendInt(out, n/100, 10)
	switch rest := n % 100; {
	case rest == 0:
	case rest%10 == 0:
		out = append(out, '.', byte('0'+rest/10))
	default:
		out = append(out, '.', byte('0'+rest/10), byte('0'+rest%10))
	}
	return out
}

// appendText writes text as JSON; bytes that are not UTF-8 are replaced.
func appendText(out []byte, s string) []byte {
	for i := range len(s) {
		if c := s[i]; c < ' ' || c >= utf8.RuneSelf || c == '"' || c == '\\' {
			return appendEscaped(out, s)
		}
	}
	return append(append(append(out, '"'), s...), '"')
}

func appendEscaped(out []byte, s string) []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil {
		return append(out, "null"...) // a string has no such error
	}
	return append(out, bytes.TrimSuffix(b.Bytes(), []byte("\n"))...)
}
