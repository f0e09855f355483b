package plan

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

var (
	singleCrochet = How{Craft: Crochet, Gauge: stitch.Gauge{StitchesPer10Cm: 16, RowsPer10Cm: 18}}
	doubleCrochet = How{Craft: Crochet, Gauge: stitch.Gauge{StitchesPer10Cm: 14, RowsPer10Cm: 7}}
	stocking      = How{Craft: Knit, Gauge: stitch.Gauge{StitchesPer10Cm: 22, RowsPer10Cm: 30}}
	coarse        = How{Craft: Knit, Gauge: stitch.Gauge{StitchesPer10Cm: 12, RowsPer10Cm: 16}}
	fine          = How{Craft: Knit, Gauge: stitch.Gauge{StitchesPer10Cm: 30, RowsPer10Cm: 42}}
)

// everyPlan calls f with plans of all garments, sizes, gauges, constructions
// and both ways of working tubes.
func everyPlan(t *testing.T, f func(name string, p *Plan)) {
	t.Helper()
	hows := []How{singleCrochet, doubleCrochet, stocking, coarse, fine}
	samples.EachFinished(t, len(hows), len(Constructions), func(name string, finished *sizing.Finished, i, j int) {
		how := hows[i]
		how.Construction = Constructions[j]
		how.Turned = (i+j)%2 == 1
		if _, sleeved := finished.Line("sleeve_length"); !sleeved && j > 1 {
			return // as before
		}
		p, err := Make(finished, how)
		require.NoError(t, err, name)
		f(name, p)
	})
}

// Counts agree with each other, sizes with counts, and no girth is under the
// body with its least ease.
func holdsTogether(t *testing.T, p *Plan) {
	for _, s := range p.Sections {
		require.Positive(t, s.From, s.ID)
		require.Positive(t, s.To(), s.ID)
		require.NotEmpty(t, s.Steps, s.ID)
		require.Equal(t, s.To(), s.StitchesAfter(s.Rows()), s.ID)
		if s.Schedule != nil {
			require.Equal(t, s.Schedule.To(), s.StitchesAfter(s.Schedule.Rows), s.ID)
		}
		ids := make(map[string]bool)
		for _, l := range s.Steps {
			require.False(t, ids[l.ID], "%s: line %s is there twice", s.ID, l.ID)
			ids[l.ID] = true
		}
	}
	sectionsFollow(t, p)
	for _, x := range p.Parts {
		id := x.Line.Part.Part
		g := p.How.Gauge
		if x.Ribbed && p.How.Rib != nil {
			g = *p.How.Rib
		}
		if x.Count > 0 && x.Unit == "stitches" {
			require.InDelta(t, g.WidthCm(x.Count)+x.EdgesCm, x.SizeCm, 1e-9, id)
			require.True(t, x.Multiple.Has(x.Count), "%s: %d is no %s", id, x.Count, x.Multiple)
		}
		if x.Count > 0 && x.Unit == "rows" && p.How.Rib == nil {
			require.InDelta(t, g.HeightCm(x.Count), x.SizeCm, 1e-9, id)
		}
		if x.Line.Part.Dimension != "length" && len(x.Line.Ease) > 0 && !math.IsNaN(x.Line.EaseLow) {
			base := x.Line.Finished
			for _, e := range x.Line.Ease {
				base -= e.Cm
			}
			least := min(base+x.Line.EaseLow, x.Line.Finished)
			if p.Garment.Group == "foot" {
				least -= g.WidthCm(1) // a sock stretches: the nearest pair, to either side
			}
			require.GreaterOrEqual(t, x.SizeCm, least-1e-6, id)
		}
	}
	for _, l := range p.Spec.Options {
		require.NotEmpty(t, l)
	}
}

