package plan

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// wholeNear is the whole number nearest to a figure, found by trying; least at least.
func wholeNear(x float64, least int) int {
	best := least
	for n := least; float64(n) <= x+1; n++ {
		if math.Abs(float64(n)-x) < math.Abs(float64(best)-x) || math.Abs(float64(n)-x) == math.Abs(float64(best)-x) {
			best = n
		}
	}
	return best
}

func cmOf(p *Plan, ids ...string) float64 {
	n := 0.0
	for _, id := range ids {
		if s, ok := p.Section(id); ok {
			n += s.HeightCm()
		}
	}
	return n
}

func figure(p *Plan, id string) float64 { return p.Finished.Practice(id).Value }

func shareOf(p *Plan, id string) float64 { return p.Finished.Practice(id).Share() }

func ribOf(p *Plan) stitch.Gauge {
	if p.How.Rib != nil {
		return *p.How.Rib
	}
	return p.How.Gauge
}

func notesOf(p *Plan, id string) (all []sizing.Fact) {
	for _, n := range p.Notes {
		if n.ID == id {
			all = append(all, n)
		}
	}
	return all
}

// partsAreSaid claims that every finished measurement is planned, in its order and with
// what is held of it, and that what the construction changes, or misses by more than is
// seen, is said once: so much wider or narrower, longer or shorter.
func partsAreSaid(t *testing.T, p *Plan) {
	var departs, misses []sizing.Fact
	var order []string
	for _, x := range p.Parts {
		id := x.Line.Part.Part
		order = append(order, id)
		held := 0.0
		for _, s := range p.Sections {
			for _, f := range s.Folds {
				if slices.Contains(f.Parts, id) {
					held += float64(f.Rows) / s.Gauge.RowsPer10Cm * 10
				}
			}
		}
		require.InDelta(t, held, x.HeldCm, 1e-9, id)
		require.InDelta(t, x.SizeCm-held, x.WornCm(), 1e-9, id)
		long := x.Line.Part.Dimension == "length"
		word := func(by float64) sizing.Fact {
			return sizing.NewFact(map[[2]bool]string{{true, true}: "longer", {true, false}: "shorter", {false, true}: "wider", {false, false}: "narrower"}[[2]bool{long, by >= 0}])
		}
		if d, ok := p.departures[id]; ok && !d.own {
			require.Greater(t, math.Abs(d.cm), 0.05-boolFloat(id == "front_opening"), id)
			departs = append(departs, sizing.NewFact("part-departs", x.Line.Part.Name, sizing.Length(x.SizeCm), sizing.Length(math.Abs(d.cm)), word(d.cm), d.why))
		}
		unit := p.How.Gauge.WidthCm(max(1, x.Multiple.Repeat))
		if long {
			unit = p.How.Gauge.HeightCm(1)
		}
		off := x.SizeCm - x.WantCm
		if math.Abs(off) > 0.5 && math.Abs(off) > 0.02*x.WantCm && math.Abs(off) > unit {
			misses = append(misses, sizing.NewFact("part-misses", x.Line.Part.Name, sizing.Length(x.SizeCm), sizing.Length(math.Abs(off)), word(off), sizing.Length(x.WantCm)))
		}
		switch {
		case !long && id != "armhole_depth":
			require.Equal(t, "stitches", x.Unit, id)
			require.Positive(t, x.Count, id)
		case x.Count > 0:
			require.Equal(t, "rows", x.Unit, id)
		default:
			require.Empty(t, x.Unit, id)
			require.True(t, id == "armhole_depth" || ribOf(p).RowsPer10Cm != p.How.Gauge.RowsPer10Cm, "%s is in rows of one height", id)
		}
	}
	require.ElementsMatch(t, departs, notesOf(p, "part-departs"))
	require.ElementsMatch(t, misses, notesOf(p, "part-misses"))
	var want []string
	_, sleeved := p.Finished.Line("sleeve_length")
	_, lower := p.Section("lower-leg")
	_, warmer := p.Section("calf")
	for _, l := range p.Finished.Lines {
		switch id := l.Part.Part; {
		case id == "cross_back" && sleeved: // the body is not as wide there
		case id == "calf" && !lower && !warmer: // a leg too short to narrow twice
		default:
			want = append(want, id)
		}
	}
	require.Equal(t, want, order)
}

