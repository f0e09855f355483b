package plan

import (
	"math"
	"slices"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// A Part is a finished measurement as planned.
type Part struct {
	Line   sizing.Line
	Count  int    // 0 where it is made up of rows of several gauges
	Unit   string // of the count: stitches or rows
	Ribbed bool   // the count is at the ribbing's gauge
	// Multiple is the form that was kept for the count.
	Multiple stitch.Multiple
	SizeCm   float64
	WantCm   float64
	// EdgesCm is what the edges of a front or of a hood's face add to the fabric,
	// in SizeCm.
	EdgesCm float64
	// HeldCm is how much of SizeCm is folded away, or worked on later.
	HeldCm float64
}

// WornCm is the size with all room held.
func (p Part) WornCm() float64 { return p.SizeCm - p.HeldCm }

// ErrorCm is the size less what was asked for.
func (p Part) ErrorCm() float64 { return p.SizeCm - p.WantCm }

// widthPart records a girth or width in stitches of a multiple.
func (m *maker) widthPart(part string, count int, of stitch.Multiple) {
	m.record(Part{Count: count, Unit: "stitches", Multiple: of, SizeCm: m.g.WidthCm(count)}, part)
}

// ribPart records the girth of an edge in ribbing, whose counts are even.
func (m *maker) ribPart(part string, count int) {
	m.record(Part{Count: count, Unit: "stitches", Multiple: stitch.Even, Ribbed: true, SizeCm: m.rib.WidthCm(count)}, part)
}

// heightPart records a length in rows of the fabric and of ribbing.
func (m *maker) heightPart(part string, rows, ribRows int) {
	p := Part{Count: rows + ribRows, Unit: "rows", SizeCm: m.g.HeightCm(rows) + m.rib.HeightCm(ribRows)}
	if ribRows > 0 && m.rib.RowsPer10Cm != m.g.RowsPer10Cm {
		p.Count, p.Unit = 0, ""
	}
	m.record(p, part)
}

// sizePart records a size that is not a count.
func (m *maker) sizePart(part string, sizeCm float64) { m.record(Part{SizeCm: sizeCm}, part) }

func (m *maker) record(p Part, part string) {
	l, ok := m.f.Line(part)
	if !ok {
		return // not known of this body, and not planned
	}
	if m.parts == nil {
		m.parts = make([]Part, 0, len(m.f.Lines))
	}
	p.Line, p.WantCm = l, l.Finished
	m.parts = append(m.parts, p)
}

// depart records that the construction makes a part larger or smaller on
// purpose.
func (m *maker) depart(part string, byCm float64, why string) {
	if _, ok := m.f.Line(part); ok && math.Abs(byCm) > 0.05 {
		m.p.departures[part] = departure{cm: byCm, why: sizing.NewFact(why)}
	}
}

// Errors of a part that are worth a note: more than half a stitch or row of
// the multiple explains, and enough to be seen.
const (
	seenCm    = 0.5
	seenShare = 0.02
)

// finishParts puts the parts in the order of the garment and notes what they
// miss.
func (m *maker) finishParts() {
	m.p.Parts = make([]Part, 0, len(m.parts))
	for _, l := range m.f.Lines {
		i := slices.IndexFunc(m.parts, func(p Part) bool { return p.Line.Part.Part == l.Part.Part })
		if i < 0 {
			continue
		}
		p := m.parts[i]
		p.HeldCm = m.p.HeldCm(l.Part.Part)
		if d, ok := m.p.departures[l.Part.Part]; ok {
			p.WantCm += d.cm
			if !d.own {
				m.note("part-departs", l.Part.Name, sizing.Length(p.SizeCm), sizing.Length(math.Abs(d.cm)), comparison(d.cm, l), d.why)
			}
		}
		m.p.Parts = append(m.p.Parts, p)
		if e := p.ErrorCm(); math.Abs(e) > max(seenCm, seenShare*p.WantCm, m.unitCm(p)) {
			m.note("part-misses", l.Part.Name, sizing.Length(p.SizeCm), sizing.Length(math.Abs(e)), comparison(e, l), sizing.Length(p.WantCm))
		}
	}
}

// unitCm is the size of one stitch, or repeat, or row of a part.
func (m *maker) unitCm(p Part) float64 {
	if p.Line.Part.Dimension == "length" {
		return m.g.RowHeightCm()
	}
	return m.g.StitchWidthCm() * float64(max(1, p.Multiple.Repeat))
}

// comparison is the fact that a part is narrower or wider, shorter or longer.
func comparison(byCm float64, l sizing.Line) sizing.Fact {
	ids := [2]string{"narrower", "wider"}
	if l.Part.Dimension == "length" {
		ids = [2]string{"shorter", "longer"}
	}
	if byCm < 0 {
		return sizing.NewFact(ids[0])
	}
	return sizing.NewFact(ids[1])
}

// bodyMultiple is the multiple of a body: in rounds it has no edge stitches.
func (m *maker) bodyMultiple(inRounds bool) stitch.Multiple {
	if inRounds {
		return m.how.Multiple.InTheRound()
	}
	return m.how.Multiple
}

// even narrows a multiple to even counts where it has any.
func even(x stitch.Multiple) stitch.Multiple {
	if e, ok := x.WithParity(false); ok {
		return e
	}
	return x
}
