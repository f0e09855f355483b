package sizing

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// ErrNoHeight says that a body has no height by which it could grow.
var ErrNoHeight = errors.New("no height to grow from; give the child's height, or a size that has one")

// A TallError is a forecast of a height at which the survey has one of the child's
// measurements no more.
type TallError struct {
	Months, HeightCm float64
	Measurement      string // in words
}

func (e *TallError) Error() string {
	return fmt.Sprintf("in %.0f months the height would be %.1f cm, for which the survey has no %s; ask for less growth", e.Months, e.HeightCm, e.Measurement)
}

// Earlier is what was measured of a child before.
type Earlier struct {
	Years float64            // how long before the child's other measurements
	Own   map[string]float64 // as in [Child]
}

// Growth is how a child, or the usual child of a size, grows from when it was
// measured. The height keeps its place among those of children of the same age; all
// else follows it as among surveyed children and keeps how it departs from the usual.
// It is for one goroutine at a time.
type Growth struct {
	// Years is the age, and Implied says that nobody gave it: it is that at which
	// the height is the median.
	Years   float64
	Implied bool
	// Paced says that earlier heights tell how fast the child grows.
	Paced bool

	ref    *Reference
	sex    Sex
	tables *growthTables
	body   *Body
	height float64       // cm
	wide   float64       // spread of that, in logarithm; 0 where it was measured
	place  float64       // spreads from the median
	shift  float64       // of the place within a year
	months map[int]*Body // as they will be
	now    []Figure      // usual at the height
	ages   []float64     // of one a spread short and tall, where the age is implied
	older  []float64     // by month: the most that the height would differ until then
}

// Growth is how the child that a body was made for grows: of a body read from a size
// alone, the usual child of its height.
func (ref *Reference) Growth(b *Body) (*Growth, error) {
	h, ok := b.Get("height")
	if !ok {
		return nil, ErrNoHeight
	}
	spread := 0.0
	if h.Spread == EightInTen && h.Low > 0 {
		spread = math.Log(h.High/h.Low) / 2 / zP90
	}
	g, err := ref.growthFrom(b.child, h.Value, spread)
	if err == nil {
		g.body = b
	}
	return g, err
}

// GrowthOf is how the height of a child grows of whom no body can be estimated yet: of
// one shorter than babies of the survey.
func (ref *Reference) GrowthOf(c Child) (*Growth, error) {
	h, ok := c.Own["height"]
	if !ok {
		return nil, ErrNoHeight
	}
	return ref.growthFrom(c, h, 0)
}

func (ref *Reference) growthFrom(c Child, height, spread float64) (*Growth, error) {
	tables, err := ref.growing()
	if err != nil {
		return nil, err
	}
	g := &Growth{ref: ref, sex: c.Sex.orBoth(), tables: tables, height: height, wide: spread, Years: c.AgeYears, months: make(map[int]*Body)}
	chart := g.chart()
	if c.AgeYears == 0 {
		g.Implied = true
		if g.Years, _ = chart.ageOf(height, 0); g.Years == 0 {
			return nil, &FactError{NewFact("growth-no-age", Length(height)),
				fmt.Errorf("no child of the growth charts has a height of %.4g cm as its median; give the child's age", height)}
		}
	}
	p, ok := chart.at(g.Years)
	if !ok {
		return nil, &RangeError{"age", g.Years, chart.first(), chart.last(), "the growth charts (years)"}
	}
	g.place = p.place(height)
	draw, pace, _, _ := tables.keep(g.Years)
	rate, paced := g.rate(c.Earlier)
	g.shift, g.Paced = pace*rate-draw*g.place, paced && pace > 0
	return g, nil
}

func (g *Growth) chart() *heightChart { return g.tables.charts[g.sex] }

// The span of earlier heights that tell the pace, in years, and the square of that
// over which half of a shift is the tape's.
const (
	paceMost    = 2.1
	paceUnsure2 = 0.02
)

// rate is by how many spreads a year the place was shifting, by the heights measured
// earlier.
func (g *Growth) rate(earlier []Earlier) (rate float64, ok bool) {
	sum, weight := 0.0, paceUnsure2
	for _, e := range earlier {
		h, measured := e.Own["height"]
		p, on := g.chart().at(g.Years - e.Years)
		if !measured || !on || e.Years <= 0 || e.Years > paceMost {
			continue
		}
		sum, weight, ok = sum+e.Years*(g.place-p.place(h)), weight+e.Years*e.Years, true
	}
	return sum / weight, ok
}

