package plan

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

// Fabric, the edges of the front and the zipper between them are the girth that
// was asked for, within half a repeat; below the opening stitches take the
// place of the edges.
func TestEdgesCount(t *testing.T) {
	for _, how := range []How{singleCrochet, doubleCrochet, stocking, coarse, fine} {
		for _, closure := range Closures {
			how.Closure = closure
			g := how.Gauge
			for _, garment := range []string{"cardigan", "one-piece", "one-piece-hooded"} {
				for _, construction := range Constructions {
					how.Construction = construction
					p, err := Make(samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec(garment)), how)
					require.NoError(t, err)
					edge, ok := p.Section("front-edges")
					require.True(t, ok)
					require.InDelta(t, 1, edge.HeightCm(), max(g.RowHeightCm()/2, 2*g.RowHeightCm()-1), "about 1 cm deep, in whole rows")
					want := 2 * edge.HeightCm()
					if p.Zipper != nil {
						want++
					}
					chest, ok := p.Part("chest")
					require.True(t, ok)
					require.InDelta(t, want, chest.EdgesCm, 1e-9)
					require.InDelta(t, g.WidthCm(chest.Count)+want, chest.SizeCm, 1e-9)
					require.InDelta(t, chest.WantCm, chest.SizeCm, 1.5*g.StitchWidthCm()*float64(chest.Multiple.Repeat)+1e-9)
					if p.Circular != nil {
						fronts := g.WidthCm(2*p.Circular.Front) + want
						require.InDelta(t, g.WidthCm(p.Circular.Back), fronts, 3*g.StitchWidthCm(), "the edges are part of the front")
					}
					hip, isSuit := p.Part("hip")
					if !isSuit {
						continue
					}
					require.Zero(t, hip.EdgesCm)
					open, closed := mustSection(t, p, "seat"), mustSection(t, p, "seat-closed")
					require.InDelta(t, g.WidthCm(open.To())+want, g.WidthCm(closed.From), g.StitchWidthCm()+1e-9)
					require.Equal(t, p.Legs.Hip, closed.To())
				}
			}
		}
	}
}

func mustSection(t *testing.T, p *Plan, id string) *Section {
	t.Helper()
	s, ok := p.Section(id)
	require.True(t, ok, id)
	return s
}

// An opening that ends above the waist is closed with stitches there, and the
// waist below it is of fabric alone.
func TestOpeningThatEndsAboveTheWaist(t *testing.T) {
	m := samples.Spec("one-piece")
	m.Extra = map[string]float64{"front_opening": -20}
	for _, how := range []How{singleCrochet, stocking} {
		p, err := Make(samples.Finish(t, samples.BodyAt(t, "6"), m), how)
		require.NoError(t, err)
		closed := mustSection(t, p, "body-closed")
		require.True(t, closed.InRounds)
		waist, ok := p.Part("waist")
		require.True(t, ok)
		require.Zero(t, waist.EdgesCm)
		require.Equal(t, waist.Count, closed.To())
		_, ok = p.Section("seat-closed")
		require.False(t, ok)
		sectionsFollow(t, p)
	}
}

// The seat of a one-piece is as wide as what is above it, also on a child whose
// chest is wider than the hips.
func TestSeatIsNotNarrower(t *testing.T) {
	for _, chest := range []float64{52, 58, 66} {
		b, err := samples.Reference(t).Estimate(sizing.Child{Sex: sizing.Boy, AgeYears: 4, Own: map[string]float64{"height": 104, "chest": chest, "waist": chest - 1, "hip": 54}})
		require.NoError(t, err)
		for _, how := range []How{singleCrochet, stocking, coarse} {
			p, err := Make(samples.Finish(t, b, samples.Spec("one-piece")), how)
			require.NoError(t, err)
			hip, _ := p.Part("hip")
			for _, id := range []string{"chest", "waist"} {
				above, ok := p.Part(id)
				require.True(t, ok)
				require.GreaterOrEqual(t, hip.SizeCm, above.SizeCm-1e-9, "%s of %g", id, chest)
			}
		}
	}
}

