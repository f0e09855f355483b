package stitch

import "fmt"

// A RaglanPhase is rows of a raglan yoke that increase alike. Where Body or Sleeves
// is 2, one increase is beside the line and the other Apart plain stitches from it:
// two on one spot would pile up.
type RaglanPhase struct {
	Row, Every, Times int // row of the first, from 1; rows from one to the next; how often

	Body    int // increases on the body's side of each of the four lines
	Sleeves int // increases on the sleeves' side of each
	Apart   int // plain stitches between two on one side
	From    int // stitches before the first
}

// Gain is the stitches that each of the rows gains.
func (p RaglanPhase) Gain() int { return 4 * (p.Body + p.Sleeves) }

// RowOf is the row of increase i, from 0.
func (p RaglanPhase) RowOf(i int) int { return p.Row + i*p.Every }

// Last is the row of the last increase.
func (p RaglanPhase) Last() int { return p.RowOf(p.Times - 1) }

// After is the count of stitches once increase i is worked.
func (p RaglanPhase) After(i int) int { return p.From + (i+1)*p.Gain() }

// To is the count of stitches in the end.
func (p RaglanPhase) To() int { return p.After(p.Times - 1) }

// A RaglanPlan is a raglan yoke to work from the neck down.
type RaglanPlan struct {
	Split

	// At the neck: each front (or the front), the back, each sleeve.
	Neck, NeckFront, NeckBack, NeckSleeve int

	Rows int
	// Increases on each side of every line, the yoke through. Where body and
	// sleeves differ, the last rows increase one of them only.
	BodyIncreases, SleeveIncreases int
	Phases                         []RaglanPhase // the rows that increase

	NeckFit, BodyFit, SleeveFit, DepthFit, UnderarmFit Finished

	Cost YokeCost
}

// PlanRaglan finds, among all plans within searchShare of the targets, the one
// of least cost. A full increase row gains 8: two on the back, two on the front
// or one on each front, two on each sleeve. Where the depth has too few right-side
// rows for that, wrong-side rows increase too; where it has too few rows at all, as
// in tall stitches, some have a second increase farther from the line. Fronts and
// back start with the difference they end with; a neck shaped lower in front is not
// planned.
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
	return s.search(8*mostBeside*s.mostRows*s.t.pace(), s.neckSplit)
}

// mostBeside is the most increases of a row on one side of a line.
const mostBeside = 2

// What a raglan costs whose right-side rows are too few for its increases: some
// are then made on wrong-side rows; where all rows are too few, some rows have two
// on one side of a line. In stitches squared, judgements.
const (
	costWrongSide, costEachWrongSide = 1.5, 0.2
	costBeside, costEachBeside       = 2, 0.3
)

