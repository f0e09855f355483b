package page

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
)

// A num is a number on the page that says where it comes from.
type num struct {
	Text string
	Name string // what it is, for the head of what it says
	ID   string // of the words; several numbers may share them
	Why  []string
	More bool // the words stand elsewhere on the page
}

// A shower writes numbers in the unit of the maker's tape.
type shower struct {
	unit string // cm or in
	over string // what the swatch is counted over: 10cm or 4in
}

func (st *state) shower() shower {
	sh := shower{unit: "cm", over: st.Value("over")}
	if st.Value("tape") == "in" {
		sh.unit = "in"
	}
	return sh
}

// style is how facts are told on the page.
func (s shower) style() tell.Style { return tell.Style{Unit: s.unit, Place: tell.Page} }

func (s shower) inches() bool { return s.unit == "in" }

// Unit is the unit of lengths.
func (s shower) Unit() string { return s.unit }

// length writes cm to the nearest half, inches to the nearest quarter.
func (s shower) length(cm float64) string {
	if s.inches() {
		return sizing.FormatQuarters(cm / sizing.CmPerInch)
	}
	return sizing.FormatHalves(cm)
}

// finished writes a finished measurement.
func (s shower) finished(l sizing.Line) string {
	if s.inches() {
		return sizing.FormatQuarters(l.FinishedIn)
	}
	return sizing.FormatHalves(l.Finished)
}

// added writes what is added or taken away; nothing for nothing.
func (s shower) added(amounts []sizing.Amount) string {
	total := sizing.TotalCm(amounts)
	text := strings.TrimPrefix(s.length(math.Abs(total)), "-")
	switch {
	case strings.Trim(text, "0.") == "":
		return ""
	case total < 0:
		return "−" + text
	}
	return "+" + text
}

// reading writes the value of a measurement, without its unit but for weight.
func (s shower) reading(r sizing.Reading) string {
	switch {
	case r.Measurement.Unit == "kg" && s.inches():
		return fmt.Sprintf("%.1f lb", r.Imperial)
	case r.Measurement.Unit == "kg":
		return fmt.Sprintf("%.1f kg", r.Value)
	case s.inches():
		return sizing.FormatQuarters(r.Imperial)
	}
	return sizing.FormatHalves(r.Value)
}

// bounds writes the range of a reading; "" where it has none.
func (s shower) bounds(r sizing.Reading) string {
	if r.Spread == "" {
		return ""
	}
	if r.Measurement.Unit == "kg" {
		per, unit := 1.0, " kg"
		if s.inches() {
			per, unit = sizing.KgPerPound, " lb"
		}
		return fmt.Sprintf("%.1f–%.1f%s", r.Low/per, r.High/per, unit)
	}
	return s.length(r.Low) + "–" + s.length(r.High)
}

var spreadWords = map[sizing.Spread]string{
	sizing.EightInTen:  "eight of ten such children",
	sizing.MiddleHalf:  "the middle half of the children measured",
	sizing.NineInTen:   "nine of ten of the children measured",
	sizing.AsPublished: "the range that the chart gives",
}

// span writes two counts, or one where they are the same.
func span(from, to string) string {
	if from == to {
		return from
	}
	return from + " → " + to
}

// times writes how often a section is worked; nothing for once.
func times(n int) string {
	if n == 1 {
		return ""
	}
	return strconv.Itoa(n) + " ×"
}

func plain(v float64) string {
	return strconv.FormatFloat(math.Round(v*100)/100+0, 'f', -1, 64)
}

// spoken writes an id as words.
func spoken(id string) string { return strings.NewReplacer("_", " ", "-", " ").Replace(id) }

// capital writes the first letter large.
func capital(s string) string {
	if s == "" {
		return s
	}
	first, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[n:]
}

// why is what a reading's number says.
func (s *site) why(sh shower, r sizing.Reading) num {
	n := num{Text: sh.reading(r), Name: r.Measurement.Name, ID: "why-body-" + r.Measurement.ID}
	n.Why = append(n.Why, sh.style().Reason(r).Lines()...)
	if b := sh.bounds(r); b != "" {
		n.Why = append(n.Why, "Range "+b+": "+spreadWords[r.Spread]+".")
	}
	return n
}

// A sourceView is a source as numbers name it in brackets, and in full.
type sourceView struct{ ID, Title string }

// sourceViews names sources in full, each once.
func (s *site) sourceViews(ids []string) []sourceView {
	var all []sourceView
	for _, id := range slices.Compact(slices.Sorted(slices.Values(ids))) {
		if src, err := s.engine.Reference.Source(id); err == nil {
			all = append(all, sourceView{id, src.Title + ", " + src.Publisher})
		}
	}
	return all
}

// per writes a count to 10 cm as it is over what the swatch is counted over.
func (s shower) per(per10Cm float64) string {
	if s.over == "4in" {
		return plain(per10Cm * 4 * sizing.CmPerInch / 10)
	}
	return plain(per10Cm)
}

// swatch is what counts are over.
func (s shower) swatch() string {
	if s.over == "4in" {
		return "4 in"
	}
	return "10 cm"
}

// gauge writes a gauge.
func (s shower) gauge(g stitch.Gauge) string {
	return s.per(g.StitchesPer10Cm) + " stitches and " + s.per(g.RowsPer10Cm) + " rows to " + s.swatch()
}

// gaugeOf writes the gauge that a part is counted at.
func (s shower) gaugeOf(p *plan.Plan, x plan.Part) string {
	g := p.How.Gauge
	what := "the fabric"
	if x.Ribbed && p.How.Rib != nil {
		g, what = *p.How.Rib, "the ribbing"
	}
	if x.Unit == "rows" {
		return s.per(g.RowsPer10Cm) + " rows to " + s.swatch() + " of " + what
	}
	return s.per(g.StitchesPer10Cm) + " stitches to " + s.swatch() + " of " + what
}
