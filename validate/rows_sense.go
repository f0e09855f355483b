package validate

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
)

// A bodySeries is one measurement along the sizes of a chart: the records of
// one sex, statistic and unit, in order of size.
type bodySeries struct {
	key  bodyKey // of size 0
	rows []int32
}

// A sizePlace is where a size stands.
type sizePlace struct {
	scale    int     // months, years, height, band
	position float64 // on its scale; its rank for a band
	rank     int     // among the sizes of its chart and scale
}

var sizeScales = []string{"months", "years", "height", "band"}

const onBand = 3

// placeSizes finds where every size stands.
func (s *bodySet) placeSizes() []sizePlace {
	places := make([]sizePlace, len(s.t.Sizes))
	type run struct{ chart, scale string }
	members := make(map[run][]int)
	for i, z := range s.t.Sizes {
		places[i].scale = slices.Index(sizeScales, z.Scale)
		if z.Position != nil {
			places[i].position = *z.Position
		}
		members[run{z.Chart, z.Scale}] = append(members[run{z.Chart, z.Scale}], i)
	}
	for r, of := range members {
		if r.scale != "band" {
			slices.SortStableFunc(of, func(a, b int) int { return cmp.Compare(places[a].position, places[b].position) })
		}
		for rank, i := range of {
			places[i].rank = rank
		}
	}
	return places
}

// checkSense runs the rules of sense over all records.
func (s *bodySet) checkSense() {
	places := s.placeSizes()
	list, byKey := s.series(places)
	for _, z := range list {
		s.checkGrowth(z, places)
		s.checkStep(z, places)
		s.checkGaps(z, places)
	}
	heights := s.labelHeights(places)
	pairs := s.relatedPairs()
	ratios := s.ratioBands()
	inches := make(map[int]bool) // charts that have any
	for i := range s.records {
		if k := s.records[i].key; k.unit() == inInch {
			inches[k.chart()] = true
		}
	}
	for i := range s.records {
		b := &s.records[i]
		if inches[b.key.chart()] {
			s.checkCopies(i, b)
			s.checkUnits(b, byKey)
		}
		s.checkRange(i, b)
		s.checkTogether(i, b)
		s.checkRelated(b, pairs)
		s.checkArm(b)
		s.checkRatio(b, ratios, heights, places)
		s.checkBoth(b)
	}
	s.checkGrid()
}

// series gathers the records by series, in the order of size.
func (s *bodySet) series(places []sizePlace) ([]*bodySeries, map[bodyKey]*bodySeries) {
	byKey := make(map[bodyKey]*bodySeries)
	var list []*bodySeries
	for i := range s.records {
		k := s.records[i].key.withSize(0)
		z := byKey[k]
		if z == nil {
			z = &bodySeries{key: k}
			byKey[k] = z
			list = append(list, z)
		}
		z.rows = append(z.rows, int32(i))
	}
	for _, z := range list {
		order := func(a, b int32) int {
			p, q := places[s.records[a].key.size()], places[s.records[b].key.size()]
			return cmp.Or(cmp.Compare(p.scale, q.scale), cmp.Compare(p.rank, q.rank))
		}
		if !slices.IsSortedFunc(z.rows, order) {
			slices.SortStableFunc(z.rows, order)
		}
	}
	return list, byKey
}

// A doubt is a finding about a record and those it was compared with. It is
// reported where one of them is new, unless it is a known exception; what the
// row's own note explains is only a note.
func (s *bodySet) doubt(rule string, severity Severity, about *bodyRecord, others []*bodyRecord, say func(*Finding)) {
	if s.rep.excepts(rule, bodyTable, s.name(about.key)) {
		return
	}
	at, note := about, about.note
	fresh := about.fresh
	for _, o := range others {
		if note == "" {
			note = o.note
		}
		if !fresh && o.fresh {
			fresh, at = true, o
		}
	}
	if !fresh {
		return
	}
	f := s.finding(rule, severity, about)
	if at != about {
		f.File, f.Line = s.file, int(at.line)
	}
	say(&f)
	if severity == Warn && note != "" {
		f.Severity, f.Fix = Note, "the note says: "+note
	}
	s.rep.add(f)
}

const noteFix = "correct it, or say in note why the source has it so"

