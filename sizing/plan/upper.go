package plan

import (
	"fmt"
	"math"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// upper plans a garment for the upper body.
func (m *maker) upper() error {
	if !m.hasPart("chest") {
		return m.poncho()
	}
	open := m.f.Garment.Opening == "front"
	t, err := m.top(open)
	if err != nil {
		return err
	}
	frontRows, hemRows := 0, 0
	if m.has("waist") || m.has("skirt_length") {
		frontRows, err = m.dress(t)
	} else {
		frontRows, hemRows, err = m.straightBody(t)
	}
	if err != nil {
		return err
	}
	if err := m.sleevesOrBands(t); err != nil {
		return err
	}
	m.neckband(m.neckCount(), t.band)
	if !open {
		return nil
	}
	return m.front(frontRows, hemRows)
}

// top plans what is above the underarm.
func (m *maker) top(open bool) (top, error) {
	switch {
	case !m.hasPart("sleeve_length"):
		return m.vest()
	case m.how.Construction == DropShoulder:
		return m.dropShoulder(open)
	}
	return m.yoke(open)
}

// hasPart reports whether the garment has a part, known of this body or not.
func (m *maker) hasPart(part string) bool {
	if m.has(part) {
		return true
	}
	for _, p := range m.f.Missing {
		if p.Part == part {
			return true
		}
	}
	return false
}

func (m *maker) neckCount() int {
	for _, p := range m.parts {
		if p.Line.Part.Part == "neck" {
			return p.Count
		}
	}
	return 0
}

// beginBody starts the body at the underarm.
func (m *maker) beginBody(t top, id, kind string) *Section {
	s := m.begin(id, t.body, !t.turned)
	s.Kind = kind
	switch {
	case t.split != nil:
		divide(s, *t.split)
	case t.under == 0:
		s.step("join", "join-fronts-back", Values{"stitches": t.body})
	default:
		s.step("join", "join-front-back-cast-on", Values{"cast_on": t.under, "stitches": t.body})
	}
	if t.slit > 0 {
		s.step("slit", "slit-more", Values{"open_rows": t.slit})
	}
	return s
}

// straightBody works the body straight down to a ribbed hem. It returns the
// rows of fabric and of ribbing from the front of the neck.
func (m *maker) straightBody(t top) (frontRows, hemRows int, err error) {
	length, err := m.target("body_length")
	if err != nil {
		return 0, 0, err
	}
	// A short body has less of a hem rather than more length.
	hemDepth := func(cm float64) int {
		return m.ribRows(max(0, min(m.hemCm(), cm*m.share("hem_most"), cm-m.g.HeightCm(t.back+1))))
	}
	hemRows = hemDepth(length.cm)
	rowsCm := length.cm - m.g.HeightCm(t.back)
	if open, err := m.target("front_opening"); t.open && err == nil {
		// Back and front are two lengths of one body: each misses half of what
		// the neck's whole rows leave.
		rowsCm = (rowsCm + m.followNeckDrop(open.cm) - m.g.HeightCm(t.front)) / 2
	}
	h, err := m.holdBody(t, rowsCm-m.rib.HeightCm(hemRows))
	if err != nil {
		return 0, 0, err
	}
	if h.edge() > 0 {
		hemRows = hemDepth(length.cm-h.cm(m)) + h.edge()
	}
	rows, err := m.nearestRows(max(rowsCm-m.rib.HeightCm(hemRows), m.g.RowHeightCm()), !t.turned)
	if err != nil {
		return 0, 0, err
	}
	s := m.beginBody(t, "body", "body")
	s.tucks(h)
	s.straight(max(1, rows-h.later()), "straight", "straight")
	s.holdLater(h)
	if err := m.hem("hem", s.To(), t.open, hemRows, h); err != nil {
		return 0, 0, err
	}
	m.heightPart("body_length", t.back+rows, hemRows)
	if t.open {
		m.heightPart("front_opening", t.front+rows, hemRows)
	}
	return t.front + rows - h.later(), hemRows - h.edge(), nil
}

// holdBody decides how a body of a length of fabric below the underarm holds its room:
// a fold across lies below a slit of the neck.
func (m *maker) holdBody(t top, cm float64) (held, error) {
	parts := []string{"body_length"}
	if t.open {
		parts = append(parts, "front_opening")
	}
	return m.hold(holdAt{room: BodyRoom, parts: parts, inRounds: !t.turned, ribbed: true, below: m.f.Practice("tuck_from_edge"), fits: func(need int) string {
		rows, _ := m.nearestRows(cm, !t.turned)
		least := max(m.wholeRows(m.f.Practice("tuck_from_join"), 1), t.slit+m.wholeRows(m.f.Practice("tuck_from_opening"), 1))
		if rows-need < least {
			return fmt.Sprintf("the body is too short: a tuck lies %s cm below the underarm at least", exact(m.practice("tuck_from_join").Value))
		}
		return ""
	}})
}

// hem finishes an edge in ribbing.
func (m *maker) hem(id string, stitches int, turned bool, rows int, h held) error {
	p, err := stitch.PlanRib(stitches, m.ribShare(), stitch.Even, m.rib, !turned)
	if err != nil {
		return err
	}
	s := m.beginRib(id, p.Rib, !turned)
	if p.Rib != p.Fabric {
		s.add(rowShaped("join", "first", p.Join))
	}
	s.plain(rows)
	s.step("rib", "rib-finish-on", Values{"rows": rows, "stitches": p.Rib})
	s.holdEdge(h)
	return nil
}

// dress works a bodice to the waist and a skirt, both in rows where the front is
// open. It returns the rows of fabric from the front of the neck.
func (m *maker) dress(t top) (frontRows int, err error) {
	w, err := m.targets("body_length", "waist", "skirt_hip", "skirt_length")
	if err != nil {
		return 0, err
	}
	girth, record := target.whole, m.widthPart
	if t.open {
		girth, record = func(g target) target { return g.fabric(m.edges.girthCm) }, m.openWidthPart
	}
	m.overWaist(w["waist"])
	rows, err := m.nearestRows(max(w["body_length"].cm-m.g.HeightCm(t.back), m.g.RowHeightCm()), !t.open)
	if err != nil {
		return 0, err
	}
	s := m.beginBody(t, "bodice", "bodice")
	waist, err := m.sideShaping(t.body, girth(w["waist"]), rows, 1, t.turned)
	if err != nil {
		return 0, fmt.Errorf("waist: %w", err)
	}
	s.shape(waist)
	record("waist", s.To(), pairs(s.To()))
	m.heightPart("body_length", t.back+rows, 0)

	long, err := m.nearestRows(w["skirt_length"].cm, !t.open)
	if err != nil {
		return 0, err
	}
	hips := girth(w["skirt_hip"])
	down := int(math.Round(m.g.Rows(m.hipDepthCm(w["skirt_length"].cm))))
	parts := []string{"skirt_length"}
	if t.open {
		parts = append(parts, "front_opening")
	}
	h, err := m.hold(holdAt{room: SkirtRoom, parts: parts, inRounds: !t.open, below: m.f.Practice("tuck_from_edge"), fits: func(need int) string {
		if long-need <= m.pairsTo(waist.To(), hips) {
			return "the skirt is too short below the hips for a tuck"
		}
		return ""
	}})
	if err != nil {
		return 0, err
	}
	whole := long
	long -= h.later()
	down = min(max(down, m.pairsTo(waist.To(), hips), 1), long-h.need()-h.edge()) // what is folded is straight
	if t.open && m.common.rows.Repeat == 2 && down > 1 {
		down -= down % 2 // what follows begins on the right side
	}
	s = m.begin("skirt", waist.To(), !t.open)
	hip, err := m.sideShaping(waist.To(), hips, down, 0, t.open)
	if err != nil {
		return 0, fmt.Errorf("hip: %w", err)
	}
	s.shape(hip)
	record("skirt_hip", s.To(), pairs(s.To()))
	if long > down {
		s = m.begin("skirt-hem", hip.To(), !t.open)
		kind := "skirt-straight"
		if t.open {
			kind = "skirt-straight-open"
		}
		s.tucks(h)
		s.straight(long-down, "straight", kind)
		m.note("skirt-straight-below-hip")
	}
	s.holdEdge(h)
	s.holdLater(h)
	m.heightPart("skirt_length", whole, 0)
	if open, err := m.target("front_opening"); t.open && err == nil {
		m.heightPart("front_opening", t.front+rows+whole, 0)
		m.depart("front_opening", m.g.HeightCm(t.front+rows+whole)-open.cm, "front-as-long-as-back")
	}
	return t.front + rows + long, nil
}

// hipDepthCm is how far below the waist the hips are widest.
func (m *maker) hipDepthCm(skirtCm float64) float64 {
	if rise, ok := m.body("rise"); ok {
		return rise * m.share("hip_share_of_rise")
	}
	return skirtCm * m.share("hip_share_of_skirt")
}

// overWaist notes a waist that must stretch over the chest.
func (m *maker) overWaist(waist target) {
	chest, ok := m.body("chest")
	if !ok || waist.cm >= chest {
		return
	}
	if s, measured := m.how.Stretch["waist"]; measured && waist.cm*s >= chest {
		return
	}
	m.note("waist-must-stretch", sizing.Length(waist.cm), sizing.Length(chest), chest/waist.cm)
}

// pairsTo is the rows that shaping to a girth takes, a stitch at each side in
// every row.
func (m *maker) pairsTo(from int, to target) int {
	return int(math.Ceil(math.Abs(m.g.Stitches(to.cm)-float64(from))/2)) + 1
}

// sideShaping shapes the body at both sides to a girth, after rows that join it.
func (m *maker) sideShaping(from int, to target, rows, joins int, turned bool) (stitch.Schedule, error) {
	// As far as the rows allow.
	usable := rows - joins
	if m.rightSideOnly(!turned) {
		usable = (usable + 1) / 2
	}
	usable = max(usable, 1)
	most := 2 * sideAtOnceMost * usable
	if wide := m.g.Stitches(to.cm); wide < float64(from-most) || wide > float64(from+most) {
		reached := min(max(wide, float64(from-most)), float64(from+most))
		if to.line.Part.Part == "waist" {
			m.depart("waist", (reached-wide)/m.g.StitchesPer10Cm*10, "waist-body-short")
		}
		to.cm = reached * m.g.StitchWidthCm()
		to.leastCm = min(to.leastCm, to.cm)
	}
	least := atLeast(m.g.Stitches(to.leastCm))
	return slope{from: from, target: m.g.Stitches(to.cm), least: least, most: max(2*from, 2*least) + 8, rows: rows,
		plain: rows / 4, joins: joins, atOnceMost: sideAtOnceMost, inRounds: !turned, rightSideOnly: m.rightSideOnly(!turned)}.taper()
}

// sleevesOrBands finishes the armholes.
func (m *maker) sleevesOrBands(t top) error {
	if m.hasPart("sleeve_length") {
		return m.sleeves(t)
	}
	if hole, ok := m.target("armhole_depth"); ok == nil {
		m.armbands(int(math.Round(m.g.Rows(hole.cm))), m.g.WidthCm(t.under))
	}
	return nil
}
