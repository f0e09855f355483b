package validate

// The rules for tables. R01–R12 are of form: what a row may hold, whatever it
// says. R20–R30 are of sense: whether figures agree with one another. R40–R45
// are of the tables around the body measurements.
var rowRules = []Rule{
	{"R01", "rows", "The header is that of the table, comma-separated", Stop},
	{"R02", "rows", "The file is in canonical form: UTF-8, LF, no byte order mark, no needless quotes or blank lines", Warn},
	{"R03", "rows", "Every row has all its fields, and quotes are closed", Stop},
	{"R04", "rows", "A cell is plain text or a plain number: no space around it, no control characters, no NaN", Stop},
	{"R05", "rows", "A cell holds what its column allows", Stop},
	{"R06", "rows", "Keys are unique", Stop},
	{"R07", "rows", "What a row names exists", Stop},
	{"R08", "rows", "Rows are in canonical order", Warn},
	{"R09", "rows", "A published value has a source with an edition, and basis and source agree", Stop},
	{"R10", "rows", "Where, review and locator are more than placeholders or a page of the web, and counts are where they belong", Warn},
	{"R11", "rows", "The unit is one the measurement can have", Stop},
	{"R12", "rows", "Fractions are as published: inches in eighths, decimals of at most two places (four for percentiles), all of a chart in the same steps", Warn},

	{"R20", "rows", "A measurement grows with size, or the note says why not", Warn},
	{"R21", "rows", "A value is near what its neighbours predict", Warn},
	{"R22", "rows", "The copies in cm and inches agree within rounding", Stop},
	{"R23", "rows", "The lower end of a range is below the upper, percentiles in order", Stop},
	{"R24", "rows", "Values that belong together are all there, without gaps", Warn},
	{"R25", "rows", "Related measurements are in order: ankle below calf below thigh, hand shorter than foot", Warn},
	{"R26", "rows", "The arm rows agree with cross back", Warn},
	{"R27", "rows", "A value is one that measured children of that height have", Warn},
	{"R28", "rows", "Both sexes together lie between boys and girls", Warn},
	{"R29", "rows", "A change of what the chart said before is explained", Warn},
	{"R30", "rows", "A column as a whole is of its measurement, unit, sex and sizes: it is as surveyed children have it", Warn},

	{"R40", "rows", "Formulas can be worked out, and what they give passes the rules of sense", Stop},
	{"R41", "rows", "A size's position on its scale agrees with its label", Warn},
	{"R42", "rows", "Ease is in its range, grows with fit and layer, in one unit", Warn},
	{"R43", "rows", "An adjustment is in the unit and range of its role", Warn},
	{"R44", "rows", "Kind, unit and name of a measurement agree, and parts with them", Warn},
	{"R45", "rows", "Spreads, correlations, ratios and heights for age are in their range and near their neighbours", Warn},
	{"R46", "rows", "Nothing is unused: sources are cited, measurements used, charts have sizes, garments parts", Warn},
	{"R47", "rows", "Weight classes of yarn follow each other", Warn},
	{"R48", "rows", "Figures of practice are those the program uses, in its units, near those built in, lower ends below upper", Warn},

	{"X02", "exceptions", "A known exception of the tables no longer fires", Warn},
}

// RowRules lists the rules for tables, in the order of their codes.
func RowRules() []Rule { return append([]Rule(nil), rowRules...) }
