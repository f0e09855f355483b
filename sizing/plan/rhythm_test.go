package plan

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing/stitch"
)

// Nothing is shaped in an edge stitch of turned rows, a yoke has at most two rhythms
// and a raglan three, and what a knitted crown loses it loses in every 2nd round.
func edgesStayPlainAndYokesHaveRhythm() claim {
	plain, yokes, one := 0, 0, 0
	return claim{of: func(t *testing.T, p *Plan) {
		edges := func(s *Section, step Step, a stitch.Across) {
			if step.InRounds || len(a.Gaps) == 0 {
				return
			}
			uses := 1
			if a.Change < 0 {
				uses = 2
			}
			require.Positive(t, a.Trail, "%s %s: the last stitch is shaped", s.ID, step.ID)
			require.Positive(t, a.Gaps[0]-uses-a.Trail, "%s %s: the first stitch is shaped", s.ID, step.ID)
			plain++
		}
		for _, s := range p.Sections {
			for _, step := range s.Steps {
				if step.Across != nil {
					edges(s, step, *step.Across)
				}
				if step.Repeat == nil {
					continue
				}
				for i := range step.Repeat.Times {
					edges(s, step, step.Repeat.Across(i))
				}
				if step.Kind == "crown-decrease" {
					require.Equal(t, 2, step.Repeat.Every)
				}
			}
		}
		if p.Circular != nil && len(p.Circular.Phases) > 0 {
			yokes++
			require.LessOrEqual(t, len(p.Circular.Phases), 2)
			if len(p.Circular.Phases) == 1 {
				one++
			}
		}
	}, all: func(t *testing.T) {
		require.Greater(t, plain, 1000)
		require.Greater(t, float64(one), 0.9*float64(yokes), "nine yokes in ten are a sentence")
	}}
}

// Short rows leave no stitch off the work, and those of the neck go round it once.
func shortRowsAreCounted(t *testing.T, p *Plan) {
	s, ok := p.Section("back-neck")
	if !ok {
		return
	}
	require.Equal(t, s.From, s.To())
	last := len(s.rows) - 1
	require.Equal(t, 1, s.Rows()%2)
	for i, r := range s.rows {
		require.Equal(t, s.From, r.after)
		require.LessOrEqual(t, r.worked, s.From, "row %d", i+1)
	}
	// The first row leaves as many as the first pair's other end lies from the edge;
	// the last goes from the last turn to the other end.
	lead := s.rows[0].worked - s.rows[1].worked
	require.Equal(t, s.From, s.rows[0].worked+lead)
	require.Greater(t, s.rows[last].worked, s.rows[1].worked)
}
