package data

// The row types below carry, as struct tags, the column each field is read
// from and what the field may hold. Line is the row's line in its file.

// Source is a row of sources.csv: a published document, or a statement that
// there is none. Credit is the line to print wherever the source's rows are shown.
type Source struct {
	Line      int
	ID        string   `csv:"id" validate:"required,id" doc:"Key of the source."`
	Title     string   `csv:"title" validate:"required" doc:"Title of the document."`
	Publisher string   `csv:"publisher" validate:"required" doc:"Who published it."`
	Edition   string   `csv:"edition" validate:"required" doc:"Edition or date as printed; none where there is no document."`
	Year      *float64 `csv:"year" validate:"omitempty,gte=1900,lte=2100" doc:"Year of the edition."`
	Rights    string   `csv:"rights" validate:"required" doc:"On what terms its figures are used."`
	Credit    string   `csv:"credit" validate:"required" doc:"Line to credit it by."`
	// CreditAsked says whether the publisher asks that Credit is shown wherever
	// its figures are. Editions before 1.1 do not say: then it is yes.
	CreditAsked string `csv:"credit_asked" validate:"oneof=yes no" doc:"Whether the publisher asks that the line is shown wherever its figures are."`
	Locator     string `csv:"locator" doc:"What the document is found by in any library: its DOI, ISBN, ISSN or report number, where known."`
}

// Measurement is a row of measurements.csv: what is measured and how.
// Follows says whether the measurement goes with a child's widths or lengths
// when two sizes are blended. Relation names the survey measurement by whose
// departure from the median this one is moved when it is estimated.
type Measurement struct {
	Line     int
	ID       string `csv:"id" validate:"required,id" doc:"Key of the measurement."`
	Name     string `csv:"name" validate:"required" doc:"Trade name."`
	Kind     string `csv:"kind" validate:"oneof=girth width length mass" doc:"Girth (round), width (across), length (along), or mass."`
	Region   string `csv:"region" validate:"oneof=body torso arm leg head hand foot" doc:"Part of the body."`
	Follows  string `csv:"follows" validate:"oneof=widths lengths none" doc:"Whether it goes with a child's widths or lengths when two sizes are blended."`
	Relation string `csv:"relation" validate:"omitempty,id" doc:"Survey measurement by whose departure from the median this one is moved when estimated."`
	Unit     string `csv:"unit" validate:"oneof=cm kg" doc:"Unit the engine holds it in."`
	How      string `csv:"how" validate:"required" doc:"How it is taken, in our words."`
	Clause   string `csv:"clause" doc:"Title or number of the clause in the standard that defines it, where known."`
}

// Pitfall is a row of pitfalls.csv: what commonly goes wrong when something is measured.
type Pitfall struct {
	Line        int
	Measurement string `csv:"measurement" validate:"required,id" doc:"What is measured."`
	Pitfall     string `csv:"pitfall" validate:"required" doc:"What goes wrong, by how much, and how not to."`
	Source      string `csv:"source" validate:"required,id" doc:"Source of it."`
	Basis       string `csv:"basis" validate:"oneof='common practice' memory judgement published" doc:"How it is known: read in the source (published), known of the trade (common practice), recalled (memory), or ours (judgement)."`
}

// Chart is a row of charts.csv.
type Chart struct {
	Line   int
	ID     string `csv:"id" validate:"required,id" doc:"Key of the chart."`
	Title  string `csv:"title" validate:"required" doc:"Title of the chart."`
	Source string `csv:"source" validate:"required,id" doc:"Source of the chart as a whole."`
	Note   string `csv:"note" doc:"What to know before using it."`
}

