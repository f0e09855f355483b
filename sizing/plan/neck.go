package plan

import (
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
	split        *stitch.Split // of a yoke
	under        int           // stitches added under each arm where front and back are joined
	back, front  int           // rows from the nape, and from the front of the neck, to the underarm
	widthCm      float64       // of the back where the sleeves begin, of a drop shoulder
}

// raise works the back of the neck higher than the front in pairs of short
// rows, so that the yoke sits at the nape. It returns the rows at the back and at
// the front: the first and the last short row together go once round the neck. A
// short body is raised less, so that some rows are left for it below a yoke of
// yokeRows.
func (m *maker) raise(neck, yokeRows int, inRounds bool) (back, front int, err error) {
	pairs, _, err := stitch.ShortRowSets(m.g, m.neckDropCm())
	if err != nil {
		return 0, 0, err
	}
	if length, err := m.target("body_length"); err == nil {
		pairs = min(pairs, (int(m.g.Rows(length.cm))-yokeRows-1-leastBodyRows)/2)
	}
	// From a third of the neck, the back, to five sixths: the fronts stay low.
	r := stitch.SpreadShortRows(neck, pairs, neck/3, neck*5/6)
	s := m.begin("back-neck", neck, false)
	s.step("start", "cast-on-neck", Values{"cast_on": neck})
	s.step("first", "short-rows-neck", Values{"row": 1, "last_row": 2, "pairs": r.Pairs, "start_at": r.Lead + r.First, "lead": r.Lead, "first": r.First})
	s.workShort(r, r.Lead+r.First)
	s.short(neck - r.Lead + (r.Pairs-1)*r.Further)
	kind := "short-rows-neck-end"
	if inRounds {
		kind = "short-rows-neck-join"
	}
	s.step("end", kind, Values{"row": s.Rows(), "stitches": neck})
	return s.Rows(), neckRows, nil
}

// workShort adds pairs of short rows, the first of which works so many stitches,
// and the step for all after the first pair.
func (s *Section) workShort(r stitch.ShortRows, first int) {
	s.short(first)
	for row := 2; row <= 2*r.Pairs; row++ {
		s.short(r.Worked(row))
	}
	if r.Pairs > 1 {
		s.step("next", "short-rows-further", Values{"row": s.Rows() - 2*r.Pairs + 3, "rows": 2*r.Pairs - 2, "last_row": s.Rows(), "further": r.Further, "last": r.Worked(2 * r.Pairs)})
	}
}

// neckDropCm is how much lower the neck is in front than at the nape: the
// difference of the child's own heights of nape and throat where they are known
// and go together, else the usual share of the height.
func (m *maker) neckDropCm() float64 {
	height, ok := m.body("height")
	if !ok {
		return m.practice("neck_drop").Value
	}
	trunk, hasTrunk := m.body("trunk")
	leg, hasLeg := m.body("inside_leg")
	head, hasHead := m.body("crown_to_throat")
	if hasTrunk && hasLeg && hasHead && !m.tapeAlone("inside_leg", "trunk") {
		own := trunk + leg - (height - head)
		if own >= height*m.share("nape_over_throat_low") && own <= height*m.share("nape_over_throat_high") {
			return own
		}
	}
	return height * m.share("nape_over_throat")
}

// tapeAlone reports whether one measurement was taken and the other not: an unsure
// tape does not add up with what is estimated.
func (m *maker) tapeAlone(taken, estimated string) bool {
	a, _ := m.f.Body.Get(taken)
	b, _ := m.f.Body.Get(estimated)
	return a.Provenance == sizing.Measured && b.Provenance != sizing.Measured
}

// followNeckDrop moves the front opening of a garment by what the child's own
// neck is lower in front than the usual figure that its length has.
func (m *maker) followNeckDrop(openCm float64) float64 {
	by := m.practice("neck_drop").Value - m.neckDropCm()
	m.p.departures["front_opening"] = departure{cm: by, why: sizing.NewFact("front-neck-of-child"), own: true}
	return openCm + by
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
