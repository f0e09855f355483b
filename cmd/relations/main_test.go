package main

import (
	"bytes"
	"encoding/csv"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

func readTable(t *testing.T, path string) [][]string {
	t.Helper()
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	return rows
}

func TestFit(t *testing.T) {
	dir := t.TempDir()
	survey := filepath.Join(t.TempDir(), "survey.csv")
	require.NoError(t, os.WriteFile(survey, []byte(madeUpSurvey()), 0o600))
	nhanes := drawnNHANES(t, 1200)
	require.NoError(t, run([]string{"fit", survey, nhanes, dir}, io.Discard))
	relationsPath, ratiosPath := filepath.Join(dir, "relations.csv"), filepath.Join(dir, "ratios.csv")
	relations, ratios := readTable(t, relationsPath), readTable(t, ratiosPath)

	t.Run("layout", func(t *testing.T) {
		n := len(variables)
		// Of 150 cm and more too few were drawn for slopes.
		ofToday := 2*len(todayBands) + 3*len(examined[1:])*(len(todayBands)-1)
		perSex := n*len(spreadBands) + n*(n-1)/2*len(correlationBands) + ofToday
		require.Equal(t, 1+3*perSex, len(relations))
		require.Equal(t, []string{"m", "weight", "weight", "sd", "83", "115"}, relations[1][:6])
		require.Equal(t, []string{"m", "weight", "head", "r", "83", "115"}, relations[1+n*len(spreadBands)][:6])
		require.Equal(t, []string{"cpsc-1977", "computed"}, relations[1][8:])
		require.Equal(t, "f", relations[1+perSex][0])
		require.Equal(t, "both", relations[1+2*perSex][0])
		require.Equal(t, []string{"m", "weight", "83", "100"}, ratios[1][:4])
	})

	t.Run("figures", func(t *testing.T) {
		// The girths share 0.05 of their spread of sqrt(0.05² + 0.03²).
		for _, row := range relations[1:] {
			value, err := strconv.ParseFloat(row[6], 64)
			require.NoError(t, err)
			switch {
			case row[3] == "slope" && row[1] == "upper_arm":
				require.InDelta(t, 0.7, value, 0.06, "%v", row)
			case row[1] == "chest" && row[3] == "sd":
				require.InDelta(t, 0.0583, value, 0.006, "%v", row)
			case row[1] == "chest" && row[2] == "hip":
				n, err := strconv.ParseFloat(row[7], 64)
				require.NoError(t, err)
				// Three standard errors of a correlation of so many children.
				require.InDelta(t, 0.735, value, 3*(1-0.735*0.735)/math.Sqrt(n), "%v", row)
			case row[1] == "neck" && row[2] == "suprasternale_height":
				require.Equal(t, "0", row[7], "never measured together")
			}
		}
		for _, row := range ratios[1:] {
			if row[1] == "chest" {
				p50, err := strconv.ParseFloat(row[5], 64)
				require.NoError(t, err)
				require.InDelta(t, 0.2, p50, 0.005, "%v", row)
			}
		}
	})

	t.Run("same bytes again, nothing left lying about", func(t *testing.T) {
		var before [2][]byte
		for i, path := range []string{relationsPath, ratiosPath} {
			var err error
			before[i], err = os.ReadFile(path)
			require.NoError(t, err)
			require.NotContains(t, string(before[i]), "\r")
		}
		require.NoError(t, run([]string{"fit", survey, nhanes, dir}, io.Discard))
		for i, path := range []string{relationsPath, ratiosPath} {
			after, err := os.ReadFile(path)
			require.NoError(t, err)
			require.True(t, bytes.Equal(before[i], after), path)
		}
		entries, err := os.ReadDir(dir)
		require.NoError(t, err)
		require.Len(t, entries, 2)
	})
}

func TestRunRefuses(t *testing.T) {
	bad := filepath.Join(t.TempDir(), "bad.csv")
	require.NoError(t, os.WriteFile(bad, []byte("sex\nm\n"), 0o600))
	for _, tc := range []struct {
		args []string
		want string
	}{
		{nil, "no command"},
		{[]string{"guess"}, `unknown command "guess"`},
		{[]string{"fit", "one.csv"}, "got 1 arguments"},
		{[]string{"fit", "-x"}, "fit: flag provided but not defined: -x"},
		{[]string{"weights"}, "weights: got 0 arguments; want 1: SURVEY.csv"},
		{[]string{"weights", "a.csv", "b.csv"}, "weights: got 2 arguments"},
		{[]string{"weights", bad}, "bad.csv:1: the header has no column"},
		{[]string{"accuracy", bad, bad}, "bad.csv:1: the header has no column"},
		{[]string{"accuracy", bad, bad, "-folds", "x"}, "accuracy: invalid value"},
		{[]string{"fit", filepath.Join(t.TempDir(), "none.csv"), bad, "."}, "no such file"},
		{[]string{"fit", bad, bad, "."}, "bad.csv:1: the header has no column"},
	} {
		require.ErrorContains(t, run(tc.args, io.Discard), tc.want, "%v", tc.args)
	}
}

func TestWriteFileLeavesOldOnFailure(t *testing.T) {
	err := writeFile(filepath.Join(t.TempDir(), "missing", "relations.csv"), []byte("x"))
	require.ErrorIs(t, err, os.ErrNotExist)

	dir := t.TempDir()
	target := filepath.Join(dir, "relations.csv")
	require.NoError(t, os.Mkdir(target, 0o700)) // a rename cannot replace a directory
	require.Error(t, writeFile(target, []byte("x")))
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, entries, 1, "the temporary file is gone")
}

func TestCheckRounded(t *testing.T) {
	// Positive definite until the fourth decimal is rounded up to 1.
	require.NoError(t, checkRounded(mat.NewSymDense(2, []float64{1, 0.9999, 0.9999, 1})))
	require.Error(t, checkRounded(mat.NewSymDense(2, []float64{1, 0.99996, 0.99996, 1})))
	require.Error(t, checkRounded(mat.NewSymDense(3, []float64{1, 0.9, 0.9, 0.9, 1, 0, 0.9, 0, 1})))
}

func TestDecimals(t *testing.T) {
	require.Equal(t, "0.0000", decimals(-0.00001))
	require.Equal(t, "-0.1235", decimals(-0.12346))
	require.Equal(t, "0.5000", decimals(0.5))
}
