package plan

import (
	"math"
	"slices"
	"strings"

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
}

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

// sizePart records a size that is no count.
func (m *maker) sizePart(part string, sizeCm float64) { m.record(Part{SizeCm: sizeCm}, part) }

func (m *maker) record(p Part, part string) {
	l, ok := m.f.Line(part)
	if !ok {
		return // not known of this body, and not planned
	}
	p.Line, p.WantCm = l, l.Finished
	m.parts = append(m.parts, p)
}

// mean says that the construction makes a part larger or smaller on purpose.
func (m *maker) mean(part string, byCm float64, why string) {
	if _, ok := m.f.Line(part); ok && math.Abs(byCm) > 0.05 {
		m.p.extra[part] = meant{byCm, why}
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
	for _, l := range m.f.Lines {
		i := slices.IndexFunc(m.parts, func(p Part) bool { return p.Line.Part.Part == l.Part.Part })
		if i < 0 {
			continue
		}
		p := m.parts[i]
		if e, ok := m.p.extra[l.Part.Part]; ok {
			p.WantCm += e.cm
			m.note("%s is %s cm, %s cm %s than in a fitted garment: %s.", sentence(l.Part.Name), cm(p.SizeCm), cm(math.Abs(e.cm)), more(e.cm, l), e.why)
		}
		m.p.Parts = append(m.p.Parts, p)
		if e := p.ErrorCm(); math.Abs(e) > max(seenCm, seenShare*p.WantCm, m.unitCm(p)) {
			m.note("%s comes out at %s cm, %s cm %s than the %s cm asked for: the counts do not allow nearer.",
				sentence(l.Part.Name), cm(p.SizeCm), cm(math.Abs(e)), more(e, l), cm(p.WantCm))
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

func more(byCm float64, l sizing.Line) string {
	words := [2]string{"narrower", "wider"}
	if l.Part.Dimension == "length" {
		words = [2]string{"shorter", "longer"}
	}
	if byCm < 0 {
		return words[0]
	}
	return words[1]
}

// sentence begins with a capital letter.
func sentence(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

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
