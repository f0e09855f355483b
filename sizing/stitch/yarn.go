package stitch

import (
	"fmt"
	"math"
	"strconv"
)

// yardMetres is an exact yard in metres.
const yardMetres = 0.9144

// A YarnSwatch is a washed and dried swatch without its tails, weighed, or
// measured by unravelling. Give Grams or Metres; Grams is used when both are.
type YarnSwatch struct {
	WidthCm, HeightCm float64
	Grams, Metres     float64
}

// A Ball is the yarn as it is sold.
type Ball struct {
	Grams, Metres float64
}

// A YarnNeed is yarn for an area.
type YarnNeed struct {
	Grams, Metres float64 // margin included
	Balls         int     // whole balls
	LastShare     float64 // of the last ball used, above 0 and at most 1
}

// EstimateYarn gives the yarn for an area from a swatch, with a margin (0.1 is
// 10 %).
func EstimateYarn(s YarnSwatch, b Ball, areaCm2, margin float64) (YarnNeed, error) {
	if err := firstError(checkLength("swatch width", s.WidthCm), checkLength("swatch height", s.HeightCm),
		checkRange("weight of the swatch", s.Grams, 0, 1e4, "g"), checkRange("yarn of the swatch", s.Metres, 0, 1e5, "m"),
		checkBall(b),
		checkRange("area", areaCm2, 1, 1e6, "cm²"), checkRange("margin", margin, 0, 1, "")); err != nil {
		return YarnNeed{}, err
	}
	perCm2 := s.Metres
	if s.Grams > 0 {
		perCm2 = s.Grams * b.Metres / b.Grams
	}
	if perCm2 == 0 {
		return YarnNeed{}, &InputError{"swatch", "without weight and length", "grams or metres of yarn in it"}
	}
	perCm2 /= s.WidthCm * s.HeightCm
	return ballsFor(perCm2*areaCm2*(1+margin), b)
}

// ballsFor gives the balls for a length of yarn, for example when one yarn
// replaces another.
func ballsFor(metres float64, b Ball) (YarnNeed, error) {
	if err := firstError(checkRange("length of yarn", metres, 0.001, 1e7, "m"), checkBall(b)); err != nil {
		return YarnNeed{}, err
	}
	balls := metres / b.Metres
	n := max(1, int(math.Ceil(balls-countTolerance)))
	last := min(1, balls-float64(n-1))
	return YarnNeed{Grams: metres * b.Grams / b.Metres, Metres: metres, Balls: n, LastShare: last}, nil
}

func checkBall(b Ball) error {
	return firstError(checkRange("weight of a ball", b.Grams, 1, 1e4, "g"), checkRange("length of a ball", b.Metres, 1, 1e5, "m"))
}

// A YarnBand is the plausible range of yarn for an area, in metres per square
// metre.
type YarnBand struct {
	Yarn      string
	Low, High float64
}

// yardsPerIn2 turns yards per square inch into metres per square metre.
const yardsPerIn2 = yardMetres / (inchCm * inchCm / 1e4)

// A YarnUse is the yarn that plain knitting takes, by the stitches of stocking
// stitch over 4 in that the trade gives a yarn.
type YarnUse struct {
	Yarn              string
	KnitLow, KnitHigh float64 // stitches over 4 in
	Low, High         float64 // yards per square inch
}

// BelievableYarn is the band for a yarn that knits to a number of stitches over
// 4 in, of uses in the order of their stitches; between two yarns the band spans
// both. Outside all of them no band is known.
func BelievableYarn(knitStitchesPer4In float64, uses []YarnUse) (YarnBand, error) {
	if len(uses) == 0 {
		return YarnBand{}, &InputError{"uses of yarn", "0", "one at least"}
	}
	if err := checkRange("stitches over 4 in", knitStitchesPer4In, uses[0].KnitLow, uses[len(uses)-1].KnitHigh, "(no band is known beyond)"); err != nil {
		return YarnBand{}, err
	}
	var band YarnBand
	for i, y := range uses {
		if knitStitchesPer4In > y.KnitHigh {
			continue
		}
		band = YarnBand{y.Yarn, y.Low, y.High}
		if knitStitchesPer4In < y.KnitLow {
			band.Yarn, band.Low = uses[i-1].Yarn+" to "+y.Yarn, uses[i-1].Low
		}
		break
	}
	return band.Times(yardsPerIn2, yardsPerIn2), nil
}

// Times is a band multiplied: crochet takes more yarn than knitting.
func (b YarnBand) Times(low, high float64) YarnBand {
	b.Low *= low
	b.High *= high
	return b
}

// Check compares metres for an area with the band.
func (b YarnBand) Check(metres, areaCm2 float64) error {
	if err := firstError(checkRange("length of yarn", metres, 0, 1e7, "m"), checkRange("area", areaCm2, 1, 1e6, "cm²")); err != nil {
		return err
	}
	per := metres / areaCm2 * 1e4
	if per >= b.Low && per <= b.High {
		return nil
	}
	return &InputError{"yarn for " + num(areaCm2) + " cm²", strconv.FormatFloat(metres, 'f', 0, 64) + " m",
		fmt.Sprintf("%.0f to %.0f m in %s", b.Low*areaCm2/1e4, b.High*areaCm2/1e4, b.Yarn)}
}
