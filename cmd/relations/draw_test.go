package main

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"growtuck/data"
	"growtuck/sizing"
)

func embeddedTables(t *testing.T) *data.Tables {
	t.Helper()
	tables, err := data.Load(data.Embedded())
	require.NoError(t, err)
	return tables
}

// surveyTables are the tables without what is known of children measured since:
// the engine as the survey alone has it.
func surveyTables(t *testing.T) *data.Tables {
	t.Helper()
	tables := *embeddedTables(t)
	tables.Relations = ofSurvey(tables.Relations)
	return &tables
}

// relationsIn reads the relations of one sex back from the table's rows.
func relationsIn(tables *data.Tables, sex string) *relations {
	n := len(variables)
	rel := &relations{sex: sex, spread: make([][]float64, n)}
	for range correlationBands {
		correlation := mat.NewSymDense(n, nil)
		for i := range n {
			correlation.SetSym(i, i, 1)
		}
		rel.correlation = append(rel.correlation, correlation)
	}
	for _, row := range tables.Relations {
		a, b := variableIndex(row.A), variableIndex(row.B)
		switch {
		case row.Sex != sex:
		case row.Statistic == "sd":
			rel.spread[a] = append(rel.spread[a], row.Value)
		case row.Statistic == "r":
			band := slices.IndexFunc(correlationBands, func(b band) bool { return b.low == *row.LowCm })
			rel.correlation[band].SetSym(a, b, row.Value)
		}
	}
	return rel
}

// drawChildren makes up children of one sex as the shipped tables say children
// are: normal log departures about the medians of the measured chart. What has
// no median at a child's height is not measured.
func drawChildren(t *testing.T, tables *data.Tables, sex string, n int, rng *rand.Rand) []child {
	t.Helper()
	ref, err := sizing.New(tables)
	require.NoError(t, err)
	chart, err := ref.Chart("measured")
	require.NoError(t, err)
	run, ok := chart.Run(sizing.Height, sizing.Sex(sex))
	require.True(t, ok)
	low, high, _ := run.Has("height")
	rel := relationsIn(tables, sex)
	children := make([]child, n)
	for i := range children {
		height := low + (high-low)*rng.Float64()
		c := child{sex: sex, height: height, age: 2 + 15*(height-low)/(high-low), values: make([]float64, len(variables))}
		residuals := drawFrom(t, rel.correlationAt(height), 1, rng)[0]
		for v, name := range variables {
			c.values[v] = run.Value(name.id, height) * math.Exp(residuals[v]*spreadAt(rel.spread[v], height))
		}
		children[i] = c
	}
	return children
}

// asSurvey lays children out as a survey file.
func asSurvey(children []child) string {
	var records []map[string]string
	for _, c := range children {
		record := map[string]string{"sex": c.sex}
		put := func(column string, v float64) {
			if !math.IsNaN(v) {
				record[column] = fmt.Sprintf("%.4f", v)
			}
		}
		put("age_years", c.age)
		put("stature", c.height)
		put("sitting_height", c.height-c.value("inside_leg")/insideLegShare)
		put("acromion_radiale_length", 0.6*c.value("arm_length"))
		put("radiale_stylion_length", 0.4*c.value("arm_length"))
		for v, name := range variables {
			if name.column != "" {
				put(name.column, c.values[v])
			}
		}
		records = append(records, record)
	}
	return surveyFile(records...)
}

// todayAt reads a figure of today's children at a height, as the engine is to:
// evenly between the middles of two bands.
func todayAt(tables *data.Tables, sex, id, statistic string, height float64) float64 {
	var middle, value float64
	for _, row := range tables.Relations {
		if row.Sex != sex || row.A != id || row.Statistic != statistic {
			continue
		}
		next := (*row.LowCm + *row.HighCm) / 2
		if height < next {
			if middle == 0 {
				return row.Value
			}
			return value + (row.Value-value)*(height-middle)/(next-middle)
		}
		middle, value = next, row.Value
	}
	return value
}

