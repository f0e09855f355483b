package stitch

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// A spacing is increases in one row: plain stitches before the first, between two and
// after the last.
type spacing struct{ lead, between, trail int }

// spaced tries every number of stitches between increases. In rounds each has as many
// before it, and what is left is less than one for each. In turned rows both edges
// together are as near as can be to what is between, the wider where two are as near,
// and keep a stitch each.
func spaced(on, increases int, turned bool) (best spacing, ok bool) {
	plain := on - increases
	for between := 1; between <= plain; between++ {
		s := spacing{between, between, plain - between*increases}
		if turned {
			edges := plain - between*(increases-1)
			s = spacing{edges - edges/2, between, edges / 2}
			if increases == 1 {
				s.between = max(0, plain-2)
			}
		}
		if s.trail < 0 || turned && s.trail < 1 {
			break
		}
		off := func(s spacing) int { return abs(s.lead + s.trail - s.between) }
		if !ok || !turned || off(s) <= off(best) {
			best, ok = s, true
		}
	}
	return best, ok && best.between >= 1
}

// price is what a spacing costs, in stitches squared, as the judgements say it.
func (s spacing) price(increases int, turned bool) float64 {
	price := 0.0
	if wider := float64(s.lead + s.trail - s.between); !turned {
		price = []float64{0, 0.25, 0.5}[min(s.trail, 2)]
		if s.trail > 2 {
			price = 4 + float64(s.trail)
		}
	} else if wider > 0 {
		price = wider * wider / 20
	} else {
		price = wider * wider * 3 / 20
	}
	for n := s.between; n < 3; n++ {
		price++
	}
	for n := increases; n < 6; n++ {
		price += 0.3
	}
	for n := increases; n > 12; n-- {
		price += 0.15
	}
	return price
}

// A way is the rows that increase and what their distances cost.
type way struct {
	rows  []int
	apart int // rows to the next, the shorter distance where there are two
	price func(g Gauge, increases int) float64
}

// usable are the rows that may increase after some that are worked.
func usable(worked, rows int, rightSideOnly bool) []int {
	var may []int
	for r := worked + 1; r <= rows; r++ {
		if !rightSideOnly || r%2 == 1 {
			may = append(may, r)
		}
	}
	return may
}

// waysOf are the even ways to take so many of the rows that may increase, beginning with
// the first of them: at one distance that leaves each as much room as the others, the
// last one too; at that and a row more towards the end, which uses all rows; at one
// distance so wide that the last row ends it.
func waysOf(rounds int, may []int, rightSideOnly bool) []way {
	step := 1
	if rightSideOnly {
		step = 2
	}
	widest := func(fits func(e int) bool) int {
		e := 1
		for fits(e + 1) {
			e++
		}
		return e
	}
	lay := func(e, longer int) way {
		w := way{apart: e * step}
		at := 0
		for i := range rounds {
			w.rows = append(w.rows, may[at])
			if at += e; i >= rounds-longer {
				at++
			}
		}
		w.price = func(g Gauge, increases int) float64 {
			price := 1.0 // two distances
			if longer == 0 {
				after := float64(len(may)-rounds*e) / float64(len(may))
				price = 8 * after * after
			}
			lies := 1.1 * polygon(1) * g.StitchesPer10Cm / g.RowsPer10Cm * float64(w.apart)
			if steep := float64(increases) - lies; steep > 0 {
				price += 5 * steep / lies * 1.1
			}
			if cm := g.HeightCm(w.apart); w.apart == 1 && cm < 0.8 {
				price += 0.3
			} else if w.apart > 1 && cm > 2.2 {
				price += 0.5
			}
			return price
		}
		return w
	}
	even := widest(func(e int) bool { return rounds*e <= len(may) })
	ways := []way{lay(even, 0)}
	if left := len(may) - rounds*even; left > 1 {
		ways = append(ways, lay(even, left))
	}
	if rounds > 1 {
		if wide := widest(func(e int) bool { return (rounds-1)*e < len(may) }); wide > even {
			ways = append(ways, lay(wide, 0))
		}
	}
	return ways
}

// A rhythmTried is the cheapest of all rhythms.
type rhythmTried struct {
	increases int // of each row
	way       way
	spacing   spacing
	price     float64
}

// tried tries every number of increases a row, and every way to take the rows.
func tried(t YokeTarget, neck, increases int, may []int) (best rhythmTried, ok bool) {
	best.price = math.Inf(1)
	for per := increases; per >= 1; per-- {
		rounds := increases / per
		if rounds*per != increases || per < t.minPerRound || per > t.maxPerRound || rounds > len(may) {
			continue
		}
		s, fits := spaced(neck, per, t.Turned)
		if !fits {
			continue
		}
		for _, w := range waysOf(rounds, may, t.RightSideOnly) {
			most := math.Max(8, math.Ceil(t.IncreaseMost*polygon(1)*t.Gauge.StitchesPer10Cm/t.Gauge.RowsPer10Cm*float64(w.apart)-1e-6))
			if t.PerRound == 0 && float64(per) > most {
				continue
			}
			if price := s.price(per, t.Turned) + w.price(t.Gauge, per); price < best.price-1e-7 {
				best, ok = rhythmTried{per, w, s, price}, true
			}
		}
	}
	return best, ok
}

func rowsOf(phases []Repeat) (rows []int) {
	for _, p := range phases {
		for i := range p.Times {
			rows = append(rows, p.RowOf(i))
		}
	}
	return rows
}

