package plan

import (
	"slices"

	"growtuck/sizing"
)

// practice is a figure of the trade by its id. The plan lists what it used.
func (m *maker) practice(id string) sizing.Practice {
	p := m.f.Practice(id)
	if !slices.ContainsFunc(m.p.Practice, func(x sizing.Practice) bool { return x.ID == id }) {
		m.p.Practice = append(m.p.Practice, p)
	}
	return p
}

// share is a figure of the trade that is a share or a number of times.
func (m *maker) share(id string) float64 { return m.practice(id).Share() }

// What was asked for goes before the usual figure, and only usual figures are
// listed.

func (m *maker) hemCm() float64  { return m.givenOr(m.given.HemCm, "hem_depth") }
func (m *maker) cuffCm() float64 { return m.givenOr(m.given.CuffCm, "cuff_depth") }
func (m *maker) bandCm() float64 { return m.givenOr(m.given.BandCm, "neckband_depth") }

func (m *maker) givenOr(given float64, id string) float64 {
	if given > 0 {
		return given
	}
	return m.practice(id).Value
}

func (m *maker) ribShare() float64 {
	if m.given.RibShare > 0 {
		return m.given.RibShare
	}
	return m.share("rib_share")
}

// zippersIn are the lengths of zippers to choose from.
func (m *maker) zippersIn() []float64 {
	if m.given.ZippersIn != nil {
		return m.given.ZippersIn
	}
	var all []float64
	for _, p := range m.f.PracticeList("stocked_zipper_") {
		all = append(all, m.practice(p.ID).Value)
	}
	return all
}

// margin is the yarn to spare, as a share.
func (m *maker) margin() float64 {
	switch {
	case m.given.Margin != nil:
		return *m.given.Margin
	case m.p.Hood != nil:
		return m.share("yarn_margin_textured")
	}
	return m.share("yarn_margin_plain")
}

// underarmShares are the underarms tried where the customary one leaves the
// armhole more than a row off, a hundredth at a time away from it.
func (m *maker) underarmShares() []float64 {
	usual, low, high := m.practice("underarm_share").Value, m.practice("underarm_share_low").Value, m.practice("underarm_share_high").Value
	var all []float64
	for step := 1.0; usual-step >= low || usual+step <= high; step++ {
		if usual-step >= low {
			all = append(all, (usual-step)/100)
		}
		if usual+step <= high {
			all = append(all, (usual+step)/100)
		}
	}
	return all
}

// Sources are the documents that the plan rests on: those of its finished
// measurements and of the figures of the trade.
func (p *Plan) Sources() []string {
	var all []string
	for _, x := range p.Parts {
		all = append(all, x.Line.Sources()...)
	}
	for _, f := range p.Practice {
		all = append(all, f.Source)
	}
	return all
}
