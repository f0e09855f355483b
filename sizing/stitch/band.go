package stitch

import "fmt"

// A PickUp is stitches picked up along the ends of rows.
type PickUp struct {
	Rows, Stitches int
	Ratio          float64 // exact stitches per row
	Groups         []int   // rows of each group of the repeat; one is skipped in each group, empty when none is
	LengthCm       float64 // of the band; the edge is Rows high
}

// PlanPickUp counts the stitches of a band along an edge of rows: the stitch
// gauge of the band over the row gauge of the fabric, nearest to a multiple.
// A band lies flat only at its own gauge.
func PlanPickUp(rows int, fabric, band Gauge, m Multiple) (PickUp, error) {
	if err := firstError(checkCount("rows of the edge", rows, 1), fabric.Validate(), band.Validate()); err != nil {
		return PickUp{}, err
	}
	p := PickUp{Rows: rows, Ratio: band.StitchesPer10Cm / fabric.RowsPer10Cm}
	var err error
	if p.Stitches, err = m.Count(float64(rows)*p.Ratio, Nearest); err != nil {
		return PickUp{}, err
	}
	p.LengthCm = band.WidthCm(p.Stitches)
	num, den := simpleRatio(p.Ratio)
	if skip := den - num; skip > 0 && num > 0 {
		p.Groups = gaps(skip, den)
	}
	return p, nil
}

// simpleRatio is the fraction nearest to x with a denominator a maker can
// count by, at most 16.
func simpleRatio(x float64) (numerator, denominator int) {
	best := 2.0
	for d := 1; d <= 16; d++ {
		n := nearestInt(x * float64(d))
		e := x - float64(n)/float64(d)
		if e < 0 {
			e = -e
		}
		if e < best-1e-6 {
			best, numerator, denominator = e, n, d
		}
	}
	return numerator, denominator
}

// Buttonholes are spaced along a band.
type Buttonholes struct {
	Ends int // plain stitches at either end
	Size int // of each hole
	Gaps []int
}

// SpaceButtonholes puts holes of a size along a band, with plain stitches at
// its ends. Gaps differ by one stitch at most.
func SpaceButtonholes(stitches, ends, holes, size int) (Buttonholes, error) {
	if err := firstError(checkCount("stitches of the band", stitches, 1), checkCount("stitches beside the buttonholes", ends, 0),
		checkCount("buttonholes", holes, 2), checkCount("stitches of a buttonhole", size, 1)); err != nil {
		return Buttonholes{}, err
	}
	free := stitches - 2*ends - holes*size
	if free < holes-1 {
		return Buttonholes{}, &InputError{"band", plural(stitches, "stitch"),
			fmt.Sprintf("at least %d for %d buttonholes of %d", 2*ends+holes*size+holes-1, holes, size)}
	}
	return Buttonholes{ends, size, gaps(holes-1, free)}, nil
}
