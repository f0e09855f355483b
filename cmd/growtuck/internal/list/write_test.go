package list_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/list"
	"growtuck/cmd/growtuck/internal/tell"
)

// Numbers in lists are those that package tell writes.
func TestNumbersAreWrittenAsElsewhere(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	for range 20_000 {
		v := (r.Float64() - 0.2) * math.Pow(10, float64(r.IntN(5)))
		require.Equal(t, tell.Figure(v).String(), string(list.AppendNumber(nil, v)))
	}
	for _, v := range []float64{0, math.Copysign(0, -1), -0.001, 53, 53.5, 53.05, 0.005, 1e15, -7.25} {
		require.Equal(t, tell.Figure(v).String(), string(list.AppendNumber(nil, v)))
	}
}
