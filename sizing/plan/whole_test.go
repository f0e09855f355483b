package plan

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

// eachVariant calls f with plans that few garments are made as: a neck whose edge
// stretches over the head, so that it has no slit, and hoods of every shape.
func eachVariant(t *testing.T, f func(name string, p *Plan)) {
	t.Helper()
	for _, garment := range []string{"pullover", "vest", "dress", "cardigan", "one-piece-hooded"} {
		for i, size := range []string{"2", "5.5", "10"} {
			finished := samples.Finish(t, samples.BodyAt(t, size), samples.Spec(garment))
			for k, how := range []How{singleCrochet, doubleCrochet, stocking, coarse} {
				how.Construction = Constructions[(i+k)%len(Constructions)]
				if garment != "one-piece-hooded" && k%2 == 0 {
					how.Construction = DropShoulder
				}
				how.Stretch = map[string]float64{"neck": 2.5}
				how.Hood = Hoods[(i+k)%len(Hoods)]
				p, err := Make(finished, how)
				require.NoError(t, err, "%s %s", garment, size)
				f("variant of "+garment+" "+size, p)
			}
		}
	}
}

// Front and back meet at the underarm: the front's neck, its slit and the rest of the
// front are as high together as the back. A seam there has as many rows on either side.
func frontsAreAsLongAsTheBack() claim {
	whole := 0 // fronts without a slit
	return claim{of: func(t *testing.T, p *Plan) {
		back, ok := p.Section("back")
		if !ok {
			return
		}
		neck, ok := p.Section("front-neck")
		require.True(t, ok)
		rows := neck.Rows()
		slit, hasSlit := p.Section("slit")
		if hasSlit {
			rows += slit.Rows()
		}
		front, hasFront := p.Section("front")
		if hasFront {
			rows += front.Rows()
			require.Equal(t, p.Garment.Opening == "front", front.Copies == 2)
		}
		require.Equal(t, back.Rows(), rows)
		if band, ok := p.Section("neckband"); ok {
			require.Equal(t, p.Garment.Opening != "front" && !hasSlit, band.InRounds, "the neckband is open where the neck is")
		}
		if hasFront && !hasSlit && p.Garment.Opening != "front" {
			whole++
		}
	}, all: func(t *testing.T) { require.Positive(t, whole) }}
}

// A body or sleeve that is to be wider, before it is begun, is so by as many pairs of
// stitches as are nearest; the yoke is divided so that everything adds up, and fronts and
// back get the same.
func TestWiderFromTheYokeAddsUp(t *testing.T) {
	widened := 0
	for _, garment := range []string{"pullover", "cardigan", "dress", "one-piece"} {
		for _, construction := range []Construction{Circular, Raglan} {
			for _, how := range []How{singleCrochet, stocking, fine} {
				how.Construction = construction
				p, err := Make(samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec(garment)), how)
				require.NoError(t, err)
				yoke, _ := p.Section("yoke")
				was := *p.split()
				for _, done := range []int{0, 1, yoke.Rows() / 2, yoke.Rows() - 2, yoke.Rows()} {
					for _, section := range []string{"body", "bodice", "sleeve"} {
						if _, ok := p.Section(section); !ok {
							continue
						}
						for _, cm := range []float64{-2, 1, 3.3} {
							name := fmt.Sprintf("%s %s %s: %s %g cm after %d of %d rows", garment, how.Craft, construction, section, cm, done, yoke.Rows())
							r, err := p.Remaining(Trial{Done: []Done{{"yoke", done}}, Changes: []Change{{Section: section, WiderCm: cm}}})
							if err != nil || len(r.RipBack) > 0 {
								continue // said, not done
							}
							is := *r.now.split()
							require.NoError(t, is.Check(), name)
							require.Equal(t, was, *p.split(), "the plan itself stays as it is: %s", name)
							body, sleeve := is.Body-was.Body, is.Sleeve-was.Sleeve
							pairs := how.Gauge.Stitches(cm)
							switch {
							case section == "sleeve" && done == yoke.Rows(): // in the row after it is picked up
								require.Equal(t, was, is, name)
								s, _ := r.now.Section("sleeve")
								require.Equal(t, was.Sleeve, s.From, name)
								require.InDelta(t, pairs, s.StitchesAfter(2)-was.Sleeve, 1+1e-9, name)
							case section == "sleeve":
								require.Zero(t, body, name)
								require.InDelta(t, pairs, sleeve, 1+1e-9, name)
								require.Zero(t, sleeve%2, name)
							default:
								require.InDelta(t, pairs, body, 3+1e-9, name) // fours, where both fronts or both underarms take them
								require.Zero(t, body%2, name)
								fronts, before := is.Front, was.Front
								if is.FrontOpening {
									fronts, before = 2*fronts, 2*before
								}
								require.Equal(t, is.Back-was.Back, fronts-before, name)
								require.Equal(t, done == yoke.Rows() && body != 0, is.Underarm != was.Underarm, name)
							}
							if body == 0 && sleeve == 0 {
								continue
							}
							widened++
							at := func(id string) *Section { s, _ := r.now.Section(id); return s }
							require.Equal(t, is.Yoke, at("yoke").To(), name)
							require.Equal(t, is.Sleeve, at("sleeve").From, name)
							for _, id := range []string{"body", "bodice"} {
								if s := at(id); s != nil {
									require.Equal(t, is.Body, s.From, name)
									for _, step := range s.Steps {
										if step.Kind == "divide" {
											sums["divide"](reckoning{t, r.now, s, step})
										}
									}
								}
							}
							for row := range done + 1 {
								require.Equal(t, yoke.StitchesAfter(row), at("yoke").StitchesAfter(row), name)
							}
						}
					}
				}
			}
		}
	}
	require.Greater(t, widened, 50)
}

