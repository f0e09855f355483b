package tell

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
)

func TestAcrossRow(t *testing.T) {
	for _, tt := range []struct {
		stitches, change int
		rounds           bool
		want             string
	}{
		{48, 6, true, "(work 7, 2 in the next stitch) 6 times"},
		{64, -8, true, "(work 6, work 2 together) 8 times"},
		{48, 6, false, "work 4, 2 in the next stitch, (work 7, 2 in the next stitch) 5 times, work 3"},
		{50, 4, true, "(work 11, 2 in the next stitch, work 12, 2 in the next stitch) 2 times"},
		{10, 3, true, "(work 2, 2 in the next stitch) 2 times, work 3, 2 in the next stitch"},
		{6, 6, true, "(2 in the next stitch) 6 times"},
		{12, -6, true, "(work 2 together) 6 times"},
		{12, 0, true, "work 12"},
		{9, 1, true, "work 8, 2 in the next stitch"},
	} {
		a, err := stitch.ShapeAcross(tt.stitches, tt.change, tt.rounds)
		require.NoError(t, err)
		require.Equal(t, tt.want, acrossRow(a))
	}
}

var tokens = regexp.MustCompile(`[(\[]|[)\]] \d+ times|2 in the next stitch|work 2 together|work \d+`)

// work does what the words say: stitches used of the old row and made of the
// new one, and where each shaping ended.
func work(t require.TestingT, words string) (used, made int, at []int) {
	require.Empty(t, strings.Trim(tokens.ReplaceAllString(words, ""), ", "), "words not understood in %q", words)
	// blocks holds the words of every bracket that is open, the whole first.
	blocks := [][]string{nil}
	for _, w := range tokens.FindAllString(words, -1) {
		last := len(blocks) - 1
		switch w[0] {
		case '(', '[':
			blocks = append(blocks, nil)
		case ')', ']':
			n, err := strconv.Atoi(strings.Fields(w)[1])
			require.NoError(t, err)
			for range n {
				blocks[last-1] = append(blocks[last-1], blocks[last]...)
			}
			blocks = blocks[:last]
		default:
			blocks[last] = append(blocks[last], w)
		}
	}
	require.Len(t, blocks, 1, "brackets of %q", words)
	for _, w := range blocks[0] {
		switch w {
		case "2 in the next stitch":
			used, made, at = used+1, made+2, append(at, used+1)
		case "work 2 together":
			used, made, at = used+2, made+1, append(at, used+2)
		default:
			n, err := strconv.Atoi(strings.TrimPrefix(w, "work "))
			require.NoError(t, err)
			used, made = used+n, made+n
		}
	}
	return used, made, at
}

func TestAcrossRowsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stitches := rapid.IntRange(1, 200).Draw(t, "stitches")
		change := rapid.IntRange(-stitches/2, stitches).Draw(t, "change")
		rounds := rapid.Bool().Draw(t, "rounds")
		a, err := stitch.ShapeAcross(stitches, change, rounds)
		if err != nil && !rounds {
			return // no plain stitch is left at an edge
		}
		require.NoError(t, err)
		if len(a.Gaps) > 0 && rapid.Bool().Draw(t, "staggered") {
			a.Trail = (a.Gaps[0] - 1) / 2
			if change < 0 {
				a.Trail = (a.Gaps[0] - 2) / 2
			}
		}
		words := acrossRow(a)
		used, made, at := work(t, words)
		require.Equal(t, stitches, used, words)
		require.Equal(t, stitches+change, made, words)
		pos := -a.Trail
		for i, g := range a.Gaps {
			pos += g
			require.Equal(t, pos, at[i], words)
		}
		require.Len(t, at, len(a.Gaps))
	})
}

func TestPickUpRow(t *testing.T) {
	fabric := stitch.Gauge{StitchesPer10Cm: 20, RowsPer10Cm: 30}
	for _, tt := range []struct {
		band float64
		want string
	}{
		{20, "pick up 2 of 3 rows; 60 stitches in all"},
		{22.5, "pick up 3 of 4 rows; 68 stitches in all"},
		{30, "pick up 1 in each row"},
		{40, "pick up 120 stitches evenly over 90 rows"},
	} {
		p, err := stitch.PlanPickUp(90, fabric, stitch.Gauge{StitchesPer10Cm: tt.band, RowsPer10Cm: 30}, stitch.Plain)
		require.NoError(t, err)
		require.Equal(t, tt.want, pickUpRow(p))
	}
	require.Equal(t, "pick up 3 of 4, 3 of 4, 4 of 5 rows; 100 stitches in all", pickUpRow(stitch.PickUp{Rows: 130, Stitches: 100, Groups: []int{4, 4, 5}}))
}

func TestButtonholeRowsReadBack(t *testing.T) {
	b, err := stitch.SpaceButtonholes(100, 3, 7, 4)
	require.NoError(t, err)
	require.Equal(t, "work 3, buttonhole of 4, (work 11, buttonhole of 4) 6 times, work 3", buttonholeRow(b))
	rapid.Check(t, func(t *rapid.T) {
		n, ends := rapid.IntRange(60, 200).Draw(t, "stitches"), rapid.IntRange(0, 5).Draw(t, "ends")
		holes, size := rapid.IntRange(2, 9).Draw(t, "holes"), rapid.IntRange(1, 4).Draw(t, "size")
		b, err := stitch.SpaceButtonholes(n, ends, holes, size)
		require.NoError(t, err)
		// A buttonhole is so many stitches passed over, and so many made again.
		words := strings.ReplaceAll(buttonholeRow(b), fmt.Sprintf("buttonhole of %d", size), strings.Repeat("2 in the next stitch, ", size-1)+"2 in the next stitch")
		used, _, at := work(t, words)
		require.Equal(t, n, used, words)
		require.Len(t, at, holes*size)
		require.Equal(t, ends+1, at[0])
		require.Equal(t, n-ends, at[len(at)-1])
	})
}

func TestZipperWords(t *testing.T) {
	g := stitch.Gauge{StitchesPer10Cm: 16, RowsPer10Cm: 18}
	for opening, want := range map[float64]string{
		36:   "set it in; do not stretch the edge to it.",
		38:   "close the 2.4 cm left by hand at the lower end, or cover them with a flap at the chin.",
		40.4: "take 8 rows out of the opening, or add 1 row for the 16 in; else close the 4.8 cm left by hand or work a plain band above or below.",
		30:   "take 12 rows out of the opening, or add 1 row for the 12 in; else close the 7.1 cm left by hand or work a plain band above or below.",
		70:   "take 16 rows out of the opening; else close the 9.0 cm left by hand or work a plain band above or below.",
	} {
		z, err := stitch.FitZipper(g, opening, []float64{9, 12, 14, 16, 24}, 0.5, 3)
		require.NoError(t, err)
		step := plan.Zipper{Zipper: z}.Step()
		require.True(t, strings.HasSuffix(Style{}.Step(step), "; "+want), Style{}.Step(step))
		step = plan.Zipper{Zipper: z, Shorten: true}.Step()
		require.True(t, strings.HasSuffix(Style{}.Step(step), " and "+want), Style{}.Step(step))
	}
}
