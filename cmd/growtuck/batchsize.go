package main

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
)

// A sheet is what is written of each child: the columns, and how they are got.
type sheet struct {
	ref               *sizing.Reference
	chart             *sizing.Chart
	want              []string // ids of measurements to write
	ranges            bool
	units             []string // cm, in, or both
	making            *sizing.Spec
	parts             []int    // among those asked for, what the garment's parts are made by
	asked             []string // ids that the sizer is asked for: want, and what else is needed
	byHeight, byChest int      // among those asked for, what the sizes are found by
	headers           []string // of the computed columns
	figures           []figureColumn
	json              bool // JSON lines, not CSV
	sep               byte // of the list, and of the CSV
	comma             bool // decimals are written with a comma
}

// The columns that are written whatever is wanted.
var sizeColumns = []string{"size_by_height", "place_by_height", "size_by_chest", "place_by_chest", "check"}

// wantedByDefault are the widths and lengths that most garments take.
var wantedByDefault = []string{"height", "head", "chest", "waist", "hip", "upper_arm", "cross_back",
	"back_waist_length", "arm_length", "rise", "inside_leg"}

// A figureColumn is a column with a figure in it.
type figureColumn struct {
	which figureEnd
	at    int     // among those asked for, or the parts
	unit  float64 // in cm or kg
}

// A figureEnd is which figure of a measurement a column holds.
type figureEnd uint8

const (
	figureValue figureEnd = iota
	figureLow
	figureHigh
	figureFinished
)

// prepare works out the columns.
func (s *sheet) prepare() error {
	s.headers = slices.Clone(sizeColumns)
	for _, id := range s.want {
		m, err := s.ref.Measurement(id)
		if err != nil {
			return err
		}
		at := s.ask(id)
		for _, unit := range s.units {
			in := map[string]float64{"cm": 1, "in": sizing.CmPerInch}[unit]
			if m.Unit == "kg" {
				in = map[string]float64{"cm": 1, "in": sizing.KgPerPound}[unit]
				unit = map[string]string{"cm": "kg", "in": "lb"}[unit]
			}
			s.add(id+"_"+unit, figureColumn{figureValue, at, in})
			if s.ranges {
				s.add(id+"_low_"+unit, figureColumn{figureLow, at, in})
				s.add(id+"_high_"+unit, figureColumn{figureHigh, at, in})
			}
		}
	}
	s.byHeight, s.byChest = s.ask("height"), s.ask("chest")
	if s.making == nil {
		return nil
	}
	parts, err := s.ref.Parts(s.making.Garment)
	if err != nil {
		return err
	}
	for i, p := range parts {
		s.parts = append(s.parts, s.ask(p.Measurement))
		for _, unit := range s.units {
			in := map[string]float64{"cm": 1, "in": sizing.CmPerInch}[unit]
			s.add("finished_"+p.Part+"_"+unit, figureColumn{figureFinished, i, in})
		}
	}
	// What the flags ask for is refused before the first child.
	place, err := s.chart.Place("4", sizing.Both)
	if err != nil {
		return err
	}
	_, err = s.ref.Finish(s.ref.BodyAt(place, sizing.Monotone), *s.making)
	return err
}

// ask has the sizer work out a measurement, and returns its index.
func (s *sheet) ask(id string) int {
	if i := slices.Index(s.asked, id); i >= 0 {
		return i
	}
	s.asked = append(s.asked, id)
	return len(s.asked) - 1
}

func (s *sheet) add(header string, c figureColumn) {
	s.headers = append(s.headers, header)
	s.figures = append(s.figures, c)
}

// A childSizer sizes children. It is for one goroutine.
type childSizer struct {
	*sheet
	sizer  *sizing.Sizer
	got    []sizing.Figure // in the order of what is asked for
	labels map[spanKey]string
	// Of the garment, if any; body and lengths in cm, in the order of the parts,
	// NaN where not known.
	finisher      *sizing.Finisher
	body, lengths []float64
}

func newChildSizer(s *sheet, known []string) (*childSizer, error) {
	sizer, err := s.ref.Sizer(sizing.Bulk{Known: known, Want: s.asked})
	if err != nil {
		return nil, err
	}
	c := &childSizer{sheet: s, sizer: sizer, got: make([]sizing.Figure, len(s.asked)),
		labels: make(map[spanKey]string), body: make([]float64, len(s.parts)), lengths: make([]float64, len(s.parts))}
	if s.making != nil {
		c.finisher, err = s.ref.Finisher(*s.making)
	}
	return c, err
}

// size works out what is written of a child, and reports doubts about it.
func (s *childSizer) size(r *childReader) (doubts bool, f *fault) {
	doubts, err := s.sizer.Size(r.sex, r.age, r.own, s.got)
	if err != nil {
		return false, sizeFault(err)
	}
	if s.finisher == nil {
		return doubts, nil
	}
	for i, at := range s.parts {
		s.body[i] = s.got[at].Value
	}
	if err := s.finisher.Lengths(s.body, s.lengths); err != nil {
		return false, &fault{msg: "the garment comes out at nothing in some part; take less away with --extra"}
	}
	return doubts, nil
}

