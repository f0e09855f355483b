package stitch

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// sideOn is a solid's volume, cut across into many slices of the widths that it has
// along its height.
func sideOn(height float64, width func(at float64) float64) float64 {
	const slices = 4000
	sum := 0.0
	for i := range slices {
		r := width(height*(float64(i)+0.5)/slices) / 2
		sum += math.Pi * r * r * height / slices
	}
	return sum
}

// Each shape is worked round by round from what it is to measure: a gain in every
// so-many-th round from its first, plain rounds until it is as long as its geometry says,
// and back the way it came.
func TestPiecesAreWorkedRoundByRound(t *testing.T) {
	planned := make(map[string]int)
	d := thrown(1)
	for range 1500 {
		g := d.gauge()
		w, h := g.WidthCm(1), g.HeightCm(1)
		target := PieceTarget{Gauge: g, Shape: Shapes[d.IntN(len(Shapes))], Every: d.whole(1, 3), WidthCm: d.spread(0.3, 30), HeightCm: d.spread(0.3, 40)}
		p, err := PlanPiece(target)
		if err != nil {
			continue
		}
		planned[fmt.Sprint(target.Shape, target.Every)]++
		// What lies flat: as many more stitches as the ring gets longer until the next gain.
		flat := (polygon(100*h) - polygon((100-float64(target.Every))*h)) / w
		gain := nearestTo(flat, 1, func(n int) float64 { return float64(2 * n) }) * 2
		if target.Every == 1 && math.Abs(float64(gain)-flat) > 0.1*flat {
			gain = nearestTo(flat, 3, func(n int) float64 { return float64(n) })
		}
		rounds := func(cm float64, least int) int {
			return nearestTo(cm, least, func(n int) float64 { return float64(n) * h })
		}
		var counts []int
		work := func(n int) { counts = append(counts, n) }
		rise := func(to int) { // each gain is followed by plain rounds, but for the last
			for n := gain; n < to; n += gain {
				for range target.Every {
					work(n)
				}
			}
			work(to)
		}
		width, height, volume := 0.0, 0.0, 0.0
		girth := nearestTo(polygon(target.WidthCm/2), 2, func(n int) float64 { return float64(n*gain) * w }) * gain
		switch target.Shape {
		case FlatCircle, FlatOval:
			across, straight, least := target.WidthCm, 0, 2
			if target.Shape == FlatOval {
				across, least = min(target.WidthCm, target.HeightCm), 1
				gain += gain % 2 // half of it at each end
			}
			n := rounds(across/2, 0)
			for target.Every > 1 && n > 1 && (n-1)%target.Every != 0 {
				n-- // ends with a round that gains
			}
			n = max(n, least)
			width, height = 2*float64(n)*h, 2*float64(n)*h
			if target.Shape == FlatOval {
				straight = nearestTo(max(target.WidthCm, target.HeightCm)-height, 1, func(n int) float64 { return float64(n) * w })
				height += float64(straight) * w
				require.Equal(t, straight+2, p.Foundation, "a stitch round each end")
			}
			on := 2*straight + gain
			for r := 1; r <= n; r++ {
				if r > 1 && (r-1)%target.Every == 0 {
					on += gain
				}
				work(on)
			}
		case Sphere:
			rise(girth)
			rising := len(counts)
			for range nearestTo(float64(girth)*w/2, 2*rising+1, func(n int) float64 { return float64(n) * h }) - 2*rising {
				work(girth)
			}
			for n := girth - gain; n > gain; n -= gain {
				for range target.Every {
					work(n)
				}
			}
			work(gain)
			width = float64(girth) * w / math.Pi
			height = float64(len(counts)) * h / polygon(0.5) * 2 // a half circle as long
			volume = sideOn(height, func(at float64) float64 { return 2 * width * math.Sqrt(at/height*(1-at/height)) })
		case Tube:
			rise(girth)
			for n := rounds(target.HeightCm, 1) - len(counts); n > 0; n-- {
				work(girth)
			}
			width, height = float64(girth)*w/math.Pi, float64(len(counts))*h
			volume = sideOn(height, func(at float64) float64 {
				if in := width/2 - at; in > 0 { // its rounded end is half a ball
					return 2 * math.Sqrt(width*width/4-in*in)
				}
				return width
			})
			if height < width/2 {
				volume = p.VolumeCm3
			}
		case Cone:
			checkCone(t, target, p, gain)
			continue
		}
		require.Equal(t, counts, p.Counts)
		require.Equal(t, gain, p.PerShaping)
		require.Equal(t, counts[len(counts)-1], p.Last())
		require.InDelta(t, width, p.WidthCm, 1e-6)
		require.InDelta(t, height, p.HeightCm, 1e-6)
		require.InDelta(t, volume, p.VolumeCm3, 2e-3*volume)
		sum := 0.0
		for _, n := range counts {
			sum += float64(n) * w * h
		}
		require.InDelta(t, sum, p.AreaCm2(g), 1e-6)
	}
	for _, s := range Shapes {
		for every := 1; every <= 3; every++ {
			require.Positive(t, planned[fmt.Sprint(s, every)], "%s, every %d", s, every)
		}
	}
}

