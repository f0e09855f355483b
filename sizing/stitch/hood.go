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

// A HoodTarget is a hood worked up from the neck in turned rows.
type HoodTarget struct {
	Gauge Gauge
	Neck  int // stitches at the neck to work it on

	HeadCm float64 // girth of the head, or what of it the hood goes round
	EaseCm float64 // added to it

	HeightCm float64 // neck to crown, ease included

	Shape HoodShape

	BackShare  float64 // stitches at the back of the neck that take the increases, of the neck
	IncreaseCm float64 // height above the neck in which it widens
	CrownShare float64 // stitches that a shaped crown takes away or a centre panel has, of the hood's
}

// A HoodPlan is a hood to work. Width and Height carry the errors.
type HoodPlan struct {
	Shape HoodShape

	Neck         int
	Increases    []YokeRound // rows that widen it, so that it clears the face
	IncreaseOver int         // stitches at the back that take the increases on the first of them
	EdgePlain    int         // stitches kept plain at each front edge

	Stitches int // of the hood at its full width
	Rows     int // neck to crown
	Width    Finished
	Height   Finished

	Crown        Schedule // shaped crown: decreases on both sides of the middle of the back, ending at the top
	SeamStitches int      // on each half of the top seam; 0 with a panel

	Panel, Side int // centre panel: Stitches = Panel + 2 × Side
	PlainRows   int // rows before the top is shaped
	PanelRows   int // centre panel: rows worked on it over the crown, as long as a side is wide
}

// PlanHood counts a hood. It is never narrower than the neck it starts on, and
// its stitches are even, so that it folds in half.
func PlanHood(t HoodTarget) (HoodPlan, error) {
	if err := firstError(t.Gauge.Validate(), checkCount("hood's neck stitches", t.Neck, 4), checkLength("head", t.HeadCm),
		checkRange("ease of the hood", t.EaseCm, -20, 50, "cm"), checkLength("height of the hood", t.HeightCm), checkRange("share of the back", t.BackShare, 0.1, 1, ""),
		checkLength("height of the increases", t.IncreaseCm), checkRange("share of the crown", t.CrownShare, 0.01, 0.9, "")); err != nil {
		return HoodPlan{}, err
	}
	p := HoodPlan{Shape: t.Shape, Neck: t.Neck}
	var err error
	if p.Width, err = t.Gauge.FitWidthAtLeast(t.HeadCm+t.EaseCm, t.Gauge.WidthCm(t.Neck), Even); err != nil {
		return HoodPlan{}, err
	}
	p.Stitches = p.Width.Count
	if p.Height, err = t.Gauge.FitHeight(t.HeightCm, Plain, Nearest); err != nil {
		return HoodPlan{}, err
	}
	p.Rows = p.Height.Count
	p.widen(t)
	if err := p.top(t.Gauge, t.CrownShare); err != nil {
		return HoodPlan{}, err
	}
	return p, nil
}

// widen lays the increases over the first rows, at most one in every two of
// the stitches at the back.
func (p *HoodPlan) widen(t HoodTarget) {
	p.EdgePlain = int(float64(t.Neck) * (1 - t.BackShare) / 2)
	p.IncreaseOver = t.Neck - 2*p.EdgePlain
	gain := p.Stitches - t.Neck
	if gain == 0 {
		return
	}
	rows := min(gain, max(1, nearestInt(t.Gauge.Rows(t.IncreaseCm)), (2*gain+p.IncreaseOver-1)/p.IncreaseOver))
	for i := range rows {
		p.Increases = append(p.Increases, YokeRound{Row: i + 1, Increase: (i+1)*gain/rows - i*gain/rows, Stitches: t.Neck + (i+1)*gain/rows})
	}
}

// top shapes the crown in the rows above the increases.
func (p *HoodPlan) top(g Gauge, share float64) error {
	free := p.Rows - len(p.Increases)
	if free < 1 {
		return &InputError{"height of the hood", plural(p.Rows, "row"), fmt.Sprintf("more than the %d rows in which it widens", len(p.Increases))}
	}
	switch p.Shape {
	case StraightHood:
		p.SeamStitches, p.PlainRows = p.Stitches/2, free
	case ShapedHood:
		// A share of the hood's stitches goes, half of them on each side, in every
		// second row: the corner of the fold becomes a curve.
		decreases := max(1, int(float64(p.Stitches)*share/2))
		rows := min(2*decreases, free)
		decreases = min(decreases, rows)
		var err error
		p.Crown, err = Taper{From: p.Stitches, To: p.Stitches - 2*decreases, Rows: rows}.Schedule()
		if err != nil {
			return err
		}
		p.SeamStitches, p.PlainRows = p.Crown.To()/2, free-rows
	case PanelHood:
		p.Panel = max(2, 2*nearestInt(float64(p.Stitches)*share/2))
		p.Side = (p.Stitches - p.Panel) / 2
		if p.Side < 1 {
			return &InputError{"hood", plural(p.Stitches, "stitch"), "enough for a panel and two sides"}
		}
		// The panel lies over the crown half its width below the full height.
		p.PlainRows = nearestInt(float64(p.Rows)-g.Rows(g.WidthCm(p.Panel)/2)) - len(p.Increases)
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
