package validate

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"growtuck/data"
	"growtuck/sizing"
)

// heightFigures are the figures of a height for age, and how far each may be from what
// the ages beside it lead one to expect: the published curves bend by at most three
// quarters of that.
var heightFigures = []struct {
	column string
	of     func(data.HeightForAge) float64
	most   float64
	share  bool // of the figure
}{
	{"power", func(h data.HeightForAge) float64 { return h.Power }, 0.28, false},
	{"median_cm", func(h data.HeightForAge) float64 { return h.Median }, 0.013, true},
	{"spread", func(h data.HeightForAge) float64 { return h.Spread }, 0.038, true},
}

// endFactor is how much further off the first and the last age may be.
const endFactor = 3

// checkHeights checks that how heights are spread goes smoothly with age.
func (ts *tableSet) checkHeights() {
	series := make(map[[2]string][]data.HeightForAge)
	for _, h := range ts.t.Heights {
		k := [2]string{h.Sex, h.Posture}
		series[k] = append(series[k], h)
	}
	for _, rows := range series {
		slices.SortStableFunc(rows, func(a, b data.HeightForAge) int { return cmp.Compare(a.Months, b.Months) })
		for _, figure := range heightFigures {
			excess, expected := make([]float64, len(rows)), make([]float64, len(rows))
			for i := range rows {
				j, k, most := i-1, i+1, figure.most
				if j < 0 {
					j, k, most = i+1, i+2, endFactor*most
				} else if k == len(rows) {
					j, k, most = i-1, i-2, endFactor*most
				}
				if min(j, k) < 0 || max(j, k) >= len(rows) || rows[j].Months == rows[k].Months {
					continue
				}
				a, b := figure.of(rows[j]), figure.of(rows[k])
				expected[i] = a + (b-a)*(rows[i].Months-rows[j].Months)/(rows[k].Months-rows[j].Months)
				if figure.share {
					most *= math.Abs(expected[i])
				}
				excess[i] = math.Abs(figure.of(rows[i])-expected[i]) / most
			}
			for i, r := range rows {
				if standsOut(excess, i) {
					at := rowAt{ts: ts, rule: "R45", table: data.HeightsFile, line: r.Line, subject: fmt.Sprintf("%s %g %s", r.Sex, r.Months, r.Posture)}
					at.suspect(figure.column, sizing.NewFact("rows.value", figure.of(r)), sizing.NewFact("rows.near-ages", expected[i]))
				}
			}
		}
	}
}
