package data

// The row types below carry, as struct tags, the column each field is read
// from and what the field may hold. Line is the row's line in its file.

// Source is a row of sources.csv: a published document, or the honest lack of
// one. Credit is the line to print wherever the source's rows are shown.
type Source struct {
	Line      int
	ID        string   `csv:"id" validate:"required,id"`
	Title     string   `csv:"title" validate:"required"`
	Publisher string   `csv:"publisher" validate:"required"`
	Edition   string   `csv:"edition" validate:"required"`
	Year      *float64 `csv:"year" validate:"omitempty,gte=1900,lte=2100"`
	Rights    string   `csv:"rights" validate:"required"`
	Credit    string   `csv:"credit" validate:"required"`
}

// Measurement is a row of measurements.csv: what is measured and how.
// Follows says whether the measurement goes with a child's widths or lengths
// when two sizes are blended. Relation names the survey measurement by whose
// departure from the median this one is moved when it is estimated.
type Measurement struct {
	Line     int
	ID       string `csv:"id" validate:"required,id"`
	Name     string `csv:"name" validate:"required"`
	Kind     string `csv:"kind" validate:"oneof=girth width length mass"`
	Region   string `csv:"region" validate:"oneof=body torso arm leg head hand foot"`
	Follows  string `csv:"follows" validate:"oneof=widths lengths none"`
	Relation string `csv:"relation" validate:"omitempty,id"`
	Unit     string `csv:"unit" validate:"oneof=cm kg"`
	How      string `csv:"how" validate:"required"`
	Clause   string `csv:"clause"`
}

// Chart is a row of charts.csv.
type Chart struct {
	Line   int
	ID     string `csv:"id" validate:"required,id"`
	Title  string `csv:"title" validate:"required"`
	Source string `csv:"source" validate:"required,id"`
	Note   string `csv:"note"`
}

// Size is a row of sizes.csv: a size of a chart and where it stands on its
// scale. Scales are months and years of age, height (cm), and band, whose
// sizes are names that are not read between and have no position.
type Size struct {
	Line     int
	Chart    string   `csv:"chart" validate:"required,id"`
	Size     string   `csv:"size" validate:"required,max=12"`
	Scale    string   `csv:"scale" validate:"oneof=months years height band"`
	Position *float64 `csv:"position" validate:"required_unless=Scale band,omitempty,gte=0,lte=250"`
	AgeLow   *float64 `csv:"age_low_years" validate:"omitempty,gte=0,lte=20"`
	AgeHigh  *float64 `csv:"age_high_years" validate:"omitempty,gte=0,lte=20"`
	Note     string   `csv:"note"`
}

// Body is a row of body.csv: one value of one measurement at one size, as
// published. Statistic is given (a chart's single figure), low or high (the
// ends of a published range), or a percentile of measured children.
type Body struct {
	Line        int
	Chart       string  `csv:"chart" validate:"required,id"`
	Size        string  `csv:"size" validate:"required"`
	Sex         string  `csv:"sex" validate:"oneof=m f both"`
	Measurement string  `csv:"measurement" validate:"required,id"`
	Statistic   string  `csv:"statistic" validate:"oneof=given low high p5 p25 p50 p75 p95"`
	Value       float64 `csv:"value" validate:"gt=0,lte=300"`
	Unit        string  `csv:"unit" validate:"oneof=cm in kg"`
	Source      string  `csv:"source" validate:"required,id"`
	Where       string  `csv:"where" validate:"required"`
	Basis       string  `csv:"basis" validate:"oneof=published computed memory"`
	Review      string  `csv:"review" validate:"required"`
	Note        string  `csv:"note"`
}

// Derivation is a row of derivations.csv: how a chart's column is worked out
// from other columns. Formula is a sum of terms, each an optional factor times
// chart.measurement with an optional sex in brackets. ReachCm is how far below
// the lowest class of a height chart the term may be read, scaled down with
// height.
type Derivation struct {
	Line        int
	Chart       string   `csv:"chart" validate:"required,id"`
	Scale       string   `csv:"scale" validate:"oneof=months years height"`
	Measurement string   `csv:"measurement" validate:"required,id"`
	Formula     string   `csv:"formula" validate:"required"`
	ReachCm     *float64 `csv:"reach_cm" validate:"omitempty,gt=0,lte=10"`
	Source      string   `csv:"source" validate:"required,id"`
	Basis       string   `csv:"basis" validate:"oneof=derived read memory"`
	Why         string   `csv:"why" validate:"required"`
}

// Relation is a row of relations.csv: in a band of heights, the spread (sd) of a
// measurement's log departure from the survey's median at the child's height, or
// the correlation (r) of two such departures.
type Relation struct {
	Line      int
	Sex       string   `csv:"sex" validate:"oneof=m f both"`
	A         string   `csv:"measurement_a" validate:"required,id"`
	B         string   `csv:"measurement_b" validate:"required,id"`
	Statistic string   `csv:"statistic" validate:"oneof=sd r"`
	LowCm     *float64 `csv:"height_low_cm" validate:"omitempty,gte=50,lte=250"`
	HighCm    *float64 `csv:"height_high_cm" validate:"omitempty,gte=50,lte=250"`
	Value     float64  `csv:"value" validate:"gte=-1,lte=1"`
	N         float64  `csv:"n" validate:"gte=0"`
	Source    string   `csv:"source" validate:"required,id"`
	Basis     string   `csv:"basis" validate:"oneof=computed"`
}

