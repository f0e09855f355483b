package plan

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// neckDropOf is how much lower the neck is in front: what the child's own heights of nape
// and throat say where they are measured alike and usual, else a share of the height.
func neckDropOf(p *Plan) float64 {
	of := func(id string) (sizing.Reading, bool) {
		r, ok := p.Body.Get(id)
		return r, ok && r.Value > 0
	}
	height, ok := of("height")
	if !ok {
		return figure(p, "neck_drop")
	}
	trunk, ok1 := of("trunk")
	leg, ok2 := of("inside_leg")
	head, ok3 := of("crown_to_throat")
	nape, throat := trunk.Value+leg.Value, height.Value-head.Value
	alike := leg.Provenance != sizing.Measured || trunk.Provenance == sizing.Measured
	if share := (nape - throat) / height.Value; ok1 && ok2 && ok3 && alike && share >= shareOf(p, "nape_over_throat_low") && share <= shareOf(p, "nape_over_throat_high") {
		return nape - throat
	}
	return height.Value * shareOf(p, "nape_over_throat")
}

// necksAreLowInFront claims that a neck is as much lower in front as the child's is: by
// short rows at the back of a yoke, of which a short body has fewer, or by the rows of the
// front's neck; that an opening in front is shorter or longer by it than with the usual
// one; and that a neck that the head does not pass has a slit that lets it through.
func necksAreLowInFront(t *testing.T, p *Plan) {
	g, drop := p.How.Gauge, neckDropOf(p)
	if d, ok := p.departures["front_opening"]; ok && d.why.ID == "front-neck-of-child" {
		require.InDelta(t, figure(p, "neck_drop")-drop, d.cm, 1e-9)
	}
	if s, ok := p.Section("back-neck"); ok {
		pairs, _, err := stitch.ShortRowSets(g, drop)
		require.NoError(t, err)
		length, _ := p.Finished.Line("body_length")
		left := int(g.Rows(length.Finished)) - 3 // one that goes round the neck, and two below the underarm
		if yoke, ok := p.Section("yoke"); ok {
			left -= yoke.Rows()
		}
		most := (s.From*5/6-2)/2 + 1 // as far as its stitches go
		require.Equal(t, 2*max(1, min(pairs, left/2, most))+1, s.Rows())
		first := s.stepOf("first")
		require.InDelta(t, float64(s.From)/3, first.n("first"), float64(s.Rows())/2+1)
	}
	if s, ok := p.Section("front-neck"); ok {
		rows := min(wholeNear(g.Rows(drop), 0), mustSection(t, p, "back").Rows()-2)
		if p.How.Craft == Knit {
			rows -= rows % 2
		}
		require.Equal(t, []int{rows, 2}, []int{s.Rows(), s.Copies})
	}
	for _, o := range p.openings {
		if o.how != "" || o.place != "front" {
			continue
		}
		head, ok := p.Body.Get("head")
		require.True(t, ok)
		over, _ := p.Finished.Passage("neck")
		neck, _ := p.Part("neck")
		times := max(1, p.How.Stretch["neck"])
		through := 2*o.cm + (neck.SizeCm-neck.EdgesCm)*times
		require.GreaterOrEqual(t, through, over.Cm(head.Value)-1e-9)
		require.Less(t, through-2*g.HeightCm(1), over.Cm(head.Value))
		notes := notesOf(p, "neck-slit")
		require.Len(t, notes, 1)
		require.Equal(t, []any{passers["neck"], sizing.Length(over.Cm(head.Value)), sizing.Length(o.cm)}, []any{notes[0].Args[0], notes[0].Args[1], notes[0].Args[3]})
	}
}

