package plan

import (
	"fmt"
	"math"
	"strings"

	"growtuck/data"
	"growtuck/sizing/stitch"
)

// A where is a place of the garment to which a part is sewn: on a row of a
// section, with a line that it is symmetrical to.
type where struct {
	place   string
	zone    string // as a draft names it
	section *Section
	row     int
	line    string  // what it is symmetrical to, such as middle-of-the-back
	at      float64 // the line, in stitches from the beginning of the row
	each    bool    // one on each of two copies, mirrored
	begins  bool    // the round begins at the line
}

// zones are what a draft calls the places.
var zones = map[string]string{"hood": "hood", "face": "face", "head": "brim", "back": "back", "seat": "seat", "knee": "leg", "elbow": "sleeve", "palm": "hand", "sole": "foot"}

// placeOf finds where a part goes: at the place asked for, or at the first of
// its kind's places that the garment has.
func (m *maker) placeOf(row data.AddedPart, a Addition) (where, error) {
	var can []string
	for place := range strings.FieldsSeq(row.Places) {
		w, ok := m.place(place)
		if !ok {
			continue
		}
		w.place, w.zone = place, zones[place]
		if a.Place == place || a.Place == "" {
			return w, nil
		}
		can = append(can, place)
	}
	switch {
	case len(can) > 0:
		return where{}, fmt.Errorf("%s cannot go at %.80q of this garment; want %s", row.Title, a.Place, strings.Join(can, " or "))
	case a.Place != "":
		return where{}, fmt.Errorf("%s cannot go at %.80q of this garment, which has none of their places: %s", row.Title, a.Place, strings.ReplaceAll(row.Places, " ", ", "))
	}
	return where{}, fmt.Errorf("%s can go at %s; this garment has none of these", row.Title, strings.ReplaceAll(row.Places, " ", ", "))
}

// place finds a place of the garment, if it has it.
func (m *maker) place(place string) (where, bool) {
	switch place {
	case "hood":
		if s, ok := m.p.Section("hood-crown"); ok {
			return middle(s, 1, "middle-of-the-back"), true
		}
		if s, ok := m.p.Section("hood"); ok {
			return middle(s, s.Rows(), "middle-of-the-back"), true
		}
	case "face":
		if s, ok := m.p.Section("hood-edge"); ok {
			return middle(s, 1, "top-of-the-face-edge"), true
		}
	case "head":
		if s, ok := m.p.Section("crown"); ok {
			row := s.Rows()
			if m.how.Craft == Knit {
				row = 1
			}
			return middle(s, row, "middle-of-the-front"), true
		}
	case "back":
		for _, id := range []string{"back", "body", "bodice"} {
			if s, ok := m.p.Section(id); ok {
				return middle(s, max(1, s.Rows()/2), "middle-of-the-back"), true
			}
		}
	case "seat":
		if s, ok := m.p.Section("hips"); ok { // the round begins at the middle of the back
			return where{section: s, row: max(1, s.Rows()/2), line: "middle-of-the-back", begins: true}, true
		}
		if s, ok := m.p.Section("seat"); ok {
			return middle(s, max(1, s.Rows()/3), "middle-of-the-back"), true
		}
	case "knee":
		return m.knee()
	case "elbow":
		return m.elbow()
	case "palm":
		return m.half("palm", "palm")
	case "sole":
		return m.half("foot", "sole")
	}
	return where{}, false
}

// middle is the line at the middle of a row.
func middle(s *Section, row int, line string) where {
	return where{section: s, row: row, line: line, at: float64(s.StitchesAfter(row)) / 2}
}

// half is the middle of one half of a tube worked twice.
func (m *maker) half(section, line string) (where, bool) {
	s, ok := m.p.Section(section)
	if !ok {
		return where{}, false
	}
	row := max(1, s.Rows()/2)
	return where{section: s, row: row, line: line, at: float64(s.StitchesAfter(row)) / 4, each: true}, true
}

// knee is the front of the leg at the height of the knee. The leg begins at its
// inner side.
func (m *maker) knee() (where, bool) {
	leg, ok1 := m.body("inside_leg")
	knee, ok2 := m.body("knee_height")
	s, ok := m.p.Section("leg")
	if !ok || !ok1 || !ok2 || leg <= knee {
		return where{}, false
	}
	return m.along([]string{"leg", "lower-leg"}, s.Gauge.Rows(leg-knee), func(s *Section, row int) where {
		return where{section: s, row: row, line: "front-of-the-knee", at: float64(s.StitchesAfter(row)) / 4, each: true}
	})
}

// elbow is the outer side of the sleeve, which begins at the underarm, at the
// height of the elbow.
func (m *maker) elbow() (where, bool) {
	arm, ok := m.body("arm_length")
	part, has := m.f.Line("sleeve_length")
	s, worked := m.p.Section("sleeve")
	if !ok || !has || !worked {
		return where{}, false
	}
	fromTop := part.Finished - m.p.HeldCm("sleeve_length") - arm*m.share("elbow_to_wrist")
	return m.along([]string{"sleeve"}, max(1, s.Gauge.Rows(fromTop)), func(s *Section, row int) where {
		w := middle(s, row, "outer-side-of-the-sleeve")
		w.each = true
		return w
	})
}

