package plan

import (
	"testing"

	"growtuck/testdata/proof"
)

// A claim is what holds in every plan.
type claim struct {
	of  func(t *testing.T, p *Plan)
	all func(t *testing.T) // what all plans have among them; may be nil
}

func claims() []claim {
	return []claim{
		{of: holdsTogether}, {of: everyRowIsInOneStep}, instructionsAddUp(), {of: lengthsAreRows}, frontsAreAsLongAsTheBack(), edgesStayPlainAndYokesHaveRhythm(),
		{of: shortRowsAreCounted}, {of: edgesAreOfEveryGirth}, {of: saysErrors}, {of: partsAreSaid}, {of: frontsAreEdged},
		{of: ribbingIsAsDeep}, {of: edgesAreNearest}, {of: lengthsAreNearest}, {of: yarnIsOfTheArea}, {of: roomIsHeld}, {of: foldsInOrder}, {of: draftSaysThePlan}, {of: necksAreLowInFront}, {of: partsHaveTheirShares},
		{of: sectionsCanBeAdjusted}, {of: rowsAreColoured}, {of: bodiesAreLaidOut}, {of: girthsAreNearest}, {of: sectionsJoin}, {of: edgesLetThrough},
	}
}

// checking checks the claims, and says of which plan one does not hold.
func checking(t *testing.T, claims []claim) func(name string, p *Plan) {
	return func(name string, p *Plan) {
		defer func() {
			if t.Failed() {
				t.Logf("%s: %+v", name, p.How)
			}
		}()
		for _, c := range claims {
			c.of(t, p)
		}
	}
}

// What is claimed of every plan holds in plans of children and figures that nobody picked.
func TestAnyPlanHoldsTogether(t *testing.T) {
	randomPlans(t, manyPlans, checking(t, claims()))
}

// And in those of all garments, with room held in every way: by default in one of three.
func TestEveryPlan(t *testing.T) {
	all, n := claims(), 0
	check := checking(t, all)
	third := func(name string, p *Plan) {
		if n++; n%3 == 0 || proof.Whole() {
			check(name, p)
		}
	}
	everyPlan(t, third)
	everyHeld(t, third)
	eachVariant(t, check)
	for _, c := range all {
		if c.all != nil {
			c.all(t)
		}
	}
}
