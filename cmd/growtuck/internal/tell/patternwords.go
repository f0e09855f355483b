package tell

// patternWords are the words of a pattern that are no step, by what they say; a craft's
// own are under id@knit and id@crochet. A slot {form} takes the next argument, as those
// of facts do.
var patternWords = map[string]string{
	// What it takes.
	"yarn-class":            "Yarn of class {}, {}, or any yarn that gives the gauge.",
	"yarn-any":              "Yarn that gives the gauge.",
	"balls":                 "{balls} of {n0} g / {n0} m: {n0} g, {n0} m, with {pct} to spare; of one dye lot.",
	"balls-colour":          "{}: {balls} of {n0} g / {n0} m: {n0} g, {n0} m.",
	"balls-run":             "{} balls of {n0} g / {n0} m, with {pct} to spare; of one dye lot.",
	"balls-run-colour":      "{}: {} balls of {n0} g / {n0} m.",
	"balls-unknown":         "How many balls: not counted, as a ball's weight and length and a weighed swatch were not given.",
	"tool@knit":             "Needles of {} mm to begin with, or whatever gives the gauge: circular for the wide parts, short or double-pointed (or a long circular) for the narrow ones; for ribbing half a millimetre to a whole one thinner.",
	"tool@crochet":          "Hook of {} mm to begin with, or whatever gives the gauge.",
	"tool-any@knit":         "Needles that give the gauge: circular for the wide parts, short or double-pointed (or a long circular) for the narrow ones; for ribbing half a millimetre to a whole one thinner.",
	"tool-any@crochet":      "Hook that gives the gauge.",
	"zipper-bought":         "Zipper of {quarters} in ({n1} cm) that opens at the lower end, and sewing thread to match.",
	"zipper-closed":         "Zipper of {quarters} in ({n1} cm), and sewing thread to match.",
	"zipper-to-shorten":     "Zipper of {quarters} in, to be shortened to {n1} cm, and sewing thread to match.",
	"zipper-run":            "Zipper of {} in, and sewing thread to match.",
	"buttons-bought":        "{} flat buttons of about {cm}, or poppers.",
	"markers":               "{markers}.",
	"holders":               "Spare yarn or {holders} for the stitches that wait.",
	"sundries":              "Tapestry needle, tape measure, scissors.",
	"gauge-washed":          "{}, in the washed swatch.",
	"gauge-rib":             "Ribbing: {}.",
	"gauge-rib-unknown":     "Ribbing: not measured; counted as the fabric.",
	"gauge-before":          "Before washing the same swatch has {}.",
	"gauge-first":           "Work a swatch of {cm}, wash and dry it as the garment will be, and count in its middle. A stitch more or less to {} changes every girth by {pct}.",
	"made-down":             "Worked from the neck down, in one piece: the yoke first, then body and sleeves one after the other.",
	"made-shoulders":        "Worked from the shoulders down: back and front apart to the underarm, the body in one piece, the sleeves from its sides down.",
	"made-down-suit":        "Worked from the neck down, in one piece: the yoke first, then the body, the legs, the sleeves; the hood from the neck up.",
	"made-down-plain":       "Worked from the neck down, in one piece: the yoke first, then the body, the legs and the sleeves.",
	"made-waist":            "Worked from the waist down, the legs one after the other.",
	"made-crown":            "Worked from the crown down to the brim.",
	"made-brim":             "Worked from the brim up to the crown.",
	"made-hand":             "Worked from the cuff to the tip; the thumb last.",
	"made-foot":             "Worked from the upper edge down to the toe; the heel in short rows.",
	"made-turned":           "In turned rows: {}.",
	"made-rounds":           "In rounds: {}.",
	"made-all-turned":       "All of it is worked in turned rows.",
	"made-all-rounds":       "All of it is worked in rounds.",
	"made-copies":           "Worked twice: {}.",
	"made-counts":           "Counts are of the section that is worked.",
	"made-brackets":         "Numbers are for size {}; those in brackets are for sizes {}, in this order. One number alone is for all sizes.",
	"made-stripes":          "Stripes: {}, over and over; they go on from a section to the one that is worked from its stitches, and the sleeves from where the yoke ended.",
	"made-colour":           "In {}: {}.",
	"made-stripes-odd":      "A stripe of an odd number of turned rows leaves its yarn at the other edge: cut it, or carry on from the edge where it hangs.",
	"section-colours":       "Colours, row by row: {}.",
	"section-stripes":       "Colours: {}, over and over; it ends with {}.",
	"section-stripes-begun": "Colours: begin with {}; then {}, over and over; it ends with {}.",
	"drawing":               "Lying flat, to scale; a girth is drawn as half of it. The letters are those of the sizes above.",
	"weave-in":              "Weave in the ends on the wrong side, each for {cm} and once back, before the edges are finished; leave no end where fingers or toes go.",
	"underarms":             "Close the small holes at both underarms with the ends left there.",
	"turned-seams":          "Sew the seams of {} edge to edge, from the edge inwards, without pulling.",
	"sides-sewn":            "Sew the side seams edge to edge.",
	"zipper-by-hand":        "Zipper by hand: block first. Lay the closed edges side by side, baste them together, pin the zipper face down behind them, its lower stop at the lower edge, and baste it. Backstitch it one stitch from the edge, hem its tape down inside, and take the basting out. The edge keeps its own length: neither stretch nor gather it.",
	"buttons-sewn":          "Sew the buttons on firmly, with a small one or a scrap of felt behind each; tug at every one before it is worn.",
	"block":                 "Wash it, press the water out in a towel, lay it flat to the schematic and let it dry: {}.",
	"block-run":             "Wash it, press the water out in a towel, lay it flat to the schematic of the size and let it dry.",
	"care":                  "Wash as the ball's band says and as the swatch was washed; dry flat.",
	"longer-throughout":     "{cm} longer: {} more, {} in all. {}",
	"longer-end":            "{cm} longer: {} more, plain, after the last.",
	"longer-straight":       "{cm} longer: {} more, {} in all.",
	"longer-start":          "{cm} longer: {} more, plain, before the first decrease.",
	"longer-nowhere":        "Longer: not here, but in the parts beside it.",
	"longer-follows":        "Longer: it follows the edge that it is worked along.",
	"wider-beginning":       "{cm} wider: begin on {} more, {stitches}, and lose them again in the last {}, to {}.",
	"wider-first-row":       "{cm} wider: gain {} evenly in the first {}, to {stitches}; each count is that many more, and in the last {} lose them again, to {}.",
	"wider-shaped-begin":    "{cm} wider: begin on {} more, {stitches}. {}",
	"wider-shaped-first":    "{cm} wider: gain {} evenly in the first {}, to {stitches}. {}",
	"wider-end":             "{cm} wider: {} stitches more from the first {} to the last: {stitches}.",
	"wider-nowhere":         "Wider: not here, but in the parts beside it.",
	"wider-follows":         "Wider: work a row more for each {cm} of width.",

	// What to look at when it is tried on, by the section that is done.
	"try-yoke":            "Try it on, the stitches on spare yarn: the last row meets under the arm, {armhole_depth} below the top of the shoulder, lies flat, and lets the arm be lifted.",
	"try-back":            "Lay it on the child's back: it reaches from shoulder bone to shoulder bone, and down to the underarm.",
	"try-body":            "Try it on: with the hem it will be {body_length} long from the nape; now is the time to make it longer.",
	"try-body-trunk":      "Try it on over what will be worn below: bend and squat; nothing pulls from the nape to the crotch.",
	"try-seat":            "Try it on over what will be worn below: sitting down, the back stays up and the crotch does not pull.",
	"try-sleeve":          "Try on the first sleeve before its cuff, the arm bent: the cuff will end at the wrist bone. Work the other to the same rows.",
	"try-leg":             "Try on the first leg, the knee bent: with its cuff it will be {inside_leg} long inside. Work the other to the same rows.",
	"try-hood":            "Try the hood on: its edge lies at the cheek bones with the head turned, and the top does not stand up.",
	"try-neckband":        "Try it on: the head goes through the neck without force.",
	"try-side":            "Try the hat on: it covers the ears and stays up.",
	"try-palm":            "Try it on: the thumb hole lies where the thumb leaves the hand.",
	"try-hand":            "Try it on: its end is a little beyond the longest finger.",
	"try-foot":            "Try it on: the toe will begin where the smallest toe does.",
	"try-cuff":            "Try on the first one: the hand slips through the cuff with the thumb folded in.",
	"try-ankle":           "Try on the first one: the foot slips through with the heel.",
	"by-part":             "Yarn and time",
	"time":                "{} stitches in all, {n1} hours at {n0} stitches in 10 minutes; sewing up, ends and blocking come on top.",
	"time-left":           "{} stitches to go, {n1} hours at {n0} stitches in 10 minutes; sewing up, ends and blocking come on top.",
	"time-ready":          "At {n} hours a day that is {days}: ready on {}.",
	"time-days":           "At {n} hours a day that is {days}.",
	"time-enough":         "Ready by {} it takes {n1} hours a day from {}: there is time.",
	"time-late":           "Ready by {} it takes {n1} hours a day from {}, more than the {n} there are: it will be {days} late.",
	"time-never":          "Ready by {} it takes {n1} hours a day from {}: that cannot be done.",
	"time-needed":         "Ready by {} it takes {n1} hours a day from {}.",
	"weighed-by-use":      "The rest takes {n0} g, going by the {n0} g that {pct} of the work took, with {pct} to spare; by the swatch it would be {n0} g.",
	"weighed-by-use-only": "The rest takes {n0} g, going by the {n0} g that {pct} of the work took, with {pct} to spare.",
	"weighed-by-swatch":   "The rest takes {n0} g by the swatch, with {pct} to spare.",
	"weighed-enough":      "{n0} g are left: enough, with {n0} g over.",
	"weighed-missing":     "{n0} g are left: {n0} g are missing{}.",
	"weighed-balls":       ", {balls} of {n0} g",
	"weighed-done":        "All of it is worked; {n0} g are left.",
}

// say fills words of the pattern, those of the craft first.
func (st Style) say(id string, args ...any) string {
	template, ok := patternWords[id+"@"+st.Craft]
	if !ok {
		template = patternWords[id]
	}
	return fill(template, func(i int, form string) string {
		if i >= len(args) {
			return ""
		}
		return st.value(args[i], form)
	})
}
