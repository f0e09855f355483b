package plan

import (
	"fmt"
	"math"
	"slices"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// Graded is one garment over a run of sizes, side by side.
type Graded struct {
	Labels   []string
	Plans    []*Plan // one for each size
	Sections []GradedSection
	Parts    []GradedPart
	Notes    []sizing.Fact // about the run; those of a size are its plan's
}

// Grade plans one garment for a run of sizes. The increases of a yoke's round
// are the same in all, multiples are kept, and turned rows are all even or all
// odd, so that every size begins a part on the same side.
func Grade(labels []string, run []*sizing.Finished, how How) (*Graded, error) {
	if len(run) == 0 || len(labels) != len(run) {
		return nil, fmt.Errorf("%d labels for %d sizes: want at least one size, and a label for each", len(labels), len(run))
	}
	for _, f := range run[1:] {
		if f == nil || run[0] == nil || f.Garment.ID != run[0].Garment.ID {
			return nil, fmt.Errorf("a run of sizes must be of one garment")
		}
	}
	var best []*Plan
	bestCost := math.Inf(1)
	var first error
	ways := []stitch.Multiple{stitch.Even}
	if how.Craft == Crochet {
		ways = append(ways, stitch.Odd)
	}
	for _, rows := range ways {
		plans, cost, err := makeRun(labels, run, how, rows, nil)
		if err != nil && first == nil {
			first = err
		}
		if err == nil && cost < bestCost-1e-9 {
			best, bestCost = plans, cost
		}
	}
	if best == nil {
		return nil, first
	}
	return align(labels, best), nil
}

// makeRun plans all sizes with what they have in common, and sums what they
// miss.
func makeRun(labels []string, run []*sizing.Finished, how How, rows stitch.Multiple, alike map[Room]held) ([]*Plan, float64, error) {
	makers := make([]*maker, len(run))
	for i, f := range run {
		m, err := newMaker(f, how)
		if err != nil {
			return nil, 0, err
		}
		m.common.rows, m.common.held = rows, alike
		makers[i] = m
	}
	if err := commonYoke(labels, makers); err != nil {
		return nil, 0, err
	}
	plans, cost := make([]*Plan, len(run)), 0.0
	for i, m := range makers {
		p, err := m.make()
		if err != nil {
			return nil, 0, fmt.Errorf("size %s: %w", labels[i], err)
		}
		plans[i] = p
		for _, part := range p.Parts {
			cost += part.ErrorCm() * part.ErrorCm()
		}
	}
	if alike == nil {
		if alike := holdAlike(makers); alike != nil {
			return makeRun(labels, run, how, rows, alike)
		}
	}
	return plans, cost, nil
}

// holdAlike is how all sizes of a run hold their room, in as many rows: each room in the
// way of the size that has the least choice, and as the size that holds most of it. It
// is nil where they do so anyway.
func holdAlike(makers []*maker) map[Room]held {
	all, differ := make(map[Room]held), false
	for _, m := range makers {
		for _, room := range m.rooms {
			k := slices.IndexFunc(m.decisions, func(h held) bool { return h.room == room })
			h := held{room: room}
			if k >= 0 {
				h = m.decisions[k]
			}
			before, seen := all[room]
			differ = differ || seen && (h.way != before.way || h.below != before.below || !slices.Equal(h.folds, before.folds))
			if !seen || m.less(before, h) {
				all[room] = h
			}
		}
	}
	if !differ {
		return nil
	}
	return all
}

// less reports a decision that leaves less choice than the one before, or holds more.
func (m *maker) less(before, h held) bool {
	if before.way == h.way {
		return h.rows > before.rows || h.rows == before.rows && h.below > before.below
	}
	if before.way == "" || h.way == "" {
		return h.way == ""
	}
	ways := m.waysOf(h.room)
	return slices.Index(ways, h.way) > slices.Index(ways, before.way)
}

// commonYoke fixes the increases of a circular yoke's round for all sizes.
func commonYoke(labels []string, makers []*maker) error {
	m := makers[0]
	group := m.f.Garment.Group
	if m.how.Construction != Circular || !m.hasPart("sleeve_length") || group != "upper" && group != "one-piece" {
		return nil
	}
	targets := make([]stitch.YokeTarget, len(makers))
	for i, m := range makers {
		m.planEdges()
		t, err := m.yokeTarget(m.f.Garment.Opening == "front")
		if err != nil {
			return fmt.Errorf("size %s: %w", labels[i], err)
		}
		targets[i] = t
	}
	yokes, err := stitch.GradeYokes(targets)
	if err != nil {
		return err
	}
	for _, m := range makers {
		m.common.perRound = yokes[0].PerRound
	}
	return nil
}
