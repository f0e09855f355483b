package data

// tableDocs describes each table for datapackage.json: what a row is, its key,
// what it refers to, and what each column holds. The rest of the descriptor
// comes from the row types' struct tags.
var tableDocs = []tableDoc{
	{
		name: "sources", row: Source{}, title: "Sources",
		about: "Published documents that the values come from, with rights and the credit line to show beside them.",
		key:   []string{"id"},
		fields: map[string]string{
			"id":        "Key of the source.",
			"title":     "Title of the document.",
			"publisher": "Who published it.",
			"edition":   "Edition or date as printed; none where there is no document.",
			"year":      "Year of the edition.",
			"rights":    "On what terms its figures are used.",
			"credit":    "Line to print wherever its rows are shown.",
		},
	},
	{
		name: "measurements", row: Measurement{}, title: "Measurements",
		about: "What is measured on a body, and how.",
		key:   []string{"id"},
		refs:  []refDoc{{[]string{"relation"}, "measurements", []string{"id"}}},
		fields: map[string]string{
			"id":       "Key of the measurement.",
			"name":     "Trade name.",
			"kind":     "Girth (round), width (across), length (along), or mass.",
			"region":   "Part of the body.",
			"follows":  "Whether it goes with a child's widths or lengths when two sizes are blended.",
			"relation": "Survey measurement by whose departure from the median this one is moved when estimated.",
			"unit":     "Unit the engine holds it in.",
			"how":      "How it is taken, in our words.",
			"clause":   "Title or number of the clause in the standard that defines it, where known.",
		},
	},
	{
		name: "charts", row: Chart{}, title: "Charts",
		about: "Size charts: tables of sizes by one publisher, or worked out from others.",
		key:   []string{"id"},
		refs:  []refDoc{{[]string{"source"}, "sources", []string{"id"}}},
		fields: map[string]string{
			"id":     "Key of the chart.",
			"title":  "Title of the chart.",
			"source": "Source of the chart as a whole.",
			"note":   "What to know before using it.",
		},
	},
	{
		name: "sizes", row: Size{}, title: "Sizes",
		about: "Sizes of each chart and where they stand on its scale.",
		key:   []string{"chart", "size"},
		refs:  []refDoc{{[]string{"chart"}, "charts", []string{"id"}}},
		fields: map[string]string{
			"chart":          "Chart the size belongs to.",
			"size":           "Label of the size.",
			"scale":          "What sizes are counted in: months or years of age, height in cm, or bands, which are names only.",
			"position":       "Where the size stands on the scale; empty for bands.",
			"age_low_years":  "Lowest age of the size, in years, where printed.",
			"age_high_years": "Highest age of the size, in years, where printed.",
			"note":           "Remark on the size.",
		},
	},
	{
		name: "body", row: Body{}, title: "Body measurements",
		about: "One value of one measurement at one size, exactly as published.",
		key:   []string{"chart", "size", "sex", "measurement", "statistic", "unit"},
		refs: []refDoc{
			{[]string{"chart", "size"}, "sizes", []string{"chart", "size"}},
			{[]string{"measurement"}, "measurements", []string{"id"}},
			{[]string{"source"}, "sources", []string{"id"}},
		},
		fields: map[string]string{
			"chart":       "Chart the value is from.",
			"size":        "Size of the chart.",
			"sex":         "Boys (m), girls (f) or both together.",
			"measurement": "What is measured.",
			"statistic":   "A chart's single figure (given), an end of a printed range (low, high), or a percentile.",
			"value":       "The number as published, in the unit beside it.",
			"unit":        "Unit as published.",
			"source":      "Source of the value.",
			"where":       "Page, table or count of children behind the value.",
			"basis":       "Read in the source (published), worked out from its records (computed), or recalled (memory).",
			"review":      "How the value was confirmed.",
			"note":        "What to know when using the value, such as an oddity of the source.",
		},
	},
	{
		name: "derivations", row: Derivation{}, title: "Derivations",
		about: "How a chart's column is worked out from other columns.",
		key:   []string{"chart", "scale", "measurement"},
		refs: []refDoc{
			{[]string{"chart"}, "charts", []string{"id"}},
			{[]string{"measurement"}, "measurements", []string{"id"}},
			{[]string{"source"}, "sources", []string{"id"}},
		},
		fields: map[string]string{
			"chart":       "Chart that gets the column.",
			"scale":       "Scale of the chart the column is on.",
			"measurement": "Measurement worked out.",
			"formula":     "Sum of terms, each factor*chart.measurement[sex]; factor and sex are optional.",
			"reach_cm":    "How far below the lowest class of a height chart a term may be read, in cm of height.",
			"source":      "Source of the derivation.",
			"basis":       "Worked out (derived), read from another chart (read), or recalled (memory).",
			"why":         "Why it holds.",
		},
	},
	{
		name: "relations", row: Relation{}, title: "Relations",
		about: "Spread and correlation of measurements' log departures from the survey's median at the child's height.",
		// The height is empty for correlations, so this is no primary key.
		unique: []string{"sex", "measurement_a", "measurement_b", "height_low_cm"},
		refs: []refDoc{
			{[]string{"measurement_a"}, "measurements", []string{"id"}},
			{[]string{"measurement_b"}, "measurements", []string{"id"}},
			{[]string{"source"}, "sources", []string{"id"}},
		},
		fields: map[string]string{
			"sex":            "Boys (m), girls (f) or both together.",
			"measurement_a":  "One measurement.",
			"measurement_b":  "The other; the same one for a spread.",
			"statistic":      "Standard deviation (sd) or correlation (r).",
			"height_low_cm":  "Lowest height the figure is for, in cm; empty for all.",
			"height_high_cm": "Height the figure is for up to, in cm; empty for all.",
			"value":          "The figure, without unit.",
			"n":              "Number of children behind it.",
			"source":         "Source of the records.",
			"basis":          "Worked out from the source's records.",
		},
	},
	{
		name: "ratios", row: Ratio{}, title: "Ratios to height",
		about: "Percentiles of measurement divided by height (cm per cm, kg per cm for weight) among surveyed children.",
		key:   []string{"sex", "measurement", "height_low_cm"},
		refs: []refDoc{
			{[]string{"measurement"}, "measurements", []string{"id"}},
			{[]string{"source"}, "sources", []string{"id"}},
		},
		fields: map[string]string{
			"sex":            "Boys (m), girls (f) or both together.",
			"measurement":    "What is divided by height.",
			"height_low_cm":  "Lowest height of the class, in cm.",
			"height_high_cm": "Height up to which the class goes, in cm.",
			"p1":             "1st percentile.",
			"p50":            "Median.",
			"p99":            "99th percentile.",
			"n":              "Number of children in the class.",
			"source":         "Source of the records.",
			"basis":          "Worked out from the source's records.",
		},
	},
	{
		name: "garments", row: Garment{}, title: "Garments",
		about: "Garments whose finished measurements can be worked out.",
		key:   []string{"id"},
		fields: map[string]string{
			"id":      "Key of the garment.",
			"title":   "Name of the garment.",
			"group":   "What ease is looked up by when the garment has no row of its own.",
			"opening": "Whether it opens down the front.",
			"note":    "What the garment is.",
		},
	},
	{
		name: "parts", row: Part{}, title: "Parts of garments",
		about: "Finished measurements of each garment and the body measurement behind each.",
		key:   []string{"garment", "part"},
		refs: []refDoc{
			{[]string{"garment"}, "garments", []string{"id"}},
			{[]string{"measurement"}, "measurements", []string{"id"}},
		},
		fields: map[string]string{
			"garment":     "The garment.",
			"part":        "Key of the part.",
			"name":        "Name of the finished measurement.",
			"measurement": "Body measurement behind it.",
			"dimension":   "Whether the finished measurement goes round, across or along.",
		},
	},
	{
		name: "ease", row: Ease{}, title: "Ease",
		about: "What is added to a body measurement for fit and for the clothes underneath.",
		key:   []string{"rule", "garment", "fit", "layer", "measurement"},
		refs: []refDoc{
			{[]string{"measurement"}, "measurements", []string{"id"}},
			{[]string{"source"}, "sources", []string{"id"}},
		},
		fields: map[string]string{
			"rule":        "Ease of a fit class over skin (fit), added for clothes underneath (layer) or over a nappy (nappy), or the smallest total allowed (least).",
			"garment":     "A garment's key or a group.",
			"fit":         "Fit class, or any.",
			"layer":       "Clothes underneath, or any.",
			"measurement": "Body measurement it is added to.",
			"low":         "Lower end of the class.",
			"high":        "Upper end of the class; empty where it is open.",
			"use":         "The figure to use.",
			"unit":        "cm, in, or % of the body measurement.",
			"source":      "Source of the figures.",
			"basis":       "How the figures are known.",
			"note":        "Where they are in the source, or how they were settled.",
		},
	},
	{
		name: "lengths", row: Length{}, title: "Adjustments of parts",
		about: "What is added to or taken from a part of a garment for style, options and growth.",
		// An option is empty except for options, so this is no primary key.
		unique: []string{"garment", "part", "role", "option", "why"},
		refs: []refDoc{
			{[]string{"garment", "part"}, "parts", []string{"garment", "part"}},
			{[]string{"source"}, "sources", []string{"id"}},
		},
		fields: map[string]string{
			"garment":    "The garment.",
			"part":       "The part adjusted.",
			"role":       "A percentage of the body measurement (share), always (style), when asked for (option), or for each season of growth room (growth).",
			"option":     "Name the option is asked for by.",
			"adjustment": "How much, in the unit beside it.",
			"unit":       "cm, in, or % of the body measurement.",
			"why":        "What it is for.",
			"source":     "Source of the figure.",
			"basis":      "How the figure is known.",
		},
	},
	{
		name: "yarns", row: Yarn{}, title: "Weight classes of yarn",
		about: "What yarns of each weight class of the trade are usually worked to: stitches over 4 in, needles and hooks.",
		key:   []string{"class"},
		refs:  []refDoc{{[]string{"source"}, "sources", []string{"id"}}},
		fields: map[string]string{
			"class":          "The class's number.",
			"title":          "The class's name.",
			"knit_low":       "Fewest stitches over 4 in of stocking stitch; empty where none is printed.",
			"knit_high":      "Most stitches over 4 in of stocking stitch.",
			"crochet_low":    "Fewest stitches over 4 in of single crochet (US term); empty where none is printed.",
			"crochet_high":   "Most stitches over 4 in of single crochet (US term).",
			"needle_low_mm":  "Thinnest needle, mm.",
			"needle_high_mm": "Thickest needle, mm; empty where it is open.",
			"hook_low_mm":    "Thinnest hook, mm.",
			"hook_high_mm":   "Thickest hook, mm; empty where it is open.",
			"source":         "Source of the figures.",
			"where":          "Where they are in the source.",
			"basis":          "How the figures are known.",
			"review":         "How they were confirmed.",
			"note":           "What is odd about them.",
		},
	},
	{
		name: "practice", row: Practice{}, title: "Common practice",
		about: "Figures that garments are planned with and drafts are checked against.",
		key:   []string{"id"},
		refs:  []refDoc{{[]string{"source"}, "sources", []string{"id"}}},
		fields: map[string]string{
			"id":     "Key of the figure.",
			"value":  "The figure, in the unit beside it.",
			"unit":   "cm, in, rows, years; a share in %, thirds or sixths, or a ratio (times); yards for a square inch (yd/in2).",
			"what":   "What it is, and what a share is of.",
			"source": "Source of the figure.",
			"basis":  "How the figure is known: common practice, memory, or our own judgement.",
			"note":   "What to know about it.",
		},
	},
	{
		name: "changes", row: Change{}, title: "Changes of the tables",
		about: "What each edition of the tables changed, and the checksum of all the other tables in it.",
		key:   []string{"edition", "table", "what"},
		fields: map[string]string{
			"edition":  "Number of the edition: its first place rises where something is taken away, its second where something is added, a figure of practice changes, or a reading moves by a quarter centimetre or more.",
			"date":     "Day of the edition, as 2026-11-25.",
			"sha256":   "SHA-256, in hexadecimal, of what sha256sum prints for all tables but this one in the order of their names.",
			"table":    "File that changed, or all.",
			"what":     "What changed.",
			"why":      "Why.",
			"moved_cm": "Largest move of a reading, in cm or kg; empty where none was compared.",
		},
	},
}

type tableDoc struct {
	name, title, about string
	row                any
	key                []string // primary key
	unique             []string // unique, where some field of it may be empty
	refs               []refDoc
	fields             map[string]string
}

type refDoc struct {
	columns []string
	table   string
	to      []string
}
