package schematic_test

import (
	"bytes"
	"image"
	"image/png"
	"io"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/schematic"
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

var most = image.Point{X: 600, Y: 400}

// Every garment is drawn within the size asked for, with a line for each part
// it has, and the same each time.
func TestEveryGarment(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	place, err := chart.Place("6", sizing.Both)
	require.NoError(t, err)
	for _, g := range ref.Garments() {
		f, err := ref.Finish(ref.BodyAt(place, sizing.Monotone), sizing.Spec{Garment: g.ID, Fit: "classic", Layer: "skin"})
		require.NoError(t, err)
		panel := schematic.Finished(f, plan.How{}, "cm")
		require.ElementsMatch(t, panel.Order, panel.Figure.Parts(), g.ID)
		raw, err := panel.PNG(most, schematic.SVGOptions{Key: true, Title: g.Title})
		require.NoError(t, err)
		img, err := png.Decode(bytes.NewReader(raw))
		require.NoError(t, err)
		require.LessOrEqual(t, img.Bounds().Dx(), most.X, g.ID)
		require.LessOrEqual(t, img.Bounds().Dy(), most.Y, g.ID)
		require.True(t, img.Bounds().Dx() == most.X || img.Bounds().Dy() == most.Y, "%s fills %v", g.ID, img.Bounds())
		again, err := panel.PNG(most, schematic.SVGOptions{Key: true, Title: g.Title})
		require.NoError(t, err)
		require.Equal(t, raw, again)
	}
}

// Sizes that no garment has are refused by name; odd ones are drawn.
func TestOddSizes(t *testing.T) {
	for _, group := range []string{"upper", "one-piece", "lower", "head", "hand", "foot", "unknown"} {
		for _, v := range []float64{0, -1, 1e-9, 1e9, math.MaxFloat64, math.Inf(1), math.NaN()} {
			p := schematic.Panel{Figure: schematic.Of(schematic.Garment{Group: group, Cm: map[string]float64{"chest": v, "brim": 50}})}
			_, err := p.PNG(most, schematic.SVGOptions{})
			require.ErrorContains(t, err, "chest: ", "%s %g", group, v)
			require.ErrorContains(t, p.SVG(io.Discard, schematic.SVGOptions{}), "want from 0.1 to 400 cm")
		}
		for _, v := range []float64{0.1, 7, 400} {
			sizes := make(map[string]float64)
			for _, p := range []string{"chest", "hip", "brim", "hand", "foot", "inside_leg", "neck", "hood_height", "sleeve_length"} {
				sizes[p] = v
			}
			p := schematic.Panel{Figure: schematic.Of(schematic.Garment{Group: group, Cm: sizes}), Labels: map[string]string{"chest": "?ü"}}
			_, err := p.PNG(most, schematic.SVGOptions{})
			require.NoError(t, err, "%s %g", group, v)
		}
	}
}
