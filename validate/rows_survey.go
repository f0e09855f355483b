package validate

import (
	"fmt"
	"math"

	"growtuck/data"
)

// Bounds on the survey's spreads, correlations and ratios: about half as wide
// again as ours need.
const (
	mostSpread       = 0.25 // sd of a log
	mostBandChange   = 2.4  // of spreads along height
	mostSexChange    = 1.6  // of spreads between boys and girls
	mostSexGap       = 0.35 // of correlations between boys and girls
	mostBandGap      = 0.45 // of correlations along height
	mostJump         = 0.25 // of a ratio from class to class
	mostJumpTail     = 0.35 // of its 99th percentile
	mostJumpMass     = 0.65
	leastP1, mostP99 = 0.65, 1.8 // of the median
)

// checkRelations checks spreads and correlations against one another.
func (ts *tableSet) checkRelations() {
	type of struct {
		sex, a, b string
		low       float64
	}
	values := make(map[of]float64)
	for _, r := range ts.t.Relations {
		values[of{r.Sex, r.A, r.B, orZero(r.LowCm)}] = r.Value
	}
	children := make(map[of]float64)
	for _, r := range ts.t.Relations {
		children[of{r.Sex, r.A, r.B, orZero(r.LowCm)}] = r.N
	}
	last := make(map[of]data.Relation) // of low 0
	for _, r := range ts.t.Relations {
		subject := r.Sex + " " + r.A + " " + r.B
		at := func(column, found, expected string) {
			ts.suspect("R45", "relations.csv", r.Line, column, subject, found, expected, "")
		}
		spread := r.Statistic == "sd"
		switch {
		case spread != (r.A == r.B):
			at("statistic", fmt.Sprintf("%s of %s and %s", r.Statistic, r.A, r.B), "sd of a measurement with itself, r of two")
			continue
		case r.LowCm == nil || r.HighCm == nil:
			at("height_low_cm", "a height is missing", "the lowest and the highest of the band")
			continue
		case *r.LowCm >= *r.HighCm:
			at("height_high_cm", fmt.Sprintf("heights %g to %g", *r.LowCm, *r.HighCm), "the lower first")
		case spread && (r.Value <= 0 || r.Value > mostSpread):
			at("value", fmt.Sprintf("a spread of %g", r.Value), fmt.Sprintf("above 0 and at most %g", mostSpread))
		case spread && r.N < 20: // a correlation may rest on others alone
			at("n", fmt.Sprintf("%g children", r.N), "at least 20")
		}
		if r.Source == "" || r.N != math.Trunc(r.N) {
			at("n", fmt.Sprintf("%g children", r.N), "a whole number")
		}
		if r.Sex == "both" {
			m, f := children[of{"m", r.A, r.B, orZero(r.LowCm)}], children[of{"f", r.A, r.B, orZero(r.LowCm)}]
			if math.Abs(r.N-m-f) > 0.3*r.N+5 {
				at("n", fmt.Sprintf("%g children", r.N), fmt.Sprintf("about the %g boys and %g girls together", m, f))
			}
		}
		k := of{r.Sex, r.A, r.B, 0}
		if before, ok := last[k]; ok {
			switch c := r.Value / before.Value; {
			case *before.HighCm != *r.LowCm:
				at("height_low_cm", fmt.Sprintf("heights from %g, after a row that ends at %g", *r.LowCm, *before.HighCm), "classes without gaps")
			case spread && (c > mostBandChange || c < 1/mostBandChange):
				at("value", fmt.Sprintf("a spread of %g", r.Value), fmt.Sprintf("near the %g of the class before", before.Value))
			case !spread && math.Abs(r.Value-before.Value) > mostBandGap:
				at("value", fmt.Sprintf("%g", r.Value), fmt.Sprintf("near the %g of the class before", before.Value))
			}
		}
		last[k] = r
		for _, sex := range bodySexes {
			o, ok := values[of{sex, r.A, r.B, orZero(r.LowCm)}]
			switch {
			case !ok:
				at("sex", "no row for sex "+sex, "m, f and both")
			case r.Sex != "m" || sex == "m":
			case spread && (r.Value/o > mostSexChange || o/r.Value > mostSexChange), !spread && math.Abs(r.Value-o) > mostSexGap:
				at("value", fmt.Sprintf("%g for boys", r.Value), fmt.Sprintf("near the %g of sex %s", o, sex))
			}
		}
	}
}