// sectionsFollow checks that each part of the work begins on what is there.
func sectionsFollow(t *testing.T, p *Plan) {
	t.Helper()
	at := func(id string) *Section { s, _ := p.Section(id); return s }
	var sp *stitch.Split
	if p.Circular != nil {
		require.NoError(t, p.Circular.Check())
		require.Equal(t, p.Circular.Yoke, at("yoke").To())
		require.Equal(t, p.Circular.Neck+len(p.Circular.Rounds)*p.Circular.PerRound, p.Circular.Yoke)
		sp = &p.Circular.Split
	}
	if p.Raglan != nil {
		require.NoError(t, p.Raglan.Check())
		require.Equal(t, p.Raglan.Yoke, at("yoke").To())
		sp = &p.Raglan.Split
	}
	if sp != nil {
		fronts := sp.Front
		if sp.FrontOpening {
			fronts *= 2
		}
		require.Equal(t, sp.Yoke, fronts+sp.Back+2*sp.SleevePart)
		require.Equal(t, sp.Body, fronts+sp.Back+2*sp.Underarm)
		require.Equal(t, sp.Sleeve, at("sleeve").From)
	}
	if p.Legs != nil {
		require.NoError(t, p.Legs.Check())
		require.Equal(t, p.Legs.Leg, at("leg").From)
		require.Equal(t, 2*p.Legs.Leg, p.Legs.Hip+2*p.Legs.Bridge)
	}
	for _, next := range [][2]string{{"body", "seat"}, {"body-closed", "seat"}, {"bodice", "skirt"}, {"skirt", "skirt-hem"}, {"leg", "lower-leg"}, {"hood", "hood-crown"},
		{"hand", "tip"}, {"foot", "toe"}, {"crown", "side"}, {"hips", "seat"}} {
		a, b := at(next[0]), at(next[1])
		if next[0] == "body" && b != nil && b.Kind != "seat-beside-opening" {
			continue // the fronts are joined between them, with stitches for the edges
		}
		if a != nil && b != nil && p.How.Craft == Crochet {
			require.Equal(t, a.To(), b.From, "%s → %s", next[0], next[1])
		}
	}
}

// Where nothing prevents it, sizes come out within one stitch or row of
// the repeat; what does not is said in the notes.
func saysErrors(t *testing.T, p *Plan) {
	for _, x := range p.Parts {
		unit := p.How.Gauge.RowHeightCm()
		if x.Line.Part.Dimension != "length" {
			unit = p.How.Gauge.StitchWidthCm() * float64(max(1, x.Multiple.Repeat))
		}
		if math.Abs(x.ErrorCm()) > max(unit, seenCm, seenShare*x.WantCm) {
			said := slices.ContainsFunc(p.Notes, func(n sizing.Fact) bool {
				return n.ID == "part-misses" && n.Args[0] == x.Line.Part.Name
			})
			require.True(t, said, "%s misses %.1f cm and no note says so", x.Line.Part.Part, x.ErrorCm())
		}
	}
}

// lengthsAreRows claims that the lengths of a garment are those of its rows.
func lengthsAreRows(t *testing.T, p *Plan) {
	long := lengthsOf(p, func(s *Section) int {
		n := s.Rows()
		for _, f := range s.Folds {
			if f.later() { // worked on when it is needed
				n += f.Rows
			}
		}
		return n
	})
	for part, cm := range long {
		if x, ok := p.Part(part); ok {
			require.InDelta(t, cm, x.SizeCm, 1e-9, part)
			require.InDelta(t, x.Line.Finished+p.departures[part].cm, x.WantCm, 1e-9, part)
			require.InDelta(t, x.SizeCm-x.WantCm, x.ErrorCm(), 1e-9, part)
		}
	}
}