// Size is a row of sizes.csv: a size of a chart and its position on its
// scale. Scales are months and years of age, height (cm), and band, whose
// sizes are names that are not read between and have no position.
type Size struct {
	Line     int
	Chart    string   `csv:"chart" validate:"required,id" doc:"Chart the size belongs to."`
	Size     string   `csv:"size" validate:"required,max=12" doc:"Label of the size."`
	Scale    string   `csv:"scale" validate:"oneof=months years height band" doc:"What sizes are counted in: months or years of age, height in cm, or bands, which are names only."`
	Position *float64 `csv:"position" validate:"required_unless=Scale band,omitempty,gte=0,lte=250" doc:"Position of the size on the scale; empty for bands."`
	AgeLow   *float64 `csv:"age_low_years" validate:"omitempty,gte=0,lte=20" doc:"Lowest age of the size, in years, where printed."`
	AgeHigh  *float64 `csv:"age_high_years" validate:"omitempty,gte=0,lte=20" doc:"Highest age of the size, in years, where printed."`
	Note     string   `csv:"note" doc:"Remark on the size."`
}

// Body is a row of body.csv: one value of one measurement at one size, as
// published. Statistic is given (a chart's single figure), low or high (the
// ends of a published range), or the mean, standard deviation or a percentile of
// measured children, of whom there were N.
type Body struct {
	Line        int
	Chart       string  `csv:"chart" validate:"required,id" doc:"Chart the value is from."`
	Size        string  `csv:"size" validate:"required" doc:"Size of the chart."`
	Sex         string  `csv:"sex" validate:"oneof=m f both" doc:"Boys (m), girls (f) or both together."`
	Measurement string  `csv:"measurement" validate:"required,id" doc:"What is measured."`
	Statistic   string  `csv:"statistic" validate:"oneof=given low high mean sd p3 p5 p10 p25 p50 p75 p90 p95 p97" doc:"A chart's single figure (given), an end of a printed range (low, high), the mean or standard deviation (sd), or a percentile."`
	Value       float64 `csv:"value" validate:"gt=0,lte=3000" doc:"The number as published, in the unit beside it."`
	Unit        string  `csv:"unit" validate:"oneof=cm mm in kg lb oz" doc:"Unit as published."`
	Source      string  `csv:"source" validate:"required,id" doc:"Source of the value."`
	Where       string  `csv:"where" validate:"required" doc:"Page or table of the source."`
	Basis       string  `csv:"basis" validate:"oneof=published computed memory" doc:"Read in the source (published), worked out from its records (computed), or recalled (memory)."`
	Review      string  `csv:"review" validate:"required" doc:"How the value was confirmed."`
	Note        string  `csv:"note" doc:"What to know when using the value, such as an oddity of the source."`
	// N is nil where the source does not say, and in editions before 2.2.
	N *float64 `csv:"n" validate:"omitempty,gte=1,lte=100000" doc:"Number of children behind the value, where known."`
}

// Derivation is a row of derivations.csv: how a chart's column is worked out
// from other columns. Formula is a sum of terms, each an optional factor times
// chart.measurement with an optional sex in brackets, and with an optional
// measure, @chart.measurement: the term is then read where its chart has the
// figure that the chart of the measure has. ReachCm is how far below the lowest
// class of a height chart the term may be read, scaled down with height.
type Derivation struct {
	Line        int
	Chart       string   `csv:"chart" validate:"required,id" doc:"Chart that gets the column."`
	Scale       string   `csv:"scale" validate:"oneof=months years height" doc:"Scale of the chart the column is on."`
	Measurement string   `csv:"measurement" validate:"required,id" doc:"Measurement worked out."`
	Formula     string   `csv:"formula" validate:"required" doc:"Sum of terms, each factor*chart.measurement[sex]@chart.measurement; factor, sex and the measure after @ are optional. With a measure the term is read at the height at which its own chart has the figure of the measure: measured.thigh@child.chest is the thigh of children with the chest of the size."`
	ReachCm     *float64 `csv:"reach_cm" validate:"omitempty,gt=0,lte=10" doc:"How far below the lowest class of a height chart a term may be read, in cm of height."`
	Source      string   `csv:"source" validate:"required,id" doc:"Source of the derivation."`
	Basis       string   `csv:"basis" validate:"oneof=derived read memory" doc:"Worked out (derived), read from another chart (read), or recalled (memory)."`
	Why         string   `csv:"why" validate:"required" doc:"Why it holds."`
}

