package plan

import (
	"math"
	"slices"
	"strings"

	"growtuck/data"
)

// Materials are what the work takes beside the yarn's weight.
type Materials struct {
	Yarn    []data.Yarn // weight classes that usually give such a gauge; none where none is known
	Markers int         // that are in the work at once
	Holders int         // groups of stitches that wait on spare yarn
	Buttons int
	Zipper  *Zipper
}

// Materials lists what the plan takes.
func (p *Plan) Materials() Materials {
	m := Materials{Zipper: p.Zipper}
	m.Yarn = p.yarnClasses()
	for _, o := range p.openings {
		if o.place == "front" && o.how == "" { // a slit at the neck
			m.Buttons = 1
		}
	}
	for _, s := range p.Sections {
		here := 0
		if s.InRounds {
			here = 1 // the beginning of the round
		}
		if s.Schedule != nil && s.Schedule.Shapings() > 0 && s.Schedule.Sides == 2 {
			here = 2
		}
		for _, step := range s.Steps {
			if strings.HasPrefix(step.Kind, "raglan-lines") {
				here = 4
			}
			if n, ok := step.Values["on_hold"].(int); ok && n > 0 && (step.Kind == "divide" || step.Kind == "thumb-hole") {
				m.Holders = max(m.Holders, s.held(step))
			}
			if n, ok := step.Values["buttons"].(int); ok {
				m.Buttons = max(m.Buttons, n)
			}
		}
		m.Markers = max(m.Markers, here)
	}
	return m
}

// held is the number of groups of stitches that a step puts on hold.
func (s *Section) held(step Step) int {
	if step.Kind == "divide" {
		return 2
	}
	return 1
}

// yarnClasses are the classes of yarn that give the gauge: by the stitches that it knits
// to, where they are known.
func (p *Plan) yarnClasses() []data.Yarn {
	per4, _ := p.How.Gauge.Per4In()
	crochet := p.How.Craft == Crochet
	if p.How.KnitPer4In > 0 {
		per4, crochet = p.How.KnitPer4In, false
	}
	if crochet && p.How.Stitch != Single {
		return nil // the classes are given for single crochet
	}
	var all []data.Yarn
	best := math.Inf(1)
	for class := range 8 {
		y, ok := p.yarnClass(class)
		if !ok {
			continue
		}
		low, high := y.KnitLow, y.KnitHigh
		if crochet {
			low, high = y.CrochetLow, y.CrochetHigh
		}
		off := outside(per4, low, high)
		switch {
		case off > 1 || off > best: // no class has it, or another is nearer
		case off < best:
			all, best = []data.Yarn{y}, off
		default:
			all = append(all, y)
		}
	}
	return slices.Clip(all)
}

// outside is how far a figure is outside bounds that may be open.
func outside(v float64, low, high *float64) float64 {
	switch {
	case low == nil && high == nil:
		return math.Inf(1)
	case low != nil && v < *low:
		return *low - v
	case high != nil && v > *high:
		return v - *high
	}
	return 0
}
