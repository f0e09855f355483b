package list

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"growtuck/sizing"
)

// A childSizer sizes children and writes them. It is for one goroutine.
type childSizer struct {
	*Batch
	json      bool
	separator separator // of the CSV
	sizer     *sizing.Sizer
	explained int             // lines of which it was looked for what was meant
	figures   []sizing.Figure // in the order of what is needed
	labels    map[spanKey]string
	// Of the garment, if any; body and lengths in cm, in the order of the parts,
	// NaN where not known.
	finisher      *sizing.Finisher
	body, lengths []float64
	grown         []float64 // by when it is outgrown
}

func (b *Batch) newSizer(in *List, inJSON bool) (*childSizer, error) {
	spec := b.options.Garment
	grows := spec != nil && (spec.Seasons > 0 || spec.Wear > 0)
	sizer, err := b.ref.Sizer(sizing.Bulk{Known: in.measured, Want: b.needed, Values: !b.options.Ranges && !grows})
	if err != nil {
		return nil, err
	}
	s := &childSizer{Batch: b, json: inJSON, separator: in.separator, sizer: sizer, figures: make([]sizing.Figure, len(b.needed)),
		labels: make(map[spanKey]string), body: make([]float64, len(b.parts)), lengths: make([]float64, len(b.parts)), grown: make([]float64, len(b.parts))}
	if spec != nil {
		s.finisher, err = b.ref.Finisher(*spec)
	}
	return s, err
}

// size works out what is written of a child, and reports doubts about it.
func (s *childSizer) size(r *childReader) (doubted bool, wrong *LineError) {
	doubted, err := s.sizer.Size(r.sex, r.age, r.measured, s.figures)
	if err != nil {
		return false, s.reject(err)
	}
	if s.finisher == nil {
		return doubted, nil
	}
	for i, at := range s.parts {
		s.body[i] = s.figures[at].Value
	}
	grown, wrong := s.growth()
	if wrong != nil {
		return false, wrong
	}
	if err := s.finisher.Lengths(s.body, grown, s.lengths); err != nil {
		return false, &LineError{Reason: "a part of the garment comes out at 0 or less; take less away from it"}
	}
	return doubted, nil
}

// growth is how much each part's measurement grows until the garment need not fit any
// more; nil where nothing was asked for.
func (s *childSizer) growth() ([]float64, *LineError) {
	spec := s.options.Garment
	if spec.Seasons == 0 && spec.Wear == 0 {
		return nil, nil
	}
	g, err := s.sizer.Growth(s.figures)
	if err != nil {
		return nil, sizeError(err)
	}
	then, err := g.At(spec.Wear/12 + spec.Seasons/2)
	if err != nil {
		return nil, sizeError(err)
	}
	for i, at := range s.parts {
		r, _ := then.Get(s.needed[at])
		s.grown[i] = r.Value - s.figures[at].Value
	}
	return s.grown, nil
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

// mostExplained bounds the lines of which it is looked for what was meant: in a list
// that is wrong throughout all have the same.
const mostExplained = 200

// reject says why the last child cannot be sized, and what was likely meant, without
// its measurements.
func (s *childSizer) reject(err error) *LineError {
	wrong := sizeError(err)
	if s.explained++; s.explained > mostExplained {
		return wrong
	}
	for _, d := range s.sizer.Meant() {
		if words := slipWords[likelySlip(d)]; words != "" {
			wrong.Reason += "; the " + d.Name + " " + words
		}
	}
	return wrong
}

func likelySlip(d sizing.Doubt) sizing.Slip {
	if len(d.Likely) == 0 {
		return ""
	}
	return d.Likely[0].Slip
}

// slipWords say how a value came to be wrong.
var slipWords = map[sizing.Slip]string{
	sizing.SlipTenth:       "may be in millimetres, or lack its point",
	sizing.SlipTenTimes:    "may have its point one place off",
	sizing.SlipInches:      "may be in inches",
	sizing.SlipFeet:        "may be in feet",
	sizing.SlipMetres:      "may be in metres",
	sizing.SlipMillimetres: "may be in millimetres",
	sizing.SlipPounds:      "may be in pounds",
	sizing.SlipGrams:       "may be in grams",
	sizing.SlipMonths:      "may be in months",
	sizing.SlipSwapped:     "may have changed places with another measurement",
	sizing.SlipDigits:      "may have two digits exchanged",
}

// check names what is in doubt, each with what was likely meant after an equals sign
// where that is known, with spaces between.
func (s *childSizer) check() string {
	var all []string
	for _, d := range s.sizer.Doubts() {
		text := d.Measurement
		if len(d.Likely) > 0 {
			v := d.Likely[0].Values[0]
			unit := v.Unit
			if v.Measurement == sizing.AgeField {
				unit = "y"
			}
			text += "=" + sizing.FormatExact(v.Amount) + unit
		}
		all = append(all, text)
	}
	return strings.Join(all, " ")
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
