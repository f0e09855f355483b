package tell

import (
	"errors"
	"growtuck/data"
	"growtuck/sizing"
)

// bodySummary says what a body was made from, and on what its estimates rest.
func (st Style) bodySummary(b *sizing.Body) string {
	summary := st.Fact(b.Summary)
	if evidence := List(b.Evidence.Names()); evidence != "" {
		summary += ", from " + evidence
	}
	return summary
}

// MadeFrom is the same with a label: "Measurements: size 3 of chart child".
func (st Style) MadeFrom(b *sizing.Body) string { return "Measurements: " + st.bodySummary(b) }

// BodySummary is the same as the beginning of a sentence.
func (st Style) BodySummary(b *sizing.Body) string { return Capital(st.bodySummary(b)) }

// Spec says how a garment is to fit and what is added: "classic fit over winter
// clothes".
func (st Style) Spec(m sizing.Spec) string { return st.Fact(m.Fact()) }

// NotKnown says that a measurement is not known, and how to take it.
func NotKnown(m data.Measurement) string {
	return m.Name + " is not known; measure the child: " + m.How
}

// Amount says why an amount is added or taken away.
func (st Style) Amount(a sizing.Amount) string {
	note := st.Fact(sizing.Text(a.Note))
	what := ""
	switch a.Kind {
	case sizing.FitEase:
		what = a.Of + " fit"
	case sizing.AnyFitEase:
		what = "any fit"
	case sizing.LayerEase, sizing.LeastEase:
		what = st.Fact(sizing.Layer(a.Of).Fact())
	case sizing.OptionAdds:
		what = Spoken(a.Of)
	case sizing.GrownBefore:
		what = "growth until it is first worn"
	case sizing.GrowthRoom:
		what = "growth room"
	case sizing.AskedFor, sizing.AskedEase:
		what = "as asked for"
	}
	if what != "" && note != "" {
		return what + ": " + note
	}
	return what + note
}

// Because is the same with the source.
func (st Style) Because(a sizing.Amount) string {
	why := st.Amount(a)
	if a.Source == "" || why == "" {
		return why
	}
	return why + " [" + a.Source + "]"
}

// LeftOut says that a part is left out, since the measurement that it follows is
// not known, and how to take it.
func LeftOut(p data.Part, m data.Measurement) string {
	return p.Name + " is left out: the " + m.Name + " is not known; measure it " + m.How
}

// Error tells an error: the error's own text, except on the page and where there
// is more to say.
func (st Style) Error(err error) string {
	if e := new(sizing.SexError); errors.As(err, &e) {
		return st.Fact(e.Fact())
	}
	switch e := err.(type) {
	case *sizing.DoubtError:
		return st.Error(e.Err)
	case *sizing.FactError:
		if _, ok := st.template(e.Fact.ID); ok {
			return st.Fact(e.Fact)
		}
	case *sizing.SizeError:
		if st.Place == Page {
			unknown := *e.Unknown
			unknown.Kind = "size of the chart"
			return (&sizing.SizeError{Unknown: &unknown}).Error()
		}
	}
	return err.Error()
}

// Unmeasured says on the page that a part cannot be planned, since the measurement
// that it follows is not known.
func (st Style) Unmeasured(p data.Part, m data.Measurement) string {
	return p.Name + " cannot be planned: the " + m.Name + " is not known; " + st.Fact(sizing.NewFact("fix.measure"))
}

