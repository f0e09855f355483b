package plan

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

// A section that is to be longer, wherever it is, has so many rows more, ends on as many
// stitches, is what it is as far as it is worked, and gets no steeper than it can be worked.
func TestChangedSectionsComeOut(t *testing.T) {
	turned := stocking
	turned.Turned = true
	tried, changed := 0, 0
	for _, g := range samples.Reference(t).Garments() {
		f := samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec(g.ID))
		for i, how := range []How{singleCrochet, stocking, turned} {
			how.Construction = Constructions[i]
			p, err := Make(f, how)
			require.NoError(t, err)
			for _, s := range p.Sections {
				if _, follows := fixed[s.ID]; follows || s.Ribbed || s.Rows() < 6 { // ribbing and edges are as deep as they are
					continue
				}
				for _, done := range []int{0, 1, s.Rows() / 3, s.Rows() - 1} {
					for _, cm := range []float64{-1, 0.1, 3} {
						name := fmt.Sprintf("%s %s: %s after %d of %d rows, %g cm", g.ID, how.Craft, s.ID, done, s.Rows(), cm)
						tried++
						r, err := p.Remaining(Trial{Done: []Done{{s.ID, done}}, Changes: []Change{{Section: s.ID, LongerCm: cm}}})
						if err != nil || len(r.RipBack) > 0 {
							continue // said, not done
						}
						more := int(math.Round(how.Gauge.Rows(cm)))
						if p.rightSideOnly(s) {
							more = 2 * int(math.Round(how.Gauge.Rows(cm)/2))
						}
						l := r.leftOf(t, s.ID)
						now := l.Section
						require.Equal(t, s.Rows()+more, now.Rows(), name)
						require.Equal(t, []int{s.From, s.To()}, []int{now.From, now.To()}, name)
						steepest := 0
						for row := 1; row <= s.Rows(); row++ {
							by := s.StitchesAfter(row) - s.StitchesAfter(row-1)
							steepest = max(steepest, by, -by)
						}
						for row := 1; row <= now.Rows(); row++ {
							if row <= done {
								require.Equal(t, s.StitchesAfter(row), now.StitchesAfter(row), name)
							}
							by := now.StitchesAfter(row) - now.StitchesAfter(row-1)
							if more > 0 {
								require.LessOrEqual(t, max(by, -by), max(2*steepest, 8), name)
							}
						}
						require.Equal(t, (s.Rows()+more)*s.Copies-done, l.Rows, name)
						if more == 0 {
							require.Empty(t, l.Rest, name)
							continue
						}
						changed++
						require.NotEmpty(t, l.Rest, name)
						require.Equal(t, s.StitchesAfter(done), r.OnWorkAt(done), name)
					}
				}
			}
		}
	}
	require.Greater(t, changed, tried/4, "%d of %d", changed, tried)
}

// OnWorkAt is how many stitches are on the work, none of it begun being those cast on.
func (r *Remaining) OnWorkAt(done int) int {
	if done == 0 {
		return r.Left[0].Section.From
	}
	return r.OnWork
}

// The edge of a neck, beside its shaping row by row: along the back and the middle of the
// front, straight up the sides as far as they are plain, and across from there. What is
// picked up is as wide as that.
func TestNeckEdgeIsAsLongAsItsRows(t *testing.T) {
	for _, garment := range []string{"pullover", "cardigan", "vest"} {
		for _, size := range samples.Sizes {
			for _, how := range []How{singleCrochet, doubleCrochet, stocking, fine} {
				how.Construction = DropShoulder
				p, err := Make(samples.Finish(t, samples.BodyAt(t, size), samples.Spec(garment)), how)
				require.NoError(t, err)
				side, ok := p.Section("front-neck")
				require.True(t, ok)
				back, _ := p.Section("back")
				g := p.How.Gauge
				neck := back.From - 2*side.From
				middle := 0
				for _, s := range p.Sections {
					for _, step := range s.Steps {
						switch step.Kind {
						case "cast-on-neck-edge":
							middle = 2 * step.Values["cast_on"].(int)
						case "cast-on-neck-edges":
							middle = step.Values["cast_on"].(int) + step.Values["cast_on_other"].(int)
						}
					}
				}
				steep := side.To() - side.From
				rise := 0
				for _, step := range side.Steps {
					if n, ok := step.Values["then"].(int); ok {
						rise = n
					}
				}
				edge := g.WidthCm(neck+middle) + 2*(g.HeightCm(side.Rows()-rise)+math.Hypot(g.WidthCm(steep), g.HeightCm(rise)))
				picked, ok := p.Part("neck")
				require.True(t, ok)
				require.InDelta(t, edge, g.WidthCm(picked.Count), g.WidthCm(1)+1e-9, "%s %s", garment, size)
			}
		}
	}
}

