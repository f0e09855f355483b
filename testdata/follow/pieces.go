package follow

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// A move is a piece of a row that can be read, and what it does.
type move struct {
	words *regexp.Regexp
	do    func(r *row, n int) error
}

// words turns a piece with {n} for a number and {S} for the fabric's stitch into what
// it is read by. A remark in brackets may follow it.
func moves(stitch string, table map[string]func(*row, int) error) []move {
	var all []move
	for text, do := range table {
		pattern := regexp.QuoteMeta(text)
		pattern = strings.ReplaceAll(pattern, `\{n\}`, `(\d+)`)
		pattern = strings.ReplaceAll(pattern, `\{S\}`, stitch)
		pattern = strings.ReplaceAll(pattern, `\{skip\}`, "(?:skip|miss)")
		pattern = strings.ReplaceAll(pattern, `\{place\}`, `(?: (?:of the body|of the bridge|along the bridge|from hold|\((?:front|back|underarm)\)))?`)
		all = append(all, move{regexp.MustCompile("^" + pattern + "$"), do})
	}
	return all
}

var zero = regexp.MustCompile(`(^|\D)0$`)

func (w *worker) piece(r *row, text string) error {
	var found *move
	n := 0
	for i, m := range w.moves {
		if s := m.words.FindStringSubmatch(text); s != nil {
			if found != nil {
				return fmt.Errorf("it can be read in two ways")
			}
			found = &w.moves[i]
			for _, group := range s[1:] {
				if v, err := strconv.Atoi(group); err == nil {
					n = v
				}
			}
		}
	}
	if found == nil || zero.MatchString(text) {
		return fmt.Errorf("it cannot be read")
	}
	return found.do(r, n)
}

// even works a number of stitches plain.
func even(r *row, n int) error { return r.take(n, n) }

// upTo works plain up to a place.
func upTo(r *row, at int) error { return r.take(at-r.used, at-r.used) }

func toMarker(r *row, n int) error {
	at, err := r.marker()
	if err != nil {
		return err
	}
	return upTo(r, at-n)
}

// crochetMoves are the pieces of rows of crochet.
var crochetMoves = map[string]func(*row, int) error{
	"{S} {n}{place}":                   even,
	"{S}":                              func(r *row, _ int) error { return even(r, 1) },
	"{S} in each st":                   func(r *row, _ int) error { return upTo(r, r.have) },
	"{S} in each st to the end":        func(r *row, _ int) error { return upTo(r, r.have) },
	"{S} to the end":                   func(r *row, _ int) error { return upTo(r, r.have) },
	"{S} to the last st":               func(r *row, _ int) error { return upTo(r, r.have-1) },
	"{S} to the last {n} sts":          func(r *row, n int) error { return upTo(r, r.have-n) },
	"{S} to the marker":                func(r *row, _ int) error { return toMarker(r, 0) },
	"{S} to 1 st before the marker":    func(r *row, _ int) error { return toMarker(r, 1) },
	"{S} to {n} sts before the marker": toMarker,
	"the heel included":                func(*row, int) error { return nil },
	"inc":                              func(r *row, _ int) error { return r.shape(1, 2) },
	"{S}2tog":                          func(r *row, _ int) error { return r.shape(2, 1) },
	"move the marker up":               func(r *row, _ int) error { return r.pass() },
	"ch {n} (underarm)":                (*row).underarm,
	"ch {n}":                           (*row).gap,
	"{skip} {n}":                       (*row).over,
	"{skip} {n} for a sleeve":          (*row).hold,
	"FP{S}":                            func(r *row, _ int) error { return even(r, 1) },
	"BP{S}":                            func(r *row, _ int) error { return even(r, 1) },
}

// knitMoves are those of knitting.
var knitMoves = map[string]func(*row, int) error{
	"k{n}{place}":                       (*row).knit,
	"p{n}{place}":                       (*row).purl,
	"knit":                              func(r *row, _ int) error { return r.knit(r.have - r.used) },
	"purl":                              func(r *row, _ int) error { return r.purl(r.have - r.used) },
	"work in St st":                     func(r *row, _ int) error { return upTo(r, r.have) },
	"knit to the end":                   func(r *row, _ int) error { return r.knit(r.have - r.used) },
	"knit to the last st":               func(r *row, _ int) error { return r.knit(r.have - 1 - r.used) },
	"knit to the last {n} sts":          func(r *row, n int) error { return r.knit(r.have - n - r.used) },
	"knit to the marker":                func(r *row, _ int) error { return r.knitTo(0) },
	"knit to 1 st before the marker":    func(r *row, _ int) error { return r.knitTo(1) },
	"knit to {n} sts before the marker": (*row).knitTo,
	"the heel included":                 func(*row, int) error { return nil },
	"M1L":                               func(r *row, _ int) error { return r.between() },
	"M1R":                               func(r *row, _ int) error { return r.between() },
	"M1p":                               func(r *row, _ int) error { return r.between() },
	"kfb":                               func(r *row, _ int) error { return r.shape(1, 2) },
	"k2tog":                             func(r *row, _ int) error { return r.shape(2, 1) },
	"ssk":                               func(r *row, _ int) error { return r.shape(2, 1) },
	"p2tog":                             func(r *row, _ int) error { return r.shape(2, 1) },
	"sm":                                func(r *row, _ int) error { return r.pass() },
	"bind off {n}":                      (*row).bindOff,
	"cast on {n} (underarm)":            (*row).underarm,
	"place {n} on hold for a sleeve":    (*row).hold,
}

// knit works knit stitches, which a wrong-side row of stockinette has none of.
func (r *row) knit(n int) error {
	if r.wrong && !r.rib {
		return fmt.Errorf("knit stitches in a wrong-side row")
	}
	return even(r, n)
}

func (r *row) purl(n int) error {
	if !r.wrong && !r.rib {
		return fmt.Errorf("purl stitches in a right-side row")
	}
	return even(r, n)
}

func (r *row) knitTo(n int) error {
	at, err := r.marker()
	if err != nil {
		return err
	}
	return r.knit(at - n - r.used)
}

// between makes a stitch between two: not before the first or after the last of
// turned rows.
func (r *row) between() error {
	if r.flat && (r.used < 1 || r.used > r.have-1) {
		return fmt.Errorf("an edge stitch is shaped")
	}
	return r.take(0, 1)
}

// hold leaves stitches for a sleeve.
func (r *row) hold(n int) error {
	r.w.held = append(r.w.held, n)
	return r.take(n, 0)
}

// underarm makes stitches at an underarm, with a marker in the middle.
func (r *row) underarm(n int) error {
	r.w.Underarms = append(r.w.Underarms, n)
	r.w.placed = append(r.w.placed, r.made+n/2)
	r.made += n
	return nil
}

// gap chains over stitches that are skipped next, for a buttonhole.
func (r *row) gap(n int) error {
	r.open = n
	r.made += n
	return nil
}

func (r *row) over(n int) error {
	if n != r.open {
		return fmt.Errorf("a chain of %d over %d stitches", r.open, n)
	}
	return r.hole(n, 0)
}

func (r *row) bindOff(n int) error { return r.hole(n, n) }

// hole is a buttonhole: all are of one size, with stitches between them.
func (r *row) hole(n, made int) error {
	if r.w.holes > 0 && (n != r.w.holeSize || r.used == r.holeEnd) {
		return fmt.Errorf("a buttonhole of %d after one of %d", n, r.w.holeSize)
	}
	r.w.holes, r.w.holeSize = r.w.holes+1, n
	r.holeEnd = r.used + n
	return r.take(n, made)
}
