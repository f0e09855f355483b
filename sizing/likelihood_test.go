package sizing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// Heights are weighed by the likelihood of what was measured: that of a normal
// distribution of many dimensions, whose covariance is what weight moves and what it
// leaves. gonum's factor and determinant of the whole covariance are the other way to it.
func TestHeightsAreWeighedByTheLikelihood(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	for _, sex := range []Sex{Boy, Girl, Both} {
		b, err := ref.bases[sex.orBoth()]()
		require.NoError(t, err)
		group := &sexGroup{basis: b}
		for _, ids := range [][]string{{"chest"}, {"chest", "arm_length"}, {"chest", "hip", "inside_leg", "head"}, {"weight", "chest"}, {"weight", "hip", "arm_length"}} {
			var evidence []int
			for _, id := range ids {
				evidence = append(evidence, ref.order[id])
			}
			c := newConditional(b, evidence, nil)
			levels := c.levels(group.grid())
			require.Greater(t, len(levels), 60)
			middle := &levels[len(levels)/2]
			var logs []float64 // of a sturdy child of the middle height
			for i, m := range evidence {
				logs = append(logs, middle.at.logMedian(m)+0.02*float64(1+i))
			}
			// Up to a constant: so beside the middle.
			at := func(l *level) (cost, direct float64) {
				return c.childCost(l, logs, make([]float64, len(c.others))), minusLogLikelihood(t, c, l, logs)
			}
			cost0, direct0 := at(middle)
			for i := 5; i < len(levels); i += 9 {
				cost, direct := at(&levels[i])
				require.InDelta(t, direct-direct0, cost-cost0, 1e-7*(1+math.Abs(direct)), "%s %v at %g cm", sex, ids, levels[i].at.height)
			}
		}
	}
}

func minusLogLikelihood(t *testing.T, c *conditional, l *level, logs []float64) float64 {
	t.Helper()
	weight := math.Pow((l.at.low.at(l.at.past)+l.at.high.at(l.at.past))/2, 2) // its variance, of thin and heavy children together
	known := len(logs) - len(c.others)                                        // 1 where the weight is
	n := len(logs)
	covariance := mat.NewSymDense(n, nil)
	away := mat.NewVecDense(n, nil)
	slopes := make([]float64, n)
	if known == 1 {
		slopes[0] = 1
		away.SetVec(0, logs[0]-l.at.logMedian(c.evidence[0]))
	}
	for i, m := range c.others {
		d := c.basis.methods[m]
		require.Equal(t, 1.0, d.closeness)
		slopes[known+i] = l.at.slope(d.v)
		away.SetVec(known+i, logs[known+i]-l.usual[i])
	}
	for i := range n {
		for k := range i + 1 {
			v := slopes[i] * slopes[k] * weight
			if i >= known && k >= known {
				a, b := c.basis.methods[c.evidence[i]], c.basis.methods[c.evidence[k]]
				r, rise := l.at.correlations(c.basis.rel, a.v)
				alike := r[b.v] + l.at.share*rise[b.v]
				if i == k {
					v += l.at.rest(a.v)*l.at.rest(a.v) + a.tape*a.tape
				} else {
					v += alike * l.at.rest(a.v) * l.at.rest(b.v)
				}
			}
			covariance.SetSym(i, k, v)
		}
	}
	var chol mat.Cholesky
	require.True(t, chol.Factorize(covariance))
	var solved mat.VecDense
	require.NoError(t, chol.SolveVecTo(&solved, away))
	return mat.Dot(away, &solved)/2 + chol.LogDet()/2
}