// along finds a row so many rows down sections that follow each other.
func (m *maker) along(sections []string, rows float64, at func(*Section, int) where) (where, bool) {
	n := int(math.Round(rows))
	for i, id := range sections {
		s, ok := m.p.Section(id)
		if !ok {
			continue
		}
		if n <= s.Rows() || i == len(sections)-1 {
			return at(s, min(max(n, 1), s.Rows())), true
		}
		n -= s.Rows()
	}
	return where{}, false
}

// sewOn says where the pieces are sewn, by rows and stitches.
func (m *maker) sewOn(s *Section, w where, a Addition, p stitch.Piece) error {
	stitches := w.section.StitchesAfter(w.row)
	width := m.base(w, p)
	v := Values{"place": w.line, "on_line": w.section.line(), "on": w.section.Kind, "on_row": w.row, "stitches": stitches}
	switch {
	case w.each:
		if a.Pieces > 2 {
			return fmt.Errorf("%d pieces: want 2, one on each side, or 1", a.Pieces)
		}
		first := int(math.Round(w.at - float64(width)/2 + 1))
		if width > stitches/2 || first < 1 {
			return &stitch.InputError{What: "width at the base", Got: exact(m.g.WidthCm(width)) + " cm", Want: "at most " + exact(m.g.WidthCm(stitches/2)) + " cm, half of the round there"}
		}
		last := first + width - 1
		v["first"], v["last"], v["first_other"], v["last_other"] = first, last, stitches+1-last, stitches+1-first
		if a.Pieces == 1 {
			s.step("sew-on", "sew-middle", v)
			break
		}
		s.step("sew-on", "sew-each", v)
	case w.begins:
		if width > stitches/2 {
			return &stitch.InputError{What: "width at the base", Got: exact(m.g.WidthCm(width)) + " cm", Want: "at most " + exact(m.g.WidthCm(stitches/2)) + " cm"}
		}
		half := max(1, width/2)
		if a.Pieces > 1 {
			return fmt.Errorf("%d pieces: want 1 there", a.Pieces)
		}
		v["half"] = half
		s.step("sew-on", "sew-beginning", v)
	case a.Pieces == 1 && w.place == "head" && p.Shape != stitch.FlatOval:
		s.step("sew-on", "sew-crown", Values{"on": w.section.Kind, "on_row": 1})
	case a.Pieces == 1:
		c, err := stitch.Centred(stitches, width)
		if err != nil {
			return err
		}
		v["first"], v["last"] = c[0], c[1]
		s.step("sew-on", "sew-middle", v)
	case a.Pieces == 2 && p.Shape != stitch.Tube:
		pair, err := stitch.Mirror(stitches, width, m.apart(w, stitches, width))
		if err != nil {
			return err
		}
		v["first"], v["last"], v["first_other"], v["last_other"] = pair.Left[0], pair.Left[1], pair.Right[0], pair.Right[1]
		s.step("sew-on", "sew-pair", v)
	default:
		return m.sewLine(s, w, a, p)
	}
	if share := float64(width) / float64(stitches); (w.place == "hood" || w.place == "head") && share > m.share("added_base_most") {
		m.note("added-wide", a.Kind, share, m.share("added_base_most"))
	}
	return nil
}

// base is the stitches that a piece covers where it is sewn on: an oval lies
// across at a hood's edge and along the garment elsewhere.
func (m *maker) base(w where, p stitch.Piece) int {
	cm := p.WidthCm
	if w.place == "face" || w.place == "head" && p.Shape == stitch.FlatOval {
		cm = p.HeightCm
	}
	return max(1, int(math.Round(m.g.Stitches(cm))))
}

// apart is how far from the line the middle of each of a pair is.
func (m *maker) apart(w where, stitches, width int) float64 {
	share := m.share("added_from_middle")
	return max(float64(stitches)*share, float64(width)/2+0.5)
}

// line is the section along whose middle pieces stand in a line.
func (m *maker) line(w where) *Section {
	if hood, ok := m.p.Section("hood"); ok && w.place == "hood" {
		return hood
	}
	return w.section
}

// sewLine places pieces one above another along the line, evenly over the rows.
func (m *maker) sewLine(s *Section, w where, a Addition, p stitch.Piece) error {
	on := m.line(w)
	apart := on.Rows() / a.Pieces
	if m.g.HeightCm(on.Rows()) < p.WidthCm*float64(a.Pieces) {
		return &stitch.InputError{What: fmt.Sprintf("%d pieces of %s cm", a.Pieces, exact(p.WidthCm)), Got: exact(math.Round(float64(a.Pieces)*p.WidthCm*10)/10) + " cm in a line",
			Want: fmt.Sprintf("at most %d, in the %s cm there", int(m.g.HeightCm(on.Rows())/p.WidthCm), exact(math.Round(m.g.HeightCm(on.Rows())*10)/10))}
	}
	s.step("sew-on", "sew-line", Values{"place": w.line, "on_line": on.line(), "on": on.Kind, "pieces": a.Pieces, "on_row": max(1, apart/2), "apart": apart})
	return nil
}