// checkCone holds for a cone: its slant is the straight line from the tip to the edge of
// its base, and it gains, as few at once as will do, in rounds that are spread evenly
// and the last of which is the last that may gain.
func checkCone(t require.TestingT, target PieceTarget, p Piece, most int) {
	g, every := target.Gauge, target.Every
	base := g.Stitches(polygon(target.WidthCm / 2))
	slant := math.Sqrt(target.HeightCm*target.HeightCm + target.WidthCm*target.WidthCm/4)
	rounds := nearestTo(slant, every+1, func(n int) float64 { return g.HeightCm(n) })
	require.Len(t, p.Counts, rounds)
	var may []int // rounds after the first that may gain
	for r := 1; r < rounds; r++ {
		if r%every == 0 {
			may = append(may, r)
		}
	}
	tip := min(most, 6, nearestTo(base/3, 3, func(n int) float64 { return float64(n) }))
	start, times := 0, 0
	for k := 3; k <= max(3, most); k++ {
		start = max(tip, k)
		times = nearestTo(base, 1, func(n int) float64 { return float64(start + n*k) })
		require.LessOrEqual(t, k, p.PerShaping, "fewer at once would do")
		if times <= len(may) || k == most {
			require.Equal(t, k, p.PerShaping)
			break
		}
	}
	times = min(times, len(may))
	require.Equal(t, start, p.Counts[0])
	require.Equal(t, start+times*p.PerShaping, p.Last())
	var at []int // of the rounds that may gain, those that do
	for r := 1; r < rounds; r++ {
		if p.Counts[r] > p.Counts[r-1] {
			require.Zero(t, r%every, "round %d", r)
			at = append(at, r/every)
		}
	}
	require.Len(t, at, times)
	gaps := gapsOf(at)
	require.LessOrEqual(t, slices.Max(gaps)-slices.Min(gaps), 1)
	require.Equal(t, len(may), at[times-1])
	width := g.WidthCm(p.Last()) / math.Pi
	require.InDelta(t, width, p.WidthCm, 1e-9)
	require.InDelta(t, g.HeightCm(rounds), math.Hypot(p.HeightCm, width/2), 1e-6)
	require.InEpsilon(t, sideOn(p.HeightCm, func(at float64) float64 { return width * at / p.HeightCm }), p.VolumeCm3, 1e-3)
}