// Relation is a row of relations.csv: in a band of heights, the spread (sd) of a
// measurement's log departure from the survey's median at the child's height, or
// the correlation (r) of two such departures; or how those of children measured
// since differ.
type Relation struct {
	Line      int
	Sex       string   `csv:"sex" validate:"oneof=m f both" doc:"Boys (m), girls (f) or both together."`
	A         string   `csv:"measurement_a" validate:"required,id" doc:"One measurement."`
	B         string   `csv:"measurement_b" validate:"required,id" doc:"The other; the same one for a spread."`
	Statistic string   `csv:"statistic" validate:"oneof=sd r low high slope rest shift" doc:"In the survey: standard deviation (sd) or correlation (r). Among children measured since: spread of the weight below (low) and above (high) its median; of a girth, how it goes with weight (slope), the spread that leaves (rest), and its departure at the median weight (shift)."`
	LowCm     *float64 `csv:"height_low_cm" validate:"omitempty,gte=50,lte=250" doc:"Lowest height the figure is for, in cm; empty for all."`
	HighCm    *float64 `csv:"height_high_cm" validate:"omitempty,gte=50,lte=250" doc:"Height the figure is for up to, in cm; empty for all."`
	Value     float64  `csv:"value" validate:"gte=-1,lte=1" doc:"The figure, without unit."`
	N         float64  `csv:"n" validate:"gte=0" doc:"Number of children behind it."`
	Source    string   `csv:"source" validate:"required,id" doc:"Source of the records."`
	Basis     string   `csv:"basis" validate:"oneof=computed" doc:"Worked out from the source's records."`
}

// Ratio is a row of ratios.csv: percentiles of measurement ÷ height among
// surveyed children whose height lies from LowCm up to, not including, HighCm.
type Ratio struct {
	Line        int
	Sex         string  `csv:"sex" validate:"oneof=m f both" doc:"Boys (m), girls (f) or both together."`
	Measurement string  `csv:"measurement" validate:"required,id" doc:"What is divided by height."`
	LowCm       float64 `csv:"height_low_cm" validate:"gte=50,lte=250" doc:"Lowest height of the class, in cm."`
	HighCm      float64 `csv:"height_high_cm" validate:"gtfield=LowCm,lte=250" doc:"Height up to which the class goes, in cm."`
	P1          float64 `csv:"p1" validate:"gt=0,lt=3" doc:"1st percentile."`
	P50         float64 `csv:"p50" validate:"gtfield=P1" doc:"Median."`
	P99         float64 `csv:"p99" validate:"gtfield=P50,lt=3" doc:"99th percentile."`
	N           float64 `csv:"n" validate:"gte=20" doc:"Number of children in the class."`
	Source      string  `csv:"source" validate:"required,id" doc:"Source of the records."`
	Basis       string  `csv:"basis" validate:"oneof=computed" doc:"Worked out from the source's records."`
}

// Garment is a row of garments.csv. Group is what ease is looked up by when
// the garment has no rows itself.
type Garment struct {
	Line    int
	ID      string `csv:"id" validate:"required,id" doc:"Key of the garment."`
	Title   string `csv:"title" validate:"required" doc:"Name of the garment."`
	Group   string `csv:"group" validate:"oneof=upper lower one-piece head hand foot" doc:"What ease is looked up by when the garment has no rows itself."`
	Opening string `csv:"opening" validate:"oneof=none front" doc:"Whether it opens down the front."`
	Note    string `csv:"note" doc:"What the garment is."`
}

// Part is a row of parts.csv: a finished measurement of a garment and the
// body measurement behind it.
type Part struct {
	Line        int
	Garment     string `csv:"garment" validate:"required,id" doc:"The garment."`
	Part        string `csv:"part" validate:"required,id" doc:"Key of the part."`
	Name        string `csv:"name" validate:"required" doc:"Name of the finished measurement."`
	Measurement string `csv:"measurement" validate:"required,id" doc:"Body measurement behind it."`
	Dimension   string `csv:"dimension" validate:"oneof=girth width length" doc:"Whether the finished measurement goes round, across or along."`
}

