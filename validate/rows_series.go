package validate

import (
	"cmp"
	"math"
	"slices"

	"growtuck/sizing"
)

// A bodySeries is one measurement along the sizes of a chart: the records of
// one sex, statistic and unit, in order of size.
type bodySeries struct {
	key  bodyKey // of size 0
	rows []int32
}

// series gathers the records by series, in the order of size.
func (s *bodySet) series(places []sizePlace) ([]bodySeries, map[bodyKey]int32) {
	byKey := make(map[bodyKey]int32)
	var list []bodySeries
	of := make([]int32, len(s.records)) // record → series
	var counts []int
	for i := range s.records {
		k := s.records[i].key.withSize(0)
		z, ok := byKey[k]
		if !ok {
			z = int32(len(list))
			byKey[k] = z
			list, counts = append(list, bodySeries{key: k}), append(counts, 0)
		}
		of[i] = z
		counts[z]++
	}
	rows := make([]int32, 0, len(s.records))
	for z, n := range counts {
		list[z].rows = rows[len(rows) : len(rows) : len(rows)+n]
		rows = rows[:len(rows)+n]
	}
	for i, z := range of {
		list[z].rows = append(list[z].rows, int32(i))
	}
	order := func(a, b int32) int {
		p, q := places[s.records[a].key.size()], places[s.records[b].key.size()]
		return cmp.Or(cmp.Compare(p.scale, q.scale), cmp.Compare(p.rank, q.rank))
	}
	for _, z := range list {
		if !slices.IsSortedFunc(z.rows, order) {
			slices.SortStableFunc(z.rows, order)
		}
	}
	return list, byKey
}

// Falls and steps that are no surprise. Percentiles of a few dozen children
// wobble; a chart's single figures do not.
const (
	fallOfPercentile = 0.035
	stepInside       = 0.05
	stepAtEnd        = 0.15
	stepSmall        = 0.5 // cm or kg, beside the share
	tailFactor       = 2.0 // for p10 and p90, and what is further out
	spreadFactor     = 10  // for standard deviations
)

// checkGrowth checks that each size is larger than the one before. Years of
// age follow on months.
func (s *bodySet) checkGrowth(z bodySeries, places []sizePlace) {
	percentile := z.key.statistic() > inHigh
	if z.key.statistic() == inSD {
		return
	}
	for i := 1; i < len(z.rows); i++ {
		a, b := &s.records[z.rows[i-1]], &s.records[z.rows[i]]
		pa, pb := places[a.key.size()], places[b.key.size()]
		if pa.scale != pb.scale && pb.scale > 1 {
			continue
		}
		fall := a.value - b.value
		same := pa.scale != pb.scale && pa.position == 12*pb.position // 24 months and 2 years
		switch {
		case percentile && fall <= fallOfPercentile*a.value:
			continue
		case fall < 0, fall == 0 && (same || z.key.statistic() != inGiven):
			continue
		}
		s.doubt(doubt{"R20", Warn, b, []*bodyRecord{a}, fall / s.stepAllowed(a.value, z.key)}, func(f *Finding) {
			f.Found = b.fact()
			f.Expected = sizing.NewFact("rows.more-than-size", a.amount(), s.t.Sizes[a.key.size()].Size)
			f.By, f.Fix = sizing.NewFact("rows.less", b.amountOf(fall)), noteFix("R20")
			if fall == 0 {
				f.By = sizing.NewFact("rows.same")
			}
		})
	}
}

// stepAllowed is how much a value may differ from what its neighbours lead one to
// expect; a fall of twice as much is not explained.
func (s *bodySet) stepAllowed(value float64, k bodyKey) float64 {
	return stepInside*value + smallIn(k.unit())
}

// smallIn is stepSmall in a unit.
func smallIn(unit int) float64 {
	return stepSmall / ownUnits[unit]
}

