package plan

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/testdata/samples"
)

// A reckoning is one instruction of a section, to be added up by hand.
type reckoning struct {
	t    *testing.T
	plan *Plan
	in   *Section
	step Step
}

func (x reckoning) n(value string) int {
	n, ok := x.step.Values[value].(int)
	require.True(x.t, ok, "%s of section %s says no %s", x.step.Kind, x.in.ID, value)
	return n
}

func (x reckoning) is(want, got int) {
	x.t.Helper()
	require.Equal(x.t, want, got, "%s of section %s: %v", x.step.Kind, x.in.ID, x.step.Values)
}

// before is the count at which the section before ends.
func (x reckoning) before() int {
	i := slices.Index(x.plan.Sections, x.in)
	require.Positive(x.t, i)
	return x.plan.Sections[i-1].To()
}

func (x reckoning) to(section string) int {
	s, ok := x.plan.Section(section)
	require.True(x.t, ok, section)
	return s.To()
}

// changes is how often the count of stitches changes in the first rows.
func (x reckoning) changes(rows int) int {
	n := 0
	for r := 1; r <= rows; r++ {
		if x.in.StitchesAfter(r) != x.in.StitchesAfter(r-1) {
			n++
		}
	}
	return n
}

// Of most instructions the numbers say the same as the section that they are of.
func starts(x reckoning)    { x.is(x.in.From, x.n("stitches")) }
func ends(x reckoning)      { x.is(x.in.To(), x.n("stitches")) }
func allRows(x reckoning)   { x.is(x.in.Rows(), x.n("rows")) }
func wholeRib(x reckoning)  { ends(x); allRows(x) }
func castOn(x reckoning)    { x.is(x.in.From, x.n("cast_on")) }
func saysNoCount(reckoning) {}

func evenly(x reckoning, from, to int) {
	x.is(from, x.n("from"))
	x.is(to, x.n("to"))
	change := to - from
	x.is(max(change, -change), x.n("change"))
}

func evenlyFirst(x reckoning) { evenly(x, x.before(), x.in.From) }
func evenlyLast(x reckoning)  { evenly(x, x.in.StitchesAfter(x.in.Rows()-1), x.in.To()) }
func evenlyRow(x reckoning) {
	if x.in.From == x.n("to") { // in the round that joins it to the section before
		evenlyFirst(x)
		return
	}
	evenly(x, x.in.StitchesAfter(x.n("row")-1), x.in.StitchesAfter(x.n("row")))
}

// repeated is shaping worked again and again: sign is 1 where it adds stitches.
func repeated(sign int) func(reckoning) {
	return func(x reckoning) {
		by := sign * x.n("change")
		x.is(x.n("last"), x.n("row")+(x.n("times")-1)*x.n("every"))
		x.is(x.n("to"), x.n("from")+x.n("times")*by)
		x.is(x.n("first_to"), x.n("from")+by)
		x.is(x.n("from"), x.in.StitchesAfter(x.n("row")-1))
		x.is(x.n("first_to"), x.in.StitchesAfter(x.n("row")))
		x.is(x.n("to"), x.in.StitchesAfter(x.n("last")))
		x.is(x.n("to"), x.n("first_to")+(x.changes(x.n("last"))-x.changes(x.n("row")))*by)
	}
}

// spaced is a repeat whose stitches are spread over the round: those between, and one
// for each that is added, two for each that goes.
func spaced(sign, takes int) func(reckoning) {
	return func(x reckoning) {
		repeated(sign)(x)
		change := x.n("change")
		x.is(x.n("from"), x.n("lead")+(change-1)*x.n("between")+x.n("trail")+takes*change)
	}
}

// raglan adds so many stitches at either side of each of its four lines.
func raglan(x reckoning) {
	repeated(1)(x)
	x.is(x.n("change"), 4*(x.n("body")+x.n("sleeve")))
}

func neckIncrease(x reckoning, every int) {
	x.is(x.in.Rows(), x.n("rows")+x.n("then"))
	x.is(x.in.To(), x.n("to"))
	x.is(x.n("then"), every*(x.n("to")-x.in.From))
	x.is(x.in.From, x.in.StitchesAfter(x.n("rows")))
}

// underarm is what an armhole gains at both sides in its last rows.
func underarm(x reckoning, every int) {
	allRows(x)
	x.is(x.in.To(), x.n("to"))
	x.is(x.in.To()-x.in.From, 2*x.n("each_side")*x.n("last")/every)
	x.is(x.in.From, x.in.StitchesAfter(x.in.Rows()-x.n("last")))
}

