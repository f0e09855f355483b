package plan

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

// Every garment is graded: the plan of each size is a complete plan, with
// the same repeats in the yoke, and turned rows of one parity.
func TestGrade(t *testing.T) {
	for _, g := range samples.Reference(t).Garments() {
		for _, how := range []How{singleCrochet, doubleCrochet, stocking} {
			for _, k := range Constructions {
				how.Construction = k
				t.Run(g.ID+" "+string(how.Craft)+" "+string(k), func(t *testing.T) {
					run := samples.FinishedRun(t, samples.Sizes, samples.Spec(g.ID))
					graded, err := Grade(samples.Sizes, run, how)
					require.NoError(t, err)
					require.Len(t, graded.Plans, len(run))
					yokeKept(t, graded)
					for _, s := range graded.Sections {
						aligned(t, graded, s)
						sameParity(t, graded, s.ID)
					}
				})
			}
		}
	}
}

func yokeKept(t *testing.T, g *Graded) {
	t.Helper()
	for _, p := range g.Plans {
		if p.Circular != nil {
			require.Equal(t, g.Plans[0].Circular.PerRound, p.Circular.PerRound)
		}
		for _, x := range p.Parts {
			first, ok := g.Plans[0].Part(x.Line.Part.Part)
			require.True(t, ok)
			if x.Multiple.Repeat == 2 && first.Multiple.Repeat == 2 {
				require.Equal(t, first.Multiple == stitch.Odd && x.Multiple == stitch.Odd, x.Count%2 == 1 && first.Count%2 == 1, x.Line.Part.Part)
			}
		}
	}
}

// sameParity checks rows that are turned, where a size that ends on the other
// side would begin the next part wrong.
func sameParity(t *testing.T, g *Graded, id string) {
	t.Helper()
	switch id {
	case "yoke", "back", "front", "body", "seat":
	default:
		return
	}
	odd := -1
	for _, p := range g.Plans {
		s, ok := p.Section(id)
		if !ok || s.InRounds {
			continue
		}
		if id == "front" {
			if _, slit := p.Section("slit"); slit {
				continue // its rows are what the slit leaves
			}
		}
		if odd >= 0 {
			require.Equal(t, odd, s.Rows()%2, "%s is turned, and its rows are odd and even", id)
		}
		odd = s.Rows() % 2
	}
}

// aligned checks that a section has the sections and steps of the plans, each
// in the place of its size.
func aligned(t *testing.T, g *Graded, s GradedSection) {
	t.Helper()
	require.NotEmpty(t, s.Steps, s.ID)
	require.Len(t, s.Sizes, len(g.Plans))
	require.NotNil(t, s.Any(), s.ID)
	for i, p := range g.Plans {
		section, ok := p.Section(s.ID)
		require.Equal(t, ok, s.Sizes[i] != nil, s.ID)
		if !ok {
			continue
		}
		require.Same(t, section, s.Sizes[i])
		var steps []Step
		for _, step := range s.Steps {
			require.Len(t, step.Sizes, len(g.Plans))
			if step.Sizes[i] != nil {
				require.Equal(t, step.ID, step.Sizes[i].ID)
				steps = append(steps, *step.Sizes[i])
			}
		}
		require.Equal(t, section.Steps, steps, "every step once, in its order")
	}
}

func TestGradedSizesGrow(t *testing.T) {
	graded, err := Grade(samples.Sizes, samples.FinishedRun(t, samples.Sizes, samples.Spec("cardigan")), singleCrochet)
	require.NoError(t, err)
	for i := 1; i < len(graded.Plans); i++ {
		small, _ := graded.Plans[i-1].Part("chest")
		large, _ := graded.Plans[i].Part("chest")
		require.Greater(t, large.Count, small.Count)
	}
}

func TestGradeRefuses(t *testing.T) {
	run := samples.FinishedRun(t, []string{"2", "4"}, samples.Spec("hat"))
	_, err := Grade([]string{"2"}, run, singleCrochet)
	require.ErrorContains(t, err, "1 labels for 2 sizes")
	_, err = Grade(nil, nil, singleCrochet)
	require.Error(t, err)
	_, err = Grade([]string{"2", "4"}, []*sizing.Finished{run[0], nil}, singleCrochet)
	require.Error(t, err)
	socks := samples.Finish(t, samples.BodyAt(t, "4"), samples.Spec("socks"))
	_, err = Grade([]string{"2", "4"}, []*sizing.Finished{run[0], socks}, singleCrochet)
	require.ErrorContains(t, err, "one garment")
	_, err = Grade([]string{"2", "4"}, run, How{Craft: Knit})
	require.ErrorContains(t, err, "stitch gauge")
}

// A repeat as wide as the step between sizes cannot tell them apart, and the
// notes say so.
func TestGradeNamesSizesThatComeOutAlike(t *testing.T) {
	how := singleCrochet
	how.Multiple = stitch.Multiple{Repeat: 24}
	labels := []string{"4", "5", "6"}
	graded, err := Grade(labels, samples.FinishedRun(t, labels, samples.Spec("vest")), how)
	require.NoError(t, err)
	alike := false
	for i := 1; i < len(labels); i++ {
		a, _ := graded.Plans[i-1].Part("chest")
		b, _ := graded.Plans[i].Part("chest")
		require.Zero(t, b.Count%24)
		if a.Count == b.Count {
			alike = true
			require.Contains(t, graded.Notes, sizing.NewFact("sizes-alike", labels[i], "chest", labels[i-1]))
		}
	}
	require.True(t, alike)
}

func TestMerged(t *testing.T) {
	require.Equal(t, []string{"a", "b", "x", "c"}, merged([][]string{{"a", "b", "c"}, {"a", "b", "x", "c"}}))
	require.Equal(t, []string{"a", "b"}, merged([][]string{{"b"}, {"a", "b"}}))
	require.Empty(t, merged(nil))
}
