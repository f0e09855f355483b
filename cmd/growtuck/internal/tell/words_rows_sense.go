package tell

// rowSenseWords are the words of the rules that compare figures of body rows.
var rowSenseWords = map[string]string{
	"rows.value":           "{exact}",
	"rows.correct-or-note": "correct it, or begin the note with {}: and why the source has it",
	"rows.column-unit":     "the whole column reads as if it were in {}",
	"rows.columns-sexes":   "boys and girls differ the other way round: their columns look exchanged",
	"rows.columns-swapped": "the column reads as {}, and that as this: they look exchanged",
	"rows.column-shifted":  "the whole column reads as that of the size {}",
	"rows.as-surveyed":     "about what surveyed children of these sizes have",
	"rows.beyond-note":     "further off than a note explains: read the source again",
	"rows.note-says":       "the note says: {}",
	"rows.below-that":      "below the {exact} of {}",

	// fractions
	"rows.written":        "{} {}",
	"rows.as-published":   "write the value as published",
	"rows.as-printed":     "write the value as it is printed",
	"rows.eighths":        "eighths of an inch, such as 9.75 or 9.125",
	"rows.two-places":     "at most two decimal places",
	"rows.four-places":    "at most four decimal places",
	"rows.half-cm":        "half centimetres, as the rest of the chart has",
	"rows.quarter-inches": "quarter inches, as the rest of the chart has",

	// along the sizes of a chart
	"rows.more-than-size": "more than the {exact} of size {}",
	"rows.less":           "{sig3} less",
	"rows.same":           "the same",
	"rows.about":          "about {sig3}, going by {and}",
	"rows.size-with":      "size {} with {exact}",
	"rows.more-or-less":   "{+g3}",
	"rows.read-again":     "check the source (swapped digits, another size, another unit?), or begin the note with {}: and why it is so",
	"rows.gap":            "nothing in {} between size {} and size {}",
	"rows.sizes-between":  "rows for the {sizes} of the chart between them",

	// units, statistics and sexes
	"rows.copies":          "{exact} and {exact}",
	"rows.nearest-half":    "{sig4}, to the nearest half",
	"rows.copy-near":       "about {sig4}",
	"rows.off":             "{+f2}",
	"rows.read-both-again": "check both against the source",
	"rows.without":         "{} without {}, in {}",
	"rows.both-statistics": "both, as the source has them",
	"rows.one-unit":        "{exact}, and nothing in {}",
	"rows.both-units":      "both units, as at other sizes of the chart",
	"rows.between-sexes":   "between boys with {exact} and girls with {exact}",
	"rows.between":         "between {exact} and {exact}",
	"rows.sd-of-mean":      "well below the mean of {exact}",
	"rows.sd-by-tails":     "about {sig3}, going by {} and {}",

	// measurements beside one another
	"rows.leaves-drop":      "{exact} leaves {sig3} from shoulder to armpit, after half of cross back and the arm to underarm",
	"rows.drop-by-armhole":  "{sig3} to {sig3}, an armhole depth of {exact}",
	"rows.length-at-height": "{sig3} at a height of {sig4}, as 98 of 100 children of 1975–77 have",
	"rows.mass-at-height":   "{g3} to {sig3} at a height of {sig4}, as 98 of 100 children of 1975–77 have",

	// changes of the tables
	"rows.changed":        "{exact}; it was {exact}",
	"rows.change":         "{+g4}",
	"rows.check-source":   "check it against the source",
	"rows.explain-change": "begin the note with R29: and what was wrong before",
	"rows.gone":           "the row is missing",
	"rows.as-before":      "{exact}, as before",
	"rows.put-back":       "put it back, or explain in the change why it was removed",
}
