package tell

import (
	"fmt"
	"strconv"
	"strings"

	"growtuck/sizing"
	"growtuck/validate"
)

// amount writes a figure with its unit to some significant digits, or all
// that it has: a length with inches beside it where they are asked for, a number
// without a unit as it is. A fact passes the form on to the figure in it.
func (s Style) amount(v any, form string) string {
	digits := -1
	if n, ok := strings.CutPrefix(form, "sig"); ok {
		digits, _ = strconv.Atoi(n)
	}
	text := func(x float64) string { return strconv.FormatFloat(x, 'g', digits, 64) }
	switch v := v.(type) {
	case sizing.Length:
		return s.lengthAs(text(float64(v)))
	case sizing.Weight:
		return text(float64(v)) + " kg"
	case sizing.Range:
		low, high := text(float64(v.Low)), text(float64(v.High))
		if !s.Inches() {
			return low + " to " + high + " cm"
		}
		return low + " to " + high + " cm (" + inchTenths(low) + " to " + inchTenths(high) + " in)"
	case sizing.Fact:
		return s.factAs(v, form)
	case int, float64:
		return text(number(v))
	}
	return s.plain(v)
}

// difference writes a figure with its unit and with its sign.
func (s Style) difference(v any, form string) string {
	if f, ok := v.(sizing.Fact); ok {
		return s.factAs(f, form)
	}
	if _, ok := v.(string); ok {
		return s.plain(v)
	}
	text := fmt.Sprintf("%+.*"+form[1:2], int(form[2]-'0'), number(v))
	switch v.(type) {
	case sizing.Length:
		text = s.lengthAs(text)
	case sizing.Weight:
		text += " kg"
	}
	if s.Place == Data {
		return text
	}
	return strings.ReplaceAll(text, "-", "−")
}

// lengthAs writes a length in cm as text, with inches beside it.
func (s Style) lengthAs(text string) string {
	if !s.Inches() {
		return text + " cm"
	}
	return text + " cm (" + inchTenths(text) + " in)"
}

// list writes texts or facts one after the other, joined by what is given.
func (s Style) list(v any, join string) string {
	if facts, ok := v.([]sizing.Fact); ok {
		return strings.Join(s.Facts(facts), join)
	}
	if texts, ok := v.([]string); ok {
		return strings.Join(texts, join)
	}
	return s.plain(v)
}

// cellEdit tells what to do with a cell of a table, or with its row.
func cellEdit(e validate.CellEdit) string {
	switch {
	case e.Column == "":
		return "remove line " + strconv.Itoa(e.Line)
	case e.To == "":
		return "leave " + e.Column + " empty"
	case strings.ContainsAny(e.To, " ,"):
		return "set " + e.Column + " to " + strconv.Quote(e.To)
	}
	return "set " + e.Column + " to " + e.To
}