// lengthsOf are the lengths of a garment by the rows of its sections, counted from the
// nape or the front of the neck. Some are of parts that the garment does not have.
func lengthsOf(p *Plan, rows func(s *Section) int) map[string]float64 {
	cm := func(ids ...string) float64 {
		n := 0.0
		for _, id := range ids {
			if s, ok := p.Section(id); ok {
				n += s.Gauge.HeightCm(rows(s))
			}
		}
		return n
	}
	above := cm("back-neck", "yoke", "back")      // one of the two ways
	front := p.How.Gauge.HeightCm(1) + cm("yoke") // the row that goes round the neck
	if _, ok := p.Section("front"); ok {          // or what is below the front's neck
		front = cm("front")
	}
	seat := 0.0
	if s, ok := p.Section("seat"); ok && !s.InRounds {
		seat = cm("seat")
	}
	long := map[string]float64{
		"sleeve_length": cm("sleeve", "cuff"), "inside_leg": cm("leg", "lower-leg", "ankle"), "strap_length": cm("strap"), "neck_height": cm("neck"),
		"skirt_length": cm("skirt", "skirt-hem"), "hand_length": cm("palm", "hand", "tip"), "thumb_length": cm("thumb"),
		"foot_length": cm("heel")/2 + cm("foot", "toe"), "hat_height": cm("crown", "side", "brim"),
	}
	switch p.Garment.Group {
	case "one-piece":
		long["body_length"] = above + cm("body", "body-closed")
		long["rise"] = cm("seat", "seat-closed")
		long["trunk"] = above + cm("body", "body-closed", "seat", "seat-closed")
		long["front_opening"] = front + cm("body") + seat
	case "upper":
		long["body_length"] = above + cm("body", "hem", "bodice", "drape", "drape-hem")
		long["front_opening"] = front + cm("body", "hem", "bodice", "skirt", "skirt-hem")
	case "lower": // the raised back is not counted, but the round that widens to it
		long["rise"] = cm("waistband", "hips", "seat", "rise-fold")
		if s, ok := p.Section("seat-back"); ok && s.rows[0].worked == s.From {
			long["rise"] += p.How.Gauge.HeightCm(1)
		}
	case "foot":
		long["leg_height"] = cm("leg", "calf", "top")
	}
	if p.Raglan != nil || p.Circular != nil { // half the underarm turns down into the side
		long["armhole_depth"] = front + p.How.Gauge.WidthCm(p.split().Underarm)/2
	} else if cm("back") > 0 {
		long["armhole_depth"] = cm("back")
	}
	if p.Hood != nil && p.Hood.PanelRows == 0 { // TestHoods has those with a panel
		long["hood_height"] = cm("hood", "hood-crown")
	}
	return long
}

// everyHeld calls f with plans that hold room to grow, in every way that a garment can.
func everyHeld(t *testing.T, f func(name string, p *Plan)) {
	t.Helper()
	for _, g := range samples.Reference(t).Garments() {
		for i, size := range []string{"12m", "3", "7.5", "12"} {
			spec := samples.Spec(g.ID)
			spec.Seasons = 2
			finished := samples.Finish(t, samples.BodyAt(t, size), spec)
			for k, how := range []How{singleCrochet, doubleCrochet, stocking, fine} {
				for c, way := range Ways {
					how.Construction = Constructions[(i+k+c)%len(Constructions)]
					how.Closure = []Closure{Zip, Buttons}[(k+c)%2]
					how.Hood = []Hood{ShapedCrown, CentrePanel}[(i+c)%2]
					how.Turned = c%3 == 0
					how.Hold = map[Room]Way{"": way}
					if p, err := Make(finished, how); err == nil { // some garments cannot hold room in some ways
						f(fmt.Sprintf("%s %s held by %s", g.ID, size, way), p)
					}
				}
			}
		}
	}
}