// Ease is a row of ease.csv. Garment is a garment's id or a group. Rule says
// what the figures do: fit is the ease of a fit class over skin, layer is
// added for the clothes underneath, nappy is added over a nappy, and least is
// the smallest total allowed over those clothes.
type Ease struct {
	Line        int
	Rule        string   `csv:"rule" validate:"oneof=fit layer nappy least" doc:"Ease of a fit class over skin (fit), added for clothes underneath (layer) or over a nappy (nappy), or the smallest total allowed (least)."`
	Garment     string   `csv:"garment" validate:"required,id" doc:"A garment's key or a group."`
	Fit         string   `csv:"fit" validate:"oneof=any very-close close classic loose oversized" doc:"Fit class, or any."`
	Layer       string   `csv:"layer" validate:"oneof=any skin indoor winter" doc:"Clothes underneath, or any."`
	Measurement string   `csv:"measurement" validate:"required,id" doc:"Body measurement it is added to."`
	Low         float64  `csv:"low" validate:"gte=-50,lte=50" doc:"Lower end of the class."`
	High        *float64 `csv:"high" validate:"omitempty,gte=-50,lte=50" doc:"Upper end of the class; empty where it is open."`
	Use         float64  `csv:"use" validate:"gtefield=Low,lte=50" doc:"The figure to use."`
	Unit        string   `csv:"unit" validate:"oneof=cm in %" doc:"cm, in, or % of the body measurement."`
	Source      string   `csv:"source" validate:"required,id" doc:"Source of the figures."`
	Basis       string   `csv:"basis" validate:"oneof=published derived 'common practice' memory judgement" doc:"How the figures are known: printed in the source (published), worked out from other rows (derived), common practice, recalled (memory), or our own judgement."`
	Note        string   `csv:"note" doc:"Where they are in the source, or how they were settled."`
}

// Length is a row of lengths.csv: an adjustment to a part of a garment. Role
// says when it applies: share takes a percentage of the body measurement,
// style always adds, option adds when asked for by name, growth adds once for
// each season of growth room.
type Length struct {
	Line       int
	Garment    string  `csv:"garment" validate:"required,id" doc:"The garment."`
	Part       string  `csv:"part" validate:"required,id" doc:"The part adjusted."`
	Role       string  `csv:"role" validate:"oneof=share style option growth" doc:"A percentage of the body measurement (share), always (style), when asked for (option), or for each season of growth room (growth)."`
	Option     string  `csv:"option" validate:"required_if=Role option,omitempty,id" doc:"Name the option is asked for by."`
	Adjustment float64 `csv:"adjustment" validate:"gte=-100,lte=200" doc:"How much, in the unit beside it."`
	Unit       string  `csv:"unit" validate:"oneof=cm in %" doc:"cm, in, or % of the body measurement."`
	Why        string  `csv:"why" validate:"required" doc:"What it is for."`
	Source     string  `csv:"source" validate:"required,id" doc:"Source of the figure."`
	Basis      string  `csv:"basis" validate:"oneof=published derived 'common practice' memory judgement" doc:"How the figure is known: printed in the source (published), worked out from other rows (derived), common practice, recalled (memory), or our own judgement."`
	Instead    string  `csv:"instead" validate:"omitempty,id" doc:"With an option: the body measurement that the part is then made from, in place of its own."`
}

// HeightForAge is a row of heights.csv: how the heights of children of one age are
// spread, by the LMS method: a height z spreads from the median is
// median × (1 + power × spread × z)^(1/power).
type HeightForAge struct {
	Line    int
	Sex     string  `csv:"sex" validate:"oneof=m f" doc:"m or f."`
	Months  float64 `csv:"months" validate:"gte=0,lte=240" doc:"Age."`
	Posture string  `csv:"posture" validate:"oneof=lying standing" doc:"Whether length was measured lying, under two years, or height standing."`
	Power   float64 `csv:"power" validate:"gt=-5,lt=5" doc:"The power by which heights become normally distributed (L)."`
	Median  float64 `csv:"median_cm" validate:"gt=0,lte=250" doc:"The median height (M)."`
	Spread  float64 `csv:"spread" validate:"gt=0,lte=1" doc:"The spread, as a share of the median (S)."`
	Source  string  `csv:"source" validate:"required,id" doc:"Source of the figures."`
	Where   string  `csv:"where" validate:"required" doc:"Where they are in the source."`
	Basis   string  `csv:"basis" validate:"oneof=published" doc:"Read in the source."`
	Review  string  `csv:"review" validate:"required" doc:"How they were confirmed."`
}

