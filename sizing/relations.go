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
	middle []float64 // of the bands of corr
}

// spreads are those of one measurement, by band.
type spreads struct {
	middles []float64
	sd      []float64
}

// correlations are those of all measurements in one band.
type correlations struct {
	band
	r    [][]float64
	rise [][]float64 // of r, to the next band
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

func (ref *Reference) newRelations(t *data.Tables) (map[Sex]*relations, error) {
	all := make(map[Sex]*relations)
	for _, row := range t.Relations {
		fault := func(msg string) (map[Sex]*relations, error) {
			return nil, &data.Error{File: "relations.csv", Line: row.Line, Msg: msg}
		}
		sex := Sex(row.Sex)
		rel := all[sex]
		if rel == nil {
			chart := ref.charts[surveyChart]
			if chart == nil {
				return fault("no chart measured for the medians")
			}
			run, ok := chart.Run(Height, sex)
			if !ok {
				return fault("chart measured has no run by height for sex " + row.Sex)
			}
			rel = &relations{run: run, index: make(map[string]int)}
			all[sex] = rel
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
	for sex, rel := range all {
		if err := rel.check(); err != nil {
			return nil, &data.Error{File: "relations.csv", Msg: fmt.Sprintf("sex %s: %v", sex, err)}
		}
	}
	return all, nil
}

func (rel *relations) addSpread(row data.Relation) error {
	if row.Value <= 0 {
		return fmt.Errorf("spread %g of %s must be greater than 0", row.Value, row.A)
	}
	i, ok := rel.index[row.A]
	if !ok {
		if rel.run.column(row.A) == nil {
			return fmt.Errorf("chart measured has no %s", row.A)
		}
		i = len(rel.names)
		rel.index[row.A] = i
		rel.names = append(rel.names, row.A)
		rel.spread = append(rel.spread, spreads{})
	}
	s := &rel.spread[i]
	middle := newBand(row).middle()
	if n := len(s.middles); n > 0 && middle <= s.middles[n-1] {
		return fmt.Errorf("%s: the bands of height do not follow each other", row.A)
	}
	s.middles, s.sd = append(s.middles, middle), append(s.sd, row.Value)
	return nil
}

func (rel *relations) correlate(b band, i, j int, r float64) {
	k := slices.IndexFunc(rel.corr, func(c correlations) bool { return c.band == b })
	if k < 0 {
		n := len(rel.names)
		c := correlations{band: b, r: make([][]float64, n)}
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

// check refuses correlations that are not those of any set of measurements.
func (rel *relations) check() error {
	n := len(rel.names)
	if len(rel.corr) == 0 {
		return fmt.Errorf("no correlations")
	}
	slices.SortFunc(rel.corr, func(a, b correlations) int { return cmp.Compare(a.middle(), b.middle()) })
	for _, c := range rel.corr {
		rel.middle = append(rel.middle, c.middle())
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
	for k := range rel.corr {
		next := rel.corr[min(k+1, len(rel.corr)-1)].r
		for i, r := range rel.corr[k].r {
			rise := make([]float64, n)
			for j := range rise {
				rise[j] = next[i][j] - r[j]
			}
			rel.corr[k].rise = append(rel.corr[k].rise, rise)
		}
	}
	return nil
}

// find returns the index of a measurement, or -1.
func (rel *relations) find(id string) int {
	if i, ok := rel.index[id]; ok {
		return i
	}
	return -1
}

// from is the spread from a height up to the next middle of a band. Between the
// middles of two bands it changes evenly, so that no step of height makes a
// jump.
func (s *spreads) from(height float64) line {
	k, share := bandAt(s.middles, height)
	rise := s.sd[min(k+1, len(s.sd)-1)] - s.sd[k]
	return line{s.sd[k] + share.start*rise, share.slope * rise}
}

// bandAt says how far a height lies from the middle of band k to that of the
// next: a share, and how it grows with height. It is 0 outside all the middles.
func bandAt(middles []float64, height float64) (k int, share line) {
	last := len(middles) - 1
	switch {
	case height < middles[0]:
		return 0, line{}
	case !(height < middles[last]):
		return last, line{}
	}
	for height >= middles[k+1] {
		k++
	}
	wide := middles[k+1] - middles[k]
	return k, line{(height - middles[k]) / wide, 1 / wide}
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
