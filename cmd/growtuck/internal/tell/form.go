package tell

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"growtuck/sizing"
	"growtuck/validate"
)

// value writes an argument in a form. Without one, a count is written as it is, a
// number to a hundredth, a length to a tenth of a cm with its unit, a list as
// words.
//
//	cm cm1 cm2 cm0 cm4   a length: to a tenth without and with a zero, to a
//	                     hundredth, whole, to four digits; inches beside it where asked for
//	metric               a length in cm alone, where inches would be in the way
//	measure              a length, weight or age of a child as it is measured, in lb too beside inches
//	tenths               the same without its unit, beside another in cm
//	longer               "2 cm longer", below 0 "2 cm shorter"
//	mm quarters          a length in mm; inches with quarters: "20 3/4"
//	n n1 n2 n0 g2 g3 g4  a number: to a tenth, with one or two decimals, whole, to two, three or four digits
//	g                    a number in all its digits
//	pct percent spct     a share as a percentage, with and without its sign, with plus or minus
//	sum semicolons       a list with plus signs, with semicolons
//	age                  years as "8 months", "4.5 years"
//	a to                 "an ear"; what an edit sets
//	range range4         "10 to 12 cm", "at least 10 cm"; to four digits
//	exact sig3 sig4      a figure with its unit as it is, to three or four digits
//	+g3 +g4 +f2          the same with its sign, to three digits, with two decimals
//	stitches rows rounds pairs increases decreases balls …   a count with its noun
//	times nth            "once", "twice", "3 times"; "2nd"
//	sts                  a count of stitches, by the craft's abbreviation
//	spoken quoted cell   an id as words; in quotation marks; and not cut
//	join csv and or      a list joined by commas with and without space, by a word
//	month                a month of the calendar
//	stitch               a crochet stitch by its abbreviation, in the terms asked for
//	capital section      with a capital letter; the name of a section of a plan
func (st Style) value(v any, form string) string {
	if form == "" {
		return st.plain(v)
	}
	for _, written := range []func(Style, any, string) (string, bool){Style.asLength, Style.asNumber, Style.asList, Style.asWords} {
		if text, ok := written(st, v, form); ok {
			return text
		}
	}
	return counted(st.plain(v), number(v), form)
}

// asLength writes an argument in a form of lengths.
func (st Style) asLength(v any, form string) (string, bool) {
	switch form {
	case "cm", "cm0", "cm1", "cm2", "cm4":
		if kg, ok := v.(sizing.Weight); ok {
			return cmText(float64(kg), form) + " kg", true
		}
		return st.length(number(v), form), true
	case "measure":
		return st.measure(v), true
	case "tenths":
		if st.inches() {
			return st.measure(v), true
		}
		return tenth(number(v)), true
	case "metric":
		return cmText(number(v), "cm") + " cm", true
	case "longer":
		if number(v) < 0 {
			return st.length(-number(v), "cm") + " shorter", true
		}
		return st.length(number(v), "cm") + " longer", true
	case "mm":
		return tenth(number(v)*10) + " mm", true
	case "quarters":
		if _, isLength := v.(sizing.Length); isLength {
			return sizing.FormatQuarters(number(v) / sizing.CmPerInch), true
		}
		return sizing.FormatQuarters(number(v)), true
	case "range", "range4":
		if r, ok := v.(sizing.Range); ok {
			return st.lengthRange(r, "cm"+strings.TrimPrefix(form, "range")), true
		}
		return st.plain(v), true
	case "exact", "sig3", "sig4":
		return st.amount(v, form), true
	case "+g3", "+g4", "+f2":
		return st.difference(v, form), true
	}
	return "", false
}

