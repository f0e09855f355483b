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
	s.checkColumns(list, places, heights)
	pairs := s.relatedPairs()
	ratios := s.ratioBands()
	has := make([]uint32, len(s.t.Charts)) // the units and statistics of a chart
	for i := range s.records {
		k := s.records[i].key
		has[k.chart()] |= 1<<k.unit() | 1<<(8+k.statistic())
	}
	for i := range s.records {
		b := &s.records[i]
		here := has[b.key.chart()]
		for _, unit := range unitsLike(b.key.unit()) {
			if unit != b.key.unit() && here>>unit&1 != 0 {
				s.checkCopies(i, b, unit)
				s.checkUnits(i, b, unit, byKey)
			}
		}
		s.checkRange(i, b, here>>8)
		s.checkTogether(i, b)
		s.checkMoments(i, b)
		s.checkCounts(i, b)
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

// copySlack is how far a copy may be from one in another unit, in cm or kg: the trade
// chart rounds 0.26 to 0.30 cm either way from inches to half centimetres.
var copySlack = []float64{inMm: 0.26, inInch: 0.3 + 1e-9, inPound: 0.3, inOunce: 0.06}

// copyStop is by how many times that a copy is certainly wrong.
const copyStop = 5.0 / 3

// checkCopies compares a value with the same in a unit that follows on its own.
func (s *bodySet) checkCopies(i int, b *bodyRecord, unit int) {
	if unit < b.key.unit() {
		return
	}
	other := s.near(i, b.key.withUnit(unit))
	if other == nil {
		return
	}
	off, slack := b.cm()-other.cm(), copySlack[unit]
	severity := Warn
	switch {
	case math.Abs(off) <= slack:
		return
	case math.Abs(off) > copyStop*slack:
		severity = Stop
	}
	s.doubt(doubt{"R22", severity, b, []*bodyRecord{other}, math.Abs(off) / slack}, func(f *Finding) {
		f.Found = sizing.NewFact("rows.copies", b.amount(), other.amount())
		f.Expected = sizing.NewFact("rows.copy-near", b.amountOf(other.cm()/ownUnits[b.key.unit()]))
		if unit == inInch && b.key.unit() == inCm {
			f.Expected = sizing.NewFact("rows.nearest-half", sizing.Length(other.cm()))
		}
		f.By, f.Fix = sizing.NewFact("rows.off", b.amountOf(off/ownUnits[b.key.unit()])), noteFix("R22")
		if severity == Stop {
			f.Fix = sizing.NewFact("rows.read-both-again")
		}
	})
}

// checkUnits checks that a series that is printed in another unit too is so throughout.
func (s *bodySet) checkUnits(i int, b *bodyRecord, unit int, byKey map[bodyKey]int32) {
	other := b.key.withUnit(unit)
	if _, printed := byKey[other.withSize(0)]; printed && s.near(i, other) == nil {
		s.doubt(doubt{rule: "R24", severity: Warn, about: b}, func(f *Finding) {
			f.Found = sizing.NewFact("rows.one-unit", b.amount(), bodyUnits[unit])
			f.Expected = sizing.NewFact("rows.both-units")
		})
	}
}

// checkBoth compares both sexes together with each.
func (s *bodySet) checkBoth(i int, b *bodyRecord) {
	if b.key.sex() != inBoth || b.key.statistic() == inSD { // two groups spread more than each
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
		steps := [...]float64{inCm: 2, inInch: 4, inOunce: 0}[b.key.unit()]
		if b.key.statistic() > inHigh || steps == 0 {
			continue
		}
		g := grid{b.key.chart(), b.key.unit()}
		if steps *= b.value; steps == math.Trunc(steps) {
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
