package plan

import (
	"fmt"
	"math"

	"growtuck/sizing/stitch"
)

// thighWeight is how much an error of the thigh counts beside one of the bridge,
// which has a floor: the leg is as near to its girth as whole stitches come.
const thighWeight = 1000

// legs divides the work at the crotch and works both legs to their cuffs.
func (m *maker) legs(hip int) error {
	w, err := m.targets("thigh", "ankle", "inside_leg")
	if err != nil {
		return err
	}
	low, high := m.share("bridge_share_low"), m.share("bridge_share_high")
	least := m.bridgeLeastCm(m.g.WidthCm(hip))
	thigh := w["thigh"]
	// Half the hips and the least bridge, in whole stitches, are no less than that.
	if leg := m.g.WidthCm(hip/2 + atLeast(m.g.Stitches(least))); leg > thigh.cm {
		m.depart("thigh", leg-thigh.cm, "leg-has-bridge")
		thigh.cm = leg
	}
	p, err := stitch.PlanLegs(stitch.LegTarget{Gauge: m.g, Hip: hip, ThighCm: thigh.cm, ThighLeastCm: thigh.leastCm,
		BridgeCm: m.g.WidthCm(hip) * (low + high) / 2, BridgeLeastCm: least, WeightThigh: thighWeight, WeightBridge: 1})
	if err != nil {
		return err
	}
	m.p.Legs = &p
	m.widthPart("thigh", p.Leg, stitch.Plain)
	if p.BridgeShare() > high+0.005 {
		m.note("bridge-wide", p.BridgeShare(), low, high)
	}

	long := w["inside_leg"]
	c := m.cuffOf("ankle", w["ankle"], p.Leg)
	turned := m.how.Turned
	rows, cuffRows := 0, m.ribRows(m.cuffDepthCm(long.cm))
	h, err := m.hold(holdAt{room: LegRoom, parts: []string{"inside_leg"}, inRounds: !turned, ribbed: true, below: m.f.Practice("tuck_from_edge"), fits: func(need int) string {
		all, _ := m.nearestRows(long.cm-m.rib.HeightCm(cuffRows), !turned)
		return m.taperLeft(all-need, p.Leg, c, "leg between crotch and cuff")
	}})
	if err != nil {
		return err
	}
	if h.edge() > 0 {
		cuffRows = m.ribRows(m.cuffDepthCm(long.cm-h.cm(m))) + h.edge()
	}
	if rows, err = m.nearestRows(max(long.cm-m.rib.HeightCm(cuffRows), m.g.RowHeightCm()), !turned); err != nil {
		return err
	}
	down := max(1, rows-h.later()-h.need())
	c = m.gathered("leg-gathered", c, p.Leg, down-1)
	last, err := m.taperLeg(p, c, long.cm-h.cm(m), down)
	if err != nil {
		return err
	}
	s := m.p.Sections[len(m.p.Sections)-1]
	s.tucks(h)
	s.straight(h.need(), "straight-on", "straight-on")
	s.holdLater(h)
	m.p.tapers["leg"] = taperEnd{(p.Leg - last) / 2, last}
	if err := m.cuff("ankle", "ankle", min(c.count, last-last%2), last, cuffRows, turned, h); err != nil {
		return err
	}
	m.heightPart("inside_leg", rows, cuffRows)
	return nil
}

// bridgeLeastCm is the least bridge between legs that come from hips of a girth.
func (m *maker) bridgeLeastCm(hipCm float64) float64 {
	return m.f.Spec.BridgeLeastCm(hipCm, m.practice)
}

// taperLeg narrows the leg to the calf and from there to the cuff. It returns
// its last count.
func (m *maker) taperLeg(p stitch.LegPlan, c cuffCount, longCm float64, rows int) (int, error) {
	turned := m.how.Turned
	s := m.begin("leg", p.Leg, !turned)
	s.Copies = 2
	s.step("bridge", "divide-legs", Values{"each": p.Hip / 2, "bridge": p.Bridge})
	s.step("leg", "leg-round", Values{"half": p.Bridge / 2, "rest": p.Bridge - p.Bridge/2, "stitches": p.Leg, "body": p.Hip / 2, "bridge": p.Bridge})
	from, left, joins := p.Leg, rows, 1
	if calf, err := m.target("calf"); err == nil {
		to := min(max(int(math.Round(m.g.Rows(longCm*m.share("calf_share_of_leg")))), 1), rows-1)
		if m.common.rows.Repeat == 2 && turned {
			to -= to % 2
		}
		if needs := int(math.Ceil((m.g.Stitches(calf.cm) - c.above) / 2)); to >= 1 && needs <= rows-to {
			least := min(max(atLeast(m.g.Stitches(calf.leastCm)), c.count, int(c.above)), p.Leg)
			if cm := m.g.WidthCm(least); cm > calf.cm {
				m.depart("calf", cm-calf.cm, "calf-not-narrower")
				calf.cm = cm
			}
			sc, err := slope{from: p.Leg, target: min(m.g.Stitches(calf.cm), float64(p.Leg)), least: least, most: p.Leg, rows: to,
				plain: int(m.g.Rows(m.practice("leg_plain").Value)), joins: 1, inRounds: !turned, rightSideOnly: m.rightSideOnly(!turned)}.taper()
			if err != nil {
				return 0, fmt.Errorf("leg, crotch to calf: %w", err)
			}
			s.shapeTube(sc)
			m.widthPart("calf", sc.To(), pairs(p.Leg))
			from, left, joins = sc.To(), rows-to, 0
			s = m.begin("lower-leg", from, !turned)
			s.Copies = 2
		}
	}
	sc, err := slope{from: from, target: min(c.above, float64(from)), least: min(c.count, from-from%2), most: from, rows: left, joins: joins,
		inRounds: !turned, rightSideOnly: m.rightSideOnly(!turned)}.taper()
	if err != nil {
		return 0, fmt.Errorf("leg, calf to cuff: %w", err)
	}
	s.shapeTube(sc)
	return sc.To(), nil
}
