package sizing_test

import (
	"fmt"
	"math"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/sizing"
)

func place(t testing.TB, chart, size string, sex sizing.Sex) sizing.Place {
	c, err := reference(t).Chart(chart)
	require.NoError(t, err)
	p, err := c.Place(size, sex)
	require.NoError(t, err, "%s %s", chart, size)
	return p
}

func value(t testing.TB, p sizing.Place, measurement string) float64 {
	r, err := reference(t).Read(p, measurement, sizing.Monotone)
	require.NoError(t, err)
	return r.Value
}

// CDC 2000 growth charts (Vital and Health Statistics 11/246, 2002): the median
// heights at odd ages, boys and girls averaged, against what the default chart
// reads between its even labels. The curve bends most at three, where growth
// slows, and at eleven, where girls' quickens.
func TestHeightsAtOddAges(t *testing.T) {
	for _, c := range []struct {
		age         int
		boys, girls float64 // cm, published
		withinMm    float64
	}{
		{3, 95.27, 94.21, 7}, {5, 109.18, 107.96, 2}, {7, 122.03, 121.76, 2}, {9, 133.73, 133.13, 2},
		{11, 143.73, 144.26, 4}, {13, 156.41, 157.34, 2}, {15, 170.14, 161.90, 2},
	} {
		want := (c.boys + c.girls) / 2
		got := value(t, place(t, "child", fmt.Sprint(c.age), sizing.Both), "height")
		t.Logf("age %d: published %.2f, read between labels %.2f: %+.1f mm", c.age, want, got, (got-want)*10)
		require.InDelta(t, want*10, got*10, c.withinMm, "age %d", c.age)
		require.InDelta(t, want, value(t, place(t, "stature", fmt.Sprint(c.age), sizing.Boy), "height")/2+
			value(t, place(t, "stature", fmt.Sprint(c.age), sizing.Girl), "height")/2, 1e-9)
	}
}

// The trade's rule that a size between two is near the mean of its neighbours
// (common practice, no source), for the trade standard's own measurements.
func TestOddSizesNearTheMeanOfTheirNeighbours(t *testing.T) {
	upper := []string{"cross_back", "chest", "waist", "hip", "upper_arm", "back_waist_length", "armhole_depth", "neck_to_wrist", "arm_to_underarm"}
	for size := 3; size < 16; size += 2 {
		for _, m := range upper {
			below := value(t, place(t, "craft", fmt.Sprint(size-1), sizing.Both), m)
			above := value(t, place(t, "craft", fmt.Sprint(size+1), sizing.Both), m)
			got := value(t, place(t, "child", fmt.Sprint(size), sizing.Both), m)
			require.InDelta(t, (below+above)/2, got, max(0.2, 0.15*(above-below)), "%s at %d", m, size)
		}
	}
}

// Every size of the charts of children, against the 1st to 99th percentile of
// measurement ÷ height in the survey (UM-HSRI-77-17, 1977, table ratios.csv).
// What falls outside is listed with its reason, and must still fall outside.
func TestSizesInsideTheSurvey(t *testing.T) {
	ref := reference(t)
	// The trade standard's girths at the small end carry some room: its own
	// authors' chart, not a slip. See the note of the chart.
	exceptions := map[string]string{
		"child 2 chest": roomy, "child 2 waist": roomy, "child 2 hip": roomy, "child 2 upper_arm": roomy,
		"child 2 neck":  "that of children with the size's roomy chest",
		"child 4 chest": roomy, "child 4 hip": roomy, "child 4 upper_arm": roomy,
	}
	fired := make(map[string]bool)
	checked := 0
	tables := ratios(t)
	for _, chart := range []string{"child", "measured"} {
		c, err := ref.Chart(chart)
		require.NoError(t, err)
		for _, scale := range []sizing.Scale{sizing.Years, sizing.Height} {
			run, ok := c.Run(scale, sizing.Both)
			if !ok {
				continue
			}
			for _, m := range run.Sizes {
				height := run.Value("height", m.Position)
				for _, r := range tables {
					v := run.Value(r.measurement, m.Position)
					if math.IsNaN(v) || height < r.low || height >= r.high {
						continue
					}
					checked++
					key := fmt.Sprintf("%s %s %s", chart, m.Size, r.measurement)
					if ratio := v / height; ratio < r.p1 || ratio > r.p99 {
						if exceptions[key] == "" {
							t.Errorf("%s: %.4g at height %.4g is %.4f of it, outside %.4f to %.4f", key, v, height, ratio, r.p1, r.p99)
						}
						fired[key] = true
					}
				}
			}
		}
	}
	require.Greater(t, checked, 400)
	for key, reason := range exceptions {
		if !fired[key] {
			t.Errorf("%s no longer falls outside: take it off the list (%s)", key, reason)
		}
	}
}

const roomy = "the trade standard's girths are 2 to 7 cm above the survey's medians at this age"

type ratioRow struct {
	measurement        string
	low, high, p1, p99 float64
}

func ratios(t *testing.T) []ratioRow {
	var out []ratioRow
	for _, r := range tables(t).Ratios {
		if r.Sex == "both" {
			out = append(out, ratioRow{r.Measurement, r.LowCm, r.HighCm, r.P1, r.P99})
		}
	}
	require.NotEmpty(t, out)
	return out
}

