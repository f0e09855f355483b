package sizing

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"growtuck/data"
)

// A rowReader reads relations.csv for one sex as plain rows: a figure at a height, straight
// between the middles of its bands.
type rowReader struct {
	t    testing.TB
	sex  Sex
	rows []data.Relation
	read map[[3]string]func(float64) float64
}

func (x rowReader) at(statistic, a, b string, height float64) (v float64, ok bool) {
	key := [3]string{statistic, a, b}
	if of, ok := x.read[key]; ok {
		if of == nil {
			return 0, false
		}
		return of(height), true
	}
	var middles, values []float64
	for _, r := range x.rows {
		if Sex(r.Sex) == x.sex && r.Statistic == statistic && (r.A == a && r.B == b || r.A == b && r.B == a) {
			middles, values = append(middles, (*r.LowCm+*r.HighCm)/2), append(values, r.Value)
		}
	}
	x.read[key] = nil
	if len(middles) > 0 {
		x.read[key] = straight(x.t, middles, values)
	}
	return x.at(statistic, a, b, height)
}

// alike is the correlation of two measurements in a band, weight being known: of the
// inverse of their correlations with it, by gonum.
func (x rowReader) alike(a, b string, middle float64) float64 {
	r := mat.NewSymDense(3, []float64{1, 0, 0, 0, 1, 0, 0, 0, 1})
	names := []string{a, b, "weight"}
	for i := range names {
		for k := range i {
			v, ok := x.at("r", names[i], names[k], middle)
			require.True(x.t, ok)
			r.SetSym(i, k, v)
		}
	}
	var inverse mat.Dense
	require.NoError(x.t, inverse.Inverse(r))
	return -inverse.At(0, 1) / math.Sqrt(inverse.At(0, 0)*inverse.At(1, 1))
}

// What the relations say at a height is what their rows say.
func TestRelationsAreTheirRows(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	tables, err := data.Load(data.Embedded(), "relations.csv")
	require.NoError(t, err)
	rng := rand.New(rand.NewPCG(8, 1))
	for _, sex := range sexes {
		f, err := ref.fitted(sex)
		require.NoError(t, err)
		x, rel := rowReader{t, sex, tables.Relations, map[[3]string]func(float64) float64{}}, f.relations[sex]
		require.Equal(t, "weight", rel.names[rel.weight])
		for range 25 {
			h := 84 + 100*rng.Float64()
			kg, _ := x.at("sd", "weight", "weight", h)
			for v, name := range rel.names {
				sd, ok := x.at("sd", name, name, h)
				require.True(t, ok)
				require.InDelta(t, sd, rel.spread[v].at(h), 1e-12)
				slope, rest, shift := 1.0, 0.0, 0.0
				if name != "weight" {
					r, _ := x.at("r", name, "weight", h)
					slope, rest = r*sd/kg, sd*math.Sqrt(1-r*r)
					if today, ok := x.at("slope", name, "weight", h); ok {
						slope = today
						rest, _ = x.at("rest", name, "weight", h)
						shift, _ = x.at("shift", name, "weight", h)
					}
				}
				require.InDeltaSlice(t, []float64{slope, rest, shift}, []float64{rel.slopeAt(v, h), rel.restAt(v, h), rel.shiftAt(v, h)}, 1e-12, name)
			}
			low, high := rel.weightAt(h)
			wantLow, _ := x.at("low", "weight", "weight", h)
			wantHigh, _ := x.at("high", "weight", "weight", h)
			require.InDeltaSlice(t, []float64{wantLow, wantHigh}, []float64{low, high}, 1e-12)
		}
		for k, middle := range rel.middle {
			next := min(k+1, len(rel.middle)-1)
			for i, a := range rel.names {
				for j, b := range rel.names {
					want, rise := 1.0, 0.0
					switch {
					case i == j:
					case i == rel.weight || j == rel.weight:
						want = 0
					default:
						want = x.alike(a, b, middle)
						rise = x.alike(a, b, rel.middle[next]) - want
					}
					require.InDelta(t, want, rel.alike[k].r[i][j], 1e-12, "%s %s", a, b)
					require.InDelta(t, rise, rel.alike[k].rise[i][j], 1e-12, "%s %s", a, b)
				}
			}
		}
	}
}

