package stitch

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestShapeAcrossRefuses(t *testing.T) {
	_, err := ShapeAcross(10, -6, true)
	require.ErrorContains(t, err, "decreases across the row is -6 in 10 stitches: want at most 5, one in every two stitches: spread them over two rows")
	_, err = ShapeAcross(10, 11, true)
	require.ErrorContains(t, err, "at most 10")
	_, err = ShapeAcross(0, 1, true)
	require.Error(t, err)
}

// work lays the groups of a row side by side: stitches used of the old row and
// made of the new one, and where each shaping ended.
func work(a Across) (used, made int, at []int) {
	used = -a.Trail
	for _, g := range a.Gaps {
		used += g
		at = append(at, used)
	}
	used += a.Trail
	if len(a.Gaps) == 0 {
		used = a.Stitches
	}
	made = used + len(at)
	if a.Change < 0 {
		made = used - len(at)
	}
	return used, made, at
}

func TestAcrossProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stitches := rapid.IntRange(1, 200).Draw(t, "stitches")
		change := rapid.IntRange(-stitches/2, stitches).Draw(t, "change")
		rounds := rapid.Bool().Draw(t, "rounds")
		uses := 1
		if change < 0 {
			uses = 2
		}
		a, err := ShapeAcross(stitches, change, rounds)
		if !rounds && change != 0 && stitches < abs(change)*uses+2 {
			require.Error(t, err, "no plain stitch left at an edge")
			return
		}
		require.NoError(t, err)
		used, made, at := work(a)
		require.Equal(t, stitches, used)
		require.Equal(t, stitches+change, made)
		require.Equal(t, a.After(), made)
		require.Len(t, at, abs(change))
		if change != 0 {
			require.GreaterOrEqual(t, at[0], a.uses(), "the first group has room for its shaping")
			low, high := stitches, 0
			for i, pos := range at {
				gap := pos + stitches - at[len(at)-1] // from the last one round to the first
				if i > 0 {
					gap = pos - at[i-1]
				} else if !rounds && gap <= uses+2 {
					continue // the edges keep a stitch each
				}
				low, high = min(low, gap), max(high, gap)
			}
			require.LessOrEqual(t, high-low, 1, "even to a stitch")
			if !rounds {
				require.Greater(t, at[0], uses, "the first stitch is plain")
				require.Less(t, at[len(at)-1], stitches, "the last stitch is plain")
			}
		}
	})
}