// The hand girths of the trade standard (Craft Yarn Council, Standards &
// Guidelines, February 2018, hand chart: 5, 6 and 6.5 in at 2–4, 4–6 and 6–8
// years) against ours, which are worked out from the survey's hand breadths.
func TestHandsAgainstTheTradeStandard(t *testing.T) {
	for _, c := range []struct {
		age       string
		in, below float64 // cm by which ours may be less
	}{{"3", 5, 0.6}, {"5", 6, 1.8}, {"7", 6.5, 1.9}} {
		got := value(t, place(t, "child", c.age, sizing.Both), "hand")
		require.LessOrEqual(t, got, c.in*2.54+0.5, "age %s", c.age)
		require.GreaterOrEqual(t, got, c.in*2.54-c.below, "age %s", c.age)
	}
}

// NHANES 2015–2016 (CDC/NCHS, examination-weighted means): children today are
// heavier for their height than in 1977, and the estimate, told the weight,
// must follow. Mean height, weight, waist (at the hip bone, lower than the
// natural waist) and mid-arm girth, in cm and kg.
func TestEstimateFollowsTodaysChildren(t *testing.T) {
	for _, c := range nhanesMeans {
		own := map[string]float64{"height": c.height, "weight": c.weight}
		b, err := reference(t).Estimate(sizing.Child{Sex: c.sex, Own: own})
		require.NoError(t, err)
		arm, _ := b.Get("upper_arm")
		waist, _ := b.Get("waist_navel")
		t.Logf("%s %d: arm %.1f, NHANES %.1f; waist %.1f, NHANES %.1f", c.sex, c.age, arm.Value, c.arm, waist.Value, c.waist)
		require.InEpsilon(t, c.arm, arm.Value, 0.06, "%s %d upper arm", c.sex, c.age)
		require.InEpsilon(t, c.waist, waist.Value, 0.07, "%s %d waist", c.sex, c.age)
	}
}

// What a season of growth room adds is what the survey's medians grow by in
// half a year: 3 cm of height (CDC 2000 medians: 2.6 to 3.6 cm from 4 to 10).
func TestGrowthRoomIsWhatChildrenGrow(t *testing.T) {
	for age := 4; age < 10; age++ {
		a := value(t, place(t, "child", fmt.Sprint(age), sizing.Both), "height")
		b := value(t, place(t, "child", fmt.Sprintf("%g", float64(age)+0.5), sizing.Both), "height")
		require.InDelta(t, 3, b-a, 0.6, "at %d", age)
	}
	slope := func(m string) float64 {
		run := place(t, "measured", "104", sizing.Both).Run
		return (run.Value(m, 140) - run.Value(m, 104)) / 36
	}
	for _, c := range []struct {
		garment, part, measurement string
		share                      float64
	}{
		{"one-piece", "inside_leg", "inside_leg", 1}, {"one-piece", "trunk", "trunk", 1}, {"one-piece", "rise", "trunk", 0.5},
		{"one-piece", "body_length", "trunk", 0.5}, {"one-piece", "sleeve_length", "arm_length", 1}, {"one-piece", "front_opening", "trunk", 1},
		{"mittens", "hand_length", "hand_length", 1}, {"socks", "foot_length", "foot_length", 1},
	} {
		i := slices.IndexFunc(tables(t).Lengths, func(l data.Length) bool {
			return l.Garment == c.garment && l.Part == c.part && l.Role == "growth"
		})
		require.GreaterOrEqual(t, i, 0, "%s %s", c.garment, c.part)
		want := 3 * c.share * slope(c.measurement)
		require.InDelta(t, want, tables(t).Lengths[i].Adjustment, 0.15, "%s %s: the survey grows %.2f", c.garment, c.part, want)
	}
}

// National Health and Nutrition Examination Survey 2015–2016, examination
// files BMX_I and DEMO_I (US government work): means at one year of age.
var nhanesMeans = []struct {
	sex                        sizing.Sex
	age                        int
	height, weight, waist, arm float64
}{
	{sizing.Boy, 3, 99.3, 16.37, 50.6, 16.6}, {sizing.Boy, 5, 112.6, 21.08, 54.8, 18.0}, {sizing.Boy, 7, 125.7, 27.45, 59.7, 19.7},
	{sizing.Boy, 9, 136.6, 36.25, 67.5, 22.2}, {sizing.Boy, 11, 148.9, 46.11, 73.3, 24.6},
	{sizing.Girl, 3, 97.8, 15.47, 50.2, 16.8}, {sizing.Girl, 5, 112.2, 20.79, 55.5, 18.3}, {sizing.Girl, 7, 124.5, 27.71, 61.0, 20.4},
	{sizing.Girl, 9, 136.3, 34.17, 64.1, 21.3}, {sizing.Girl, 11, 149.7, 46.45, 72.2, 24.2},
}

func tables(t testing.TB) *data.Tables {
	loaded, err := loadOnce()
	require.NoError(t, err)
	return loaded
}

var loadOnce = sync.OnceValues(func() (*data.Tables, error) { return data.Load(data.Embedded()) })
