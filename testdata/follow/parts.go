package follow

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// begun is a new piece on so many stitches.
func (w *worker) begun(n int) error {
	w.live, w.markers, w.wrong = n, nil, false
	return nil
}

func (w *worker) neckOf(n int) error {
	w.neck = n
	return w.begun(n)
}

func (w *worker) waist(n []int) error {
	if err := w.begun(n[0]); err != nil {
		return err
	}
	w.markers = []int{n[0] / 4, n[0] - n[0]/4}
	return nil
}

// backOf is a back that is begun at its shoulders.
func (w *worker) backOf(n int, parts []int) error {
	if parts[0]+parts[1]+parts[2] != n || parts[0] != parts[2] {
		return fmt.Errorf("%d stitches are not %v", n, parts)
	}
	w.shoulder = parts[0]
	return w.begun(n)
}

// neckEdge lengthens a front at its neck edge.
func (w *worker) neckEdge(n []int) error {
	if w.live+n[0] != n[1] {
		return fmt.Errorf("%d and %d are not %d stitches", w.live, n[0], n[1])
	}
	w.live, w.halves = n[1], []int{n[1], n[1]}
	return nil
}

func (w *worker) neckEdges(n []int) error {
	if w.live+n[0] != n[2] || w.live+n[1] != n[3] {
		return fmt.Errorf("%d and %d, and %d and %d, are not %d and %d stitches", w.live, n[0], w.live, n[1], n[2], n[3])
	}
	w.live, w.halves = n[2], []int{n[2], n[3]}
	return nil
}

func (w *worker) becomes(have, said int) error {
	if have != said {
		return fmt.Errorf("%d stitches come together, %d are said", have, said)
	}
	w.live, w.Begins[w.id] = said, said
	return nil
}

func (w *worker) joinHalves(n []int) error {
	have := 0
	for _, x := range w.halves {
		have += x
	}
	w.halves = nil
	return w.becomes(have, n[0])
}

func (w *worker) joinSides(n []int) error {
	w.halves = nil
	return w.becomes(2*w.live+n[0], n[1])
}

func (w *worker) joinAll(n []int) error { return w.joinAllWith([]int{0, n[0]}) }

func (w *worker) joinAllWith(n []int) error {
	front := w.live
	if len(w.halves) == 2 {
		front = w.halves[0] + w.halves[1]
		if w.live != w.halves[0] {
			front += 2 * (w.live - w.halves[0])
		}
	}
	w.halves = nil
	if err := w.becomes(w.back+front+2*n[0], n[1]); err != nil {
		return err
	}
	w.markers = []int{n[1] / 4, n[1] - n[1]/4}
	return nil
}

func (w *worker) divideLegs(n []int) error {
	if 2*n[0] != w.live {
		return fmt.Errorf("two legs of %d of %d stitches", n[0], w.live)
	}
	w.each, w.bridge = n[0], n[1]
	return nil
}

func (w *worker) thumbHole(on, over int) error {
	if on != over || on >= w.live {
		return fmt.Errorf("%d stitches on hold, %d over them, of %d", on, over, w.live)
	}
	w.hole = on
	return nil
}

func (w *worker) gather(n []int) error {
	if n[0] != w.live {
		return fmt.Errorf("%d stitches are said to be left of %d", n[0], w.live)
	}
	return nil
}

func (w *worker) foldHood(n []int) error {
	if n[0] != n[1] || n[0]+n[1] != w.live {
		return fmt.Errorf("%d and %d of %d stitches", n[0], n[1], w.live)
	}
	return nil
}

// panelSides are the stitches beside the panel of a hood.
func (w *worker) panelSides(n []int) error {
	if 2*n[0]+w.live != w.Begins["hood-panel"] {
		return fmt.Errorf("a panel of %d with %d on each side, of %d stitches", w.live, n[0], w.Begins["hood-panel"])
	}
	return nil
}

// zipperWords are what is said of a zipper: its opening, its length in both units, and
// what is left of the opening.
var zipperWords = regexp.MustCompile(`^Opening ([\d.]+) cm: take the ([\d ¼½¾]+) in zipper(?: \(([\d.]+) cm\); | and shorten it at the top to the opening\. Or take the ([\d ¼½¾]+) in one \(([\d.]+) cm\) and )(.*)$`)

var leftWords = regexp.MustCompile(`^(?:set it in; do not stretch the edge to it\.|close the ([\d.]+) cm left by hand at the lower end, or cover them with a flap at the chin\.|take (\d+) rows? out of the opening(?:, or add (\d+) rows? for the ([\d ¼½¾]+) in)?; else close the ([\d.]+) cm left by hand or work a plain band above or below\.)$`)

