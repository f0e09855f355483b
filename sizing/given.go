package sizing

import "math"

// A conditional gives, for one set of measurements known, the expected log
// departure of every measurement from its median and what spread is left.
//
// Weight stands for the child's build, with which all girths go. Given it, what
// the others leave each other is the same for thin children and for heavy ones.
// Where the weight was not taken, it is what the others say of it.
type conditional struct {
	basis    *basis
	evidence []int // measurements, no two of them moved by the same; weight comes first
	weighed  bool  // weight is among them
	others   []int // but weight
	need     []int // of the relations: what to work out
	sound    bool  // no two of the evidence are wholly the same thing
	grid     []level
	own      level // at the child's own height
}

// A level is what a conditional is at one height, for any child.
type level struct {
	at     *heightPoint
	weight float64 // logarithm of the median weight
	// Of each of the evidence but weight: the logarithm of what a child of the
	// usual build has, the spread that weight leaves, and how closely that goes
	// with the same of the surveyed measurement.
	usual, rest, near []float64
	l                 []float64 // factor of the correlations of the evidence, weight being known
	b                 []float64 // how the evidence goes with weight, each made independent of those before it
	told              float64   // precision of the weight that the evidence gives
	low, high         float64   // spread of the weight below its median and above
	known             float64   // share of the build that is known
	cost              float64   // the part of cost that is the same for every child
	// w are, for each of the evidence made independent of those before it, the
	// correlations of every measurement with it, weight being known; left is the
	// variance of every measurement that they leave, and slope how it goes with
	// weight once they are known. They are nil until asked for.
	w, left, slope []float64
	rests, shifts  []float64 // of every measurement at this height
}

// A build is what is known of a child's weight: its expected log departure from
// the median, and the variance below and above.
type build struct{ mean, low, high float64 }

// A guess is a height the child may have, with its share of the probability
// and the expected log departures at it.
type guess struct {
	*level
	build  build
	weight float64
	mean   []float64 // of each measurement of the relations
}

func newConditional(b *basis, evidence, need []int) *conditional {
	c := &conditional{basis: b, evidence: evidence, others: evidence, need: need, sound: true}
	if len(evidence) > 0 && b.methods[evidence[0]].v == b.rel.weight {
		c.weighed, c.others = true, evidence[1:]
	}
	k, n := len(c.others), len(b.rel.names)
	c.own.makeRoom(k, n)
	c.own.take(make([]float64, k*k+4*k), k)
	// Correlations between two bands are a mixture of theirs, so what can be
	// factored in each band can be factored between.
	for i, m := range c.others {
		c.own.near[i] = b.methods[m].closeness
	}
	for band := range b.rel.corr {
		c.sound = c.sound && c.factor(&c.own, band, 0)
	}
	return c
}

// take takes the room for k of the evidence, and returns what is left.
func (l *level) take(room []float64, k int) []float64 {
	l.l, room = room[:k*k], room[k*k:]
	for _, to := range []*[]float64{&l.usual, &l.rest, &l.near, &l.b} {
		*to, room = room[:k], room[k:]
	}
	return room
}

// makeRoom makes room for k of the evidence and n measurements of the relations.
func (l *level) makeRoom(k, n int) {
	room := make([]float64, (k+4)*n)
	l.w, room = room[:k*n], room[k*n:]
	for _, to := range []*[]float64{&l.left, &l.slope, &l.rests, &l.shifts} {
		*to, room = room[:n], room[n:]
	}
}

// factor sets l for a height, which lies past the middle of a band.
func (c *conditional) factor(l *level, band int, share float64) bool {
	k, in := len(c.others), &c.basis.rel.alike[band]
	for i, a := range c.others {
		a := c.basis.methods[a].v
		for j, b := range c.others[:i] {
			b := c.basis.methods[b].v
			l.l[i*k+j] = l.near[i] * l.near[j] * (in.r[a][b] + share*in.rise[a][b])
		}
		l.l[i*k+i] = 1
	}
	return cholesky(l.l, k)
}

// moveTo moves a level to a height.
func (c *conditional) moveTo(l *level, at *heightPoint) {
	l.at, l.low, l.high = at, at.low.at(at.past), at.high.at(at.past)
	if c.weighed {
		l.weight = at.logMedian(c.evidence[0])
	}
	for j, m := range c.others {
		d := &c.basis.methods[m]
		slope, rest := at.slope(d.v), at.rest(d.v)
		l.rest[j], l.near[j] = rest, 1
		if d.closeness != 1 { // a stand-in has a part of its own as well
			sd := at.sd(d.v)
			slope *= d.closeness
			l.rest[j] = math.Sqrt(d.closeness*d.closeness*rest*rest + (1-d.closeness*d.closeness)*sd*sd)
			l.near[j] = d.closeness * rest / l.rest[j]
		}
		if d.tape > 0 { // and a tape that is unsure has its own
			wide := math.Hypot(l.rest[j], d.tape)
			l.rest[j], l.near[j] = wide, l.near[j]*l.rest[j]/wide
		}
		l.b[j] = slope / l.rest[j]
	}
	c.factor(l, at.band, at.share)
	forward(l.l, len(l.b), l.b)
	l.told = 0
	for _, b := range l.b {
		l.told += b * b
	}
	l.known = 1
	if !c.weighed {
		l.known = l.told / (1/l.middling() + l.told)
	}
	for j, m := range c.others {
		d := &c.basis.methods[m]
		l.usual[j] = at.logMedian(m) + l.known*d.closeness*at.shift(d.v)
	}
}

