package sizing_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/proof"
)

// plausibleBody makes a body from some measurements of a made-up child: a height,
// and perhaps a weight, a chest or an inside leg as children of that height have.
func plausibleBody(t *testing.T, rng *rand.Rand) *sizing.Body {
	sex := []sizing.Sex{sizing.Boy, sizing.Girl, sizing.Both}[rng.IntN(3)]
	height := 62 + 112*rng.Float64()
	usual := estimate(t, sex, map[string]float64{"height": height})
	own := map[string]float64{"height": height}
	for _, id := range []string{"weight", "chest", "inside_leg", "head", "arm_length", "trunk"} {
		if r, ok := usual.Get(id); ok && rng.IntN(3) == 0 {
			own[id] = r.Value * math.Exp(0.6*rng.NormFloat64()*math.Log(max(r.High, r.Value)/max(min(r.Low, r.Value), 1))/2.563)
		}
	}
	b, err := reference(t).Estimate(sizing.Child{Sex: sex, Own: own})
	require.NoError(t, err, "%s %v", sex, own)
	return b
}

// On plausible bodies, in every garment, fit and layer: no seat of a one-piece is
// narrower than its waist, no looser fit smaller than a closer one, no sleeve longer
// than the arm; and every body adds up.
func TestPlausibleBodiesFinishSoundly(t *testing.T) {
	ref := reference(t)
	bodies := 40
	if proof.Whole() {
		bodies = 5000
	}
	rng := rand.New(rand.NewPCG(18, 12))
	for n := range bodies {
		b := plausibleBody(t, rng)
		addsUp(t, b)
		for _, g := range ref.Garments() {
			for _, layer := range sizing.Layers {
				var closer *sizing.Finished
				for _, fit := range sizing.Fits {
					f, err := ref.Finish(b, sizing.Spec{Garment: g.ID, Fit: fit, Layer: layer})
					require.NoError(t, err, "%d %s", n, g.ID)
					finishedSoundly(t, f, closer)
					closer = f
				}
			}
		}
	}
}

// finishedSoundly compares the parts of a garment with each other and with those of
// a closer fit, if any.
func finishedSoundly(t *testing.T, f, closer *sizing.Finished) {
	t.Helper()
	what := func(part string) string {
		return f.Garment.ID + " " + string(f.Spec.Fit) + " " + string(f.Spec.Layer) + " " + part + " " + f.Body.Summary.String()
	}
	if waist, ok := f.Line("waist"); ok && f.Garment.Group == "one-piece" {
		hip, ok := f.Line("hip")
		require.True(t, ok, what("hip"))
		require.GreaterOrEqual(t, hip.Finished+hip.Body.Value*1e-9, waist.Finished-max(0, waist.Body.Value-hip.Body.Value), what("hip"))
	}
	if sleeve, ok := f.Line("sleeve_length"); ok {
		if arm, ok := f.Body.Get("arm_length"); ok {
			require.LessOrEqual(t, sleeve.Finished, arm.Value, what("sleeve_length"))
		}
	}
	if closer == nil {
		return
	}
	for _, l := range f.Lines {
		before, ok := closer.Line(l.Part.Part)
		require.True(t, ok, what(l.Part.Part))
		require.GreaterOrEqual(t, l.Finished+1e-9, before.Finished, what(l.Part.Part))
	}
}

// addsUp checks that what belongs together on a body does.
func addsUp(t *testing.T, b *sizing.Body) {
	t.Helper()
	sum := func(whole string, parts ...string) {
		t.Helper()
		total := 0.0
		for _, p := range parts {
			r, ok := b.Get(p)
			if !ok {
				return
			}
			total += r.Value
		}
		if r, ok := b.Get(whole); ok {
			require.InDelta(t, r.Value, total, 0.1, "%s of %s", whole, b.Summary)
		}
	}
	sum("trunk", "nape_to_waist", "rise")
	sum("height", "crown_to_throat", "suprasternale_height")
	height, _ := b.Get("height")
	leg, hasLeg := b.Get("inside_leg")
	if trunk, ok := b.Get("trunk"); ok && hasLeg { // the trunk was not surveyed on the tallest
		require.Less(t, trunk.Value+leg.Value, height.Value, "%s", b.Summary)
		require.Greater(t, trunk.Value+leg.Value, 0.7*height.Value, "%s", b.Summary)
	}
	for _, r := range b.Readings {
		require.Positive(t, r.Value, r.Measurement.ID)
		require.LessOrEqual(t, r.Low, r.Value, r.Measurement.ID)
		if r.Spread != sizing.NoSpread {
			require.GreaterOrEqual(t, r.High, r.Value, r.Measurement.ID)
		}
	}
}