// readingWords are the facts of package sizing.
var readingWords = map[string]string{
	"body-size":             "size {} of chart {}",
	"body-size@page":        "size {} of the chart",
	"body-size-height":      "size {} of chart {}, which is for a height of {cm1}",
	"body-size-height@page": "size {} of the chart, which is for a height of {3:cm1}",
	"body-blend":            "widths from size {}, lengths from size {} of chart {}",
	"body-blend@page":       "widths from size {}, lengths from size {} of the chart",
	"body-blend-own":        "widths from size {}, lengths from size {} of chart {}; {} measured on the child",
	"body-blend-own@page":   "widths from size {}, lengths from size {} of the chart; {4:} measured on the child",
	"body-estimated":        "estimated at a height of {cm1}",
	"body-estimated-about":  "estimated; what is known fits a height of about {cm0}",

	"sex-needed.either":      "chart {} is of boys and girls apart; give --sex m or --sex f",
	"sex-needed.either@page": "chart {} is of boys and girls apart; choose boys or girls",
	"sex-needed.m":           "chart {} is of boys alone; give --sex m",
	"sex-needed.m@page":      "chart {} is of boys alone; choose boys",
	"sex-needed.f":           "chart {} is of girls alone; give --sex f",
	"sex-needed.f@page":      "chart {} is of girls alone; choose girls",

	"size-apart":      "Beside the children measured at its height, {2:cm1}, size {1:} has: {3:}. For theirs: --chart measured --size {2:n1}cm, or the child's own height in place of a size",
	"size-apart@page": "Beside the children measured at its height, {2:cm1}, size {1:} has: {3:}. For theirs: the height in place of a size, or the chart measured in the view of sizes",
	"girth-apart":     "{} {spct}",

	"of-both":           "boys and girls together: the chart has none of one alone here",
	"size-note":         "{}: {semicolons}",
	"made-smaller":      "surveyed from {cm4} of height up; scaled down to {cm4}",
	"carried-down":      "surveyed from {cm4} of height up; continued down to {cm4}",
	"carried-up":        "the chart ends at {cm4} of height; continued as the {} grows",
	"baby-by-length":    "below {cm4} of height: read between the sizes for babies and the smallest children measured; how far babies differ is taken from those children",
	"crotch-believed":   "a tape to the crotch is unsure: what goes with it is placed by a crotch {cm1} high, between this and what is usual at the height; nape to crotch, measured, settles it",
	"seam":              "babies' sizes are read up to {3:cm} of height, children's over it: the chart steps there from {4:cm} at {1:} to {5:cm} at {2:}",
	"waist-below-body":  "the standard's own; measured children have the waist {2:cm1} higher, {1:cm1} from the nape",
	"waist-above-body":  "the standard's own; measured children have the waist {2:cm1} lower, {1:cm1} from the nape",
	"levelled":          "among the children measured from {cm4} to {cm4} of height it falls, because few were measured; taken as level there",
	"part-carried-down": "{} surveyed from {cm4} of height up; continued down to {cm4}",

	"parts-contradict": "{} {cm4}, but {} add up to {g4}: check the tape",
	"no-height-suits":  "{} {cm4} does not fit the child's {} at any height, and was not used to estimate the others; check the tape",
	"evidence-limited": "{} {cm4} contradicts the child's {}, and counts as {cm4} for what is estimated; check the tape",
	"weight-limited":   "{} {cm4} contradicts the child's {}, and counts as {cm4} for what is estimated; check the scale",

	"specification":      "{}",
	"trunk-first":        "Measure nape to crotch first: the fit of a one-piece rests on it, and it is estimated at {range}.",
	"nappy-offered":      "Over a nappy add --nappy: hips {cm1} and rise {cm1} more.",
	"nappy-offered@page": "Tick “worn over a nappy” if it is: hips {cm1} and rise {cm1} more.",

	"fit-over":            "{spoken} fit {}",
	"over-skin":           "over skin",
	"over-indoor-clothes": "over indoor clothes",
	"over-winter-clothes": "over winter clothes",
	"over-nappy":          "over a nappy",
	"seated":              "For a child who sits: no seam, pocket, button or thick edge under the thighs or at the back of the seat; an opening that the child or the carer reaches.",
	"label.height":        "“{}” is a size by height: {cm} (EN 13402-3, ISO 8559-2).",
	"label.heights":       "“{}” is a size by height, from {cm} to {cm} (EN 13402-3, ISO 8559-2); it is read at {cm}.",
	"label.ages":          "“{}” is a size by age, as it says; it is read at {age}.",
	"label.toddler":       "“{}” is size {g} cut for a toddler in a nappy (common practice): over one, add what a nappy takes.",
	"label.newborn":       "“{}” is the size of a baby who was just born.",
	"label.6x":            "“{}” lies between sizes 6 and 7 (common practice); it is read at {g}.",

	"growth-half-year":  "growth room for half a year",
	"growth-half-years": "growth room for {g} half-years",
	"growth-months":     "growth room for {g} months",
	"worn-in-months":    "first worn in {g} months",

	"growth-no-age@page":     "no child of the growth charts has a height of {cm4} as its median; give the child's age",
	"growth-height":          "Height grows from {tenths} to {cm} ({range} of eight in ten), by the growth charts (CDC 2000).",
	"growth-height-dated":    "Height grows from {tenths} on {} to {cm} on {5:} ({4:range} of eight in ten), by the growth charts (CDC 2000).",
	"growth-implied-age":     "The age was not given: {cm} is the median height at {age}, and the range is wider for it.",
	"growth-size-age":        "Growth is that of the usual child of {cm}, who is {age}.",
	"growth-paced":           "Earlier heights tell how fast the child grows.",
	"growth-by-season":       "Growth room is by season, for about 3 cm of height each half-year: no height is known to go by.",
	"growth-by-season-ended": "Growth room is by season, for about 3 cm of height each half-year: so tall a child is past what can be foreseen.",
	"option":                 "{spoken}",

	"none-known":                   "{}: {} has none of its measurements",
	"none-known@page":              "{2:} has none of its measurements",
	"nothing-left@page":            "{} comes out at {cm4}: {cm4} of body and {cm4} taken away",
	"extra-too-much@page":          "{}: {cm4} extra is not between -50 and 50",
	"height-outside-survey@page":   "a height of {cm4} is outside the survey of measured babies and children, which has {range4}; nothing is extrapolated; name a size at " + PageSizes + " instead",
	"evidence-outside-survey@page": "the child's {} would fit a height outside {range4}, which the survey of measured babies and children covers; check the tape and the unit, give the height or name a size at " + PageSizes,
}
