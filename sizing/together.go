package sizing

import (
	"math"
	"slices"
)

// cost says how unlike any child what is said is. together is scratch space.
func (l *likeness) cost(s *said, t *together) float64 {
	if !math.IsNaN(s.height) {
		return l.costAt(s, t, l.rowAt(s.height), s.height)
	}
	if len(s.fields) == 0 {
		return 0
	}
	_, cost := l.likeliestRow(s, t)
	return cost
}

// likeliestRow is the height at which what is said is likeliest.
func (l *likeness) likeliestRow(s *said, t *together) (best *likeRow, least float64) {
	const step = 5
	middle := -1
	try := func(from, to, step int) {
		for i := max(from, 0); i < min(to, len(l.rows)); i += step {
			row := &l.rows[i]
			if cost := l.costAt(s, t, row, row.logHeight); best == nil || cost < least {
				best, least, middle = row, cost, i
			}
		}
	}
	try(step/2, len(l.rows), step)
	try(middle-step+1, middle+step, 1)
	return best, least
}

// rowAt is the row nearest to a height.
func (l *likeness) rowAt(logHeight float64) *likeRow {
	i := int(math.Round((logHeight - l.rows[0].logHeight) / likeHeightStep))
	return &l.rows[min(max(i, 0), len(l.rows)-1)]
}

// costAt is the cost where the child has a height, of which row has what children
// have.
func (l *likeness) costAt(s *said, t *together, row *likeRow, logHeight float64) float64 {
	cost := l.costOfHeight(s, logHeight)
	t.begin(l, row, logHeight)
	for i, m := range s.fields {
		cost += t.add(m, s.logs[i])
	}
	return cost + t.cost()
}

// costOfHeight is that of a height with the age.
func (l *likeness) costOfHeight(s *said, logHeight float64) float64 {
	outside := max(l.shortest-logHeight, logHeight-l.tallest, 0) / l.heightSpread
	cost := outside * outside / 2
	if math.IsNaN(s.age) {
		return cost
	}
	years := math.Exp(s.age)
	z := (logHeight - l.heightAt(years)) / l.heightSpread
	older := max(0, years-MostYears)
	return cost + z*z/2 + older*older/2
}

// A together is measurements that go together, at one height: the weight, and the
// others, which are held against those of children of that weight. A weight that
// was not taken is as suits the others best.
type together struct {
	l      *likeness
	row    *likeRow
	above  float64 // the height, over that of the row
	weight float64 // departure of its logarithm
	rise   float64 // of its median with height
	taken  bool

	fields   []int     // measurements
	z        []float64 // departures from children of the usual weight, in spreads
	farthest float64   // departure of one that goes with no other, in spreads

	factor    []float64 // of their correlations, weight being known
	u, a, h   []float64 // departures, how they go with weight, and with height, each made independent of those before
	room      []float64
	each      []float64
	spread    float64 // of weight, on the side where the child's is
	precision float64 // of the weight, by itself and by the others

	kept map[int][]float64 // factors of the same measurements, at each step of correlations; nil where two are the same thing
	of   []int             // those measurements
}

func (t *together) begin(l *likeness, row *likeRow, logHeight float64) {
	t.l, t.row, t.above = l, row, logHeight-row.logHeight
	t.taken, t.weight, t.farthest = false, 0, 0
	t.fields, t.z = t.fields[:0], t.z[:0]
}

// add adds a measurement. It returns the cost of one that goes with no other.
func (t *together) add(m int, log float64) float64 {
	if math.IsNaN(t.row.median[m]) {
		return 0
	}
	f := &t.l.fields[m]
	z := t.departure(m, log)
	switch {
	case f.weight:
		t.taken, t.weight, t.rise = true, z*t.row.rest[m], t.row.rise[m]
	case f.v < 0:
		t.farthest = max(t.farthest, math.Abs(z))
		return z * z / 2
	default:
		t.fields, t.z = append(t.fields, m), append(t.z, z)
	}
	return 0
}

// departure is how far a measurement is from what is usual at the height and
// weight, in spreads.
func (t *together) departure(m int, log float64) float64 {
	return (log - t.row.median[m] - t.row.rise[m]*t.above) / t.row.rest[m]
}

// cost is minus the log likelihood of what was added.
func (t *together) cost() float64 {
	k := len(t.fields)
	if t.factor = t.correlated(); t.factor == nil {
		t.fields, t.z, t.u, t.a = t.fields[:0], t.z[:0], t.u[:0], t.a[:0]
		t.spread, t.precision = 1, 1
		return 0 // one thing taken twice; the estimate says so
	}
	t.u, t.a = append(t.u[:0], t.z...), t.a[:0]
	for _, m := range t.fields {
		t.a = append(t.a, t.row.slope[m])
	}
	forward(t.factor, k, t.u)
	forward(t.factor, k, t.a)
	ua, aa := 0.0, 0.0
	for i, u := range t.u {
		ua, aa = ua+u*t.a[i], aa+t.a[i]*t.a[i]
	}
	side := ua
	if t.taken {
		side = t.weight
	}
	t.spread = t.row.light
	if side > 0 {
		t.spread = t.row.heavy
	}
	t.precision = 1/(t.spread*t.spread) + aa
	if !t.taken {
		t.weight = ua / t.precision
	}
	cost := t.weight * t.weight / (t.spread * t.spread) / 2
	for i := range t.u {
		t.u[i] -= t.a[i] * t.weight
		cost += t.u[i] * t.u[i] / 2
	}
	return cost
}

