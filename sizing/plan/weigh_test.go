package plan

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing/stitch"
)

// What is left on the scale is set against what the same yarn did before.
func TestWeigh(t *testing.T) {
	how := stocking
	p := cardigan(t, how)
	done, all := 0.0, 0.0
	for _, s := range p.Sections {
		all += s.AreaCm2()
		if s.ID == "back-neck" || s.ID == "yoke" {
			done += s.AreaCm2()
		}
	}
	w, err := p.Weigh([]Weighing{{"yoke", 260}, {Start, 300}})
	require.NoError(t, err)
	require.Equal(t, "yoke", w.After.ID)
	require.InDelta(t, 40, w.UsedGrams, 1e-9)
	require.InDelta(t, done/all, w.Used, 1e-9)
	require.InDelta(t, 40/done*(all-done)*1.1, w.Need(), 1e-6, "10 % to spare")
	require.InDelta(t, 260-w.Need(), w.Spare(), 1e-9)
	sum, stitches := 0.0, 0
	for _, l := range w.Left {
		sum += l.Grams
		stitches += l.Section.Stitches()
	}
	require.InDelta(t, w.Need(), sum, 1e-6)
	require.Equal(t, stitches, w.Stitches)

	_, err = p.Weigh([]Weighing{{"yoke", 260}})
	require.ErrorContains(t, err, "as start=300, or give yarn and swatch")
	how.Ball, how.Swatch = stitch.Ball{Grams: 50, Metres: 125}, stitch.YarnSwatch{WidthCm: 10, HeightCm: 10, Grams: 4}
	p = cardigan(t, how)
	w, err = p.Weigh([]Weighing{{"yoke", 260}})
	require.NoError(t, err)
	require.Zero(t, w.ByUse)
	require.InDelta(t, p.Yarn.Need.Grams*(all-done)/all, w.Need(), 1e-6)

	// Between two sections, and after the last.
	w, err = p.Weigh([]Weighing{{"yoke", 260}, {"body", 200}})
	require.NoError(t, err)
	body, _ := p.Section("body")
	require.InDelta(t, body.AreaCm2()/all, w.Used, 1e-9)
	last := p.Sections[len(p.Sections)-1]
	w, err = p.Weigh([]Weighing{{Start, 300}, {last.ID, 20}})
	require.NoError(t, err)
	require.Empty(t, w.Left)
	require.Zero(t, w.Need())

	for want, weighings := range map[string][]Weighing{
		"work uses yarn up": {{"yoke", 260}, {"body", 270}}, "yoke is weighed twice": {{"yoke", 260}, {"yoke", 250}}, `unknown section "tail"`: {{"tail", 3}}, "nothing was weighed": nil,
	} {
		_, err := p.Weigh(weighings)
		require.ErrorContains(t, err, want)
	}
}
