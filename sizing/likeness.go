package sizing

import "math"

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

// A likeRow is what children of one height have, of each measurement.
type likeRow struct {
	logHeight    float64
	median       []float64 // logarithm, of children of the usual weight; NaN where none is known
	rise         []float64 // of that, with the logarithm of height
	slope        []float64 // how many of its spreads it goes with the logarithm of weight
	rest         []float64 // spread of the logarithm, weight being known
	near         []float64 // its correlation with that of the surveyed measurement, likewise
	light, heavy float64   // spreads of the logarithm of weight, below its median and above
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
	l := &likeness{ref: ref, rel: b.rel, height: -1, heightSpread: b.heightSpread}
	for i := range b.methods {
		d := &b.methods[i]
		f := likeField{v: b.rel.find(d.measurement.Relation), closeness: d.closeness, weight: d.measurement.ID == "weight"}
		if d.measurement.ID == "height" {
			l.height = i
		}
		l.fields = append(l.fields, f)
	}
	loose := ref.Practice("length_spread_at_height").Share()
	for log := math.Log(leastLikeHeight); log <= math.Log(mostLikeHeight); log += likeHeightStep {
		l.rows = append(l.rows, b.likeRow(log, loose))
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

// likeRow is what children of a height have. Above and below the heights that
// estimates are made for medians go on with height, and less is sure.
func (b *basis) likeRow(logHeight, loose float64) likeRow {
	height := math.Exp(logHeight)
	within := min(max(height, b.low), b.high)
	unsure := 1 + 2*math.Abs(logHeight-math.Log(within))
	row := likeRow{logHeight: logHeight}
	band, share := bandAt(b.rel.middle, within)
	row.band, row.share = band, math.Round(share.start*likeShareSteps)/likeShareSteps
	row.light, row.heavy = b.rel.weightAt(within)
	row.light, row.heavy = row.light*unsure, row.heavy*unsure
	for m := range b.methods {
		d := &b.methods[m]
		median, slope, rest, near := math.NaN(), 0.0, loose, 1.0
		if d.Curve != nil {
			low, high := d.Range()
			at := min(max(within, low), high)
			if v := d.At(at); v > 0 {
				median = math.Log(v) + b.power[d.measurement.Kind]*(logHeight-math.Log(at))
			}
		}
		if v := b.rel.find(d.measurement.Relation); v >= 0 && v != b.rel.weight {
			c, sd := d.closeness, b.rel.spread[v].at(within)
			own := c * b.rel.restAt(v, within)
			rest = math.Hypot(own, math.Sqrt(1-c*c)*sd)
			slope, near = c*b.rel.slopeAt(v, within), own/rest
			median += c * b.rel.shiftAt(v, within)
		}
		row.median, row.slope = append(row.median, median), append(row.slope, slope/rest)
		row.rest, row.near = append(row.rest, rest*unsure), append(row.near, near)
	}
	return row
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
