package stitch

import (
	"fmt"
	"math"
	"strconv"
)

// A rhythm is how a yoke's increases are spread: the same number in each of so
// many rows, the rows at even distances.
type rhythm struct {
	rounds, perRound int
	every            int // usable rows from one increase row to the next
	longer           int // of the last ones so many have a usable row more before the next; 0: one distance throughout
	cost             float64
}

// What a rhythm costs beside errors of size, in stitches squared: a stitch or two
// are given for a yoke that is said in a sentence. Judgements.
const (
	costSecondDistance = 1    // two distances between increase rows
	costPlainEnd       = 8    // rows left over at the end, as a share of all, squared
	costSteep          = 5    // increases over what lies flat until the next increase row, as a share of it
	costRestInRounds   = 0.25 // each stitch that does not divide among the increases, up to two
	costMuchRest       = 4    // and more: one spacing is seen to be wider
	costWideEdges      = 0.05 // each stitch by which both edges of turned rows are wider than a spacing, squared
	costNarrowEdges    = 0.15 // and narrower
	costFew            = 0.3  // each increase fewer than fewIncreases: corners show
	costMany           = 0.15 // each increase more than manyIncreases: rows gather
	costEveryRow       = 0.3  // increases in every row, where rows are low
	costFarRows        = 0.5  // increase rows far from each other
	costClose          = 1    // each stitch that increases are closer than closeStitches
)

const (
	fewIncreases, manyIncreases = 6, 12
	closeStitches               = 3 // between increases
	lowRowCm, farRowsCm         = 0.8, 2.2
)

// rhythm finds the cheapest way to make the increases from the neck in the rows
// of a yoke.
func (t YokeTarget) rhythm(neck, increases, rows int) (best rhythm, ok bool) {
	if increases == 0 {
		return rhythm{}, true
	}
	slots := increaseRows(rows, t.RightSideOnly)
	for rounds := (increases + t.maxPerRound - 1) / t.maxPerRound; rounds <= min(slots, increases/t.minPerRound); rounds++ {
		if increases%rounds != 0 {
			continue
		}
		per := increases / rounds
		laid, fits := spaceIncreases(neck, per, !t.Turned)
		if !fits {
			continue
		}
		spacing := spacingCost(laid)
		for _, r := range distances(rounds, slots) {
			if t.PerRound == 0 && per > t.mostAtOnce(r.every) {
				continue
			}
			r.perRound = per
			r.cost = spacing + t.distanceCost(r, slots)
			if !ok || r.cost < best.cost-1e-9 {
				best, ok = r, true
			}
		}
	}
	return best, ok
}

// distances are the ways to share the usable rows among increase rows, the first
// of which is the first row.
func distances(rounds, slots int) []rhythm {
	even := rhythm{rounds: rounds, every: slots / rounds}
	all := []rhythm{even}
	if even.longer = slots % rounds; even.longer > 1 {
		all = append(all, even)
	}
	if rounds > 1 {
		if wide := (slots - 1) / (rounds - 1); wide > even.every {
			all = append(all, rhythm{rounds: rounds, every: wide})
		}
	}
	return all
}

// mostAtOnce is the most increases of a row that has so many usable rows until the
// next.
func (t YokeTarget) mostAtOnce(every int) int {
	return max(8, int(math.Ceil(t.IncreaseMost*flatIncreases(t.Gauge)*float64(every*t.pace()))))
}

// pace is the number of rows from one usable row to the next.
func (t YokeTarget) pace() int {
	if t.RightSideOnly {
		return 2
	}
	return 1
}

func spacingCost(r Repeat) float64 {
	var cost float64
	switch rest := float64(r.unevenness()); {
	case r.InRounds && rest > 2:
		cost = costMuchRest + rest
	case r.InRounds:
		cost = costRestInRounds * rest
	case rest < 0:
		cost = costNarrowEdges * rest * rest
	default:
		cost = costWideEdges * rest * rest
	}
	cost += costClose * float64(max(0, closeStitches-r.Between))
	switch {
	case r.Change < fewIncreases:
		cost += costFew * float64(fewIncreases-r.Change)
	case r.Change > manyIncreases:
		cost += costMany * float64(r.Change-manyIncreases)
	}
	return cost
}

