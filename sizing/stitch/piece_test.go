package stitch

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// square is a gauge whose stitches are as high as wide.
var square = Gauge{20, 20}

func planned(t *testing.T, target PieceTarget) Piece {
	t.Helper()
	p, err := PlanPiece(target)
	require.NoError(t, err)
	return p
}

func TestPublishedPieces(t *testing.T) {
	// Simply Crochet, October 2020, single crochet (US): 6, 12, 18, 24, 30, 36.
	circle := planned(t, PieceTarget{Gauge: square, Shape: FlatCircle, WidthCm: 6, Every: 1})
	require.Equal(t, []int{6, 12, 18, 24, 30, 36}, circle.Counts)

	// Common practice, no source: half double crochet 8, double 12 a round; in
	// knitting 8 every second round.
	for _, c := range []struct {
		g         Gauge
		every, by int
	}{{Gauge{16, 12}, 1, 8}, {Gauge{14, 7}, 1, 12}, {Gauge{20, 28}, 2, 8}, {Gauge{16, 18}, 1, 6}} {
		p := planned(t, PieceTarget{Gauge: c.g, Shape: FlatCircle, WidthCm: 20, Every: c.every})
		require.Equal(t, c.by, p.PerShaping, "%v", c.g)
	}

	// Common practice, no source: a ball of single crochet has as many straight
	// rounds at its widest as it has increase rounds.
	ball := planned(t, PieceTarget{Gauge: square, Shape: Sphere, WidthCm: 18 / math.Pi, Every: 1})
	require.Equal(t, []int{6, 12, 18, 24, 30, 36, 36, 36, 36, 36, 36, 36, 30, 24, 18, 12, 6}, ball.Counts)

	// Common practice, no source: an oval along a chain of 10 has 9 + 3 + 8 + 2 =
	// 22 stitches in its first round of single crochet, and 6 more in each next.
	oval := planned(t, PieceTarget{Gauge: square, Shape: FlatOval, WidthCm: 3, HeightCm: 7, Every: 1})
	require.Equal(t, 10, oval.Foundation)
	require.Equal(t, []int{22, 28, 34}, oval.Counts)

	// Kepler's barrel rule gives a cone a third of its cylinder and a ball two
	// thirds.
	cone := planned(t, PieceTarget{Gauge: square, Shape: Cone, WidthCm: 6, HeightCm: 9, Every: 1})
	require.InEpsilon(t, cone.HeightCm*math.Pi*cone.WidthCm*cone.WidthCm/4/3, cone.VolumeCm3, 1e-9)
	require.InEpsilon(t, ball.HeightCm*math.Pi*ball.WidthCm*ball.WidthCm/4*2/3, ball.VolumeCm3, 1e-9)
}

// TestPiecesHoldTheirShape lays each piece out: no round more than doubles, and
// what its rounds measure is the shape that was asked for.
func TestPiecesHoldTheirShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGauge(t)
		target := PieceTarget{Gauge: g, Shape: rapid.SampledFrom(Shapes).Draw(t, "shape"), Every: rapid.IntRange(1, 2).Draw(t, "every"),
			WidthCm: rapid.Float64Range(0.2, 40).Draw(t, "width"), HeightCm: rapid.Float64Range(0.2, 60).Draw(t, "height")}
		p, err := PlanPiece(target)
		if err != nil {
			var input *InputError
			require.ErrorAs(t, err, &input, "too small or too low for the gauge")
			return
		}
		for i, n := range p.Counts[1:] {
			require.LessOrEqual(t, n, 2*p.Counts[i])
			require.GreaterOrEqual(t, 2*n, p.Counts[i])
			require.Contains(t, []int{0, p.PerShaping, -p.PerShaping}, n-p.Counts[i])
		}
		widest := slices.Max(p.Counts)
		round, row := float64(target.Every), g.RowHeightCm()
		switch p.Shape {
		case FlatCircle:
			require.InDelta(t, target.WidthCm, g.HeightCm(p.Rounds())*2, 2*round*row+2*row)
		case FlatOval:
			require.Equal(t, 2*(p.Foundation-2)+p.PerShaping, p.Counts[0])
			if p.Foundation > 3 { // its straight stitches make up what the ends leave
				require.InDelta(t, max(target.WidthCm, target.HeightCm), p.HeightCm, g.StitchWidthCm()/2+1e-6)
			}
			require.InDelta(t, max(target.WidthCm, target.HeightCm), p.HeightCm, 2*round*row+1.5*g.StitchWidthCm())
		case Sphere:
			require.InDelta(t, math.Pi*target.WidthCm, g.WidthCm(widest), g.WidthCm(p.PerShaping))
			require.Equal(t, p.Counts[0], p.Last(), "it closes as it began")
		case Cone:
			require.InDelta(t, math.Pi*target.WidthCm, g.WidthCm(widest), max(g.WidthCm(p.PerShaping), math.Pi*target.WidthCm*0.6))
			require.Equal(t, widest, p.Last())
			require.Positive(t, p.HeightCm)
		case Tube:
			require.InDelta(t, target.HeightCm, g.HeightCm(p.Rounds()), row)
			require.Equal(t, widest, p.Last())
		}
		require.Equal(t, p.Shape == FlatCircle || p.Shape == FlatOval, p.VolumeCm3 == 0)
	})
}

func TestPieceFaults(t *testing.T) {
	for _, c := range []struct {
		target PieceTarget
		want   string
	}{
		{PieceTarget{Gauge: square, Shape: FlatCircle, WidthCm: 1, Every: 1}, "stitch: width of a circle is 1 cm: want at least 2 cm at this gauge"},
		{PieceTarget{Gauge: square, Shape: Tube, WidthCm: 6, HeightCm: 2, Every: 1}, "stitch: length of a tube is 2 cm: want more than 3 cm, in which its end is rounded"},
		{PieceTarget{Gauge: square, Shape: "cube", WidthCm: 6, HeightCm: 2, Every: 1}, "stitch: shape is cube: want circle, oval, ball, cone or tube"},
		{PieceTarget{Gauge: square, Shape: Cone, WidthCm: math.NaN(), HeightCm: 2, Every: 1}, "stitch: width of the piece is NaN cm: want more than 0 and at most 1000 cm"},
		{PieceTarget{Gauge: square, Shape: Cone, WidthCm: 5, Every: 1}, "stitch: height of the piece is 0 cm: want more than 0 and at most 1000 cm"},
	} {
		_, err := PlanPiece(c.target)
		require.EqualError(t, err, c.want)
	}
}

func TestMirror(t *testing.T) {
	// 68 stitches of a hood: the middle lies between 34 and 35.
	m, err := Mirror(68, 9, 10.5)
	require.NoError(t, err)
	require.Equal(t, Mirrored{[2]int{20, 28}, [2]int{41, 49}}, m)
	rapid.Check(t, func(t *rapid.T) {
		n, width := rapid.IntRange(2, 300).Draw(t, "row"), rapid.IntRange(1, 150).Draw(t, "width")
		if m, err := Mirror(n, width, rapid.Float64Range(0, 150).Draw(t, "from the middle")); err == nil {
			require.Equal(t, n+1, m.Left[0]+m.Right[1], "as far from one end as from the other")
			require.Equal(t, n+1, m.Left[1]+m.Right[0])
			require.Equal(t, width, m.Left[1]-m.Left[0]+1)
			require.Less(t, m.Left[1], m.Right[0])
		}
		if c, err := Centred(n, width); err == nil {
			require.Equal(t, n+1, c[0]+c[1])
			require.InDelta(t, width, c[1]-c[0]+1, 1)
		}
	})
}
