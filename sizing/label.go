package sizing

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// A label is what the name of a size says: ages in years, or heights in cm, from one to
// another; and how it was read.
type label struct {
	low, high float64
	heights   bool
	how       Fact
}

// A LabelError is a label that says no one size.
type LabelError struct {
	Label string
	Why   string
	Meant []string // labels that would be read
}

func (e *LabelError) Error() string {
	return fmt.Sprintf("size %.40q: %s; give %s", e.Label, e.Why, strings.Join(e.Meant, " or "))
}

// Words before a size that say no more than that it is one. Sizes of European labels
// (EN 13402-3, ISO 8559-2) are heights; the others are ages.
var beforeLabels = []string{"size", "sizes", "sz.", "sz", "age", "ages", "aged", "gr.", "gr", "größe", "groesse", "taille", "us", "uk", "eu", "eur", "en", "de", "fr", "kids", "child", "children's", "childrens", "boys", "girls", "youth", "baby"}

// europeanLabels are words before sizes by height.
var europeanLabels = []string{"eu", "eur", "en", "de"}

// afterLabels are units of ages in labels beside those of ages at large.
var afterLabels = map[string]string{"ans": "years", "an": "years", "a": "years", "jahre": "years", "jahr": "years", "años": "years", "anni": "years", "jaar": "years", "mois": "months", "monate": "months", "meses": "months", "mesi": "months", "maanden": "months"}

// letterSizes are sizes by letters, which each maker gives to other children.
var letterSizes = []string{"xxs", "xs", "s", "m", "l", "xl", "xxl", "small", "medium", "large", "one size", "one-size", "onesize", "os", "one size fits all", "free size"}

// labelFrom is from which number a label is a height in cm: no child's age is as large,
// and no child is as small.
const labelFrom = 45

// readLabel reads what a label on a child's garment says.
func (c *Chart) readLabel(text string) (label, error) {
	s := strings.ToLower(strings.Join(strings.Fields(PlainFigures(text)), " "))
	european := false
	for again := true; again; {
		again = false
		for _, word := range beforeLabels {
			rest, ok := strings.CutPrefix(s, word)
			if ok && (strings.HasPrefix(rest, " ") || slices.Contains(europeanLabels, word) && startsWithDigit(rest)) {
				s, again = strings.TrimSpace(rest), true
				european = european || slices.Contains(europeanLabels, word)
			}
		}
	}
	if slices.Contains(letterSizes, s) {
		return label{}, &LabelError{text, "says neither an age nor a height; letters stand for others with each maker", []string{"the age or the height that goes with it, such as 4-5 or 110"}}
	}
	if rest, ok := strings.CutPrefix(s, "t"); ok && startsWithDigit(rest) {
		s = rest + "t"
	}
	if years, build := cutBuild(s); build != "" {
		return label{}, &LabelError{text, fmt.Sprintf("%q says a width, which differs from maker to maker", build), []string{years + ", with the child's own girths"}}
	}
	switch s {
	case "nb", "newborn", "new born", "0", "0m", "preemie", "premature":
		return label{0, 0, false, NewFact("label.newborn", text)}, nil
	case "6x":
		years := c.ref.Practice("size_6x").Value
		return label{years, years, false, NewFact("label.6x", text, years)}, nil
	}
	// Two labels of one garment: the height says more than the age.
	if first, second, ok := twoLabels(s); ok {
		a, errA := c.readLabel(first)
		b, errB := c.readLabel(second)
		switch {
		case slices.Contains(letterSizes, first) && errB == nil: // the letter says nothing
			return b, nil
		case errA == nil && errB == nil && a.heights && !b.heights:
			return a, nil
		case errA == nil && errB == nil && b.heights && !a.heights:
			return b, nil
		}
	}
	low, high, ok := cutRange(s)
	if !ok {
		v, unit, ok := labelNumber(s, "")
		switch {
		case !ok:
			return label{}, errNoLabel
		case european && unit == "" && v < labelFrom:
			return label{}, &LabelError{text, "European sizes of children are heights in cm", []string{fmt.Sprintf("%g years, or the height", v)}}
		}
		return labelOf(text, v, v, unit)
	}
	b, unit, okB := labelNumber(high, "")
	a, unitA, okA := labelNumber(low, unit)
	switch {
	case !okA || !okB || !(a < b):
		return label{}, errNoLabel
	case unitA != unit:
		return label{}, &LabelError{text, "its ends are of two kinds", []string{"one of them"}}
	case unit == "" && b < labelFrom && b-a > 2:
		return label{}, &LabelError{text, "may be months or years", []string{fmt.Sprintf("%g-%gm", a, b), fmt.Sprintf("%g-%gy", a, b)}}
	}
	return labelOf(text, a, b, unit)
}

func startsWithDigit(s string) bool { return s != "" && s[0] >= '0' && s[0] <= '9' }

// builds are words and letters of the trade after an age for children slimmer or wider
// than the usual of their height.
var builds = []string{"slim", "regular", "husky", "plus", "s", "r", "h", "p"}

// cutBuild cuts such a word off an age.
func cutBuild(s string) (years, build string) {
	for _, b := range builds {
		if rest, ok := strings.CutSuffix(s, b); ok {
			if rest = strings.TrimSpace(rest); startsWithDigit(rest) && strings.Trim(rest, "0123456789") == "" {
				return rest, b
			}
		}
	}
	return "", ""
}

var errNoLabel = errors.New("no label")

