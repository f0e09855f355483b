package plan

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// trial draws how far the work is, and at most one change.
func (r chooser) trial(p *Plan) Trial {
	s := pick(r, p.Sections...)
	t := Trial{Done: []Done{{s.ID, r.IntN(s.Rows()*s.Copies + 1)}}}
	if later := p.Sections[slices.Index(p.Sections, s):]; len(later) > 1 && r.IntN(4) == 0 { // begun before the one above it is finished
		x := pick(r, later[1:]...)
		t.Done = append(t.Done, Done{x.ID, r.IntN(x.Rows()*x.Copies + 1)})
	}
	if s.Copies > 1 && len(t.Done) == 1 && r.IntN(3) == 0 { // a copy is worked otherwise than planned
		w := Worked{Section: s.ID, Rows: s.Rows() + pick(r, -2, 0, 1, 2, 5), Stitches: s.To() + 2*(r.IntN(5)-2)}
		if r.half() {
			w.Rows = 0
		} else if r.half() {
			w.Stitches = 0
		}
		t.Done[0].Rows = max(1, w.Rows) + r.IntN(s.Rows())
		t.Worked = []Worked{w}
		return t
	}
	near := pick(r, s, s, pick(r, p.Sections...))
	ch := Change{Section: near.ID}
	switch r.IntN(4) {
	case 0:
		ch.LongerCm = r.between(-8, 8)
	case 1:
		ch.WiderCm = r.between(-6, 8)
	case 2:
		of := p.limbOf(near.ID)
		var marks []Landmark
		for _, l := range Landmarks {
			if _, err := p.beyondCm(of, l); err == nil {
				marks = append(marks, l)
			}
		}
		if len(marks) == 0 {
			return t
		}
		ch.Ends = &End{Mark: pick(r, marks...)}
		planned, _ := p.beyondCm(of, ch.Ends.Mark)
		ch.Ends.BeyondCm = planned + r.between(-4, 6)
		if r.half() {
			cm := r.between(5, 30)
			ch.Ends.FromHereCm, ch.Ends.BeyondCm = &cm, r.between(-3, 3)
		}
	default:
		return t
	}
	t.Changes = []Change{ch}
	return t
}

// A count of work, row by row.
type count struct {
	rows, stitches int
	area           float64
}

func (c *count) add(s *Section, rows []row, times int) {
	for _, r := range rows {
		c.rows += times
		c.stitches += times * r.worked
		c.area += float64(times*r.worked) * s.Gauge.StitchWidthCm() * s.Gauge.RowHeightCm()
	}
}

// What is left of any work, changed in any way that can be, adds up row by row: what is
// worked stays up to where it is ripped back; the steps of the rest work the rows that are
// left; each section begins on what the one above ends on; one section is as much longer or
// wider as is nearest to what was asked, and all lengths, girths and yarn move as their
// rows and stitches do.
func TestRemainingOfAnyPlan(t *testing.T) {
	said, changed := 0, map[string]int{}
	randomPlans(t, manyPlans, func(name string, p *Plan) {
		r := chooser{rand.New(rand.NewPCG(uint64(len(name)), uint64(p.Stitches())))}
		for range 3 {
			trial := r.trial(p)
			got, err := p.Remaining(trial)
			if err != nil {
				said++
				continue
			}
			x := &replanned{t: t, p: p, trial: trial, r: got, name: fmt.Sprintf("%s, %+v", name, trial)}
			x.look()
			changed[x.what()]++
			if t.Failed() {
				t.FailNow()
			}
		}
	})
	for _, what := range []string{"nothing", "worked", "longer", "wider", "ends", "ends from here"} {
		require.Greater(t, changed[what], 10, what)
	}
}