// neckSplit tries the shares of the neck for the sleeves, the customary first.
// With n stitches for each sleeve at the neck, the body grows by trunk − neck +
// 2n, 4 at a time, and each sleeve by part − n, 2 at a time; that fixes the
// parity of n; that nothing is taken away fixes its bounds.
func (s *yokeSearch) neckSplit(best *incumbent, c yokeCounts, _ int, cost float64) {
	trunk, part := c.body-2*c.arm, c.sleeve-c.arm // fronts and back, and a sleeve, at the split
	short := c.neck - trunk
	if short%2 != 0 || (short/2-part)%2 != 0 {
		return
	}
	trunkLeast := 2
	if s.t.FrontOpening {
		trunkLeast = 3 + s.t.EdgeStitches
	}
	low, high := max(1, short/2), min(part, (c.neck-trunkLeast)/2)
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
		for _, d := range s.depths {
			if !best.worseThan(cost + d.cost) {
				break
			}
			c.rows = d.n
			beside, ok := s.besideCost(c)
			if total := cost + d.cost + beside; ok && best.worseThan(total) {
				*best = incumbent{c, total, true}
			}
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

// besideCost is what a raglan costs that has more increases than rows to make them
// in; ok is false where it has more than can be made.
func (s *yokeSearch) besideCost(c yokeCounts) (cost float64, ok bool) {
	most := max(c.bodyGain, c.sleeveGain)
	if rightSide := increaseRows(c.rows, s.t.RightSideOnly); most > rightSide {
		cost = costWrongSide + costEachWrongSide*float64(most-rightSide)
	}
	if more := max(0, c.bodyGain-c.rows) + max(0, c.sleeveGain-c.rows); more > 0 {
		cost = costBeside + costEachBeside*float64(more)
	}
	w := s.t.Gauge.StitchWidthCm()
	return s.t.Weights.Rhythm * cost * w * w, most <= mostBeside*c.rows
}

func (s *yokeSearch) raglanPlan(c yokeCounts) RaglanPlan {
	p := RaglanPlan{Split: s.split(c), Neck: c.neck, NeckSleeve: c.neckSleeve, Rows: c.rows,
		BodyIncreases: c.bodyGain, SleeveIncreases: c.sleeveGain, Cost: s.cost(c)}
	p.Cost.NeckSplit = s.neckSplitCost(c.neck, c.neckSleeve)
	p.Cost.Rhythm, _ = s.besideCost(c)
	p.NeckFit, p.BodyFit, p.SleeveFit, p.DepthFit, p.UnderarmFit = s.fits(c)
	p.NeckBack = p.Back - 2*c.bodyGain
	p.NeckFront = p.Front - 2*c.bodyGain
	if p.FrontOpening {
		p.NeckFront = p.Front - c.bodyGain
	}
	p.Phases = p.lay(s.t.RightSideOnly, s.t.Gauge)
	return p
}

// lay lays the increases over the rows.
func (p RaglanPlan) lay(rightSideOnly bool, g Gauge) []RaglanPhase {
	r := RaglanRest{Gauge: g, Plan: p, Rows: p.Rows, Body: p.BodyIncreases, Sleeves: p.SleeveIncreases, RightSideOnly: rightSideOnly}
	all, _ := r.Phases() // there are rows enough, or no plan is made
	return all
}

// A RaglanRest is a raglan that is begun: increases to make on each side of every
// line from a row on.
type RaglanRest struct {
	Gauge         Gauge
	Plan          RaglanPlan
	Row, Rows     int // rows worked, and of the whole yoke
	Body, Sleeves int
	RightSideOnly bool
}

// Phases lays the increases over the rows that are left: first those of body and
// sleeves together, then what is left of one of them. Where the right-side rows
// are too few, all rows take increases; where those are too few, the last rows
// take a second one on a side, where there is most room for it.
func (r RaglanRest) Phases() ([]RaglanPhase, error) {
	t := YokeTarget{Gauge: r.Gauge, RightSideOnly: r.RightSideOnly}
	before := r.Row
	if r.RightSideOnly {
		before += before % 2
	}
	most := max(r.Body, r.Sleeves)
	slots := increaseRows(max(0, r.Rows-before), r.RightSideOnly)
	if most > slots {
		t.RightSideOnly, before = false, r.Row
		slots = max(0, r.Rows-before)
	}
	if least := min(r.Body, r.Sleeves); least < 0 || most > mostBeside*slots {
		return nil, &InputError{"increases beside each line", fmt.Sprintf("%d and %d in %d rows", r.Body, r.Sleeves, r.Rows-r.Row), fmt.Sprintf("0 to %d", mostBeside*slots)}
	}
	front, back, sleeve := r.Plan.NeckFront, r.Plan.NeckBack, r.Plan.NeckSleeve
	widen := func(body, sleeves int) {
		back, sleeve = back+2*body, sleeve+2*sleeves
		if front += 2 * body; r.Plan.FrontOpening {
			front -= body
		}
	}
	count := r.Plan.Neck
	for _, phase := range r.Plan.Phases {
		for i := 0; i < phase.Times && phase.RowOf(i) <= r.Row; i++ {
			widen(phase.Body, phase.Sleeves)
			count = phase.After(i)
		}
	}
	var all []RaglanPhase
	for i, row := range t.raglanRows(min(most, slots), slots, r.RightSideOnly && !t.RightSideOnly) {
		next := RaglanPhase{Row: before + row, Times: 1, Body: beside(r.Body, slots, i), Sleeves: beside(r.Sleeves, slots, i), From: count}
		if last := len(all) - 1; last < 0 || !all[last].takes(next) {
			next.Apart = r.Plan.apart(next, front, back, sleeve)
			all = append(all, next)
		}
		count += next.Gain()
		widen(next.Body, next.Sleeves)
	}
	return all, nil
}

// beside is the increases on one side of a line in increase row i, of so many in
// all.
func beside(increases, slots, i int) int {
	rows := min(increases, slots)
	switch {
	case i >= rows:
		return 0
	case i >= rows-(increases-rows):
		return 2
	}
	return 1
}

// raglanRows are the rows of so many increases at the best distances; over all of
// the rows where they are crowded.
func (t YokeTarget) raglanRows(increases, slots int, crowded bool) []int {
	if increases == 0 {
		return nil
	}
	best := rhythm{rounds: increases, every: slots / increases, longer: slots % increases}
	if !crowded {
		ways := distances(increases, slots)
		best = ways[0]
		for _, r := range ways[1:] {
			if t.distanceCost(r, slots) < t.distanceCost(best, slots)-1e-9 {
				best = r
			}
		}
	}
	rows, slot := make([]int, increases), 0
	for i := range rows {
		rows[i] = slot*t.pace() + 1
		if slot += best.every; i >= increases-best.longer {
			slot++
		}
	}
	return rows
}

// takes adds a row to the phase, if it goes on with it.
func (p *RaglanPhase) takes(next RaglanPhase) bool {
	if next.Body != p.Body || next.Sleeves != p.Sleeves || p.Times > 1 && next.Row != p.RowOf(p.Times) {
		return false
	}
	if p.Times == 1 {
		p.Every = next.Row - p.Row
	}
	p.Times++
	return true
}

// apart is how many plain stitches separate two increases on one side: half of
// what there is on the narrowest part that has them, a few at most.
func (p RaglanPlan) apart(next RaglanPhase, front, back, sleeve int) int {
	if max(next.Body, next.Sleeves) < 2 {
		return 0
	}
	const few = 6
	room := few
	if next.Body == 2 {
		room = min(room, back/4-1, front/4-1)
		if p.FrontOpening {
			room = min(few, back/4-1, front/2-1)
		}
	}
	if next.Sleeves == 2 {
		room = min(room, sleeve/4-1)
	}
	return max(1, room)
}
