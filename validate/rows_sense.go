package validate

import (
	"cmp"
	"math"
	"slices"

	"growtuck/data"
	"growtuck/sizing"
)

// A sizePlace is where a size is on its scale.
type sizePlace struct {
	scale    int     // months, years, height, band
	position float64 // on its scale; its rank for a band
	rank     int     // among the sizes of its chart and scale
}

var sizeScales = data.Words[data.Size]("scale")

const onBand = 3

// placeSizes finds where every size is.
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
			s.checkUnits(i, b, byKey)
		}
		s.checkRange(i, b)
		s.checkTogether(i, b)
		s.checkRelated(i, b, pairs)
		s.checkArm(i, b)
		s.checkRatio(i, b, ratios, heights, places)
		s.checkBoth(i, b)
	}
	s.checkGrid()
}

// A doubt is a finding of sense about a record and those it was compared with. It
// is reported where one of them is new.
type doubt struct {
	rule     string
	severity Severity
	about    *bodyRecord
	others   []*bodyRecord
	// far is by how many times what the rule allows it is off; 0 where it is not a
	// matter of more or less.
	far float64
}

// noteReach is how far off a value may be, in times what the rule allows, that the
// row's note, or an exception, still explains. What is further off is likelier
// misread than odd.
const noteReach = 2

// doubt reports a doubt. A known exception is passed over, and what the row's own
// note explains is only a note: where it names the rule, and the value is within
// reach.
func (s *bodySet) doubt(d doubt, say func(*Finding)) {
	if s.rep.excepts(d.rule, bodyTable, s.name(d.about.key)) && d.far <= noteReach {
		return
	}
	at, fresh := d.about, d.about.fresh
	for _, o := range d.others {
		if !fresh && o.fresh {
			fresh, at = true, o
		}
	}
	if !fresh {
		return
	}
	f := s.finding(d.rule, d.severity, d.about)
	if at != d.about {
		f.File, f.Line = s.file, int(at.line)
	}
	say(&f)
	switch {
	case d.severity != Warn || !d.about.explains(d.rule):
	case d.far <= noteReach:
		f.Severity, f.Fix = Note, noteSays(d.about.note)
	default:
		f.Fix = sizing.NewFact("rows.beyond-note")
	}
	s.rep.add(f)
}

func noteFix(rule string) sizing.Fact { return sizing.NewFact("rows.correct-or-note", rule) }

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
	s.doubt(doubt{"R22", severity, b, []*bodyRecord{inches}, math.Abs(off) / copySlack}, func(f *Finding) {
		f.Found = sizing.NewFact("rows.copies", b.amount(), inches.amount())
		f.Expected = sizing.NewFact("rows.nearest-half", sizing.Length(inches.cm()))
		f.By, f.Fix = sizing.NewFact("rows.off", sizing.Length(off)), noteFix("R22")
		if severity == Stop {
			f.Fix = sizing.NewFact("rows.read-both-again")
		}
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
			s.doubt(doubt{rule: "R23", severity: Stop, about: b, others: []*bodyRecord{upper}}, func(f *Finding) {
				f.Found = b.fact()
				f.Expected = sizing.NewFact("rows.below-that", upper.amount(), bodyStatistics[u])
				f.Fix = sizing.NewFact("rows.read-both-again")
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
			s.doubt(doubt{rule: "R24", severity: Warn, about: b}, func(f *Finding) {
				f.Found = sizing.NewFact("rows.without", bodyStatistics[b.key.statistic()], bodyStatistics[o], bodyUnits[b.key.unit()])
				f.Expected = sizing.NewFact("rows.both-statistics")
			})
		}
	}
}

// checkUnits checks that a series printed in cm and inches is so throughout.
func (s *bodySet) checkUnits(i int, b *bodyRecord, byKey map[bodyKey]int32) {
	unit := b.key.unit()
	if unit == inKg {
		return
	}
	other := b.key.withUnit(inCm + inInch - unit)
	if _, printed := byKey[other.withSize(0)]; printed && s.near(i, other) == nil {
		s.doubt(doubt{rule: "R24", severity: Warn, about: b}, func(f *Finding) {
			f.Found = sizing.NewFact("rows.one-unit", b.amount(), bodyUnits[other.unit()])
			f.Expected = sizing.NewFact("rows.both-units")
		})
	}
}

// checkBoth compares both sexes together with each.
func (s *bodySet) checkBoth(i int, b *bodyRecord) {
	if b.key.sex() != inBoth {
		return
	}
	m, w := s.near(i, b.key.withSex(0)), s.near(i, b.key.withSex(1))
	if m == nil || w == nil {
		return
	}
	low, high := min(m.value, w.value), max(m.value, w.value)
	slack := 0.005*high + 0.02
	if b.value >= low-slack && b.value <= high+slack {
		return
	}
	far := max(low-b.value, b.value-high) / slack
	s.doubt(doubt{"R28", Warn, b, []*bodyRecord{m, w}, far}, func(f *Finding) {
		f.Found = b.fact()
		f.Expected = sizing.NewFact("rows.between-sexes", m.amount(), w.amount())
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
			s.doubt(doubt{rule: "R12", severity: Warn, about: b}, func(f *Finding) {
				f.Found = b.fact()
				f.Expected = sizing.NewFact("rows.half-cm")
				if g.unit == inInch {
					f.Expected = sizing.NewFact("rows.quarter-inches")
				}
				f.Fix = sizing.NewFact("rows.as-printed")
			})
		}
	}
}