// The bridge is at least 8 % of the hips and 5 cm, 2 cm more over a nappy and 1 cm
// over winter clothes; a thigh that leaves less gives way.
func TestBridgeIsWideEnough(t *testing.T) {
	for _, size := range []string{"6m", "18m", "2", "4", "8", "14"} {
		for _, garment := range []string{"trousers", "one-piece"} {
			for _, m := range []sizing.Spec{{Layer: "skin"}, {Layer: "winter"}, {Layer: "skin", Nappy: true}, {Layer: "winter", Nappy: true}} {
				m.Garment, m.Fit = garment, "classic"
				for _, how := range []How{singleCrochet, doubleCrochet, fine} {
					p, err := Make(samples.Finish(t, samples.BodyAt(t, size), m), how)
					require.NoError(t, err)
					least := 5.0
					if m.Nappy {
						least += 2
					}
					if m.Layer == "winter" {
						least++
					}
					require.GreaterOrEqual(t, how.Gauge.WidthCm(p.Legs.Bridge), least-1e-9, "%s %s", garment, size)
					require.GreaterOrEqual(t, p.Legs.BridgeShare(), 0.08-1e-9, "%s %s", garment, size)
					thigh, ok := p.Part("thigh")
					require.True(t, ok)
					require.InDelta(t, thigh.WantCm, thigh.SizeCm, how.Gauge.StitchWidthCm()/2+1e-9)
				}
			}
		}
	}
}

// The crown of a hood is a length in every stitch, and the face edge takes up
// both sides of the hood.
func TestHoodInEveryStitch(t *testing.T) {
	head, ok := samples.Baby(t).Get("head")
	require.True(t, ok)
	for _, g := range []stitch.Gauge{{StitchesPer10Cm: 14, RowsPer10Cm: 8}, {StitchesPer10Cm: 16, RowsPer10Cm: 18}, {StitchesPer10Cm: 28, RowsPer10Cm: 36}} {
		p, err := Make(samples.Finish(t, samples.Baby(t), samples.Spec("one-piece-hooded")), How{Craft: Crochet, Gauge: g})
		require.NoError(t, err)
		require.InDelta(t, 0.2*head.Value, g.HeightCm(p.Hood.Crown.Rows), g.RowHeightCm()/2+1e-9)
		round, ok := p.Part("hood_round")
		require.True(t, ok)
		require.InDelta(t, 0.75*head.Value+2.54, round.WantCm, 1e-9)
		require.InDelta(t, round.WantCm, round.SizeCm, g.StitchWidthCm()+1e-9)
		require.Equal(t, 2*int(g.Stitches(g.HeightCm(p.Hood.Rows))+0.5), mustSection(t, p, "hood-edge").From)
	}
}

// The ribbed edges of short sleeves and legs are a share of what they go round, drawn in:
// each is the nearest even count, above its share or under it.
func TestDrawnInEdgesAreTheNearest(t *testing.T) {
	under := 0
	for _, size := range []string{"18m", "2", "4"} {
		for stitches := 14.0; stitches <= 32; stitches++ {
			for _, craft := range []Craft{Knit, Crochet} {
				how := stocking
				how.Craft, how.Gauge = craft, stitch.Gauge{StitchesPer10Cm: stitches, RowsPer10Cm: 1.3 * stitches}
				p, err := Make(samples.Finish(t, samples.BodyAt(t, size), samples.Spec("romper")), how)
				require.NoError(t, err)
				for _, edge := range []string{"cuff", "ankle"} {
					part, ok := p.Part(edge)
					require.True(t, ok)
					require.InDelta(t, part.WantCm, part.SizeCm, how.Gauge.StitchWidthCm()+1e-9, "%s of size %s at %g stitches", edge, size, stitches)
					if part.SizeCm < part.WantCm-1e-9 {
						under++
					}
				}
			}
		}
	}
	require.Positive(t, under)
}