// sizeFault says why a child cannot be sized, without its measurements.
func sizeFault(err error) *fault {
	var outside *sizing.RangeError
	switch {
	case errors.As(err, &outside) && outside.What == "size": // by the age, there being nothing better
		return &fault{msg: fmt.Sprintf("the age is outside %s, which has %.4g to %.4g; nothing is extrapolated; give the height", outside.Where, outside.Low, outside.High)}
	case errors.As(err, &outside):
		return &fault{msg: fmt.Sprintf("%s is outside %s, which has %.4g to %.4g cm; nothing is extrapolated", outside.What, outside.Where, outside.Low, outside.High)}
	case errors.Is(err, sizing.ErrNothingKnown):
		return &fault{msg: "nothing was measured to size the child by; give the height, or at least one girth or length"}
	}
	return &fault{msg: err.Error()}
}

// doubted names the measurements that hardly any child of that height has, parted
// by spaces; where the doubt is another one, it is yes.
func (s *childSizer) doubted(r *childReader) string {
	at := slices.Index(r.list.known, "height")
	if at < 0 || math.IsNaN(r.own[at]) {
		return "yes"
	}
	var ids []string
	for i, id := range r.list.known {
		if s.sizer.Doubted(i) {
			ids = append(ids, id)
		}
	}
	if ids == nil {
		return "yes"
	}
	return strings.Join(ids, " ")
}

// A spanKey is where a measurement stands on a chart, to a tenth of a size.
type spanKey struct {
	run      *sizing.Run
	from, to int
}

// standing finds a measurement on the chart: the nearest of its sizes, and the
// place to a tenth of a size. Both are empty where the chart does not have it.
func (s *childSizer) standing(at int, sex sizing.Sex) (size, place string) {
	v := s.got[at].Value
	if math.IsNaN(v) {
		return "", ""
	}
	span, err := s.chart.SizeOf(s.asked[at], v, sex)
	if err != nil {
		return "", ""
	}
	key := spanKey{span.Run, int(math.Round(span.From * 10)), int(math.Round(span.To * 10))}
	place, ok := s.labels[key]
	if !ok {
		if place = span.Label(); s.comma && !s.json {
			place = strings.ReplaceAll(place, ".", ",") // 4.4 is the fourth of April to many a spreadsheet
		}
		s.labels[key] = place
	}
	return nearestSize(span), place
}

// nearestSize is the size of the chart that is nearest, the larger of two.
func nearestSize(span sizing.Span) string {
	at, best, size := (span.From+span.To)/2, math.Inf(1), ""
	for _, m := range span.Run.Sizes {
		if away := math.Abs(m.Position - at); away <= best {
			best, size = away, m.Size
		}
	}
	return size
}

// write adds a child's line to out: the columns that are carried over, then
// what was worked out.
func (s *childSizer) write(out []byte, r *childReader, doubts bool) []byte {
	if s.json {
		return s.writeJSON(out, r, doubts)
	}
	out = r.carry(out)
	size, place := s.standing(s.byHeight, r.sex)
	out = append(append(append(append(out, size...), s.sep), place...), s.sep)
	size, place = s.standing(s.byChest, r.sex)
	out = append(append(append(append(out, size...), s.sep), place...), s.sep)
	if doubts {
		out = append(out, s.doubted(r)...)
	}
	for i := range s.figures {
		out = append(out, s.sep)
		if v := s.figure(&s.figures[i]); !math.IsNaN(v) {
			from := len(out)
			out = appendFigure(out, v)
			if s.comma {
				if i := bytes.IndexByte(out[from:], '.'); i >= 0 {
					out[from+i] = ','
				}
			}
		}
	}
	return append(out, '\n')
}

// figure is what a column holds of the child, NaN for nothing.
func (s *childSizer) figure(c *figureColumn) float64 {
	if c.which == figureFinished {
		return s.lengths[c.at] / c.unit
	}
	f := &s.got[c.at]
	switch {
	case c.which == figureValue:
		return f.Value / c.unit
	case f.Spread == "":
		return math.NaN()
	case c.which == figureLow:
		return f.Low / c.unit
	}
	return f.High / c.unit
}

// appendFigure writes a number to a hundredth, as figure does.
func appendFigure(out []byte, v float64) []byte {
	h := math.Round(v * 100)
	if !(h >= 0 && h < 1e15) {
		return append(out, tell.Figure(v).String()...)
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

// headLine is the header of what is written as CSV.
func (s *sheet) headLine(l *childList) []byte {
	out := l.carriedHead()
	for i, h := range s.headers {
		if i > 0 {
			out = append(out, s.sep)
		}
		out = append(out, h...)
	}
	return append(out, '\n')
}
