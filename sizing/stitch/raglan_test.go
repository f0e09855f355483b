package stitch

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// A raglanBegun is a raglan on the needles: each front (or the front), the back, a sleeve.
type raglanBegun struct {
	front, back, sleeve int
	opening             bool
}

func (r raglanBegun) count() int {
	if r.opening {
		return 2*r.front + r.back + 2*r.sleeve
	}
	return r.front + r.back + 2*r.sleeve
}

// work increases so many on the body's and on the sleeves' side of each of the four
// lines: the back lies between two lines, as does a sleeve and a front that is whole;
// half of an open one is at one.
func (r *raglanBegun) work(body, sleeves int) {
	for line := range 4 {
		if line < 2 {
			r.back += body
		}
		if line == 0 || line == 1 && !r.opening {
			r.front += body
		}
		if line < 2 {
			r.sleeve += sleeves
		}
	}
}

// apart tries how many plain stitches may lie between two increases on one side, six at
// most: with the two they take no more than half of what the line has of each part.
func (r raglanBegun) apart(body, sleeves int) int {
	if body < 2 && sleeves < 2 {
		return 0
	}
	frontLines := 2
	if r.opening {
		frontLines = 1
	}
	most := 1
	for n := 2; n <= 6; n++ {
		fits := true
		for _, part := range []struct{ increases, stitches, lines int }{{body, r.back, 2}, {body, r.front, frontLines}, {sleeves, r.sleeve, 2}} {
			if part.increases == 2 && 2*part.lines*(n+1) > part.stitches {
				fits = false
			}
		}
		if fits {
			most = n
		}
	}
	return most
}

// increasesOf is increase row i of so many in all, in as few rows as they need at one a
// row, but no more than may be: the last of these take two.
func increasesOf(all, may, i int) int {
	rows := min(all, may)
	n := 0
	for k := range all { // dealt to the rows in turn, what is left over from the last row back
		if k < rows && k == i || k >= rows && rows-1-(k-rows) == i {
			n++
		}
	}
	return n
}

// checkLaidRaglan works a raglan's rows, and holds them against the rows that are there.
func checkLaidRaglan(t require.TestingT, g Gauge, phases []RaglanPhase, on raglanBegun, worked, rows, body, sleeves int, rightSideOnly bool) {
	most := max(body, sleeves)
	may := usable(worked, rows, rightSideOnly)
	crowded := false
	if most > len(may) {
		crowded = rightSideOnly
		rightSideOnly, may = false, usable(worked, rows, false)
	}
	var want []int
	if most > 0 {
		ways := waysOf(min(most, len(may)), may, rightSideOnly)
		best := ways[0]
		for _, w := range ways[1:] {
			if w.price(g, 0) < best.price(g, 0)-1e-9 {
				best = w
			}
		}
		want = best.rows
		if crowded { // over all the rows
			want = nil
			n := min(most, len(may))
			gap, longer := len(may)/n, len(may)%n
			at := 0
			for i := range n {
				want = append(want, may[at])
				if at += gap; i >= n-longer {
					at++
				}
			}
		}
	}
	i := 0
	for k, p := range phases {
		require.Equal(t, on.apart(p.Body, p.Sleeves), p.Apart, "%+v", on)
		require.Equal(t, on.count(), p.From)
		require.Equal(t, p.Row, p.RowOf(0))
		for n := range p.Times {
			require.Equal(t, want[i], p.RowOf(n))
			require.Equal(t, increasesOf(body, len(may), i), p.Body)
			require.Equal(t, increasesOf(sleeves, len(may), i), p.Sleeves)
			before := on.count()
			on.work(p.Body, p.Sleeves)
			require.Equal(t, on.count(), p.After(n))
			require.Equal(t, on.count()-before, p.Gain())
			i++
		}
		require.Equal(t, on.count(), p.To())
		require.Equal(t, want[i-1], p.Last())
		if p.Times > 1 {
			require.Equal(t, p.RowOf(1)-p.RowOf(0), p.Every)
		}
		if k > 0 { // a phase ends only where something changes
			before := phases[k-1]
			alike := before.Body == p.Body && before.Sleeves == p.Sleeves
			require.False(t, alike && (before.Times == 1 || p.Row == before.Last()+before.Every))
		}
	}
	require.Len(t, want, i)
}