// partsHaveTheirShares claims that what is a share of something else has it, in whole rows
// and stitches: the hips of a garment lie so far down its rise, the calf so far down its
// leg, a heel and a tip take so much of a foot and a hand, where there are rows enough.
func partsHaveTheirShares(t *testing.T, p *Plan) {
	g := p.How.Gauge
	rows := func(id string) int {
		if s, ok := p.Section(id); ok {
			return s.Rows()
		}
		return 0
	}
	finished := func(id string) float64 {
		l, _ := p.Finished.Line(id)
		return l.Finished
	}
	held := func(id string) (cm float64, rows int) { // in folds of a section
		if s, ok := p.Section(id); ok {
			for _, f := range s.Folds {
				l, _ := p.Finished.Line(f.Parts[0])
				cm, rows = l.RoomCm(), rows+f.Rows
			}
		}
		return cm, rows
	}
	switch p.Garment.Group {
	case "lower":
		room, _ := held("rise-fold")
		down := wholeNear(g.Rows((finished("rise")-room)*shareOf(p, "hip_share_of_rise")), 0) - rows("waistband") - 1
		if rows("seat") > 0 {
			require.Equal(t, max(1, down), rows("hips"))
		} else {
			require.LessOrEqual(t, rows("hips"), max(1, down))
		}
	case "foot":
		if heel, ok := p.Section("heel"); ok {
			half := heel.From
			left := min((half-1)/2, wholeNear(float64(half)*(1-shareOf(p, "heel_middle_share"))/2, 1))
			pairs := min(left, wholeNear(g.Rows(finished("foot_length")*shareOf(p, "heel_depth_share"))/2, 1))
			require.Equal(t, 4*pairs, heel.Rows())
			require.Equal(t, half-2*left, heel.stepOf("leave").n("middle"))
			tipped(t, p, "toe", rows("heel")/2+rows("foot")+rows("toe"))
		}
	case "hand":
		require.Equal(t, wholeNear(g.Rows(finished("thumb_length")), 1), rows("palm"))
		require.Equal(t, rows("palm"), rows("thumb"))
		tipped(t, p, "tip", rows("palm")+rows("hand")+rows("tip"))
	}
	if lower, ok := p.Section("lower-leg"); ok {
		leg := mustSection(t, p, "leg")
		room := 0.0
		for _, s := range p.Sections {
			for _, f := range s.Folds {
				if f.Room == LegRoom {
					l, _ := p.Finished.Line(f.Parts[0])
					room = l.RoomCm()
				}
			}
		}
		to := wholeNear(g.Rows((finished("inside_leg")-room)*shareOf(p, "calf_share_of_leg")), 1)
		if p.How.Craft == Knit && !leg.InRounds {
			to -= to % 2
		}
		if lower.Schedule.Rows > 1 {
			require.Equal(t, to, leg.Rows())
		}
		calf, _ := p.Part("calf")
		require.Equal(t, lower.From, calf.Count)
	}
	if strap, ok := p.Section("strap"); ok {
		g := strap.Gauge
		size := wholeNear(g.Stitches(figure(p, "buttonhole")), 1)
		width := max(size+4, wholeNear(g.Stitches(figure(p, "strap_width")), 0))
		if (width-size)%2 == 1 {
			width++ // the hole is in its middle
		}
		end := max(2, wholeNear(ribOf(p).Rows(figure(p, "strap_end")), 1))
		_, folded := held("strap")
		require.Equal(t, []int{width, max(wholeNear(g.Rows(finished("strap_length")), 0), end+folded+2)}, []int{strap.From, strap.Rows()})
		at := strap.Rows() - end - folded
		for i, x := range slices.DeleteFunc(slices.Clone(strap.Steps), func(x Step) bool { return x.Kind != "strap-hole" }) {
			if i > 0 {
				at += strap.Folds[i-1].Rows
			}
			require.Equal(t, []int{at, (width - size) / 2, size}, []int{x.n("hole_row"), x.n("side"), x.n("size")})
		}
		require.Equal(t, strap.Rows()-end, at)
		require.Equal(t, sizing.Length(finished("waist")*shareOf(p, "strap_apart")), strap.stepOf("sew").Values["apart"])
	}
	if p.Garment.Group == "one-piece" { // three measurements of two lengths: each misses a third of what they differ by
		differ := finished("trunk") - finished("body_length") - finished("rise")
		require.Equal(t, math.Abs(differ) > 0.5, len(notesOf(p, "trunk-lengths-differ")) == 1)
		for part, sign := range map[string]float64{"body_length": 1, "rise": 1, "trunk": -1} {
			x, _ := p.Part(part)
			if body, _ := p.Section("body"); body.Rows() > 2 {
				require.GreaterOrEqual(t, sign*(x.SizeCm-x.Line.Finished)+3*g.HeightCm(1), sign*sign*differ/3-math.Abs(differ), part)
			}
		}
	}
}

// tipped looks at the end of a mitten or sock of so many rows: it closes to a share of its
// stitches, four in each row that decreases, in at most a share of the rows.
func tipped(t *testing.T, p *Plan, id string, rows int) {
	s, ok := p.Section(id)
	if !ok {
		return
	}
	every, least := 1, 4
	if !s.InRounds {
		least = 6 // the edge stitches stay
		if p.How.Craft == Knit {
			every = 2
		}
	}
	times := s.Rows() / every
	require.Equal(t, s.From-4*times, s.To())
	require.GreaterOrEqual(t, s.To(), least)
	off := func(n int) float64 { return math.Abs(float64(s.From-4*n) - float64(s.From)*shareOf(p, "tip_left")) }
	if off(times+1) < off(times)-1e-9 { // there is no room for one more
		require.True(t, s.From-4*(times+1) < least || float64((times+1)*every) > float64(rows)*shareOf(p, "tip_most")+1e-9 || times == int(float64(rows)*shareOf(p, "tip_most"))/every, "%s of %d stitches ends on %d", id, s.From, s.To())
	}
	require.LessOrEqual(t, off(times), off(times-1)+1e-9)
	require.LessOrEqual(t, float64(s.Rows()), float64(rows)*shareOf(p, "tip_most")+1e-9)
}