// Markers: one where a round begins, one at each side that is shaped, four lines of a
// raglan. Spare yarn: both sleeves of a divided yoke, the thumb of a mitten. A slit is
// closed by one button.
func TestMaterialsAreCounted(t *testing.T) {
	raglan, drop, buttoned := stocking, stocking, stocking
	raglan.Construction, drop.Construction, buttoned.Closure = Raglan, DropShoulder, Buttons
	turned := stocking
	turned.Turned = true
	for _, c := range []struct {
		garment          string
		how              How
		markers, holders int
	}{
		{"hat", stocking, 1, 0}, {"socks", stocking, 1, 0}, {"mittens", stocking, 1, 1}, {"mittens", turned, 0, 1},
		{"pullover", stocking, 2, 2}, {"pullover", raglan, 4, 2}, {"pullover", drop, 2, 0}, {"trousers", stocking, 2, 0},
	} {
		p, err := Make(samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec(c.garment)), c.how)
		require.NoError(t, err)
		m := p.Materials()
		require.Equal(t, []int{c.markers, c.holders}, []int{m.Markers, m.Holders}, "%s %s", c.garment, c.how.Construction)
		_, slit := p.Section("slit")
		for _, o := range p.openings {
			slit = slit || o.place == "front" && o.how == ""
		}
		require.Equal(t, slit, m.Buttons == 1, c.garment)
	}
	p, err := Make(samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("cardigan")), buttoned)
	require.NoError(t, err)
	require.Greater(t, p.Materials().Buttons, 3)
}

// A fold is let down in so many months: said as whole months, its range outwards, or as
// months of the calendar.
func TestWhenAFoldIsLetDown(t *testing.T) {
	day := time.Date(2026, 11, 26, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		when *sizing.Passing
		kind string
		want Values // beside measurement and at
	}{
		{nil, "let-down-when", Values{}},
		{&sizing.Passing{Months: 7.4, Low: 5.2, High: 9.3}, "let-down-when-in", Values{"about": 7, "early": 5, "late": 10}},
		{&sizing.Passing{Months: 7.6, Low: 5.9, High: 9}, "let-down-when-in", Values{"about": 8, "early": 5, "late": 10}},
		{&sizing.Passing{Months: 7.4, Low: 5.2, High: math.Inf(1)}, "let-down-when-in-open", Values{"about": 7, "early": 5}},
		{&sizing.Passing{Months: 7, Low: 5, High: 9, From: day}, "let-down-when-dated", Values{"about": "2027-06", "early": "2027-04", "late": "2027-08"}},
		{&sizing.Passing{Months: 7, Low: 5, High: math.Inf(1), From: day}, "let-down-when-dated-open", Values{"about": "2027-06", "early": "2027-04"}},
	} {
		kind, v := Held{AtCm: 120, When: c.when}.when()
		require.Equal(t, c.kind, kind)
		delete(v, "measurement")
		require.Equal(t, sizing.Length(120), v["at"])
		delete(v, "at")
		require.Equal(t, c.want, v)
	}
}

// A draft has a row for what is worked in repeats of a multiple, for edges and for what
// stretches, and none for what is not.
func TestDraftHasWhatPartsHave(t *testing.T) {
	repeats := map[bool]int{}
	for _, multiple := range []stitch.Multiple{{}, {Repeat: 2}, {Repeat: 3}, {Repeat: 4}} {
		how := stocking
		how.Multiple = multiple
		how.Stretch = map[string]float64{"cuff": 1.4}
		p, err := Make(samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("cardigan")), how)
		require.NoError(t, err)
		values := make(map[string]string)
		for _, r := range p.Draft() {
			values[r.Field+" "+r.Part] = r.Value
		}
		for _, x := range p.Parts {
			id := x.Line.Part.Part
			_, said := values["multiple "+id]
			require.Equal(t, x.Multiple.Repeat >= 2, said, "%s of %v", id, x.Multiple)
			repeats[said]++
			_, said = values["edges "+id]
			require.Equal(t, x.EdgesCm > 0, said, id)
			_, said = values["stretch "+id]
			require.Equal(t, id == "cuff", said, id)
		}
	}
	require.Len(t, repeats, 2)
}