// correlated is the factor of the correlations of the measurements at the row's
// height. It is kept for the next children with the same.
func (t *together) correlated() []float64 {
	if t.kept == nil || !slices.Equal(t.of, t.fields) {
		t.of = append(t.of[:0], t.fields...)
		t.kept = make(map[int][]float64)
	}
	step := t.row.band*(likeShareSteps+1) + int(t.row.share*likeShareSteps)
	if factor, ok := t.kept[step]; ok {
		return factor
	}
	k := len(t.fields)
	factor := make([]float64, k*k)
	for i, m := range t.fields {
		for n, g := range t.fields[:i] {
			factor[i*k+n] = t.correlation(m, g)
		}
		factor[i*k+i] = 1
	}
	if !cholesky(factor, k) {
		factor = nil
	}
	t.kept[step] = factor
	return factor
}

// correlation is that of two measurements at the row's height, weight being known.
func (t *together) correlation(m, n int) float64 {
	f, g, in := t.l.fields[m].v, t.l.fields[n].v, &t.l.rel.alike[t.row.band]
	return t.row.near[m] * t.row.near[n] * (in.r[f][g] + t.row.share*in.rise[f][g])
}

func resized(s []float64, n int) []float64 {
	if cap(s) < n {
		return make([]float64, n)
	}
	return s[:n]
}

// gains is what would be gained at most, after cost, were the height or one of the
// measurements left out: half the square of what it has beside what the others say
// of it. Those of the measurements are in the order of what is said.
func (t *together) gains(s *said) (height float64, each []float64) {
	k := len(t.fields)
	t.h, t.room, t.each = resized(t.h, k), resized(t.room, k), t.each[:0]
	for i, m := range t.fields {
		t.h[i] = t.row.rise[m] / t.row.rest[m]
	}
	forward(t.factor, k, t.h)
	said := 0.0 // how the others pull at the weight
	for i, u := range t.u {
		said += u * t.a[i]
	}
	pull := t.weight/(t.spread*t.spread) - said
	up, hh, ha := 0.0, 0.0, 0.0
	for i, u := range t.u {
		up, hh, ha = up+u*t.h[i], hh+t.h[i]*t.h[i], ha+t.a[i]*t.h[i]
	}
	if t.taken {
		up += t.rise * pull
		hh += t.rise*t.rise*t.precision - 2*t.rise*ha
	} else {
		hh -= ha * ha / t.precision
	}
	if hh > 0 {
		height = up * up / hh / 2
	}
	j := 0 // of the fields
	for i, m := range s.fields {
		switch f := &t.l.fields[m]; {
		case j < k && t.fields[j] == m:
			t.each = append(t.each, t.gain(j))
			j++
		case f.weight && t.taken:
			t.each = append(t.each, pull*pull/t.precision/2)
		case math.IsNaN(t.row.median[m]):
			t.each = append(t.each, 0)
		default:
			z := t.departure(m, s.logs[i])
			t.each = append(t.each, z*z/2)
		}
	}
	return height, t.each
}

// gain is that of one of the fields.
func (t *together) gain(j int) float64 {
	k := len(t.fields)
	clear(t.room)
	t.room[j] = 1
	forward(t.factor, k, t.room)
	own, precision, against := 0.0, 0.0, 0.0
	for i, x := range t.room {
		own, precision, against = own+x*t.u[i], precision+x*x, against+x*t.a[i]
	}
	if !t.taken {
		precision -= against * against / t.precision
	}
	return own * own / precision / 2
}

// suspicious reports whether anything of what is said could be doubted: whether
// another reading could be worth its price. It is much quicker than to look.
func (l *likeness) suspicious(s *said, t *together, logHeight float64) bool {
	age := l.costOfHeight(s, logHeight)
	t.begin(l, l.rowAt(logHeight), logHeight)
	far := 0.0
	for i, m := range s.fields {
		t.add(m, s.logs[i])
		if d := math.Abs(s.logs[i] - t.row.median[m]); d > far {
			far = d
		}
	}
	total := t.cost()
	price := float64(costOfSwap)
	if far > leastSlip {
		price = costOfSlip - commoner
	}
	if age+total+t.farthest*t.farthest < price {
		return false
	}
	if far > leastSlip && age+total > costOfWhole {
		return true
	}
	height, each := t.gains(s)
	return height+age > costOfSlip || len(each) > 0 && slices.Max(each) > price
}

// leastSlip is the least by which a slip of the unit or the point moves the
// logarithm of a value, less what children differ by.
const leastSlip = 0.4