// Falls and steps that are no surprise. Percentiles of a few dozen children
// wobble; a chart's single figures do not.
const (
	fallOfPercentile = 0.035
	stepInside       = 0.05
	stepAtEnd        = 0.15
	stepSmall        = 0.5 // cm or kg, beside the share
	tailFactor       = 2.0 // for p5 and p95
)

// checkGrowth checks that each size is larger than the one before. Years of
// age follow on months.
func (s *bodySet) checkGrowth(z *bodySeries, places []sizePlace) {
	percentile := z.key.statistic() >= inP5
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
		s.doubt("R20", Warn, b, []*bodyRecord{a}, func(f *Finding) {
			f.Found = s.show(b)
			f.Expected = fmt.Sprintf("more than the %s of size %s", s.show(a), s.t.Sizes[a.key.size()].Size)
			f.By, f.Fix = fmt.Sprintf("%.3g %s less", fall, bodyUnits[b.key.unit()]), noteFix
			if fall == 0 {
				f.By = "the same"
			}
		})
	}
}

// checkStep compares each value with what the sizes beside it lead one to
// expect: the straight line between them, or through the next two at an end.
func (s *bodySet) checkStep(z *bodySeries, places []sizePlace) {
	n := len(z.rows)
	excess := make([]float64, n)
	expected := make([]float64, n)
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
		if t := z.key.statistic(); t == inP5 || t == inP95 {
			share *= tailFactor
		}
		expected[i] = bj.value + (bk.value-bj.value)*(p.position-pj.position)/(pk.position-pj.position)
		small := stepSmall
		if z.key.unit() == inInch {
			small /= 2.54
		}
		excess[i] = math.Abs(b.value-expected[i]) / (share*math.Abs(expected[i]) + small)
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
		s.doubt("R21", Warn, b, beside, func(f *Finding) {
			f.Found = s.show(b)
			f.Expected = fmt.Sprintf("about %.3g, going by %s", expected[i], s.listed(beside))
			f.By, f.Fix = fmt.Sprintf("%+.3g", b.value-expected[i]), "read the source again: swapped digits, another size, another unit? Or say in note why it is so"
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
func (s *bodySet) listed(records []*bodyRecord) string {
	var words []string
	for _, b := range records {
		words = append(words, fmt.Sprintf("size %s with %s", s.t.Sizes[b.key.size()].Size, s.show(b)))
	}
	return strings.Join(words, " and ")
}

// checkGaps reports sizes that a series leaves out.
func (s *bodySet) checkGaps(z *bodySeries, places []sizePlace) {
	for i := 1; i < len(z.rows); i++ {
		a, b := &s.records[z.rows[i-1]], &s.records[z.rows[i]]
		pa, pb := places[a.key.size()], places[b.key.size()]
		if pa.scale != pb.scale || pb.rank-pa.rank <= 1 {
			continue
		}
		s.doubt("R24", Warn, b, []*bodyRecord{a}, func(f *Finding) {
			f.Found = fmt.Sprintf("nothing in %s between size %s and size %s", bodyUnits[b.key.unit()], s.t.Sizes[a.key.size()].Size, s.t.Sizes[b.key.size()].Size)
			f.Expected = fmt.Sprintf("rows for the %d sizes of the chart between them", pb.rank-pa.rank-1)
		})
	}
}

// copySlack is how far a copy in half centimetres may be from the inches: the
// trade chart rounds 0.26 to 0.30 cm either way.
const copySlack = 0.3 + 1e-9

// checkCopies compares a value in cm with the same in inches.
func (s *bodySet) checkCopies(i int, b *bodyRecord) {
	if b.key.unit() != inCm {
		return
	}
	inches := s.near(i, b.key.withUnit(inInch))
	if inches == nil {
		return
	}
	off := b.value - inches.cm()
	severity := Warn
	switch {
	case math.Abs(off) <= copySlack:
		return
	case math.Abs(off) > 0.5:
		severity = Stop
	}
	s.doubt("R22", severity, b, []*bodyRecord{inches}, func(f *Finding) {
		f.Found = fmt.Sprintf("%s and %s", s.show(b), s.show(inches))
		f.Expected = fmt.Sprintf("%.4g cm, to the nearest half", inches.cm())
		f.By, f.Fix = fmt.Sprintf("%+.2f cm", off), noteFix
	})
}

// checkRange compares the ends of a range, and percentiles in turn.
func (s *bodySet) checkRange(i int, b *bodyRecord) {
	var uppers []int
	switch b.key.statistic() {
	case inLow:
		uppers = []int{inHigh}
	case inP5:
		uppers = []int{inP25, inP50, inP75, inP95}
	case inP25:
		uppers = []int{inP50, inP75, inP95}
	case inP50:
		uppers = []int{inP75, inP95}
	case inP75:
		uppers = []int{inP95}
	}
	for _, u := range uppers {
		upper := s.near(i, b.key.withStatistic(u))
		if upper == nil {
			continue
		}
		if b.value > upper.value || u == inHigh && b.value == upper.value {
			s.doubt("R23", Stop, b, []*bodyRecord{upper}, func(f *Finding) {
				f.Found = s.show(b)
				f.Expected = fmt.Sprintf("below the %s of %s", s.show(upper), bodyStatistics[u])
				f.Fix = "read both again; one of them is not what the source has"
			})
		}
		return
	}
}

// together lists the statistics that come with another.
var together = [][]int{
	inGiven: nil, inLow: {inHigh}, inHigh: {inLow},
	inP5: {inP50, inP95}, inP25: {inP50, inP75}, inP50: nil, inP75: {inP25, inP50}, inP95: {inP5, inP50},
}

// checkTogether checks that a range has both its ends.
func (s *bodySet) checkTogether(i int, b *bodyRecord) {
	for _, o := range together[b.key.statistic()] {
		if s.near(i, b.key.withStatistic(o)) == nil {
			s.doubt("R24", Warn, b, nil, func(f *Finding) {
				f.Found = fmt.Sprintf("%s without %s, in %s", bodyStatistics[b.key.statistic()], bodyStatistics[o], bodyUnits[b.key.unit()])
				f.Expected = "both, as the source has them"
			})
		}
	}
}

// checkUnits checks that a series printed in cm and inches is so throughout.
func (s *bodySet) checkUnits(b *bodyRecord, byKey map[bodyKey]*bodySeries) {
	unit := b.key.unit()
	if unit == inKg {
		return
	}
	other := b.key.withUnit(inCm + inInch - unit)
	if byKey[other.withSize(0)] != nil && s.find(other) == nil {
		s.doubt("R24", Warn, b, nil, func(f *Finding) {
			f.Found = fmt.Sprintf("%s, and nothing in %s", s.show(b), bodyUnits[other.unit()])
			f.Expected = "both units, as at other sizes of the chart"
		})
	}
}

// checkBoth compares both sexes together with each.
func (s *bodySet) checkBoth(b *bodyRecord) {
	if b.key.sex() != inBoth {
		return
	}
	m, w := s.find(b.key.withSex(0)), s.find(b.key.withSex(1))
	if m == nil || w == nil {
		return
	}
	low, high := min(m.value, w.value), max(m.value, w.value)
	slack := 0.005*high + 0.02
	if b.value >= low-slack && b.value <= high+slack {
		return
	}
	s.doubt("R28", Warn, b, []*bodyRecord{m, w}, func(f *Finding) {
		f.Found = s.show(b)
		f.Expected = fmt.Sprintf("between boys with %s and girls with %s", s.show(m), s.show(w))
	})
}

// checkGrid reports values off the grid that all others of a chart are on:
// half centimetres or quarter inches.
func (s *bodySet) checkGrid() {
	type grid struct{ chart, unit int }
	on := make(map[grid]int)
	off := make(map[grid][]*bodyRecord)
	for i := range s.records {
		b := &s.records[i]
		if b.key.statistic() > inHigh || b.key.unit() == inKg {
			continue
		}
		g := grid{b.key.chart(), b.key.unit()}
		if steps := b.value * []float64{2, 4}[g.unit]; steps == math.Trunc(steps) {
			on[g]++
		} else {
			off[g] = append(off[g], b)
		}
	}
	for g, records := range off {
		if on[g] < 20 || 10*len(records) > on[g] {
			continue
		}
		for _, b := range records {
			s.doubt("R12", Warn, b, nil, func(f *Finding) {
				f.Found = s.show(b)
				f.Expected = []string{"half centimetres", "quarter inches"}[g.unit] + ", as the rest of the chart has"
				f.Fix = "write the value as printed"
			})
		}
	}
}
