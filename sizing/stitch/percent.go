package stitch

// Percentages of the seamless yoke of E. Zimmermann (Knitting Without Tears,
// Knitting Around; seen second hand), all shares of K, the stitches round the
// body. They tie lengths to the chest: on a tall slim child take widths alone
// from them.
type Percentages struct {
	UpperArm, Wrist, Underarm, Neck float64
	YokeDepth                       float64 // of the body's girth
}

// ZimmermannPercentages are the system's own; the neck is that of a grown-up.
// For a child the neck is 0.5, for an infant up to 0.6.
var ZimmermannPercentages = Percentages{UpperArm: 0.33, Wrist: 0.20, Underarm: 0.08, Neck: 0.40, YokeDepth: 0.25}

// The decrease rounds from joined yoke to neck, as what each leaves: the later
// and the older of the two published sets.
var (
	ZimmermannDecreases      = []float64{3.0 / 4, 2.0 / 3, 3.0 / 5}
	ZimmermannOlderDecreases = []float64{2.0 / 3, 2.0 / 3, 2.0 / 3}
)

// A PercentYoke is a yoke by percentages.
type PercentYoke struct {
	K                         int // stitches round the body
	UpperArm, Wrist, Underarm int
	Joined                    int // body and sleeves on one round, underarms set aside
	Neck                      int
	YokeDepthCm               float64
	YokeRows                  int
}

// PlanPercentYoke counts a yoke by percentages from the finished body.
func PlanPercentYoke(g Gauge, bodyCm float64, pc Percentages) (PercentYoke, error) {
	for _, x := range []float64{pc.UpperArm, pc.Wrist, pc.Underarm, pc.Neck, pc.YokeDepth} {
		if err := checkRange("percentage", x, 0.01, 1, "of the body"); err != nil {
			return PercentYoke{}, err
		}
	}
	k, err := g.FitWidth(bodyCm, Plain, Nearest)
	if err != nil {
		return PercentYoke{}, err
	}
	of := func(share float64) int { return nearestInt(float64(k.Count) * share) }
	y := PercentYoke{K: k.Count, UpperArm: of(pc.UpperArm), Wrist: of(pc.Wrist), Underarm: of(pc.Underarm), Neck: of(pc.Neck),
		YokeDepthCm: bodyCm * pc.YokeDepth}
	y.Joined = YokeTotal(y.K, y.UpperArm, y.Underarm)
	y.YokeRows = nearestInt(g.Rows(y.YokeDepthCm))
	return y, nil
}

// Reduce gives the count after each of a yoke's decrease rounds, each leaving a
// share of the one before. Fractions are kept from round to round and each
// count rounded once.
func Reduce(stitches int, leaves []float64) ([]int, error) {
	if err := checkCount("stitches of the yoke", stitches, 1); err != nil {
		return nil, err
	}
	counts := make([]int, len(leaves))
	x := float64(stitches)
	for i, share := range leaves {
		if err := checkRange("what a decrease round leaves", share, 0.5, 1, ""); err != nil {
			return nil, err
		}
		x *= share
		counts[i] = nearestInt(x)
	}
	return counts, nil
}