// Over a stretch nothing goes from one piece to the next: at every height its medians are
// the curves' and its spreads lie straight between what they are at its ends.
func TestStretchesHoldWhatTheirPartsDo(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	rng := rand.New(rand.NewPCG(9, 1))
	for _, sex := range sexes {
		b, err := ref.bases[sex]()
		require.NoError(t, err)
		var a heightPoint
		for range 30 {
			h := b.low - 3 + rng.Float64()*(b.high-b.low+6)
			a.moveTo(b, h)
			i := slices.IndexFunc(b.stretches, func(s stretch) bool { return s.from > h })
			if i < 0 {
				i = len(b.stretches)
			}
			require.Same(t, &b.stretches[i-1], a.stretch)
			from, to := a.stretch.from, a.stretch.from+1
			if i < len(b.stretches) {
				to = b.stretches[i].from
			}
			require.InDelta(t, h-from, a.past, 1e-12)
			for m := range b.methods {
				want := math.NaN()
				if c := b.methods[m].Curve; c != nil {
					want = c.At(h)
				}
				if math.IsNaN(want) {
					require.True(t, math.IsNaN(a.median(m)))
					continue
				}
				require.InDelta(t, want, a.median(m), 1e-12)
				require.InDelta(t, math.Log(want), a.logMedian(m), 1e-12)
			}
			even := func(at func(float64) float64) float64 { // straight over the stretch
				return at(from) + (h-from)/(to-from)*(at(to)-at(from))
			}
			if i == len(b.stretches) {
				even = func(at func(float64) float64) float64 { return at(from) }
			}
			for v := range b.rel.names {
				for _, of := range []struct {
					at  func(int, float64) float64
					got float64
				}{{func(v int, h float64) float64 { return b.rel.spread[v].at(h) }, a.sd(v)}, {b.rel.slopeAt, a.slope(v)}, {b.rel.restAt, a.rest(v)}, {b.rel.shiftAt, a.shift(v)}} {
					require.InDelta(t, even(func(h float64) float64 { return of.at(v, h) }), of.got, 1e-12)
				}
				r, rise := a.correlations(b.rel, v)
				for w := range b.rel.names {
					var of []float64
					for k := range b.rel.alike {
						of = append(of, b.rel.alike[k].r[v][w])
					}
					require.InDelta(t, straight(t, b.rel.middle, of)(h), r[w]+a.share*rise[w], 1e-9)
				}
			}
			for k, got := range []line{a.low, a.high} {
				require.InDelta(t, even(func(h float64) float64 {
					low, high := b.rel.weightAt(h)
					return []float64{low, high}[k]
				}), got.at(a.past), 1e-12)
			}
		}
	}
}

// A gaussian is the weight, every measurement of the relations and each of the evidence
// but weight, in this order, as one normal distribution: what weight moves of each, and
// what it leaves.
type gaussian struct {
	slope []float64
	rest  *mat.SymDense
	k, n  int
}

func newGaussian(c *conditional, a *heightPoint) gaussian {
	k, n := len(c.others), len(c.basis.rel.names)
	g := gaussian{slope: make([]float64, 1+n+k), rest: mat.NewSymDense(1+n+k, nil), k: k, n: n}
	g.slope[0] = 1
	type part struct{ v, m int }
	parts := []part{}
	for v := range n {
		parts = append(parts, part{v, -1})
	}
	for _, m := range c.others {
		parts = append(parts, part{c.basis.methods[m].v, m})
	}
	like := func(p part) float64 { // its correlation with what it stands for
		if p.m < 0 {
			return 1
		}
		return c.basis.methods[p.m].closeness
	}
	for i, p := range parts {
		g.slope[1+i] = like(p) * a.slope(p.v)
		r, rise := a.correlations(c.basis.rel, p.v)
		for j, q := range parts[:i+1] {
			v := like(p) * like(q) * (r[q.v] + a.share*rise[q.v]) * a.rest(p.v) * a.rest(q.v)
			if i == j && p.m >= 0 {
				d := c.basis.methods[p.m]
				v += (1-d.closeness*d.closeness)*a.sd(p.v)*a.sd(p.v) + d.tape*d.tape
			}
			g.rest.SetSym(1+i, 1+j, v)
		}
	}
	return g
}

// cov is the covariance where the weight has a variance.
func (g gaussian) cov(weight float64) *mat.SymDense {
	var all mat.SymDense
	all.SymRankOne(g.rest, weight, mat.NewVecDense(len(g.slope), g.slope))
	return &all
}

