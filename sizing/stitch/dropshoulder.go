package stitch

import "fmt"

// A DropShoulderTarget is the upper body of a garment without armhole shaping:
// front and back are rectangles, the sleeve is picked up along their sides.
type DropShoulderTarget struct {
	Gauge Gauge

	BodyCm, BodyLeastCm             float64 // girth, and its floor (0: none)
	NeckWidthCm                     float64 // straight across the back neck
	ArmholeDepthCm, ArmholeLeastCm  float64
	Body, Sleeve                    Multiple
	FrontOpening, OddRowsAtShoulder bool // OddRowsAtShoulder: the armhole ends on a right-side row
	EdgeStitches                    int  // as those of a yoke
}

// A DropShoulderPlan is the upper body in stitches and rows.
type DropShoulderPlan struct {
	FrontOpening bool

	Body, Front, Back int // Front: each front with an opening, else the whole
	Neck, Shoulder    int // of the back: Back = Neck + 2 × Shoulder
	ArmholeRows       int
	SleeveTop         int // stitches to pick up round the armhole

	BodyFit, NeckFit, ArmholeFit, SleeveFit Finished
}

// PlanDropShoulder counts a drop shoulder. Each count is the nearest its
// target allows: body first, then the neck with the parity of the back, so that
// both shoulders are equal, then the armhole and the sleeve that goes round it.
func PlanDropShoulder(t DropShoulderTarget) (DropShoulderPlan, error) {
	p := DropShoulderPlan{FrontOpening: t.FrontOpening}
	var err error
	if p.BodyFit, err = t.Gauge.FitWidthAtLeast(t.BodyCm, t.BodyLeastCm, t.Body); err != nil {
		return p, err
	}
	p.Body = p.BodyFit.Count
	var ok bool
	if p.Front, p.Back, ok = splitBody(p.Body, t.FrontOpening, t.EdgeStitches); !ok {
		return p, &InputError{"body", fmt.Sprintf("%d stitches", p.Body), "enough for fronts and back"}
	}
	neck, _ := Plain.WithParity(p.Back%2 == 1)
	if p.NeckFit, err = t.Gauge.FitWidth(t.NeckWidthCm, neck, Nearest); err != nil {
		return p, err
	}
	p.Neck = p.NeckFit.Count
	p.Shoulder = (p.Back - p.Neck) / 2
	if p.Shoulder < 1 {
		return p, &InputError{"neck width", num(t.NeckWidthCm) + " cm", fmt.Sprintf("less than the back, %s cm", num(t.Gauge.WidthCm(p.Back)))}
	}
	rows, _ := Plain.WithParity(t.OddRowsAtShoulder)
	if p.ArmholeFit, err = t.Gauge.FitHeightAtLeast(t.ArmholeDepthCm, t.ArmholeLeastCm, rows); err != nil {
		return p, err
	}
	p.ArmholeRows = p.ArmholeFit.Count
	if p.SleeveFit, err = t.Gauge.FitWidth(2*p.ArmholeFit.SizeCm, t.Sleeve, Nearest); err != nil {
		return p, err
	}
	p.SleeveTop = p.SleeveFit.Count
	return p, nil
}

// DropSleeveCm is the length of a sleeve that starts where half the width of
// the back ends: from the middle of the back to the wrist, less that half.
func DropSleeveCm(neckToWristCm, backWidthCm float64) (float64, error) {
	if err := firstError(checkLength("centre back to wrist", neckToWristCm), checkLength("width of the back", backWidthCm)); err != nil {
		return 0, err
	}
	cm := neckToWristCm - backWidthCm/2
	if cm <= 0 {
		return 0, &InputError{"width of the back", num(backWidthCm) + " cm", "less than twice the centre back to wrist, " + num(2*neckToWristCm) + " cm"}
	}
	return cm, nil
}