// drawToday makes up examined children of one sex as the tables say that today's
// are.
func drawToday(t *testing.T, tables *data.Tables, sex string, n int, rng *rand.Rand) []child {
	t.Helper()
	median, err := chartMedians(tables)
	require.NoError(t, err)
	children := make([]child, n)
	for i := range children {
		c := child{sex: sex, height: 88 + 65*rng.Float64(), age: 8, cycle: []string{"2005-2006", "2009-2010", "2015-2016"}[i%3],
			values: slices.Repeat([]float64{math.NaN()}, len(variables))}
		departure := rng.NormFloat64()
		if departure < 0 {
			departure *= todayAt(tables, sex, "weight", "low", c.height)
		} else {
			departure *= todayAt(tables, sex, "weight", "high", c.height)
		}
		c.values[variableIndex("weight")] = median(sex, "weight", c.height) * math.Exp(departure)
		for _, v := range examined[1:] {
			c.values[variableIndex(v.id)] = median(sex, v.id, c.height) * math.Exp(todayAt(tables, sex, v.id, "shift", c.height)+
				todayAt(tables, sex, v.id, "slope", c.height)*departure+todayAt(tables, sex, v.id, "rest", c.height)*rng.NormFloat64())
		}
		children[i] = c
	}
	return children
}

// asNHANES lays children out as a file of examinations.
func asNHANES(children []child) string {
	var b strings.Builder
	b.WriteString("cycle,sex,age_years,stature,weight,arm_girth,waist,calf\n")
	for _, c := range children {
		fmt.Fprintf(&b, "%s,%s,%g,%.4f", c.cycle, c.sex, c.age, c.height)
		for _, v := range examined {
			fmt.Fprintf(&b, ",%.4f", c.value(v.id))
		}
		b.WriteString("\n")
	}
	return b.String()
}

// Of children drawn as today's are, ranges hold four of five, whatever is known;
// knowing the weight they do in every third.
func TestEngineOnDrawnChildrenOfToday(t *testing.T) {
	t.Parallel()
	tables := embeddedTables(t)
	ref, err := sizing.New(tables)
	require.NoError(t, err)
	median, err := chartMedians(tables)
	require.NoError(t, err)
	for _, sex := range []string{"m", "f"} {
		scores := make(thirdScores)
		children := drawToday(t, tables, sex, 3000, rand.New(rand.NewPCG(11, 12)))
		third := thirdsOf(children, median)
		for i, c := range children {
			require.NoError(t, scores.judge(ref, now, c, third[i], judgedByThird[1].measurements))
		}
		for key, s := range scores {
			switch {
			case key.known == "height, weight":
				require.InDelta(t, 80, s.coverage(), 4, "%v", key)
				require.InDelta(t, 0, s.bias(), 0.4, "%v", key)
			case key.third == everyThird:
				require.InDelta(t, 80, s.coverage(), 4, "%v", key)
			case key.third == "heavy":
				require.Greater(t, s.bias(), 8.0, "without a weight no estimate is of heavy children")
			}
		}
	}
}

