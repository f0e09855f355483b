package sizing

import (
	"math"
	"slices"
	"sort"
)

// A stretch is a range of heights over which nothing that estimates rest on
// goes from one piece to the next: no median from one cubic to another, no
// spread or correlation past the middle of a band. So one search finds what
// holds at a height, for all measurements.
type stretch struct {
	from    float64
	medians []*segment // of each measurement; nil where its median is not known by height
	// Of each measurement of the relations: its spread in the survey, and how it
	// goes with weight; see today.go.
	spread, slopes, rests, shifts []line
	low, high                     line // spread of the weight
	band                          int  // the stretch lies past the middle of this band,
	share                         line // by this share of the way to that of the next
}

// A line is a value that changes evenly past the beginning of a stretch.
type line struct{ start, slope float64 }

func (l line) at(past float64) float64 { return l.start + past*l.slope }

// newStretches cuts all heights into stretches.
func (b *basis) newStretches() []stretch {
	cuts := append([]float64{0}, b.rel.bands()...)
	for i := range b.methods {
		if c := b.methods[i].Curve; c != nil {
			_, high := c.Range()
			cuts = append(append(cuts, c.x...), math.Nextafter(high, inf))
		}
	}
	slices.Sort(cuts)
	var all []stretch
	cuts = slices.Compact(cuts)
	for i, from := range cuts {
		s := stretch{from: from, medians: make([]*segment, len(b.methods))}
		for m := range s.medians {
			if c := b.methods[m].Curve; c != nil {
				if i := c.find(from); i >= 0 {
					s.medians[m] = &c.kept()[i]
				}
			}
		}
		s.addLines(b.rel, from, cuts[min(i+1, len(cuts)-1)])
		s.band, s.share = bandAt(b.rel.middle, from)
		all = append(all, s)
	}
	return all
}

// addLines adds what the relations have from one height to another.
func (s *stretch) addLines(rel *relations, from, to float64) {
	between := func(at func(height float64) float64) line {
		l := line{start: at(from)}
		if to > from {
			l.slope = (at(to) - l.start) / (to - from)
		}
		return l
	}
	for v := range rel.names {
		s.spread = append(s.spread, between(rel.spread[v].at))
		s.slopes = append(s.slopes, between(func(h float64) float64 { return rel.slopeAt(v, h) }))
		s.rests = append(s.rests, between(func(h float64) float64 { return rel.restAt(v, h) }))
		s.shifts = append(s.shifts, between(func(h float64) float64 { return rel.shiftAt(v, h) }))
	}
	s.low = between(func(h float64) float64 { low, _ := rel.weightAt(h); return low })
	s.high = between(func(h float64) float64 { _, high := rel.weightAt(h); return high })
}

// stretchAt finds the stretch that a height lies in.
func (b *basis) stretchAt(height float64) *stretch {
	after := sort.Search(len(b.stretches), func(i int) bool { return b.stretches[i].from > height })
	return &b.stretches[max(after-1, 0)]
}
