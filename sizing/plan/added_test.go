package plan

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

func TestParseAddition(t *testing.T) {
	for _, c := range []struct {
		name, size string
		want       Addition
	}{
		{"ear", "6cm", Addition{Kind: "ear", WidthCm: 6}},
		{"pad:knee", "8 x 10 cm", Addition{Kind: "pad", Place: "knee", WidthCm: 8, HeightCm: 10}},
		{"spike:back", "5*4×5cm", Addition{Kind: "spike", Place: "back", Pieces: 5, WidthCm: 4, HeightCm: 5}},
		{"tail", "2x10in", Addition{Kind: "tail", WidthCm: 5.08, HeightCm: 25.4}},
		{"pointed-ear", "60mm", Addition{Kind: "pointed-ear", WidthCm: 6}},
	} {
		a, err := ParseAddition(c.name, c.size)
		require.NoError(t, err, c.size)
		require.InDelta(t, c.want.WidthCm, a.WidthCm, 1e-9)
		require.InDelta(t, c.want.HeightCm, a.HeightCm, 1e-9)
		a.WidthCm, a.HeightCm = c.want.WidthCm, c.want.HeightCm
		require.Equal(t, c.want, a)
		again, err := ParseAddition(a.Name(), a.Size())
		require.NoError(t, err)
		require.Equal(t, a, again, "as it is written")
	}
	for _, bad := range []string{"", "cm", "-3cm", "0cm", "6x0cm", "x5cm", "0*4cm", "99*4cm", "a*4cm", "200cm", "3kg", "4x5x6cm", "NaN", "1e9cm"} {
		_, err := ParseAddition("ear", bad)
		require.ErrorContains(t, err, "add ", bad)
	}
}

// Every kind, at each of its places that a garment has, is counted in whole
// rounds, stands symmetrically, and is drawn together where it closes.
func TestAdditionsEverywhere(t *testing.T) {
	placed := make(map[string]bool)
	for _, garment := range samples.Reference(t).Garments() {
		finished := samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec(garment.ID))
		for _, how := range []How{singleCrochet, stocking} {
			plain, err := Make(finished, how)
			require.NoError(t, err)
			for _, kind := range samples.Reference(t).AddedParts() {
				for place := range strings.FieldsSeq(kind.Places) {
					how.Add = []Addition{{Kind: kind.ID, Place: place, WidthCm: 5}}
					name := fmt.Sprintf("%s %s %s at %s", how.Craft, garment.ID, kind.ID, place)
					p, err := Make(finished, how)
					if err != nil {
						require.ErrorContains(t, err, "this garment", name)
						continue
					}
					placed[kind.ID+" "+place] = true
					require.Len(t, p.Added, 1, name)
					require.Len(t, p.Sections, len(plain.Sections)+1, name)
					checkAddition(t, name, p)
				}
			}
		}
	}
	for _, kind := range samples.Reference(t).AddedParts() {
		for place := range strings.FieldsSeq(kind.Places) {
			require.True(t, placed[kind.ID+" "+place], "no garment takes %s at %s", kind.ID, place)
		}
	}
}

func checkAddition(t *testing.T, name string, p *Plan) {
	t.Helper()
	a := p.Added[0]
	s := a.Section
	require.Equal(t, len(a.Piece.Counts), s.Rows(), name)
	for i, n := range a.Piece.Counts {
		require.Equal(t, n, s.StitchesAfter(i+1), name)
	}
	require.Equal(t, a.Pieces, s.Copies, name)
	require.Equal(t, a.Row.Filled == "yes", a.FillG > 0, name)
	sewn := s.Steps[len(s.Steps)-1]
	v := sewn.Values
	row, _ := v["on_row"].(int)
	i := slices.IndexFunc(p.Sections, func(x *Section) bool { return x.Kind == v["on"] })
	require.GreaterOrEqual(t, i, 0, "%s: sewn to %v", name, v["on"])
	on := p.Sections[i]
	require.LessOrEqual(t, row, on.Rows(), name)
	require.Positive(t, row, name)
	switch sewn.Kind {
	case "sew-pair", "sew-each":
		require.Equal(t, on.StitchesAfter(row), v["stitches"], name)
		require.Equal(t, v["stitches"].(int)+1, v["first"].(int)+v["last_other"].(int), name)
		require.Equal(t, v["last"].(int)-v["first"].(int), v["last_other"].(int)-v["first_other"].(int), name)
		require.Positive(t, v["first"], name)
	case "sew-middle":
		require.Equal(t, v["stitches"].(int)+1, v["first"].(int)+v["last"].(int), name)
	case "sew-line":
		require.LessOrEqual(t, row+(v["pieces"].(int)-1)*v["apart"].(int), on.Rows(), name)
	case "sew-beginning", "sew-crown":
	default:
		t.Fatalf("%s: %s", name, sewn.Kind)
	}
}