func (t YokeTarget) distanceCost(r rhythm, slots int) float64 {
	rows := r.every * t.pace()
	cost := 0.0
	if r.longer > 0 {
		cost = costSecondDistance
	} else {
		left := slots - r.rounds*r.every
		share := float64(left) / float64(slots)
		cost = costPlainEnd * share * share
	}
	if over := float64(r.perRound)/(flatIncreases(t.Gauge)*float64(rows)) - 1 - lieSlack; over > 0 {
		cost += costSteep * over
	}
	switch h := t.Gauge.RowHeightCm(); {
	case rows == 1 && h < lowRowCm:
		cost += costEveryRow
	case rows > 1 && float64(rows)*h > farRowsCm:
		cost += costFarRows
	}
	return cost
}

// lieSlack is how far increases may be over flat and lie.
const lieSlack = 0.1

// phases are the increase rows of a rhythm: one repeat, or two where the distance
// changes.
func (t YokeTarget) phases(neck int, r rhythm) []Repeat {
	if r.rounds == 0 {
		return nil
	}
	first, _ := spaceIncreases(neck, r.perRound, !t.Turned)
	pace := t.pace()
	first.Row, first.Every, first.Times = 1, r.every*pace, r.rounds-r.longer
	if r.longer == 0 {
		return []Repeat{first}
	}
	return []Repeat{first, first.rest(first.Times, first.RowOf(first.Times), (r.every+1)*pace, r.longer)}
}

// A YokeRest is a yoke that is begun: increases to make from a row on.
type YokeRest struct {
	Gauge                 Gauge
	From, Increases       int // stitches on the work, and to gain
	Row, Rows             int // rows worked, and of the whole yoke
	Turned, RightSideOnly bool
	IncreaseMost          float64 // as of a YokeTarget
}

// Phases lays the increases that are left over the rows that are left, in as few
// rhythms as they allow. Where they do not divide, the first row takes the rest.
func (y YokeRest) Phases() ([]Repeat, error) {
	t := YokeTarget{Gauge: y.Gauge, Turned: y.Turned, RightSideOnly: y.RightSideOnly, IncreaseMost: y.IncreaseMost, minPerRound: 1, maxPerRound: maxCount}
	before := y.Row
	if y.RightSideOnly {
		before += before % 2 // the next right-side row is the first
	}
	rows := max(0, y.Rows-before)
	if y.Increases < 0 {
		return nil, &InputError{"increases", strconv.Itoa(y.Increases), "none to take away"}
	}
	phases := func(from, increases, first int) ([]Repeat, float64) {
		r, ok := t.rhythm(from, increases, rows-first)
		if !ok {
			return nil, math.Inf(1)
		}
		all := t.phases(from, r)
		for i := range all {
			all[i].Row += before + first
		}
		return all, r.cost
	}
	best, cost := phases(y.From, y.Increases, 0)
	whole := best != nil || y.Increases == 0
	for uneven := 1; !whole && uneven < y.Increases && uneven <= y.From/2; uneven++ {
		first, fits := spaceIncreases(y.From, uneven, !y.Turned)
		rest, more := phases(first.After(0), y.Increases-uneven, t.pace())
		if more += costSecondDistance + spacingCost(first); fits && more < cost {
			first.Row, first.Every, first.Times = before+1, t.pace(), 1
			best, cost = append([]Repeat{first}, rest...), more
		}
	}
	if best == nil && !whole {
		return nil, &InputError{"increases", fmt.Sprintf("%d in %d rows", y.Increases, rows), "more rows"}
	}
	return best, nil
}
