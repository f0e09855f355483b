package plan

import (
	"testing"
)

// A claim is what holds in every plan.
type claim struct {
	of  func(t *testing.T, p *Plan)
	all func(t *testing.T) // what all plans have among them; may be nil
}

// What is claimed of every plan holds in plans of all garments, in usual and unusual
// gauges, with room held in every way, and of any child.
func TestEveryPlan(t *testing.T) {
	claims := []claim{
		{of: holdsTogether}, instructionsAddUp(), {of: lengthsAreRows}, frontsAreAsLongAsTheBack(), edgesStayPlainAndYokesHaveRhythm(),
		{of: shortRowsAreCounted}, {of: edgesAreOfEveryGirth}, {of: saysErrors},
	}
	check := func(name string, p *Plan) {
		defer func() {
			if t.Failed() {
				t.Logf("%s: %+v", name, p.How)
			}
		}()
		for _, c := range claims {
			c.of(t, p)
		}
	}
	everyPlan(t, check)
	everyHeld(t, check)
	eachVariant(t, check)
	for _, c := range claims {
		if c.all != nil {
			c.all(t)
		}
	}
}
