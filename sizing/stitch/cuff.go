package stitch

import "fmt"

// RibShare is the share of the fabric's stitches that ribbing is worked on
// (common practice; 90 % in E. Zimmermann's system).
const RibShare = 0.9

// A RibPlan is ribbing joined to a fabric.
type RibPlan struct {
	Fabric, Rib int     // stitches on either side of the join
	Join        Across  // the row that goes from Fabric to Rib
	WidthCm     float64 // of the ribbing unstretched, at its own gauge
}

// PlanRib counts ribbing on a share of the fabric's stitches (0: RibShare),
// nearest to a multiple and not over the fabric. Measure the ribbing's own
// gauge.
func PlanRib(fabric int, share float64, m Multiple, rib Gauge, inRounds bool) (RibPlan, error) {
	if share == 0 {
		share = RibShare
	}
	if err := firstError(checkCount("stitches of the fabric", fabric, 1), checkRange("share of ribbing", share, 0.5, 1, ""), rib.Validate()); err != nil {
		return RibPlan{}, err
	}
	if inRounds {
		m = m.InTheRound()
	}
	n, err := m.Count(float64(fabric)*share, Nearest)
	if err == nil && n > fabric {
		n, err = m.Count(float64(fabric), Down)
	}
	if err != nil {
		return RibPlan{}, err
	}
	p := RibPlan{Fabric: fabric, Rib: n, WidthCm: rib.WidthCm(n)}
	p.Join, err = ShapeAcross(fabric, n-fabric, inRounds)
	return p, err
}

// An Opening is an edge that must stretch over something: a neck over the
// head, a cuff over the hand. How far an edge stretches depends on yarn and
// stitch: measure it on the swatch.
type Opening struct {
	EdgeCm  float64 // girth unstretched
	Stretch float64 // stretched ÷ unstretched, measured; 1 does not stretch
	OverCm  float64 // the girth that must pass
}

// Validate refuses lengths out of range and a stretch under 1 or over 3.
func (o Opening) Validate() error {
	return firstError(checkLength("edge of the opening", o.EdgeCm), checkLength("girth to pass", o.OverCm),
		checkRange("stretch", o.Stretch, 1, 3, "times"))
}

// Passes reports whether the opening goes over.
func (o Opening) Passes() bool { return o.EdgeCm*o.Stretch >= o.OverCm*(1-countTolerance) }

// NeededStretch is the stretch that would just pass.
func (o Opening) NeededStretch() float64 { return o.OverCm / o.EdgeCm }

// NeededCm is the edge that would just pass with the stretch there is.
func (o Opening) NeededCm() float64 { return o.OverCm / o.Stretch }

// A CuffPlan is a cuff worked to a girth.
type CuffPlan struct {
	Girth   Finished
	Rows    Finished
	Join    Across // from the sleeve or leg above it
	Opening Opening
}

// A CuffTarget is a cuff in finished measurements.
type CuffTarget struct {
	Rib      Gauge
	Above    int     // stitches of the sleeve or leg where the cuff joins
	GirthCm  float64 // of the cuff, unstretched
	OverCm   float64 // hand or foot that must pass
	Stretch  float64 // measured
	DepthCm  float64 // as worked: double what shows when it is turned back
	Multiple Multiple
	InRounds bool
}

// PlanCuff counts a cuff: nearest to its girth, not under what lets the hand
// or foot through, and not over the stitches above it unless that is needed to
// pass.
func PlanCuff(t CuffTarget) (CuffPlan, error) {
	o := Opening{EdgeCm: t.GirthCm, Stretch: t.Stretch, OverCm: t.OverCm}
	if err := firstError(t.Rib.Validate(), checkCount("stitches above the cuff", t.Above, 1), o.Validate()); err != nil {
		return CuffPlan{}, err
	}
	m := t.Multiple
	if t.InRounds {
		m = m.InTheRound()
	}
	var p CuffPlan
	var err error
	if p.Girth, err = t.Rib.FitWidthAtLeast(t.GirthCm, o.NeededCm(), m); err != nil {
		return p, err
	}
	if n, err := m.Count(float64(t.Above), Down); err == nil && n < p.Girth.Count && t.Rib.WidthCm(n) >= o.NeededCm() {
		p.Girth.Count, p.Girth.SizeCm = n, t.Rib.WidthCm(n)
	}
	if p.Rows, err = t.Rib.FitHeight(t.DepthCm, Plain, Nearest); err != nil {
		return p, err
	}
	o.EdgeCm = p.Girth.SizeCm
	p.Opening = o
	if p.Join, err = ShapeAcross(t.Above, p.Girth.Count-t.Above, t.InRounds); err != nil {
		return p, &InputError{"cuff", fmt.Sprintf("%d stitches on %d above it", p.Girth.Count, t.Above),
			"half to double of those above: taper the sleeve or leg further first"}
	}
	return p, nil
}