func TestAdditionFaults(t *testing.T) {
	pullover := samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("pullover"))
	trousers := samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("trousers"))
	for _, c := range []struct {
		add  Addition
		want string
	}{
		{Addition{Kind: "ear", WidthCm: 6}, "pullover: add ear: ears can go at hood, head; this garment has none of these"},
		{Addition{Kind: "pad", Place: "knee", WidthCm: 6}, `pullover: add pad:knee: pads cannot go at "knee" of this garment; want elbow`},
		{Addition{Kind: "wheel", WidthCm: 6}, `pullover: add wheel: unknown added part "wheel"`},
		{Addition{Kind: "circle", WidthCm: 1}, "pullover: add circle: stitch: width of a circle is 1 cm: want at least 2.3 cm at this gauge"},
		{Addition{Kind: "spike", WidthCm: 6, Pieces: 12}, "pullover: add spike: stitch: 12 pieces of"},
	} {
		how := singleCrochet
		how.Add = []Addition{c.add}
		_, err := Make(pullover, how)
		require.ErrorContains(t, err, c.want)
	}
	how := singleCrochet
	how.Add = []Addition{{Kind: "tail", WidthCm: 4, HeightCm: 60}}
	_, err := Make(trousers, how)
	var hangs *HangsError
	require.True(t, errors.As(err, &hangs), "%v", err)
	how.Add[0].HeightCm = hangs.MostCm
	_, err = Make(trousers, how)
	require.NoError(t, err, "what the error asks for is enough")
}

// What parts at a hood weigh is said against the hood, with a swatch to weigh by.
func TestAdditionsLoadTheHood(t *testing.T) {
	finished := samples.Finish(t, samples.BodyAt(t, "2"), samples.Spec("one-piece-hooded"))
	notes := func(how How) (ids []string) {
		p, err := Make(finished, how)
		require.NoError(t, err)
		for _, n := range p.Notes {
			ids = append(ids, n.ID)
		}
		return ids
	}
	how := singleCrochet
	how.Add = []Addition{{Kind: "ear", WidthCm: 5}}
	require.Contains(t, notes(how), "added-weight-unknown")
	require.Contains(t, notes(withYarn(how)), "added-weight")
	how.Add = []Addition{{Kind: "horn", WidthCm: 6, HeightCm: 30}}
	require.Contains(t, notes(withYarn(how)), "added-heavy")
	how.Add = []Addition{{Kind: "ear", WidthCm: 12}}
	require.Contains(t, notes(how), "added-wide")
}

// A ball of 5 cm has a volume of 65 cm³, by Archimedes' two thirds of the
// cylinder about it.
func TestFilling(t *testing.T) {
	how := singleCrochet
	how.Gauge = stitch.Gauge{StitchesPer10Cm: 60, RowsPer10Cm: 60}
	how.Add = []Addition{{Kind: "ball", WidthCm: 5}}
	p, err := Make(samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("hat")), how)
	require.NoError(t, err)
	perLitre := samples.Reference(t).Practice("added_fill").Value
	require.InEpsilon(t, 2.0/3*3.14159*2.5*2.5*5/1000*perLitre, p.Filling(), 0.1)
}
