package main

import (
	"bytes"
	"flag"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

var update = flag.Bool("update", false, "rewrite testdata/predicted.md")

var (
	readme = filepath.Join("..", "..", "data", "README.md")
	golden = filepath.Join("testdata", "predicted.md")
)

// A change of the tables, or of the method, shows what it does to the errors
// that are to be expected.
func TestPredictionIsCurrent(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, run([]string{"predict", readme}, &out))
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(golden, out.Bytes(), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	require.Equal(t, string(want), out.String(), "look at what changed, then go test ./cmd/relations -run Prediction -update")
}

// What data/README.md says was measured on children of the survey is what the
// shipped relations expect, within a factor: a table that was changed without
// measuring anew falls out of it, and so do relations that were changed.
func TestWhatWasMeasuredIsExpected(t *testing.T) {
	const factor = 1.25
	text, err := os.ReadFile(readme)
	require.NoError(t, err)
	measured, err := measuredErrors(string(text))
	require.NoError(t, err)
	byThird, err := measuredThirds(string(text))
	require.NoError(t, err)
	survey, today, err := eras()
	require.NoError(t, err)
	all, err := predict(survey)
	require.NoError(t, err)
	expected, err := predictThirds(today)
	require.NoError(t, err)
	require.Len(t, byThird, len(judgedByThird[1].measurements)*len(thirds)*len(thirdKnowledges))
	require.Len(t, expected, len(byThird))
	for c, was := range byThird {
		ratio, factor := expected[c]/was, 1.3
		if c.known == "height" { // the years judged are among the later, with fewer thin children
			factor = 1.45
		}
		require.Truef(t, ratio < factor && ratio > 1/factor, "%v: %.1f %% measured, %.1f predicted", c, was, expected[c])
	}
	compared := 0
	for _, id := range judged {
		for _, k := range predicted {
			p, ok := pooled(all, k.name, id)
			was, told := measured[cell{label(id), k.name}]
			require.Equal(t, told, ok, "%s knowing %s", id, k.name)
			if !ok {
				continue
			}
			compared++
			ratio := p.rms() / was
			require.Truef(t, ratio < factor && ratio > 1/factor, "%s knowing %s: %.2f cm measured, %.2f predicted", id, k.name, was, p.rms())
		}
	}
	require.Equal(t, len(judged)*len(predicted)-1, compared, "all but the chest knowing the chest")
}

// A prediction is what drawing from the range would give.
func TestPredictionOfOneRange(t *testing.T) {
	const sd, middle, draws = 0.06, 50.0, 200_000
	var p prediction
	p.add(sizing.Reading{Value: middle, Low: middle * math.Exp(-1.2815515655446004*sd), High: middle * math.Exp(1.2815515655446004*sd)})
	r := rand.New(rand.NewPCG(1, 2))
	var squares, percents float64
	for range draws {
		e := middle*math.Exp(sd*r.NormFloat64()) - middle
		squares += e * e
		percents += 100 * math.Abs(e) / middle
	}
	require.InEpsilon(t, math.Sqrt(squares/draws), p.rms(), 0.01)
	require.InEpsilon(t, percents/draws, p.percent(), 0.01)
}

func TestMeasuredErrors(t *testing.T) {
	got, err := measuredErrors("text\n\n| measurement | children | estimate: height | height, chest |\n|---|--:|--:|--:|\n| upper arm | 12 | 1.95 | – |\n\n| measurement | height |\n|---|\n| waist | 9 |\n")
	require.NoError(t, err)
	require.Equal(t, map[cell]float64{{"upper arm", "children"}: 12, {"upper arm", "height"}: 1.95}, got)
	_, err = measuredErrors("nothing")
	require.ErrorContains(t, err, "no table of errors")
	_, err = measuredThirds("nothing")
	require.ErrorContains(t, err, "no table of errors by thirds")
	head := "| measured | measurement | third | children | height: bias, % | RMS error, % | in range, % | height, weight: bias, % | RMS error, % | in range, % |\n"
	thirds, err := measuredThirds(head + "|---|\n| 1975–77 | calf | thin | 9 | 1, 1 | 9, 9 | 8, 8 | 1, 1 | 9, 9 | 8, 8 |\n" +
		"| 1999–2016 | waist navel | thin | 9 | 1, 1 | 6.0, 8.0 | 8, 8 | 1, 1 | 3.0, 3.0 | 8, 8 |\n")
	require.NoError(t, err)
	require.InDeltaMapValues(t, map[thirdCell]float64{{"height", "waist_navel", "thin"}: math.Sqrt(50), {"height, weight", "waist_navel", "thin"}: 3}, thirds, 1e-9)
	_, err = measuredThirds(head + "| 1999–2016 | calf | thin | 9 | 1, 1 | 6.0 | 8, 8 | 1, 1 | 3.0, 3.0 | 8, 8 |\n")
	require.ErrorContains(t, err, `"6.0" is not the errors`)
}
