package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

// Worked examples of published handbooks and tutorials, each named by author or
// title where it can be told, asked of what a plan is made of. Inches are as
// printed.

func inches(x float64) float64 { return x * sizing.CmPerInch }

// perInch is a gauge printed per inch.
func perInch(stitches, rows float64) stitch.Gauge {
	return stitch.Gauge{StitchesPer10Cm: stitches / inches(1) * 10, RowsPer10Cm: rows / inches(1) * 10}
}

// sized is a finished garment with parts of given sizes.
func sized(t *testing.T, garment string, cm map[string]float64) *sizing.Finished {
	t.Helper()
	f := samples.Finish(t, samples.BodyAt(t, "8"), samples.Spec(garment))
	left := len(cm)
	for i := range f.Lines {
		if size, ok := cm[f.Lines[i].Part.Part]; ok {
			f.Lines[i].Finished = size
			f.Lines[i].Ease = nil
			left--
		}
	}
	require.Zero(t, left)
	return f
}

// The sources work a sleeve up from the cuff, a plan down from the underarm: the
// same shapings in the same rows, counted from the other end.
func TestPublishedSleeve(t *testing.T) {
	// K. TenDyke (2006/2014): 5 sts and 7 rows to the inch, cuff 7 3/4 in (38.75,
	// taken as 38), underarm 12 in, over 15 1/2 in = 108.5 rows, taken as 108: 22
	// increases are 11 rows.
	g := perInch(5, 7)
	rows, err := g.FitHeight(inches(15.5), stitch.Even, stitch.Nearest)
	require.NoError(t, err)
	require.Equal(t, 108, rows.Count)
	sc, err := slope{from: 60, target: g.Stitches(inches(7.75)), least: 2, most: 60, rows: rows.Count, inRounds: true}.taper()
	require.NoError(t, err)
	require.Equal(t, 38, sc.To())
	require.Equal(t, []stitch.Step{{Every: 9, Times: 2}, {Every: 10, Times: 9}}, sc.Steps)

	// Knitting teacher (2016, S3): 9 in (49.5, half goes up) to 13 in (72) at 5.5
	// sts and 7 rows to the inch, 13 in long, the inch at the underarm plain.
	g = perInch(5.5, 7)
	sc, err = slope{from: 72, target: g.Stitches(inches(9)), least: 2, most: 72, rows: 91, plain: 7, inRounds: true}.taper()
	require.NoError(t, err)
	require.Equal(t, 50, sc.To())
	require.Equal(t, []stitch.Step{{Every: 7, Times: 4}, {Every: 8, Times: 7}}, sc.Steps)
	require.Equal(t, 14, sc.FirstRow, "7 plain rows before the first gap")
	require.Zero(t, sc.PlainAfter())
}

// Hat crowns (C1: 39.5 cm; C2: 23 and 13.5 in), common practice, no source: as
// wide as the girth ÷ π. At this gauge 6 a round lie flat.
func TestPublishedCrown(t *testing.T) {
	how := How{Craft: Crochet, Gauge: stitch.Gauge{StitchesPer10Cm: 40, RowsPer10Cm: 40 * 2 * math.Pi / 6}}
	for _, tt := range []struct{ girth, diameter float64 }{
		{39.5, 12.57}, {inches(23), inches(7.32)}, {inches(13.5), inches(4.30)},
	} {
		p, err := Make(sized(t, "hat", map[string]float64{"brim": tt.girth, "hat_height": 20}), how)
		require.NoError(t, err)
		s, ok := p.Section("crown")
		require.True(t, ok)
		require.InDelta(t, tt.girth, how.Gauge.WidthCm(s.To()), 2*how.Gauge.StitchWidthCm())
		require.InDelta(t, tt.diameter, 2*s.HeightCm(), how.Gauge.RowHeightCm()*2.5)
		for row := 1; row < s.Rows(); row++ {
			require.Equal(t, 6*row, s.StitchesAfter(row), "6 a round; what does not divide comes in the last")
		}
	}
}

// Common practice: a torso 4 cm longer takes a zipper 4 cm longer, if it runs
// the whole front; the slit of a pullover stays as it is.
func TestPublishedZipper(t *testing.T) {
	of := func(garment string, torsoCm float64) *Plan {
		b, err := samples.Reference(t).Estimate(sizing.Child{Sex: sizing.Boy, AgeYears: 9, Own: map[string]float64{
			"height": 138, "chest": 64, "head": 54, "back_waist_length": torsoCm}})
		require.NoError(t, err)
		p, err := Make(samples.Finish(t, b, samples.Spec(garment)), stocking)
		require.NoError(t, err)
		return p
	}
	short, long := of("cardigan", 32), of("cardigan", 36)
	require.NotNil(t, short.Zipper)
	require.NotNil(t, long.Zipper)
	require.InDelta(t, short.Zipper.OpeningCm+4, long.Zipper.OpeningCm, 2*stocking.Gauge.RowHeightCm()+1e-9)

	slit := of("pullover", 32).openings
	require.NotEmpty(t, slit)
	require.Equal(t, slit, of("pullover", 36).openings)
}

