package stitch

// Figures of the trade that the tests plan with: those of the table of practice.
const (
	ribShare      = 0.9
	hoodRound     = 0.75
	flatTolerance = 0.1
	bridgeShare   = 0.1
	zipperExactCm = 0.5
	zipperHandCm  = 3.0
	plainMargin   = 0.1
	moreMargin    = 0.2
)

var (
	stockedZippersIn = []float64{5, 7, 9, 12, 14, 16, 18, 20, 22, 24}
	yarnUses         = []YarnUse{{"worsted", 16, 20, 0.8, 1.1}, {"DK", 21, 24, 1, 1.3}, {"fingering", 27, 32, 1.3, 1.7}}
)

// customary fills in what is customary.
func customary(t YokeTarget) YokeTarget {
	if t.UnderarmCm == 0 {
		t.UnderarmCm = 0.08 * t.BodyCm
	}
	if t.IncreaseMost == 0 {
		t.IncreaseMost = 1.5
	}
	if t.SleeveNeckShare == 0 {
		t.SleeveNeckShare = 1.0 / 6
	}
	return t
}

func customaryRun(run []YokeTarget) []YokeTarget {
	var all []YokeTarget
	for _, t := range run {
		all = append(all, customary(t))
	}
	return all
}

func customaryHood(t HoodTarget) HoodTarget {
	t.BackShare, t.GrowthMost, t.IncreaseCm, t.CrownShare = 2.0/3, 0.25, 4, 0.25
	if t.CrownCm == 0 {
		t.CrownCm = 10
	}
	return t
}
