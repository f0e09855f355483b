package tell

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

// inBoth are the crafts of the patterns that are held as files, with a swatch of each.
var inBoth = []plan.How{
	{Craft: plan.Crochet, Gauge: stitch.Gauge{StitchesPer10Cm: 16, RowsPer10Cm: 18}},
	{Craft: plan.Knit, Gauge: stitch.Gauge{StitchesPer10Cm: 22, RowsPer10Cm: 30}, Rib: &stitch.Gauge{StitchesPer10Cm: 26, RowsPer10Cm: 32}},
}

// swatched is how a garment is worked, with a ball and a swatch.
func swatched(h plan.How) plan.How {
	h.Ball, h.Swatch = stitch.Ball{Grams: 50, Metres: 125}, stitch.YarnSwatch{WidthCm: 10, HeightCm: 10, Grams: 5}
	h.Stretch = map[string]float64{"neck": 1.5, "cuff": 1.5, "ankle": 1.5, "brim": 1.3}
	return h
}

// A short sleeve ends nowhere near the wrist, nor a short leg at the heel.
func TestShortLimbsAreTriedOnWhereTheyEnd(t *testing.T) {
	ref := samples.Reference(t)
	for _, how := range inBoth {
		var out bytes.Buffer
		p, err := plan.Make(samples.Finish(t, samples.BodyAt(t, "2"), samples.Spec("romper")), how)
		require.NoError(t, err)
		require.NoError(t, Style{}.Plan(ref, sizing.Child{}, p, nil).Write(&out, "markdown", 0))
		for _, far := range []string{"wrist bone", "thumb", "heel"} {
			require.NotContains(t, out.String(), far)
		}
		require.Equal(t, 2, strings.Count(out.String(), "it lies close, and leaves no mark"))
		require.Contains(t, out.String(), " cm long under the arm. Work the other")
	}
}

// Whole patterns, as files to be read by someone with hook or needles in mind: a baby's
// pram suit, a cardigan in five sizes, a raglan pullover in stripes, a hat and mittens.
func TestPatternGoldens(t *testing.T) {
	ref := samples.Reference(t)
	for _, how := range inBoth {
		how = swatched(how)
		write := func(name string, d Document) {
			var out bytes.Buffer
			require.NoError(t, d.Write(&out, "markdown", 0))
			golden(t, "patterns/"+name+"-"+string(how.Craft)+".md", out.String())
		}
		single := func(name string, c sizing.Child, f *sizing.Finished, h plan.How) {
			p, err := plan.Make(f, h)
			require.NoError(t, err)
			write(name, Style{}.Plan(ref, c, p, nil))
		}
		baby := samples.Spec("one-piece-hooded")
		baby.Layer, baby.Nappy = "indoor", true
		single("pram-suit", sizing.Child{Name: "Noor", Sex: sizing.Girl, AgeYears: 22.0 / 12}, samples.Finish(t, samples.Baby(t), baby), how)

		striped := how
		striped.Construction, striped.Stripes = plan.Raglan, []plan.Stripe{{Rows: 4, Colour: "red"}, {Rows: 2, Colour: "white"}}
		striped.Colours = []plan.PartColour{{Part: plan.Ribbing, Colour: "blue"}}
		striped.Pace = plan.Pace{Per10Min: 120, HoursADay: 1, From: time.Date(2026, 11, 1, 0, 0, 0, 0, time.UTC), By: time.Date(2026, 12, 24, 0, 0, 0, 0, time.UTC)}
		single("pullover", sizing.Child{Name: "Ada"}, samples.Finish(t, samples.BodyAt(t, "8"), samples.Spec("pullover")), striped)
		single("hat", sizing.Child{Name: "Otto"}, samples.Finish(t, samples.BodyAt(t, "3"), samples.Spec("hat")), how)
		single("mittens", sizing.Child{Name: "Otto"}, samples.Finish(t, samples.BodyAt(t, "3"), samples.Spec("mittens")), how)

		buttons := how
		buttons.Closure = plan.Buttons
		g, err := plan.Grade(samples.Sizes, samples.FinishedRun(t, samples.Sizes, samples.Spec("cardigan")), buttons)
		require.NoError(t, err)
		write("cardigan", Style{}.Graded(ref, g))
	}
}