// given conditions on some of the variables: what they are away from what is expected
// moves all, and their covariance is what is left.
func given(t testing.TB, cov *mat.SymDense, of []int, away []float64) (mean []float64, left *mat.Dense) {
	n := cov.SymmetricDim()
	mean, left = make([]float64, n), mat.DenseCopyOf(cov)
	if len(of) == 0 {
		return mean, left
	}
	known, with := mat.NewSymDense(len(of), nil), mat.NewDense(n, len(of), nil)
	for i, a := range of {
		for k, b := range of {
			known.SetSym(i, k, cov.At(a, b))
		}
		for j := range n {
			with.Set(j, i, cov.At(j, a))
		}
	}
	var chol mat.Cholesky
	require.True(t, chol.Factorize(known))
	var x mat.VecDense
	require.NoError(t, chol.SolveVecTo(&x, mat.NewVecDense(len(of), away)))
	var moved mat.VecDense
	moved.MulVec(with, &x)
	var solved, taken mat.Dense
	require.NoError(t, chol.SolveTo(&solved, with.T()))
	taken.Mul(with, &solved)
	left.Sub(left, &taken)
	return moved.RawVector().Data, left
}

// drawEvidence draws what was taken of a child at a height, and its departures.
func drawEvidence(b *basis, rng *rand.Rand, most int) (c *conditional, a heightPoint, logs []float64) {
	a.moveTo(b, 94+rng.Float64()*70)
	var evidence []int
	moved := make(map[int]bool)
	for _, i := range rng.Perm(len(b.evidence)) {
		m := b.evidence[i]
		if d := b.methods[m]; len(evidence) < most && !moved[d.v] && d.covers(a.height) {
			moved[d.v] = true
			evidence = append(evidence, m)
		}
	}
	slices.SortStableFunc(evidence, func(i, j int) int { return b.rank(i) - b.rank(j) })
	var need []int
	for v := range b.rel.names {
		need = append(need, v)
	}
	c = newConditional(b, evidence, need)
	c.moveTo(&c.own, &a)
	c.weigh(&c.own)
	build := 0.2 * rng.NormFloat64()
	for _, m := range evidence {
		d := b.methods[m]
		logs = append(logs, a.logMedian(m)+d.closeness*a.slope(d.v)*build+0.05*rng.NormFloat64())
	}
	return c, a, logs
}

// What is expected of a child, and how surely, is what gonum makes of the whole normal
// distribution, conditioned on what was taken: the weight with the spread of the side that
// it lies on, what only the trade's chart has with a part of its own, a tape to the crotch
// with its own too.
func TestExpectationsAreGonums(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	rng := rand.New(rand.NewPCG(10, 1))
	sides := make(map[bool]int)
	for range 120 {
		b, err := ref.bases[sexes[rng.IntN(3)]]()
		require.NoError(t, err)
		c, a, logs := drawEvidence(b, rng, rng.IntN(7))
		l, all := &c.own, newGaussian(c, &a)
		require.True(t, c.sound)
		low, high := a.low.at(a.past), a.high.at(a.past)
		var of, others []int
		for j := range c.others {
			others = append(others, 1+all.n+j)
		}
		// The share of the build that is known is that of its variance which the others take.
		middling := (low + high) / 2 * (low + high) / 2
		_, left := given(t, all.cov(middling), others, make([]float64, len(others)))
		known := 1 - left.At(0, 0)/middling
		if c.weighed {
			known, of = 1, []int{0}
		}
		require.InDelta(t, known, l.known, 1e-9)
		of = append(of, others...)
		var away []float64
		for i, m := range c.evidence {
			d, usual := b.methods[m], a.logMedian(m)
			if i > 0 || !c.weighed {
				usual += known * d.closeness * a.shift(d.v)
			}
			away = append(away, logs[i]-usual)
		}
		mean := make([]float64, all.n)
		g := guess{level: l, mean: mean}
		g.build = c.expect(l, logs, make([]float64, len(c.others)), mean)
		spread := low
		expected, _ := given(t, all.cov(low*low), of, away)
		if heavy, _ := given(t, all.cov(high*high), of, away); heavy[0] > 0 {
			expected, spread = heavy, high
		}
		sides[spread == high]++
		_, below := given(t, all.cov(low*low), of, away)
		_, above := given(t, all.cov(high*high), of, away)
		if !c.weighed {
			require.InDelta(t, expected[0], g.build.mean, 1e-9)
			// The weight of one who is surely on a side spreads as on that side.
			sure := math.Min(1, math.Abs(expected[0])/1.2815515655/math.Sqrt(map[bool]*mat.Dense{true: above, false: below}[spread == high].At(0, 0)))
			wantLow, wantHigh := below.At(0, 0), above.At(0, 0)
			if spread == high {
				wantLow += sure * (above.At(0, 0) - below.At(0, 0))
			} else {
				wantHigh += sure * (below.At(0, 0) - above.At(0, 0))
			}
			require.InDeltaSlice(t, []float64{wantLow, wantHigh}, []float64{g.build.low, g.build.high}, 1e-9)
		}
		_, exact := given(t, all.cov(1), append([]int{0}, others...), make([]float64, 1+len(others))) // given the weight too
		for v := range all.n {
			require.InDelta(t, known*a.shift(v)+expected[1+v], mean[v], 1e-9)
			for w := range all.n {
				gotLow, gotHigh := c.covariance(&g, v, w)
				leaves := exact.At(1+v, 1+w)
				if c.weighed {
					require.InDeltaSlice(t, []float64{leaves, leaves}, []float64{gotLow, gotHigh}, 1e-9)
					continue
				}
				byWeight := (below.At(1+v, 1+w) - leaves) / below.At(0, 0)
				require.InDelta(t, leaves+byWeight*g.build.low, gotLow, 1e-9)
				require.InDelta(t, leaves+byWeight*g.build.high, gotHigh, 1e-9)
			}
		}
	}
	require.Greater(t, min(sides[true], sides[false]), 30)
}

