package stitch

import (
	"fmt"
	"math"
	"slices"
)

// A FrontOpening is a slit in the front, closed by a zipper or buttons.
type FrontOpening struct {
	LengthCm float64 // of the finished, washed, unstretched edge
}

// PassCm is the girth that can step through: the edge of the neck and both
// sides of the opening.
func (o FrontOpening) PassCm(neckCm float64) float64 { return neckCm + 2*o.LengthCm }

// ZipperAdvice is what to do about an opening that is longer than its zipper.
type ZipperAdvice string

const (
	SetIn            ZipperAdvice = "set-in"
	CloseByHand      ZipperAdvice = "close-by-hand"
	TakeOutRows      ZipperAdvice = "take-out-rows"
	TakeOutOrAddRows ZipperAdvice = "take-out-or-add-rows" // or add rows for a longer one
)

// A Zipper is the stocked zipper for an opening.
type Zipper struct {
	OpeningCm  float64
	LengthIn   float64 // stocked
	LengthCm   float64
	DifferCm   float64 // opening less zipper; what the tape hides counts as none
	Advice     ZipperAdvice
	LongerIn   float64 // next stocked longer one, 0 when there is none
	RowsToFit  int     // rows that can be taken out down to the zipper's length
	RowsToNext int     // rows to add for the next longer one, 0 when there is none
}

// tapeCm is what a tape does not show.
const tapeCm = 0.05

// FitZipper chooses the longest stocked zipper that is not longer than the
// opening: a longer one folds at the chin. The gauge tells how many rows would
// make the opening fit a zipper instead. Of what is left of the opening nothing
// need be closed up to exactCm, and up to byHandCm it is closed by hand: an edge
// is neither stretched nor gathered to a zipper (three trade texts).
func FitZipper(g Gauge, openingCm float64, stockIn []float64, exactCm, byHandCm float64) (Zipper, error) {
	if err := firstError(g.Validate(), checkLength("opening", openingCm)); err != nil {
		return Zipper{}, err
	}
	stock := slices.Sorted(slices.Values(stockIn))
	z := Zipper{OpeningCm: openingCm}
	for _, in := range stock {
		if err := checkLength("stocked zipper", in*inchCm); err != nil {
			return Zipper{}, err
		}
		if in*inchCm <= openingCm+tapeCm {
			z.LengthIn = in
		} else if z.LongerIn == 0 {
			z.LongerIn = in
		}
	}
	if z.LengthIn == 0 {
		want := "a stock of zippers"
		if z.LongerIn > 0 {
			want = fmt.Sprintf("at least the shortest zipper, %s cm: use buttons, or shorten a zipper at its top", num(z.LongerIn*inchCm))
		}
		return Zipper{}, &InputError{"opening", num(openingCm) + " cm", want}
	}
	z.LengthCm = z.LengthIn * inchCm
	z.DifferCm = max(0, openingCm-z.LengthCm)
	// Rounded so that the opening is never left shorter than the zipper.
	z.RowsToFit = int(g.Rows(z.DifferCm) + countTolerance)
	if z.LongerIn > 0 {
		z.RowsToNext = int(math.Ceil(g.Rows(z.LongerIn*inchCm-openingCm) - countTolerance))
	}
	z.Advice = z.advice(exactCm, byHandCm)
	return z, nil
}

func (z Zipper) advice(exactCm, byHandCm float64) ZipperAdvice {
	switch {
	case z.DifferCm <= exactCm:
		return SetIn
	case z.DifferCm <= byHandCm:
		return CloseByHand
	case z.LongerIn > 0:
		return TakeOutOrAddRows
	}
	return TakeOutRows
}
