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
	ref, err := sizing.Default()
	require.NoError(t, err)
	all, err := predict(ref)
	require.NoError(t, err)
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
}
