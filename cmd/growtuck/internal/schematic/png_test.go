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
		sizes, labels := make(map[string]float64), make(map[string]string)
		var parts []string
		for _, l := range f.Lines {
			sizes[l.Part.Part], labels[l.Part.Part] = l.Finished, sizing.FormatCm(l.Finished)
			parts = append(parts, l.Part.Part)
		}
		figure := schematic.Of(g.Group, sizes)
		require.ElementsMatch(t, parts, figure.Parts(), g.ID)
		raw, err := figure.PNG(most, labels)
		require.NoError(t, err)
		img, err := png.Decode(bytes.NewReader(raw))
		require.NoError(t, err)
		require.LessOrEqual(t, img.Bounds().Dx(), most.X, g.ID)
		require.LessOrEqual(t, img.Bounds().Dy(), most.Y, g.ID)
		require.True(t, img.Bounds().Dx() == most.X || img.Bounds().Dy() == most.Y, "%s fills %v", g.ID, img.Bounds())
		again, err := figure.PNG(most, labels)
		require.NoError(t, err)
		require.Equal(t, raw, again)
	}
}

// The drawing keeps the proportions: twice as long is drawn twice as long.
func TestToScale(t *testing.T) {
	high := func(length float64) float64 {
		raw, err := schematic.Of("head", map[string]float64{"brim": 50, "hat_height": length}).PNG(most, nil)
		require.NoError(t, err)
		img, err := png.Decode(bytes.NewReader(raw))
		require.NoError(t, err)
		b := inked(img)
		return float64(b.Dy()) / float64(b.Dx())
	}
	require.InDelta(t, 20.0/25, high(20), 0.02)
	require.InDelta(t, 2, high(40)/high(20), 0.02)
}

// inked is what is drawn of a picture.
func inked(img image.Image) image.Rectangle {
	var b image.Rectangle
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			if r, _, _, _ := img.At(x, y).RGBA(); r < 0xF000 {
				b = b.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return b
}

// Sizes that no garment has are refused by name; odd ones are drawn.
func TestOddSizes(t *testing.T) {
	for _, group := range []string{"upper", "one-piece", "lower", "head", "hand", "foot", "unknown"} {
		for _, v := range []float64{0, -1, 1e-9, 1e9, math.MaxFloat64, math.Inf(1), math.NaN()} {
			f := schematic.Of(group, map[string]float64{"chest": v, "brim": 50})
			_, err := f.PNG(most, nil)
			require.ErrorContains(t, err, "chest: ", "%s %g", group, v)
			require.ErrorContains(t, schematic.Panel{Figure: f}.SVG(io.Discard, schematic.SVGOptions{}), "want from 0.1 to 400 cm")
		}
		for _, v := range []float64{0.1, 7, 400} {
			sizes := make(map[string]float64)
			for _, p := range []string{"chest", "hip", "brim", "hand", "foot", "inside_leg", "neck", "hood_height", "sleeve_length"} {
				sizes[p] = v
			}
			_, err := schematic.Of(group, sizes).PNG(most, map[string]string{"chest": "?ü"})
			require.NoError(t, err, "%s %g", group, v)
		}
	}
}