// middling is the variance of the weight, thin and heavy children together.
func (l *level) middling() float64 { return (l.low + l.high) * (l.low + l.high) / 4 }

// weigh sets what a level has for every measurement.
func (c *conditional) weigh(l *level) {
	k, n := len(c.others), len(c.basis.rel.names)
	for _, v := range c.need {
		l.left[v], l.slope[v] = 1, 0
	}
	for j, m := range c.others {
		r, rise := l.at.correlations(c.basis.rel, c.basis.methods[m].v)
		w := l.w[j*n : (j+1)*n]
		for _, v := range c.need {
			w[v] = l.near[j] * (r[v] + l.at.share*rise[v])
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
			l.slope[v] -= w[v] * l.b[j]
		}
	}
	for _, v := range c.need {
		rest := l.at.rest(v)
		l.slope[v] = l.at.slope(v) + l.slope[v]*rest
		l.left[v] = max(l.left[v], 0) * rest * rest
		l.rests[v], l.shifts[v] = rest, l.at.shift(v)*l.known
	}
}

// levels returns the conditional on a grid of heights.
func (c *conditional) levels(points []heightPoint) []level {
	if c.grid != nil {
		return c.grid
	}
	k := len(c.others)
	c.grid = make([]level, len(points))
	room := make([]float64, len(points)*(k*k+4*k))
	for i := range c.grid {
		l := &c.grid[i]
		room = l.take(room, k)
		c.moveTo(l, &points[i])
		for j := range k {
			l.cost += math.Log(l.rest[j]) + math.Log(l.l[j*k+j])
		}
		if c.weighed {
			l.cost += math.Log(l.middling()) / 2
		} else {
			l.cost += math.Log1p(l.middling()*l.told) / 2
		}
	}
	return c.grid
}

// departures sets z to how far what was taken, but the weight, is from what is
// usual, each made independent of those before it, and returns what it says of
// the weight. logs are the logarithms of the child's figures.
func (c *conditional) departures(l *level, logs, z []float64) (said float64) {
	logs = logs[len(logs)-len(z):]
	for j := range z {
		z[j] = (logs[j] - l.usual[j]) / l.rest[j]
	}
	forward(l.l, len(z), z)
	for j, z := range z {
		said += l.b[j] * z
	}
	return said
}

// childCost is minus the log likelihood of the child's figures at a height, up
// to a constant. Heavy children are taken to be no likelier than thin ones: a
// large chest would else be a short child's rather than a tall one's. z is scratch
// space of the length of what was taken but weight.
func (c *conditional) childCost(l *level, logs, z []float64) float64 {
	said := c.departures(l, logs, z)
	cost := l.cost
	for _, z := range z {
		cost += z * z / 2
	}
	precision := 1/l.middling() + l.told
	if c.weighed {
		d := logs[0] - l.weight
		return cost + d*(d*precision/2-said)
	}
	return cost - said*said/(2*precision)
}

// build is what is known of the weight, from it or from what the others said.
func (c *conditional) build(l *level, logs []float64, said float64) build {
	if c.weighed {
		return build{mean: logs[0] - l.weight}
	}
	low, high := 1/(1/(l.low*l.low)+l.told), 1/(1/(l.high*l.high)+l.told)
	// The weight of a child who is surely heavy spreads as that of heavy children
	// on both sides.
	if said < 0 {
		mean := said * low
		return build{mean, low, high + min(1, -mean/(zP90*math.Sqrt(low)))*(low-high)}
	}
	mean := said * high
	return build{mean, low + min(1, mean/(zP90*math.Sqrt(high)))*(high-low), high}
}

// expect sets mean to the expected log departures of what is needed.
func (c *conditional) expect(l *level, logs, z, mean []float64) build {
	n := len(c.basis.rel.names)
	if l.w == nil {
		l.makeRoom(len(z), n)
		c.weigh(l)
	}
	b := c.build(l, logs, c.departures(l, logs, z))
	for _, v := range c.need {
		sum := 0.0
		for j, z := range z {
			sum += l.w[j*n+v] * z
		}
		mean[v] = l.shifts[v] + l.slope[v]*b.mean + l.rests[v]*sum
	}
	return b
}

// variance is the remaining variance of the log departure of measurement v,
// below its mean and above.
func (g *guess) variance(v int) (low, high float64) {
	slope := g.slope[v] * g.slope[v]
	return g.left[v] + slope*g.build.low, g.left[v] + slope*g.build.high
}

// covariance is the remaining covariance of the log departures of measurements
// i and j, below and above.
func (c *conditional) covariance(g *guess, i, j int) (low, high float64) {
	if i == j {
		return g.variance(i)
	}
	correlations, rise := g.at.correlations(c.basis.rel, i)
	r := correlations[j] + g.at.share*rise[j]
	for n, q := len(c.basis.rel.names), 0; q < len(g.w); q += n {
		r -= g.w[q+i] * g.w[q+j]
	}
	own, slopes := r*g.rests[i]*g.rests[j], g.slope[i]*g.slope[j]
	return own + slopes*g.build.low, own + slopes*g.build.high
}
