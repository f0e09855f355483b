package stitch

import (
	"fmt"
)

// searchShare and searchCounts bound the plans that are looked at: every count
// within this share of its target, but at most so many counts of its multiple
// on either side; and the nearest count, however far. Plans farther off are not
// considered.
const (
	searchShare  = 0.3
	searchCounts = 40
)

// A YokeTarget is the upper body in finished measurements, for a yoke worked
// from the neck down.
type YokeTarget struct {
	Gauge Gauge

	NeckCm     float64 // girth at the first row
	BodyCm     float64 // girth below the underarm
	SleeveCm   float64 // girth of the sleeve top
	DepthCm    float64 // of the yoke, neck to underarm
	UnderarmCm float64 // width under each arm

	// Floors that no plan goes under, 0 for none: the body with its least ease.
	NeckLeastCm, BodyLeastCm, SleeveLeastCm, DepthLeastCm float64

	Neck, Body, Sleeve Multiple // of the counts; the zero value is plain
	Depth              Multiple // of the rows

	FrontOpening  bool // two equal fronts
	EdgeStitches  int  // stitches as wide as the edges of a front opening, which are none of the body's
	Turned        bool // worked in turned rows, whose edges stay plain: always with a front opening
	RightSideOnly bool // no increases on wrong-side rows

	// Circular yoke only. PerRound fixes the increases of every increase round;
	// when it is 0, they may be 4 to IncreaseMost (but at least 8) for each row up
	// to the next increase round.
	PerRound int

	// IncreaseMost is the most increases for a row, of those that lie flat;
	// SleeveNeckShare is each sleeve's part of the neck in a raglan.
	IncreaseMost, SleeveNeckShare float64

	Weights Weights // the zero value is defaultWeights

	minPerRound, maxPerRound int // what PerRound leaves
}

// Weights say what a centimetre of error in each target costs, squared. A
// weight of 0 leaves its target free within searchShare.
type Weights struct {
	Neck, Body, Sleeve, Depth, Underarm float64
	Balance                             float64 // back against fronts
	NeckSplit                           float64 // raglan: sleeve at the neck against its share
	Rhythm                              float64 // a yoke that takes many words, for each stitch squared
}

// defaultWeights put the body first, then sleeve and neck. A judgement: a yoke
// or an underarm a row or a stitch off is not noticed, a tight body is.
var defaultWeights = Weights{Neck: 2, Body: 4, Sleeve: 2, Depth: 1, Underarm: 0.5, Balance: 0.25, NeckSplit: 0.25, Rhythm: 1}

// A YokeCost is what a plan misses, by target: weight × error in cm, squared;
// and how hard its increases are to follow.
type YokeCost struct {
	Neck, Body, Sleeve, Depth, Underarm, Balance, NeckSplit, Rhythm float64
}

// Total is the sum over the targets; plans are chosen for the least.
func (c YokeCost) Total() float64 {
	return c.Neck + c.Body + c.Sleeve + c.Depth + c.Underarm + c.Balance + c.NeckSplit + c.Rhythm
}

// A YokeRound is one row of the yoke that increases.
type YokeRound struct {
	Row      int // from 1
	Increase int // stitches gained
	Stitches int // after the row
}

// A YokePlan is a circular yoke to work.
type YokePlan struct {
	Split

	Neck   int         // stitches to start on
	Rows   int         // of the yoke
	Phases []Repeat    // the rows that increase, in one rhythm or two; all others are plain
	Rounds []YokeRound // the same, one by one

	PerRound int    // increases of each increase round, 0 when there is none
	Lie      Circle // increases averaged over all rows, against flat

	NeckFit, BodyFit, SleeveFit, DepthFit, UnderarmFit Finished

	Cost YokeCost
}

