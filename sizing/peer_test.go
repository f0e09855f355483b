package sizing_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"growtuck/sizing"
)

// bandBoys are the relations of boys in the lowest band of heights, as the
// table has them: spreads and correlations of ids.
func bandBoys(t testing.TB, ids []string) (sd []float64, r *mat.SymDense) {
	sd, r = make([]float64, len(ids)), mat.NewSymDense(len(ids), nil)
	for _, row := range tables(t).Relations {
		i, j := slices.Index(ids, row.A), slices.Index(ids, row.B)
		if row.Sex != "m" || i < 0 || j < 0 || row.LowCm == nil || *row.LowCm != 83 {
			continue
		}
		switch row.Statistic {
		case "sd":
			sd[i] = row.Value
			r.SetSym(i, i, 1)
		case "r":
			r.SetSym(i, j, row.Value)
		}
	}
	return sd, r
}

// The same conditional system by gonum: the log departures and spreads of what
// is wanted, given those of what is known.
type peer struct {
	sd       []float64
	r        *mat.SymDense
	rows     []*mat.VecDense // correlations of each wanted with the known
	known, n int
	chol     mat.Cholesky
	given    *mat.SymDense
	x        mat.VecDense
}

func (p *peer) solve(t testing.TB, z *mat.VecDense, mean, spread []float64) {
	for i := range p.known {
		for j := range i + 1 {
			p.given.SetSym(i, j, p.r.At(i, j))
		}
	}
	if !p.chol.Factorize(p.given) {
		t.Fatal("not positive definite")
	}
	for i := range p.n {
		row := p.rows[i]
		if err := p.chol.SolveVecTo(&p.x, row); err != nil {
			t.Fatal(err)
		}
		sd := p.sd[p.known+i]
		mean[i], spread[i] = sd*mat.Dot(&p.x, z), sd*math.Sqrt(1-mat.Dot(&p.x, row))
	}
}

var (
	peerKnown = []string{"chest", "weight", "arm_length"}
	peerWant  = []string{"waist", "hip", "forearm", "wrist", "thigh", "ankle", "head", "neck"}
)

func newPeer(t testing.TB) *peer {
	ids := slices.Concat(peerKnown, peerWant)
	p := &peer{known: len(peerKnown), n: len(peerWant), given: mat.NewSymDense(len(peerKnown), nil)}
	p.sd, p.r = bandBoys(t, ids)
	for i := range p.n {
		row := mat.NewVecDense(p.known, nil)
		for j := range p.known {
			row.SetVec(j, p.r.At(p.known+i, j))
		}
		p.rows = append(p.rows, row)
	}
	return p
}

// peerChild is low enough in the lowest band for no other to have a say: what
// is known of it, its departures in spreads, and the medians of what is wanted.
func peerChild(t testing.TB, p *peer) (own []float64, z *mat.VecDense, medians []float64) {
	usual := estimate(t, sizing.Boy, map[string]float64{"height": 97})
	own, z = []float64{97}, mat.NewVecDense(p.known, []float64{-1.1, 0.4, 0.9})
	for i, id := range peerKnown {
		own = append(own, get(t, usual, id).Value*math.Exp(z.AtVec(i)*p.sd[i]))
	}
	for _, id := range peerWant {
		medians = append(medians, get(t, usual, id).Value)
	}
	return own, z, medians
}

// An independent solution of the same system gives the same estimates.
func TestEstimateIsGonumsSolution(t *testing.T) {
	p := newPeer(t)
	own, z, medians := peerChild(t, p)
	mean, spread := make([]float64, p.n), make([]float64, p.n)
	p.solve(t, z, mean, spread)
	s, err := reference(t).Sizer(sizing.Bulk{Known: append([]string{"height"}, peerKnown...), Want: peerWant})
	require.NoError(t, err)
	out := make([]sizing.Figure, p.n)
	_, err = s.Size(sizing.Boy, 0, own, out)
	require.NoError(t, err)
	for i, f := range out {
		require.InEpsilon(t, medians[i]*math.Exp(mean[i]), f.Value, 1e-9, peerWant[i])
		require.InEpsilon(t, math.Exp(2*1.2815515655446004*spread[i]), f.High/f.Low, 1e-9, peerWant[i])
	}
}

// The figures of a child given height and three more, medians, ranges and all,
// beside gonum's solution of the conditional system alone.
func BenchmarkEstimateBesideGonum(b *testing.B) {
	p := newPeer(b)
	own, z, _ := peerChild(b, p)
	b.Run("growtuck, whole child", func(b *testing.B) {
		s, err := reference(b).Sizer(sizing.Bulk{Known: append([]string{"height"}, peerKnown...), Want: peerWant})
		require.NoError(b, err)
		out := make([]sizing.Figure, p.n)
		b.ReportAllocs()
		for b.Loop() {
			if _, err := s.Size(sizing.Boy, 0, own, out); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("gonum Cholesky, the system alone", func(b *testing.B) {
		mean, spread := make([]float64, p.n), make([]float64, p.n)
		b.ReportAllocs()
		for b.Loop() {
			p.solve(b, z, mean, spread)
		}
	})
}
