package stitch

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestAcrossWording(t *testing.T) {
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
		a, err := ShapeAcross(tt.stitches, tt.change, tt.rounds)
		require.NoError(t, err)
		require.Equal(t, tt.want, a.Wording())
	}
	_, err := ShapeAcross(10, -6, true)
	require.ErrorContains(t, err, "decreases across the row is -6 in 10 stitches: want at most 5, one in every two stitches: spread them over two rows")
	_, err = ShapeAcross(10, 11, true)
	require.ErrorContains(t, err, "at most 10")
	_, err = ShapeAcross(0, 1, true)
	require.Error(t, err)
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

func TestAcrossProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stitches := rapid.IntRange(1, 200).Draw(t, "stitches")
		change := rapid.IntRange(-stitches/2, stitches).Draw(t, "change")
		a, err := ShapeAcross(stitches, change, rapid.Bool().Draw(t, "rounds"))
		require.NoError(t, err)
		if rapid.Bool().Draw(t, "staggered") {
			a = a.staggered()
		}
		used, made, at := work(t, a.Wording())
		require.Equal(t, stitches, used, a.Wording())
		require.Equal(t, stitches+change, made, a.Wording())
		require.Equal(t, a.After(), made)
		require.Len(t, at, abs(change))
		if change != 0 {
			low, high := stitches, 0
			for i, pos := range at {
				gap := pos + stitches - at[len(at)-1] // from the last one round to the first
				if i > 0 {
					gap = pos - at[i-1]
				}
				low, high = min(low, gap), max(high, gap)
			}
			require.LessOrEqual(t, high-low, 1, "even to a stitch")
		}
	})
}
