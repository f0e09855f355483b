package main

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"strconv"

	"gonum.org/v1/gonum/mat"
)

// sexes in the order of the tables.
var sexes = []string{"m", "f", "both"}

// What every row says of its origin: the identifier of the survey among the
// sources, and that the figure was computed rather than printed there.
const (
	sourceID = "cpsc-1977"
	basis    = "computed"
)

// relationsCSV returns the table of relations. It fails if a correlation matrix
// is no longer positive definite once rounded to what the table holds.
func relationsCSV(fits []*relations) ([]byte, error) {
	rows := [][]string{{"sex", "measurement_a", "measurement_b", "statistic",
		"height_low_cm", "height_high_cm", "value", "n", "source", "basis"}}
	for _, rel := range fits {
		if err := checkRounded(rel.correlation); err != nil {
			return nil, fmt.Errorf("sex %s: %w", rel.sex, err)
		}
		for v, a := range variables {
			for b, band := range spreadBands {
				rows = append(rows, []string{rel.sex, a.id, a.id, "sd", bound(band.low), bound(band.high),
					decimals(rel.spread[v][b]), strconv.Itoa(rel.spreadCount[v][b]), sourceID, basis})
			}
		}
		for i, a := range variables {
			for j := i + 1; j < len(variables); j++ {
				rows = append(rows, []string{rel.sex, a.id, variables[j].id, "r", "", "",
					decimals(rel.correlation.At(i, j)), strconv.Itoa(rel.pairCount[i][j]), sourceID, basis})
			}
		}
	}
	return encode(rows)
}

// ratiosCSV returns the table of ratios to height.
func ratiosCSV(ratios []ratio) ([]byte, error) {
	rows := [][]string{{"sex", "measurement", "height_low_cm", "height_high_cm",
		"p1", "p50", "p99", "n", "source", "basis"}}
	for _, r := range ratios {
		rows = append(rows, []string{r.sex, r.measurement, bound(r.band.low), bound(r.band.high),
			decimals(r.p1), decimals(r.p50), decimals(r.p99), strconv.Itoa(r.count), sourceID, basis})
	}
	return encode(rows)
}

// checkRounded fails unless the correlations, rounded as in the table, form a
// positive definite matrix.
func checkRounded(correlation mat.Symmetric) error {
	n := correlation.SymmetricDim()
	rounded := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			rounded.SetSym(i, j, round(correlation.At(i, j)))
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(rounded) {
		return errors.New("correlations rounded to four decimals are not positive definite; give the fit more prior rows")
	}
	return nil
}

// round rounds to the four decimals of the tables. Adding zero turns minus zero
// into zero.
func round(v float64) float64 { return math.Round(v*1e4)/1e4 + 0 }

func decimals(v float64) string { return strconv.FormatFloat(round(v), 'f', 4, 64) }

func bound(cm float64) string { return strconv.FormatFloat(cm, 'f', -1, 64) }

func encode(rows [][]string) ([]byte, error) {
	var b bytes.Buffer
	if err := csv.NewWriter(&b).WriteAll(rows); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
