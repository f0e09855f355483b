package sizing

import (
	"math"
	"slices"
)

// zP90 is the 90th percentile of the standard normal distribution.
const zP90 = 1.2815515655446004

// divisionSpread is the assumed spread, in logarithm, of how the waist divides
// the trunk. No source gives it.
const divisionSpread = 0.04

// figure works out a measurement: the child's own, or its estimate.
func (e *estimator) figure(m int) *figure {
	f := &e.figures[m]
	if f.done {
		return f
	}
	f.done, e.asked = true, append(e.asked, m)
	if e.took(m) {
		f.Figure, f.known = Figure{Value: e.own[m], Got: Measured}, true
		return f
	}
	switch e.side.methods[m].approach {
	case byHeight:
		f.set(e.mix(func(g *guess) (float64, float64) { return g.at.log, 0 }))
	case byMedian:
		e.fromMedian(f, m)
	case bySum:
		e.fromSum(f, m)
	case byProportion:
		e.inProportion(f, m)
	case byChart:
		e.fromChart(f, m)
	}
	return f
}

// set makes the figure of a logarithm and its spread.
func (f *figure) set(mean, spread float64, ok bool) {
	if ok {
		f.known = true
		f.estimated(math.Exp(mean), spread)
	}
}

func (f *figure) estimated(value, spread float64) {
	wide := math.Exp(zP90 * spread)
	f.Figure = Figure{value, value / wide, value * wide, "p10–p90", Estimated}
}

// mix weighs a log value and its variance over the likely heights. Heights at
// which it is not known are left out.
func (e *estimator) mix(at func(g *guess) (mean, variance float64)) (mean, spread float64, ok bool) {
	var sum, first, second, within float64
	for i := range e.guesses {
		g := &e.guesses[i]
		m, v := at(g)
		if math.IsNaN(m) {
			continue
		}
		sum += g.weight
		first += g.weight * m
		second += g.weight * m * m
		within += g.weight * v
	}
	if sum < 0.5 {
		return 0, 0, false
	}
	mean = first / sum
	return mean, math.Sqrt(max(0, within/sum+second/sum-mean*mean)), true
}

// fromMedian moves the median of what the survey has, or else the default
// chart, by what the evidence says.
func (e *estimator) fromMedian(f *figure, m int) {
	s := e.side
	d := &s.methods[m]
	if d.surveyed && d.covers(e.middle.height) {
		f.run = s.rel.run
	} else if place := e.middle.onChart(s.basis); place.Run != nil && !math.IsNaN(place.Run.Value(d.measurement.ID, place.Position)) {
		f.run = place.Run
	} else {
		return
	}
	surveyed, v, r := f.run == s.rel.run, d.v, d.closeness
	f.set(e.mix(func(g *guess) (float64, float64) {
		var median float64
		if surveyed {
			median = g.at.logMedian(s.basis, m)
		} else {
			median = g.at.logTrade(s.basis, m)
		}
		sd := g.at.sd[v]
		return median + r*g.mean[v], r*r*e.given.covariance(g.level, v, v) + (1-r*r)*sd*sd
	}))
}

// fromSum adds others up, the child's own figures where there are any.
func (e *estimator) fromSum(f *figure, m int) {
	s := e.side
	terms := s.methods[m].terms
	for _, t := range terms {
		if d := &s.methods[t.m]; !d.surveyed || !d.covers(e.middle.height) {
			return
		}
	}
	f.set(e.mix(func(g *guess) (float64, float64) {
		sum, variance := 0.0, 0.0
		parts := e.parts[:0] // of what is uncertain
		for _, t := range terms {
			part := 0.0
			switch {
			case e.took(t.m) && !e.doubted(t.m):
				sum += t.factor * e.own[t.m]
			case t.m == e.height:
				sum += t.factor * g.at.height
			default:
				log := g.at.logMedian(s.basis, t.m)
				if t.v < 0 {
					sum += t.factor * math.Exp(log)
					break
				}
				part = t.factor * math.Exp(log+g.mean[t.v])
				sum += part
			}
			parts = append(parts, part)
		}
		e.parts = parts
		for i, a := range terms {
			for j, b := range terms {
				if parts[i] != 0 && parts[j] != 0 {
					variance += parts[i] * parts[j] * e.given.covariance(g.level, a.v, b.v)
				}
			}
		}
		if !(sum > 0) {
			return math.NaN(), 0
		}
		return math.Log(sum), max(0, variance) / (sum * sum)
	}))
}

// inProportion lets a measurement of the trade chart keep its proportion to a
// derived one.
func (e *estimator) inProportion(f *figure, m int) {
	d := &e.side.methods[m]
	place := e.middle.onChart(e.side.basis)
	if d.lead < 0 || place.Run == nil {
		return
	}
	lead, column := e.figure(d.lead), place.Run.column(d.measurement.ID)
	usual := place.Run.Value(e.side.methods[d.lead].measurement.ID, place.Position)
	if !lead.known || column == nil || math.IsNaN(usual) {
		return
	}
	value := place.Run.Value(d.measurement.ID, place.Position)
	if math.IsNaN(value) {
		return
	}
	spread := divisionSpread
	if lead.Spread != "" {
		spread = math.Hypot(spread, math.Log(lead.High/lead.Low)/(2*zP90))
	}
	f.known, f.place = true, place
	f.estimated(value*lead.Value/usual, spread)
}

// fromChart reads a measurement of which nothing is known how it goes with the
// others: as the survey has it at that height, or the default chart.
func (e *estimator) fromChart(f *figure, m int) {
	id := e.side.methods[m].measurement.ID
	for _, p := range [...]Place{{e.side.rel.run, e.middle.height}, e.middle.onChart(e.side.basis)} {
		if p.Run == nil {
			continue
		}
		if c := p.Run.column(id); c != nil && c.values != nil {
			if f.Figure, f.known = p.Run.figure(c, p.Position, Monotone); f.known {
				f.place = p
				return
			}
		}
	}
}

// share makes the estimated parts of the trunk add up to it.
func (e *estimator) share() {
	for i := range e.ref.sums.identities {
		s := &e.ref.sums.identities[i]
		if !s.known(e.figures) || slices.ContainsFunc(s.parts, func(p int) bool {
			return e.figures[p].Got != Estimated || e.side.methods[p].lead != s.whole
		}) {
			continue
		}
		factor := e.figures[s.whole].Value / s.total(e.figures)
		for _, p := range s.parts {
			f := &e.figures[p]
			f.Value, f.Low, f.High = f.Value*factor, f.Low*factor, f.High*factor
		}
	}
}
