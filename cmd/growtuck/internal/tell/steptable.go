package tell

// stepWords are the words for the steps of a plan, by kind; a craft's own are
// under kind@knit and kind@crochet. A slot {name} takes a value of the step,
// {name:form} in a form; {line} is a row, or a round where the step is worked in
// rounds, and {Line} the same at the front of a sentence.
var stepWords = map[string]string{
	// Beginning, and going on from what is there.
	"cast-on":             "Chain or cast on {cast_on:stitches}.",
	"cast-on-brim":        "Cast on {cast_on:stitches} for the brim.",
	"cast-on-waist":       "Chain or cast on {cast_on:stitches} for the waist; the round begins at the middle of the back.",
	"cast-on-neck":        "Chain or cast on {cast_on:stitches} for the neck; the row begins at the middle of the front.",
	"cast-on-back":        "Chain or cast on {cast_on:stitches}: {shoulder} for a shoulder, {neck} for the neck, {shoulder} for a shoulder.",
	"cast-on-neck-edge":   "Chain or cast on {cast_on:stitches} at the neck edge: {to:stitches}.",
	"cast-on-neck-edges":  "Chain or cast on {cast_on:stitches} at the neck edge of one half and {cast_on_other} at the other: {to} and {to_other:stitches}.",
	"start-ring":          "Begin with {cast_on:stitches} in a ring: round 1.",
	"pick-up-neck":        "Pick up {stitches:stitches} round the neck.",
	"hood-pick-up":        "Row 1: with the right side facing you, pick up {stitches:stitches} along the neck, from front edge to front edge.",
	"pick-up-shoulders":   "Pick up {stitches:stitches} along each shoulder of the back.",
	"pick-up-armholes":    "Pick up {stitches:stitches} round each armhole.",
	"pick-up-sides":       "Pick up {stitches:stitches} along the sides of front and back.",
	"pick-up-thumb":       "Pick up the {on_hold} on hold, {other_side} along their other side and 1 in each corner: {stitches:stitches}.",
	"pick-up-front-edges": "Along each front edge pick up {stitches:stitches} and work {rows:rows}, so that it neither gathers nor flares",
	"pick-up-button-band": "Behind one edge pick up {stitches:stitches} and work {rows:rows} for a band that lies under the other edge: the fronts meet edge to edge.",
	"sleeve-from-yoke":    "Work the {on_hold:stitches} on hold and one in each of the {underarm} at the underarm: {stitches:stitches}.",
	"body-from-yoke":      "Go on with the {stitches:stitches} of the body.",

	// Straight work and ribbing.
	"straight":           "Work {rows:rows} straight.",
	"straight-on":        "Work {rows:rows} straight on {stitches:stitches}.",
	"straight-to-crotch": "Work {rows:rows} straight to the crotch.",
	"skirt-straight":     "Work {rows:rows} straight; finish with an edge that does not draw in.",
	"foot-straight":      "Work {rows:rows} over all {stitches:stitches}, the heel included.",
	"work-rows":          "Work {rows:rows}.",
	"work-each":          "Work {rows:rows} of each.",
	"work-first-round":   "Round 1: work {stitches:stitches}.",
	"rib":                "Work {rows:rows} of ribbing.",
	"rib-elastic":        "Work {rows:rows} of ribbing. For elastic work it twice as deep and fold it in.",
	"rib-finish":         "Work {rows:rows} of ribbing; finish loosely.",
	"rib-finish-on":      "Work {rows:rows} of ribbing on {stitches:stitches}; finish loosely.",

	// Shaping over one row.
	"increase-evenly-first":           "In the first {line}, increase {change} evenly to {to:stitches}",
	"decrease-evenly-first":           "In the first {line}, decrease {change} evenly to {to:stitches}",
	"work-evenly-first":               "In the first {line}, work {to:stitches}",
	"increase-evenly-last":            "In the last {line}, increase {change} evenly to {to:stitches}",
	"decrease-evenly-last":            "In the last {line}, decrease {change} evenly to {to:stitches}",
	"increase-evenly-above-waistband": "In the first round above the waistband, increase {change} evenly to {to:stitches}",
	"increase-evenly-row":             "{Line} {row}, increase {change} evenly to {to:stitches}",
	"decrease-evenly-row":             "{Line} {row}, decrease {change} evenly to {to:stitches}",
	"work-evenly-row":                 "{Line} {row}, work {to:stitches}",
	"raglan-increase":                 "{Line} {row}: at each of the four lines increase {body} on the body side and {sleeve} on the sleeve side, to {to:stitches}",

	// Shaping over many rows: what is done at each side, before how often.
	"shape-none":                 "Work {rows:rows} plain.",
	"shape-sides-increase":       "Increase {each_side:stitches} at each side",
	"shape-sides-decrease":       "Decrease {each_side:stitches} at each side",
	"shape-middle-back-increase": "Increase {each_side:stitches} on both sides of the middle of the back",
	"shape-middle-back-decrease": "Decrease {each_side:stitches} on both sides of the middle of the back",
	"work-other-shaped":          "Work the other to the same length: ",
	"armhole-increase-every-row": "Work {rows:rows}; in the last {last} of them increase 1 at each side: {to:stitches}.",
	"armhole-increase-every-2nd": "Work {rows:rows}; in every 2nd of the last {last} increase 1 at each side: {to:stitches}.",
	"neck-increase-every-row":    "Work {rows:rows} straight, then {then} with 1 increase at the neck edge in every row: {to:stitches}.",
	"neck-increase-every-nth":    "Work {rows:rows} straight, then {then} with 1 increase at the neck edge in every {every:nth} row: {to:stitches}.",
	"tip":                        "Work {rows:rows}, in each decrease 2 at each side: {stitches:stitches}. Join them flat.",
	"thumb":                      "Work {rows:rows}; decrease to half in the last one and draw the yarn through.",

	// Short rows.
	"short-rows-first-neck": "Shape the back neck with {pairs:pairs} of short rows: work the centre-back {first:stitches}, turn, work back, turn.",
	"short-rows-first-seat": "Shape the back of the seat with {pairs:pairs} of short rows: work the centre-back {first:stitches}, turn, work back, turn.",
	"short-rows-next":       "Work each next pair {further:stitches} further at both ends.",
	"short-rows-same":       "Work the other pairs over the same stitches.",
	"short-rows-end":        "The yoke goes on over all {stitches:stitches}.",
	"heel":                  "Over {stitches:stitches}, half of the foot, work {pairs:pairs} of short rows.",
	"heel-leave":            "In each pair leave {each} more unworked at both ends: {middle} remain in the middle.",
	"heel-leave-uneven":     "Leave {each} more unworked at both ends in {pairs} of the pairs, {each_other} in {pairs_other}: {middle} remain in the middle.",
	"heel-take-up":          "Then {pairs:pairs} of rows back, taking up at both ends what was left, in the opposite order.",

	// The yoke, and dividing the work.
	"hood-rows":         "Widen it in {rows:rows}, the one that picks up included, increasing in {increase_rows} of them.",
	"yoke-rows":         "Work {rows:rows}, increasing in {increase_rows} of them.",
	"raglan-lines":      "Mark four lines: {front} for half the front, {sleeve} for the sleeve, {back} for the back, {sleeve} for the sleeve, {other_front} for the other half of the front.",
	"raglan-lines-open": "Mark four lines: {front} for the front, {sleeve} for the sleeve, {back} for the back, {sleeve} for the sleeve, {front} for the front.",
	"divide":            "Divide: work {front} of the front, put {on_hold} on hold for a sleeve, chain or cast on {cast_on} at the underarm, work {back} for the back, put {on_hold} on hold, chain or cast on {cast_on}, work {other_front} of the front: {body:stitches} for the body.",
	"divide-legs":       "Divide the work at the centre front and the centre back: {each:stitches} for each leg. Chain or cast on a bridge of {bridge:stitches} from front to back; the second leg picks up along its other side.",
	"leg-round":         "Work {stitches:stitches} round: {body} of the body and {bridge} of the bridge.",
	"thumb-hole":        "Thumb hole: put {on_hold:stitches} on hold at the side, and chain or cast on {cast_on} over them.",

	// Openings.
	"slit-join":    "Leave the front open for {rows:rows}; then join and go on in rounds.",
	"slit-through": "Leave the front open, yoke and on into the body.",
	"slit-more":    "Leave the front open for {rows:rows} more, then join and go on in rounds.",
	"zipper-guard": "Work a small flap over the top end of the zipper, so that it cannot catch the chin.",
	"buttonholes":  "In the first row of the other edge make {buttonholes} buttonholes of {size:stitches}, {ends:stitches} from each end and at least {apart} apart",
	"sew-buttons":  "Sew {buttons} buttons to the band, each behind a buttonhole. Poppers in the same places need no buttonholes.",

	// Joining and finishing.
	"join-halves":             "Join the two halves of the front: {stitches:stitches}.",
	"join-halves-cast-on":     "Join the two sides of the front, with {cast_on:stitches} chained or cast on between them: {stitches:stitches}.",
	"join-fronts-cast-on":     "The front is closed from here on: chain or cast on {cast_on:stitches} between the two fronts, as wide as their edges and what closes them will be, and join: {stitches:stitches}. The lower ends of the edges are sewn to them.",
	"join-fronts-back":        "Join fronts and back: {stitches:stitches}.",
	"join-front-back-cast-on": "Join front and back, with {cast_on:stitches} chained or cast on at each underarm: {stitches:stitches}.",
	"join-flat":               "Join the last {stitches:stitches} flat.",
	"gather":                  "Draw the yarn through the {stitches:stitches} left and pull tight.",
	"seam-sides":              "Join the sides edge to edge.",
	"hood-seam":               "Fold the hood in half and join its top, {half:stitches} to {half}.",
	"hood-seam-point":         "Fold the hood in half and join its top, {half:stitches} to {half}; the fold keeps a point.",
	"hood-edge":               "Along the face pick up {each:stitches} up one side and {each} down the other, {stitches:stitches} in all, and work {rows:rows}, in one with the front edges",
	"hood-edge-panel":         "Along the face pick up {each:stitches} up one side, {panel} along the end of the panel and {each} down the other side, {stitches:stitches} in all, and work {rows:rows}, in one with the front edges",
	"hood-panel":              "Work the {panel:stitches} at the middle of the back for {rows:rows}; along them join the {each_side} of each side evenly.",

	// Setting in a zipper, and what is done about the rest of its opening.
	"zipper":                      "Opening {opening:cm1}: take the {zipper_in:quarters} in zipper ({zipper:n1} cm); ",
	"zipper-shortened":            "Opening {opening:cm1}: take the {longer_in:quarters} in zipper and shorten it at the top to the opening. Or take the {zipper_in:quarters} in one ({zipper:n1} cm) and ",
	"zipper-set-in":               "set it in; do not stretch the edge to it.",
	"zipper-close-by-hand":        "close the {left:cm1} left by hand at the lower end, or cover them with a flap at the chin.",
	"zipper-take-out-rows":        "take {rows_less:rows} out of the opening; else close the {left:cm1} left by hand or work a plain band above or below.",
	"zipper-take-out-or-add-rows": "take {rows_less:rows} out of the opening, or add {rows_more:rows} for the {longer_in} in; else close the {left:cm1} left by hand or work a plain band above or below.",

	// The rest of work that was tried on.
	"work-rest":  "Work {rows:rows} more, to end on {stitches:stitches}.",
	"work-other": "Work the other in {rows:rows} as well.",
}

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
	"crown":               "Crown",
	"cuff":                "Cuff",
	"foot":                "Foot",
	"front":               "Front, neck to underarm",
	"front-edges":         "Front edges",
	"front-neck":          "Fronts, shoulders to neck",
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
	"neckband":            "Neckband",
	"palm":                "Hand, below the thumb",
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