// labelOf makes a label of its numbers and their unit.
func labelOf(text string, low, high float64, unit string) (label, error) {
	l := label{low: low, high: high}
	switch {
	case unit == "cm" || unit == "" && low >= labelFrom:
		l.heights = true
		if low == high && unit == "" {
			l.how = NewFact("label.height", text, Length(low))
		}
		return l, nil
	case unit == "months":
		l.low, l.high = low/12, high/12
	case unit == "toddler" && low == high:
		l.how = NewFact("label.toddler", text, low)
		return l, nil
	}
	return l, nil
}

// twoLabels cuts a label in brackets off another, or one after a blank and a stroke.
func twoLabels(s string) (first, second string, ok bool) {
	if first, rest, ok := strings.Cut(s, "("); ok {
		second, _, closed := strings.Cut(rest, ")")
		return strings.TrimSpace(first), strings.TrimSpace(second), closed && first != ""
	}
	for _, sep := range []string{" / ", ", ", "/", " "} {
		if first, second, ok := cutLast(s, sep); ok {
			return strings.TrimSpace(first), strings.TrimSpace(second), true
		}
	}
	return "", "", false
}

func cutLast(s, sep string) (before, after string, ok bool) {
	if i := strings.LastIndex(s, sep); i > 0 && i+len(sep) < len(s) {
		return s[:i], s[i+len(sep):], true
	}
	return "", "", false
}

// cutRange cuts a range in two.
func cutRange(s string) (low, high string, ok bool) {
	for _, sep := range []string{"-", "/", " to ", " bis ", " à "} {
		if low, high, ok := strings.Cut(s, sep); ok && low != "" && high != "" && !strings.Contains(high, sep) {
			// 5 1/2 is a number
			if sep == "/" && strings.Contains(strings.TrimSpace(low), " ") {
				return "", "", false
			}
			return strings.TrimSpace(low), strings.TrimSpace(high), true
		}
	}
	return "", "", false
}

// labelNumber reads a number with the unit after it, or else that beside it: months,
// years, cm, toddler or none.
func labelNumber(s, beside string) (v float64, unit string, ok bool) {
	end := strings.LastIndexAny(s, "0123456789") + 1
	number, word := strings.TrimSpace(s[:end]), strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s[end:]), "."))
	v, err := parseDigitsOrFraction(number)
	if err != nil || number == "" {
		return 0, "", false
	}
	switch u := ageUnitNamed(word); {
	case word == "":
		return v, beside, true
	case word == "t" || word == "toddler":
		return v, "toddler", true
	case word == "cm":
		return v, "cm", true
	case u != nil && (u.name == "years" || u.name == "months"):
		return v, u.name, true
	}
	unit, ok = afterLabels[word]
	return v, unit, ok
}

// read is how the place's label was read.
func (p Place) read() []Fact {
	if p.How == nil {
		return nil
	}
	return []Fact{*p.How}
}

// placeLabel finds the middle of what a label says on the chart; where the chart begins
// or ends within it, the end.
func (c *Chart) placeLabel(text string, sex Sex) (Place, error) {
	l, err := c.readLabel(text)
	if err != nil {
		return Place{}, err
	}
	has := func(scales ...Scale) bool {
		return slices.ContainsFunc(c.runs, func(r *Run) bool { return slices.Contains(scales, r.Scale) })
	}
	if !l.heights && !has(Months, Years) {
		return Place{}, errNoLabel
	}
	find := c.atAge
	if l.heights {
		find = c.AtHeight
	}
	var p Place
	for _, v := range []float64{(l.low + l.high) / 2, l.high, l.low} {
		if p, err = find(v, sex); err == nil {
			switch {
			case l.low == l.high:
			case l.heights:
				l.how = NewFact("label.heights", text, Length(l.low), Length(l.high), Length(v))
			default:
				l.how = NewFact("label.ages", text, v)
			}
			if !l.how.IsZero() {
				p.How = &l.how
			}
			return p, nil
		}
	}
	return Place{}, c.besideLabel(text, l, err)
}

// besideLabel names the size of the chart that is nearest to a label outside it.
func (c *Chart) besideLabel(text string, l label, err error) error {
	first, last := "", ""
	low := false
	for _, scale := range []Scale{Months, Years, Height} {
		for _, r := range c.runs {
			if r.Scale == scale && len(r.Sizes) > 0 {
				if first == "" {
					first = r.Sizes[0].Size
					low = l.high < r.Sizes[0].Position/12 && scale == Months && !l.heights
				}
				last = r.Sizes[len(r.Sizes)-1].Size
			}
		}
	}
	if first == "" || l.heights {
		return err
	}
	if low {
		return &LabelError{text, "is below chart " + c.ID, []string{first + ", its smallest"}}
	}
	return &LabelError{text, "is outside chart " + c.ID, []string{last + ", its largest, or a size below it"}}
}

// Sizes by height (EN 13402-3, ISO 8559-2): every sixth, from that of a newborn.
const (
	firstHeight = 50
	heightStep  = 6
	lastHeight  = 188
)

// WithHeights puts, in place of the name heights, all sizes by height that the chart has.
func (c *Chart) WithHeights(names []string, sex Sex) []string {
	i := slices.Index(names, "heights")
	if i < 0 {
		return names
	}
	var all []string
	for cm := firstHeight; cm <= lastHeight; cm += heightStep {
		if _, err := c.AtHeight(float64(cm), sex); err == nil {
			all = append(all, fmt.Sprintf("%dcm", cm))
		}
	}
	return slices.Replace(slices.Clone(names), i, i+1, all...)
}