// straight is a piece of rows of one width, and sloped one that goes from a
// width to another in even steps.
func straight(g stitch.Gauge, widthIn, heightIn float64) *Section {
	return sloped(g, widthIn, widthIn, heightIn)
}

func sloped(g stitch.Gauge, fromIn, toIn, heightIn float64) *Section {
	s := &Section{Copies: 1, Gauge: g}
	rows := int(math.Round(g.Rows(inches(heightIn))))
	for r := range rows {
		mid := (float64(r) + 0.5) / float64(rows)
		s.row(int(math.Round(g.Stitches(inches(fromIn + (toIn-fromIn)*mid)))))
	}
	return s
}

func TestPublishedAreas(t *testing.T) {
	in2 := inches(1) * inches(1)
	g := perInch(20, 24) // fine, so that whole stitches make little difference
	sum := func(sections ...*Section) float64 {
		cm2 := 0.0
		for _, s := range sections {
			cm2 += s.AreaCm2()
		}
		return cm2 / in2
	}

	// How to Knit a Helpful Swatch, part 4 (2020; W1, W2).
	body, sleeve := straight(g, 20, 28), sloped(g, 8, 15, 18)
	body.Copies, sleeve.Copies = 2, 2
	require.InDelta(t, 1120, sum(body), 0.1)
	require.InDelta(t, 2*207, sum(sleeve), 0.5)
	require.InDelta(t, 1534, sum(body, sleeve), 0.5)

	// Design It Yourself Sweater Project, step 6: three rectangles and three
	// pairs of triangles.
	gore, edge, neck := sloped(g, 0, 1.25, 21), sloped(g, 0, 2, 3), sloped(g, 0, 3, 2)
	gore.Copies, edge.Copies, neck.Copies = 2, 2, 2
	require.InDelta(t, 596.25, sum(straight(g, 21, 20), straight(g, 15, 8), straight(g, 9, 2), gore, edge, neck), 0.5)

	// KnitWit 60: How Much Yarn (W4): a body and two sleeves are half as much
	// again as chest 28 in × length 16 in, 672 square inches. A rule of thumb.
	for _, how := range []How{stocking, fine, singleCrochet} {
		p, err := Make(sized(t, "pullover", map[string]float64{"chest": inches(28), "body_length": inches(16)}), how)
		require.NoError(t, err)
		require.InEpsilon(t, 672, sum(p.Sections...), 0.15)
	}
}

// Buttonholes (H1, H2: common practice, no source): those of a planned front take
// up its stitches to the last, as far apart as whole stitches allow.
func TestPublishedButtonholes(t *testing.T) {
	for _, gauge := range []stitch.Gauge{singleCrochet.Gauge, stocking.Gauge, coarse.Gauge, fine.Gauge} {
		how := How{Craft: Knit, Gauge: gauge, Closure: Buttons}
		p, err := Make(samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("cardigan")), how)
		require.NoError(t, err)
		band, ok := p.Section("underlap")
		require.True(t, ok)
		found := false
		for _, step := range band.Steps {
			if step.ID != "buttons" {
				continue
			}
			found = true
			b := step.Buttonholes
			holes := len(b.Gaps) + 1
			free := band.From - holes*b.Size - 2*b.Ends
			require.Equal(t, Values{"stitches": band.From, "buttonholes": holes, "size": b.Size, "ends": b.Ends, "apart": free / (holes - 1)}, step.Values)
			for _, gap := range b.Gaps {
				free -= gap
			}
			require.Zero(t, free)
		}
		require.True(t, found)
	}

	// An edge too short for as many gets fewer.
	m := &maker{f: samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("cardigan")), p: &Plan{}, g: stitch.Gauge{StitchesPer10Cm: 20, RowsPer10Cm: 28}}
	b, err := m.buttonholes(100, 50)
	require.NoError(t, err)
	require.Len(t, b.Gaps, 8)
	b, err = m.buttonholes(12, 50)
	require.NoError(t, err)
	require.Len(t, b.Gaps, 1)
	_, err = m.buttonholes(8, 50)
	require.ErrorContains(t, err, "band is 8 stitches")
}
