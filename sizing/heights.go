package sizing

import (
	"fmt"
	"math"
	"slices"

	"growtuck/data"
)

// A heightChart is how heights are spread among children of one sex and age, by
// the LMS method: lying under two years, standing from then on.
type heightChart struct{ lying, standing []lms }

// An lms is the spread at an age: a height z spreads from the median is
// median × (1 + power × spread × z)^(1/power).
type lms struct{ months, power, median, spread float64 }

// standsAt is the age in months from which height is measured standing.
const standsAt = 24

// newHeightCharts makes the charts of boys, girls and both. That of both lies in
// the middle.
func newHeightCharts(rows []data.HeightForAge) (map[Sex]*heightChart, error) {
	charts := map[Sex]*heightChart{Boy: {}, Girl: {}, Both: {}}
	for _, r := range rows {
		c, p := charts[Sex(r.Sex)], lms{r.Months, r.Power, r.Median, r.Spread}
		if r.Posture == "lying" {
			c.lying = append(c.lying, p)
		} else {
			c.standing = append(c.standing, p)
		}
	}
	both := charts[Both]
	for _, of := range []func(*heightChart) *[]lms{func(c *heightChart) *[]lms { return &c.lying }, func(c *heightChart) *[]lms { return &c.standing }} {
		boys, girls := *of(charts[Boy]), *of(charts[Girl])
		if len(boys) < 2 || len(boys) != len(girls) {
			return nil, &data.Error{File: data.HeightsFile, Msg: fmt.Sprintf("has %d and %d rows of boys and girls of one posture; want as many of either, and two at least", len(boys), len(girls))}
		}
		for i, b := range boys {
			g := girls[i]
			if g.months != b.months || i > 0 && b.months <= boys[i-1].months {
				return nil, &data.Error{File: data.HeightsFile, Msg: fmt.Sprintf("boys and girls have different months, %g and %g, or they do not rise", b.months, g.months)}
			}
			*of(both) = append(*of(both), lms{b.months, (b.power + g.power) / 2, (b.median + g.median) / 2, (b.spread + g.spread) / 2})
		}
	}
	return charts, nil
}

// first and last are the ages in years at which the chart begins and ends.
func (c *heightChart) first() float64 { return c.lying[0].months / 12 }
func (c *heightChart) last() float64  { return c.standing[len(c.standing)-1].months / 12 }

// at is the spread at an age, between months by even steps. The last half month of
// lying lies beyond its rows, and goes on as the one before.
func (c *heightChart) at(years float64) (lms, bool) {
	months := years * 12
	rows := c.standing
	if months < standsAt-1e-6 { // ages are written to some digits
		rows = c.lying
	}
	if !(years >= c.first() && years <= c.last()) {
		return lms{}, false
	}
	i, _ := slices.BinarySearchFunc(rows, months, func(p lms, m float64) int {
		if p.months < m {
			return -1
		}
		return 1
	})
	i = min(max(i, 1), len(rows)-1)
	a, b := rows[i-1], rows[i]
	t := (months - a.months) / (b.months - a.months)
	return lms{months, a.power + t*(b.power-a.power), a.median + t*(b.median-a.median), a.spread + t*(b.spread-a.spread)}, true
}

// height is the height in cm of a place on the chart.
func (p lms) height(place float64) float64 {
	if math.Abs(p.power) < 1e-9 {
		return p.median * math.Exp(p.spread*place)
	}
	return p.median * math.Pow(max(1+p.power*p.spread*place, 1e-3), 1/p.power)
}

// place is how many spreads a height is from the median.
func (p lms) place(height float64) float64 {
	if math.Abs(p.power) < 1e-9 {
		return math.Log(height/p.median) / p.spread
	}
	return (math.Pow(height/p.median, p.power) - 1) / (p.power * p.spread)
}

// ageOf is the age in years at which a height has a place: the youngest. It reports
// false where no age of the chart has it.
func (c *heightChart) ageOf(height, place float64) (float64, bool) {
	for _, rows := range [][]lms{c.lying, c.standing} {
		high := rows[0].height(place)
		for i := 1; i < len(rows); i++ {
			low := high
			high = rows[i].height(place)
			if height >= low && height <= high && high > low {
				return (rows[i-1].months + (height-low)/(high-low)*(rows[i].months-rows[i-1].months)) / 12, true
			}
		}
	}
	return 0, false
}

// MedianHeight is the height in cm of half of the children of an age, from the
// published growth charts: lying under two years, standing from then on. It reports
// false beyond them.
func (ref *Reference) MedianHeight(years float64, sex Sex) (float64, bool) {
	g, err := ref.growing()
	if err != nil {
		return 0, false
	}
	p, ok := g.charts[sex.orBoth()].at(years)
	return p.median, ok
}
