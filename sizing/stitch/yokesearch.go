package stitch

import (
	"cmp"
	"math"
	"slices"
)

// A candidate is a count and what its size costs.
type candidate struct {
	n    int
	cost float64
}

// yokeSearch looks for the counts of least cost. All costs are squares of
// errors, each from one count alone, so candidates come in order of cost and a
// branch ends as soon as it costs as much as the best plan known: what is left
// out cannot be better. Body, sleeve, underarm and neck fix the increases;
// the depth must then hold enough rows for them.
type yokeSearch struct {
	t                                    YokeTarget
	necks, bodies, sleeves, arms, depths []candidate
	mostRows                             int // of the depths, that may increase
	leastNeck, mostNeck                  int
}

// yokeCounts is one plan in whole stitches and rows.
type yokeCounts struct {
	neck, body, sleeve, arm, rows int

	rhythm rhythm // circular yoke

	neckSleeve, bodyGain, sleeveGain int // raglan: at the neck; increases on each side of a line
}

func newYokeSearch(t YokeTarget) (*yokeSearch, error) {
	s := &yokeSearch{t: t}
	w, h := t.Gauge.StitchWidthCm(), t.Gauge.RowHeightCm()
	for _, c := range []struct {
		into            *[]candidate
		m               Multiple
		wantCm, leastCm float64
		unitCm, weight  float64
	}{
		{&s.necks, t.Neck, t.NeckCm, t.NeckLeastCm, w, t.Weights.Neck},
		{&s.bodies, t.Body, t.BodyCm, t.BodyLeastCm, w, t.Weights.Body},
		{&s.sleeves, t.Sleeve, t.SleeveCm, t.SleeveLeastCm, w, t.Weights.Sleeve},
		{&s.arms, Plain, t.UnderarmCm, 0, w, t.Weights.Underarm},
		{&s.depths, t.Depth, t.DepthCm, t.DepthLeastCm, h, t.Weights.Depth},
	} {
		var err error
		if *c.into, err = candidates(c.m, c.wantCm, c.leastCm, c.unitCm, c.weight); err != nil {
			return nil, err
		}
	}
	s.leastNeck, s.mostNeck = s.necks[0].n, s.necks[0].n
	for _, n := range s.necks {
		s.leastNeck, s.mostNeck = min(s.leastNeck, n.n), max(s.mostNeck, n.n)
	}
	for _, d := range s.depths {
		s.mostRows = max(s.mostRows, increaseRows(d.n, t.RightSideOnly))
	}
	return s, nil
}

// candidates lists the counts of a multiple within searchShare of a size, or
// the nearest on either side, none under the floor, the cheapest first.
func candidates(m Multiple, wantCm, leastCm, unitCm, weight float64) ([]candidate, error) {
	want, floor := wantCm/unitCm, leastCm/unitCm
	first, last := m.bounds(want, floor)
	if err := checkRange("count for "+num(wantCm)+" cm", float64(last), 1, maxCount, ""); err != nil {
		return nil, err
	}
	list := make([]candidate, 0, (last-first)/m.repeat()+1)
	for n := first; n <= last; n += m.repeat() {
		e := float64(n)*unitCm - wantCm
		list = append(list, candidate{n, weight * e * e})
	}
	slices.SortFunc(list, func(a, b candidate) int {
		if c := cmp.Compare(a.cost, b.cost); c != 0 {
			return c
		}
		if c := cmp.Compare(math.Abs(float64(a.n)-want), math.Abs(float64(b.n)-want)); c != 0 {
			return c
		}
		return cmp.Compare(b.n, a.n)
	})
	return list, nil
}

// bounds are the least and the greatest count looked at.
func (m Multiple) bounds(want, floor float64) (first, last int) {
	below, above := m.neighbours(want)
	_, low := m.neighbours(want * (1 - searchShare))
	high, _ := m.neighbours(want * (1 + searchShare))
	if below == 0 {
		below = above
	}
	most := searchCounts * m.repeat()
	first, last = max(min(low, below), below-most), min(max(high, above), above+most)
	if floor > 0 {
		_, f := m.neighbours(floor)
		first = max(first, f)
		last = max(last, first)
	}
	return first, last
}

// An incumbent is the best plan found so far.
type incumbent struct {
	counts yokeCounts
	cost   float64
	ok     bool
}

func noPlan() incumbent { return incumbent{cost: math.Inf(1)} }

// worseThan reports that a plan of a cost would be better. It leaves room for
// what sums of floats leave behind, so that equal plans do not displace each
// other.
func (p incumbent) worseThan(cost float64) bool { return better(cost, p.cost) }

func better(cost, best float64) bool {
	return math.IsInf(best, 1) || cost < best-1e-9*max(1, best)
}

func (s *yokeSearch) balance(front, back int) float64 {
	fronts := front
	if s.t.FrontOpening {
		fronts = 2*fronts + s.t.EdgeStitches
	}
	e := float64(back-fronts) * s.t.Gauge.StitchWidthCm()
	return s.t.Weights.Balance * e * e
}

