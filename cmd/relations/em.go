package main

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// The fit stops when no element of the covariance moves by more than
// emTolerance in a step; the rows are standardised, so elements are near one.
const (
	emTolerance = 1e-7
	emMaxSteps  = 20000
)

// fitCovariance estimates by expectation and maximisation the covariance of
// rows drawn from a multivariate normal distribution of mean zero, in which NaN
// marks what was not measured. That is the estimate of greatest likelihood given
// everything that was measured, provided values are missing for reasons that
// have nothing to do with their size. The mean is not fitted: the residuals are
// taken about the chart's median, and so must be whatever is estimated from
// them.
//
// Two variables never measured together are related through those measured with
// both. Such a covariance starts from the one around, and the data move it as
// far as they have reason to.
//
// The weight of prior rows that have the covariance around is added to the rows.
// They keep the result positive definite, and move what the rows hardly determine
// towards around.
func fitCovariance(rows [][]float64, around *mat.SymDense, prior float64) (*mat.SymDense, error) {
	if len(rows) == 0 {
		return nil, errors.New("fit: no rows")
	}
	n := len(rows[0])
	patterns := groupByPattern(rows)
	total := prior
	for _, p := range patterns {
		total += p.count
	}

	cov := mat.NewSymDense(n, nil)
	cov.CopySym(around)
	for range emMaxSteps {
		sum := mat.NewSymDense(n, nil)
		sum.ScaleSym(prior, around)
		for _, p := range patterns {
			if err := p.addExpected(sum, cov); err != nil {
				return nil, err
			}
		}
		sum.ScaleSym(1/total, sum)
		moved := 0.0
		for i := range n {
			for j := i; j < n; j++ {
				moved = max(moved, math.Abs(sum.At(i, j)-cov.At(i, j)))
			}
		}
		cov = sum
		if moved < emTolerance {
			return cov, nil
		}
	}
	return nil, fmt.Errorf("fit: covariance still moving after %d steps", emMaxSteps)
}

// A pattern gathers the rows in which the same variables were measured.
type pattern struct {
	seen, unseen []int
	products     *mat.SymDense // sum over rows of the products of seen values
	count        float64
}

// groupByPattern sorts rows into patterns, in order of first appearance. Rows
// with nothing measured are left out.
func groupByPattern(rows [][]float64) []*pattern {
	var patterns []*pattern
	index := make(map[string]*pattern)
	for _, row := range rows {
		key := make([]byte, len(row))
		var seen, unseen []int
		for i, v := range row {
			if math.IsNaN(v) {
				unseen = append(unseen, i)
			} else {
				seen = append(seen, i)
				key[i] = 1
			}
		}
		if len(seen) == 0 {
			continue
		}
		p := index[string(key)]
		if p == nil {
			p = &pattern{seen: seen, unseen: unseen, products: mat.NewSymDense(len(seen), nil)}
			index[string(key)] = p
			patterns = append(patterns, p)
		}
		values := mat.NewVecDense(len(seen), nil)
		for i, v := range seen {
			values.SetVec(i, row[v])
		}
		p.products.SymRankOne(p.products, 1, values)
		p.count++
	}
	return patterns
}

// addExpected adds to sum the products of the pattern's rows, those with unseen
// values at their expectation under cov.
func (p *pattern) addExpected(sum, cov *mat.SymDense) error {
	for i, a := range p.seen {
		for j := i; j < len(p.seen); j++ {
			addSym(sum, a, p.seen[j], p.products.At(i, j))
		}
	}
	if len(p.unseen) == 0 {
		return nil
	}
	slopes, rest, err := regress(cov, p.seen, p.unseen)
	if err != nil {
		return err
	}
	var cross, expected mat.Dense
	cross.Mul(slopes, p.products)
	expected.Mul(&cross, slopes.T())
	for i, a := range p.unseen {
		for j, b := range p.seen {
			addSym(sum, a, b, cross.At(i, j))
		}
		for j := i; j < len(p.unseen); j++ {
			addSym(sum, a, p.unseen[j], expected.At(i, j)+p.count*rest.At(i, j))
		}
	}
	return nil
}

// regress returns the slopes of the variables "on" against the variables
// "from", one row for each of on, and the covariance that is left.
func regress(cov mat.Symmetric, from, on []int) (slopes, rest *mat.Dense, err error) {
	known := mat.NewSymDense(len(from), nil)
	cross := mat.NewDense(len(from), len(on), nil)
	for i, a := range from {
		for j := i; j < len(from); j++ {
			known.SetSym(i, j, cov.At(a, from[j]))
		}
		for j, b := range on {
			cross.Set(i, j, cov.At(a, b))
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(known) {
		return nil, nil, errors.New("fit: covariance is not positive definite; is one measurement a multiple of another?")
	}
	var transposed mat.Dense
	if err := chol.SolveTo(&transposed, cross); err != nil {
		return nil, nil, fmt.Errorf("fit: %w", err)
	}
	slopes = mat.DenseCopyOf(transposed.T())
	rest = mat.NewDense(len(on), len(on), nil)
	rest.Mul(slopes, cross)
	for i, a := range on {
		for j, b := range on {
			rest.Set(i, j, cov.At(a, b)-rest.At(i, j))
		}
	}
	return slopes, rest, nil
}

func addSym(m *mat.SymDense, i, j int, v float64) {
	m.SetSym(i, j, m.At(i, j)+v)
}
