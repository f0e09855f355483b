package list

import (
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestPlainNumberIsTheNumber(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 20_000 {
		text := strconv.FormatFloat(1000*r.Float64(), 'f', r.IntN(7), 64)
		want, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		if got, ok := plainNumber([]byte(text)); ok {
			require.Equal(t, want, got, text)
		} else {
			require.Equal(t, "1000", text[:4])
		}
	}
	for _, text := range []string{"", ".", "1.", ".5", "1..2", "1,5", "-1", "+1", "1e3", " 1", "1000", "1.0000001", "NaN", "½"} {
		_, ok := plainNumber([]byte(text))
		require.False(t, ok, text)
	}
}
