package stitch

import (
	"fmt"
	"strconv"
)

// A HoodShape is how the top of a hood is made.
type HoodShape int

const (
	StraightHood HoodShape = iota // folded and joined along the top; it leaves a point
	ShapedHood                    // decreased at the middle of the back before it is joined: round
	PanelHood                     // a middle panel worked on over the crown, joined to the sides
)

// String is "straight", "shaped crown" or "centre panel".
func (s HoodShape) String() string {
	switch s {
	case StraightHood:
		return "straight"
	case ShapedHood:
		return "shaped crown"
	case PanelHood:
		return "centre panel"
	}
	return "HoodShape(" + strconv.Itoa(int(s)) + ")"
}

// A HoodTarget is a hood worked up from the neck in turned rows, the first of
// which picks up its stitches on the right side.
type HoodTarget struct {
	Gauge Gauge
	Neck  int // stitches at the neck to work it on

	RoundCm, RoundLeastCm float64 // fabric from face edge to face edge round the back, and its floor (0: none)
	HeightCm              float64 // neck to crown, ease included
	CrownCm               float64 // height of a shaped crown, of HeightCm

	Shape         HoodShape
	RightSideOnly bool // shaped on right-side rows alone

	BackShare  float64 // stitches at the back of the neck that take the increases, of the neck
	GrowthMost float64 // most that a row gains, of the stitches that take the increases
	IncreaseCm float64 // height above the neck within which it widens in every second row; else in every row
	CrownShare float64 // stitches that a shaped crown takes away or a centre panel has, of the hood's
}

// A HoodPlan is a hood to work. Width and Height carry the errors.
type HoodPlan struct {
	Shape HoodShape

	Neck      int
	Increases []HoodIncrease // rows that widen it, so that it clears the face
	EdgePlain int            // stitches kept plain at each front edge

	Stitches int // of the hood at its full width
	Rows     int // neck to crown
	Width    Finished
	Height   Finished

	Crown        Schedule // shaped crown: decreases on both sides of the middle of the back, ending at the top
	SeamStitches int      // on each half of the top seam; 0 with a panel

	Panel, Side int // centre panel: Stitches = Panel + 2 × Side
	PlainRows   int // rows between the last increase and the top's shaping
	PanelRows   int // centre panel: rows worked on it over the crown, as long as a side is wide
}

// A HoodIncrease is a row of the hood that gains stitches.
type HoodIncrease struct {
	Row int // from 1, the row that picks up
	Across
}

// PlanHood counts a hood. It is never narrower than the neck it starts on, and
// its stitches are even, so that it folds in half.
func PlanHood(t HoodTarget) (HoodPlan, error) {
	if err := firstError(t.Gauge.Validate(), checkCount("hood's neck stitches", t.Neck, 4), checkLength("hood, face edge to face edge", t.RoundCm),
		checkOptionalLength("least of the hood, face edge to face edge", t.RoundLeastCm), checkLength("height of the hood", t.HeightCm), checkLength("height of the crown", t.CrownCm),
		checkRange("share of the back", t.BackShare, 0.1, 1, ""), checkRange("growth of a row", t.GrowthMost, 0.01, 1, ""),
		checkLength("height of the increases", t.IncreaseCm), checkRange("share of the crown", t.CrownShare, 0.01, 0.9, "")); err != nil {
		return HoodPlan{}, err
	}
	p := HoodPlan{Shape: t.Shape, Neck: t.Neck}
	var err error
	if p.Width, err = t.Gauge.FitWidthAtLeast(t.RoundCm, max(t.Gauge.WidthCm(t.Neck), t.RoundLeastCm), Even); err != nil {
		return HoodPlan{}, err
	}
	p.Stitches = p.Width.Count
	if p.Height, err = t.Gauge.FitHeight(t.HeightCm, Plain, Nearest); err != nil {
		return HoodPlan{}, err
	}
	p.Rows = p.Height.Count
	if err := p.widen(t); err != nil {
		return HoodPlan{}, err
	}
	if err := p.top(t); err != nil {
		return HoodPlan{}, err
	}
	return p, nil
}