// The one that the others contradict most is that which lies furthest from what they say
// of it, in spreads of what they leave open: by gonum, each held against all others.
func TestOddIsTheFurthestFromTheOthers(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	rng := rand.New(rand.NewPCG(11, 1))
	counts := make(map[string]int)
	for range 400 {
		b, err := ref.bases[sexes[rng.IntN(3)]]()
		require.NoError(t, err)
		c, a, logs := drawEvidence(b, rng, 1+rng.IntN(6))
		if len(logs) == 0 {
			continue
		}
		slip := rng.IntN(len(logs))
		logs[slip] += 0.25 * rng.NormFloat64()
		wide := []float64{1, anyBuild}[rng.IntN(2)]
		k := len(c.others)
		got, change := c.odd(&c.own, wide, logs, make([]float64, k), make([]float64, k))

		all, high := newGaussian(c, &a), wide*a.high.at(a.past)
		cov := all.cov(high * high)
		var of []int
		if c.weighed {
			of = []int{0}
		}
		for j := range k {
			of = append(of, 1+all.n+j)
		}
		var away []float64
		for i, m := range c.evidence {
			usual := a.logMedian(m)
			if i > 0 || !c.weighed {
				usual += c.own.known * b.methods[m].closeness * a.shift(b.methods[m].v)
			}
			away = append(away, logs[i]-usual)
		}
		total, worst, far, want := 0.0, -1, 4+1e-9, 0.0
		for i := range of { // what all are off by together: each beside those before it
			mean, left := given(t, cov, of[:i], away[:i])
			total += (away[i] - mean[of[i]]) * (away[i] - mean[of[i]]) / left.At(of[i], of[i])
			rest, off := slices.Delete(slices.Clone(of), i, i+1), slices.Delete(slices.Clone(away), i, i+1)
			mean, left = given(t, cov, rest, off)
			by, spread := away[i]-mean[of[i]], math.Sqrt(left.At(of[i], of[i]))
			if math.Abs(by)/spread > far {
				worst, far, want = i, math.Abs(by)/spread, -by
				if far <= 6 { // it counts as if it were four spreads off
					want = -by + math.Copysign(4*spread, by)
				}
			}
		}
		if total <= 16 {
			worst, want = -1, 0
		}
		require.Equal(t, worst, got)
		require.InDelta(t, want, change, 1e-8)
		switch {
		case worst < 0:
			counts["none"]++
		case far > 6:
			counts["not at all"]++
		default:
			counts["as four"]++
		}
	}
	require.Greater(t, min(counts["none"], counts["not at all"], counts["as four"]), 20, "%v", counts)
}