// checkStep compares each value with what the sizes beside it lead one to
// expect: the straight line between them, or through the next two at an end.
func (s *bodySet) checkStep(z bodySeries, places []sizePlace) {
	n := len(z.rows)
	s.excess, s.expected = append(s.excess[:0], make([]float64, n)...), append(s.expected[:0], make([]float64, n)...)
	excess, expected := s.excess, s.expected
	at := func(i int) (sizePlace, *bodyRecord) {
		b := &s.records[z.rows[i]]
		return places[b.key.size()], b
	}
	for i := range n {
		p, b := at(i)
		j, k, share := i-1, i+1, stepInside
		inside := i > 0 && i < n-1
		if inside {
			pj, _ := at(j)
			pk, _ := at(k)
			inside = pj.scale == p.scale && pk.scale == p.scale
		}
		if !inside { // at the end of its scale
			share = stepAtEnd
			j, k = i+1, i+2
			if j < n {
				if pj, _ := at(j); pj.scale != p.scale {
					j = n
				}
			}
			if j >= n {
				j, k = i-1, i-2
			}
			if min(j, k) < 0 || max(j, k) >= n {
				continue
			}
		}
		pj, bj := at(j)
		pk, bk := at(k)
		if p.scale == onBand || pj.scale != p.scale || pk.scale != p.scale || pj.position == pk.position {
			continue
		}
		switch t := z.key.statistic(); {
		case t == inSD:
			share *= spreadFactor
		case t >= inP3 && t <= inP10 || t >= inP90:
			share *= tailFactor
		}
		expected[i] = bj.value + (bk.value-bj.value)*(p.position-pj.position)/(pk.position-pj.position)
		excess[i] = math.Abs(b.value-expected[i]) / (share*math.Abs(expected[i]) + smallIn(z.key.unit()))
	}
	for i := range n {
		if !standsOut(excess, i) {
			continue
		}
		_, b := at(i)
		var beside []*bodyRecord
		for _, j := range []int{i - 1, i + 1} {
			if j >= 0 && j < n {
				_, o := at(j)
				beside = append(beside, o)
			}
		}
		s.doubt(doubt{"R21", Warn, b, beside, excess[i]}, func(f *Finding) {
			f.Found = b.fact()
			f.Expected = sizing.NewFact("rows.about", expected[i], s.listed(beside))
			f.By, f.Fix = sizing.NewFact("rows.more-or-less", b.value-expected[i]), sizing.NewFact("rows.read-again", "R21")
		})
	}
}

// standsOut picks the value to report. A wrong one puts those beside it in
// doubt too: it is the one with the largest excess, or the end of the series,
// which is held to less, if the doubt goes no further than the value next to it.
func standsOut(excess []float64, i int) bool {
	of := func(j int) float64 {
		if j < 0 || j >= len(excess) {
			return 0
		}
		return excess[j]
	}
	last := len(excess) - 1
	switch {
	case excess[i] <= 1:
		return false
	case i == 0:
		return of(2) <= 1 || excess[0] >= of(1)
	case i == last:
		return of(last-2) <= 1 || excess[last] >= of(last-1)
	case i == 1 && of(0) > 1 && of(2) <= 1, i == last-1 && of(last) > 1 && of(last-2) <= 1:
		return false
	}
	return excess[i] >= of(i-1) && excess[i] >= of(i+1)
}

// listed names the sizes of records with their values.
func (s *bodySet) listed(records []*bodyRecord) []sizing.Fact {
	var list []sizing.Fact
	for _, b := range records {
		list = append(list, sizing.NewFact("rows.size-with", s.t.Sizes[b.key.size()].Size, b.amount()))
	}
	return list
}

// checkGaps reports sizes that a series leaves out.
func (s *bodySet) checkGaps(z bodySeries, places []sizePlace) {
	for i := 1; i < len(z.rows); i++ {
		a, b := &s.records[z.rows[i-1]], &s.records[z.rows[i]]
		pa, pb := places[a.key.size()], places[b.key.size()]
		if pa.scale != pb.scale || pb.rank-pa.rank <= 1 {
			continue
		}
		s.doubt(doubt{rule: "R24", severity: Warn, about: b, others: []*bodyRecord{a}}, func(f *Finding) {
			f.Found = sizing.NewFact("rows.gap", bodyUnits[b.key.unit()], s.t.Sizes[a.key.size()].Size, s.t.Sizes[b.key.size()].Size)
			f.Expected = sizing.NewFact("rows.sizes-between", pb.rank-pa.rank-1)
		})
	}
}
