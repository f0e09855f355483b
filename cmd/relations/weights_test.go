package main

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestWeights(t *testing.T) {
	weight := variableIndex("weight")
	var children []child
	add := func(sex string, height float64, kg ...float64) {
		for _, v := range kg {
			c := unmeasured(height)
			c.sex = sex
			c.values[weight] = v
			children = append(children, c)
		}
	}
	add("m", 101, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21)      // quartiles at the 3.5th, 6th and 8.5th
	add("f", 106.9, 20, 21, 21.5, 22, 22, 23, 24, 25, 26)          // nine girls make no row
	add("f", 107, 30, 30, 30, 30, 30, 30.06, 30.06, 30.06, 33, 34) // the upper bound is class 110
	children = append(children, unmeasured(101))                   // not weighed

	table, err := weightsCSV(weightRows(children))
	require.NoError(t, err)
	require.Equal(t, `measured,104,m,weight,p25,13.5,kg,cpsc-1977,two thirds of the records,computed,recomputed by cmd/relations,,11
measured,104,m,weight,p50,16.0,kg,cpsc-1977,two thirds of the records,computed,recomputed by cmd/relations,,11
measured,104,m,weight,p75,18.5,kg,cpsc-1977,two thirds of the records,computed,recomputed by cmd/relations,,11
measured,104,both,weight,p25,15.75,kg,cpsc-1977,two thirds of the records,computed,recomputed by cmd/relations,,20
measured,104,both,weight,p50,20.0,kg,cpsc-1977,two thirds of the records,computed,recomputed by cmd/relations,,20
measured,104,both,weight,p75,22.0,kg,cpsc-1977,two thirds of the records,computed,recomputed by cmd/relations,,20
measured,110,f,weight,p25,30.0,kg,cpsc-1977,two thirds of the records,computed,recomputed by cmd/relations,,10
measured,110,f,weight,p50,30.03,kg,cpsc-1977,two thirds of the records,computed,recomputed by cmd/relations,,10
measured,110,f,weight,p75,30.06,kg,cpsc-1977,two thirds of the records,computed,recomputed by cmd/relations,,10
measured,110,both,weight,p25,30.0,kg,cpsc-1977,two thirds of the records,computed,recomputed by cmd/relations,,10
measured,110,both,weight,p50,30.03,kg,cpsc-1977,two thirds of the records,computed,recomputed by cmd/relations,,10
measured,110,both,weight,p75,30.06,kg,cpsc-1977,two thirds of the records,computed,recomputed by cmd/relations,,10
`, string(table))
}

func TestHundredths(t *testing.T) {
	for v, want := range map[float64]float64{13.125: 13.12, 13.375: 13.38, 12: 12, 14.999: 15, 0.004: 0} {
		require.Equal(t, want, hundredths(v), "%v", v)
	}
}

// surveyPath returns where the survey file is, or skips the test: the records
// are not part of the project.
func surveyPath(t *testing.T) string {
	t.Helper()
	path := os.Getenv("GROWTUCK_SURVEY")
	if path == "" {
		t.Skip("GROWTUCK_SURVEY does not name the survey file, which is not part of the project")
	}
	return path
}

// nhanesPath returns where the file of examined children is, or skips the test:
// the records are not part of the project.
func nhanesPath(t *testing.T) string {
	t.Helper()
	path := os.Getenv("GROWTUCK_NHANES")
	if path == "" {
		t.Skip("GROWTUCK_NHANES does not name the file of examined children, which is not part of the project")
	}
	return path
}

func TestWeightsEqualBody(t *testing.T) {
	var printed bytes.Buffer
	require.NoError(t, run([]string{"weights", surveyPath(t)}, &printed))
	body, err := os.ReadFile("../../data/body.csv")
	require.NoError(t, err)
	var shipped strings.Builder
	for line := range strings.Lines(string(body)) {
		if strings.HasPrefix(line, "measured,") && strings.Contains(line, ",weight,") {
			shipped.WriteString(line)
		}
	}
	require.Equal(t, shipped.String(), printed.String())
}

func TestFitEqualsTables(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, run([]string{"fit", surveyPath(t), nhanesPath(t), dir}, new(bytes.Buffer)))
	for _, name := range []string{"relations.csv", "ratios.csv"} {
		want, err := os.ReadFile("../../data/" + name)
		require.NoError(t, err)
		got, err := os.ReadFile(dir + "/" + name)
		require.NoError(t, err)
		require.True(t, bytes.Equal(want, got), "%s differs from data/%s", name, name)
	}
}
