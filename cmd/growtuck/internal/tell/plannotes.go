package tell

// planNotes are the words for what a plan notes.
var planNotes = map[string]string{
	// On the whole work.
	"rib-gauge-unknown":   "The ribbing is planned at the fabric's gauge; it draws in. Work a swatch of it and give its gauge.",
	"stitch-and-gauge":    "{2:n} stitches and {3:n} rows to 10 cm are no usual gauge of {1:stitch}: its rows are {5:n2} to {6:n2} times as high as a stitch is wide, these {4:n2} times. Count the swatch again, or say which stitch it is: these look like {7:stitch}.",
	"sizes-after-washing": "Sizes are after washing. While working, {cm} of width measures {cm1} and {cm} of height {cm1}.",
	"sizes-alike":         "Size {} has the {} of size {}: the repeat is too wide for the step between them.",

	"carers-decide":        "What the child needs in wearing it is for its carers and clinicians to say; measure sitting, and over a brace or a cast, and give what that adds as more of the part.",
	"port-opening":         "{capital}: leave an opening of {2:cm}, {3:stitches}, for a tube or a port where the carers mark it with the garment on: bind off, and cast on as many in the next row. Work a flap over it, and no hard edge inside.",
	"port-opening@crochet": "{capital}: leave an opening of {2:cm}, {3:stitches}, for a tube or a port where the carers mark it with the garment on: skip them, and chain as many over the gap. Work a flap over it, and no hard edge inside.",

	// On finished measurements.
	"ease-is-fit":                 "{capital}: an ease of {cm} is a {} fit.",
	"ease-over-layer":             "{capital}: worn {}, {cm} of the ease go for what is underneath; {cm} are left to move in.",
	"ease-under-layer":            "{capital}: an ease of {cm} is too little {}: what is underneath takes {cm}.",
	"ease-follows":                "In the other parts the ease is that of a {} fit: {join}.",
	"ease-of":                     "{} {cm}",
	"length-beside":               "{capital}: the trade standard has {cm1}, above the hips; that is the option {}.",
	"opening-above-tuck":          "The front opening ends above the tuck: it and what closes it keep their length when that is let down.",
	"room-nowhere":                "This garment has nowhere to hold its room to grow; that is worn as it is.",
	"room-worn":                   "The {} has {cm1} of room to grow; that is worn as it is.",
	"part-departs":                "{capital} is {cm1}, {cm1} {} than in a fitted garment: {}.",
	"part-misses":                 "{capital} comes out at {cm1}, {cm1} {} than the {cm1} asked for: whole stitches and rows come no closer.",
	"narrower":                    "narrower",
	"wider":                       "wider",
	"shorter":                     "shorter",
	"longer":                      "longer",
	"drop-shoulder-sleeve-wide":   "the sleeve of a drop shoulder is as wide as both sides of its armhole",
	"drop-shoulder-sleeve-length": "it begins where the wide body ends and is measured from the centre back",
	"front-neck-of-child":         "the neck is lower in front by the child's own heights of nape and throat",
	"as-asked-for":                "as asked for",
	"trunk-lengths-differ":        "Nape to waist and rise add up to {cm1}, nape to crotch is {cm1}: each of the three takes a third of the difference.",

	// On parts of the garment.
	"yoke-ruffles":             "The yoke gains more stitches than lie flat and ruffles a little: a looser fit avoids it.",
	"yoke-deeper":              "The yoke is {rows} deeper than asked for, so that it does not ruffle.",
	"sleeve-gathered":          "The sleeve is too short to narrow to the cuff: what is left is gathered in its first round.",
	"leg-gathered":             "The leg is too short to narrow to the ankle: what is left is gathered in the first round of its cuff.",
	"calf-not-narrower":        "it is no narrower than the end of the leg",
	"waist-body-short":         "above the waist there are too few rows to shape it",
	"back-half-chest":          "The back between the armholes is half the chest, {cm1}: the body is too narrow for more.",
	"neck-to-wrist-unknown":    "The length from the centre back to the wrist is not known: the sleeve is as long as the arm from the underarm. Measure it and plan again.",
	"cuffs-folded-back":        "The cuffs are worked {cm1} deep and folded back.",
	"skirt-straight-below-hip": "The skirt is straight below the hip. For more room to run, continue increasing as above.",
	"hip-not-narrower":         "the seat is as wide as chest and waist above it",
	"front-as-long-as-back":    "the front ends where the skirt does",
	"leg-has-bridge":           "half the hips and the bridge between the legs make it so",
	"hood-has-point":           "The hood is straight and keeps a point at the back of the head. Where something will cover the seam it may stay; else shape the crown.",
	"bridge-wide":              "The bridge between the legs is {pct} of the hips, so that the legs are wide enough: more than the usual {percent} to {pct}.",
	"crown-cups":               "The crown cups a little at this gauge.",
	"crown-ruffles":            "The crown ruffles a little at this gauge.",
	"mittens-alike":            "Make both alike; the thumb is at the side.",

	// On openings and edges.
	"head-unknown":              "The head girth is not known: measure it, and make sure that the neck goes over it, before you begin.",
	"neck-slit":                 "{capital}, {cm1} round, needs an opening: {}. The front has a slit of {cm1}, closed with a button or a popper.",
	"neck-stretch-not-measured": "the stretch of the neck edge has not been measured",
	"neck-stretches-to":         "the neck edge stretches {cm1} at most",
	"passing-head":              "the head with its ears",
	"passing-hand":              "the hand with its thumb folded in",
	"passing-foot":              "the foot round heel and instep",
	"passing-hips":              "the hips",
	"passing-brim":              "the head",
	"wide-enough-to-pass":       "it must go over what passes it",
	"edge-wider-to-pass":        "The {} is wider than the {cm1} asked for: stretched to {cm1} it would not go over {}, {cm1} round.",
	"edge-must-stretch":         "The {} of {cm1} must go over {}, {cm1} round: it must stretch {n2} times. Measure on the swatch whether the ribbing does.",
	"waist-must-stretch":        "The waist of {cm1} must pass the chest, {cm1}: it must stretch {n2} times. Measure on the swatch whether it does.",
	"no-zipper":                 "No stocked zipper fits the opening of {cm1}: close it with buttons or poppers.",

	// On parts sewn on.
	"added-leg-unknown":    "How low a {spoken} may hang is not known: measure the inside leg. It must clear the floor, and a stair on the way down.",
	"added-wide":           "The base of each {spoken} is {pct} of the round that it stands on, more than the usual {pct}: it will pull the fabric out of shape.",
	"added-weight":         "The parts at the hood weigh {n0} g, the hood itself {n0} g.",
	"added-weight-unknown": "What the parts at the hood weigh is not known: give a ball and a swatch. Parts of more than a quarter of the hood's weight let it slide back or over the eyes.",
	"added-heavy":          "The parts at the hood weigh {n0} g, the hood itself {n0} g. More than {pct} of its weight lets it slide back or over the eyes: make them smaller, or leave the filling out.",

	// On yarn.
	"yarn-not-asked":       "Yarn is left out: give a ball's grams and metres and the weight of a swatch.",
	"yarn-left-out":        "Yarn is left out: {}.",
	"yarn-one-more":        "The last of the {balls} would be used to {pct}: buy one more before the dye lot is gone.",
	"yarn-one-more-colour": "The last of the {2:balls} of {1:} would be used to {3:pct}: buy one more before the dye lot is gone.",
	"yarn-outside-usual":   "Yarn of {n0} m for {n2} m² is outside the usual range for {}, {n0} to {n0} m (from memory): weigh the swatch again.",

	// On work that was tried on.
	"section-narrows-steeply": "{section} narrows steeply in what is left; make it longer, or end it on more stitches.",
	"section-widens-steeply":  "{section} widens steeply in what is left; make it longer, or begin it on more stitches.",
	"first-copy-differs":      "The first {section} was worked in {} rows to {stitches}, the other is now planned in {} to {stitches}: rip the first back and work it like the other, or plan both like the first with as-worked.",
	"as-worked":               "{section}: worked in {} rows to {stitches}; the other is planned like it.",
	"change-under-a-row":      "{section}: {cm1} is less than the rows it can differ by; it stays as planned.",
	"change-under-a-pair":     "{section}: {cm1} is less than a stitch at each side; it stays as planned.",
	"change-lower-down":       "{section} is finished, and what hangs from it is begun: the rows are worked in {section} instead.",
	"below-moves-too":         "What is below moves as far as {section}. To have it end where it was planned, take it out of {section}: --longer {}.",
	"below-moves-too@page":    "What is below moves as far as {section}. To have it end where it was planned, take it out of {section}: longer, {}.",
	"bridge-becomes":          "The bridge between the legs becomes {stitches}.",
	"underarm-becomes":        "Add {stitches} at each underarm where the work is divided: they widen the sleeves too.",
}
