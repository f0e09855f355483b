package schematic

import (
	"math"

	"growtuck/sizing/plan"
)

// hood draws the hood folded in half, seen from its side, above the neck: the
// face on the left, the fold at the back of the head on the right.
func (d *drawer) hood(t torso) {
	high := d.of("hood_height", t.half*1.8)
	round := d.of("hood_round", t.half*3.2) / 2
	neck := math.Min(d.of("neck", round)/2, round)
	const apart = 6.0 // cm above the neck, so that it is seen to be another piece
	foot := -apart
	face := point{-round / 2, foot}
	at := func(x, y float64) point { return point{face.x + x, face.y - y} }
	widen := math.Min(d.Trade.HoodIncrease, high*0.3)
	crown := math.Min(d.Trade.HoodCrown, high*0.6)
	less := round * d.Trade.HoodCrownShare
	p := start(face.x, face.y).line(at(neck, 0))
	p.curve(at(neck+(round-neck)*0.4, 0), at(round, widen*0.4), at(round, widen))
	switch d.Hood {
	case plan.Straight:
		p.line(at(round, high))
	case plan.CentrePanel:
		p.line(at(round, high-less)).corner(at(round, high), at(round-less, high))
		d.draw("edge", straight(at(round-less/2, widen), at(round-less/2, high-less)).corner(at(round-less/2, high-less/2), at(round-less, high-less/2)).line(at(0, high-less/2)))
	default:
		p.line(at(round, high-crown)).curve(at(round, high-crown*0.4), at(round-less*0.35, high-crown*0.1), at(round-less, high))
	}
	p.line(at(0, high), at(0, 0))
	d.shape(p)
	d.draw("edge", straight(at(d.Trade.Edge, 0), at(d.Trade.Edge, high)))
	d.draw("fold", straight(at(round, widen), at(round, high-crown)))
	// Dotted down to the neck that it grows from.
	d.draw("fold", straight(at(0, 0), point{-t.neck, 0}))
	d.draw("fold", straight(at(neck, 0), point{t.neck, 0}))
	d.is("face edge of the hood", straight(at(0, 0), at(0, high)), high)
	d.is("half of the hood's neck edge", straight(at(0, 0), at(neck, 0)), d.of("neck", neck*2)/2)
	level := widen + (high-crown-widen)*0.5
	d.across("hood_round", at(0, level), at(round, level))
	d.column("hood_height", at(0, high), at(0, 0), point{-1.9, 0}, at(0, high), at(0, 0))
	d.measure(dim{part: "neck", a: at(0, 0), b: at(neck, 0), half: true, off: point{0, 0.9}, leads: true, fromA: at(0, 0), fromB: at(neck, 0)})
}
