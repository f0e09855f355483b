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
// differ by band of height. Children of today differ in their weight, and in how
// some girths go with it: see today.go.
type relations struct {
	run    *Run // the survey, by height
	names  []string
	index  map[string]int
	spread []banded // by measurement
	corr   []correlations
	alike  []correlations // the same, weight being known
	middle []float64      // of the bands of corr
	weight int            // among the names; -1 for none
	today  today
	// sources are the ids of those of its rows.
	sources []string
}

// banded is a figure by band of height.
type banded struct {
	middles []float64
	values  []float64
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
			rel = &relations{run: run, index: make(map[string]int), weight: -1}
			all[sex] = rel
		}
		if !slices.Contains(rel.sources, row.Source) {
			rel.sources = append(rel.sources, row.Source)
		}
		if row.Statistic != "r" {
			add := rel.addToday
			if row.Statistic == "sd" {
				add = rel.addSpread
			}
			if err := add(row); err != nil {
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
	if row.A != row.B {
		return fmt.Errorf("a spread names one measurement twice, not %s and %s", row.A, row.B)
	}
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
		rel.spread = append(rel.spread, banded{})
	}
	return rel.spread[i].add(row)
}

// add adds a band, above those before it.
func (b *banded) add(row data.Relation) error {
	middle := newBand(row).middle()
	if n := len(b.middles); n > 0 && middle <= b.middles[n-1] {
		return fmt.Errorf("%s: the bands of height do not follow each other", row.A)
	}
	b.middles, b.values = append(b.middles, middle), append(b.values, row.Value)
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
	return rel.settle()
}

// setRises sets what correlations gain from each band to the next.
func setRises(corr []correlations) {
	for k := range corr {
		next := corr[min(k+1, len(corr)-1)].r
		for i, r := range corr[k].r {
			rise := make([]float64, len(r))
			for j := range rise {
				rise[j] = next[i][j] - r[j]
			}
			corr[k].rise = append(corr[k].rise, rise)
		}
	}
}

// find returns the index of a measurement, or -1.
func (rel *relations) find(id string) int {
	if i, ok := rel.index[id]; ok {
		return i
	}
	return -1
}

// at is the figure at a height. Between the middles of two bands it changes
// evenly, so that no step of height makes a jump.
func (b *banded) at(height float64) float64 {
	k, share := bandAt(b.middles, height)
	return b.values[k] + share.start*(b.values[min(k+1, len(b.values)-1)]-b.values[k])
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
