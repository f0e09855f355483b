package stitch

// A RibPlan is ribbing joined to a fabric.
type RibPlan struct {
	Fabric, Rib int     // stitches on either side of the join
	Join        Across  // the row that goes from Fabric to Rib
	WidthCm     float64 // of the ribbing unstretched, at its own gauge
}

// PlanRib counts ribbing on a share of the fabric's stitches, nearest to a
// multiple and not over the fabric. Measure the ribbing's own gauge.
func PlanRib(fabric int, share float64, m Multiple, rib Gauge, inRounds bool) (RibPlan, error) {
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

// Passes reports whether the opening goes over.
func (o Opening) Passes() bool { return o.EdgeCm*o.Stretch >= o.OverCm*(1-countTolerance) }

// NeededStretch is the stretch that would just pass.
func (o Opening) NeededStretch() float64 { return o.OverCm / o.EdgeCm }

// NeededCm is the edge that would just pass with the stretch there is.
func (o Opening) NeededCm() float64 { return o.OverCm / o.Stretch }