// frontsAreEdged claims of a front that opens: its edges are as many whole rows as are
// nearest to their depth; they and the zipper's gap are what its girths are wider than the
// fabric; stitches as wide are cast on where it ends; it is picked up along all its rows;
// and its zipper is the longest in the shops that is not longer, or the next, shortened.
func frontsAreEdged(t *testing.T, p *Plan) {
	if p.Garment.Opening != "front" {
		return
	}
	g, rib := p.How.Gauge, ribOf(p)
	edge := mustSection(t, p, "front-edges")
	least := 1
	if p.How.Craft == Knit {
		least = 2
	}
	require.Equal(t, wholeNear(figure(p, "edge_depth")*g.RowsPer10Cm/10, least), edge.Rows())
	both := 2 * g.HeightCm(edge.Rows())
	if chest, _ := p.Part("chest"); p.Zipper != nil || p.How.Closure == Zip && chest.EdgesCm > both+1e-9 { // or none was found for the opening as it became
		both += figure(p, "zipper_gap")
	}
	for _, x := range p.Parts {
		if id := x.Line.Part.Part; x.EdgesCm > 0 && id != "hood_round" {
			require.InDelta(t, both, x.EdgesCm, 1e-9, id)
		}
	}
	for _, s := range p.Sections {
		for _, step := range s.Steps {
			if step.Kind == "join-fronts-cast-on" {
				require.Equal(t, 2*wholeNear(g.Stitches(both)/2, 0), step.n("cast_on"), s.ID)
				require.True(t, s.InRounds)
			}
		}
	}

	fabric, ribbed := 0, 0 // rows of the opening
	for _, s := range p.Sections {
		folded := 0
		for _, f := range s.Folds {
			if f.Below == 0 && !f.later() {
				folded += f.Rows
			}
		}
		switch {
		case s.ID == "hem":
			ribbed += s.Rows() - folded
		case s.ID == "yoke" || s.ID == "front" || s.ID == "body" || s.ID == "bodice" || s.ID == "seat" && !s.InRounds || s.ID == "skirt" || s.ID == "skirt-hem":
			fabric += s.Rows() - folded
			if s.ID == "yoke" {
				fabric++ // the row that goes round the neck
			}
		}
	}
	openCm := g.HeightCm(fabric) + rib.HeightCm(ribbed)
	pick := edge.stepOf("edge")
	require.Equal(t, fabric, pick.PickUp.Rows)
	require.Equal(t, wholeNear(g.Stitches(rib.HeightCm(ribbed)+cmOf(p, "neckband")), 0), pick.n("rib"))
	require.Equal(t, []int{pick.PickUp.Stitches + pick.n("rib"), 2}, []int{edge.From, edge.Copies})
	require.Equal(t, p.Zipper == nil, len(notesOf(p, "no-zipper")) > 0 || p.How.Closure == Buttons)

	var opening opening
	for _, o := range p.openings {
		if o.how != "" {
			opening = o
		}
	}
	require.InDelta(t, openCm, opening.cm, 1e-9)
	if x, ok := p.Part("front_opening"); ok {
		require.InDelta(t, x.WornCm(), openCm, 1e-9)
	}
	if p.Zipper == nil {
		require.Equal(t, "buttonband", opening.how)
		require.InDelta(t, openCm, opening.withCm, 1e-9)
		band := mustSection(t, p, "underlap")
		require.Equal(t, wholeNear(g.Rows(p.How.BandCm), 2), band.Rows())
		require.Equal(t, edge.From, band.From)
		holes := band.stepOf("buttons")
		n := holes.n("buttonholes")
		require.LessOrEqual(t, n, wholeNear(openCm/figure(p, "button_spacing"), 1)+1)
		if n < wholeNear(openCm/figure(p, "button_spacing"), 1)+1 { // one more would not have its stitches
			_, err := stitch.SpaceButtonholes(edge.From, holes.n("ends"), n+1, holes.n("size"))
			require.Error(t, err)
		}
		require.Equal(t, wholeNear(g.Stitches(figure(p, "buttonhole")), 1), holes.n("size"))
		require.Equal(t, wholeNear(g.Stitches(figure(p, "button_end")), 0), holes.n("ends"))
		require.Equal(t, []int{n, n - 1, edge.From}, []int{band.stepOf("sew").n("buttons"), len(holes.Buttonholes.Gaps), holes.n("stitches")})
		require.Equal(t, slices.Min(holes.Buttonholes.Gaps), holes.n("apart"))
		return
	}
	z := *p.Zipper
	require.Equal(t, []any{"zipper", z.UseCm}, []any{opening.how, opening.withCm})
	require.InDelta(t, openCm, z.OpeningCm, 1e-9)
	short, long := 0.0, 0.0
	for _, x := range p.Finished.PracticeList("stocked_zipper_") {
		if x.Value*2.54 <= openCm+0.05 {
			short = max(short, x.Value)
		} else if long == 0 || x.Value < long {
			long = x.Value
		}
	}
	require.Equal(t, []float64{short, long}, []float64{z.LengthIn, z.LongerIn})
	require.Equal(t, z.Shorten, openCm-short*2.54 > figure(p, "zipper_by_hand"))
	bought, used, kind := short, short*2.54, "zipper"
	if z.Shorten {
		bought, used, kind = long, math.Floor(openCm*10)/10, "zipper-shortened"
	}
	require.InDelta(t, bought, z.Stocked(), 1e-9)
	require.InDelta(t, used, z.UseCm, 1e-9)
	require.Equal(t, kind, edge.stepOf("zipper").Kind)
	require.Equal(t, []any{sizing.Length(z.OpeningCm), z.LengthIn, sizing.Length(z.LengthCm), z.LongerIn, string(z.Advice), sizing.Length(z.DifferCm), z.RowsToFit, z.RowsToNext}, func() (all []any) {
		for _, name := range []string{"opening", "zipper_in", "zipper", "longer_in", "advice", "left", "rows_less", "rows_more"} {
			all = append(all, edge.stepOf("zipper").Values[name])
		}
		return all
	}())
}

