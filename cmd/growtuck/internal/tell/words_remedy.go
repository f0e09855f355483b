package tell

// The names of the groups and fields of the page that remedies send a maker to.
const (
	PageMeasures = "“Measured on the child”"
	PageSizes    = "“Or start from a size”"
	PageExtras   = "“More or less of a part”"
	PageStretch  = "“How many times edges stretch”"
)

// remedyWords are the words for what can be done about a finding. On the page,
// which has no rows of a draft, some are other words.
var remedyWords = map[string]string{
	"fix": "{}",

	"fix.add-row":            "add a row {},{}",
	"fix.add-count":          "add a row {},{},…,{}",
	"fix.add-finished":       "add a row finished,{},…",
	"fix.add-finished-count": "add a row finished,{} with its stitches or rows",
	"fix.add-opening":        "add a row opening,{} with its length",
	"fix.add-age":            "add a row age",
	"fix.add-age@page":       "give the age, at the top",
	"fix.add-age@command":    "give the age with --age",
	"fix.add-split":          "add rows split for fronts, back, sleeves and underarm, and for the body and the sleeve they make",
	"fix.remove-exception":   "remove it from the list",
	"fix.save-without-mark":  "nothing needs to be done here; save without the mark where other tools complain",
	"fix.nothing":            "nothing needs to be done",
	"fix.first":              "fix this first; the other checks did not run",
	"fix.measure":            "measure it and add a row body",
	"fix.measure@page":       "measure it and enter it at " + PageMeasures,
	"fix.measure@command":    "measure it and give it with --set",
	"fix.measure-again":      "measure it again; if it is right, leave it",

	"fix.or":                   "{}, or {}",
	"fix.or-else":              "{}; or {}",
	"fix.or-write":             "{}, or write {to}",
	"fix.or-note":              "{}, or say in the note why they differ",
	"fix.or-extra":             "{}; or say in a row extra that it is meant",
	"fix.or-extra@page":        "{}; or enter it at " + PageExtras,
	"fix.or-extra@command":     "{}; or give it with --extra if it is meant",
	"fix.or-part":              "{}, or change the finished part",
	"fix.or-armhole":           "{}, or change the armhole's depth",
	"fix.or-waist-and-rise":    "{}; or set nape to waist and rise to it",
	"fix.or-body":              "{}; or change the body to match",
	"fix.or-trunk":             "{}; or take the trunk from the lengths of the legs",
	"fix.or-opening":           "{}, or plan an opening",
	"fix.or-opening-rows":      "{}, or add {rows} to the opening",
	"fix.in-yoke":              "{} in the yoke, or change the sections",
	"fix.both-underarms":       "{}: both underarms count",
	"fix.nearest-multiple":     "that is the nearest of {}: write {to}",
	"fix.end-on":               "end on {to}: {} and {} are not both even or both odd",
	"fix.more-in-each":         "{}, with more increases in each, or work more rows",
	"fix.list-increases":       "list every increase row, or correct the number of them",
	"fix.move-up":              "move it up, or correct the rows of the yoke",
	"fix.count-yoke":           "count the rows of the yoke again",
	"fix.gain-less":            "add at most {} stitches over these rows, or work {} rows",
	"fix.gain-more":            "add {} stitches or more over these rows, or work at most {} rows",
	"fix.try-yoke":             "right over a sloping shoulder; try it on",
	"fix.yoke-level":           "see on the child whether the yoke sits level; move stitches between sleeves and body if not",
	"fix.parts-exchanged":      "are the two swapped? otherwise {}",
	"fix.parts-exchanged@page": "are the two swapped? otherwise {}, by " + PageExtras,
	"fix.count-again":          "count again; {}",
	"fix.unit-in":              "{n} would be close to it in inches: give the unit in",
	"fix.unit-cm":              "{n} would be close to it in centimetres: give the unit cm",
	"fix.point":                "is the decimal point in the wrong place? otherwise {}",
	"fix.laid-flat":            "is it half, measured flat? give the whole circumference; otherwise {}",
	"fix.lengthen":             "make the {spoken} {longer} than it is now",
	"fix.taper-longer":         "decrease twice in a row, make the part longer, or leave more stitches at its end",
	"fix.taper-less":           "leave more stitches for the join with the cuff, or start with fewer",

	"fix.measure-stretch":         "measure on the swatch how far it stretches and enter it in a row stretch,{}; otherwise {}",
	"fix.measure-stretch@page":    "measure on the swatch how far it stretches and enter it at " + PageStretch + ", for example {}=1.3; otherwise {}, by " + PageExtras,
	"fix.measure-stretch@command": "measure on the swatch how far it stretches and give it with --stretch, as {}=1.3; otherwise {}",
	"fix.take-zipper":             "take the {1:quarters} in zipper ({1:metric}) and close the {2:cm} left by hand",
	"fix.no-zipper":               "close it with buttons, or shorten a zipper at its top",
	"fix.close-rest":              "close the rest by hand at the lower end, or cover it with a flap at the chin",
	"fix.band":                    "make the band {to}",
	"fix.opening-least":           "make the opening at least {cm} long",
	"fix.open-front":              "open the front from the neck to below the waist, with a zipper that has a large pull",
	"fix.longer-or-seat":          "make the opening longer than {cm}, or add one at the seat",
	"fix.try-buttons":             "let the child try the buttons on the swatch",

	"fix.swatch-or-class": "count the swatch again, or check the class on the yarn's label; other stitch patterns have other gauges",
	"fix.count-gauge":     "count stitches and rows again",
	"fix.gauge-exchanged": "are stitches and rows swapped? count them again",
	"fix.count-over":      "count over {cm} or more: {n} stitches",
	"fix.larger-swatch":   "work a larger swatch: the stitches at its edges are not true",
}
