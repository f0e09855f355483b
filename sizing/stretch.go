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
	spread  []line     // of each measurement of the relations
	band    int        // the stretch lies past the middle of this band,
	share   line       // by this share of the way to that of the next
}

// A line is a value that changes evenly past the beginning of a stretch.
type line struct{ start, slope float64 }

func (l line) at(past float64) float64 { return l.start + past*l.slope }

// newStretches cuts all heights into stretches.
func (b *basis) newStretches() []stretch {
	cuts := append([]float64{0}, b.rel.middle...)
	for i := range b.rel.spread {
		cuts = append(cuts, b.rel.spread[i].middles...)
	}
	for i := range b.methods {
		if c := b.methods[i].Curve; c != nil {
			_, high := c.Range()
			cuts = append(append(cuts, c.x...), math.Nextafter(high, math.Inf(1)))
		}
	}
	slices.Sort(cuts)
	var all []stretch
	for _, from := range slices.Compact(cuts) {
		s := stretch{from: from, medians: make([]*segment, len(b.methods)), spread: make([]line, len(b.rel.names))}
		for m := range s.medians {
			if c := b.methods[m].Curve; c != nil {
				if i := c.find(from); i >= 0 {
					s.medians[m] = &c.segments[i]
				}
			}
		}
		for v := range s.spread {
			s.spread[v] = b.rel.spread[v].from(from)
		}
		s.band, s.share = bandAt(b.rel.middle, from)
		all = append(all, s)
	}
	return all
}

// stretchAt finds the stretch that a height lies in.
func (b *basis) stretchAt(height float64) *stretch {
	after := sort.Search(len(b.stretches), func(i int) bool { return b.stretches[i].from > height })
	return &b.stretches[max(after-1, 0)]
}
