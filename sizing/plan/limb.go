package plan

import (
	"fmt"
	"slices"

	"growtuck/sizing"
)

// A limb is a part of the garment that is worked in sections, one from the end
// of the other.
type limb string

const (
	trunkLimb   limb = "trunk"
	sleeveLimb  limb = "sleeve"
	legLimb     limb = "leg"
	hoodLimb    limb = "hood"
	frontLimb   limb = "front" // edges of an opening
	neckLimb    limb = "neckband"
	armholeLimb limb = "armbands"
	headLimb    limb = "hat"
	handLimb    limb = "mitten"
	thumbLimb   limb = "thumb"
	footLimb    limb = "sock"
	strapLimb   limb = "strap"
)

var limbOfSection = map[string]limb{
	"sleeve": sleeveLimb, "cuff": sleeveLimb, "leg": legLimb, "lower-leg": legLimb, "ankle": legLimb,
	"hood": hoodLimb, "hood-crown": hoodLimb, "hood-panel": hoodLimb, "hood-edge": hoodLimb, "front-edges": frontLimb, "underlap": frontLimb,
	"neckband": neckLimb, "armbands": armholeLimb, "thumb": thumbLimb, "strap": strapLimb,
}

// limbOf is the limb of a section; what is not of another is of the trunk.
func (p *Plan) limbOf(section string) limb {
	switch p.Garment.Group {
	case "head":
		return headLimb
	case "foot":
		return footLimb
	case "hand":
		if section == "thumb" {
			return thumbLimb
		}
		return handLimb
	}
	if l, ok := limbOfSection[section]; ok {
		return l
	}
	return trunkLimb
}

// aboveUnderarm are the sections that the sleeves or armbands grow from.
var aboveUnderarm = []string{"back-neck", "yoke", "back", "front-neck", "slit", "front"}

// growsFrom reports whether a section can only be worked once another is as it
// shall be.
func (p *Plan) growsFrom(later, earlier string) bool {
	order := func(id string) int { return slices.IndexFunc(p.Sections, func(s *Section) bool { return s.ID == id }) }
	from, to := p.limbOf(earlier), p.limbOf(later)
	if order(later) <= order(earlier) {
		return false
	}
	switch {
	case to == from:
		return true
	case to == sleeveLimb || to == armholeLimb:
		return slices.Contains(aboveUnderarm, earlier)
	case to == legLimb:
		return from == trunkLimb
	case to == frontLimb:
		return from == trunkLimb && earlier != "back-neck"
	}
	return false
}

// partsAlong are the finished lengths that the rows of a section are part of.
func (p *Plan) partsAlong(section string) []string {
	switch p.limbOf(section) {
	case sleeveLimb:
		return []string{"sleeve_length"}
	case legLimb:
		return []string{"inside_leg"}
	case hoodLimb:
		if section != "hood-panel" {
			return []string{"hood_height"}
		}
	case headLimb:
		switch {
		case p.Hood == nil:
			return []string{"hat_height"}
		case section == "neck":
			return []string{"neck_height"}
		case section != "hood-panel":
			return []string{"hood_height"}
		}
	case handLimb:
		if section != "cuff" {
			return []string{"hand_length"}
		}
	case thumbLimb:
		return []string{"thumb_length"}
	case footLimb:
		if section == "leg" || section == "calf" || section == "top" {
			return []string{"leg_height"}
		}
		return []string{"foot_length"}
	case trunkLimb:
		return trunkParts[section]
	}
	return nil
}

var trunkParts = map[string][]string{
	"yoke":        {"armhole_depth", "body_length", "trunk", "front_opening"},
	"back":        {"armhole_depth", "body_length", "trunk"},
	"slit":        {"front_opening"},
	"front":       {"front_opening"},
	"body":        {"body_length", "trunk", "front_opening"},
	"bodice":      {"body_length", "front_opening"},
	"skirt":       {"skirt_length", "front_opening"},
	"skirt-hem":   {"skirt_length", "front_opening"},
	"drape":       {"body_length"},
	"drape-hem":   {"body_length"},
	"hem":         {"body_length", "front_opening"},
	"body-closed": {"body_length", "trunk"},
	"seat":        {"rise", "trunk", "front_opening"},
	"seat-closed": {"rise", "trunk"},
	"waistband":   {"rise"},
	"hips":        {"rise"},
	"rise-fold":   {"rise"},
}

// A Landmark is a place on the body that an end is measured from.
type Landmark string

// The landmarks.
const (
	Wrist  Landmark = "wrist"
	Waist  Landmark = "waist"
	Crotch Landmark = "crotch"
	Knee   Landmark = "knee"
	Floor  Landmark = "floor"
)

// Landmarks are all landmarks.
var Landmarks = []Landmark{Wrist, Waist, Crotch, Knee, Floor}

// reachOf is the finished length along which a limb goes, and the measurements of
// the body that add up to each landmark on it.
func (p *Plan) reachOf(of limb) (parts []string, landmarks map[Landmark][]string) {
	switch {
	case of == sleeveLimb:
		return []string{"sleeve_length"}, map[Landmark][]string{Wrist: {"arm_to_underarm"}}
	case of == legLimb:
		return []string{"inside_leg"}, map[Landmark][]string{Floor: {"inside_leg"}}
	case of != trunkLimb:
		return nil, nil
	}
	nape := map[Landmark][]string{Waist: {"back_waist_length"}, Crotch: {"trunk"}, Knee: {"back_waist_length", "waist_to_knee"}, Floor: {"trunk", "inside_leg"}}
	has := func(part string) bool { _, ok := p.Part(part); return ok }
	switch {
	case has("trunk"):
		return []string{"trunk"}, nape
	case has("skirt_length"):
		return []string{"body_length", "skirt_length"}, nape
	case has("body_length"):
		return []string{"body_length"}, nape
	}
	return []string{"rise"}, map[Landmark][]string{Crotch: {"rise"}}
}

// beyondCm is how far a limb ends beyond a landmark as it is planned; above it is
// less than 0.
func (p *Plan) beyondCm(of limb, mark Landmark) (float64, error) {
	parts, landmarks := p.reachOf(of)
	along, ok := landmarks[mark]
	if !ok {
		var known []string
		for _, l := range Landmarks {
			if _, ok := landmarks[l]; ok {
				known = append(known, string(l))
			}
		}
		if known == nil {
			return 0, fmt.Errorf("the end of the %s has no landmark to measure from; say with longer by how much it should differ from the plan", of)
		}
		return 0, &sizing.UnknownError{Kind: "landmark of the " + string(of), Name: string(mark), Known: known}
	}
	cm := 0.0
	for _, id := range parts {
		part, _ := p.Part(id)
		cm += part.WornCm()
	}
	for _, id := range along {
		r, ok := p.Body.Get(id)
		if !ok {
			return 0, fmt.Errorf("the body's %s is not known: say with distance how far it is from the last row to the %s", id, mark)
		}
		cm -= r.Value
	}
	return cm, nil
}
