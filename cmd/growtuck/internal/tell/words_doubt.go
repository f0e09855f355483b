package tell

// doubtWords are the facts of what is hardly to be believed of a child.
var doubtWords = map[string]string{
	"doubt.little":        "{} {measure} is {measure} less than such children have: 98 of 100 measured in 1975–77 and 1999–2016 have {}{}",
	"doubt.much":          "{} {measure} is {measure} more than such children have: 98 of 100 measured in 1975–77 and 1999–2016 have {}{}",
	"doubt.within":        "{} {measure} does not go with the rest, though 98 of 100 such children measured in 1975–77 and 1999–2016 have {}{}",
	"doubt.little-of-all": "{} {measure} is {measure} less than children measured in 1975–77 and 1999–2016 have from 3 months to 16 years, {}{}",
	"doubt.much-of-all":   "{} {measure} is {measure} more than children measured in 1975–77 and 1999–2016 have from 3 months to 16 years, {}{}",
	"doubt.alone":         "{} {measure} is not the age of a child{}",
	"doubt.likely":        ". {capital}",
	"doubt.counts-as":     "{}; for what is estimated it counts as {measure}",
	"doubt.unused":        "{}; it was not used to estimate the others",
	"doubt.scale":         "; look at the scale",
	"doubt.span":          "{tenths} to {measure}",

	"slip.tenth":       "{measure} is likelier: its point was left out, or it is in millimetres",
	"slip.ten-times":   "{measure} is likelier, ten times that: its point is one place off",
	"slip.inches":      "{measure} is likelier, if it is in inches",
	"slip.feet":        "{measure} is likelier, if it is in feet",
	"slip.metres":      "{measure} is likelier, if it is in metres",
	"slip.millimetres": "{measure} is likelier, if it is in millimetres",
	"slip.centimetres": "{measure} is likelier, if it is in centimetres and not in inches",
	"slip.pounds":      "{measure} is likelier, if it is in pounds",
	"slip.kilograms":   "{measure} is likelier, if it is in kilograms and not in pounds",
	"slip.grams":       "{measure} is likelier, if it is in grams",
	"slip.months":      "{measure} is likelier, if it is in months",
	"slip.years":       "{measure} is likelier, if it is in years and not in months",
	"slip.swapped":     "{measure} is likelier: it and the {} changed places",
	"slip.digits":      "{measure} is likelier: two of its digits changed places",
	"slip.usual":       "{measure} is usual for the rest",
}
