package tell

// sectionNames are the names of a plan's sections, by kind.
var sectionNames = map[string]string{
	"ankle":               "Ankle cuff",
	"armbands":            "Armbands",
	"back":                "Back, shoulders to underarm",
	"back-neck":           "Back of the neck",
	"bodice":              "Bodice, underarm to waist",
	"body":                "Body",
	"body-to-waist":       "Body, underarm to waist",
	"body-beside-opening": "Body, beside the opening",
	"body-closed":         "Body, below the opening",
	"brim":                "Brim",
	"calf":                "Leg, ankle to calf",
	"crown":               "Crown",
	"cuff":                "Cuff",
	"foot":                "Foot",
	"front":               "Front, neck to underarm",
	"front-edges":         "Front edges",
	"front-neck":          "Fronts, shoulders to neck",
	"drape":               "Body, neck to hem",
	"drape-hem":           "Hem",
	"fronts":              "Fronts, neck to underarm",
	"hand":                "Hand, above the thumb",
	"heel":                "Heel",
	"hem":                 "Hem",
	"hips":                "Hips",
	"hood":                "Hood",
	"hood-crown":          "Crown of the hood",
	"hood-edge":           "Edge of the hood",
	"hood-panel":          "Panel over the crown",
	"leg":                 "Leg",
	"lower-leg":           "Leg, below the calf",
	"neck":                "Neck",
	"neckband":            "Neckband",
	"palm":                "Hand, below the thumb",
	"strap":               "Straps",
	"rise-fold":           "Fold under the waistband",
	"seat":                "Seat, waist to crotch",
	"seat-back":           "Back of the seat",
	"seat-beside-opening": "Seat, beside the opening",
	"seat-closed":         "Seat, below the opening",
	"seat-below-hips":     "Seat, hips to crotch",
	"side":                "Side",
	"skirt":               "Skirt, waist to hip",
	"skirt-hem":           "Skirt, hip to hem",
	"sleeve":              "Sleeve",
	"slit":                "Front halves beside the slit",
	"thumb":               "Thumb",
	"tip":                 "Tip",
	"toe":                 "Toe",
	"top":                 "Upper edge",
	"underlap":            "Button band",
	"waistband":           "Waistband",
	"yoke":                "Yoke",
}

// sectionName is the name of a section of a plan, by its kind.
func sectionName(kind string) string {
	if name, ok := sectionNames[kind]; ok {
		return name
	}
	return Capital(Spoken(kind))
}
