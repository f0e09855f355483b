package follow

import "strings"

// zipperShowsCm is how far apart a zipper holds the edges it is set in, which no
// count says: common practice, no source.
const zipperShowsCm = 1.0

// Sizes are the finished measurements that the counts give, in cm, by the names that
// makers have for them: what can be told from the sections there are.
func (w *Work) Sizes() map[string]float64 {
	s := sizes{Work: w, cm: make(map[string]float64)}
	switch {
	case s.has("brim"):
		s.hat()
	case s.has("palm"):
		s.mitten()
	case s.has("heel"):
		s.sock()
	case s.has("calf"):
		s.legWarmer()
	case s.has("drape"):
		s.poncho()
	case s.has("neck"):
		s.balaclava()
	default:
		s.garment()
	}
	return s.cm
}

type sizes struct {
	*Work
	cm map[string]float64
}

func (s *sizes) has(id string) bool { return len(s.Counts[id]) > 0 }

// width is that of stitches, height that of the rows of sections, each in its gauge.
func (s *sizes) width(n int) float64 { return float64(n) * 10 / s.StitchesPer10Cm }

func (s *sizes) ribWidth(n int) float64 { return float64(n) * 10 / s.RibStitches }

func (s *sizes) height(ids ...string) float64 {
	cm := 0.0
	for _, id := range ids {
		per := s.RowsPer10Cm
		if ribbed[id] {
			per = s.RibRows
		}
		cm += float64(s.rowsOf(id)) * 10 / per
	}
	return cm
}

var ribbed = map[string]bool{"hem": true, "cuff": true, "ankle": true, "waistband": true, "neckband": true, "brim": true, "armbands": true, "neck": true, "top": true}

func (s *sizes) first(id string) int { return s.Counts[id][0] }

func (s *sizes) last(id string) int { return s.Counts[id][len(s.Counts[id])-1] }

// set notes a measurement of a section that there is.
func (s *sizes) set(part, id string, cm func() float64) {
	if s.has(id) {
		s.cm[part] = cm()
	}
}

func (s *sizes) hat() {
	s.cm["brim"] = s.ribWidth(s.last("brim"))
	s.cm["hat_height"] = s.height("brim", "side", "crown")
}

func (s *sizes) mitten() {
	s.cm["hand"] = s.width(s.last("palm"))
	s.set("cuff", "cuff", func() float64 { return s.ribWidth(s.last("cuff")) })
	s.cm["hand_length"] = s.height("palm", "hand", "tip")
	s.cm["thumb_length"] = s.height("thumb")
}

func (s *sizes) sock() {
	s.cm["foot"] = s.width(s.last("foot"))
	s.cm["ankle"] = s.ribWidth(s.first("leg"))
	// The heel's short rows go out and come back over the same stitches.
	s.cm["foot_length"] = s.height("heel")/2 + s.height("foot", "toe")
	s.cm["leg_height"] = float64(len(s.Counts["leg"])) * 10 / s.RibRows
}

func (s *sizes) legWarmer() {
	s.cm["ankle"] = s.ribWidth(s.first("leg"))
	s.cm["calf"] = s.width(s.last("calf"))
	s.cm["leg_height"] = float64(len(s.Counts["leg"]))*10/s.RibRows + s.height("calf", "top")
}

func (s *sizes) poncho() {
	s.cm["neck"] = s.width(s.Begins["drape"])
	s.cm["hem"] = s.width(s.last("drape"))
	s.cm["body_length"] = s.height("back-neck", "drape", "drape-hem")
}

func (s *sizes) balaclava() {
	s.cm["neck"] = s.ribWidth(s.first("neck"))
	s.cm["neck_height"] = s.height("neck")
	s.cm["hood_height"] = s.height("hood", "hood-crown") + s.width(s.lastOf("hood-panel"))/2
}