// A raglan that is left at any row goes on with what it has still to gain, in any
// numbers beside the lines that its rows can hold.
func TestRestOfARaglanIsWorked(t *testing.T) {
	d := thrown(4)
	laid, refused := 0, 0
	for range 2500 {
		on := raglanBegun{front: d.whole(1, 40), back: d.whole(1, 60), sleeve: d.whole(1, 40), opening: d.bool()}
		plan := RaglanPlan{Split: Split{FrontOpening: on.opening}, Neck: on.count(), NeckFront: on.front, NeckBack: on.back, NeckSleeve: on.sleeve}
		g := d.gauge()
		if d.IntN(3) > 0 { // some rows are worked
			row := d.whole(1, 3)
			for range d.whole(1, 4) {
				p := RaglanPhase{Row: row, Every: d.whole(1, 4), Times: d.whole(1, 4), Body: d.whole(0, 2), Sleeves: d.whole(0, 2), From: plan.Neck}
				if n := len(plan.Phases); n > 0 {
					p.From = plan.Phases[n-1].To()
				}
				plan.Phases = append(plan.Phases, p)
				row = p.Last() + d.whole(1, 3)
			}
		}
		rest := RaglanRest{Gauge: g, Plan: plan, Row: d.whole(0, 20), Rows: d.whole(1, 44), Body: d.whole(-1, d.whole(0, 40)), Sleeves: d.whole(-1, d.whole(0, 40)), RightSideOnly: d.bool()}
		for _, p := range plan.Phases {
			for i := range p.Times {
				if p.RowOf(i) <= rest.Row {
					on.work(p.Body, p.Sleeves)
				}
			}
		}
		phases, err := rest.Phases()
		if left := max(0, rest.Rows-rest.Row); min(rest.Body, rest.Sleeves) < 0 || max(rest.Body, rest.Sleeves) > 2*left {
			require.Error(t, err, "%+v", rest)
			refused++
			continue
		}
		require.NoError(t, err, "%+v", rest)
		checkLaidRaglan(t, g, phases, on, rest.Row, rest.Rows, rest.Body, rest.Sleeves, rest.RightSideOnly)
		laid++
	}
	require.Greater(t, laid, 500)
	require.Greater(t, refused, 100)
	_, err := RaglanRest{Gauge: square, Row: 14, Rows: 20, Body: 13, Sleeves: 4}.Phases()
	require.EqualError(t, err, "stitch: increases beside each line is 13 and 4 in 6 rows: want 0 to 12")
	_, err = RaglanRest{Gauge: square, Row: 24, Rows: 20, Body: 1, Sleeves: 4}.Phases()
	require.EqualError(t, err, "stitch: increases beside each line is 1 and 4 in -4 rows: want 0 to 0")
}

// What wrong-side rows and two on one side of a line cost, in stitches squared, is given
// by how many there are: 1.5 and 0.2 for each, 2 and 0.3 for each.
func TestCrowdedRaglansCost(t *testing.T) {
	for _, c := range []struct {
		body, sleeves, rows int
		rightSideOnly       bool
		stitches            float64
		ok                  bool
	}{
		{10, 8, 20, true, 0, true},
		{11, 8, 20, true, 1.7, true},
		{8, 11, 21, true, 0, true},
		{8, 12, 21, true, 1.7, true},
		{20, 14, 20, true, 1.5 + 0.2*10, true},
		{20, 20, 20, false, 0, true},
		{21, 20, 20, true, 2.3, true},
		{21, 20, 20, false, 2.3, true},
		{23, 22, 20, false, 2 + 5*0.3, true},
		{8, 22, 20, false, 2 + 2*0.3, true},
		{40, 40, 20, false, 2 + 40*0.3, true},
		{41, 2, 20, false, 2 + 21*0.3, false},
		{2, 41, 20, false, 2 + 21*0.3, false},
	} {
		for _, stitches := range []float64{10, 25} {
			s := &yokeSearch{t: YokeTarget{Gauge: Gauge{stitches, 28}, RightSideOnly: c.rightSideOnly, Weights: Weights{Rhythm: 3}}}
			cost, ok := s.besideCost(yokeCounts{bodyGain: c.body, sleeveGain: c.sleeves, rows: c.rows})
			require.Equal(t, c.ok, ok, "%+v", c)
			require.InDelta(t, 3*c.stitches*math.Pow(10/stitches, 2), cost, 1e-9, "%+v", c)
		}
	}
}
