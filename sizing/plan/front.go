package plan

import (
	"fmt"
	"math"
	"slices"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// A Zipper is what closes a front.
type Zipper struct {
	stitch.Zipper
	UseCm   float64 // length as set in
	Shorten bool    // the next longer zipper, shortened to the opening
}

// Stocked is the length to buy, in.
func (z Zipper) Stocked() float64 {
	if z.Shorten {
		return z.LongerIn
	}
	return z.LengthIn
}

// front edges and closes an opening over rows of fabric and of ribbing.
func (m *maker) front(rows, ribRows int) error {
	m.p.openRows.rows, m.p.openRows.ribRows = rows, ribRows
	openCm := m.g.HeightCm(rows) + m.rib.HeightCm(ribRows)
	pick, err := stitch.PlanPickUp(rows, m.g, m.g, stitch.Plain)
	if err != nil {
		return err
	}
	ribCm := m.rib.HeightCm(ribRows)
	if band, ok := m.p.Section("neckband"); ok {
		ribCm += band.HeightCm()
	}
	rib := int(math.Round(m.g.Stitches(ribCm)))
	s := m.begin("front-edges", pick.Stitches+rib, false)
	s.Copies = 2
	s.plain(m.edges.rows)
	s.add(Step{ID: "edge", Kind: "pick-up-front-edges", Values: Values{"stitches": s.From, "rows": m.edges.rows, "rib": rib}, PickUp: &pick})
	if m.how.Closure == Buttons {
		return m.buttonBand(s, openCm)
	}
	if !m.edges.zipped {
		m.note("no-zipper", sizing.Length(openCm))
		return m.buttonBand(s, openCm)
	}
	z, err := m.zipper(openCm)
	if err != nil {
		m.note("no-zipper", sizing.Length(openCm))
		return m.buttonBand(s, openCm)
	}
	m.p.Zipper = &z
	s.add(z.Step())
	s.step("guard", "zipper-guard", nil)
	m.p.openings = append(m.p.openings, opening{"front", "zipper", openCm, z.UseCm})
	return nil
}

// zipper finds the zipper for an opening: the nearest stocked one that is not
// longer; where that leaves too much, the next longer one, shortened.
func (m *maker) zipper(openCm float64) (Zipper, error) {
	z, err := stitch.FitZipper(m.g, openCm, m.zippersIn(), m.practice("zipper_exact").Value, m.practice("zipper_by_hand").Value)
	if err != nil {
		return Zipper{}, err
	}
	out := Zipper{Zipper: z, UseCm: z.LengthCm}
	if z.DifferCm > m.practice("zipper_by_hand").Value {
		if z.LongerIn == 0 {
			return out, fmt.Errorf("the longest zipper is %.1f cm", z.LengthCm)
		}
		out.Shorten, out.UseCm = true, math.Floor(openCm*10)/10
	}
	return out, nil
}

// Step sets the zipper in. Advice is what is done about an opening that is
// longer than its zipper.
func (z Zipper) Step() Step {
	kind := "zipper"
	if z.Shorten {
		kind = "zipper-shortened"
	}
	return Step{ID: "zipper", Kind: kind, Values: Values{
		"opening": sizing.Length(z.OpeningCm), "zipper_in": z.LengthIn, "zipper": sizing.Length(z.LengthCm), "longer_in": z.LongerIn,
		"advice": string(z.Advice), "left": sizing.Length(z.DifferCm), "rows_less": z.RowsToFit, "rows_more": z.RowsToNext,
	}}
}

// buttonholes gives the stitches of an edge to buttonholes: fewer of them where
// it is short of stitches.
func (m *maker) buttonholes(stitches int, openCm float64) (stitch.Buttonholes, error) {
	holes := max(2, int(math.Round(openCm/m.practice("button_spacing").Value))+1)
	ends := int(math.Round(m.g.Stitches(m.practice("button_end").Value)))
	size := max(1, int(math.Round(m.g.Stitches(m.practice("buttonhole").Value))))
	b, err := stitch.SpaceButtonholes(stitches, ends, holes, size)
	for ; err != nil && holes > 2; holes-- {
		b, err = stitch.SpaceButtonholes(stitches, ends, holes-1, size)
	}
	return b, err
}

// buttonBand closes an opening with a band that lies under the other edge, so
// that it adds nothing to the girth.
func (m *maker) buttonBand(edge *Section, openCm float64) error {
	holes, err := m.buttonholes(edge.From, openCm)
	if err != nil {
		return err
	}
	b := m.begin("underlap", edge.From, false)
	b.plain(max(2, int(math.Round(m.g.Rows(m.bandCm())))))
	b.step("band", "pick-up-button-band", Values{"stitches": b.From, "rows": b.Rows()})
	n := len(holes.Gaps) + 1
	b.add(Step{ID: "buttons", Kind: "buttonholes", Buttonholes: &holes,
		Values: Values{"stitches": edge.From, "buttonholes": n, "size": holes.Size, "ends": holes.Ends, "apart": slices.Min(holes.Gaps)}})
	b.step("sew", "sew-buttons", Values{"buttons": n})
	m.p.openings = append(m.p.openings, opening{"front", "buttonband", openCm, openCm})
	return nil
}