// asNumber writes an argument in a form of numbers.
func (st Style) asNumber(v any, form string) (string, bool) {
	switch form {
	case "n":
		return tenth(number(v)), true
	case "n0", "n1", "n2":
		return fixed(number(v), int(form[1]-'0')), true
	case "g":
		return strconv.FormatFloat(number(v), 'g', -1, 64), true
	case "g2", "g3", "g4":
		return strconv.FormatFloat(number(v), 'g', int(form[1]-'0'), 64), true
	case "percent":
		return strconv.Itoa(int(math.Round(number(v) * 100))), true
	case "pct":
		return st.value(v, "percent") + " %", true
	case "spct":
		if number(v) < 0 {
			return minus(st.value(v, "pct")), true
		}
		return "+" + st.value(v, "pct"), true
	case "age":
		if number(v) < 2 {
			return fixed(number(v)*12, 0) + " months", true
		}
		return tenth(number(v)) + " years", true
	case "nth":
		return ordinal(int(number(v))), true
	case "times":
		return timesWord(int(number(v))), true
	case "sts":
		noun := st.craft().noun(st)
		if number(v) == 1 {
			noun = strings.TrimSuffix(noun, "s")
		}
		return st.plain(v) + " " + noun, true
	}
	return "", false
}

// asList writes an argument in a form of lists.
func (st Style) asList(v any, form string) (string, bool) {
	switch form {
	case "sum":
		return st.list(v, " + "), true
	case "semicolons":
		return st.list(v, "; "), true
	case "join":
		return st.list(v, ", "), true
	case "csv":
		return st.list(v, ","), true
	case "and", "or":
		return st.list(v, " "+form+" "), true
	}
	return "", false
}

// asWords writes an argument in a form of words.
func (st Style) asWords(v any, form string) (string, bool) {
	switch form {
	case "a":
		return article(st.plain(v)), true
	case "to":
		if e, ok := v.(validate.Edit); ok {
			return st.plain(e.To), true
		}
		return st.plain(v), true
	case "capital":
		return Capital(st.plain(v)), true
	case "section":
		return sectionName(st.plain(v)), true
	case "spoken":
		if list, ok := v.([]string); ok {
			return Spoken(strings.Join(list, ", ")), true
		}
		return Spoken(st.plain(v)), true
	case "month":
		if d, err := time.Parse("2006-01", st.plain(v)); err == nil {
			return d.Format("January 2006"), true
		}
		return st.plain(v), true
	case "stitch":
		return st.term(st.plain(v)), true
	case "quoted":
		return quoted(st.plain(v)), true
	case "cell":
		return cells(v), true
	}
	return "", false
}

// plain writes an argument by its type.
func (st Style) plain(v any) string {
	switch v := v.(type) {
	case string:
		return v
	case int:
		return strconv.Itoa(v)
	case float64:
		return Figure(v).String()
	case sizing.Length:
		return st.length(float64(v), "cm")
	case sizing.Weight:
		return Figure(v).String() + " kg"
	case sizing.Age:
		return st.value(float64(v), "age")
	case sizing.Range:
		return st.lengthRange(v, "cm")
	case sizing.Fact:
		return st.Fact(v)
	case []sizing.Fact:
		return strings.Join(st.Facts(v), ", ")
	case []string:
		return List(v)
	case validate.CellEdit:
		return cellEdit(v)
	case validate.Edit:
		return st.edit(v)
	case validate.RowEdit:
		return rowEdit(v)
	}
	return fmt.Sprint(v)
}

// measure writes what is measured of a child to a tenth; below 10, where a tenth may
// say nothing, to a thousandth.
func (st Style) measure(v any) string {
	x := number(v)
	text := tenth(x)
	if x < 10 {
		text = strconv.FormatFloat(math.Round(x*1000)/1000, 'f', -1, 64)
	}
	switch v.(type) {
	case sizing.Weight:
		if st.inches() {
			return text + " kg (" + tenth(x/sizing.KgPerPound) + " lb)"
		}
		return text + " kg"
	case sizing.Age:
		return st.value(x, "age")
	}
	return st.lengthAs(text)
}