// widen lays the increases over as few rows as they may gain at once, in every
// second row above the one that picks up, or in every row where that would be
// too high.
func (p *HoodPlan) widen(t HoodTarget) error {
	p.EdgePlain = int(float64(t.Neck) * (1 - t.BackShare) / 2)
	over := t.Neck - 2*p.EdgePlain
	changes := growth(p.Stitches-t.Neck, over, t.GrowthMost)
	pace, first := 2, 2
	switch {
	case t.RightSideOnly:
		first = 3
	case t.Gauge.HeightCm(2*len(changes)) > t.IncreaseCm:
		pace = 1
	}
	count := t.Neck
	for i, by := range changes {
		back, err := ShapeAcross(count-2*p.EdgePlain, by, false)
		if err != nil {
			return err
		}
		p.Increases = append(p.Increases, HoodIncrease{first + pace*i, back.between(p.EdgePlain)})
		count += by
	}
	return nil
}

// growth shares a gain over as few rows as may be, none of which gains more
// than a share of the stitches that take it, and which differ little.
func growth(gain, over int, most float64) []int {
	can := func(over int) int { return max(1, int(float64(over)*most+countTolerance)) }
	rows := 0
	for left, back := gain, over; left > 0; rows++ {
		by := min(left, can(back))
		left, back = left-by, back+by
	}
	var changes []int
	for left := gain; left > 0; rows-- {
		by := min(can(over), (left+rows-1)/rows)
		changes = append(changes, by)
		left, over = left-by, over+by
	}
	return changes
}

// widened is the last row that gains stitches, or the one that picks up.
func (p HoodPlan) widened() int {
	if n := len(p.Increases); n > 0 {
		return p.Increases[n-1].Row
	}
	return 1
}

// top shapes the crown in the rows above the increases.
func (p *HoodPlan) top(t HoodTarget) error {
	g := t.Gauge
	free := p.Rows - p.widened()
	if free < 1 {
		return &InputError{"height of the hood", plural(p.Rows, "row"), fmt.Sprintf("more than the %d rows in which it widens", p.widened())}
	}
	switch p.Shape {
	case StraightHood:
		p.SeamStitches, p.PlainRows = p.Stitches/2, free
	case ShapedHood:
		rows := min(max(1, nearestInt(g.Rows(t.CrownCm))), free)
		if t.RightSideOnly && (p.Rows-rows)%2 == 1 && rows > 1 {
			rows-- // it begins on a right-side row
		}
		if err := p.crown(t, rows); err != nil {
			return err
		}
		p.SeamStitches, p.PlainRows = p.Crown.To()/2, free-rows
	case PanelHood:
		p.Panel = max(2, 2*nearestInt(float64(p.Stitches)*t.CrownShare/2))
		p.Side = (p.Stitches - p.Panel) / 2
		if p.Side < 1 {
			return &InputError{"hood", plural(p.Stitches, "stitch"), "enough for a panel and two sides"}
		}
		// The panel lies over the crown half its width below the full height.
		p.PlainRows = nearestInt(float64(p.Rows)-g.Rows(g.WidthCm(p.Panel)/2)) - p.widened()
		if p.PlainRows < 1 {
			return &InputError{"height of the hood", num(p.Height.SizeCm) + " cm",
				"more than half the panel, " + num(g.WidthCm(p.Panel)/2) + " cm, and the rows in which it widens"}
		}
		p.PanelRows = max(1, nearestInt(g.Rows(g.WidthCm(p.Side))))
	default:
		return &InputError{"shape of the hood", p.Shape.String(), "StraightHood, ShapedHood or PanelHood"}
	}
	return nil
}

// crown takes a share of the hood's stitches away over rows, half of them on
// each side of the middle of the back: the corner of the fold becomes a curve.
// One at a time on each side, or more where the rows are too few.
func (p *HoodPlan) crown(t HoodTarget, rows int) error {
	each := max(1, int(float64(p.Stitches)*t.CrownShare/2))
	var err error
	for once := 1; once <= each; once++ {
		p.Crown, err = Taper{From: p.Stitches, To: p.Stitches - 2*(each-each%once), Rows: rows, AtOnce: once, RightSideOnly: t.RightSideOnly}.Schedule()
		if err == nil {
			return nil
		}
	}
	return err
}
