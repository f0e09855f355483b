package stitch

import (
	"fmt"
	"strings"
)

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
		p.Groups = EvenRows(skip, den)
		for i := skip - 1; i > 0; i-- {
			p.Groups[i] -= p.Groups[i-1]
		}
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

// Wording is the repeat a maker follows: "pick up 3 of 4 rows, 3 of 4, 4 of 5".
func (p PickUp) Wording() string {
	if len(p.Groups) == 0 {
		if p.Stitches == p.Rows {
			return "pick up 1 in each row"
		}
		return fmt.Sprintf("pick up %s evenly over %s", plural(p.Stitches, "stitch"), plural(p.Rows, "row"))
	}
	parts := make([]string, len(p.Groups))
	for i, g := range p.Groups {
		parts[i] = fmt.Sprintf("%d of %d", g-1, g)
	}
	return "pick up " + strings.Join(parts, ", ") + fmt.Sprintf(" rows; %s in all", plural(p.Stitches, "stitch"))
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
	free, gaps := stitches-2*ends-holes*size, holes-1
	if free < gaps {
		return Buttonholes{}, &InputError{"band", plural(stitches, "stitch"),
			fmt.Sprintf("at least %d for %d buttonholes of %d", 2*ends+holes*size+gaps, holes, size)}
	}
	b := Buttonholes{ends, size, EvenRows(gaps, free)}
	for i := gaps - 1; i > 0; i-- {
		b.Gaps[i] -= b.Gaps[i-1]
	}
	return b, nil
}

// Wording is the row as a maker follows it: "work 3, buttonhole of 4, (work 11,
// buttonhole of 4) 6 times, work 3".
func (b Buttonholes) Wording() string {
	hole := fmt.Sprintf("buttonhole of %d", b.Size)
	parts := []string{hole}
	for i := 0; i < len(b.Gaps); {
		j := i
		for j < len(b.Gaps) && b.Gaps[j] == b.Gaps[i] {
			j++
		}
		s := fmt.Sprintf("work %d, %s", b.Gaps[i], hole)
		if j-i > 1 {
			s = "(" + s + ") " + times(j-i)
		}
		parts = append(parts, s)
		i = j
	}
	if b.Ends > 0 {
		end := fmt.Sprintf("work %d", b.Ends)
		parts = append(append([]string{end}, parts...), end)
	}
	return strings.Join(parts, ", ")
}
