package sizing

import "math"

// A heightPoint is a height with what the basis has there. Those of the grid, on
// which heights are searched for, keep what was worked out.
type heightPoint struct {
	*stretch
	height   float64
	past     float64   // of the height, beyond the beginning of the stretch
	share    float64   // of the way from the middle of the stretch's band to that of the next
	run      *chartRun // of the default chart, that has the height; nil where none has
	position float64   // on it
	placed   bool
	kept     *kept // nil for none
}

// kept are logarithms, each 0 where not yet asked for.
type kept struct {
	height         float64
	medians, trade []float64 // of each measurement
}

// grid returns the heights that are searched for a child's.
func (s *sexGroup) grid() []heightPoint {
	if s.points != nil {
		return s.points
	}
	for i := 0; s.low+float64(i)*stepCm <= s.high; i++ {
		height, n := s.low+float64(i)*stepCm, len(s.methods)
		a := heightPoint{kept: &kept{math.Log(height), make([]float64, n), make([]float64, n)}}
		a.moveTo(s.basis, height)
		s.points = append(s.points, a)
	}
	return s.points
}

// moveTo moves a heightPoint to a height.
func (a *heightPoint) moveTo(b *basis, height float64) {
	a.height, a.placed = height, false
	a.stretch = b.stretchAt(height)
	a.past = height - a.stretch.from
	a.share = a.stretch.share.at(a.past)
}

// sd is the spread of a measurement of the relations.
func (a *heightPoint) sd(v int) float64 { return a.spread[v].at(a.past) }

// correlations returns those of a measurement of the relations in the heightPoint's
// band, with what they gain on the way to the next.
func (a *heightPoint) correlations(rel *relations, v int) (r, rise []float64) {
	c := &rel.corr[a.band]
	return c.r[v], c.rise[v]
}

// median is the median of a measurement, NaN where it is not known by height.
func (a *heightPoint) median(m int) float64 {
	s := a.medians[m]
	if s == nil {
		return math.NaN()
	}
	return s.at(a.height)
}

// logMedian is its logarithm.
func (a *heightPoint) logMedian(m int) float64 {
	if a.kept == nil {
		return math.Log(a.median(m))
	}
	log := &a.kept.medians[m]
	if *log == 0 {
		*log = math.Log(a.median(m))
	}
	return *log
}

// trade is the default chart's figure of a measurement; NaN where it has none.
func (a *heightPoint) trade(s *sexGroup, m int) float64 {
	if a.onChart(s); a.run == nil {
		return math.NaN()
	}
	return a.run.value(m, a.position)
}

// logTrade is its logarithm.
func (a *heightPoint) logTrade(s *sexGroup, m int) float64 {
	if a.kept == nil {
		return math.Log(a.trade(s, m))
	}
	log := &a.kept.trade[m]
	if *log == 0 {
		*log = math.Log(a.trade(s, m))
	}
	return *log
}