func orZero(v *float64) float64 {
	if v == nil {
		return 0
	}
	return *v
}

// checkRatios checks the classes of each measurement's ratio in turn.
func (ts *tableSet) checkRatios() {
	type of struct {
		sex, measurement string
		low              float64
	}
	rows := make(map[of]data.Ratio)
	for _, r := range ts.t.Ratios {
		rows[of{r.Sex, r.Measurement, r.LowCm}] = r
	}
	low, high := math.Inf(1), 0.0
	for _, r := range ts.t.Ratios {
		low, high = min(low, r.LowCm), max(high, r.HighCm)
	}
	var before data.Ratio
	for i, r := range ts.t.Ratios {
		subject := fmt.Sprintf("%s %s %g", r.Sex, r.Measurement, r.LowCm)
		at := func(column, found, expected string) {
			ts.suspect("R45", "ratios.csv", r.Line, column, subject, found, expected, "")
		}
		if r.P50 > 0 && (r.P1/r.P50 < leastP1 || r.P99/r.P50 > mostP99) {
			at("p50", fmt.Sprintf("%g, %g and %g", r.P1, r.P50, r.P99), "percentiles nearer to each other")
		}
		if r.N != math.Trunc(r.N) {
			at("n", fmt.Sprintf("%g children", r.N), "a whole number")
		}
		same := before.Sex == r.Sex && before.Measurement == r.Measurement
		if !same && r.LowCm != low {
			at("height_low_cm", fmt.Sprintf("the first class is from %g cm", r.LowCm), fmt.Sprintf("from %g, as others have", low))
		}
		if last := i == len(ts.t.Ratios)-1 || ts.t.Ratios[i+1].Sex != r.Sex || ts.t.Ratios[i+1].Measurement != r.Measurement; last && r.HighCm != high {
			at("height_high_cm", fmt.Sprintf("the last class is up to %g cm", r.HighCm), fmt.Sprintf("up to %g, as others have", high))
		}
		if same {
			if before.HighCm != r.LowCm {
				at("height_low_cm", fmt.Sprintf("heights from %g, after a row that ends at %g", r.LowCm, before.HighCm), "classes without gaps")
			}
			most := mostJump
			if r.Measurement == "weight" {
				most = mostJumpMass
			}
			for i, pair := range [][2]float64{{before.P1, r.P1}, {before.P50, r.P50}, {before.P99, r.P99}} {
				if i == 2 {
					most = max(most, mostJumpTail)
				}
				if math.Abs(pair[1]-pair[0]) > most*pair[0] {
					at([]string{"p1", "p50", "p99"}[i], fmt.Sprintf("%g", pair[1]), fmt.Sprintf("near the %g of the class before", pair[0]))
				}
			}
		}
		before = r
		if r.Sex != "both" {
			continue
		}
		m, ok := rows[of{"m", r.Measurement, r.LowCm}]
		f, ok2 := rows[of{"f", r.Measurement, r.LowCm}]
		if !ok || !ok2 || m.HighCm != r.HighCm || f.HighCm != r.HighCm {
			continue // classes of another width, where there are few children
		}
		slack := 0.05 * r.P50
		for i, v := range [][3]float64{{r.P1, m.P1, f.P1}, {r.P50, m.P50, f.P50}, {r.P99, m.P99, f.P99}} {
			if low, high := min(v[1], v[2])-slack, max(v[1], v[2])+slack; v[0] < low || v[0] > high {
				at([]string{"p1", "p50", "p99"}[i], fmt.Sprintf("%g", v[0]), fmt.Sprintf("between boys with %g and girls with %g", v[1], v[2]))
			}
		}
		if d := math.Abs(r.N - m.N - f.N); d > 0.1*r.N+5 {
			at("n", fmt.Sprintf("%g children", r.N), fmt.Sprintf("about the %g boys and %g girls together", m.N, f.N))
		}
	}
}
