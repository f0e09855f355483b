package validate

// The rules for tables. R01–R12 are of form: what a row may hold, whatever it
// says. R20–R31 are of sense: whether figures agree with one another. R40–R45
// are of the tables around the body measurements.
var rowRules = []Rule{
	{"R01", "rows", "the header is the table's, separated by commas", Stop},
	{"R02", "rows", "the file is in canonical form: UTF-8, LF, no byte order mark, no needless quotes or blank lines", Warn},
	{"R03", "rows", "every row has all its fields, and quotes are closed", Stop},
	{"R04", "rows", "a cell is plain text or a plain number: no space around it, no control characters, no NaN", Stop},
	{"R05", "rows", "a cell holds what its column allows", Stop},
	{"R06", "rows", "no key stands twice", Stop},
	{"R07", "rows", "what a row names exists", Stop},
	{"R08", "rows", "rows stand in canonical order", Warn},
	{"R09", "rows", "a published value has a source with an edition, and basis and source agree", Stop},
	{"R10", "rows", "where and review say something", Warn},
	{"R11", "rows", "the unit is one the measurement can have", Stop},
	{"R12", "rows", "fractions are as published: inches in eighths, decimals of at most two places (four for percentiles), all of a chart on one grid", Warn},

	{"R20", "rows", "a measurement grows with size, or the note says why not", Warn},
	{"R21", "rows", "a value is near what its neighbours lead one to expect", Warn},
	{"R22", "rows", "the copies in cm and inches agree within rounding", Stop},
	{"R23", "rows", "the lower end of a range is below the upper, percentiles in order", Stop},
	{"R24", "rows", "values that belong together are all there, without gaps", Warn},
	{"R25", "rows", "related measurements are in order: ankle below calf below thigh, hand shorter than foot", Warn},
	{"R26", "rows", "the arm rows agree with cross back", Warn},
	{"R27", "rows", "a value is one that measured children of that height have", Warn},
	{"R28", "rows", "both sexes together lie between boys and girls", Warn},
	{"R29", "rows", "a change of what the chart said before is explained", Warn},

	{"R40", "rows", "formulas can be worked out, and what they give passes the rules of sense", Stop},
	{"R41", "rows", "a size stands on its scale where its label says", Warn},
	{"R42", "rows", "ease lies in its range, grows with fit and layer, in one unit", Warn},
	{"R43", "rows", "an adjustment is in the unit and range of its role", Warn},
	{"R44", "rows", "kind, unit and name of a measurement agree, and parts with them", Warn},
	{"R45", "rows", "spreads, correlations and ratios are in their range and near their neighbours", Warn},
	{"R46", "rows", "nothing stands alone: sources are cited, measurements used, charts have sizes, garments parts", Warn},

	{"X02", "exceptions", "a known exception of the tables no longer fires", Warn},
}

// RowRules lists the rules for tables, in the order of their codes.
func RowRules() []Rule { return append([]Rule(nil), rowRules...) }