// zipper holds the lengths that are said of it against each other.
func (w *worker) zipper([]int) error {
	m := zipperWords.FindStringSubmatch(w.line)
	if m == nil {
		return fmt.Errorf("what is said of the zipper cannot be read")
	}
	w.Zipped = true
	opening := decimal(m[1])
	if math.Abs(opening-w.openingCm()) > 0.06 {
		return fmt.Errorf("an opening of %g cm, %d rows are open", opening, w.OpenRows)
	}
	inches, cm := quarters(m[2]), decimal(m[3])
	if m[4] != "" {
		if quarters(m[2])*2.54 < opening {
			return fmt.Errorf("a zipper of %s in is not longer than %g cm", m[2], opening)
		}
		inches, cm = quarters(m[4]), decimal(m[5])
	}
	if math.Abs(inches*2.54-cm) > 0.051 || cm > opening+0.06 {
		return fmt.Errorf("%g in are not %g cm, in an opening of %g", inches, cm, opening)
	}
	l := leftWords.FindStringSubmatch(m[6])
	if l == nil {
		return fmt.Errorf("what is left of the opening cannot be read: %q", m[6])
	}
	rowCm := 10 / w.RowsPer10Cm
	for _, said := range []string{l[1], l[5]} {
		if said != "" && math.Abs(decimal(said)-(opening-cm)) > 0.11 {
			return fmt.Errorf("%s cm are said to be left of %g with %g in it", said, opening, cm)
		}
	}
	if l[2] != "" && math.Abs(decimal(l[2])*rowCm-(opening-cm)) > rowCm+0.11 {
		return fmt.Errorf("%s rows are not the %g cm that are left", l[2], opening-cm)
	}
	if l[3] != "" && math.Abs(decimal(l[3])*rowCm-(quarters(l[4])*2.54-opening)) > rowCm+0.11 {
		return fmt.Errorf("%s rows are not what %s in takes more than %g cm", l[3], l[4], opening)
	}
	return errRest
}

func decimal(s string) float64 {
	v, _ := strconv.ParseFloat(s, 64)
	return v
}

// quarters reads inches with quarters.
func quarters(s string) float64 {
	v := 0.0
	for _, word := range strings.Fields(strings.NewReplacer("¼", " .25", "½", " .5", "¾", " .75").Replace(s)) {
		v += decimal(word)
	}
	return v
}

// closeFronts goes on in rounds, with stitches between the fronts as wide as what
// lies between them above.
func (w *worker) closeFronts(n []int) error {
	w.rounds = true
	w.closing = n[0]
	return w.becomes(w.live+n[0], n[1])
}

// edgeRows are the rows of a front edge, which are worked and counted by now.
func (w *worker) edgeRows(n []int) error {
	if n[0] != w.at {
		return fmt.Errorf("%d rows in all, %d are worked", n[0], w.at)
	}
	return nil
}

func (w *worker) overGaps(n []int) error {
	if n[0] != w.holeSize {
		return fmt.Errorf("%d over gaps of %d", n[0], w.holeSize)
	}
	return nil
}

func (w *worker) sleeve(n []int) (int, error) {
	if len(w.held) == 0 || len(w.Underarms) == 0 {
		return 0, fmt.Errorf("nothing is on hold for a sleeve")
	}
	under, held := n[0]+n[2], n[1]
	for i := range w.held {
		if w.held[i] != held || w.Underarms[i] != under {
			return 0, fmt.Errorf("%d on hold and %d at the underarm, of %v and %v", held, under, w.held, w.Underarms)
		}
	}
	return under + held, nil
}

func (w *worker) leg(n []int) (int, error) {
	if n[1] != w.each || n[0]+n[2] != w.bridge {
		return 0, fmt.Errorf("%d of the body and %d of the bridge, of %d and %d", n[1], n[0]+n[2], w.each, w.bridge)
	}
	return w.each + w.bridge, nil
}

func (w *worker) fromNeck(n []int) (int, error) {
	if w.neck != 0 && n[0] != w.neck {
		return 0, fmt.Errorf("%d stitches of a neck of %d", n[0], w.neck)
	}
	return n[0], nil
}

// hood is picked up with a marker in its middle.
func (w *worker) hood(n []int) (int, error) {
	w.markers = []int{n[0] / 2}
	return w.fromNeck(n)
}

// hoodOn goes on from all stitches of a tube, with a marker in their middle.
func (w *worker) hoodOn(n []int) (int, error) {
	w.markers = []int{n[0] / 2}
	if n[0] != w.live {
		return 0, fmt.Errorf("%d stitches of a tube of %d", n[0], w.live)
	}
	return n[0], nil
}

// bothSides places the markers at the sides of a garment in one piece, whose rounds
// begin at the middle of the front.
func (w *worker) bothSides(n []int) error {
	if n[0]+n[1] != w.live {
		return fmt.Errorf("%d for the front and %d for the back, of %d stitches", n[0], n[1], w.live)
	}
	w.markers = []int{n[0] / 2, n[0]/2 + n[1]}
	return nil
}

func (w *worker) fromShoulder(n []int) (int, error) {
	w.back = w.live
	if n[0] != w.shoulder {
		return 0, fmt.Errorf("%d stitches of a shoulder of %d", n[0], w.shoulder)
	}
	return n[0], nil
}

func (w *worker) thumbOf(n []int) (int, error) {
	if n[0] != w.hole || n[2] != w.hole || n[1] != 1 || n[3] != 1 {
		return 0, fmt.Errorf("%v of a hole of %d", n, w.hole)
	}
	return n[0] + n[1] + n[2] + n[3], nil
}

func just(_ *worker, n []int) (int, error) { return n[0], nil }
