package main

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// followedPath returns where the file of followed children is, or skips the test: the
// records are not part of the project.
func followedPath(t *testing.T) string {
	t.Helper()
	path := os.Getenv("GROWTUCK_FOLLOWED")
	if path == "" {
		t.Skip("GROWTUCK_FOLLOWED does not name the file of followed children, which is not part of the project")
	}
	return path
}

// The most that forecasts a year ahead err by, root mean square in cm, from an age on:
// what it costs to keep the place on the chart among half of the children who were
// followed. Those of whom a height a year before is known do better.
func TestForecastsOfFollowedChildren(t *testing.T) {
	children, err := openFollowed(followedPath(t))
	require.NoError(t, err)
	ref, err := sizing.Default()
	require.NoError(t, err)
	get := func(from, to, years float64, told string) score {
		scores, err := ahead(ref, children, from, to, years, told)
		require.NoError(t, err)
		return scores["height"]
	}
	for _, tt := range []struct{ from, to, most float64 }{{3, 4, 1.29}, {4, 8, 0.945}, {8, 12, 1.085}} {
		once := get(tt.from, tt.to, 1, toldOnce)
		require.LessOrEqual(t, once.cm(), tt.most, "from %g", tt.from)
		require.LessOrEqual(t, get(tt.from, tt.to, 1, toldTwice).cm(), once.cm(), "from %g, measured twice", tt.from)
	}
	for _, years := range []float64{1, 2} {
		all := get(2, 12, years, toldOnce)
		require.InDelta(t, 80, all.coverage(), 5, "%g years ahead", years)
	}
}

func TestFollowed(t *testing.T) {
	const header = "child,sex,age_years,height_cm,weight_kg,sitting_height_cm,leg_girth_cm\n"
	for text, want := range map[string]string{
		"":                              "f.csv:1: no header; want columns sex, age_years, stature and the others",
		"child,sex\n":                   `f.csv:1: the header has no column "age_years"`,
		header:                          "f.csv: no child",
		header + "1,x,3,95,,,\n":        `f.csv:2:3: sex: "x"; want m or f, the same for all of a child`,
		header + "1,m,3,tall,,,\n":      `f.csv:2:7: height_cm: "tall"; want a positive number, or nothing if not measured`,
		header + "1,m,3,95,,,\n1,f,4\n": "f.csv:3:1: wrong number of fields",
	} {
		_, err := readFollowed(strings.NewReader(text), "f.csv")
		require.ErrorContains(t, err, want, text)
	}
	path := t.TempDir() + "/f.csv"
	require.NoError(t, os.WriteFile(path, []byte(header+"1,m,0,,3.5,,\n1,m,3,96,,,\n1,m,4,103,,,\n2,f,5,108,18,60,24\n2,f,6,115,20,63,25\n"), 0o600))
	var out bytes.Buffer
	require.NoError(t, run([]string{"followed", path}, &out))
	require.Contains(t, out.String(), "2 children\n")
	require.Contains(t, out.String(), "| measured once | from 3, under 4 | 1 | height | 1 | 0.")
	require.Contains(t, out.String(), "| measured once | from 4, under 8 | 1 | legs | 1 | ")
}
