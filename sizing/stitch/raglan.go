package stitch

import "fmt"

// A RaglanRound is one row of a raglan yoke that increases.
type RaglanRound struct {
	Row      int // from 1
	Body     int // increases on the body's side of each of the four lines
	Sleeves  int // increases on the sleeves' side of each
	Stitches int // after the row
}

// A RaglanPlan is a raglan yoke to work from the neck down.
type RaglanPlan struct {
	Split

	// At the neck: each front (or the front), the back, each sleeve.
	Neck, NeckFront, NeckBack, NeckSleeve int

	Rows int
	// Increases on each side of every line, the yoke through. Where body and
	// sleeves differ, some rows increase one of them only.
	BodyIncreases, SleeveIncreases int
	Rounds                         []RaglanRound // the rows that increase

	NeckFit, BodyFit, SleeveFit, DepthFit, UnderarmFit Finished

	Cost YokeCost
}

// PlanRaglan finds, among all plans within searchShare of the targets, the one
// of least cost. A full increase row gains 8: two on the back, two on the front
// or one on each front, two on each sleeve; twice that where RaglanAtOnce allows
// it and the depth has too few rows. Fronts and back start with the difference
// they end with; a neck shaped lower in front is not planned.
func PlanRaglan(t YokeTarget) (RaglanPlan, error) {
	if t.PerRound != 0 {
		return RaglanPlan{}, &InputError{"increases a round of a raglan", "given", "none: four lines gain 8"}
	}
	t, err := t.complete()
	if err != nil {
		return RaglanPlan{}, err
	}
	s, err := newYokeSearch(t)
	if err != nil {
		return RaglanPlan{}, err
	}
	best := s.raglan()
	if !best.ok {
		return RaglanPlan{}, &InputError{"raglan", fmt.Sprintf("neck %v, body %v, sleeve %v", t.Neck, t.Body, t.Sleeve),
			fmt.Sprintf("multiples and a depth that meet within %.0f %% of the targets: loosen one", searchShare*100)}
	}
	return s.raglanPlan(best.counts), nil
}

func (s *yokeSearch) raglan() incumbent {
	return s.search(8*s.t.RaglanAtOnce*(len(s.depthFor)-1), s.neckSplit)
}

// neckSplit tries the shares of the neck for the sleeves, the customary first.
// With n stitches for each sleeve at the neck, the body grows by trunk − neck +
// 2n, 4 at a time, and each sleeve by part − n, 2 at a time; that fixes the
// parity of n and, with the rounds there is room for, its bounds.
func (s *yokeSearch) neckSplit(best *incumbent, c yokeCounts, _ int, cost float64) {
	trunk, part := c.body-2*c.arm, c.sleeve-c.arm // fronts and back, and a sleeve, at the split
	short := c.neck - trunk
	if short%2 != 0 || (short/2-part)%2 != 0 {
		return
	}
	most, trunkLeast := s.t.RaglanAtOnce*(len(s.depthFor)-1), 2
	if s.t.FrontOpening {
		trunkLeast = 3 + s.t.EdgeStitches
	}
	low := max(1, short/2, part-2*most)
	high := min(part, (c.neck-trunkLeast)/2, short/2+2*most)
	low += (part - low) & 1
	high -= (part - high) & 1
	if low > high {
		return
	}
	try := func(n int) (goOn bool) {
		cost := cost + s.neckSplitCost(c.neck, n)
		if !best.worseThan(cost) {
			return false
		}
		c.neckSleeve, c.bodyGain, c.sleeveGain = n, (2*n-short)/4, (part-n)/2
		d := s.depthFor[(max(c.bodyGain, c.sleeveGain)+s.t.RaglanAtOnce-1)/s.t.RaglanAtOnce]
		if best.worseThan(cost + d.cost) {
			c.rows = d.n
			*best = incumbent{c, cost + d.cost, true}
		}
		return true
	}
	custom := float64(c.neck) * s.t.SleeveNeckShare
	start := min(max(nearestInt((custom-float64(low))/2)*2+low, low), high)
	for n := start; n <= high && try(n); n += 2 {
	}
	for n := start - 2; n >= low && try(n); n -= 2 {
	}
}

func (s *yokeSearch) neckSplitCost(neck, sleeve int) float64 {
	e := (float64(sleeve) - float64(neck)*s.t.SleeveNeckShare) * s.t.Gauge.StitchWidthCm()
	return s.t.Weights.NeckSplit * e * e
}

func (s *yokeSearch) raglanPlan(c yokeCounts) RaglanPlan {
	p := RaglanPlan{Split: s.split(c), Neck: c.neck, NeckSleeve: c.neckSleeve, Rows: c.rows,
		BodyIncreases: c.bodyGain, SleeveIncreases: c.sleeveGain, Cost: s.cost(c)}
	p.Cost.NeckSplit = s.neckSplitCost(c.neck, c.neckSleeve)
	p.NeckFit, p.BodyFit, p.SleeveFit, p.DepthFit, p.UnderarmFit = s.fits(c)
	p.NeckBack = p.Back - 2*c.bodyGain
	p.NeckFront = p.Front - 2*c.bodyGain
	if p.FrontOpening {
		p.NeckFront = p.Front - c.bodyGain
	}
	// The part with fewer increases has them on some of the rows of the other.
	row, usable := rowOf(s.t.RightSideOnly), increaseRows(c.rows, s.t.RightSideOnly)
	rows := EvenRows(min(max(c.bodyGain, c.sleeveGain), usable), usable)
	n, count := len(rows), c.neck
	for i, r := range rows {
		body, sleeves := (i+1)*c.bodyGain/n-i*c.bodyGain/n, (i+1)*c.sleeveGain/n-i*c.sleeveGain/n
		count += 4 * (body + sleeves)
		p.Rounds = append(p.Rounds, RaglanRound{row(r), body, sleeves, count})
	}
	return p
}
