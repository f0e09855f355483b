package main

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"growtuck/sizing"
	"growtuck/testdata/proof"
)

// A bar is the error, in %, of boys of 2 to 12 years by a log-linear fit that
// left each out in turn. Estimates are to come within a tenth of it, for girls
// too, on children the relations have not seen.
type bar struct {
	measurement, known string
	percent            float64
}

var bars = []bar{
	{"chest", "height", 5.5}, {"chest", "height, weight", 3.1},
	{"waist", "height", 8.1}, {"waist", "height, chest", 5.2}, {"waist", "height, weight", 4.1},
	{"hip", "height", 6.4}, {"hip", "height, chest", 4.1}, {"hip", "height, weight", 2.6},
	{"upper_arm", "height", 9.6}, {"upper_arm", "height, chest", 6.2}, {"upper_arm", "height, weight", 4.5},
	{"neck", "height", 4.8}, {"neck", "height, chest", 3.6}, {"neck", "height, weight", 3.6},
}

// missed names the bars that the estimates miss by more than a tenth, and by how
// much at most. On this file a log-linear fit to the children judged, itself
// leaving each out in turn, misses the bar too: 3.96.
var missed = map[string]float64{
	"f neck height, chest": 1.11,
}

func TestAccuracyOnSurvey(t *testing.T) {
	t.Parallel()
	path := surveyPath(t)
	children, err := openSurvey(path)
	require.NoError(t, err)
	today, err := openNHANES(nhanesPath(t))
	require.NoError(t, err)
	r, err := judge(children, today, embeddedTables(t), 10, 1)
	require.NoError(t, err)
	clean := append([]child(nil), children...)
	dropSlips(clean)

	for _, sex := range []string{"m", "f"} {
		for _, b := range bars {
			name := strings.Join([]string{sex, b.measurement, b.known}, " ")
			t.Run(name, func(t *testing.T) {
				s := r.scores[tally{b.known, b.measurement, sex, true}]
				require.NotNil(t, s)
				require.Greater(t, s.n, 280)
				fit := leaveOneOut(t, clean, sex, b)
				t.Logf("%d children: %.2f %%, by the log-linear fit %.2f %%, bar %.1f %%", s.n, s.percent(), fit, b.percent)
				require.LessOrEqual(t, s.percent(), 1.1*fit, "against a log-linear fit to the same children")
				allowed := 1.1
				if most, ok := missed[name]; ok {
					require.Greater(t, s.percent(), 1.1*b.percent, "the bar is met: take it out of the exceptions")
					require.Greater(t, fit, b.percent, "a direct fit reaches the bar")
					allowed = most
				}
				require.LessOrEqual(t, s.percent(), allowed*b.percent, "against the bar")
			})
		}
	}

	for _, g := range groups {
		for _, k := range knowledges {
			most := 10.0
			if k.name == "height" || k.name == "chest alone" { // the ranges are for children of today as well, whose build says less of the height
				most = 14
			}
			require.InDelta(t, 80, g.total(r.scores, k.name, "").coverage(), 6, "%s, %s", g.title, k.name)
			for _, id := range judged {
				if s := g.total(r.scores, k.name, id); s.n > 0 {
					require.InDelta(t, 80, s.coverage(), most, "%s, %s, %s", g.title, k.name, id)
				}
			}
		}
	}

	// A size chosen by chest is one body.
	for _, id := range notPublished {
		estimate := young.total(r.scores, "height, chest", id).percent()
		require.Less(t, young.total(r.scores, between, id).percent(), 1.15*estimate, id)
		if id != "thigh" { // of whole sizes the mean of each one's children is as far off
			require.Less(t, young.total(r.scores, byChest, id).percent(), 1.15*estimate, id)
		}
	}

	// What a maker without estimates would do is worse.
	for _, id := range judged {
		estimate, size := young.total(r.scores, "height", id), young.total(r.scores, byHeight, id)
		require.Less(t, estimate.cm(), size.cm(), id)
		if id != "chest" {
			require.Less(t, young.total(r.scores, "height, chest", id).cm(), young.total(r.scores, byChest, id).cm(), id)
		}
	}
}