// reaches reports whether some neck grows into the yoke by at most so many
// increases.
func (s *yokeSearch) reaches(yoke, most int) bool {
	return yoke >= s.leastNeck && yoke-s.mostNeck <= most
}

// circular runs the search for a circular yoke.
func (s *yokeSearch) circular() incumbent {
	if s.t.neverMeets() {
		return noPlan()
	}
	return s.search(s.t.maxPerRound*s.mostRows, s.tryNeck)
}

// search goes through bodies, sleeves, underarms and necks, the nearest first, and
// leaves off where none can be better than what try has found. most is how many
// stitches the rows can add.
func (s *yokeSearch) search(most int, try func(best *incumbent, c yokeCounts, yoke int, cost float64)) incumbent {
	t, best := s.t, noPlan()
	for _, b := range s.bodies {
		if !best.worseThan(b.cost) {
			break
		}
		for _, sl := range s.sleeves {
			if !best.worseThan(b.cost + sl.cost) {
				break
			}
			for _, u := range s.arms {
				cost := b.cost + sl.cost + u.cost
				if !best.worseThan(cost) {
					break
				}
				front, back, fits := splitBody(b.n-2*u.n, t.FrontOpening, t.EdgeStitches)
				yoke := yokeTotal(b.n, sl.n, u.n)
				if !fits || u.n >= sl.n || !s.reaches(yoke, most) {
					continue
				}
				cost += s.balance(front, back)
				for _, n := range s.necks {
					if !best.worseThan(cost + n.cost) {
						break
					}
					try(&best, yokeCounts{neck: n.n, body: b.n, sleeve: sl.n, arm: u.n}, yoke, cost+n.cost)
				}
			}
		}
	}
	return best
}

// tryNeck keeps a plan if the increases from neck to yoke can be made and it
// is the best.
func (s *yokeSearch) tryNeck(best *incumbent, c yokeCounts, yoke int, cost float64) {
	increases := yoke - c.neck
	if increases < 0 {
		return
	}
	for _, d := range s.depths {
		if !best.worseThan(cost + d.cost) {
			return
		}
		r, ok := s.t.rhythm(c.neck, increases, d.n)
		if !ok {
			continue
		}
		if total := cost + d.cost + s.rhythmCost(r); best.worseThan(total) {
			c.rows, c.rhythm = d.n, r
			*best = incumbent{c, total, true}
		}
	}
}

// rhythmCost is what a rhythm costs beside errors of size.
func (s *yokeSearch) rhythmCost(r rhythm) float64 {
	w := s.t.Gauge.StitchWidthCm()
	return s.t.Weights.Rhythm * r.cost * w * w
}

// neverMeets reports multiples whose counts cannot differ by whole rounds of a
// fixed number of increases, whatever the counts: an odd neck, an even body
// and 6 a round.
func (t YokeTarget) neverMeets() bool {
	if t.minPerRound != t.maxPerRound {
		return false
	}
	g := gcd(t.minPerRound, t.Body.repeat())
	g = gcd(gcd(g, 2*t.Sleeve.repeat()), gcd(4, t.Neck.repeat()))
	return (yokeTotal(t.Body.Edge, t.Sleeve.Edge, 0)-t.Neck.Edge)%g != 0
}

func (s *yokeSearch) split(c yokeCounts) Split {
	front, back, _ := splitBody(c.body-2*c.arm, s.t.FrontOpening, s.t.EdgeStitches)
	return Split{FrontOpening: s.t.FrontOpening, Yoke: yokeTotal(c.body, c.sleeve, c.arm), Front: front, Back: back,
		SleevePart: c.sleeve - c.arm, Underarm: c.arm, Body: c.body, Sleeve: c.sleeve}
}

func (s *yokeSearch) fits(c yokeCounts) (neck, body, sleeve, depth, arm Finished) {
	g, t := s.t.Gauge, s.t
	return Finished{c.neck, g.WidthCm(c.neck), t.NeckCm}, Finished{c.body, g.WidthCm(c.body), t.BodyCm},
		Finished{c.sleeve, g.WidthCm(c.sleeve), t.SleeveCm}, Finished{c.rows, g.HeightCm(c.rows), t.DepthCm},
		Finished{c.arm, g.WidthCm(c.arm), t.UnderarmCm}
}

// cost is what a plan misses by target.
func (s *yokeSearch) cost(c yokeCounts) YokeCost {
	neck, body, sleeve, depth, arm := s.fits(c)
	w, sp := s.t.Weights, s.split(c)
	square := func(weight float64, f Finished) float64 { return weight * f.errorCm() * f.errorCm() }
	return YokeCost{Neck: square(w.Neck, neck), Body: square(w.Body, body), Sleeve: square(w.Sleeve, sleeve),
		Depth: square(w.Depth, depth), Underarm: square(w.Underarm, arm), Balance: s.balance(sp.Front, sp.Back), Rhythm: s.rhythmCost(c.rhythm)}
}
