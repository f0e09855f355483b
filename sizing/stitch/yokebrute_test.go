package stitch

import (
	"math"

	"pgregory.net/rapid"
)

// allowed is the counts a plan may use for a size, by the words of searchShare.
func allowed(m Multiple, wantCm, leastCm, unitCm float64) []int {
	want, floor := wantCm/unitCm, leastCm/unitCm
	all := m.counts(int(2*math.Max(want, floor)) + 60)
	below, above := -1, -1
	for _, n := range all {
		if float64(n) <= want+1e-9 {
			below = n
		} else if above < 0 {
			above = n
		}
	}
	var list []int
	for _, n := range all {
		x := float64(n)
		near := x >= want*(1-searchShare)-1e-9 && x <= want*(1+searchShare)+1e-9
		if (near || n == below || (n == above && float64(below) < want-1e-9)) && x >= floor-1e-9 {
			list = append(list, n)
		}
	}
	if list == nil {
		for _, n := range all {
			if float64(n) >= floor-1e-9 {
				return []int{n}
			}
		}
	}
	return list
}

func squared(weight, cm float64) float64 { return weight * cm * cm }

// forEachBody calls f with every body, sleeve, underarm and share of fronts and
// back, and what they cost.
func forEachBody(t YokeTarget, f func(trunk, body, sleeve, arm, front, back int, cost float64)) {
	w := t.Gauge.StitchWidthCm()
	for _, body := range allowed(t.Body, t.BodyCm, t.BodyLeastCm, w) {
		for _, sleeve := range allowed(t.Sleeve, t.SleeveCm, t.SleeveLeastCm, w) {
			for _, arm := range allowed(Plain, t.UnderarmCm, 0, w) {
				trunk := body - 2*arm
				// The front that balances the back best, its edges counted in; the smaller of two.
				front, off, edges := 0, math.MaxInt, 0
				for f := range max(trunk, 0) {
					fronts := f
					if t.FrontOpening {
						fronts, edges = 2*f, t.EdgeStitches
					}
					if by := abs(trunk - 2*fronts - edges); fronts < trunk && by < off {
						front, off = f, by
					}
				}
				if front == 0 || sleeve-arm < 1 {
					continue
				}
				fronts := front
				if t.FrontOpening {
					fronts = 2 * front
				}
				f(trunk, body, sleeve, arm, front, trunk-fronts, squared(t.Weights.Body, float64(body)*w-t.BodyCm)+
					squared(t.Weights.Sleeve, float64(sleeve)*w-t.SleeveCm)+
					squared(t.Weights.Underarm, float64(arm)*w-t.UnderarmCm)+
					squared(t.Weights.Balance, float64(off)*w))
			}
		}
	}
}

func rowsToIncrease(rows int, rightSideOnly bool) int {
	n := 0
	for r := 1; r <= rows; r++ {
		if !rightSideOnly || r%2 == 1 {
			n++
		}
	}
	return n
}

// bruteYoke tries every plan.
func bruteYoke(t YokeTarget) float64 {
	w, h := t.Gauge.StitchWidthCm(), t.Gauge.RowHeightCm()
	best := math.Inf(1)
	necks := allowed(t.Neck, t.NeckCm, t.NeckLeastCm, w)
	depths := allowed(t.Depth, t.DepthCm, t.DepthLeastCm, h)
	type asked struct{ neck, yoke, rows int }
	prices := make(map[asked]float64)
	forEachBody(t, func(trunk, body, sleeve, arm, _, _ int, cost float64) {
		if cost >= best {
			return
		}
		yoke := trunk + 2*(sleeve-arm)
		for _, neck := range necks {
			for _, rows := range depths {
				c := cost + squared(t.Weights.Neck, float64(neck)*w-t.NeckCm) + squared(t.Weights.Depth, float64(rows)*h-t.DepthCm)
				if c >= best {
					continue
				}
				q := asked{neck, yoke, rows}
				if _, known := prices[q]; !known {
					prices[q] = math.Inf(1)
					if r, ok := tried(t, neck, yoke-neck, usable(0, rows, t.RightSideOnly)); ok {
						prices[q] = t.Weights.Rhythm * r.price * w * w
					} else if yoke == neck {
						prices[q] = 0
					}
				}
				best = min(best, c+prices[q])
			}
		}
	})
	return best
}