// What the engine makes of children drawn from its own tables must be what
// theory says: errors as large as the spread left by what is known, and four
// values in five inside the range.
func TestEngineOnDrawnChildren(t *testing.T) {
	t.Parallel()
	tables := surveyTables(t)
	ref, err := sizing.New(tables)
	require.NoError(t, err)
	for _, sex := range []string{"m", "f"} {
		children := drawChildren(t, tables, sex, 4000, rand.New(rand.NewPCG(5, 6)))
		rel := relationsIn(tables, sex)
		for _, own := range [][]string{{}, {"chest"}, {"weight"}, {"chest", "arm_length"}} {
			k := knowledge{own: append([]string{"height"}, own...)}
			t.Run(fmt.Sprint(sex, k.own), func(t *testing.T) {
				scores := make([]score, len(variables))
				theory := make([]float64, len(variables))
				for _, c := range children {
					known, ok := k.of(c)
					if !ok {
						continue
					}
					body, err := ref.Estimate(known)
					require.NoError(t, err)
					left := leftOver(t, rel.correlationAt(c.height), own)
					for v, name := range variables {
						if math.IsNaN(c.values[v]) || slices.Contains(own, name.id) {
							continue
						}
						r, ok := body.Get(name.id)
						require.True(t, ok, name.id)
						scores[v].add(scoreOf(c.values[v], r))
						sd := spreadAt(rel.spread[v], c.height)
						theory[v] += left[v] * sd * sd
					}
				}
				for v, name := range variables {
					if slices.Contains(own, name.id) {
						continue
					}
					s := scores[v]
					require.Greater(t, s.n, 3000, name.id)
					require.Equal(t, s.n, s.ranged, name.id)
					require.InDelta(t, 80, s.coverage(), 3, name.id)
					require.InEpsilon(t, 100*math.Sqrt(theory[v]/float64(s.n)), s.percent(), 0.04, name.id)
				}
			})
		}
	}
}

// Without a height the engine holds all heights of the survey for as likely, and
// so the drawn heights are. Of one tape or two, too, the ranges must hold four
// values in five, the height's among them.
func TestEngineOnDrawnChildrenWithoutHeight(t *testing.T) {
	t.Parallel()
	tables := surveyTables(t)
	ref, err := sizing.New(tables)
	require.NoError(t, err)
	for _, sex := range []string{"m", "f"} {
		children := drawChildren(t, tables, sex, 800, rand.New(rand.NewPCG(9, 10)))
		for _, own := range [][]string{{"chest"}, {"arm_length"}, {"chest", "suprasternale_height"}} {
			t.Run(fmt.Sprint(sex, own), func(t *testing.T) {
				scores := make(map[string]*score)
				for _, c := range children {
					known, ok := knowledge{own: own}.of(c)
					if !ok {
						continue
					}
					body, err := ref.Estimate(known)
					if err != nil {
						continue // suits a height beyond the survey
					}
					for _, id := range append([]string{"height"}, judged...) {
						r, ok := body.Get(id)
						if !ok || slices.Contains(own, id) || math.IsNaN(c.value(id)) {
							continue
						}
						if scores[id] == nil {
							scores[id] = new(score)
						}
						scores[id].add(scoreOf(c.value(id), r))
					}
				}
				for id, s := range scores {
					require.Greater(t, s.n, 600, id)
					require.InDelta(t, 80, s.coverage(), 5, id)
				}
			})
		}
	}
}

// leftOver returns the share of each variable's variance that the others leave.
func leftOver(t *testing.T, correlation *mat.SymDense, own []string) []float64 {
	left := slices.Repeat([]float64{1}, len(variables))
	if len(own) == 0 {
		return left
	}
	var from []int
	for _, id := range own {
		from = append(from, variableIndex(id))
	}
	var on []int
	for v := range variables {
		if !slices.Contains(from, v) {
			on = append(on, v)
		}
	}
	_, rest, err := regress(correlation, from, on)
	require.NoError(t, err)
	for i, v := range on {
		left[v] = rest.At(i, i)
	}
	return left
}

// correlationAt reads the correlations at a height, as the engine is to: evenly
// between the middles of two bands.
func (rel *relations) correlationAt(height float64) *mat.SymDense {
	below, above := correlationBands[0], correlationBands[1]
	from, to := (below.low+below.high)/2, (above.low+above.high)/2
	t := min(max((height-from)/(to-from), 0), 1)
	n := len(variables)
	r := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			r.SetSym(i, j, (1-t)*rel.correlation[0].At(i, j)+t*rel.correlation[1].At(i, j))
		}
	}
	return r
}