// tip closes by four stitches in each row that decreases, at both sides of both halves.
func tip(x reckoning, every int) {
	wholeRib(x)
	x.is(x.in.To(), x.in.From-4*(x.n("rows")/every))
}

func hoodEdge(x reckoning) {
	starts(x)
	x.is(x.in.From, 2*x.n("each")+x.n("panel"))
	allRows(x)
}

func rowsOfIncrease(x reckoning) { x.is(x.changes(x.n("rows")), x.n("increase_rows")) }

// sums are how the numbers of each instruction add up, by the craft's meaning of it.
var sums = map[string]func(reckoning){
	"armhole-increase-every-row": func(x reckoning) { underarm(x, 1) },
	"armhole-increase-every-2nd": func(x reckoning) { underarm(x, 2) },
	"buttonholes": func(x reckoning) {
		least := 2*x.n("ends") + x.n("buttonholes")*x.n("size") + (x.n("buttonholes")-1)*x.n("apart")
		require.GreaterOrEqual(x.t, x.n("stitches"), least)
		require.Less(x.t, x.n("stitches"), least+x.n("buttonholes")-1)
	},
	"cast-on": castOn, "cast-on-brim": castOn, "cast-on-neck": castOn, "cast-on-tube": castOn, "cast-on-waist": castOn,
	"cast-on-back": func(x reckoning) { castOn(x); x.is(x.in.From, 2*x.n("shoulder")+x.n("neck")) },
	"cast-on-neck-edge": func(x reckoning) {
		x.is(x.in.From, x.n("to"))
		x.is(x.in.From, x.to("front-neck")+x.n("cast_on"))
	},
	"cast-on-neck-edges": func(x reckoning) {
		x.is(x.n("to"), x.to("front-neck")+x.n("cast_on"))
		x.is(x.n("to_other"), x.to("front-neck")+x.n("cast_on_other"))
	},
	"crown-decrease": spaced(-1, 2), "crown-increase": spaced(1, 1), "yoke-repeat": spaced(1, 1),
	"raglan-repeat": raglan, "raglan-repeat-body": raglan, "raglan-repeat-two": raglan,
	"decrease-evenly-first": evenlyFirst, "increase-evenly-first": evenlyFirst, "work-evenly-first": evenlyFirst,
	"decrease-evenly-last": evenlyLast, "increase-evenly-last": evenlyLast,
	"decrease-evenly-row": evenlyRow, "increase-evenly-row": evenlyRow,
	"increase-evenly-above-waistband": func(x reckoning) { evenly(x, x.before(), x.in.From) },
	"divide": func(x reckoning) {
		x.is(x.n("worked"), x.n("back")+x.n("front")+x.n("other_front"))
		x.is(x.n("body"), x.n("worked")+2*x.n("cast_on"))
		x.is(x.to("yoke"), x.n("worked")+2*x.n("on_hold"))
		x.is(x.in.From, x.n("body"))
	},
	"divide-legs": func(x reckoning) {
		x.is(x.before(), 2*x.n("each"))
		x.is(x.in.From, x.n("each")+x.n("bridge"))
	},
	"leg-round": func(x reckoning) {
		starts(x)
		x.is(x.in.From, x.n("body")+x.n("bridge"))
		x.is(x.n("bridge"), x.n("half")+x.n("rest"))
		require.LessOrEqual(x.t, x.n("rest")-x.n("half"), 1)
		require.GreaterOrEqual(x.t, x.n("rest"), x.n("half"))
	},
	"foot-straight": wholeRib, "work-rows": func(x reckoning) { ends(x) }, "thumb": wholeRib, "straight-on": ends,
	"straight": ends, "straight-to-crotch": ends, "skirt-straight": ends, "skirt-straight-open": ends,
	"work-each": allRows, "plain": saysNoCount, "marked": ends,
	"gather": ends,
	"heel": func(x reckoning) { // half the round, down and up again
		starts(x)
		x.is(x.in.Rows(), 4*x.n("pairs"))
		require.InDelta(x.t, x.to("leg"), 2*x.in.From, 1)
	},
	"heel-leave": func(x reckoning) { x.is(x.in.From, x.n("rows")*x.n("each")+x.n("middle")) },
	"heel-leave-uneven": func(x reckoning) {
		x.is(x.n("rows"), 2*x.n("all_pairs"))
		x.is(x.n("all_pairs"), x.n("pairs")+x.n("pairs_other"))
		x.is(x.in.From, 2*(x.n("pairs")*x.n("each")+x.n("pairs_other")*x.n("each_other"))+x.n("middle"))
	},
	"heel-take-up": func(x reckoning) { x.is(x.in.Rows(), 2*x.n("rows")); x.is(x.n("rows"), 2*x.n("pairs")) },
	"hood-edge":    hoodEdge, "hood-edge-alone": hoodEdge, "hood-edge-panel": hoodEdge, "hood-edge-panel-alone": hoodEdge,
	"hood-from-tube": func(x reckoning) { starts(x); x.is(x.in.From, x.before()) }, "hood-pick-up": starts,
	"hood-panel": func(x reckoning) {
		allRows(x)
		x.is(x.in.From, x.n("panel"))
		x.is(x.to("hood"), 2*x.n("each_side")+x.n("panel"))
	},
	"hood-rows":       rowsOfIncrease,
	"hood-seam-point": func(x reckoning) { x.is(x.in.To(), 2*x.n("half")) },
	"hood-seam":       func(x reckoning) { x.is(x.in.To(), 2*x.n("half")) },
	"join-front-back-cast-on": func(x reckoning) {
		starts(x)
		if front, ok := x.plan.Section("front"); ok { // else a slit as deep as the armholes
			x.is(x.in.From, x.to("back")+front.To()+2*x.n("cast_on"))
		}
	},
	"join-halves-cast-on": func(x reckoning) { // both sides of the neck and the middle between them
		starts(x)
		x.is(x.in.From, 2*x.to("front-neck")+x.n("cast_on"))
	},
	"join-fronts-cast-on": func(x reckoning) { starts(x); x.is(x.in.From, x.before()+x.n("cast_on")) },
	"join-fronts-back":    starts, "join-halves": starts,
	"mark-sides":              func(x reckoning) { x.is(x.in.From, 2*x.n("half")) },
	"neck-increase-every-row": func(x reckoning) { neckIncrease(x, 1) },
	"neck-increase-every-nth": func(x reckoning) { neckIncrease(x, x.n("every")) },
	"pick-up-armholes":        starts,
	"pick-up-button-band":     wholeRib,
	"pick-up-front-edges":     wholeRib,
	"pick-up-neck":            starts,
	"pick-up-shoulders":       starts,
	"pick-up-sides":           starts,
	"pick-up-thumb":           func(x reckoning) { starts(x); x.is(x.in.From, x.n("on_hold")+x.n("other_side")+x.n("corners")) },
	"raglan-lines":            func(x reckoning) { x.is(x.in.From, x.n("back")+x.n("front")+x.n("other_front")+2*x.n("sleeve")) },
	"raglan-lines-open":       func(x reckoning) { x.is(x.in.From, x.n("back")+2*x.n("front")+2*x.n("sleeve")) },
	"rib":                     starts,
	"rib-elastic":             wholeRib,
	"rib-finish":              wholeRib,
	"rib-finish-on":           wholeRib,
	"short-rows-neck": func(x reckoning) {
		x.is(x.n("start_at"), x.n("lead")+x.n("first"))
		x.is(x.n("start_at"), x.in.rows[0].worked)
		x.is(x.n("first"), x.in.rows[1].worked)
	},
	"short-rows-further":   shortRowsFurther,
	"short-rows-neck-end":  func(x reckoning) { starts(x); x.is(x.in.Rows(), x.n("row")) },
	"short-rows-neck-join": func(x reckoning) { starts(x); x.is(x.in.Rows(), x.n("row")) },
	"short-rows-seat": func(x reckoning) {
		x.is(x.n("first"), 2*x.n("half"))
		x.is(x.n("half"), x.in.rows[x.n("row")-1].worked)
		x.is(x.n("first"), x.in.rows[x.n("row")].worked)
	},
	"short-rows-seat-end": func(x reckoning) { x.is(x.in.Rows(), x.n("row")) },
	"sleeve-from-yoke": func(x reckoning) {
		starts(x)
		x.is(x.in.From, x.n("on_hold")+x.n("underarm"))
		x.is(x.n("underarm"), x.n("half")+x.n("rest"))
		require.LessOrEqual(x.t, x.n("rest")-x.n("half"), 1)
		require.GreaterOrEqual(x.t, x.n("rest"), x.n("half"))
	},
	"cast-on-strap": castOn,
	"strap-hole": func(x reckoning) { // in the middle, to a stitch
		starts(x)
		require.InDelta(x.t, x.in.From, 2*x.n("side")+x.n("size"), 1)
		require.Positive(x.t, x.n("size"))
		require.Less(x.t, x.n("hole_row"), x.in.Rows())
	},
	"strap-sew":        func(x reckoning) { x.is(x.in.Copies, x.n("buttons")) },
	"start-ring":       castOn,
	"tip":              func(x reckoning) { tip(x, 1) },
	"tip-turned":       func(x reckoning) { tip(x, 1) },
	"tip-turned-every": func(x reckoning) { tip(x, x.n("every")) },
	"tuck":             func(x reckoning) { x.is(x.in.StitchesAfter(x.n("after")), x.n("stitches")) },
	"thumb-hole": func(x reckoning) { // what is held is a half of the thumb, and as much is cast on above it
		x.is(x.n("on_hold"), x.n("cast_on"))
		thumb, ok := x.plan.Section("thumb")
		require.True(x.t, ok)
		x.is(thumb.From, x.n("on_hold")+x.n("cast_on")+2)
		share := x.plan.Finished.Practice("thumb_share").Share()
		require.InDelta(x.t, share*float64(x.in.From), thumb.From, 1+1e-9, "the thumb is as wide as its share of the hand")
	},
	"yoke-rest": func(x reckoning) {
		x.is(x.in.To(), x.n("to"))
		x.is(x.in.To(), x.in.StitchesAfter(x.in.Rows()-x.n("rows")))
	},
	"yoke-rows": func(x reckoning) { allRows(x); rowsOfIncrease(x) },

	"edge-fold-cuff": saysNoCount, "edge-hem": saysNoCount, "edge-hem-open": saysNoCount, "seam-sides": saysNoCount, "sew-buttons": saysNoCount,
	"shape-middle-back": saysNoCount, "shape-sides": saysNoCount, "shape-tube": saysNoCount, "slit-join": saysNoCount, "slit-more": saysNoCount, "slit-through": saysNoCount,
	"zipper": saysNoCount, "zipper-guard": saysNoCount, "zipper-shortened": saysNoCount,
}

