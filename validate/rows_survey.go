package validate

import (
	"math"

	"growtuck/data"
	"growtuck/sizing"
)

// Bounds on the survey's spreads, correlations and ratios: about half as wide
// again as ours need.
const (
	mostSpread       = 0.25 // sd of a log
	mostWeightSpread = 0.45 // of today's weights, above or below their median
	mostBandChange   = 2.4  // of spreads along height
	mostSexChange    = 1.6  // of spreads between boys and girls
	mostSexGap       = 0.35 // of correlations between boys and girls
	mostBandGap      = 0.45 // of correlations along height
	mostJump         = 0.25 // of a ratio from class to class
	mostJumpTail     = 0.35 // of its 99th percentile
	mostJumpMass     = 0.65
	leastP1, mostP99 = 0.65, 1.8 // of the median
	fewestChildren   = 20        // of a spread
)

// A relationOf is a figure of a pair of measurements of one sex, in the band of
// height that begins at low.
type relationOf struct {
	sex, a, b, statistic string
	low                  float64
}

// checkRelations checks spreads and correlations against one another.
func (ts *tableSet) checkRelations() {
	rows := make(map[relationOf]data.Relation)
	for _, r := range ts.t.Relations {
		rows[relationOf{r.Sex, r.A, r.B, r.Statistic, orZero(r.LowCm)}] = r
	}
	last := make(map[relationOf]data.Relation) // of low 0
	for _, r := range ts.t.Relations {
		at := rowAt{ts: ts, rule: "R45", table: "relations.csv", line: r.Line, subject: r.Sex + " " + r.A + " " + r.B}
		if !checkRelation(at, r) {
			continue
		}
		checkChildren(at, r, rows)
		k := relationOf{r.Sex, r.A, r.B, r.Statistic, 0}
		if before, ok := last[k]; ok {
			checkBand(at, before, r)
		}
		last[k] = r
		checkSexes(at, r, rows)
	}
}

// isSpread reports whether a row is a spread, which is greater than 0, and not a
// correlation, slope or shift.
func isSpread(r data.Relation) bool { return ofOne(r) || r.Statistic == "rest" }

// ofOne reports whether a row is of one measurement, and not of two.
func ofOne(r data.Relation) bool {
	return r.Statistic == "sd" || r.Statistic == "low" || r.Statistic == "high"
}

// checkRelation checks a row by itself. It returns false if the row is not one
// to compare with others.
func checkRelation(at rowAt, r data.Relation) bool {
	spread, most := isSpread(r), mostSpread
	if ofOne(r) && r.Statistic != "sd" {
		most = mostWeightSpread
	}
	switch {
	case ofOne(r) != (r.A == r.B):
		at.suspect("statistic", sizing.NewFact("rows.statistic-of", r.Statistic, r.A, r.B), sizing.NewFact("rows.sd-or-r"))
		return false
	case r.LowCm == nil || r.HighCm == nil:
		at.suspect("height_low_cm", sizing.NewFact("rows.no-height"), sizing.NewFact("rows.band-heights"))
		return false
	case *r.LowCm >= *r.HighCm:
		at.suspect("height_high_cm", sizing.NewFact("rows.heights", *r.LowCm, *r.HighCm), sizing.NewFact("rows.lower-first"))
	case spread && (r.Value <= 0 || r.Value > most):
		at.suspect("value", sizing.NewFact("rows.spread", r.Value), sizing.NewFact("rows.spread-range", most))
	case spread && r.N < fewestChildren: // a correlation may rest on others alone
		at.suspect("n", sizing.NewFact("rows.children", r.N), sizing.NewFact("rows.at-least", fewestChildren))
	}
	if r.Source == "" || r.N != math.Trunc(r.N) {
		at.suspect("n", sizing.NewFact("rows.children", r.N), sizing.NewFact("rows.whole-number"))
	}
	return true
}

// checkChildren compares the count of both sexes with that of each.
func checkChildren(at rowAt, r data.Relation, rows map[relationOf]data.Relation) {
	if r.Sex != "both" {
		return
	}
	boys, girls := rows[relationOf{"m", r.A, r.B, r.Statistic, *r.LowCm}], rows[relationOf{"f", r.A, r.B, r.Statistic, *r.LowCm}]
	if boys.Source != girls.Source { // of two eras the larger spread is taken
		return
	}
	m, f := boys.N, girls.N
	if math.Abs(r.N-m-f) > 0.3*r.N+5 {
		at.suspect("n", sizing.NewFact("rows.children", r.N), sizing.NewFact("rows.boys-and-girls", m, f))
	}
}

// checkBand compares a row with that of the band of height below.
func checkBand(at rowAt, before, r data.Relation) {
	spread := isSpread(r)
	switch c := r.Value / before.Value; {
	case *before.HighCm != *r.LowCm:
		at.suspect("height_low_cm", sizing.NewFact("rows.heights-from", *r.LowCm, *before.HighCm), sizing.NewFact("rows.no-gaps"))
	case spread && (c > mostBandChange || c < 1/mostBandChange):
		at.suspect("value", sizing.NewFact("rows.spread", r.Value), sizing.NewFact("rows.near-class-before", before.Value))
	case !spread && math.Abs(r.Value-before.Value) > mostBandGap:
		at.suspect("value", sizing.NewFact("rows.value", r.Value), sizing.NewFact("rows.near-class-before", before.Value))
	}
}

// checkSexes checks that each sex has a row, and that boys are like the others.
func checkSexes(at rowAt, r data.Relation, rows map[relationOf]data.Relation) {
	for _, sex := range bodySexes {
		o, ok := rows[relationOf{sex, r.A, r.B, r.Statistic, *r.LowCm}]
		if !ok {
			at.suspect("sex", sizing.NewFact("rows.no-row-of-sex", sex), sizing.NewFact("rows.each-sex", bodySexes))
			continue
		}
		if r.Sex != "m" || sex == "m" {
			continue
		}
		apart := math.Abs(r.Value-o.Value) > mostSexGap
		if isSpread(r) {
			apart = r.Value/o.Value > mostSexChange || o.Value/r.Value > mostSexChange
		}
		if apart {
			at.suspect("value", sizing.NewFact("rows.of-boys", r.Value), sizing.NewFact("rows.near-sex", o.Value, sex))
		}
	}
}

func orZero(v *float64) float64 {
	if v == nil {
		return 0
	}
	return *v
}
