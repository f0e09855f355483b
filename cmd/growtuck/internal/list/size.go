package list

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"growtuck/sizing"
)

// A childSizer sizes children and writes them. It is for one goroutine.
type childSizer struct {
	*Batch
	json      bool
	separator separator // of the CSV
	sizer     *sizing.Sizer
	figures   []sizing.Figure // in the order of what is needed
	labels    map[spanKey]string
	// Of the garment, if any; body and lengths in cm, in the order of the parts,
	// NaN where not known.
	finisher      *sizing.Finisher
	body, lengths []float64
}

func (b *Batch) newSizer(in *List, inJSON bool) (*childSizer, error) {
	sizer, err := b.ref.Sizer(sizing.Bulk{Known: in.measured, Want: b.needed})
	if err != nil {
		return nil, err
	}
	s := &childSizer{Batch: b, json: inJSON, separator: in.separator, sizer: sizer, figures: make([]sizing.Figure, len(b.needed)),
		labels: make(map[spanKey]string), body: make([]float64, len(b.parts)), lengths: make([]float64, len(b.parts))}
	if b.options.Garment != nil {
		s.finisher, err = b.ref.Finisher(*b.options.Garment)
	}
	return s, err
}

// size works out what is written of a child, and reports doubts about it.
func (s *childSizer) size(r *childReader) (doubted bool, wrong *LineError) {
	doubted, err := s.sizer.Size(r.sex, r.age, r.measured, s.figures)
	if err != nil {
		return false, sizeError(err)
	}
	if s.finisher == nil {
		return doubted, nil
	}
	for i, at := range s.parts {
		s.body[i] = s.figures[at].Value
	}
	if err := s.finisher.Lengths(s.body, s.lengths); err != nil {
		return false, &LineError{Reason: "a part of the garment comes out at 0 or less; take less away from it"}
	}
	return doubted, nil
}

// sizeError says why a child cannot be sized, without its measurements.
func sizeError(err error) *LineError {
	var outside *sizing.RangeError
	switch {
	case errors.As(err, &outside) && outside.What == "size": // by the age, if nothing better is known
		return &LineError{Reason: fmt.Sprintf("the age is outside %s, which has %.4g to %.4g; nothing is extrapolated; give the height", outside.Where, outside.Low, outside.High)}
	case errors.As(err, &outside):
		return &LineError{Reason: fmt.Sprintf("%s is outside %s, which has %.4g to %.4g cm; nothing is extrapolated", outside.What, outside.Where, outside.Low, outside.High)}
	case errors.Is(err, sizing.ErrNothingKnown):
		return &LineError{Reason: "has no measurement to size the child by; give the height, or at least one girth or length"}
	}
	return &LineError{Reason: err.Error()}
}

// check names the measurements that hardly any child of that height has, with
// spaces between; where the doubt is another one, it is yes.
func (s *childSizer) check(r *childReader) string {
	height := slices.Index(r.list.measured, "height")
	if height < 0 || math.IsNaN(r.measured[height]) {
		return "yes"
	}
	var ids []string
	for i, id := range r.list.measured {
		if s.sizer.Doubted(i) {
			ids = append(ids, id)
		}
	}
	if ids == nil {
		return "yes"
	}
	return strings.Join(ids, " ")
}

// A spanKey is where a measurement is on a chart, to a tenth of a size.
type spanKey struct {
	run      *sizing.Run
	from, to int
}

// chartSize finds a measurement on the chart: the nearest of its sizes, and the
// place to a tenth of a size. Both are empty where the chart does not have it.
func (s *childSizer) chartSize(index int, sex sizing.Sex) (size, place string) {
	v := s.figures[index].Value
	if math.IsNaN(v) {
		return "", ""
	}
	span, err := s.chart.SizeOf(s.needed[index], v, sex)
	if err != nil {
		return "", ""
	}
	key := spanKey{span.Run, int(math.Round(span.From * 10)), int(math.Round(span.To * 10))}
	place, ok := s.labels[key]
	if !ok {
		if place = span.Label(); !s.json {
			place = string(s.separator.localize([]byte(place)))
		}
		s.labels[key] = place
	}
	return nearestSize(span), place
}

// nearestSize is the size of the chart that is nearest, the larger of two.
func nearestSize(span sizing.Span) string {
	middle, least, size := (span.From+span.To)/2, math.Inf(1), ""
	for _, m := range span.Run.Sizes {
		if distance := math.Abs(m.Position - middle); distance <= least {
			least, size = distance, m.Size
		}
	}
	return size
}

// figure is the number in a column, NaN for none.
func (s *childSizer) figure(c *outputColumn) float64 {
	if c.figure == finishedFigure {
		return s.lengths[c.index] / c.unit
	}
	f := &s.figures[c.index]
	switch {
	case c.figure == valueFigure:
		return f.Value / c.unit
	case f.Spread == "":
		return math.NaN()
	case c.figure == lowFigure:
		return f.Low / c.unit
	}
	return f.High / c.unit
}
