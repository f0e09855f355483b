package sizing

import (
	"cmp"
	"slices"

	"growtuck/data"
)

// growthTables are what growth is worked out from.
type growthTables struct {
	charts map[Sex]*heightChart
	keeps  []data.Growth
}

func newGrowthTables(heights []data.HeightForAge, keeps []data.Growth) (*growthTables, error) {
	charts, err := newHeightCharts(heights)
	if err != nil {
		return nil, err
	}
	if len(keeps) < 2 || !slices.IsSortedFunc(keeps, func(a, b data.Growth) int { return cmp.Compare(a.Years, b.Years) }) {
		return nil, &data.Error{File: data.GrowthFile, Msg: "wants two rows or more, with rising ages"}
	}
	return &growthTables{charts, keeps}, nil
}

// keep reads how surely a place is kept from an age on.
func (t *growthTables) keep(years float64) (draw, pace, unsure, drift float64) {
	i := 1
	for i < len(t.keeps)-1 && t.keeps[i].Years < years {
		i++
	}
	a, b := t.keeps[i-1], t.keeps[i]
	s := min(max((years-a.Years)/(b.Years-a.Years), 0), 1)
	of := func(x, y float64) float64 { return (x + s*(y-x)) / 100 }
	return of(a.Draw, b.Draw), of(a.Pace, b.Pace), of(a.Unsure, b.Unsure), of(a.Drift, b.Drift)
}