// Of all rhythms the cheapest is found, and laid over the rows that it means.
func TestRhythmIsTheCheapest(t *testing.T) {
	d := thrown(2)
	found, none := 0, 0
	for range 3000 {
		y := customary(YokeTarget{Gauge: d.gauge(), Turned: d.bool(), RightSideOnly: d.bool(), IncreaseMost: d.between(0.5, 2), minPerRound: 4})
		if d.IntN(3) == 0 {
			y.PerRound = d.whole(1, 16)
			y.minPerRound, y.maxPerRound = y.PerRound, y.PerRound
		} else {
			y.maxPerRound = y.mostAtOnce(2)
		}
		if d.IntN(8) == 0 {
			y.Gauge.RowsPer10Cm = 12.5 // rows of 0.8 cm are not low
		}
		neck, increases, rows := d.whole(10, 130), d.whole(1, d.whole(1, 160)), d.whole(1, d.whole(1, 50))
		want, fits := tried(y, neck, increases, usable(0, rows, y.RightSideOnly))
		r, ok := y.rhythm(neck, increases, rows)
		require.Equal(t, fits, ok, "%+v %d +%d in %d", y, neck, increases, rows)
		if !ok {
			none++
			continue
		}
		found++
		require.InDelta(t, want.price, r.cost, 1e-6, "%+v %d +%d in %d", y, neck, increases, rows)
		phases := y.phases(neck, r)
		require.Equal(t, want.way.rows, rowsOf(phases))
		require.Equal(t, want.increases, phases[0].Change)
		require.Equal(t, want.way.rows[len(want.way.rows)-1], phases[len(phases)-1].Last())
		require.Equal(t, want.spacing, spacing{phases[0].Lead, phases[0].Between, phases[0].Trail})
		count := neck
		for _, p := range phases {
			require.Equal(t, count, p.From)
			for i := range p.Times {
				used, made, _ := work(p.Across(i))
				require.Equal(t, []int{count, count + want.increases}, []int{used, made})
				count = made
			}
		}
	}
	require.Greater(t, found, 500)
	require.Greater(t, none, 500)
}

// A yoke that is left at any row goes on as cheaply as what is left allows: as one begun
// there, or with one row more, the first, that takes what does not divide.
func TestRestOfAYokeIsTheCheapest(t *testing.T) {
	d := thrown(3)
	uneven, refused := 0, 0
	for range 1500 {
		rest := YokeRest{Gauge: d.gauge(), From: d.whole(8, 120), Increases: d.whole(0, 90), Row: d.whole(0, 40), Rows: d.whole(1, 45),
			Turned: d.bool(), RightSideOnly: d.bool(), IncreaseMost: d.between(0.5, 2)}
		y := YokeTarget{Gauge: rest.Gauge, Turned: rest.Turned, RightSideOnly: rest.RightSideOnly, IncreaseMost: rest.IncreaseMost, minPerRound: 1, maxPerRound: rest.Increases}
		may := usable(rest.Row, rest.Rows, rest.RightSideOnly)
		phases, err := rest.Phases()
		if rest.Increases == 0 {
			require.NoError(t, err)
			require.Empty(t, phases)
			continue
		}
		type begun struct {
			first int
			rhythmTried
		}
		best, ok := begun{}, false
		whole, fits := tried(y, rest.From, rest.Increases, may)
		best.rhythmTried, ok = whole, fits
		for first := 1; !fits && first < rest.Increases && 2*first <= rest.From && len(may) > 1; first++ {
			s, spaces := spaced(rest.From, first, rest.Turned)
			then, goesOn := tried(y, rest.From+first, rest.Increases-first, may[1:])
			if then.price += 1 + s.price(first, rest.Turned); spaces && goesOn && (!ok || then.price < best.price-1e-9) {
				best, ok = begun{first, then}, true
			}
		}
		if !ok {
			require.Error(t, err, "%+v", rest)
			refused++
			continue
		}
		require.NoError(t, err, "%+v", rest)
		rows, changes := best.way.rows, []int{best.increases}
		if best.first > 0 {
			uneven++
			rows, changes = slices.Concat(may[:1], rows), []int{best.first, best.increases}
		}
		require.Equal(t, rows, rowsOf(phases), "%+v", rest)
		count := rest.From
		for i, p := range phases {
			require.Equal(t, changes[min(i, len(changes)-1)], p.Change)
			require.Equal(t, count, p.From)
			used, made, _ := work(p.Across(p.Times - 1))
			require.Equal(t, []int{p.To() - p.Change, p.To()}, []int{used, made})
			count = p.To()
		}
		require.Equal(t, rest.From+rest.Increases, count)
		if best.first > 0 {
			s, _ := spaced(rest.From, best.first, rest.Turned)
			require.Equal(t, s, spacing{phases[0].Lead, phases[0].Between, phases[0].Trail})
			require.Equal(t, 1, phases[0].Times)
		}
	}
	require.Greater(t, uneven, 50)
	require.Greater(t, refused, 50)
	_, err := YokeRest{Gauge: square, From: 40, Increases: -1, Rows: 20, IncreaseMost: 1}.Phases()
	require.EqualError(t, err, "stitch: increases is -1: want none to take away")
	_, err = YokeRest{Gauge: square, From: 40, Increases: 8, Row: 22, Rows: 20, IncreaseMost: 1}.Phases()
	require.EqualError(t, err, "stitch: increases is 8 in 0 rows: want more rows")
	_, err = YokeRest{Gauge: square, From: 40, Increases: 800, Row: 17, Rows: 20, IncreaseMost: 1}.Phases()
	require.EqualError(t, err, "stitch: increases is 800 in 3 rows: want more rows")
}
