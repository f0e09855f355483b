package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// unmeasured returns a boy of a height with nothing else measured.
func unmeasured(height float64) child {
	c := child{sex: "m", height: height, values: make([]float64, len(variables))}
	for v := range c.values {
		c.values[v] = math.NaN()
	}
	return c
}

func TestMedianCurve(t *testing.T) {
	chest := variableIndex("chest")
	var children []child
	add := func(height, value float64, times int) {
		for range times {
			c := unmeasured(height)
			c.values[chest] = value
			children = append(children, c)
		}
	}
	add(84, 48, 9) // one too few
	add(89, 50, 6) // the lower bound belongs to class 92
	add(94.999, 54, 6)
	add(95, 60, 12) // to class 98
	add(102, 64, 10)

	c := medianCurve(children, chest)
	require.Equal(t, 91.9995, c.low)
	require.Equal(t, 102.0, c.high)
	require.InDelta(t, 52, c.at(c.low), 1e-9)
	require.InDelta(t, 60, c.at(95), 1e-9)
	require.InDelta(t, 64, c.at(102), 1e-9)
	require.True(t, math.IsNaN(c.at(91)))
	require.True(t, math.IsNaN(c.at(102.1)))
	require.True(t, math.IsNaN(c.at(math.NaN())))

	require.Nil(t, medianCurve(children[:20], chest), "a single class is no curve")
	require.True(t, math.IsNaN((*curve)(nil).at(100)))
}

func TestSpreadAt(t *testing.T) {
	spread := []float64{0.04, 0.06, 0.08, 0.07} // middles 99, 122.5, 140, 167.5
	for height, want := range map[float64]float64{
		83: 0.04, 99: 0.04, 110.75: 0.05, 122.5: 0.06, 140: 0.08, 153.75: 0.075, 167.5: 0.07, 185: 0.07,
	} {
		require.InDelta(t, want, spreadAt(spread, height), 1e-12, "height %v", height)
	}
}

func TestResidualsDropOutliers(t *testing.T) {
	chest, hip, head := variableIndex("chest"), variableIndex("hip"), variableIndex("head")
	var children []child
	for i := range 400 {
		c := unmeasured(100 + float64(i)/10)
		wobble := 1 + 0.02*float64(i%5-2)
		c.values[chest], c.values[hip], c.values[head] = 60*wobble, 62*wobble, 50*wobble
		children = append(children, c)
	}
	slip, stranger := 150, 250
	children[slip].values[chest] = 6
	children[stranger].values[chest] = 120
	children[stranger].values[hip] = 120

	res := residuals(children)
	require.True(t, math.IsNaN(res[slip][chest]))
	require.InDelta(t, math.Log(children[slip].values[hip]/62), res[slip][hip], 0.01, "the rest of the child stays")
	for _, v := range []int{chest, hip, head} {
		require.True(t, math.IsNaN(res[stranger][v]), "two outliers take the child out whole")
	}
	require.True(t, math.IsNaN(res[0][chest]), "below the first class median")
}

func TestFitRelationsRefuses(t *testing.T) {
	_, err := fitRelations("m", []child{unmeasured(100)})
	require.ErrorContains(t, err, "sex m: weight was measured on 0 children from 83 to 115 cm; want 10 or more")
}
