package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// Nothing is in doubt of a child whose weight, waist or arm one in twenty has: the
// 5th percentile at an age beside the median height, and the 95th beside one midway
// between the median and the 95th, as heavy children are taller: of NHANES 2015–2016,
// body measures (BMX_I), computed with examination weights.
func TestNothingIsDoubtedOfOneChildInTwenty(t *testing.T) {
	for _, c := range []struct {
		sex                        sizing.Sex
		years                      float64
		height, weight, waist, arm [2]float64
	}{
		{sizing.Boy, 3, [2]float64{99.3, 102.9}, [2]float64{13.5, 20.5}, [2]float64{45.7, 57.3}, [2]float64{14.5, 19.9}},
		{sizing.Boy, 6, [2]float64{118.6, 124.5}, [2]float64{17.7, 45.5}, [2]float64{49.1, 85.3}, [2]float64{15.9, 27.5}},
		{sizing.Boy, 9, [2]float64{136.7, 141.6}, [2]float64{25.4, 54.0}, [2]float64{56.0, 88.8}, [2]float64{17.7, 28.8}},
		{sizing.Boy, 12, [2]float64{155.6, 164.5}, [2]float64{33.6, 74.6}, [2]float64{58.5, 98.2}, [2]float64{19.7, 33.0}},
		{sizing.Girl, 3, [2]float64{97.2, 101.5}, [2]float64{11.7, 19.2}, [2]float64{43.1, 55.6}, [2]float64{15.1, 18.5}},
		{sizing.Girl, 6, [2]float64{120.0, 124.5}, [2]float64{16.9, 41.0}, [2]float64{48.6, 79.5}, [2]float64{16.3, 26.3}},
		{sizing.Girl, 9, [2]float64{136.2, 142.5}, [2]float64{23.5, 57.1}, [2]float64{52.9, 81.0}, [2]float64{18.0, 26.5}},
		{sizing.Girl, 12, [2]float64{153.5, 159.2}, [2]float64{32.4, 78.0}, [2]float64{58.5, 99.5}, [2]float64{19.8, 33.4}},
	} {
		for end := range 2 {
			own := map[string]float64{"height": c.height[end], "weight": c.weight[end], "waist_navel": c.waist[end], "upper_arm": c.arm[end]}
			require.Empty(t, reference(t).Doubts(sizing.Child{Sex: c.sex, AgeYears: c.years + 0.5, Own: own}), "%v %v", c, own)
			for _, id := range []string{"weight", "waist_navel", "upper_arm"} {
				one := map[string]float64{"height": c.height[end], id: own[id]}
				require.Empty(t, reference(t).Doubts(sizing.Child{Sex: c.sex, AgeYears: c.years + 0.5, Own: one}), "%v %v", c, one)
			}
		}
	}
}
