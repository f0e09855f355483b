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

// closeByHandCm is what may be left of an opening beside its zipper and closed
// by hand. More calls for a longer zipper that is shortened.
const closeByHandCm = 3.0

// front edges and closes an opening over rows of fabric and of ribbing.
func (m *maker) front(rows, ribRows int) error {
	openCm := m.g.HeightCm(rows) + m.rib.HeightCm(ribRows)
	pick, err := stitch.PlanPickUp(rows, m.g, m.g, stitch.Plain)
	if err != nil {
		return err
	}
	rib := int(math.Round(m.rib.HeightCm(ribRows) / m.g.StitchWidthCm()))
	s := m.begin("front-edges", "Front edges", pick.Stitches+rib, false)
	s.Copies = 2
	s.plain(2)
	l := Line{ID: "edge", Words: "Along each front edge pick up {stitches} and work {rows}, so that it neither gathers nor flares", Counts: counts(s.From, 2), Row: pick.Wording()}
	if rib > 0 {
		l.Row += fmt.Sprintf(", and %d along the ribbing", rib)
	}
	s.add(l)
	if m.how.Closure == Buttons {
		return m.buttonBand(s, openCm)
	}
	z, err := m.zipper(openCm)
	if err != nil {
		m.note("No stocked zipper suits the opening of %s cm: it closes with buttons or poppers.", cm(openCm))
		return m.buttonBand(s, openCm)
	}
	m.p.Zipper = &z
	s.say("zipper", z.words())
	s.say("guard", "Work a small flap over the top end of the zipper, so that it cannot catch the chin.")
	m.p.openings = append(m.p.openings, opening{"front", "zipper", openCm, z.UseCm})
	return nil
}

// zipper finds the zipper for an opening: the nearest stocked one that is not
// longer; where that leaves too much, the next longer one, shortened.
func (m *maker) zipper(openCm float64) (Zipper, error) {
	z, err := stitch.FitZipper(m.g, openCm, m.how.ZippersIn)
	if err != nil {
		return Zipper{}, err
	}
	out := Zipper{Zipper: z, UseCm: z.LengthCm}
	if z.DifferCm > closeByHandCm {
		if z.LongerIn == 0 {
			return out, fmt.Errorf("the longest zipper is %s cm", cm(z.LengthCm))
		}
		out.Shorten, out.UseCm = true, math.Floor(openCm*10)/10
	}
	return out, nil
}

// words says what to do.
func (z Zipper) words() string {
	if !z.Shorten {
		return fmt.Sprintf("Opening %s cm: take the %s in zipper (%s cm); %s.", cm(z.OpeningCm), sizing.FormatQuarters(z.LengthIn), cm(z.LengthCm), z.Advice)
	}
	return fmt.Sprintf("Opening %s cm: take the %s in zipper and shorten it at the top to the opening. Or take the %s in one (%s cm) and %s.",
		cm(z.OpeningCm), sizing.FormatQuarters(z.LongerIn), sizing.FormatQuarters(z.LengthIn), cm(z.LengthCm), z.Advice)
}

// Buttonholes, as is common practice: about one every 6 cm, the first and last
// 1.5 cm from the ends, each a little narrower than a button of 1.5 cm, since it
// stretches.
const (
	buttonEveryCm = 6.0
	buttonEndsCm  = 1.5
	buttonholeCm  = 1.2
)

// buttonholes gives the stitches of an edge to buttonholes: fewer of them where
// it is short of stitches.
func (m *maker) buttonholes(stitches int, openCm float64) (stitch.Buttonholes, error) {
	holes := max(2, int(math.Round(openCm/buttonEveryCm))+1)
	ends, size := int(math.Round(m.g.Stitches(buttonEndsCm))), max(1, int(math.Round(m.g.Stitches(buttonholeCm))))
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
	b := m.begin("underlap", "Button band", edge.From, false)
	b.plain(max(2, int(math.Round(m.g.Rows(m.how.BandCm)))))
	b.say("band", "Behind one edge pick up {stitches} and work {rows} for a band that lies under the other edge: the fronts meet edge to edge.", b.From, b.Rows())
	n := len(holes.Gaps) + 1
	b.add(Line{ID: "buttons", Words: "In the first row of the other edge make {} buttonholes of {stitches}, {stitches} from each end and at least {} apart",
		Counts: counts(n, holes.Size, holes.Ends, slices.Min(holes.Gaps)), Row: holes.Wording()})
	b.say("sew", "Sew {} buttons to the band, each behind a buttonhole. Poppers in the same places need no buttonholes.", n)
	m.p.openings = append(m.p.openings, opening{"front", "buttonband", openCm, openCm})
	return nil
}
