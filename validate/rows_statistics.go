package validate

import "growtuck/sizing"

// checkRange compares the ends of a range, and percentiles in turn. has is a bit for
// each statistic of the chart.
func (s *bodySet) checkRange(i int, b *bodyRecord, has uint32) {
	from, to := b.key.statistic()+1, inP97
	switch {
	case b.key.statistic() == inLow:
		to = inHigh
	case b.key.statistic() < inP3:
		return
	}
	for u := from; u <= to; u++ {
		if has>>u&1 == 0 {
			continue
		}
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

// tails are percentiles with the same share of children outside them, and how many
// standard deviations are between them in a normal distribution.
var tails = []struct {
	low, high int
	apart     float64
}{{inP25, inP75, 1.349}, {inP10, inP90, 2.563}, {inP5, inP95, 3.290}, {inP3, inP97, 3.762}}

// Bounds of a standard deviation: weights of schoolchildren spread by a quarter of their
// mean; one that percentiles lead to differs from it where tails are long.
const (
	mostOfMean  = 0.5
	sdByTailsBy = 1.8
)

// checkMoments compares a mean and a standard deviation with each other and with the
// percentiles beside them.
func (s *bodySet) checkMoments(i int, b *bodyRecord) {
	if t := b.key.statistic(); t != inMean && t != inSD {
		return
	}
	report := func(expected sizing.Fact, others ...*bodyRecord) {
		s.doubt(doubt{rule: "R23", severity: Stop, about: b, others: others}, func(f *Finding) {
			f.Found, f.Expected, f.Fix = b.fact(), expected, sizing.NewFact("rows.read-both-again")
		})
	}
	if b.key.statistic() == inSD {
		if mean := s.near(i, b.key.withStatistic(inMean)); mean != nil && b.value > mostOfMean*mean.value {
			report(sizing.NewFact("rows.sd-of-mean", mean.amount()), mean)
			return
		}
	}
	for _, t := range tails {
		low, high := s.near(i, b.key.withStatistic(t.low)), s.near(i, b.key.withStatistic(t.high))
		if low == nil || high == nil {
			continue
		}
		sd := (high.value - low.value) / t.apart
		switch {
		case b.key.statistic() == inMean && (b.value < low.value || b.value > high.value):
			report(sizing.NewFact("rows.between", low.amount(), high.amount()), low, high)
		case b.key.statistic() == inSD && (b.value > sdByTailsBy*sd || b.value < sd/sdByTailsBy):
			report(sizing.NewFact("rows.sd-by-tails", b.amountOf(sd), bodyStatistics[t.low], bodyStatistics[t.high]), low, high)
		}
		return
	}
}

// together lists the statistics that come with another.
var together = [][]int{
	inGiven: nil, inLow: {inHigh}, inHigh: {inLow}, inMean: nil, inSD: {inMean},
	inP3: {inP50, inP97}, inP5: {inP50, inP95}, inP10: {inP50, inP90}, inP25: {inP50, inP75}, inP50: nil,
	inP75: {inP25, inP50}, inP90: {inP10, inP50}, inP95: {inP5, inP50}, inP97: {inP3, inP50},
}

// checkCounts checks that the statistics of one size are of the same children.
func (s *bodySet) checkCounts(i int, b *bodyRecord) {
	for _, o := range []int{inP50, inMean} {
		of := s.near(i, b.key.withStatistic(o))
		if of == nil || of == b || of.count == 0 || b.count == 0 {
			continue
		}
		if of.count != b.count {
			s.doubt(doubt{rule: "R24", severity: Warn, about: b, others: []*bodyRecord{of}}, func(f *Finding) {
				f.Found, f.Expected = sizing.NewFact("rows.children", b.count), sizing.NewFact("rows.children-of", of.count, bodyStatistics[o])
			})
		}
		return
	}
}

// checkTogether checks that a range has both its ends. A mean stands for a median, and
// a median for a mean.
func (s *bodySet) checkTogether(i int, b *bodyRecord) {
	for _, o := range together[b.key.statistic()] {
		if s.near(i, b.key.withStatistic(o)) != nil || o == inP50 && s.near(i, b.key.withStatistic(inMean)) != nil ||
			o == inMean && s.near(i, b.key.withStatistic(inP50)) != nil {
			continue
		}
		s.doubt(doubt{rule: "R24", severity: Warn, about: b}, func(f *Finding) {
			f.Found = sizing.NewFact("rows.without", bodyStatistics[b.key.statistic()], bodyStatistics[o], bodyUnits[b.key.unit()])
			f.Expected = sizing.NewFact("rows.both-statistics")
		})
	}
}