// edgesCm is what the front edges, and the zipper between them, add to a girth.
func (s *sizes) edgesCm() float64 {
	cm := float64(2*s.Edges.Rows) * 10 / s.RowsPer10Cm
	if s.Zipped {
		cm += zipperShowsCm
	}
	return cm
}

func (s *sizes) garment() {
	for _, id := range []string{"body", "bodice"} {
		s.set("chest", id, func() float64 { return s.width(s.first(id)) + s.edgesCm() })
		s.set("body_length", id, func() float64 { return s.height("back-neck", "yoke", "back", id, "body-closed", "hem") })
	}
	s.set("neck", "yoke", func() float64 { return s.width(s.Begins["yoke"]) + s.edgesCm() })
	s.set("upper_arm", "sleeve", func() float64 { return s.width(s.first("sleeve")) })
	s.set("cuff", "cuff", func() float64 { return s.ribWidth(s.last("cuff")) })
	s.set("ankle", "ankle", func() float64 { return s.ribWidth(s.last("ankle")) })
	s.set("sleeve_length", "sleeve", func() float64 { return s.height("sleeve", "cuff") })
	s.set("thigh", "leg", func() float64 { return s.width(s.first("leg")) })
	s.set("calf", "lower-leg", func() float64 { return s.width(s.last("leg")) })
	s.set("inside_leg", "leg", func() float64 { return s.height("leg", "lower-leg", "ankle") })
	s.set("hood_height", "hood", func() float64 {
		return s.height("hood", "hood-crown") + s.width(s.lastOf("hood-panel"))/2
	})
	s.set("skirt_length", "skirt", func() float64 { return s.height("skirt", "skirt-hem") })
	s.set("skirt_hip", "skirt", func() float64 { return s.width(s.last("skirt")) })
	s.set("waist", "bodice", func() float64 { return s.width(s.last("bodice")) })
	s.set("cross_back", "armbands", func() float64 { return s.width(s.first("back")) })
	s.set("armhole_depth", "back", func() float64 { return s.height("back") })
	if s.has("yoke") && len(s.Underarms) > 0 {
		s.cm["armhole_depth"] = s.wholeCm("back-neck") + s.height("yoke") + s.width(s.Underarms[0])/2
	}
	s.set("strap_length", "strap", func() float64 {
		per := s.RowsPer10Cm
		if s.Craft == Knit {
			per = s.RibRows
		}
		return float64(s.rowsOf("strap")) * 10 / per
	})
	if s.has("waistband") {
		s.trousers()
	} else if s.has("leg") {
		s.onePiece()
	}
	if s.Edges.Rows > 0 {
		s.cm["front_opening"] = s.openingCm()
	}
}

// wholeCm is the height of the rows of a section that go from end to end.
func (s *sizes) wholeCm(id string) float64 {
	return float64(len(s.Counts[id])-s.Short[id]) * 10 / s.RowsPer10Cm
}

// openingCm is the length of the front that is worked in turned rows, with a hem that
// is open too.
func (w *Work) openingCm() float64 {
	cm := float64(w.OpenRows) * 10 / w.RowsPer10Cm
	if w.OpenHem {
		cm += float64(w.rowsOf("hem")) * 10 / w.RibRows
	}
	return cm
}

func (s *sizes) trousers() {
	s.cm["waist"] = s.ribWidth(s.last("waistband"))
	s.cm["hip"] = s.width(s.last("hips"))
	s.cm["rise"] = s.height("waistband", "rise-fold", "hips", "seat") + s.wholeCm("seat-back")
}

// onePiece measures the trunk of a garment with legs.
func (s *sizes) onePiece() {
	seat, rise := 0, 0.0
	for id := range s.Counts {
		if strings.HasPrefix(id, "seat") {
			rise += s.height(id)
			seat = max(seat, s.last(id))
		}
	}
	s.cm["rise"] = rise
	s.cm["trunk"] = s.cm["body_length"] + rise
	_ = seat
}
