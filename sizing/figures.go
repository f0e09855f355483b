package sizing

import "math"

// zP90 is the 90th percentile of the standard normal distribution.
const zP90 = 1.2815515655446004

// figure works out a measurement: the child's own, or its estimate.
func (e *estimator) figure(m int) {
	f := &e.figures[m]
	e.workedOut = append(e.workedOut, m)
	if e.took(m) {
		f.Figure, f.known = Figure{Value: e.own[m], Provenance: Measured}, true
		e.believe(m, f)
		return
	}
	switch e.group.methods[m].approach {
	case byHeight:
		e.fromHeights(f)
	case byMedian:
		e.fromMedian(f, m)
	case bySum:
		e.fromSum(f, m)
	case byChart:
		e.fromChart(f, m)
	}
}

// set makes the figure of what multiplies a base.
func (f *figure) set(base float64, by *mixture) {
	mean, low, high, ok := by.result()
	switch f.known = f.known || ok; {
	case !ok:
	case by.alone:
		f.Figure = Figure{Value: base * math.Exp(mean), Provenance: Estimated}
	default:
		f.estimated(base*math.Exp(mean), low, high)
	}
}

// estimated sets the figure to an estimate; low and high are the spread of its
// logarithm below it and above.
func (f *figure) estimated(value, low, high float64) {
	f.Figure = Figure{value, value * math.Exp(-zP90*low), value * math.Exp(zP90*high), EightInTen, Estimated}
}

// A mixture weighs logarithms, with their variances below and above, over the
// likely heights. They are those of what multiplies a base.
type mixture struct {
	weight, first, second, low, high float64
	alone                            bool // only the mean is wanted
}

// add adds what holds at one height. What is not known there is left out.
func (x *mixture) add(weight, mean, low, high float64) {
	if math.IsNaN(mean) {
		return
	}
	x.weight += weight
	x.first += weight * mean
	x.second += weight * mean * mean
	x.low += weight * low
	x.high += weight * high
}

// result is false where half of the likely heights, or more, were left out.
func (x *mixture) result() (mean, low, high float64, ok bool) {
	if x.weight < 0.5 {
		return 0, 0, 0, false
	}
	if mean = x.first / x.weight; x.alone {
		return mean, 0, 0, true
	}
	between := max(0, x.second/x.weight-mean*mean)
	return mean, math.Sqrt(max(0, x.low/x.weight+between)), math.Sqrt(max(0, x.high/x.weight+between)), true
}

// fromHeights weighs the likely heights themselves.
func (e *estimator) fromHeights(f *figure) {
	x := mixture{alone: e.valuesAlone}
	log := math.Log(e.middle.height)
	for i := range e.guesses {
		g := &e.guesses[i]
		x.add(g.weight, g.at.kept.height-log, 0, 0)
	}
	f.set(e.middle.height, &x)
}

// fromMedian moves the median of what the survey has, or else the default
// chart, by what the evidence says.
func (e *estimator) fromMedian(f *figure, m int) {
	s := e.group
	d := &s.methods[m]
	byCurve := d.surveyed && d.covers(e.middle.height)
	var median float64 // at the middle; other heights are held against it
	switch {
	case byCurve:
		f.run, median = s.rel.run, e.middle.median(m)
	case !math.IsNaN(e.middle.trade(s, m)):
		f.run, median = e.middle.run.Run, e.middle.trade(s, m)
	case d.carried > 0 && d.covers(e.middle.height):
		byCurve, median = true, e.middle.median(m)
	default:
		return
	}
	known := e.took(e.height) // so it is the only one
	log := 0.0
	if !known {
		log = math.Log(median)
	}
	own := d.closeness * d.closeness
	x := mixture{alone: e.valuesAlone}
	for i := range e.guesses {
		g := &e.guesses[i]
		mean := d.closeness * g.mean[d.v]
		switch {
		case known:
		case byCurve:
			mean += g.at.logMedian(m) - log
		default:
			mean += g.at.logTrade(s, m) - log
		}
		low, high := g.variance(d.v)
		if own != 1 { // a stand-in has a part of its own as well
			sd := g.at.sd(d.v)
			low, high = own*low+(1-own)*sd*sd, own*high+(1-own)*sd*sd
		}
		x.add(g.weight, mean, low, high)
	}
	f.set(median, &x)
}

// fromSum adds others up, the child's own figures where there are any.
func (e *estimator) fromSum(f *figure, m int) {
	s := e.group
	terms, assumed := s.methods[m].terms, s.methods[m].assumed
	for _, t := range terms {
		if d := &s.methods[t.m]; !d.surveyed || !d.covers(e.middle.height) {
			return
		}
	}
	x := mixture{alone: e.valuesAlone}
	for i := range e.guesses {
		g := &e.guesses[i]
		sum, low, high := 0.0, 0.0, 0.0 // variances below and above
		parts := e.parts[:0]            // of what is uncertain
		for _, t := range terms {
			part := 0.0
			switch {
			case e.took(t.m) && !e.doubted(t.m) && s.methods[t.m].tape == 0:
				sum += t.factor * e.own[t.m]
			case t.m == e.height:
				sum += t.factor * g.at.height
			case t.v < 0:
				sum += t.factor * g.at.median(t.m)
			default:
				part = t.factor * g.at.median(t.m) * math.Exp(g.mean[t.v])
				sum += part
			}
			parts = append(parts, part)
		}
		e.parts = parts
		for i, a := range parts {
			if a == 0 || x.alone {
				continue
			}
			l, h := g.variance(terms[i].v)
			low, high = low+a*a*l, high+a*a*h
			for j, b := range parts[:i] {
				if b != 0 {
					l, h := e.given.covariance(g, terms[i].v, terms[j].v)
					low, high = low+2*a*b*l, high+2*a*b*h
				}
			}
		}
		if sum > 0 {
			x.add(g.weight, math.Log(sum), max(0, low)/(sum*sum)+assumed*assumed, max(0, high)/(sum*sum)+assumed*assumed)
		}
	}
	f.set(1, &x)
}

// fromChart reads a measurement of which nothing is known how it goes with the
// others: as the survey has it at that height, or the default chart.
func (e *estimator) fromChart(f *figure, m int) {
	e.readOn(f, m, e.group.survey, e.middle.height)
	if e.middle.onChart(e.group); !f.known && e.middle.run != nil {
		e.readOn(f, m, e.middle.run, e.middle.position)
	}
}

// readOn reads a measurement on a run.
func (e *estimator) readOn(f *figure, m int, r *chartRun, position float64) {
	if c := r.numbered(m); c != nil && c.values != nil {
		if f.Figure, f.known = r.figure(c, position, Monotone); f.known {
			f.place = Place{Run: r.Run, Position: position}
		}
	}
}
