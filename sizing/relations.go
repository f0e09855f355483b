package sizing

import (
	"fmt"
	"math"
	"slices"

	"growtuck/data"
)

// Relations say how children's measurements go together. For each surveyed
// measurement, the departure of its logarithm from the survey's median at the
// child's height is taken to be normal, with a spread that may differ by band
// of height and with correlations that do not.
type relations struct {
	run    *Run // the survey, by height
	names  []string
	index  map[string]int
	spread [][]band
	corr   [][]float64
}

type band struct{ low, high, sd float64 }

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
		rel.correlate(i, j, row.Value)
	}
	for sex, rel := range ref.relations {
		if err := rel.check(); err != nil {
			return &data.Error{File: "relations.csv", Msg: fmt.Sprintf("sex %s: %v", sex, err)}
		}
	}
	return nil
}

func (rel *relations) addSpread(row data.Relation) error {
	b := band{0, math.Inf(1), row.Value}
	if row.LowCm != nil {
		b.low = *row.LowCm
	}
	if row.HighCm != nil {
		b.high = *row.HighCm
	}
	if b.sd <= 0 {
		return fmt.Errorf("spread %g of %s is not above nothing", b.sd, row.A)
	}
	i, ok := rel.index[row.A]
	if !ok {
		if rel.run.columns[row.A] == nil {
			return fmt.Errorf("chart measured has no %s", row.A)
		}
		i = len(rel.names)
		rel.index[row.A] = i
		rel.names = append(rel.names, row.A)
		rel.spread = append(rel.spread, nil)
	}
	rel.spread[i] = append(rel.spread[i], b)
	return nil
}

func (rel *relations) correlate(i, j int, r float64) {
	if rel.corr == nil {
		n := len(rel.names)
		rel.corr = make([][]float64, n)
		for k := range rel.corr {
			rel.corr[k] = make([]float64, n)
			rel.corr[k][k] = 1
		}
	}
	if i < len(rel.corr) && j < len(rel.corr) {
		rel.corr[i][j], rel.corr[j][i] = r, r
	}
}

// check refuses correlations that no set of measurements could have.
func (rel *relations) check() error {
	n := len(rel.names)
	if len(rel.corr) != n {
		return fmt.Errorf("%d spreads and %d correlated measurements", n, len(rel.corr))
	}
	l := make([]float64, n*n)
	for i := range n {
		copy(l[i*n:], rel.corr[i])
	}
	if !cholesky(l, n) {
		return fmt.Errorf("the correlations are not positive definite")
	}
	return nil
}

// sd is the spread of measurement i at a height. Between the middles of two
// bands it changes evenly, so that no step of height makes a jump.
func (rel *relations) sd(i int, height float64) float64 {
	bands := rel.spread[i]
	k := slices.IndexFunc(bands, func(b band) bool { return height < b.high })
	switch {
	case len(bands) == 1 || k == 0 && height <= bands[0].middle():
		return bands[0].sd
	case k < 0 || k == len(bands)-1 && height >= bands[k].middle():
		return bands[len(bands)-1].sd
	case height < bands[k].middle():
		k--
	}
	a, b := bands[k], bands[k+1]
	t := (height - a.middle()) / (b.middle() - a.middle())
	return a.sd + t*(b.sd-a.sd)
}

func (b band) middle() float64 { return (b.low + b.high) / 2 }

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