// bruteRaglan tries every plan.
func bruteRaglan(t YokeTarget) float64 {
	w, h := t.Gauge.StitchWidthCm(), t.Gauge.RowHeightCm()
	best := math.Inf(1)
	necks := allowed(t.Neck, t.NeckCm, t.NeckLeastCm, w)
	depths := allowed(t.Depth, t.DepthCm, t.DepthLeastCm, h)
	forEachBody(t, func(_, body, sleeve, arm, front, back int, cost float64) {
		if cost >= best {
			return
		}
		for _, rows := range depths {
			most := 2 * rows
			for bodyRounds := 0; bodyRounds <= most; bodyRounds++ {
				neckFronts, neckBack := front-2*bodyRounds, back-2*bodyRounds
				if t.FrontOpening {
					neckFronts = 2 * (front - bodyRounds)
				}
				for sleeveRounds := 0; sleeveRounds <= most; sleeveRounds++ {
					neckSleeve := sleeve - arm - 2*sleeveRounds
					if neckFronts < 1 || neckBack < 1 || neckSleeve < 1 {
						continue
					}
					neck := neckFronts + neckBack + 2*neckSleeve
					for _, n := range necks {
						if n != neck {
							continue
						}
						crowded, most := 0.0, max(bodyRounds, sleeveRounds)
						if usable := rowsToIncrease(rows, t.RightSideOnly); most > usable { // on wrong-side rows too
							crowded = 1.5 + 0.2*float64(most-usable)
						}
						if twice := max(bodyRounds-rows, 0) + max(sleeveRounds-rows, 0); twice > 0 { // two on one side
							crowded = 2 + 0.3*float64(twice)
						}
						best = min(best, cost+squared(t.Weights.Depth, float64(rows)*h-t.DepthCm)+t.Weights.Rhythm*crowded*w*w+
							squared(t.Weights.Neck, float64(neck)*w-t.NeckCm)+
							squared(t.Weights.NeckSplit, (float64(neckSleeve)-float64(neck)*t.SleeveNeckShare)*w))
					}
				}
			}
		}
	})
	return best
}

// drawYoke draws a small yoke, so that every plan can be tried.
func drawYoke(t *rapid.T, scale float64) YokeTarget {
	g := Gauge{10, rapid.Float64Range(5, 16).Draw(t, "rows")}
	small := func(name string) Multiple {
		return Multiple{rapid.IntRange(1, 4).Draw(t, name+" repeat"), rapid.IntRange(0, 2).Draw(t, name+" edge")}
	}
	y := YokeTarget{
		Gauge:         g,
		NeckCm:        scale * rapid.Float64Range(8, 16).Draw(t, "neck"),
		BodyCm:        scale * rapid.Float64Range(14, 32).Draw(t, "body"),
		SleeveCm:      scale * rapid.Float64Range(5, 12).Draw(t, "sleeve"),
		DepthCm:       scale * rapid.Float64Range(3, 10).Draw(t, "depth"),
		UnderarmCm:    scale * rapid.Float64Range(1, 4).Draw(t, "underarm"),
		Neck:          small("neck"),
		Body:          small("body"),
		Sleeve:        small("sleeve"),
		FrontOpening:  rapid.Bool().Draw(t, "opening"),
		RightSideOnly: rapid.Bool().Draw(t, "right side"),
		Turned:        rapid.Bool().Draw(t, "turned"),
		Weights: Weights{Neck: rapid.Float64Range(0, 3).Draw(t, "w neck"), Body: 4, Sleeve: rapid.Float64Range(0.1, 3).Draw(t, "w sleeve"),
			Depth: rapid.Float64Range(0, 2).Draw(t, "w depth"), Underarm: 0.5, Balance: rapid.Float64Range(0.1, 1).Draw(t, "w balance"), NeckSplit: 0.25, Rhythm: rapid.Float64Range(0, 1).Draw(t, "w rhythm")},
		Depth:        Multiple{rapid.IntRange(1, 2).Draw(t, "depth repeat"), 0},
		EdgeStitches: rapid.IntRange(0, 4).Draw(t, "edges"),
		IncreaseMost: rapid.Float64Range(0.5, 2).Draw(t, "increase most"),
	}
	if rapid.Bool().Draw(t, "floors") {
		y.BodyLeastCm = y.BodyCm * rapid.Float64Range(0.9, 1.1).Draw(t, "least body")
		y.SleeveLeastCm = y.SleeveCm * rapid.Float64Range(0.9, 1.4).Draw(t, "least sleeve")
		y.DepthLeastCm = y.DepthCm * rapid.Float64Range(0.8, 1.2).Draw(t, "least depth")
		y.NeckLeastCm = y.NeckCm * rapid.Float64Range(0.9, 1.1).Draw(t, "least neck")
	}
	return y
}
