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
func (st Style) amount(v any, form string) string {
	digits := -1
	if n, ok := strings.CutPrefix(form, "sig"); ok {
		digits, _ = strconv.Atoi(n)
	}
	text := func(x float64) string { return strconv.FormatFloat(x, 'g', digits, 64) }
	switch v := v.(type) {
	case sizing.Length:
		return st.lengthAs(text(float64(v)))
	case sizing.Weight:
		return text(float64(v)) + " kg"
	case sizing.Range:
		return st.rangeAs(text(float64(v.Low)), text(float64(v.High)))
	case sizing.Fact:
		return st.factAs(v, form)
	case int, float64:
		return text(number(v))
	}
	return st.plain(v)
}

// difference writes a figure with its unit and with its sign.
func (st Style) difference(v any, form string) string {
	if f, ok := v.(sizing.Fact); ok {
		return st.factAs(f, form)
	}
	if _, ok := v.(string); ok {
		return st.plain(v)
	}
	text := fmt.Sprintf("%+.*"+form[1:2], int(form[2]-'0'), number(v))
	switch v.(type) {
	case sizing.Length:
		text = st.lengthAs(text)
	case sizing.Weight:
		text += " kg"
	}
	if st.Place == Data {
		return text
	}
	return strings.ReplaceAll(text, "-", "−")
}

// lengthAs writes a length in cm as text, with inches beside it.
func (st Style) lengthAs(text string) string {
	if !st.inches() {
		return text + " cm"
	}
	return text + " cm (" + inchTenths(text) + " in)"
}

// rangeAs writes a range of lengths in cm as text, with inches beside it.
func (st Style) rangeAs(low, high string) string {
	text := low + " to " + high + " cm"
	if st.inches() {
		text += " (" + inchTenths(low) + " to " + inchTenths(high) + " in)"
	}
	return text
}

// list writes texts or facts one after the other, joined by what is given.
func (st Style) list(v any, join string) string {
	if facts, ok := v.([]sizing.Fact); ok {
		return strings.Join(st.Facts(facts), join)
	}
	if texts, ok := v.([]string); ok {
		return strings.Join(texts, join)
	}
	return st.plain(v)
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
