package plan

import (
	"math"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// leastBodyRows are left below the underarm, hem included.
const leastBodyRows = 2

// A top is the work down to the underarm.
type top struct {
	open   bool // over the whole front
	slit   int  // rows of a slit at the front neck that are still to work below the underarm
	turned bool // the body begins in turned rows
	band   bool // the neckband is open in front

	body, sleeve int
	onHold       int           // stitches of the yoke on hold for each sleeve
	split        *stitch.Split // of a yoke
	under        int           // stitches added under each arm where front and back are joined
	back, front  int           // rows from the nape, and from the front of the neck, to the underarm
	widthCm      float64       // of the back where the sleeves begin, of a drop shoulder
}

// raise works the back of the neck higher than the front in pairs of short
// rows, so that the yoke sits at the nape. It returns the rows. A short body is
// raised less, so that some rows are left for it below a yoke of yokeRows.
func (m *maker) raise(neck, yokeRows int) (int, error) {
	pairs, _, err := stitch.ShortRowSets(m.g, m.practice("neck_drop").Value)
	if err != nil {
		return 0, err
	}
	if length, err := m.target("body_length"); err == nil {
		pairs = min(pairs, (int(m.g.Rows(length.cm))-yokeRows-leastBodyRows)/2)
	}
	pairs = max(pairs, 1)
	s := m.begin("back-neck", neck, false)
	s.step("start", "cast-on-neck", Values{"cast_on": neck})
	// From a third of the neck, the back, to five sixths: the fronts stay low.
	first := max(2, 2*int(math.Round(float64(neck)/6)))
	step := 0
	if pairs > 1 {
		step = max(0, (neck*5/6-first)/2/(pairs-1))
	}
	s.step("first", "short-rows-first-neck", Values{"rows": 2, "pairs": pairs, "first": first, "begin": (neck - first) / 2})
	if pairs > 1 {
		if step > 0 {
			s.step("next", "short-rows-next", Values{"rows": 2 * (pairs - 1), "further": step, "pairs": pairs - 1})
		} else {
			s.step("next", "short-rows-same", Values{"rows": 2 * (pairs - 1), "first": first, "pairs": pairs - 1})
		}
	}
	s.step("all", "short-rows-end", Values{"stitches": neck})
	for i := range pairs {
		s.row(first + 2*step*i)
		s.row(first + 2*step*i)
	}
	return s.Rows(), nil
}

// slitRows is the length of a slit at the front neck that lets the head
// through, 0 where the edge alone does.
func (m *maker) slitRows(neckCm float64) int {
	head, ok := m.passes("neck")
	if !ok {
		m.note("head-unknown")
		return 0
	}
	stretch, measured := m.how.Stretch["neck"]
	if !measured {
		stretch = 1
	}
	short := (head.cm - neckCm*stretch) / 2 // a slit does not stretch
	if short <= 1e-9 {
		return 0
	}
	rows := atLeast(m.g.Rows(short))
	why := sizing.NewFact("neck-stretch-not-measured")
	if measured {
		why = sizing.NewFact("neck-stretches-to", sizing.Length(neckCm*stretch))
	}
	m.note("neck-slit", head.what, sizing.Length(head.cm), why, sizing.Length(m.g.HeightCm(rows)))
	m.p.openings = append(m.p.openings, opening{place: "front", cm: m.g.HeightCm(rows)})
	return rows
}

// neckband finishes a neck without a hood.
func (m *maker) neckband(neck int, turned bool) {
	s := m.beginRib("neckband", neck, !turned)
	s.step("pick-up", "pick-up-neck", Values{"stitches": neck})
	s.plain(m.ribRows(m.bandCm()))
	s.step("rib", "rib-finish", Values{"rows": s.Rows(), "stitches": neck})
}
