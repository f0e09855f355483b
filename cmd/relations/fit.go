package main

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// A band is a range of heights, the lower bound inside and the upper outside.
type band struct {
	low, high float64 // cm
}

func (b band) holds(height float64) bool { return height >= b.low && height < b.high }

// spreadBands are the bands in which spreads are told apart. Girths and weight
// vary about three fifths as much below 115 cm as above 130 cm; lengths hardly
// change.
var spreadBands = []band{{83, 115}, {115, 130}, {130, 150}, {150, 185}}

// correlationBands are the bands in which correlations are told apart: girths
// go together less closely in small children.
var correlationBands = []band{{83, 115}, {115, 185}}

// priorRows is the weight of the independent rows given to the fit over all
// heights; bandPriorRows that of rows that vary as all heights do, given to the
// fit of a band. Both had the greatest likelihood on children left out.
const (
	priorRows     = 10
	bandPriorRows = 40
)

// Relations say how the measurements of children of one height vary together.
type relations struct {
	sex         string
	spread      [][]float64     // [variable][spread band] standard deviation of the log residual
	spreadCount [][]int         // [variable][spread band] children
	correlation []*mat.SymDense // [correlation band] of the log residuals
	pairCount   [][][]int       // [correlation band][variable][variable] children measured for both
}

// fitAll fits the relations of each of the sexes.
func fitAll(children []child, sexes ...string) ([]*relations, error) {
	var fits []*relations
	for _, sex := range sexes {
		rel, err := fitRelations(sex, children)
		if err != nil {
			return nil, err
		}
		fits = append(fits, rel)
	}
	return fits, nil
}

// fitRelations fits the relations of the children of one sex, or of both.
func fitRelations(sex string, children []child) (*relations, error) {
	children = ofSex(children, sex)
	res := residuals(children)
	n := len(variables)
	rel := &relations{sex: sex}

	for v := range n {
		spread := make([]float64, len(spreadBands))
		count := make([]int, len(spreadBands))
		for b, band := range spreadBands {
			sum := 0.0
			for i, c := range children {
				if r := res[i][v]; band.holds(c.height) && !math.IsNaN(r) {
					sum += r * r
					count[b]++
				}
			}
			if count[b] < classMinimum {
				return nil, fmt.Errorf("sex %s: %s was measured on %d children from %g to %g cm; want %d or more",
					sex, variables[v].id, count[b], band.low, band.high, classMinimum)
			}
			if sum == 0 {
				return nil, fmt.Errorf("sex %s: %s is the same for every child from %g to %g cm; want measured values",
					sex, variables[v].id, band.low, band.high)
			}
			spread[b] = math.Sqrt(sum / float64(count[b]))
		}
		rel.spread = append(rel.spread, spread)
		rel.spreadCount = append(rel.spreadCount, count)
	}

	for i, c := range children {
		for v := range res[i] {
			res[i][v] /= spreadAt(rel.spread[v], c.height)
		}
	}
	common, err := fitCovariance(res, independent(n), priorRows)
	if err != nil {
		return nil, fmt.Errorf("sex %s: %w", sex, err)
	}
	for _, band := range correlationBands {
		var rows [][]float64
		for i, c := range children {
			if band.holds(c.height) {
				rows = append(rows, res[i])
			}
		}
		cov, err := fitCovariance(rows, common, bandPriorRows)
		if err != nil {
			return nil, fmt.Errorf("sex %s, %g to %g cm: %w", sex, band.low, band.high, err)
		}
		rel.correlation = append(rel.correlation, correlationOf(cov))
		rel.pairCount = append(rel.pairCount, countPairs(rows))
	}
	return rel, nil
}

// independent is the covariance of n unrelated variables of unit variance.
func independent(n int) *mat.SymDense {
	cov := mat.NewSymDense(n, nil)
	for i := range n {
		cov.SetSym(i, i, 1)
	}
	return cov
}

func correlationOf(cov *mat.SymDense) *mat.SymDense {
	n := cov.SymmetricDim()
	r := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			r.SetSym(i, j, cov.At(i, j)/math.Sqrt(cov.At(i, i)*cov.At(j, j)))
		}
	}
	return r
}

// spreadAt reads the spread at a height: linearly between the middles of the
// bands, and constant beyond the first and last middle, so that an estimate does
// not jump where two bands meet.
func spreadAt(spread []float64, height float64) float64 {
	for b, band := range spreadBands {
		middle := (band.low + band.high) / 2
		if height >= middle {
			continue
		}
		if b == 0 {
			return spread[0]
		}
		before := (spreadBands[b-1].low + spreadBands[b-1].high) / 2
		return spread[b-1] + (spread[b]-spread[b-1])*(height-before)/(middle-before)
	}
	return spread[len(spread)-1]
}

// residuals returns the departures of children of one sex, or of both, without
// the outliers. They are NaN where there is none.
func residuals(children []child) [][]float64 {
	res := departures(children)
	dropOutliers(res)
	return res
}

// departures returns ln(value/median at the child's height) per child and
// variable. It is NaN where the value was not measured, and where the height is
// outside the medians.
func departures(children []child) [][]float64 {
	res := make([][]float64, len(children))
	for i := range res {
		res[i] = make([]float64, len(variables))
	}
	for v := range variables {
		median := medianCurve(children, v)
		for i, c := range children {
			res[i][v] = math.Log(c.values[v] / median.at(c.height))
		}
	}
	return res
}

// dropOutliers sets to NaN the departures outside robustLimits. A child with two
// or more is dropped whole: either the height is wrong, or the child is so
// unlike the others that dropping only part of the values would distort the
// relation of those that stay.
func dropOutliers(res [][]float64) {
	outliers := make([]int, len(res))
	for v := range variables {
		var sample []float64
		for _, row := range res {
			if !math.IsNaN(row[v]) {
				sample = append(sample, row[v])
			}
		}
		low, high := robustLimits(sample)
		for i, row := range res {
			if row[v] < low || row[v] > high {
				row[v] = math.NaN()
				outliers[i]++
			}
		}
	}
	for i, n := range outliers {
		if n >= 2 {
			for v := range res[i] {
				res[i][v] = math.NaN()
			}
		}
	}
}

func countPairs(res [][]float64) [][]int {
	count := make([][]int, len(variables))
	for a := range count {
		count[a] = make([]int, len(variables))
		for b := range count[a] {
			for _, row := range res {
				if !math.IsNaN(row[a]) && !math.IsNaN(row[b]) {
					count[a][b]++
				}
			}
		}
	}
	return count
}
