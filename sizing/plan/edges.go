package plan

import (
	"math"

	"growtuck/sizing/stitch"
)

// edges are what finishes a front that opens, and the face of a hood. The
// fabric is planned so much narrower that fabric and edges together are what
// was asked for.
type edges struct {
	rows    int
	depthCm float64 // of one
	girthCm float64 // both of a front, and the zipper between them
	zipped  bool
}

// planEdges finds the edges of a garment: as deep as is customary, in whole
// rows.
func (m *maker) planEdges() {
	if m.f.Garment.Opening != "front" {
		return
	}
	zipped := false
	if m.how.Closure == Zip {
		if open, err := m.target("front_opening"); err == nil {
			_, err := m.zipper(open.cm)
			zipped = err == nil
		}
	}
	m.edges = m.edgesOf(zipped)
}

// edgesOf are edges as deep as is customary.
func (m *maker) edgesOf(zipped bool) edges {
	least := 1
	if m.how.Craft == Knit {
		least = 2 // one to pick up, one to bind off
	}
	e := edges{rows: max(least, int(math.Round(m.g.Rows(m.practice("edge_depth").Value)))), zipped: zipped}
	e.depthCm = m.g.HeightCm(e.rows)
	e.girthCm = 2 * e.depthCm
	if zipped {
		e.girthCm += m.practice("zipper_gap").Value
	}
	return e
}

// fabric is a target less edges.
func (t target) fabric(edgesCm float64) target {
	t.cm -= edgesCm
	t.leastCm = max(t.leastCm-edgesCm, 0.1)
	return t
}

// whole is a target that no edge is part of.
func (t target) whole() target { return t }

// edgeStitches are the stitches as wide as the edges of a front, an even number.
func (m *maker) edgeStitches() int {
	return 2 * int(math.Round(m.g.Stitches(m.edges.girthCm)/2))
}

// openWidthPart records a girth that a front opening crosses: its fabric and
// the edges.
func (m *maker) openWidthPart(part string, count int, of stitch.Multiple) {
	m.record(Part{Count: count, Unit: "stitches", Multiple: of, SizeCm: m.g.WidthCm(count) + m.edges.girthCm, EdgesCm: m.edges.girthCm}, part)
}

// closeFronts begins a section below a front opening, in rounds, with stitches
// between the fronts where the edges lie above.
func (m *maker) closeFronts(id string, from int) *Section {
	between := m.edgeStitches()
	s := m.begin(id, from+between, true)
	s.step("join", "join-fronts-cast-on", Values{"cast_on": between, "stitches": s.From})
	return s
}