// Ratio is a row of ratios.csv: percentiles of measurement ÷ height among
// surveyed children whose height lies from LowCm up to, not including, HighCm.
type Ratio struct {
	Line        int
	Sex         string  `csv:"sex" validate:"oneof=m f both"`
	Measurement string  `csv:"measurement" validate:"required,id"`
	LowCm       float64 `csv:"height_low_cm" validate:"gte=50,lte=250"`
	HighCm      float64 `csv:"height_high_cm" validate:"gtfield=LowCm,lte=250"`
	P1          float64 `csv:"p1" validate:"gt=0,lt=3"`
	P50         float64 `csv:"p50" validate:"gtfield=P1"`
	P99         float64 `csv:"p99" validate:"gtfield=P50,lt=3"`
	N           float64 `csv:"n" validate:"gte=20"`
	Source      string  `csv:"source" validate:"required,id"`
	Basis       string  `csv:"basis" validate:"oneof=computed"`
}

// Garment is a row of garments.csv. Group is what ease is looked up by when
// the garment has no row of its own.
type Garment struct {
	Line    int
	ID      string `csv:"id" validate:"required,id"`
	Title   string `csv:"title" validate:"required"`
	Group   string `csv:"group" validate:"oneof=upper lower one-piece head hand foot"`
	Opening string `csv:"opening" validate:"oneof=none front"`
	Note    string `csv:"note"`
}

// Part is a row of parts.csv: a finished measurement of a garment and the
// body measurement behind it.
type Part struct {
	Line        int
	Garment     string `csv:"garment" validate:"required,id"`
	Part        string `csv:"part" validate:"required,id"`
	Name        string `csv:"name" validate:"required"`
	Measurement string `csv:"measurement" validate:"required,id"`
	Dimension   string `csv:"dimension" validate:"oneof=girth width length"`
}

// Ease is a row of ease.csv. Garment is a garment's id or a group. Rule says
// what the figures do: fit is the ease of a fit class over skin, layer is
// added for the clothes underneath, nappy is added over a nappy, and least is
// the smallest total allowed over those clothes.
type Ease struct {
	Line        int
	Rule        string   `csv:"rule" validate:"oneof=fit layer nappy least"`
	Garment     string   `csv:"garment" validate:"required,id"`
	Fit         string   `csv:"fit" validate:"oneof=any very-close close classic loose oversized"`
	Layer       string   `csv:"layer" validate:"oneof=any skin indoor winter"`
	Measurement string   `csv:"measurement" validate:"required,id"`
	Low         float64  `csv:"low" validate:"gte=-50,lte=50"`
	High        *float64 `csv:"high" validate:"omitempty,gte=-50,lte=50"`
	Use         float64  `csv:"use" validate:"gtefield=Low,lte=50"`
	Unit        string   `csv:"unit" validate:"oneof=cm in %"`
	Source      string   `csv:"source" validate:"required,id"`
	Basis       string   `csv:"basis" validate:"required"`
	Note        string   `csv:"note"`
}

// Length is a row of lengths.csv: an adjustment to a part of a garment. Role
// says when it applies: share takes a percentage of the body measurement,
// style always adds, option adds when asked for by name, growth adds once for
// each season of growth room.
type Length struct {
	Line       int
	Garment    string  `csv:"garment" validate:"required,id"`
	Part       string  `csv:"part" validate:"required,id"`
	Role       string  `csv:"role" validate:"oneof=share style option growth"`
	Option     string  `csv:"option" validate:"required_if=Role option,omitempty,id"`
	Adjustment float64 `csv:"adjustment" validate:"gte=-100,lte=100"`
	Unit       string  `csv:"unit" validate:"oneof=cm in %"`
	Why        string  `csv:"why" validate:"required"`
	Source     string  `csv:"source" validate:"required,id"`
	Basis      string  `csv:"basis" validate:"required"`
}

// Practice is a row of practice.csv: a figure that garments are planned with or
// drafts checked against. Shares are in %, or in thirds or sixths where no
// percentage is exact; What says what they are of. Basis is common practice,
// memory or judgement.
type Practice struct {
	Line   int
	ID     string  `csv:"id" validate:"required,id"`
	Value  float64 `csv:"value" validate:"gt=0,lte=300"`
	Unit   string  `csv:"unit" validate:"oneof=cm in % thirds sixths times rows years yd/in2"`
	What   string  `csv:"what" validate:"required"`
	Source string  `csv:"source" validate:"required,id"`
	Basis  string  `csv:"basis" validate:"required"`
	Note   string  `csv:"note"`
}

// Yarn is a row of yarns.csv: a weight class of the yarn trade, and the
// stitches over 4 in (stocking stitch; single crochet, US terms), needles and
// hooks that its yarns are usually worked with.
type Yarn struct {
	Line        int
	Class       string   `csv:"class" validate:"oneof=0 1 2 3 4 5 6 7"`
	Title       string   `csv:"title" validate:"required"`
	KnitLow     *float64 `csv:"knit_low" validate:"omitempty,gt=0,lte=60"`
	KnitHigh    *float64 `csv:"knit_high" validate:"omitempty,gt=0,lte=60"`
	CrochetLow  *float64 `csv:"crochet_low" validate:"omitempty,gt=0,lte=60"`
	CrochetHigh *float64 `csv:"crochet_high" validate:"omitempty,gt=0,lte=60"`
	NeedleLow   *float64 `csv:"needle_low_mm" validate:"omitempty,gt=0,lte=40"`
	NeedleHigh  *float64 `csv:"needle_high_mm" validate:"omitempty,gt=0,lte=40"`
	HookLow     *float64 `csv:"hook_low_mm" validate:"omitempty,gt=0,lte=40"`
	HookHigh    *float64 `csv:"hook_high_mm" validate:"omitempty,gt=0,lte=40"`
	Source      string   `csv:"source" validate:"required,id"`
	Where       string   `csv:"where" validate:"required"`
	Basis       string   `csv:"basis" validate:"oneof=published memory"`
	Review      string   `csv:"review" validate:"required"`
	Note        string   `csv:"note"`
}
