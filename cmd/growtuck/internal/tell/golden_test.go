package tell

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

var update = flag.Bool("update", false, "rewrite the plans that the tests compare with")

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "run go test ./cmd/growtuck/internal/tell -update")
	require.Equal(t, string(want), got)
}

func planText(p *plan.Plan) string {
	var b strings.Builder
	style := Style{}.For(p.How)
	for _, s := range p.Sections {
		fmt.Fprintf(&b, "%s: %d to %d stitches, %d rows, %d times\n", sectionName(s.Kind), s.From, s.To(), s.Rows(), s.Copies)
		for _, step := range s.Steps {
			fmt.Fprintf(&b, "  %s\n", style.Step(step))
		}
	}
	for _, x := range p.Parts {
		fmt.Fprintf(&b, "%s: %d %s, %.1f cm, %+.1f\n", x.Line.Part.Part, x.Count, x.Unit, x.SizeCm, x.ErrorCm())
	}
	for _, n := range style.Facts(p.Notes) {
		fmt.Fprintf(&b, "* %s\n", n)
	}
	if p.Yarn != nil {
		fmt.Fprintf(&b, "yarn: %.0f cm², %d balls, %.0f m\n", p.Yarn.AreaCm2, p.Yarn.Need.Balls, p.Yarn.Need.Metres)
	}
	return b.String()
}

// The worked case: a hooded pram suit in single crochet over winter clothes, for a
// baby.
func TestSuitGolden(t *testing.T) {
	how := withYarn(singleCrochet)
	how.Stretch = map[string]float64{"cuff": 1.5, "ankle": 1.5}
	golden(t, "suit.txt", planText(suit(t, how)))
}

// A jacket knitted as a raglan, in five sizes.
func TestJacketRunGolden(t *testing.T) {
	how := withYarn(stocking)
	how.Construction = plan.Raglan
	how.Multiple = stitch.Multiple{Repeat: 4, Edge: 2}
	graded, err := plan.Grade(samples.Sizes, samples.FinishedRun(t, samples.Sizes, samples.Spec("cardigan")), how)
	require.NoError(t, err)
	g := Style{}.For(graded.Plans[0].How).Run(graded)
	var b strings.Builder
	for _, s := range g.Sections {
		fmt.Fprintf(&b, "%s: %s to %s stitches, %s rows, %d times\n", s.Name, s.From, s.To, s.Rows, s.Copies)
		for _, l := range s.Steps {
			if l.Sizes != "" {
				fmt.Fprintf(&b, "  [%s] %s\n", l.Sizes, l.Text)
			} else {
				fmt.Fprintf(&b, "  %s\n", l.Text)
			}
		}
	}
	for _, x := range g.Parts {
		fmt.Fprintf(&b, "%s: %s %s, %s cm, %s\n", x.Part, x.Count, x.Unit, x.SizeCm, x.Error)
	}
	fmt.Fprintf(&b, "balls: %s\n", g.Balls)
	for _, n := range g.Notes {
		fmt.Fprintf(&b, "* %s\n", n)
	}
	golden(t, "jacket-run.txt", b.String())
}
