package stitch

// maxWashChange is the largest change of a stitch's width or height in the
// wash that is accepted; more is a felted swatch or a mistake.
const maxWashChange = 0.5

// A WashedGauge is one swatch counted twice. Plans are made at the After
// gauge, as the garment will be worn; Before tells what to measure on the hook
// or needles.
type WashedGauge struct {
	Before, After Gauge
}

// Validate refuses a gauge that no yarn gives and a change beyond one half.
func (w WashedGauge) Validate() error {
	if err := firstError(w.Before.Validate(), w.After.Validate()); err != nil {
		return err
	}
	return firstError(
		checkRange("change of width in the wash", w.widthChange(), -maxWashChange, maxWashChange, ""),
		checkRange("change of height in the wash", w.heightChange(), -maxWashChange, maxWashChange, ""),
	)
}

// widthChange is the share by which a width grows (positive) or shrinks.
func (w WashedGauge) widthChange() float64 {
	return w.Before.StitchesPer10Cm/w.After.StitchesPer10Cm - 1
}

// heightChange is the share by which a height grows (positive) or shrinks.
func (w WashedGauge) heightChange() float64 {
	return w.Before.RowsPer10Cm/w.After.RowsPer10Cm - 1
}

// WorkWidthCm is the width to work to, before washing, for a finished width.
func (w WashedGauge) WorkWidthCm(finishedCm float64) float64 {
	return finishedCm / (1 + w.widthChange())
}

// WorkHeightCm is the height to work to, before washing, for a finished height.
func (w WashedGauge) WorkHeightCm(finishedCm float64) float64 {
	return finishedCm / (1 + w.heightChange())
}
