package plan

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

func cardigan(t *testing.T, how How) *Plan {
	t.Helper()
	p, err := Make(samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("cardigan")), how)
	require.NoError(t, err)
	return p
}

func TestParseStripes(t *testing.T) {
	want := []Stripe{{4, "red"}, {2, "off white"}}
	for _, text := range []string{"4 red, 2 off white", "4 rows red; 2 rows of off white", "red 4, off white 2", "4 rounds in red + 2 off white"} {
		got, err := ParseStripes(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
	for text, words := range map[string]string{
		"": "none are given", "red": "no rows are given for red", "4": "the colour is missing", "0 red": "0 rows: want 1 to 400", "4 2 red": "two numbers of rows",
		"4 " + strings.Repeat("red", 20): "at most 40 letters",
	} {
		_, err := ParseStripes(text)
		require.ErrorContains(t, err, words, text)
		require.ErrorContains(t, err, "such as 4 red, 2 white", text)
	}
}

func TestParseColours(t *testing.T) {
	got, err := ParseColours("Hem=blue, front_edges = dark  red")
	require.NoError(t, err)
	require.Equal(t, []PartColour{{"hem", "blue"}, {"front-edges", "dark red"}}, got)
	for _, text := range []string{"blue", "=blue", "hem=", "hem=a=b"} {
		_, err := ParseColours(text)
		require.Error(t, err, text)
	}
}

// Stripes go on from the yoke to the body and, from the same row, to the sleeves;
// ribbing and edges are in the first colour, or their own.
func TestStripesGoOn(t *testing.T) {
	how := singleCrochet
	how.Stripes = []Stripe{{4, "red"}, {2, "white"}}
	how.Colours = []PartColour{{Ribbing, "blue"}, {"neckband", "green"}}
	p := cardigan(t, how)
	row := func(id string) *Section {
		s, ok := p.Section(id)
		require.True(t, ok, id)
		require.Len(t, s.Colours, s.Rows(), id)
		return s
	}
	of := func(i int) string {
		if i%6 < 4 {
			return "red"
		}
		return "white"
	}
	yoke, body, sleeve := row("yoke"), row("body"), row("sleeve")
	for r := range yoke.Rows() {
		require.Equal(t, of(r), yoke.Colours[r])
	}
	for r := range body.Rows() {
		require.Equal(t, of(yoke.Rows()+r), body.Colours[r])
	}
	for r := range sleeve.Rows() {
		require.Equal(t, of(yoke.Rows()+r), sleeve.Colours[r])
	}
	require.Equal(t, []Stripe{{row("hem").Rows(), "blue"}}, row("hem").Bands())
	require.Equal(t, []Stripe{{row("cuff").Rows(), "blue"}}, row("cuff").Bands())
	require.Equal(t, []Stripe{{row("neckband").Rows(), "green"}}, row("neckband").Bands())
	require.Equal(t, []Stripe{{2, "red"}}, row("front-edges").Bands())

	how.Colours = []PartColour{{"tail", "blue"}}
	_, err := Make(samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("cardigan")), how)
	var unknown *sizing.UnknownError
	require.ErrorAs(t, err, &unknown)
	require.Contains(t, unknown.Known, "neckband")
	require.Contains(t, unknown.Known, Ribbing)
	how.Colours = []PartColour{{"hem", "blue"}, {"hem", "red"}}
	_, err = Make(samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("cardigan")), how)
	require.ErrorContains(t, err, "hem has two colours")
}

// The yarn of sections and of colours adds up to the whole.
func TestYarnByPartAndColour(t *testing.T) {
	how := singleCrochet
	how.Ball, how.Swatch = stitch.Ball{Grams: 50, Metres: 125}, stitch.YarnSwatch{WidthCm: 10, HeightCm: 10, Grams: 5}
	plain := cardigan(t, how)
	require.Len(t, plain.Yarn.Colours, 1)
	require.InDelta(t, plain.Yarn.Need.Grams, plain.Yarn.Colours[0].Need.Grams, 1e-6)
	how.Stripes = []Stripe{{4, "red"}, {2, "white"}}
	p := cardigan(t, how)
	require.Len(t, p.Yarn.Colours, 2)
	parts, colours, balls := 0.0, 0.0, 0
	for _, x := range p.Yarn.Parts {
		parts += x.Grams
	}
	for _, c := range p.Yarn.Colours {
		colours += c.Need.Grams
		require.Equal(t, int(math.Ceil(c.Need.Grams/50-1e-9)), c.Need.Balls)
		balls += c.Need.Balls
	}
	require.InDelta(t, plain.Yarn.Need.Grams, parts, 1e-6)
	require.InDelta(t, plain.Yarn.Need.Grams, colours, 1e-6)
	require.Equal(t, balls, p.Yarn.Need.Balls)
	require.Greater(t, p.Yarn.Of("red").Need.Grams, p.Yarn.Of("white").Need.Grams)
	require.Zero(t, p.Yarn.Of("blue").Need.Grams)
}