// What is refused as too small is taken where it measures what the message asks for, and
// refused again a tenth of a centimetre under it.
func TestPiecesSayWhatIsEnough(t *testing.T) {
	for _, g := range []Gauge{{8, 9}, {14, 7}, {16, 18}, {22, 30}, {32, 44}} {
		for _, shape := range Shapes {
			for every := 1; every <= 3; every++ {
				try := func(width, height float64) (want float64, refused bool) {
					_, err := PlanPiece(PieceTarget{Gauge: g, Shape: shape, WidthCm: width, HeightCm: height, Every: every})
					if in, ok := err.(*InputError); ok {
						_, scanned := fmt.Sscanf(in.Want, "at least %g cm at this gauge", &want)
						return want, scanned == nil
					}
					return 0, false
				}
				least, refused := try(0.1, 60)
				require.True(t, refused, "%v %s", g, shape)
				_, refused = try(least, 60)
				require.False(t, refused, "%v %s", g, shape)
				_, refused = try(least-0.1-1e-6, 60)
				require.True(t, refused, "%v %s", g, shape)
				if shape == Cone {
					least, refused = try(60, 0.01)
					require.True(t, refused, "%v", g)
					require.InDelta(t, g.HeightCm(2), least, 0.1)
					_, refused = try(60, least)
					require.False(t, refused)
				}
			}
		}
	}
	// Two rounds make a circle, one round an oval, half of three quarters of two gains a ball or a tube.
	for shape, cm := range map[Shape]float64{FlatCircle: 4, FlatOval: 2, Sphere: 0.75 * 12 / math.Pi, Tube: 0.75 * 12 / math.Pi} {
		target := PieceTarget{Gauge: Gauge{10, 10}, Shape: shape, WidthCm: cm + 1e-7, HeightCm: 30, Every: 1}
		_, err := PlanPiece(target)
		require.NoError(t, err, shape)
		target.WidthCm = cm - 1e-7
		_, err = PlanPiece(target)
		require.Error(t, err, shape)
	}
	for width, ok := range map[float64]bool{4.01 / math.Pi: true, 3.99 / math.Pi: false} { // a cone goes from three stitches to four at least
		_, err := PlanPiece(PieceTarget{Gauge: Gauge{10, 10}, Shape: Cone, WidthCm: width, HeightCm: 30, Every: 1})
		require.Equal(t, ok, err == nil, "%v", err)
	}
	// A tube's end rises in n rounds, and at least one is straight.
	target := PieceTarget{Gauge: square, Shape: Tube, WidthCm: 18 / math.Pi, HeightCm: 3.5, Every: 1}
	p, err := PlanPiece(target)
	require.NoError(t, err)
	require.Equal(t, []int{6, 12, 18, 24, 30, 36, 36}, p.Counts)
	target.HeightCm = 3
	_, err = PlanPiece(target)
	require.ErrorContains(t, err, "more than 3 cm")
	// Lower than it is wide is a circle: the fabric cannot reach the edge of the base.
	flat := 0
	for width := 10.0; width < 60; width += 0.5 {
		if _, err = PlanPiece(PieceTarget{Gauge: Gauge{20, 22.4}, Shape: Cone, WidthCm: width, HeightCm: 0.9, Every: 1}); err != nil {
			require.ErrorContains(t, err, "it lies flat; work a circle")
			flat++
		}
	}
	require.Positive(t, flat)
}

// Pairs and single pieces on a row, found by trying every place.
func TestPlacesOnARow(t *testing.T) {
	for stitches := 2; stitches <= 41; stitches++ {
		for width := 1; width <= stitches+2; width++ {
			for _, from := range []float64{0, 0.3, 1, 2.5, 4, 7.25, 11, 25} {
				// The middle of a piece from stitch a on lies a − 1 + width ÷ 2 from the row's start.
				best := 0
				for a := -40; a <= 40; a++ {
					off := func(a int) float64 { return math.Abs(float64(stitches)/2 - (float64(a-1) + float64(width)/2) - from) }
					if a == -40 || off(a) <= off(best)+1e-9 {
						best = a
					}
				}
				m, err := Mirror(stitches, width, from)
				if best < 1 || best+width-1 > stitches/2 {
					require.Error(t, err, "%d of %d, %g from the middle", width, stitches, from)
					continue
				}
				require.NoError(t, err, "%d of %d, %g from the middle", width, stitches, from)
				require.Equal(t, [2]int{best, best + width - 1}, m.Left)
				require.Equal(t, [2]int{stitches + 1 - m.Left[1], stitches + 1 - m.Left[0]}, m.Right)
			}
			at := [2]int{}
			for a := 1; a <= stitches; a++ {
				for b := a; b <= stitches; b++ { // as much before as after it
					if n := b - a + 1; a-1 == stitches-b && n <= width && n > at[1]-at[0]+1 || a-1 == stitches-b && n <= width && at[0] == 0 {
						at = [2]int{a, b}
					}
				}
			}
			c, err := Centred(stitches, width)
			if width > stitches+1 || at[0] == 0 {
				require.Error(t, err, "%d of %d", width, stitches)
				continue
			}
			require.NoError(t, err, "%d of %d", width, stitches)
			require.Equal(t, at, c, "%d of %d", width, stitches)
		}
	}
	for _, c := range [][2]int{{1, 1}, {10, 0}, {20001, 2}} {
		_, err := Mirror(c[0], c[1], 1)
		require.Error(t, err, c)
		_, err = Centred(c[0], c[1])
		require.Error(t, err, c)
	}
	_, err := Centred(20, 24)
	require.EqualError(t, err, "stitch: place of a piece is 24 stitches: want at most the 20 of the row")
	_, err = Mirror(20, 12, 5)
	require.EqualError(t, err, "stitch: place of a pair is 12 stitches each in a row of 20: want at most 9 each")
}
