package plan

import (
	"slices"

	"growtuck/data"
	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// A GradedSection is the same section of every size.
type GradedSection struct {
	ID    string
	Sizes []*Section // nil where a size has none
	Steps []GradedStep
}

// Any is the section of the last size that has it.
func (s GradedSection) Any() *Section {
	for _, x := range slices.Backward(s.Sizes) {
		if x != nil {
			return x
		}
	}
	return nil
}

// A GradedStep is the same step of every size; its kind may differ.
type GradedStep struct {
	ID    string
	Sizes []*Step // nil where a size has none
}

// A GradedPart is a finished measurement of every size.
type GradedPart struct {
	Part  data.Part
	Sizes []*Part // nil where a size has none
}

// align puts the sections, steps and parts of all sizes side by side.
func align(labels []string, plans []*Plan) *Graded {
	g := &Graded{Labels: labels, Plans: plans}
	ids := make([][]string, len(plans))
	for i, p := range plans {
		for _, s := range p.Sections {
			ids[i] = append(ids[i], s.ID)
		}
	}
	for _, id := range merged(ids) {
		g.Sections = append(g.Sections, g.section(id))
	}
	for _, x := range plans[0].Parts {
		part := GradedPart{Part: x.Line.Part, Sizes: make([]*Part, len(plans))}
		for i, p := range plans {
			if size, ok := p.Part(x.Line.Part.Part); ok {
				part.Sizes[i] = &size
			}
		}
		g.Parts = append(g.Parts, part)
	}
	g.alike()
	return g
}

// merged is the order of all ids, each after the one it followed first.
func merged(lists [][]string) []string {
	var all []string
	for _, list := range lists {
		at := -1
		for _, id := range list {
			if i := slices.Index(all, id); i >= 0 {
				at = max(at, i)
				continue
			}
			at++
			all = slices.Insert(all, at, id)
		}
	}
	return all
}

func (g *Graded) section(id string) GradedSection {
	out := GradedSection{ID: id, Sizes: make([]*Section, len(g.Plans))}
	for i, p := range g.Plans {
		if s, ok := p.Section(id); ok {
			out.Sizes[i] = s
		}
	}
	out.Steps = Alike(out.Sizes)
	return out
}

// Alike puts the steps of a section of several sizes side by side; nil is a size that
// does not have it.
func Alike(sizes []*Section) []GradedStep {
	ids := make([][]string, len(sizes))
	for i, s := range sizes {
		if s == nil {
			continue
		}
		for _, step := range s.Steps {
			ids[i] = append(ids[i], step.ID)
		}
	}
	var steps []GradedStep
	for _, id := range merged(ids) {
		step := GradedStep{ID: id, Sizes: make([]*Step, len(sizes))}
		for i, s := range sizes {
			if s != nil {
				step.Sizes[i] = s.stepOf(id)
			}
		}
		steps = append(steps, step)
	}
	return steps
}

// alike notes sizes that come out with the girth of the one before.
func (g *Graded) alike() {
	for _, id := range []string{"chest", "hip"} {
		var run []stitch.Finished
		for _, p := range g.Plans {
			if x, ok := p.Part(id); ok {
				run = append(run, stitch.Finished{Count: x.Count, SizeCm: x.SizeCm, WantCm: x.WantCm})
			}
		}
		if len(run) != len(g.Labels) {
			continue
		}
		for _, i := range stitch.SameCounts(run) {
			g.Notes = append(g.Notes, sizing.NewFact("sizes-alike", g.Labels[i], id, g.Labels[i-1]))
		}
	}
}
