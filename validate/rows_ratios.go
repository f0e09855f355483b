package validate

import (
	"fmt"
	"math"

	"growtuck/data"
	"growtuck/sizing"
)

// percentileColumns are the columns of a ratio's percentiles.
var percentileColumns = []string{"p1", "p50", "p99"}

func percentiles(r data.Ratio) [3]float64 { return [3]float64{r.P1, r.P50, r.P99} }

// A ratioAt is a measurement's ratio of one sex, in the class of height that
// begins at low.
type ratioAt struct {
	sex, measurement string
	low              float64
}

// checkRatios checks the classes of each measurement's ratio in turn.
func (ts *tableSet) checkRatios() {
	rows := make(map[ratioAt]data.Ratio)
	low, high := math.Inf(1), 0.0
	for _, r := range ts.t.Ratios {
		rows[ratioAt{r.Sex, r.Measurement, r.LowCm}] = r
		low, high = min(low, r.LowCm), max(high, r.HighCm)
	}
	for i, r := range ts.t.Ratios {
		at := rowAt{ts: ts, rule: "R45", table: "ratios.csv", line: r.Line, subject: fmt.Sprintf("%s %s %g", r.Sex, r.Measurement, r.LowCm)}
		same := func(j int) bool {
			return j >= 0 && j < len(ts.t.Ratios) && ts.t.Ratios[j].Sex == r.Sex && ts.t.Ratios[j].Measurement == r.Measurement
		}
		if r.P50 > 0 && (r.P1/r.P50 < leastP1 || r.P99/r.P50 > mostP99) {
			at.suspect("p50", sizing.NewFact("rows.percentiles", r.P1, r.P50, r.P99), sizing.NewFact("rows.percentiles-nearer"))
		}
		if r.N != math.Trunc(r.N) {
			at.suspect("n", sizing.NewFact("rows.children", r.N), sizing.NewFact("rows.whole-number"))
		}
		if !same(i-1) && r.LowCm != low {
			at.suspect("height_low_cm", sizing.NewFact("rows.first-class", sizing.Length(r.LowCm)), sizing.NewFact("rows.from-as-others", low))
		}
		if !same(i+1) && r.HighCm != high {
			at.suspect("height_high_cm", sizing.NewFact("rows.last-height-class", sizing.Length(r.HighCm)), sizing.NewFact("rows.up-to-as-others", high))
		}
		if same(i - 1) {
			checkRatioStep(at, ts.t.Ratios[i-1], r)
		}
		if r.Sex == "both" {
			checkRatioSexes(at, r, rows)
		}
	}
}

// checkRatioStep compares a class with the one before.
func checkRatioStep(at rowAt, before, r data.Ratio) {
	if before.HighCm != r.LowCm {
		at.suspect("height_low_cm", sizing.NewFact("rows.heights-from", r.LowCm, before.HighCm), sizing.NewFact("rows.no-gaps"))
	}
	most := mostJump
	if r.Measurement == "weight" {
		most = mostJumpMass
	}
	was, is := percentiles(before), percentiles(r)
	for i, column := range percentileColumns {
		if column == "p99" {
			most = max(most, mostJumpTail)
		}
		if math.Abs(is[i]-was[i]) > most*was[i] {
			at.suspect(column, sizing.NewFact("rows.value", is[i]), sizing.NewFact("rows.near-class-before", was[i]))
		}
	}
}

// checkRatioSexes compares both sexes together with each.
func checkRatioSexes(at rowAt, r data.Ratio, rows map[ratioAt]data.Ratio) {
	m, ok := rows[ratioAt{"m", r.Measurement, r.LowCm}]
	f, ok2 := rows[ratioAt{"f", r.Measurement, r.LowCm}]
	if !ok || !ok2 || m.HighCm != r.HighCm || f.HighCm != r.HighCm {
		return // classes of another width, where there are few children
	}
	slack := 0.05 * r.P50
	both, boys, girls := percentiles(r), percentiles(m), percentiles(f)
	for i, column := range percentileColumns {
		low, high := min(boys[i], girls[i])-slack, max(boys[i], girls[i])+slack
		if both[i] < low || both[i] > high {
			at.suspect(column, sizing.NewFact("rows.value", both[i]), sizing.NewFact("rows.between-sexes", boys[i], girls[i]))
		}
	}
	if math.Abs(r.N-m.N-f.N) > 0.1*r.N+5 {
		at.suspect("n", sizing.NewFact("rows.children", r.N), sizing.NewFact("rows.boys-and-girls", m.N, f.N))
	}
}
