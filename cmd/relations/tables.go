package main

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"strconv"

	"gonum.org/v1/gonum/mat"

	"growtuck/data"
)

// sexes in the order of the tables.
var sexes = []string{"m", "f", "both"}

// What every row says of its origin: the identifier of the survey among the
// sources, and that the figure was computed rather than printed there.
const (
	sourceID = "cpsc-1977"
	basis    = "computed"
)

// relationRows returns the rows of the table of relations, their values rounded
// as they are written. It fails if a correlation matrix is no longer positive
// definite once rounded.
func relationRows(fits []*relations) ([]data.Relation, error) {
	var rows []data.Relation
	for _, rel := range fits {
		for _, correlation := range rel.correlation {
			if err := checkRounded(correlation); err != nil {
				return nil, fmt.Errorf("sex %s: %w", rel.sex, err)
			}
		}
		for v, a := range variables {
			for b, band := range spreadBands {
				rows = append(rows, data.Relation{Sex: rel.sex, A: a.id, B: a.id, Statistic: "sd",
					LowCm: &band.low, HighCm: &band.high, Value: round(rel.spread[v][b]),
					N: float64(rel.spreadCount[v][b]), Source: sourceID, Basis: basis})
			}
		}
		for i, a := range variables {
			for j := i + 1; j < len(variables); j++ {
				for b, band := range correlationBands {
					rows = append(rows, data.Relation{Sex: rel.sex, A: a.id, B: variables[j].id, Statistic: "r",
						LowCm: &band.low, HighCm: &band.high, Value: round(rel.correlation[b].At(i, j)),
						N: float64(rel.pairCount[b][i][j]), Source: sourceID, Basis: basis})
				}
			}
		}
	}
	return rows, nil
}

// relationsCSV returns the table of relations as a file.
func relationsCSV(rows []data.Relation) ([]byte, error) {
	table := [][]string{{"sex", "measurement_a", "measurement_b", "statistic",
		"height_low_cm", "height_high_cm", "value", "n", "source", "basis"}}
	bound := func(cm *float64) string {
		if cm == nil {
			return ""
		}
		return shortest(*cm)
	}
	for _, r := range rows {
		table = append(table, []string{r.Sex, r.A, r.B, r.Statistic, bound(r.LowCm), bound(r.HighCm),
			decimals(r.Value), shortest(r.N), r.Source, r.Basis})
	}
	return encode(table)
}

// ratiosCSV returns the table of ratios to height.
func ratiosCSV(ratios []ratio) ([]byte, error) {
	rows := [][]string{{"sex", "measurement", "height_low_cm", "height_high_cm",
		"p1", "p50", "p99", "n", "source", "basis"}}
	for _, r := range ratios {
		rows = append(rows, []string{r.sex, r.measurement, shortest(r.band.low), shortest(r.band.high),
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

func shortest(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func encode(rows [][]string) ([]byte, error) {
	var b bytes.Buffer
	if err := csv.NewWriter(&b).WriteAll(rows); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
