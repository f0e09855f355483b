package sizing

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"growtuck/data"
)

// Relations say how children's measurements go together. For each surveyed
// measurement, the departure of its logarithm from the survey's median at the
// child's height is taken to be normal, with spreads and correlations that
// differ by band of height.
type relations struct {
	run    *Run // the survey, by height
	names  []string
	index  map[string]int
	spread []spreads
	corr   []correlations
}

// spreads are those of one measurement, by band.
type spreads struct {
	bands []band
	sd    []float64
}

// correlations are those of all measurements in one band.
type correlations struct {
	band
	r [][]float64
}

// band is a range of heights in cm.
type band struct{ low, high float64 }

func (b band) middle() float64 { return (b.low + b.high) / 2 }

func newBand(row data.Relation) band {
	b := band{0, 250}
	if row.LowCm != nil {
		b.low = *row.LowCm
	}
	if row.HighCm != nil {
		b.high = *row.HighCm
	}
	return b
}

func (ref *Reference) buildRelations() error {
	ref.relations = make(map[Sex]*relations)
	for _, row := range ref.tables.Relations {
		fault := func(msg string) error { return &data.Error{File: "relations.csv", Line: row.Line, Msg: msg} }
		sex := Sex(row.Sex)
		rel := ref.relations[sex]
		if rel == nil {
			chart := ref.charts[surveyChart]
			if chart == nil {
				return fault("there is no chart measured for the medians")
			}
			run, ok := chart.Run(Height, sex)
			if !ok {
				return fault("chart measured has no run by height for sex " + row.Sex)
			}
			rel = &relations{run: run, index: make(map[string]int)}
			ref.relations[sex] = rel
		}
		if row.Statistic == "sd" {
			if row.A != row.B {
				return fault("a spread names one measurement twice, not " + row.A + " and " + row.B)
			}
			if err := rel.addSpread(row); err != nil {
				return fault(err.Error())
			}
			continue
		}
		i, okA := rel.index[row.A]
		j, okB := rel.index[row.B]
		if !okA || !okB || i == j {
			return fault(fmt.Sprintf("%s and %s need a spread each before their correlation", row.A, row.B))
		}
		rel.correlate(newBand(row), i, j, row.Value)
	}
	for sex, rel := range ref.relations {
		if err := rel.check(); err != nil {
			return &data.Error{File: "relations.csv", Msg: fmt.Sprintf("sex %s: %v", sex, err)}
		}
	}
	return nil
}

func (rel *relations) addSpread(row data.Relation) error {
	if row.Value <= 0 {
		return fmt.Errorf("spread %g of %s is not above nothing", row.Value, row.A)
	}
	i, ok := rel.index[row.A]
	if !ok {
		if rel.run.columns[row.A] == nil {
			return fmt.Errorf("chart measured has no %s", row.A)
		}
		i = len(rel.names)
		rel.index[row.A] = i
		rel.names = append(rel.names, row.A)
		rel.spread = append(rel.spread, spreads{})
	}
	s := &rel.spread[i]
	b := newBand(row)
	if n := len(s.bands); n > 0 && b.middle() <= s.bands[n-1].middle() {
		return fmt.Errorf("%s: the bands of height do not follow each other", row.A)
	}
	s.bands, s.sd = append(s.bands, b), append(s.sd, row.Value)
	return nil
}

func (rel *relations) correlate(b band, i, j int, r float64) {
	k := slices.IndexFunc(rel.corr, func(c correlations) bool { return c.band == b })
	if k < 0 {
		n := len(rel.names)
		c := correlations{b, make([][]float64, n)}
		for q := range c.r {
			c.r[q] = make([]float64, n)
			c.r[q][q] = 1
		}
		k = len(rel.corr)
		rel.corr = append(rel.corr, c)
	}
	if m := rel.corr[k].r; i < len(m) && j < len(m) {
		m[i][j], m[j][i] = r, r
	}
}

// check refuses correlations that no set of measurements could have.
func (rel *relations) check() error {
	n := len(rel.names)
	if len(rel.corr) == 0 {
		return fmt.Errorf("there are no correlations")
	}
	slices.SortFunc(rel.corr, func(a, b correlations) int { return cmp.Compare(a.middle(), b.middle()) })
	for _, c := range rel.corr {
		if len(c.r) != n {
			return fmt.Errorf("%d spreads and %d correlated measurements", n, len(c.r))
		}
		l := make([]float64, n*n)
		for i := range n {
			copy(l[i*n:], c.r[i])
		}
		if !cholesky(l, n) {
			return fmt.Errorf("the correlations are not positive definite")
		}
	}
	return nil
}

// sd is the spread of measurement i at a height. Between the middles of two
// bands it changes evenly, so that no step of height makes a jump.
func (rel *relations) sd(i int, height float64) float64 {
	s := &rel.spread[i]
	k := 0
	for k < len(s.bands) && height > s.bands[k].middle() {
		k++
	}
	switch k {
	case 0:
		return s.sd[0]
	case len(s.bands):
		return s.sd[k-1]
	}
	t := share(s.bands[k-1], s.bands[k], height)
	return s.sd[k-1] + t*(s.sd[k]-s.sd[k-1])
}

// correlation is that of measurements i and j at a height, changing between
// bands as spreads do.
func (rel *relations) correlation(i, j int, height float64) float64 {
	k := 0
	for k < len(rel.corr) && height > rel.corr[k].middle() {
		k++
	}
	switch k {
	case 0:
		return rel.corr[0].r[i][j]
	case len(rel.corr):
		return rel.corr[k-1].r[i][j]
	}
	t := share(rel.corr[k-1].band, rel.corr[k].band, height)
	a, b := rel.corr[k-1].r[i][j], rel.corr[k].r[i][j]
	return a + t*(b-a)
}

// share is how far a height lies from the middle of one band to that of the
// next.
func share(below, above band, height float64) float64 {
	return (height - below.middle()) / (above.middle() - below.middle())
}

// cholesky replaces the symmetric matrix a (n by n, by rows) with its lower
// triangular factor. It reports false if a is not positive definite.
func cholesky(a []float64, n int) bool {
	for i := range n {
		for j := range i + 1 {
			sum := a[i*n+j]
			for k := range j {
				sum -= a[i*n+k] * a[j*n+k]
			}
			if i != j {
				a[i*n+j] = sum / a[j*n+j]
				continue
			}
			if !(sum > 1e-12) {
				return false
			}
			a[i*n+i] = math.Sqrt(sum)
		}
	}
	return true
}

// forward solves L·x = b in place.
func forward(l []float64, n int, b []float64) {
	for i := range n {
		for k := range i {
			b[i] -= l[i*n+k] * b[k]
		}
		b[i] /= l[i*n+i]
	}
}