// Growth is a row of growth.csv: how surely children of an age keep their place
// among children of their age.
type Growth struct {
	Line   int
	Years  float64 `csv:"age_years" validate:"gte=0,lte=20" doc:"Age from which is looked ahead; between two it is read evenly."`
	Draw   float64 `csv:"draw" validate:"gte=0,lte=90" doc:"How much nearer to the median a height comes within a year, in % of its distance."`
	Pace   float64 `csv:"pace" validate:"gte=-50,lte=90" doc:"How much of the shift of the year before goes on in the next, in %."`
	Unsure float64 `csv:"unsure" validate:"gt=0,lte=10" doc:"Spread of heights after half a year and more about the place kept, in % of the height."`
	Drift  float64 `csv:"drift" validate:"gt=0,lte=10" doc:"What each year adds to it, as squares add up, in % of the height."`
	Source string  `csv:"source" validate:"required,id" doc:"Source of the figures."`
	Basis  string  `csv:"basis" validate:"oneof=published derived 'common practice' memory judgement" doc:"How they are known."`
	Note   string  `csv:"note" doc:"What to know about them."`
}

// Practice is a row of practice.csv: a figure that garments are planned with or
// drafts checked against. Shares are in %, or in thirds or sixths where no
// percentage is exact; What says what they are of. Basis is common practice,
// memory, judgement, or derived from the source.
type Practice struct {
	Line   int
	ID     string  `csv:"id" validate:"required,id" doc:"Key of the figure."`
	Value  float64 `csv:"value" validate:"gt=0,lte=300" doc:"The figure, in the unit beside it."`
	Unit   string  `csv:"unit" validate:"oneof=cm in % thirds sixths times power stitches rows years yd/in2 g/l" doc:"cm, in, stitches, rows, years; a share in %, thirds or sixths, a ratio (times) or an exponent (power); yards for a square inch (yd/in2), grams for a litre (g/l)."`
	What   string  `csv:"what" validate:"required" doc:"What it is, and what a share is of."`
	Source string  `csv:"source" validate:"required,id" doc:"Source of the figure."`
	Basis  string  `csv:"basis" validate:"oneof=published derived 'common practice' memory judgement" doc:"How the figure is known: common practice, memory, our own judgement, or derived from the source."`
	Note   string  `csv:"note" doc:"What to know about it."`
}

// AddedPart is a row of added.csv: a kind of part that is worked on its own and
// sewn to a garment. Places are where it may go; where it goes unless another is
// named stands first.
type AddedPart struct {
	Line        int
	ID          string  `csv:"id" validate:"required,id" doc:"Key of the kind."`
	Title       string  `csv:"title" validate:"required" doc:"Its name in words."`
	Shape       string  `csv:"shape" validate:"oneof=circle oval ball cone tube" doc:"What it is worked as."`
	Pieces      float64 `csv:"pieces" validate:"gte=1,lte=12" doc:"How many there usually are."`
	HeightShare float64 `csv:"height_share" validate:"gt=0,lte=1000" doc:"Height, or length, where only the width is given, in % of the width."`
	Filled      string  `csv:"filled" validate:"oneof=yes no" doc:"Whether it is stuffed."`
	Folded      string  `csv:"folded" validate:"oneof=yes no" doc:"Whether it is folded in half along its length and sewn on by the fold's open edge."`
	Places      string  `csv:"places" validate:"required,places" doc:"Where it may be sewn, separated by spaces: hood, face (the front edge of a hood), head (of a hat), back, seat, knee, elbow, palm, sole."`
	Field       string  `csv:"field" validate:"omitempty,id" doc:"Field of a draft by which the rules know it; empty where none has a caution for it."`
	Source      string  `csv:"source" validate:"required,id" doc:"Source of the proportions."`
	Basis       string  `csv:"basis" validate:"oneof=published derived 'common practice' memory judgement" doc:"How they are known."`
	Note        string  `csv:"note" doc:"What to know about it."`
}

