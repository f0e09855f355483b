package tell

// commonSteps are the words for steps that both crafts work alike, by kind. {at} is
// the row or rows of the step, {all} plain work over them, {row} the row stitch by
// stitch, and {end} what closes it with its count.
var commonSteps = map[string]string{
	// Straight work.
	"plain":              "{at}: {start}{all}{end}",
	"straight":           "{at}: {start}{all}{end}",
	"straight-on":        "{at}: {start}{all}{end}",
	"straight-to-crotch": "{at}: {start}{all}{end}",
	"foot-straight":      "{at}: {start}{all}, the heel included{end}",
	"work-rows":          "{at}: {start}{all}{end}",
	"work-each":          "{at}, of each half: {start}{all}{end}",
	"thumb":              "{at}: {start}{all}{end} Cut the yarn, draw it through the sts of this {line} and pull tight.",

	// Shaping over one row.
	"increase-evenly-first":           "{at}: {row}{end}",
	"decrease-evenly-first":           "{at}: {row}{end}",
	"work-evenly-first":               "{at}: {row}{end}",
	"increase-evenly-last":            "{at}: {row}{end}",
	"decrease-evenly-last":            "{at}: {row}{end}",
	"increase-evenly-above-waistband": "{at}: {row}{end}",
	"increase-evenly-row":             "{at}: {row}{end}",
	"decrease-evenly-row":             "{at}: {row}{end}",
	"work-evenly-row":                 "{at}: {row}{end}",

	// The yoke.
	"yoke-rest":         "{at}: {start}{all}{end}",
	"yoke-rows":         "{rows:rows} in all, {increase_rows} of them with increases.",
	"hood-rows":         "Widened in the first {rows:rows}, {increase_rows} of them with increases.",
	"raglan-lines":      "Place 4 markers, with {front} for half the front, {sleeve} for the sleeve, {back} for the back, {sleeve} for the sleeve and {other_front} for the other half of the front.",
	"raglan-lines-open": "Place 4 markers, with {front} for the front, {sleeve} for the sleeve, {back} for the back, {sleeve} for the sleeve and {front} for the front.",

	// Openings.
	"slit-join":    "Leave the front open for {open_rows:rows}; then join: each row from there on is a round, turned as the rows are.",
	"slit-through": "Leave the front open, yoke and on into the body.",
	"slit-more":    "Leave the front open for {open_rows:rows} more, then join and go on in rounds.",
	"sew-buttons":  "Sew {buttons} buttons to the band, each behind a buttonhole. Poppers in the same places need no buttonholes.",

	// Setting in a zipper, and what is done about the rest of its opening.
	"zipper":                      "Opening {opening:cm1}: take the {zipper_in:quarters} in zipper ({zipper:n1} cm); ",
	"zipper-shortened":            "Opening {opening:cm1}: take the {longer_in:quarters} in zipper and shorten it at the top to the opening. Or take the {zipper_in:quarters} in one ({zipper:n1} cm) and ",
	"zipper-set-in":               "set it in; do not stretch the edge to it.",
	"zipper-close-by-hand":        "close the {left:cm1} left by hand at the lower end, or cover them with a flap at the chin.",
	"zipper-take-out-rows":        "take {rows_less:rows} out of the opening; else close the {left:cm1} left by hand or work a plain band above or below.",
	"zipper-take-out-or-add-rows": "take {rows_less:rows} out of the opening, or add {rows_more:rows} for the {longer_in} in; else close the {left:cm1} left by hand or work a plain band above or below.",
	"zipper-by-hand":              "Set the zipper in by hand: wash and block the fronts first; with the zipper closed pin it under them from the lower edge up, the edges meeting over its teeth without a stretch; tack it; open it and sew each side from the front with small back stitches beside the edge; hem the tape down inside, and turn its ends under at the top.",

	// Room to grow: where it is held, in its section, and how it is held and let down.
	"tuck":                     "{at}: {start}{all}{end} These {rows:rows} are a tuck: run a thread of another colour through the sts of the {line} before them, and one through those of the last of them.",
	"edge-fold-cuff":           "Of this edge {cm:cm1} are turned back until they are needed.",
	"edge-hem":                 "Of this edge {cm:cm1} are turned in until they are needed.",
	"edge-hem-open":            "Of this edge {cm:cm1} are turned in until they are needed. Turn them in before the front edges are worked, which end at the fold.",
	"marked":                   "Run a thread of another colour through the {stitches:sts} of this {line} and leave it in: from here it is worked on later.",
	"hold-tuck":                "{section:section}: fold the tuck to the inside, {line} {to} on {line} {on}, and catch their {stitches} sts together along the threads, one in every {every}, with a running stitch in a thread of another colour, not drawn tight; leave its ends long. {rows:rows} lie in the fold, {deep:cm1} deep. With it the {part} is {long:cm1}. Take the first two threads out.",
	"let-down-tuck":            "{section:section}, {line}s {first} to {to}: cut the running stitch, pull it out, wash and lay flat: the {part} is {then:cm1}.",
	"hold-rise":                "{section:section}: fold the tuck to the inside under the waistband, {line} {to} on {line} {on}, and catch their {stitches} sts together along the threads, one in every {every}, with a running stitch in a thread of another colour, loosely, so that the waist still stretches; leave its ends long. {rows:rows} lie in the fold, {deep:cm1} deep. With it the {part} is {long:cm1}. Take the first two threads out.",
	"let-down-rise":            "{section:section}, {line}s {first} to {to}: cut the running stitch, pull it out, wash and lay flat: the {part} is {then:cm1}.",
	"hold-fold-cuff":           "{section:section}: turn the last {cm:cm1} back to the outside. So the {part} is {long:cm1}.",
	"let-down-fold-cuff":       "{section:section}: turn it down: the {part} is {then:cm1}.",
	"hold-hem":                 "{section:section}: turn the last {cm:cm1} in and hem the edge down inside, one of its {stitches} sts in every {every}, loosely, in a thread of another colour; leave its ends long. So the {part} is {long:cm1}.",
	"let-down-hem":             "{section:section}: pull the hemming thread out, wash and lay flat: the {part} is {then:cm1}.",
	"hold-buttons":             "{section:section}: leave the hole of row {to} for later and button both straps by that of row {on}: the {part} is then {long:cm1}; what is longer lies behind the waistband.",
	"let-down-buttons":         "{section:section}: button both straps by the hole of row {to} in place of that of row {on}: the {part} is {then:cm1}.",
	"strap-sew":                "Sew the beginnings of both straps behind the waistband at the back, {apart:cm1} apart, cross them, and sew {buttons} buttons inside the waistband in front, as far apart as the shoulders let them lie. Where the straps cross, catch one to the other, so that they do not slip off.",
	"hold-on-hold":             "{section:section}: for now it ends below {line} {on}, and the {part} is {long:cm1}. Keep the yarn for {rows:rows} more on {stitches:sts}, and the thread in {line} {on}.",
	"let-down-when-dated":      "It is time when the {measurement} passes {at:cm1}, about {about:month} ({early:month} to {late:month}).",
	"let-down-when-dated-open": "It is time when the {measurement} passes {at:cm1}, about {about:month} ({early:month} or later).",
	"let-down-when-in":         "It is time when the {measurement} passes {at:cm1}, in about {about:months} ({early} to {late}).",
	"let-down-when-in-open":    "It is time when the {measurement} passes {at:cm1}, in about {about:months} ({early} or later).",
	"let-down-when":            "It is time when the {measurement} passes {at:cm1}.",

	// Parts sewn on.
	"fill":          "Stuff it with washable filling, {volume:n0} ml, about {grams:n1} g, so that none shows between the sts.",
	"fold-in-half":  "Fold it in half along its length.",
	"sew-pair":      "Sew them to {on:section}, {on_line} {on_row}: over its sts {first} to {last} and {first_other} to {last_other} of {stitches}, as far from the {place:spoken} on one side as on the other.",
	"sew-each":      "Sew one to each {on:section}, {on_line} {on_row}, at the {place:spoken}: over sts {first} to {last} of {stitches} on the first, {first_other} to {last_other} on the second, counted from the beginning of the {on_line}.",
	"sew-middle":    "Sew it to {on:section}, {on_line} {on_row}: over its sts {first} to {last} of {stitches}, at the {place:spoken}.",
	"sew-beginning": "Sew it to {on:section}, {on_line} {on_row}: over the last {half} and the first {half} sts, at the {place:spoken}, where the {on_line} begins.",
	"sew-crown":     "Sew it to the middle of the crown.",
	"sew-line":      "Sew them to {on:section} in a line along the {place:spoken}, the middle of the first on {on_line} {on_row}, of each next one {apart} {on_line}s further.",

	// The rest of work that was tried on.
	"work-rest":  "Work {rows:rows} more, to end on {stitches:sts}.",
	"work-other": "Work the other in {rows:rows} as well.",
}

// noCord goes before what draws a hood's edge in without a cord.
const noCord = " No cord: for a closer edge use "