// Last is the greatest number of years from now that the charts reach.
func (g *Growth) Last() float64 { return g.chart().last() - g.Years }

// Height is the height in so many years, with its likely range.
func (g *Growth) Height(years float64) (Figure, error) {
	if !(years >= 0 && years <= g.Last()) {
		return Figure{}, &RangeError{"age", g.Years + years, g.Years, g.chart().last(), "the growth charts (years)"}
	}
	month := math.Floor(years * 12)
	a, b := g.heightIn(month), g.heightIn(month+1)
	t := years*12 - month
	return Figure{a.Value + t*(b.Value-a.Value), a.Low + t*(b.Low-a.Low), a.High + t*(b.High-a.High), EightInTen, Estimated}, nil
}

// heightIn is the height in a number of whole months. Where the charts go over from
// lying to standing it does not shrink, and it stays where they end.
func (g *Growth) heightIn(months float64) Figure {
	years := months / 12
	value := g.height
	if years > 0 {
		p, _ := g.chart().at(min(g.Years+years, g.chart().last()))
		value = max(p.height(g.place+g.shift*min(years, 1)), g.height)
	}
	_, pace, unsure, drift := g.tables.keep(g.Years)
	unsure *= min(2*years, 1)
	drift *= years
	spread := unsure*unsure + drift*drift + g.wide*g.wide
	if g.Paced {
		spread *= 1 - pace*pace/2
	}
	if g.Implied {
		by := g.mostIfOlder(int(months))
		spread += by * by
	}
	s := zP90 * math.Sqrt(spread)
	return Figure{value, value * math.Exp(-s), value * math.Exp(s), EightInTen, Estimated}
}

// mostIfOlder is the most that [Growth.ifOlder] gives until a month: what is unsure
// does not become surer.
func (g *Growth) mostIfOlder(month int) float64 {
	for m := len(g.older); m <= month; m++ {
		by := math.Abs(g.ifOlder(float64(m) / 12))
		if m > 0 {
			by = max(by, g.older[m-1])
		}
		g.older = append(g.older, by)
	}
	return g.older[month]
}

// ifOlder is by how much the height would differ, in logarithm, were the child a
// spread tall or short for its age.
func (g *Growth) ifOlder(years float64) float64 {
	places := []float64{-1, 1}
	if g.ages == nil {
		for _, place := range places {
			age, ok := g.chart().ageOf(g.height, place)
			if !ok {
				age = math.NaN()
			}
			g.ages = append(g.ages, age)
		}
	}
	var heights [2]float64
	for i, place := range places {
		p, on := g.chart().at(g.ages[i] + years)
		if !on {
			return 0
		}
		heights[i] = math.Log(p.height(place))
	}
	return (heights[1] - heights[0]) / 2
}

// At is the body in so many years. Between whole months it is read evenly. There is none
// where the survey ends for the height, or, a [TallError], for one of its measurements.
func (g *Growth) At(years float64) (*Body, error) {
	if _, err := g.Height(years); err != nil {
		return nil, err
	}
	month := int(years * 12)
	a, err := g.in(month)
	t := years*12 - float64(month)
	if err != nil || t < 1e-9 {
		return a, err
	}
	b, err := g.in(month + 1)
	if err != nil {
		return nil, err
	}
	between := *a
	between.Readings = slices.Clone(a.Readings)
	for i := range between.Readings {
		r, next := &between.Readings[i], b.Readings[i]
		r.Value, r.Imperial = r.Value+t*(next.Value-r.Value), r.Imperial+t*(next.Imperial-r.Imperial)
		r.Low, r.High = r.Low+t*(next.Low-r.Low), r.High+t*(next.High-r.High)
	}
	return &between, nil
}

// in is the body in whole months.
func (g *Growth) in(month int) (*Body, error) {
	if b := g.months[month]; b != nil {
		return b, nil
	}
	years := min(float64(month)/12, g.Last())
	h := g.heightIn(years * 12)
	b, err := g.bodyAt(years, h)
	if err == nil {
		g.months[month] = b
	}
	return b, err
}

