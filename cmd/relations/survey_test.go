package main

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// surveyFile lays out children as a survey file. Each is a map of column to
// cell; a column that is left out is empty.
func surveyFile(children ...map[string]string) string {
	names := requiredColumns()
	lines := []string{strings.Join(names, ",")}
	for _, c := range children {
		cells := make([]string, len(names))
		for i, name := range names {
			cells[i] = c[name]
		}
		lines = append(lines, strings.Join(cells, ","))
	}
	return strings.Join(lines, "\n") + "\n"
}

func TestReadSurvey(t *testing.T) {
	children, err := readSurvey(strings.NewReader(surveyFile(
		map[string]string{"sex": "m", "age_years": "5.2", "stature": "110", "sitting_height": "60", "chest": "56.5", "neck": "0",
			"shoulder_elbow_length": "20", "elbow_hand_length": "29", "hand_length": "12",
			"acromion_radiale_length": "20", "radiale_stylion_length": "15"},
		map[string]string{"sex": "m", "stature": "120", "shoulder_elbow_length": "22", "elbow_hand_length": "30", "hand_length": "13"},
		map[string]string{"sex": "f", "age_years": "4", "stature": "100", "shoulder_elbow_length": "22", "elbow_hand_length": "30", "hand_length": "13"},
		map[string]string{"sex": "f", "age_years": "1.9", "stature": "80"},
		map[string]string{"sex": "f", "age_years": "7"},
	)), "survey.csv")
	require.NoError(t, err)
	require.Len(t, children, 3, "neither the infant nor the child without a height")

	first, second, third := children[0], children[1], children[2]
	require.Equal(t, "m", first.sex)
	require.Equal(t, 110.0, first.value("height"))
	require.True(t, math.IsNaN(first.value("sock_height")), "not a measurement of the survey")
	require.Equal(t, 56.5, first.value("chest"))
	require.True(t, math.IsNaN(first.value("neck")), "0 is not measured")
	require.True(t, math.IsNaN(first.value("waist")), "empty is not measured")
	require.InDelta(t, 0.97*50, first.value("inside_leg"), 1e-12)
	require.InDelta(t, 35, first.value("arm_length"), 1e-12)
	require.InDelta(t, 39*35.0/37, second.value("arm_length"), 1e-12)
	require.True(t, math.IsNaN(third.value("arm_length")), "no girl with both ways to measure")
}

func TestReadSurveyRefuses(t *testing.T) {
	good := map[string]string{"sex": "m", "age_years": "5", "stature": "110"}
	with := func(column, cell string) string {
		c := map[string]string{column: cell}
		for k, v := range good {
			if k != column {
				c[k] = v
			}
		}
		return surveyFile(good, c)
	}
	for _, tc := range []struct{ name, file, want string }{
		{"empty", "", "survey.csv:1: no header"},
		{"column", "sex,age_years\nm,5\n", `survey.csv:1: the header has no column "stature"`},
		{"nobody", surveyFile(), "survey.csv: no child of two years or more"},
		{"sex", with("sex", "boy"), `survey.csv:3:1: sex: "boy"; want m or f`},
		{"words", with("chest", "wide"), `survey.csv:3:18: chest: "wide"; want a positive number`},
		{"negative", with("chest", "-5"), `chest: "-5"`},
		{"infinite", with("weight_kg", "Inf"), `weight_kg: "Inf"`},
		{"not a number", with("age_years", "NaN"), `survey.csv:3:3: age_years: "NaN"`},
		{"ragged", surveyFile(good) + "m,5\n", "survey.csv:3:1: wrong number of fields"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			_, err := readSurvey(strings.NewReader(tc.file), "survey.csv")
			require.ErrorContains(t, err, tc.want)
		})
	}
}

// madeUpSurvey draws children whose girths share a factor and whose rarer
// measurements are taken on half of them each, in two subsamples that never
// meet.
func madeUpSurvey() string {
	rng := rand.New(rand.NewPCG(3, 4))
	subsample := map[string]int{"neck": 0, "waist_natural": 0, "wrist": 0, "ankle": 0, "waist_height": 0,
		"shoulder_breadth_biacromial": 1, "acromion_radiale_length": 1, "radiale_stylion_length": 1, "suprasternale_height": 1}
	var children []map[string]string
	for i := range 2400 {
		height := 83 + 102*rng.Float64()
		stout := 0.05 * rng.NormFloat64()
		c := map[string]string{"sex": "mf"[i%2 : i%2+1], "age_years": "6", "stature": fmt.Sprintf("%.1f", height)}
		for _, name := range requiredColumns() {
			if s, ok := subsample[name]; c[name] != "" || ok && s != i/2%2 {
				continue
			}
			share := 0.2
			if name == "sitting_height" {
				share = 0.55
			}
			c[name] = fmt.Sprintf("%.2f", height*share*math.Exp(stout+0.03*rng.NormFloat64()))
		}
		children = append(children, c)
	}
	return surveyFile(children...)
}
