package stitch

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// hoodGains works a hood wider: as few rows as gain no more than a share of the stitches
// that take it, or one; what is gained is dealt to them as evenly as that allows.
func hoodGains(gain, over int, most float64) (gains []int) {
	limit := func(over int) int {
		n := 1
		for float64(n+1) <= float64(over)*most+1e-9 {
			n++
		}
		return n
	}
	rows := 0
	for left, on := gain, over; left > 0; rows++ {
		by := min(limit(on), left)
		left, on = left-by, on+by
	}
	for left, on := gain, over; left > 0; rows-- {
		by := 0
		for by*rows < left { // an even share, rounded up
			by++
		}
		by = min(by, limit(on))
		gains = append(gains, by)
		left, on = left-by, on+by
	}
	return gains
}

// A hood is worked row by row from the neck up, at any gauge and of any shape.
func TestHoodIsWorkedRowByRow(t *testing.T) {
	d := thrown(5)
	shapes, refused := make(map[HoodShape]int), 0
	for range 1500 {
		g := d.gauge()
		h := HoodTarget{Gauge: g, Neck: d.whole(4, 5+int(g.Stitches(45))), RoundCm: d.between(20, 60), HeightCm: d.between(4, 40), CrownCm: d.between(0.5, 15), Shape: HoodShape(d.IntN(3)),
			RightSideOnly: d.bool(), BackShare: d.between(0.1, 1), GrowthMost: d.between(0.01, 1), IncreaseCm: d.between(0.5, 15), CrownShare: d.between(0.01, 0.9)}
		if d.bool() { // whole stitches exactly
			h.BackShare, h.GrowthMost, h.CrownShare = 0.5, []float64{0.1, 0.125, 0.25, 0.5}[d.IntN(4)], 0.25
		}
		if d.bool() {
			h.RoundLeastCm = d.between(20, 60)
		}
		width := func(n int) float64 { return g.WidthCm(n) }
		height := func(n int) float64 { return g.HeightCm(n) }
		stitches := 2 * nearestTo(h.RoundCm, 1, func(n int) float64 { return width(2 * n) })
		for stitches < h.Neck || width(stitches) < h.RoundLeastCm-1e-9 {
			stitches += 2
		}
		rows := nearestTo(h.HeightCm, 1, height)
		edge := 0
		for float64(2*edge+2) <= float64(h.Neck)*(1-h.BackShare) {
			edge++
		}
		gains := hoodGains(stitches-h.Neck, h.Neck-2*edge, h.GrowthMost)
		row, pace := 0, 2
		if !h.RightSideOnly && height(2*len(gains)) > h.IncreaseCm {
			pace = 1
		}
		last := 1
		var at []int
		for range gains { // the first row picks up, on the right side
			if row = last + pace; len(at) == 0 {
				row = 2
				if h.RightSideOnly {
					row = 3
				}
			}
			at, last = append(at, row), row
		}
		p, err := PlanHood(h)
		// Where a row would gain more than one in each stitch that takes it there is no hood.
		over, can := h.Neck-2*edge, true
		for _, by := range gains {
			can = can && by <= over-2
			over += by
		}
		panel := max(2, 2*nearestTo(float64(stitches)*h.CrownShare, 1, func(n int) float64 { return float64(2 * n) }))
		plain := nearestTo(height(rows)-width(panel)/2, -300, height) - last
		if !can || last >= rows || h.Shape == PanelHood && (plain < 1 || panel+2 > stitches) {
			require.Error(t, err, "%+v", h)
			refused++
			continue
		}
		crown := max(1, min(nearestTo(h.CrownCm, 1, height), rows-last))
		if h.RightSideOnly && crown > 1 && (rows-crown+1)%2 == 0 {
			crown-- // begins on the right side
		}
		slots := len(usable(0, crown, h.RightSideOnly))
		lose := 1 // on each side of the middle
		for float64(2*lose+2) <= float64(stitches)*h.CrownShare {
			lose++
		}
		once := 1
		for lose/once > slots {
			once++
		}
		if lose -= lose % once; h.Shape == ShapedHood && (once > 20 || 2*lose >= stitches) {
			require.Error(t, err, "%+v", h)
			continue
		}
		require.NoError(t, err, "%+v", h)
		shapes[h.Shape]++
		require.Equal(t, []int{h.Neck, stitches, rows, edge}, []int{p.Neck, p.Stitches, p.Rows, p.EdgePlain}, "%+v", h)
		require.Equal(t, Finished{stitches, width(stitches), h.RoundCm}, p.Width)
		require.Equal(t, Finished{rows, height(rows), h.HeightCm}, p.Height)
		count := h.Neck
		require.Len(t, p.Increases, len(gains), "%+v", h)
		for i, r := range p.Increases {
			require.Equal(t, []int{at[i], gains[i]}, []int{r.Row, r.Change}, "%+v", h)
			used, made, places := work(r.Across)
			require.Equal(t, []int{count, count + gains[i]}, []int{used, made})
			require.Greater(t, places[0], edge, "the edges stay plain")
			require.LessOrEqual(t, places[len(places)-1], count-edge)
			lead, trail := places[0]-1-edge, count-places[len(places)-1]-edge
			require.True(t, lead >= 1 && trail >= 1)
			count = made
		}
		require.Equal(t, stitches, count)
		switch h.Shape {
		case StraightHood:
			require.Equal(t, []int{stitches / 2, rows - last, 0}, []int{p.SeamStitches, p.PlainRows, p.Crown.Rows})
		case ShapedHood:
			require.Equal(t, crown, p.Crown.Rows, "%+v", h)
			require.Equal(t, stitches-2*lose, p.Crown.To(), "%+v", h)
			require.Equal(t, -2*once, p.Crown.Change)
			require.Equal(t, h.RightSideOnly, p.Crown.RightSideOnly)
			require.Equal(t, []int{p.Crown.To() / 2, rows - last - crown}, []int{p.SeamStitches, p.PlainRows})
		case PanelHood:
			side := (stitches - panel) / 2
			require.Equal(t, []int{panel, side, plain, nearestTo(width(side), 1, height)}, []int{p.Panel, p.Side, p.PlainRows, p.PanelRows}, "%+v", h)
		}
	}
	for s := range PanelHood + 1 {
		require.Greater(t, shapes[s], 60, s)
	}
	require.Greater(t, refused, 50)
	require.Equal(t, "HoodShape(9)", HoodShape(9).String())
	_, err := PlanHood(HoodTarget{Gauge: square, Neck: 4, RoundCm: 2, HeightCm: 20, CrownCm: 3, Shape: PanelHood, BackShare: 1, GrowthMost: 1, IncreaseCm: 3, CrownShare: 0.9})
	require.ErrorContains(t, err, "hood is 4 stitches: want enough for a panel and two sides")
}