// Exception is a row of exceptions.csv: a finding of the rules for tables that
// is known and right, since the source has it so. Subject is that of the
// finding. Oddities that a row's own note explains need none.
type Exception struct {
	Line    int
	Rule    string `csv:"rule" validate:"required" doc:"Code of the rule."`
	Table   string `csv:"table" validate:"required" doc:"File of the table, such as body.csv."`
	Subject string `csv:"subject" validate:"required" doc:"Subject of the finding, as growtuck rows prints it."`
	Reason  string `csv:"reason" validate:"required" doc:"Why it is right."`
}

// Abbreviation is a row of abbreviations.csv: what an abbreviation of the trade
// standard stands for.
type Abbreviation struct {
	Line         int
	Craft        string `csv:"craft" validate:"oneof=crochet knit" doc:"The craft whose list has it."`
	Terms        string `csv:"terms" validate:"oneof=us uk both" doc:"The terms it is of, of crochet; both: the same in both, and all of knitting."`
	Abbreviation string `csv:"abbreviation" validate:"required,max=16" doc:"The abbreviation, as patterns write it."`
	Meaning      string `csv:"meaning" validate:"required" doc:"What it stands for."`
	Source       string `csv:"source" validate:"required,id" doc:"Source of the list."`
	Where        string `csv:"where" validate:"required" doc:"Which list of the source."`
	Basis        string `csv:"basis" validate:"oneof=published derived memory" doc:"Read in the source (published), the list's US term in UK terms (derived), or recalled (memory)."`
}

// Yarn is a row of yarns.csv: a weight class of the yarn trade, and the
// stitches over 4 in (stocking stitch; single crochet, US terms), needles and
// hooks that its yarns are usually worked with.
type Yarn struct {
	Line        int
	Class       string   `csv:"class" validate:"oneof=0 1 2 3 4 5 6 7" doc:"The class's number."`
	Title       string   `csv:"title" validate:"required" doc:"The class's name."`
	KnitLow     *float64 `csv:"knit_low" validate:"omitempty,gt=0,lte=60" doc:"Fewest stitches over 4 in of stocking stitch; empty where none is printed."`
	KnitHigh    *float64 `csv:"knit_high" validate:"omitempty,gt=0,lte=60" doc:"Most stitches over 4 in of stocking stitch."`
	CrochetLow  *float64 `csv:"crochet_low" validate:"omitempty,gt=0,lte=60" doc:"Fewest stitches over 4 in of single crochet (US term); empty where none is printed."`
	CrochetHigh *float64 `csv:"crochet_high" validate:"omitempty,gt=0,lte=60" doc:"Most stitches over 4 in of single crochet (US term)."`
	NeedleLow   *float64 `csv:"needle_low_mm" validate:"omitempty,gt=0,lte=40" doc:"Thinnest needle, mm."`
	NeedleHigh  *float64 `csv:"needle_high_mm" validate:"omitempty,gt=0,lte=40" doc:"Thickest needle, mm; empty where it is open."`
	HookLow     *float64 `csv:"hook_low_mm" validate:"omitempty,gt=0,lte=40" doc:"Thinnest hook, mm."`
	HookHigh    *float64 `csv:"hook_high_mm" validate:"omitempty,gt=0,lte=40" doc:"Thickest hook, mm; empty where it is open."`
	Source      string   `csv:"source" validate:"required,id" doc:"Source of the figures."`
	Where       string   `csv:"where" validate:"required" doc:"Where they are in the source."`
	Basis       string   `csv:"basis" validate:"oneof=published memory" doc:"How the figures are known."`
	Review      string   `csv:"review" validate:"required" doc:"How they were confirmed."`
	Note        string   `csv:"note" doc:"What is odd about them."`
}