func number(v any) float64 {
	switch v := v.(type) {
	case int:
		return float64(v)
	case float64:
		return v
	case sizing.Length:
		return float64(v)
	case sizing.Weight:
		return float64(v)
	case sizing.Age:
		return float64(v)
	}
	return math.NaN()
}

// length writes a length in cm, and beside it, where inches are asked for, in
// inches to a tenth.
func (st Style) length(cm float64, form string) string {
	return st.lengthAs(cmText(cm, form))
}

func cmText(cm float64, form string) string {
	switch form {
	case "cm0":
		return fixed(cm, 0)
	case "cm1":
		return fixed(cm, 1)
	case "cm2":
		return Figure(cm).String()
	case "cm4":
		return strconv.FormatFloat(cm, 'g', 4, 64)
	}
	return tenth(cm)
}

// inchTenths turns a number of cm as it is written into inches, so that a reader
// who works it out gets the same.
func inchTenths(cm string) string {
	v, err := strconv.ParseFloat(cm, 64)
	if err != nil {
		return cm
	}
	return strings.TrimSuffix(strconv.FormatFloat(v/sizing.CmPerInch, 'f', 1, 64), ".0")
}

func (st Style) lengthRange(r sizing.Range, form string) string {
	low, high := float64(r.Low), float64(r.High)
	switch {
	case math.IsInf(high, 1):
		return "at least " + st.length(low, form)
	case math.Abs(high-low) < 0.05:
		return st.length(low, form)
	}
	return st.rangeAs(cmText(low, form), cmText(high, form))
}

// tenth writes a number to a tenth, whole where it is.
func tenth(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10+0, 'f', -1, 64) } // + 0: not -0

// fixed writes a number with a fixed count of decimals.
func fixed(v float64, decimals int) string {
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// counted writes a count with its noun, in the plural but for one.
func counted(text string, n float64, noun string) string {
	if n == 1 {
		noun = singular(noun)
	}
	return text + " " + noun
}

// Counted is a count with its noun, in the plural but for one.
func Counted(n int, noun string) string { return counted(strconv.Itoa(n), float64(n), noun) }

// timesWord is "once", "twice" or "3 times".
func timesWord(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return strconv.Itoa(n) + " times"
}

func singular(noun string) string {
	switch noun {
	case "stitches", "classes":
		return strings.TrimSuffix(noun, "es")
	case "inches":
		return "inch"
	case "children":
		return "child"
	}
	return strings.TrimSuffix(noun, "s")
}

// article puts the article before a noun.
func article(noun string) string {
	if strings.HasPrefix(noun, "a") || strings.HasPrefix(noun, "e") || strings.HasPrefix(noun, "i") || strings.HasPrefix(noun, "o") {
		return "an " + noun
	}
	return "a " + noun
}

// ordinal writes 1st, 2nd, 11th.
func ordinal(n int) string {
	suffix := "th"
	if n%100 < 11 || n%100 > 13 {
		switch n % 10 {
		case 1:
			suffix = "st"
		case 2:
			suffix = "nd"
		case 3:
			suffix = "rd"
		}
	}
	return strconv.Itoa(n) + suffix
}

// cells puts a cell's text, or each of several, in quotation marks.
func cells(v any) string {
	list, ok := v.([]string)
	if !ok {
		return fmt.Sprintf("%.80q", v)
	}
	quoted := make([]string, len(list))
	for i, text := range list {
		quoted[i] = fmt.Sprintf("%.80q", text)
	}
	return strings.Join(quoted, ", ")
}

// quoted puts text in quotation marks, cut to 60 bytes.
func quoted(s string) string {
	if len(s) > 60 {
		end := 60
		for end > 0 && !utf8.RuneStart(s[end]) {
			end--
		}
		return fmt.Sprintf("%q…", s[:end])
	}
	return fmt.Sprintf("%.80q", s)
}