// PlanCircularYoke finds, among all plans within searchShare of the targets,
// the one of least cost: every increase round gains the same number, the parts
// add up, left equals right, and a maker can keep it in mind.
func PlanCircularYoke(t YokeTarget) (YokePlan, error) {
	t, err := t.complete()
	if err != nil {
		return YokePlan{}, err
	}
	s, err := newYokeSearch(t)
	if err != nil {
		return YokePlan{}, err
	}
	best := s.circular()
	if !best.ok {
		return YokePlan{}, &InputError{"yoke", fmt.Sprintf("neck %v, body %v, sleeve %v with %s", t.Neck, t.Body, t.Sleeve, t.increaseRange()),
			fmt.Sprintf("multiples and increases that meet within %.0f %% of the targets: loosen one", searchShare*100)}
	}
	return s.plan(best.counts), nil
}

func (t YokeTarget) increaseRange() string {
	if t.minPerRound == t.maxPerRound {
		return fmt.Sprintf("%d increases a round", t.minPerRound)
	}
	return fmt.Sprintf("%d to %d increases a round", t.minPerRound, t.maxPerRound)
}

// complete checks the target and fills in defaults.
func (t YokeTarget) complete() (YokeTarget, error) {
	if err := firstError(
		t.Gauge.Validate(),
		checkLength("neck", t.NeckCm), checkLength("body", t.BodyCm),
		checkLength("sleeve", t.SleeveCm), checkLength("yoke depth", t.DepthCm),
		checkLength("underarm", t.UnderarmCm),
		checkOptionalLength("least neck", t.NeckLeastCm), checkOptionalLength("least body", t.BodyLeastCm),
		checkOptionalLength("least sleeve", t.SleeveLeastCm), checkOptionalLength("least yoke depth", t.DepthLeastCm),
		t.Neck.Validate(), t.Body.Validate(), t.Sleeve.Validate(), t.Depth.Validate(),
		checkCount("increases a round", t.PerRound, 0), checkCount("stitches of the edges", t.EdgeStitches, 0),
		checkRange("most increases of a round", t.IncreaseMost, 0.1, 10, "times those that lie flat"), checkRange("sleeve's share of the neck", t.SleeveNeckShare, 0, 0.5, ""),
	); err != nil {
		return t, err
	}
	if t.Weights == (Weights{}) {
		t.Weights = defaultWeights
	}
	w := t.Weights
	for _, x := range []float64{w.Neck, w.Body, w.Sleeve, w.Depth, w.Underarm, w.Balance, w.NeckSplit, w.Rhythm} {
		if err := checkRange("weight", x, 0, 1e6, ""); err != nil {
			return t, err
		}
	}
	t.Turned = t.Turned || t.FrontOpening
	if t.PerRound > 0 {
		t.minPerRound, t.maxPerRound = t.PerRound, t.PerRound
		return t, nil
	}
	t.minPerRound = 4
	t.maxPerRound = t.mostAtOnce(2)
	return t, nil
}

// plan writes out the best counts found.
func (s *yokeSearch) plan(c yokeCounts) YokePlan {
	t := s.t
	p := YokePlan{Split: s.split(c), Neck: c.neck, Rows: c.rows, PerRound: c.rhythm.perRound, Phases: t.phases(c.neck, c.rhythm), Cost: s.cost(c)}
	p.NeckFit, p.BodyFit, p.SleeveFit, p.DepthFit, p.UnderarmFit = s.fits(c)
	for _, phase := range p.Phases {
		for i := range phase.Times {
			p.Rounds = append(p.Rounds, YokeRound{phase.RowOf(i), phase.Change, phase.After(i)})
		}
	}
	flat := flatIncreases(t.Gauge)
	mean := float64(p.Yoke-p.Neck) / float64(c.rows)
	p.Lie = Circle{mean, flat, mean/flat - 1}
	return p
}

// increaseRows is how many of the rows may increase.
func increaseRows(rows int, rightSideOnly bool) int {
	if rightSideOnly {
		return (rows + 1) / 2
	}
	return rows
}
