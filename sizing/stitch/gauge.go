package stitch

// Exact lengths of the inch units in which gauges are printed.
const (
	inchCm       = 2.54
	FourInchesCm = 10.16
)

// Bounds of a gauge, per 10 cm. The finest lace of the trade's yarn chart has
// 42 stitches to 4 in (Craft Yarn Council 2018), the thickest yarn 5.
const (
	minPer10Cm      = 1.0
	maxStitches10Cm = 120.0
	maxRows10Cm     = 200.0
	minRowByStitch  = 0.2 // row height ÷ stitch width
	maxRowByStitch  = 8.0
)

// A Swatch is what was counted: Stitches over WidthCm, Rows over HeightCm.
// Counts may have fractions (half a stitch at the edge).
type Swatch struct {
	Stitches, WidthCm float64
	Rows, HeightCm    float64
}

// Gauge is the swatch brought to 10 cm.
func (s Swatch) Gauge() (Gauge, error) {
	if err := firstError(
		checkRange("swatch stitches", s.Stitches, 1, maxCount, ""),
		checkLength("swatch width", s.WidthCm),
		checkRange("swatch rows", s.Rows, 1, maxCount, ""),
		checkLength("swatch height", s.HeightCm),
	); err != nil {
		return Gauge{}, err
	}
	g := Gauge{StitchesPer10Cm: s.Stitches / s.WidthCm * 10, RowsPer10Cm: s.Rows / s.HeightCm * 10}
	return g, g.Validate()
}

// OneStitchShare is what one stitch miscounted in the swatch does to every
// girth: 0.05 (5 %) for a swatch of 20 stitches.
func (s Swatch) OneStitchShare() float64 { return 1 / s.Stitches }

// A Gauge is the size of a stitch, written as the trade writes it. Its methods
// suppose that Validate accepts it.
type Gauge struct {
	StitchesPer10Cm float64
	RowsPer10Cm     float64
}

// Per10Cm is a gauge counted over 10 cm.
func Per10Cm(stitches, rows float64) (Gauge, error) {
	g := Gauge{stitches, rows}
	return g, g.Validate()
}

// Validate refuses a gauge that no yarn gives.
func (g Gauge) Validate() error {
	if err := firstError(
		checkRange("stitch gauge", g.StitchesPer10Cm, minPer10Cm, maxStitches10Cm, "stitches per 10 cm"),
		checkRange("row gauge", g.RowsPer10Cm, minPer10Cm, maxRows10Cm, "rows per 10 cm"),
	); err != nil {
		return err
	}
	return checkRange("row height ÷ stitch width", g.RowByStitch(), minRowByStitch, maxRowByStitch, "")
}

// StitchWidthCm is the width of one stitch.
func (g Gauge) StitchWidthCm() float64 { return 10 / g.StitchesPer10Cm }

// RowHeightCm is the height of one row.
func (g Gauge) RowHeightCm() float64 { return 10 / g.RowsPer10Cm }

// RowByStitch is row height ÷ stitch width: about 0.7 in stocking stitch, 1 in
// single crochet, 2 in double crochet (US terms).
func (g Gauge) RowByStitch() float64 { return g.StitchesPer10Cm / g.RowsPer10Cm }

// Per4In gives the gauge as it is printed over 4 inches.
func (g Gauge) Per4In() (stitches, rows float64) {
	return g.StitchesPer10Cm * FourInchesCm / 10, g.RowsPer10Cm * FourInchesCm / 10
}

// Stitches is the unrounded count in a width. Keep the fraction; round once,
// at the end, with a [Multiple].
func (g Gauge) Stitches(widthCm float64) float64 { return widthCm * g.StitchesPer10Cm / 10 }

// Rows is the unrounded count in a height.
func (g Gauge) Rows(heightCm float64) float64 { return heightCm * g.RowsPer10Cm / 10 }

// WidthCm is the width of a count of stitches.
func (g Gauge) WidthCm(stitches int) float64 { return float64(stitches) * 10 / g.StitchesPer10Cm }

// HeightCm is the height of a count of rows.
func (g Gauge) HeightCm(rows int) float64 { return float64(rows) * 10 / g.RowsPer10Cm }

// FitWidth counts a width in stitches of a multiple.
func (g Gauge) FitWidth(widthCm float64, m Multiple, r Rounding) (Finished, error) {
	return fit("width", widthCm, 0, g, g.StitchesPer10Cm, m, r)
}

// FitWidthAtLeast counts a width to the nearest of a multiple, but never under
// leastCm (the body with its least ease).
func (g Gauge) FitWidthAtLeast(widthCm, leastCm float64, m Multiple) (Finished, error) {
	return fit("width", widthCm, leastCm, g, g.StitchesPer10Cm, m, Nearest)
}

// FitHeight counts a height in rows of a multiple.
func (g Gauge) FitHeight(heightCm float64, m Multiple, r Rounding) (Finished, error) {
	return fit("height", heightCm, 0, g, g.RowsPer10Cm, m, r)
}

// FitHeightAtLeast counts a height to the nearest of a multiple, but never
// under leastCm.
func (g Gauge) FitHeightAtLeast(heightCm, leastCm float64, m Multiple) (Finished, error) {
	return fit("height", heightCm, leastCm, g, g.RowsPer10Cm, m, Nearest)
}

func fit(what string, cm, leastCm float64, g Gauge, per10 float64, m Multiple, r Rounding) (Finished, error) {
	if err := firstError(g.Validate(), checkLength(what, cm), checkOptionalLength("least "+what, leastCm)); err != nil {
		return Finished{}, err
	}
	var n int
	var err error
	if leastCm > 0 {
		n, err = m.AtLeast(cm*per10/10, leastCm*per10/10)
	} else {
		n, err = m.Count(cm*per10/10, r)
	}
	if err != nil {
		return Finished{}, err
	}
	return Finished{Count: n, SizeCm: float64(n) * 10 / per10, WantCm: cm}, nil
}

// Finished is a whole count and the size it gives.
type Finished struct {
	Count  int
	SizeCm float64 // what the count gives
	WantCm float64 // what was asked for
}

// errorCm is the size less what was asked for: positive when it comes out larger.
func (f Finished) errorCm() float64 { return f.SizeCm - f.WantCm }
