package workbook

import (
	"strings"
	"unicode/utf8"
)

// height is what the lines of a row's text need, for spreadsheet programs do
// not work it out for merged cells.
func (s *sheet) height(row []cell, merged span) float64 {
	const lineHeight, perLine = 13.5, 0.86 // points; characters of this fount to a unit of width
	size, lines, least := 1.0, 1, 0.0
	for i, c := range row {
		if c.style == stTitle || c.style == stTitleLong {
			size = 1.7
		}
		switch c.style {
		case stSection, stChapter:
			size = 1.4
		case stWork, stAfter:
			size = max(size, 1.12)
		case stBox:
			least = lineHeight * 1.4
		}
		t, ok := c.value.(string)
		if !ok || !c.style.wraps() {
			continue
		}
		width := 10.0
		if i < len(s.widths) {
			width = s.widths[i]
		}
		if merged.from == i+1 {
			width = 0
			for _, w := range s.widths[merged.from-1 : merged.to] {
				width += w
			}
		}
		per := width / perLine
		switch c.style {
		case stHead:
			per *= 0.9
		case stTitleLong:
			per /= 1.9
		case stWork:
			per /= 1.04
		case stChapter:
			per /= 1.4
		}
		lines = max(lines, wrapped(t, per))
	}
	return max(lineHeight*float64(lines)*size, least) + 2
}

// wrapped is the number of lines of a text broken between words.
func wrapped(t string, per float64) int {
	lines, used := 1, 0.0
	for _, word := range strings.Fields(t) {
		n := float64(utf8.RuneCountInString(word))
		switch {
		case used == 0:
			used = n
		case used+1+n > per:
			lines, used = lines+1, n
		default:
			used += 1 + n
		}
		for used > per && per >= 1 {
			lines, used = lines+1, used-per
		}
	}
	return lines
}
