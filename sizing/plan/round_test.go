package plan

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/testdata/samples"
)

// flat are the sections that are worked to and fro where tubes are worked in rounds:
// those that are open, and a heel, which is half a round. Of those with a stroke before
// them it depends on how deep a slit or a yoke is. All others are tubes.
var flat = map[string]string{
	"balaclava": "hood hood-crown hood-edge",
	"bathrobe":  "back back-neck bodice front front-edges front-neck neckband skirt skirt-hem yoke",
	"cardigan":  "back back-neck body front front-edges front-neck hem neckband yoke",
	"dress":     "back /back-neck /bodice front-neck /neckband slit /yoke",
	"hat":       "", "leg-warmers": "", "mittens": "", "poncho": "/back-neck", "trousers": "", "trousers-straps": "strap",
	"one-piece":        "back back-neck body front front-edges front-neck neckband seat yoke",
	"one-piece-hooded": "back back-neck body front front-edges front-neck hood hood-crown hood-edge seat yoke",
	"pullover":         "back /back-neck /body front-neck /neckband slit /yoke",
	"romper":           "back back-neck body front front-edges front-neck neckband seat yoke",
	"socks":            "heel",
	"vest":             "back /body front-neck /neckband slit",
}

func TestTubesAreRounds(t *testing.T) {
	for _, g := range samples.Reference(t).Garments() {
		sections, known := flat[g.ID]
		require.True(t, known, "which sections of %s are flat?", g.ID)
		for _, size := range []string{"12m", "4", "8"} {
			f := samples.Finish(t, samples.BodyAt(t, size), samples.Spec(g.ID))
			for _, how := range []How{singleCrochet, doubleCrochet, stocking} {
				for _, how.Construction = range Constructions {
					p, err := Make(f, how)
					require.NoError(t, err)
					for _, s := range p.Sections {
						if of := strings.Fields(sections); !slices.Contains(of, "/"+s.ID) {
							require.Equal(t, slices.Contains(of, s.ID), !s.InRounds, "%s %s: %s", g.ID, size, s.ID)
						}
						for _, step := range s.Steps {
							if step.InRounds != s.InRounds {
								require.Contains(t, step.Kind, "short-rows", "%s: %s", g.ID, s.ID)
							}
						}
					}
				}
			}
		}
	}
}

// Short rows go to and fro, in a section of rounds too; the last one joins it again.
func TestShortRowsGoToAndFro(t *testing.T) {
	p, err := Make(samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("trousers")), stocking)
	require.NoError(t, err)
	s, ok := p.Section("seat-back")
	require.True(t, ok)
	require.True(t, s.InRounds)
	turned := 0
	for _, step := range s.Steps {
		if strings.HasPrefix(step.Kind, "short-rows") && step.Kind != "short-rows-seat-end" {
			require.False(t, step.InRounds, step.Kind)
			turned++
		}
	}
	require.Positive(t, turned)
}

// Pairs of short rows reach the stitches that they are to reach, as far on either side,
// each a step further than the one before it.
func TestShortRowsAreLevel(t *testing.T) {
	for _, garment := range []string{"pullover", "trousers"} {
		for _, size := range samples.Sizes {
			for _, how := range []How{singleCrochet, stocking, fine} {
				p, err := Make(samples.Finish(t, samples.BodyAt(t, size), samples.Spec(garment)), how)
				require.NoError(t, err)
				for _, s := range p.Sections {
					if s.ID != "back-neck" && s.ID != "seat-back" {
						continue
					}
					widest := 0.5 // of the waistband: the back half
					if s.ID == "back-neck" {
						widest = 5.0 / 6 // the fronts stay low
					}
					rows := s.rows[:len(s.rows)-1]
					last := rows[len(rows)-1].worked
					require.InDelta(t, widest*float64(s.From), last, 3, "%s %s", garment, size)
					require.LessOrEqual(t, last, s.From)
				}
			}
		}
	}
}

// A neck that stretches over the head is closed: its band is a round. One of which nobody
// measured how far it stretches has a slit, half as deep as the head is wider than the
// neck, for a slit of a depth opens the edge twice as far; its band is open with it.
func TestNeckbandIsOpenWhereTheNeckIs(t *testing.T) {
	for _, garment := range []string{"pullover", "dress", "vest"} {
		for _, size := range samples.Sizes {
			body := samples.BodyAt(t, size)
			for _, construction := range Constructions {
				for _, stretch := range []float64{0, 1.9} {
					how := stocking
					how.Construction = construction
					if stretch > 0 {
						how.Stretch = map[string]float64{"neck": stretch}
					}
					p, err := Make(samples.Finish(t, body, samples.Spec(garment)), how)
					require.NoError(t, err)
					band, ok := p.Section("neckband")
					require.True(t, ok)
					neck, _ := p.Part("neck")
					head, ok := body.Get("head")
					require.True(t, ok)
					deep := (head.Value - how.Gauge.WidthCm(neck.Count)*max(stretch, 1)) / 2
					name := garment + " " + size + " " + string(construction)
					slits := slices.DeleteFunc(slices.Clone(p.openings), func(o opening) bool { return o.place != "front" })
					require.Equal(t, deep <= 0, band.InRounds, name)
					require.Equal(t, band.InRounds, len(slits) == 0, name)
					for _, slit := range slits {
						require.GreaterOrEqual(t, slit.cm, deep-1e-9, name)
						require.Less(t, slit.cm, deep+2, name) // what passes is the head and a little
					}
				}
			}
		}
	}
}
