package sizing

import (
	"math"

	"growtuck/data"
)

// A likeness says how unlike children what is said of a child is. All children
// of a height are told apart by weight, as children of today weigh; the other
// measurements are held against those that children of that height and weight
// have, as the relations give them. Height is held against age. What is not
// known is taken to be as suits the rest best.
//
// The cost of what is said is half the sum of the squares of its departures, in
// spreads: minus the logarithm of its likelihood, up to a constant.
type likeness struct {
	ref    *Reference
	rel    *relations
	fields []likeField // of each measurement
	weight *likeField  // that of weight itself
	height int         // the measurement height, or -1
	rows   []likeRow   // by the logarithm of height, evenly

	shortest, tallest float64 // logarithms of heights from the youngest in the charts to the grown
	heightSpread      float64 // of the logarithm of height at one age
}

// A likeField is how a measurement is held against others.
type likeField struct {
	v         int     // the measurement of the relations that it goes with, -1 for none
	closeness float64 // its correlation with that
	weight    bool
}

// A likeRow is what children of one height have.
type likeRow struct {
	logHeight    float64
	median       []float64 // logarithm, of each measurement; NaN where none is known
	rise         []float64 // of that, with the logarithm of height
	sd           []float64 // of the logarithm, of each measurement
	light, heavy float64   // spreads of weight today to either side, in those of the relations
	band         int
	share        float64
}

// The heights that a likeness has rows for, in cm, and the share by which each is
// above the one before.
const (
	leastLikeHeight = 45
	mostLikeHeight  = 205
	likeHeightStep  = 0.015
)

// likeShareSteps is in how many steps correlations go from one band to the next, so
// that they need not be factored at every height.
const likeShareSteps = 8

// zP99 is the 99th percentile of the standard normal distribution.
const zP99 = 2.3263478740408408

func (ref *Reference) newLikeness(sex Sex) (*likeness, error) {
	b, err := ref.bases[sex]()
	if err != nil {
		return nil, err
	}
	fitted, err := ref.fitted()
	if err != nil {
		return nil, err
	}
	l := &likeness{ref: ref, rel: b.rel, height: -1, weight: &likeField{v: b.rel.find("weight"), closeness: 1, weight: true}, heightSpread: b.heightSpread}
	for i := range b.methods {
		d := &b.methods[i]
		f := likeField{v: b.rel.find(d.measurement.Relation), closeness: d.closeness, weight: d.measurement.ID == "weight"}
		if d.measurement.ID == "height" {
			l.height = i
		}
		l.fields = append(l.fields, f)
	}
	mass := newMassSpreads(fitted.ratios[ratioKey{sex, "weight"}])
	loose := ref.Practice("length_spread_at_height").Share()
	for log := math.Log(leastLikeHeight); log <= math.Log(mostLikeHeight); log += likeHeightStep {
		l.rows = append(l.rows, b.likeRow(log, loose, mass))
	}
	for i := range l.rows {
		low, high := &l.rows[max(i-1, 0)], &l.rows[min(i+1, len(l.rows)-1)]
		for m := range l.fields {
			l.rows[i].rise = append(l.rows[i].rise, (high.median[m]-low.median[m])/(high.logHeight-low.logHeight))
		}
	}
	l.shortest, l.tallest = l.heightRange(b.chart)
	return l, nil
}

// heightRange is from the median height of the youngest of the chart to that of
// the oldest boys.
func (l *likeness) heightRange(chart *Chart) (low, high float64) {
	low, high = math.Log(leastLikeHeight), math.Log(mostLikeHeight)
	if run, ok := chart.Run(Months, Both); ok {
		if h := run.Value("height", run.Sizes[0].Position); h > 0 {
			low = math.Log(h)
		}
	}
	if run, ok := chart.Run(Years, Boy); ok {
		if h := run.Value("height", run.Sizes[len(run.Sizes)-1].Position); h > 0 {
			high = math.Log(h)
		}
	}
	return low, high
}

// likeRow is what children of a height have. Above and below the heights that were
// surveyed medians go on with height, and less is sure below.
func (b *basis) likeRow(logHeight, loose float64, mass *massSpreads) likeRow {
	height := math.Exp(logHeight)
	row := likeRow{logHeight: logHeight}
	within := min(max(height, b.low), b.high)
	s := b.stretchAt(within)
	past := within - s.from
	row.band, row.share = s.band, math.Round(s.share.at(past)*likeShareSteps)/likeShareSteps
	row.light, row.heavy = mass.at(height)
	if w := b.rel.find("weight"); w >= 0 {
		sd := s.spread[w].at(past)
		row.light, row.heavy = max(1, row.light/sd), max(1, row.heavy/sd)
	}
	unsure := 1 + 2*math.Abs(logHeight-math.Log(within))
	for m := range b.methods {
		d := &b.methods[m]
		median := math.NaN()
		if d.Curve != nil {
			low, high := d.Range()
			at := min(max(within, low), high)
			if v := d.At(at); v > 0 {
				median = math.Log(v) + b.power[d.measurement.Kind]*(logHeight-math.Log(at))
			}
		}
		sd := loose
		if v := b.rel.find(d.measurement.Relation); v >= 0 {
			sd = s.spread[v].at(past)
		}
		row.median, row.sd = append(row.median, median), append(row.sd, sd*unsure)
	}
	return row
}

// massSpreads are how far children's weights go from the middle, to either side, by
// height: the widest of all surveys in the table.
type massSpreads struct{ middle, below, above []float64 }

func newMassSpreads(rows []data.Ratio) *massSpreads {
	s := &massSpreads{}
	for _, r := range rows {
		middle := (r.LowCm + r.HighCm) / 2
		k := len(s.middle) - 1
		for i, m := range s.middle {
			if m == middle {
				k = i
			}
		}
		if k < 0 || s.middle[k] != middle {
			if k >= 0 && middle < s.middle[k] {
				continue // classes of another width
			}
			s.middle, s.below, s.above = append(s.middle, middle), append(s.below, 0), append(s.above, 0)
			k = len(s.middle) - 1
		}
		s.below[k] = max(s.below[k], math.Log(r.P50/r.P1)/zP99)
		s.above[k] = max(s.above[k], math.Log(r.P99/r.P50)/zP99)
	}
	return s
}

func (s *massSpreads) at(height float64) (below, above float64) {
	if len(s.middle) == 0 {
		return 0, 0
	}
	k, share := bandAt(s.middle, height)
	next := min(k+1, len(s.middle)-1)
	return s.below[k] + share.start*(s.below[next]-s.below[k]), s.above[k] + share.start*(s.above[next]-s.above[k])
}

// heightAt is the logarithm of the median height at an age.
func (l *likeness) heightAt(years float64) float64 {
	chart := l.ref.charts[defaultChart]
	for _, scale := range []Scale{Years, Months} {
		run, ok := chart.Run(scale, l.rel.run.Sex)
		if !ok {
			continue
		}
		first, last := run.Sizes[0].Position, run.Sizes[len(run.Sizes)-1].Position
		position := years
		if scale == Months {
			position = years * 12
		} else if years < first {
			continue
		}
		if h := run.Value("height", min(max(position, first), last)); h > 0 {
			return math.Log(h)
		}
	}
	return math.NaN()
}