// The bars for children of today, boys and girls, of cycles that the fit has not
// seen. A thin child's estimate from the height alone is to be no further off than
// by the survey's relations alone.
func TestAccuracyOnExaminations(t *testing.T) {
	t.Parallel()
	survey, err := openSurvey(surveyPath(t))
	require.NoError(t, err)
	today, err := openNHANES(nhanesPath(t))
	require.NoError(t, err)
	scores := make(thirdScores)
	require.NoError(t, judgeToday(survey, today, embeddedTables(t), scores))
	alone, err := sizing.New(surveyTables(t))
	require.NoError(t, err)
	median, err := chartMedians(embeddedTables(t))
	require.NoError(t, err)
	before := make(thirdScores)
	for _, h := range holdouts {
		held := slices.DeleteFunc(slices.Clone(today), func(c child) bool {
			return c.age >= oldestYoung || !slices.Contains(h.cycles, c.cycle)
		})
		for i, third := range thirdsOf(held, median) {
			if third != "" {
				require.NoError(t, before.judge(alone, now, held[i], third, h.measurements))
			}
		}
	}
	for _, bar := range []struct {
		measurement string
		rms, bias   float64
	}{{"upper_arm", 4.9, 2}, {"waist_navel", 6.2, 2.5}, {"calf", 4.9, 2}} {
		for _, sex := range []string{"m", "f"} {
			for _, third := range thirds {
				key := thirdTally{now, "height, weight", bar.measurement, sex, third}
				s := scores[key]
				require.Greater(t, s.n, 100, "%v", key)
				bias, least := 3.5, 68.0
				if third == everyThird {
					require.LessOrEqual(t, s.percent(), bar.rms, "%v", key)
					require.LessOrEqual(t, s.coverage(), 88.0, "%v", key)
					bias, least = bar.bias, 74
				}
				require.LessOrEqual(t, math.Abs(s.bias()), bias, "%v", key)
				require.GreaterOrEqual(t, s.coverage(), least, "%v", key)
			}
			key := thirdTally{now, "height", bar.measurement, sex, everyThird}
			require.InDelta(t, 81, scores[key].coverage(), 7, "%v", key)
			key.third = "thin"
			require.LessOrEqual(t, scores[key].percent(), before[key].percent()+1e-9, "%v", key)
		}
	}
}

// leaveOneOut returns the RMS error in % of a least-squares fit of the logarithm
// of the bar's measurement to those of what is known, each child being left out
// of the fit that judges it.
func leaveOneOut(t *testing.T, children []child, sex string, b bar) float64 {
	t.Helper()
	var x []float64
	var y []float64
	ids := strings.Split(b.known, ", ")
	for _, c := range children {
		row := []float64{1}
		sum := c.value(b.measurement)
		for _, id := range ids {
			row = append(row, math.Log(c.value(id)))
			sum += c.value(id)
		}
		if c.sex == sex && c.age < oldestYoung && !math.IsNaN(sum) {
			x = append(x, row...)
			y = append(y, math.Log(c.value(b.measurement)))
		}
	}
	design := mat.NewDense(len(y), len(ids)+1, x)
	var gram, inverse, hat, fitted mat.Dense
	gram.Mul(design.T(), design)
	require.NoError(t, inverse.Inverse(&gram))
	hat.Product(design, &inverse, design.T())
	fitted.Mul(&hat, mat.NewDense(len(y), 1, y))
	sum := 0.0
	for i, v := range y {
		e := (v - fitted.At(i, 0)) / (1 - hat.At(i, i))
		sum += e * e
	}
	return 100 * math.Sqrt(sum/float64(len(y)))
}

// drawnSurvey writes a survey file of made-up boys and girls. Those of a height
// at which the charts lack something are left out: the fit is quick where
// nothing is missing.
func drawnSurvey(t *testing.T, each int) string {
	t.Helper()
	tables := embeddedTables(t)
	rng := rand.New(rand.NewPCG(7, 8))
	children := append(drawChildren(t, tables, "m", each, rng), drawChildren(t, tables, "f", each, rng)...)
	children = slices.DeleteFunc(children, func(c child) bool { return slices.ContainsFunc(c.values, math.IsNaN) })
	path := filepath.Join(t.TempDir(), "survey.csv")
	require.NoError(t, os.WriteFile(path, []byte(asSurvey(children)), 0o600))
	return path
}

// drawnNHANES writes a file of made-up examined boys and girls.
func drawnNHANES(t *testing.T, each int) string {
	t.Helper()
	tables := embeddedTables(t)
	rng := rand.New(rand.NewPCG(13, 14))
	children := append(drawToday(t, tables, "m", each, rng), drawToday(t, tables, "f", each, rng)...)
	path := filepath.Join(t.TempDir(), "nhanes.csv")
	require.NoError(t, os.WriteFile(path, []byte(asNHANES(children)), 0o600))
	return path
}