// What is done is the stitches of the rows that are worked, row by row; of two sleeves the
// first is finished before the second.
func TestDoneIsRowByRow(t *testing.T) {
	for _, garment := range []string{"cardigan", "socks", "mittens", "one-piece"} {
		p, err := Make(samples.Finish(t, samples.BodyAt(t, "4"), samples.Spec(garment)), withYarn(stocking))
		require.NoError(t, err)
		before, all := 0, 0
		for _, s := range p.Sections {
			for range s.Copies {
				for _, r := range s.rows {
					all += r.worked
				}
			}
		}
		for _, s := range p.Sections {
			done := before
			for n := range s.Rows()*s.Copies + 1 {
				if n > 0 {
					done += s.rows[(n-1)%s.Rows()].worked
				}
				if n%5 > 1 && n != s.Rows()*s.Copies {
					continue
				}
				r, err := p.Remaining(Trial{Done: []Done{{s.ID, n}}})
				require.NoError(t, err)
				require.EqualValues(t, done, r.Progress.StitchesDone, "%s %s: %d rows", garment, s.ID, n)
				require.EqualValues(t, all-done, r.Progress.StitchesLeft, "%s %s: %d rows", garment, s.ID, n)
				require.InDelta(t, float64(done)/float64(all), r.Progress.DoneShare, 1e-12)
			}
			before = done
		}
	}
}

// Sizes are graded as each of them is planned alone, but for what they have in common:
// what all sizes together miss is not more than with rows of the other parity.
func TestGradedSizesAreAsAlone(t *testing.T) {
	for _, garment := range []string{"cardigan", "pullover", "trousers", "hat"} {
		for _, how := range []How{singleCrochet, stocking} {
			how.Construction = DropShoulder
			run := samples.FinishedRun(t, samples.Sizes, samples.Spec(garment))
			graded, err := Grade(samples.Sizes, run, how)
			require.NoError(t, err)
			for i, p := range graded.Plans {
				alone, err := Make(run[i], how)
				require.NoError(t, err)
				require.Same(t, run[i], p.Finished)
				for _, part := range p.Parts {
					a, ok := alone.Part(part.Line.Part.Part)
					require.True(t, ok)
					unit := how.Gauge.WidthCm(2 * max(1, part.Multiple.Repeat))
					if part.Unit == "rows" {
						unit = how.Gauge.HeightCm(2)
					}
					require.InDelta(t, a.SizeCm, part.SizeCm, unit+1e-9, "%s, size %s: %s", garment, graded.Labels[i], part.Line.Part.Part)
				}
			}
			cost := func(rows stitch.Multiple) float64 {
				_, cost, err := makeRun(samples.Sizes, run, how, rows, nil)
				require.NoError(t, err)
				return cost
			}
			sum := 0.0
			for _, p := range graded.Plans {
				for _, part := range p.Parts {
					sum += part.ErrorCm() * part.ErrorCm()
				}
			}
			least := cost(stitch.Even)
			if how.Craft == Crochet {
				least = min(least, cost(stitch.Odd))
			}
			require.InDelta(t, least, sum, 1e-9, garment)
		}
	}
}

// What a front opening crosses is fabric and edges, from the neck to the hem; what lies
// below a closed front is fabric alone.
func edgesAreOfEveryGirth(t *testing.T, p *Plan) {
	if p.Garment.Group != "upper" {
		return
	}
	for _, id := range []string{"neck", "chest", "waist", "skirt_hip"} {
		if x, ok := p.Part(id); ok {
			require.Equal(t, p.Garment.Opening == "front", x.EdgesCm > 0, id)
		}
	}
}

// A knitter's gauge tells the yarn, a crocheter's does not: only what is said of the yarn
// does.
func TestYarnIsComparedWhereItIsKnown(t *testing.T) {
	for _, tt := range []struct {
		how    How
		per4   float64
		banded bool
	}{{stocking, 0, true}, {stocking, 20, true}, {singleCrochet, 0, false}, {singleCrochet, 20, true}} {
		how := withYarn(tt.how)
		how.KnitPer4In = tt.per4
		p := suit(t, how)
		require.Equal(t, tt.banded, p.Yarn.Band != nil, "%s, %g stitches", how.Craft, tt.per4)
	}
}