func TestWhatCannotBePlanned(t *testing.T) {
	ref := samples.Reference(t)
	good := samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("pullover"))
	chart, err := ref.Chart("craft")
	require.NoError(t, err)
	place, err := chart.Place("18m", sizing.Both)
	require.NoError(t, err)
	bare := samples.Finish(t, ref.BodyAt(place, sizing.Monotone), samples.Spec("one-piece"))
	tests := []struct {
		name string
		f    *sizing.Finished
		set  func(*How)
		want string
	}{
		{"nothing", nil, func(*How) {}, "no finished measurements to plan from"},
		{"unknown body", bare, func(*How) {}, "the body's neck is not known; measure it"},
		{"no craft", good, func(h *How) { h.Craft = "" }, "no craft given; want crochet or knit"},
		{"other craft", good, func(h *How) { h.Craft = "felt" }, `unknown craft "felt"`},
		{"no gauge", good, func(h *How) { h.Gauge = stitch.Gauge{} }, "stitch gauge is 0"},
		{"NaN gauge", good, func(h *How) { h.Gauge.RowsPer10Cm = math.NaN() }, "row gauge is NaN"},
		{"rib gauge", good, func(h *How) { h.Rib = &stitch.Gauge{StitchesPer10Cm: math.Inf(1), RowsPer10Cm: 3} }, "ribbing: stitch: stitch gauge is +Inf"},
		{"washed", good, func(h *How) { h.Before = &stitch.Gauge{StitchesPer10Cm: 60, RowsPer10Cm: 60} }, "change of width in the wash"},
		{"construction", good, func(h *How) { h.Construction = "kimono" }, `unknown construction "kimono"`},
		{"closure", good, func(h *How) { h.Closure = "snaps" }, `unknown closure "snaps"`},
		{"multiple", good, func(h *How) { h.Multiple = stitch.Multiple{Repeat: 4, Edge: -9} }, "edge of a multiple is -9"},
		{"rib share", good, func(h *How) { h.RibShare = 2 }, "share of ribbing is 2: want 0.5 to 1"},
		{"hem", good, func(h *How) { h.HemCm = math.NaN() }, "depth of the hem, cm is NaN: want 0.5 to 20"},
		{"edge", good, func(h *How) { h.Stretch = map[string]float64{"knee": 1.5} }, `unknown edge "knee"`},
		{"stretch", good, func(h *How) { h.Stretch = map[string]float64{"neck": math.NaN()} }, "stretch of the neck is NaN: want 1 to 3 times"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			how := singleCrochet
			tt.set(&how)
			p, err := Make(tt.f, how)
			require.Nil(t, p)
			require.ErrorContains(t, err, tt.want)
		})
	}
}

// Every hood reaches from neck to crown, however its top is made, and its seam
// or its panel takes up all its stitches.
func TestHoods(t *testing.T) {
	for _, hood := range Hoods {
		for _, gauge := range []stitch.Gauge{{StitchesPer10Cm: 12, RowsPer10Cm: 14}, {StitchesPer10Cm: 22, RowsPer10Cm: 30}} {
			m := samples.Spec("one-piece-hooded")
			p, err := Make(samples.Finish(t, samples.Baby(t), m), How{Craft: Crochet, Gauge: gauge, Hood: hood})
			require.NoError(t, err, hood)
			sectionsFollow(t, p)
			h := p.Hood
			require.Equal(t, hoodShapes[hood], h.Shape)
			require.InDelta(t, h.Height.WantCm, h.Height.SizeCm, gauge.RowHeightCm()/2+1e-9)
			switch hood {
			case CentrePanel:
				require.Equal(t, h.Stitches, h.Panel+2*h.Side)
				s, ok := p.Section("hood-panel")
				require.True(t, ok)
				require.Equal(t, h.PanelRows, s.Rows())
				require.InDelta(t, gauge.WidthCm(h.Side), gauge.HeightCm(h.PanelRows), gauge.RowHeightCm())
			case Straight:
				require.Equal(t, h.Stitches, 2*h.SeamStitches)
			default:
				s, ok := p.Section("hood-crown")
				require.True(t, ok)
				require.Equal(t, 2*h.SeamStitches, s.To())
			}
		}
	}
	_, err := Make(samples.Finish(t, samples.Baby(t), samples.Spec("one-piece-hooded")), How{Craft: Knit, Gauge: stitch.Gauge{StitchesPer10Cm: 20, RowsPer10Cm: 28}, Hood: "pointed"})
	require.ErrorContains(t, err, "hood")
}

// The armhole of a vest goes round front and back and under the arm; its band has
// the ribbing's share of that.
func TestArmbands(t *testing.T) {
	for _, how := range []How{singleCrochet, stocking, coarse} {
		f := samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("vest"))
		p, err := Make(f, how)
		require.NoError(t, err)
		s, ok := p.Section("armbands")
		require.True(t, ok)
		depth, ok := f.Line("armhole_depth")
		require.True(t, ok)
		chest, ok := f.Line("chest")
		require.True(t, ok)
		back, ok := f.Line("cross_back")
		require.True(t, ok)
		under := chest.Finished/2 - back.Finished // on each side, front and back together
		round := (2*depth.Finished + under) * f.Practice("rib_share").Share()
		g := how.Gauge
		require.InDelta(t, round, g.WidthCm(s.From), 2*g.StitchWidthCm()+2*g.RowHeightCm(), "%v", g)
	}
}