// onChart finds the height on the default chart.
func (a *heightPoint) onChart(s *sexGroup) {
	if a.placed {
		return
	}
	a.placed, a.run = true, nil
	if s.height < 0 {
		return
	}
	for _, run := range s.trade {
		if position, ok := run.inverse(s.height, a.height); ok {
			a.run, a.position = run, position
			return
		}
	}
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

// A level is what a conditional is at one height, for any child.
type level struct {
	at         *heightPoint
	l          []float64 // factor of the evidence's correlations
	median, sd []float64 // of each of the evidence: logarithm of the median, spread
	cost       float64   // the part of cost that is the same for every child
	// w are, for each of the evidence made independent of those before it, the
	// correlations of every measurement with it; left is the share of every
	// measurement's variance that they leave. Both are nil until asked for.
	w, left []float64
}

// A guess is a height the child may have, with its share of the probability
// and the expected log departures at it.
type guess struct {
	*level
	weight float64
	mean   []float64 // of each measurement of the relations
}

func newConditional(b *basis, evidence, need []int) *conditional {
	k, n := len(evidence), len(b.rel.names)
	c := &conditional{basis: b, evidence: evidence, need: need, sound: true}
	c.own = level{l: make([]float64, k*k), median: make([]float64, k), sd: make([]float64, k), w: make([]float64, k*n), left: make([]float64, n)}
	// Correlations between two bands are a mixture of theirs, so what can be
	// factored in each band can be factored between.
	for band := range b.rel.corr {
		c.sound = c.sound && c.factor(c.own.l, band, 0)
	}
	return c
}

// factor sets l for a height, which lies past the middle of a band.
func (c *conditional) factor(l []float64, band int, share float64) bool {
	k, in := len(c.evidence), &c.basis.rel.corr[band]
	for i, a := range c.evidence {
		for j, b := range c.evidence[:i] {
			a, b := &c.basis.methods[a], &c.basis.methods[b]
			l[i*k+j] = a.taken * b.taken * (in.r[a.v][b.v] + share*in.rise[a.v][b.v])
		}
		l[i*k+i] = 1
	}
	return cholesky(l, k)
}

// moveTo moves a level to a height.
func (c *conditional) moveTo(l *level, at *heightPoint) {
	l.at = at
	c.factor(l.l, at.band, at.share)
	for j, m := range c.evidence {
		d := &c.basis.methods[m]
		l.median[j], l.sd[j] = at.logMedian(m), at.sd(d.v)*d.wide
	}
}

// weigh sets a level's w and left.
func (c *conditional) weigh(l *level) {
	k, n := len(c.evidence), len(c.basis.rel.names)
	for _, v := range c.need {
		l.left[v] = 1
	}
	for j, m := range c.evidence {
		d := &c.basis.methods[m]
		r, rise := l.at.correlations(c.basis.rel, d.v)
		w := l.w[j*n : (j+1)*n]
		for _, v := range c.need {
			w[v] = d.taken * (r[v] + l.at.share*rise[v])
		}
		for q := range j {
			f, before := l.l[j*k+q], l.w[q*n:(q+1)*n]
			for _, v := range c.need {
				w[v] -= f * before[v]
			}
		}
		own := 1 / l.l[j*k+j]
		for _, v := range c.need {
			w[v] *= own
			l.left[v] -= w[v] * w[v]
		}
	}
}

// levels returns the conditional on a grid of heights.
func (c *conditional) levels(points []heightPoint) []level {
	if c.grid != nil {
		return c.grid
	}
	k := len(c.evidence)
	c.grid = make([]level, len(points))
	room := make([]float64, len(points)*(k*k+2*k))
	for i := range c.grid {
		l := &c.grid[i]
		l.l, room = room[:k*k], room[k*k:]
		l.median, l.sd, room = room[:k], room[k:2*k], room[2*k:]
		c.moveTo(l, &points[i])
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

// childCost is minus the log likelihood of the child's figures at a height, up
// to a constant. logs are their logarithms; z is scratch space of the same
// length.
func (l *level) childCost(logs, z []float64) float64 {
	l.departures(z, logs)
	forward(l.l, len(z), z)
	cost := l.cost
	for _, z := range z {
		cost += z * z / 2
	}
	return cost
}

// farOut is how many spreads from the median a measurement may be and still
// count as evidence for the others. Beyond, a slip of the tape is likelier than
// a child whose every other measurement is as rare.
const farOut = 3

// expect sets mean to the expected log departures of what is needed.
func (c *conditional) expect(l *level, logs, z, mean []float64) {
	k := len(z)
	n := len(c.basis.rel.names)
	if l.w == nil {
		l.w, l.left = make([]float64, k*n), make([]float64, n)
		c.weigh(l)
	}
	l.departures(z, logs)
	for j := range z {
		z[j] = min(max(z[j], -farOut), farOut)
	}
	forward(l.l, k, z)
	for _, v := range c.need {
		sum := 0.0
		for j, z := range z {
			sum += l.w[j*n+v] * z
		}
		mean[v] = sum * l.at.sd(v)
	}
}

// variance is the remaining variance of the log departure of measurement v.
func (l *level) variance(v int) float64 {
	sd := l.at.sd(v)
	return max(l.left[v], 0) * sd * sd
}

// covariance is the remaining covariance of the log departures of measurements
// i and j.
func (c *conditional) covariance(l *level, i, j int) float64 {
	if i == j {
		return l.variance(i)
	}
	correlations, rise := l.at.correlations(c.basis.rel, i)
	r := correlations[j] + l.at.share*rise[j]
	for n, q := len(c.basis.rel.names), 0; q < len(l.w); q += n {
		r -= l.w[q+i] * l.w[q+j]
	}
	return r * l.at.sd(i) * l.at.sd(j)
}