func TestAccuracyCommand(t *testing.T) {
	t.Parallel()
	survey, nhanes := drawnSurvey(t, 360), drawnNHANES(t, 700)
	report := func(args ...string) string {
		var out bytes.Buffer
		require.NoError(t, run(append([]string{"accuracy"}, args...), &out))
		return out.String()
	}
	first := report(survey, nhanes, "-folds", "2", "-seed", "3")
	require.Equal(t, first, report("-folds=2", "-seed=3", survey, nhanes), "the same seed, the same bytes")
	if proof.Whole() {
		require.NotEqual(t, first, report(survey, nhanes, "-folds", "2", "-seed", "4"))
	}
	require.Contains(t, first, "children of the survey were divided at random into 2 parts (seed 3)")
	require.NotContains(t, first, "NaN")

	rows := tableUnder(t, first, "## RMS error in cm, boys and girls, 2–12 years")
	require.Len(t, rows, 1+len(judged))
	require.Equal(t, []string{"measurement", "children", "nearest size by height", "best size by chest", "estimate: height",
		"height, chest", "height, weight", "height, chest, inside leg"}, rows[0])
	require.Equal(t, "–", rows[1][5], "the chest is not judged knowing the chest")
	for _, row := range rows[1:] {
		n, err := strconv.Atoi(row[1])
		require.NoError(t, err)
		require.Greater(t, n, 200)
		height, err := strconv.ParseFloat(row[4], 64)
		require.NoError(t, err)
		if row[0] == "hip" || row[0] == "thigh" {
			weight, err := strconv.ParseFloat(row[6], 64)
			require.NoError(t, err)
			require.Less(t, weight, 0.6*height, "weight says much of %s", row[0])
		}
	}
	rows = tableUnder(t, first, "## By weight for height, boys, girls, 2–12 years")
	require.Len(t, rows, 1+4*(len(judgedByThird[0].measurements)+len(judgedByThird[1].measurements)))
	rows = tableUnder(t, first, "## Measured values inside the likely range (p10–p90), in %, boys and girls, all ages")
	require.Len(t, rows, 2+len(judged))
	pooled, err := strconv.ParseFloat(rows[len(rows)-1][4], 64)
	require.NoError(t, err)
	require.InDelta(t, 80, pooled, 3, "knowing the weight; knowing the height alone the ranges are for heavier children too")
}

// tableUnder returns the cells of the Markdown table under a heading, less the
// line of dashes.
func tableUnder(t *testing.T, report, heading string) [][]string {
	t.Helper()
	_, rest, ok := strings.Cut(report, heading+"\n\n")
	require.True(t, ok, heading)
	var rows [][]string
	for line := range strings.Lines(rest) {
		if !strings.HasPrefix(line, "|") {
			break
		}
		var cells []string
		for cell := range strings.SplitSeq(strings.Trim(line, "|\n"), "|") {
			cells = append(cells, strings.TrimSpace(cell))
		}
		rows = append(rows, cells)
	}
	return append(rows[:1], rows[2:]...)
}

func TestJudgeRefusesFolds(t *testing.T) {
	for _, folds := range []int{-1, 0, 1, 3} {
		_, err := judge([]child{unmeasured(100), unmeasured(110)}, nil, embeddedTables(t), folds, 1)
		require.ErrorContains(t, err, fmt.Sprintf("accuracy: %d folds; want 2 to 2, the number of children", folds))
	}
	_, err := judge([]child{unmeasured(100), unmeasured(110)}, nil, embeddedTables(t), 2, 1)
	require.ErrorContains(t, err, "accuracy: fold 1 of 2: sex m: weight was measured on 0 children")
}

func TestKnowledge(t *testing.T) {
	c := unmeasured(110)
	c.age = math.NaN()
	c.values[variableIndex("chest")] = 57
	for name, want := range map[string]bool{"height": true, "height, chest": true, "height, weight": false,
		"chest alone": true, "chest, age": false} {
		for _, k := range knowledges {
			if k.name == name {
				_, ok := k.of(c)
				require.Equal(t, want, ok, name)
			}
		}
	}
	c.age = 5.5
	known, ok := knowledges[len(knowledges)-1].of(c)
	require.True(t, ok)
	require.Equal(t, sizing.Child{Sex: "m", AgeYears: 5.5, Own: map[string]float64{"chest": 57}}, known)
}

func TestDropSlips(t *testing.T) {
	chest, hip := variableIndex("chest"), variableIndex("hip")
	var children []child
	for i := range 400 {
		c := unmeasured(100 + float64(i)/10)
		wobble := 1 + 0.02*float64(i%5-2)
		c.values[chest], c.values[hip] = 60*wobble, 62*wobble
		children = append(children, c)
	}
	girl := unmeasured(120)
	girl.sex = "f"
	girl.values[chest] = 6 // alone of her sex: no median to tell a slip by
	children = append(children, girl)
	children[0].values[chest] = 6 // below the first class median: not known to be a slip
	children[150].values[chest] = 6
	before := append([]child(nil), children...)
	require.Equal(t, 1, dropSlips(children))
	require.True(t, math.IsNaN(children[150].values[chest]))
	require.InDelta(t, 62*0.96, children[150].values[hip], 1e-9)
	require.Equal(t, 6.0, before[150].values[chest], "the caller's children stay as they were")
	require.Equal(t, 6.0, children[0].values[chest])
	require.Equal(t, 6.0, children[400].values[chest])
}

func TestWithMedians(t *testing.T) {
	tables := embeddedTables(t)
	chest := variableIndex("chest")
	var training []child
	for i := range 11 {
		c := unmeasured(103 + 0.1*float64(i))
		c.values[chest] = 70 + float64(i)
		training = append(training, c)
	}
	changed := make(map[string]float64)
	for i, row := range withMedians(tables.Body, training) {
		if row.Value != tables.Body[i].Value {
			changed[strings.Join([]string{row.Chart, row.Size, row.Sex, row.Measurement, row.Statistic}, " ")] = row.Value
		}
	}
	require.Equal(t, map[string]float64{"measured 104 m chest p50": 75, "measured 104 m height p50": 103.5}, changed)
}