// yarnIsOfTheArea claims that yarn is the swatch's for every stitch that is worked, with
// its margin, by section and by colour; in whole balls, one more where the last is nearly
// used up; and that it is doubted where such yarn does not usually go so far, or farther.
func yarnIsOfTheArea(t *testing.T, p *Plan) {
	y := p.Yarn
	if y == nil {
		require.Len(t, append(notesOf(p, "yarn-not-asked"), notesOf(p, "yarn-left-out")...), 1)
		return
	}
	margin := shareOf(p, "yarn_margin_plain")
	if p.Hood != nil {
		margin = shareOf(p, "yarn_margin_textured")
	}
	if p.How.Margin != nil {
		margin = *p.How.Margin
	}
	require.InDelta(t, margin, y.Margin, 1e-12)
	ball, swatch := p.How.Ball, p.How.Swatch
	perCm2 := swatch.Grams / swatch.WidthCm / swatch.HeightCm * (1 + margin)
	all, colours := 0.0, make(map[string]float64)
	require.Len(t, y.Parts, len(p.Sections))
	for i, s := range p.Sections {
		one := 10 / s.Gauge.StitchesPer10Cm * 10 / s.Gauge.RowsPer10Cm * float64(s.Copies)
		area := 0.0
		colour := ""
		for r, row := range s.rows {
			area += float64(row.worked) * one
			if len(s.Colours) > 0 {
				colour = s.Colours[r]
			}
			colours[colour] += float64(row.worked) * one
		}
		require.InDelta(t, area, s.AreaCm2(), 1e-6)
		for _, f := range s.Folds {
			if f.Way == OnHold {
				area += float64(f.Rows*s.To()) * one
				colours[colour] += float64(f.Rows*s.To()) * one
			}
		}
		require.Same(t, s, y.Parts[i].Section)
		require.InDeltaSlice(t, []float64{area, area * perCm2, area * perCm2 * ball.Metres / ball.Grams}, []float64{y.Parts[i].AreaCm2, y.Parts[i].Grams, y.Parts[i].Metres}, 1e-6, s.ID)
		all += area
	}
	require.InDeltaSlice(t, []float64{all, all * perCm2, all * perCm2 * ball.Metres / ball.Grams}, []float64{y.AreaCm2, y.Need.Grams, y.Need.Metres}, 1e-6)
	require.Len(t, y.Colours, len(colours))
	balls, more := 0, 0
	for _, c := range y.Colours {
		require.InDelta(t, colours[c.Colour]*perCm2, c.Need.Grams, 1e-6)
		n := max(1, math.Ceil(c.Need.Grams/ball.Grams-1e-9))
		require.Equal(t, int(n), c.Need.Balls)
		balls += c.Need.Balls
		require.Equal(t, min(1, c.Need.Grams/ball.Grams-n+1) > shareOf(p, "last_ball_share"), c.OneMore)
		require.Equal(t, c, y.Of(c.Colour))
		if c.OneMore {
			more++
		}
	}
	require.Equal(t, balls, y.Need.Balls)
	require.Equal(t, more > 0, y.OneMore)
	require.Equal(t, more, len(notesOf(p, "yarn-one-more"))+len(notesOf(p, "yarn-one-more-colour")))
	require.Equal(t, y.Of("").OneMore, len(notesOf(p, "yarn-one-more")) == 1)
	if y.Band != nil {
		perM2 := y.Need.Metres / (1 + margin) / y.AreaCm2 * 1e4
		require.Equal(t, perM2 < y.Band.Low || perM2 > y.Band.High, !y.Doubt.IsZero())
		require.Less(t, y.Band.Low, y.Band.High)
		if !y.Doubt.IsZero() {
			require.Equal(t, sizing.NewFact("yarn-outside-usual", y.Need.Metres/(1+margin), y.AreaCm2/1e4, y.Band.Yarn, y.Band.Low*y.AreaCm2/1e4, y.Band.High*y.AreaCm2/1e4), y.Doubt)
			require.Len(t, notesOf(p, "yarn-outside-usual"), 1)
		}
	}
}