func (g *Growth) bodyAt(years float64, height Figure) (*Body, error) {
	if g.body == nil {
		c := Child{Sex: g.sex, AgeYears: g.Years + years, Own: map[string]float64{"height": height.Value}}
		return g.ref.Estimate(c)
	}
	if years == 0 {
		return g.body, nil
	}
	var err error
	if g.now == nil {
		if g.now, err = g.usually(g.height); err != nil {
			return nil, err
		}
	}
	then, err := g.usually(height.Value)
	if err != nil {
		return nil, err
	}
	low, errLow := g.usually(height.Low)
	high, errHigh := g.usually(height.High)
	b := &Body{Summary: g.body.Summary, Questions: g.body.Questions, Evidence: g.body.Evidence, child: g.body.child}
	b.Readings = make([]Reading, 0, len(g.body.Readings))
	for _, r := range g.body.Readings {
		i := g.ref.order[r.Measurement.ID]
		if r.Measurement.ID == "height" {
			r.take(height)
			b.Readings = append(b.Readings, r)
			continue
		}
		factor := 1.0 // what goes with no height is taken to stay
		if !math.IsNaN(g.now[i].Value) {
			if math.IsNaN(then[i].Value) {
				return nil, &TallError{years * 12, height.Value, r.Measurement.Name}
			}
			factor = max(then[i].Value/g.now[i].Value, 1)
		}
		drift := g.ref.Practice("growth_length_drift").Share() * years
		if r.Measurement.Kind != "length" {
			drift = g.ref.Practice("growth_girth_drift").Share() * years
		}
		side := func(of Figure, failed error, own float64) float64 {
			s := drift * zP90
			if own > 0 {
				s = math.Hypot(s, math.Log(own/r.Value))
			}
			if failed == nil && of.Value > 0 && then[i].Value > 0 {
				s = math.Hypot(s, math.Log(of.Value/then[i].Value))
			}
			return s
		}
		var at Figure
		at.Value = r.Value * factor
		own := func(v float64) float64 {
			if r.Spread == EightInTen {
				return v
			}
			return 0
		}
		at.Low = at.Value * math.Exp(-side(figureAt(low, i), errLow, own(r.Low)))
		at.High = at.Value * math.Exp(side(figureAt(high, i), errHigh, own(r.High)))
		at.Spread, at.Provenance = EightInTen, Estimated
		r.take(at)
		b.Readings = append(b.Readings, r)
	}
	g.addUp(b)
	return b, nil
}

func figureAt(figures []Figure, i int) Figure {
	if figures == nil {
		return Figure{}
	}
	return figures[i]
}

// take takes a figure; the inches grow with it.
func (r *Reading) take(f Figure) {
	r.Imperial *= f.Value / r.Value
	r.Value, r.Low, r.High, r.Spread, r.Provenance = f.Value, f.Low, f.High, f.Spread, f.Provenance
}

// addUp makes what is the sum of others on every body, and was, their sum again.
func (g *Growth) addUp(b *Body) {
	at := func(b *Body, id string) *Reading {
		i := slices.IndexFunc(b.Readings, func(r Reading) bool { return r.Measurement.ID == id })
		if i < 0 {
			return nil
		}
		return &b.Readings[i]
	}
	for _, id := range identities {
		whole := at(b, id.whole)
		if whole == nil || id.whole == "height" {
			continue
		}
		before, now, all := 0.0, 0.0, true
		for _, p := range id.parts {
			if r := at(b, p); r != nil {
				before, now = before+at(g.body, p).Value, now+r.Value
			} else {
				all = false
			}
		}
		if was := at(g.body, id.whole).Value; all && math.Abs(was-before) < 0.05 {
			f := Figure{now, whole.Low + now - whole.Value, whole.High + now - whole.Value, whole.Spread, whole.Provenance}
			whole.take(f)
		}
	}
}

// usually are the figures that are usual at a height, by measurement.
func (g *Growth) usually(height float64) ([]Figure, error) {
	s, ok := g.ref.byHeight.Get().(*Sizer)
	if !ok {
		all := make([]string, len(g.ref.tables.Measurements))
		for i, m := range g.ref.tables.Measurements {
			all[i] = m.ID
		}
		var err error
		if s, err = g.ref.Sizer(Bulk{Known: []string{"height"}, Want: all}); err != nil {
			return nil, err
		}
	}
	defer g.ref.byHeight.Put(s)
	out := make([]Figure, len(g.ref.tables.Measurements))
	_, err := s.Size(g.sex, 0, []float64{height}, out)
	return out, err
}
