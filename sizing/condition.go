package sizing

import "math"

// A station is a height with what the basis has there. Those of the grid, on
// which heights are searched for, keep what was worked out.
type station struct {
	height, log float64
	band        int       // the height lies a share of the way from the middle of this band
	share       float64   // to that of the next
	sd          []float64 // of each measurement of the relations that is needed
	place       Place     // on the default chart; no run where it has none
	placed      bool
	keeps       bool
	medians     []float64 // logarithms of the medians; 0 where not yet asked for
	trade       []float64 // the same of the default chart's
}

// grid returns the heights that are searched for a child's.
func (s *side) grid() []station {
	if s.stations != nil {
		return s.stations
	}
	for i := 0; s.low+float64(i)*stepCm <= s.high; i++ {
		a := station{keeps: true, medians: make([]float64, len(s.methods)), trade: make([]float64, len(s.methods))}
		a.stand(s, s.low+float64(i)*stepCm)
		s.stations = append(s.stations, a)
	}
	return s.stations
}

// stand moves a station to a height.
func (a *station) stand(s *side, height float64) {
	rel := s.rel
	a.height, a.log, a.placed = height, math.Log(height), false
	a.band, a.share = bandAt(rel.middle, height)
	if len(a.sd) != len(rel.names) {
		a.sd = make([]float64, len(rel.names))
	}
	for _, v := range s.need {
		a.sd[v] = rel.sd(v, height)
	}
}

// logMedian is the logarithm of the median of a measurement.
func (a *station) logMedian(b *basis, m int) float64 {
	if a.keeps && a.medians[m] != 0 {
		return a.medians[m]
	}
	log := math.Log(b.methods[m].median.At(a.height))
	if a.keeps {
		a.medians[m] = log
	}
	return log
}

// logTrade is the logarithm of the default chart's figure; NaN where it has
// none.
func (a *station) logTrade(b *basis, m int) float64 {
	if a.keeps && a.trade[m] != 0 {
		return a.trade[m]
	}
	log := math.NaN()
	if p := a.onChart(b); p.Run != nil {
		log = math.Log(p.Run.Value(b.methods[m].measurement.ID, p.Position))
	}
	if a.keeps {
		a.trade[m] = log
	}
	return log
}

// onChart finds the height on the default chart.
func (a *station) onChart(b *basis) Place {
	if !a.placed {
		a.place, _ = b.chart.atHeight(a.height, b.sex)
		a.placed = true
	}
	return a.place
}

// A conditional gives, for one set of measurements known, the expected log
// departure of every measurement from its median and what spread is left.
type conditional struct {
	basis    *basis
	evidence []int // measurements, no two of them moved by the same
	need     []int // of the relations: what to work out
	sound    bool  // no two of the evidence are wholly the same thing
	grid     []level
	own      level // at the child's own height
}

// A level is what a conditional is at one height, whoever the child.
type level struct {
	at         *station
	l          []float64 // factor of the evidence's correlations
	median, sd []float64 // of each of the evidence: logarithm of the median, spread
	cost       float64   // the part of cost that is the same for every child
	w          []float64 // of each measurement, its correlations with the evidence made independent; nil until asked for
}

// A guess is a height the child may have, with its share of the probability,
// and the expected log departures there.
type guess struct {
	*level
	weight float64
	mean   []float64 // of each measurement of the relations
}

func newConditional(b *basis, evidence, need []int) *conditional {
	k, n := len(evidence), len(b.rel.names)
	c := &conditional{basis: b, evidence: evidence, need: need, sound: true}
	c.own = level{l: make([]float64, k*k), median: make([]float64, k), sd: make([]float64, k), w: make([]float64, n*k)}
	// Correlations between two bands are a mixture of theirs, so what can be
	// factored in each band can be factored between.
	for band := range b.rel.corr {
		c.sound = c.sound && c.factor(c.own.l, band, 0)
	}
	return c
}

// factor sets l for a height, which lies past the middle of a band.
func (c *conditional) factor(l []float64, band int, share float64) bool {
	k := len(c.evidence)
	for i, a := range c.evidence {
		for j, b := range c.evidence[:i] {
			a, b := &c.basis.methods[a], &c.basis.methods[b]
			l[i*k+j] = a.closeness * b.closeness * c.basis.rel.correlation(a.v, b.v, band, share)
		}
		l[i*k+i] = 1
	}
	return cholesky(l, k)
}

// stand moves a level to a height.
func (c *conditional) stand(l *level, at *station) {
	l.at = at
	c.factor(l.l, at.band, at.share)
	for j, m := range c.evidence {
		l.median[j] = at.logMedian(c.basis, m)
		l.sd[j] = c.basis.rel.sd(c.basis.methods[m].v, at.height)
	}
}

// weigh sets a level's w.
func (c *conditional) weigh(l *level) {
	k := len(c.evidence)
	for _, v := range c.need {
		row := l.w[v*k : (v+1)*k]
		for j, m := range c.evidence {
			d := &c.basis.methods[m]
			row[j] = d.closeness * c.basis.rel.correlation(v, d.v, l.at.band, l.at.share)
		}
		forward(l.l, k, row)
	}
}

// levels returns the conditional on a grid of heights.
func (c *conditional) levels(stations []station) []level {
	if c.grid != nil {
		return c.grid
	}
	k := len(c.evidence)
	c.grid = make([]level, len(stations))
	room := make([]float64, len(stations)*(k*k+2*k))
	for i := range c.grid {
		l := &c.grid[i]
		l.l, room = room[:k*k], room[k*k:]
		l.median, l.sd, room = room[:k], room[k:2*k], room[2*k:]
		c.stand(l, &stations[i])
		for j := range k {
			l.cost += math.Log(l.sd[j]) + math.Log(l.l[j*k+j])
		}
	}
	return c.grid
}

// departures sets z to how far the child is from the medians, in spreads.
func (l *level) departures(z, logs []float64) {
	for j := range z {
		z[j] = (logs[j] - l.median[j]) / l.sd[j]
	}
}

// childCost weighs the child's figures at a height: minus their log
// likelihood, up to a constant. logs are their logarithms; z is room for as
// many.
func (l *level) childCost(logs, z []float64) float64 {
	l.departures(z, logs)
	forward(l.l, len(z), z)
	cost := l.cost
	for _, z := range z {
		cost += z * z / 2
	}
	return cost
}

// farOut is how many spreads from the median a measurement is still believed
// to speak for the others. Beyond, it is likelier a slip of the tape than a
// child whose every other measurement is as rare.
const farOut = 3

// expect sets mean to the expected log departures of what is needed.
func (c *conditional) expect(l *level, logs, z, mean []float64) {
	k := len(z)
	if l.w == nil {
		l.w = make([]float64, len(c.basis.rel.names)*k)
		c.weigh(l)
	}
	l.departures(z, logs)
	for j := range z {
		z[j] = min(max(z[j], -farOut), farOut)
	}
	forward(l.l, k, z)
	for _, v := range c.need {
		sum := 0.0
		for j, w := range l.w[v*k : (v+1)*k] {
			sum += w * z[j]
		}
		mean[v] = sum * l.at.sd[v]
	}
}

// covariance is what the log departures of measurements i and j still share.
func (c *conditional) covariance(l *level, i, j int) float64 {
	k := len(c.evidence)
	r := c.basis.rel.correlation(i, j, l.at.band, l.at.share)
	for q := range k {
		r -= l.w[i*k+q] * l.w[j*k+q]
	}
	if i == j {
		r = max(r, 0)
	}
	return r * l.at.sd[i] * l.at.sd[j]
}