// shortRowsFurther are short rows that each go so many stitches further than the one before.
func shortRowsFurther(x reckoning) {
	first := x.n("row") // each of which lies over that before it, further at one end
	x.is(x.n("last_row"), first+x.n("rows")-1)
	for r := first; r <= x.n("last_row"); r++ {
		x.is(x.in.rows[r-1].worked, x.in.rows[first-2].worked+x.n("further")*(r-first+1))
	}
	x.is(x.n("last"), x.in.rows[x.n("last_row")-1].worked)
}

// instructionsAddUp claims that each instruction adds up to the stitches and rows around
// it.
func instructionsAddUp() claim {
	seen := make(map[string]bool)
	return claim{of: func(t *testing.T, p *Plan) {
		for _, s := range p.Sections {
			for _, step := range s.Steps {
				sum, ok := sums[step.Kind]
				require.True(t, ok, "nobody has said how the numbers of %s add up", step.Kind)
				seen[step.Kind] = true
				sum(reckoning{t, p, s, step})
			}
		}
	}, all: func(t *testing.T) {
		for kind := range sums {
			require.True(t, seen[kind], "no plan has %s", kind)
		}
	}}
}

// What is counted of a garment is as wide and as high as it is to be: the nearest that
// its gauge gives.
func TestStraightTubesAreAsLong(t *testing.T) {
	for _, how := range []How{singleCrochet, doubleCrochet, stocking, coarse, fine} {
		for _, garment := range []string{"mittens", "socks"} {
			p, err := Make(samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec(garment)), how)
			require.NoError(t, err)
			for _, s := range p.Sections {
				require.Equal(t, 2, s.Copies, s.ID)
			}
			for id, sections := range map[string][]string{"hand_length": {"palm", "hand", "tip"}, "thumb_length": {"thumb"}} {
				l, ok := p.Finished.Line(id)
				if !ok {
					continue
				}
				rows := 0
				for _, section := range sections {
					s, ok := p.Section(section)
					require.True(t, ok, section)
					rows += s.Rows()
				}
				require.InDelta(t, l.Finished, how.Gauge.HeightCm(rows), how.Gauge.RowHeightCm()+1e-9, id)
			}
			if foot, ok := p.Section("foot"); ok { // the heel's rows lie along the foot once down and once up, on half the stitches
				toe, _ := p.Section("toe")
				heel, _ := p.Section("heel")
				l, _ := p.Finished.Line("foot_length")
				require.Less(t, toe.To(), toe.From)
				require.InDelta(t, l.Finished, how.Gauge.HeightCm(foot.Rows()+toe.Rows()+heel.Rows()/2), how.Gauge.HeightCm(1)+1e-9)
			}
		}
	}
}
