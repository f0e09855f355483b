package schematic

import (
	"math"

	"growtuck/sizing/plan"
)

// A Fold is room to grow that a garment is drawn with: let down, and where it is held.
type Fold struct {
	Room plan.Room
	Way  plan.Way
	// Above is how far it begins above the lower end of its part, and Cm how much it
	// holds.
	Above, Cm float64
}

// folds draws what a room holds, between the ends of a part's lower edge and of what is
// so far above it, on both sides where they are of a sleeve or leg.
func (d *drawer) folds(room plan.Room, low, high [2]point, far float64, twice bool) {
	if far <= 0 {
		return
	}
	draw := d.draw
	if twice {
		draw = d.drawBoth
	}
	for _, f := range d.Folds {
		if f.Room != room {
			continue
		}
		at := func(cm float64) (point, point) {
			t := math.Min(1, math.Max(0, cm/far))
			return between(low[0], high[0], t), between(low[1], high[1], t)
		}
		a, b := at(f.Above)
		draw("fold", straight(a, b))
		if f.Way != plan.Tuck && f.Way != plan.RiseFold {
			continue
		}
		c, e := at(f.Above + f.Cm)
		draw("fold", straight(c, e))
		const apart = 1.2 // cm
		n := int(math.Max(2, b.minus(a).long()/apart))
		for i := range n {
			s, t := float64(i)/float64(n), float64(i+1)/float64(n)
			draw("rib", straight(between(a, b, s), between(c, e, t)))
		}
	}
}

// foldsOf are the folds of a plan.
func foldsOf(p *plan.Plan) []Fold {
	var all []Fold
	for _, h := range p.Held() {
		f := Fold{Room: h.Room, Way: h.Way, Cm: h.Cm}
		s := h.Section
		switch h.Way {
		case plan.FoldCuff, plan.DeepHem:
			f.Above = h.Cm
		default:
			f.Above = s.Gauge.HeightCm(h.Below) + ribBelow(p, h.Room)
		}
		all = append(all, f)
	}
	return all
}

// ribBelow is the depth of the ribbing that ends a part.
func ribBelow(p *plan.Plan, room plan.Room) float64 {
	id := map[plan.Room]string{plan.SleeveRoom: "cuff", plan.LegRoom: "ankle", plan.BodyRoom: "hem"}[room]
	if s, ok := p.Section(id); ok {
		return s.HeightCm()
	}
	return 0
}
