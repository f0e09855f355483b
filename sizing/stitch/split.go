package stitch

import (
	"fmt"
	"strconv"
)

// A Split is how a yoke is shared out at the underarm. Left and right are
// equal, so one sleeve and, with a front opening, one front represent both.
type Split struct {
	FrontOpening bool

	Yoke       int // stitches when the yoke is done
	Front      int // each front with an opening, else the whole front
	SleevePart int // each sleeve's share of the yoke
	Back       int
	Underarm   int // cast on or chained under each arm

	Body   int // worked after the split: fronts + back + 2 × underarm
	Sleeve int // each sleeve: sleeve part + underarm
}

// fronts is the count of the front or of both fronts together.
func (s Split) fronts() int {
	if s.FrontOpening {
		return 2 * s.Front
	}
	return s.Front
}

// Check verifies the identities of the split: the parts make the yoke, and the
// yoke with the underarms makes body and sleeves. Each underarm counts twice,
// once for the body and once for its sleeve.
func (s Split) Check() error {
	for _, part := range []struct {
		what  string
		n     int
		least int
	}{
		{"front", s.Front, 1}, {"back", s.Back, 1}, {"sleeve part of the yoke", s.SleevePart, 1}, {"underarm", s.Underarm, 0},
	} {
		if err := checkCount(part.what, part.n, part.least); err != nil {
			return err
		}
	}
	if sum := s.fronts() + s.Back + 2*s.SleevePart; sum != s.Yoke {
		return &InputError{"yoke", strconv.Itoa(s.Yoke),
			fmt.Sprintf("fronts %d + back %d + sleeves 2 × %d = %d", s.fronts(), s.Back, s.SleevePart, sum)}
	}
	if sum := s.fronts() + s.Back + 2*s.Underarm; sum != s.Body {
		return &InputError{"body", strconv.Itoa(s.Body),
			fmt.Sprintf("fronts %d + back %d + underarms 2 × %d = %d", s.fronts(), s.Back, s.Underarm, sum)}
	}
	if sum := s.SleevePart + s.Underarm; sum != s.Sleeve {
		return &InputError{"sleeve", strconv.Itoa(s.Sleeve),
			fmt.Sprintf("sleeve part %d + underarm %d = %d", s.SleevePart, s.Underarm, sum)}
	}
	return nil
}

// yokeTotal is the count of the yoke that gives a body and two sleeves: every
// underarm is taken off twice, from the body and from its sleeve.
func yokeTotal(body, sleeve, underarm int) int { return body + 2*sleeve - 4*underarm }

// ArmholeDepthCm is the depth of the armhole that a yoke of a depth gives with
// an underarm of a width: half the underarm turns down into the side.
func ArmholeDepthCm(yokeDepthCm, underarmCm float64) float64 { return yokeDepthCm + underarmCm/2 }

// splitBody shares the stitches of fronts and back as near equal as they
// allow; where two ways are as near, the back is the larger. The edges of an
// opening, as wide as so many stitches, are part of the front. ok is false when
// there are too few.
func splitBody(stitches int, opening bool, edges int) (front, back int, ok bool) {
	if !opening {
		front = stitches / 2
		return front, stitches - front, front >= 1
	}
	front = (stitches - edges + 1) / 4
	back = stitches - 2*front
	return front, back, front >= 1 && back >= 1
}
