package plan

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// ribbingIsAsDeep claims that every edge in ribbing has as many rows as are nearest to its
// depth: what was asked for or is customary, but no more than a share of what it ends; and
// below that what is folded away of it.
func ribbingIsAsDeep(t *testing.T, p *Plan) {
	g, rib := p.How.Gauge, ribOf(p)
	finished := func(part string) float64 { l, _ := p.Finished.Line(part); return l.Finished + p.departures[part].cm }
	edgeRows := func(s *Section) (n int, roomCm float64) {
		for _, f := range s.Folds {
			if f.Way == FoldCuff || f.Way == DeepHem {
				l, _ := p.Finished.Line(f.Parts[0])
				n, roomCm = n+f.Rows, l.RoomCm()
			}
		}
		return n, roomCm
	}
	cuff := func(longCm float64) float64 {
		deep := p.How.CuffCm
		if slices.Contains(p.Spec.Options, "fold-back-cuffs") {
			deep *= 2
		}
		return min(deep, longCm*shareOf(p, "cuff_most"))
	}
	most := shareOf(p, "hem_most")
	for _, s := range p.Sections {
		if !s.Ribbed || p.Adds(s) {
			continue
		}
		folded, room := edgeRows(s)
		deep := -1.0
		switch group := p.Garment.Group; {
		case s.ID == "neckband" || s.ID == "armbands":
			deep = p.How.BandCm
		case s.ID == "brim":
			deep = min(p.How.BandCm, most*finished("hat_height"))
		case s.ID == "waistband":
			deep = min(p.How.HemCm, most*finished("rise"))
		case s.ID == "hem":
			long, above := finished("body_length")-room, cmOf(p, "back-neck", "yoke", "back")
			deep = max(0, min(p.How.HemCm, most*long, long-above-g.HeightCm(1)))
		case group == "foot" && s.ID == "leg" && p.Parts[0].Line.Part.Part == "calf", s.ID == "top":
			deep = cuff(finished("leg_height") - room)
		case group == "head" && s.ID == "neck":
			deep = finished("neck_height")
		case group == "hand":
			deep = cuff(3 * finished("hand_length"))
		case s.ID == "cuff":
			deep = cuff(finished("sleeve_length") - room)
		case s.ID == "ankle":
			deep = cuff(finished("inside_leg") - room)
		}
		if deep >= 0 {
			require.Equal(t, wholeNear(rib.Rows(deep), 1)+folded, s.Rows(), s.ID)
		}
	}
}

// edgesAreNearest claims that the count of an edge in ribbing is the pair of stitches
// nearest to its girth of all that are not under its least ease, let through what must
// pass where it is known how far it stretches, and are no more than it grows from; unless
// one row cannot take as many away as that needs.
func edgesAreNearest(t *testing.T, p *Plan) {
	rib := ribOf(p)
	for _, x := range p.Parts {
		id := x.Line.Part.Part
		if !x.Ribbed || id == "calf" {
			continue
		}
		want := x.Line.Finished
		least := want
		if len(x.Line.Ease) > 0 {
			for _, e := range x.Line.Ease {
				least -= e.Cm
			}
			least = min(least+x.Line.EaseLow, want)
		} else if x.Line.Share.Cm != 0 { // a share of the body has no least
			least = 0
		}
		if stretch, ok := p.How.Stretch[id]; ok {
			m := maker{f: p.Finished, p: &Plan{}}
			if over, ok := m.passes(id); ok {
				least = max(least, over.cm/stretch)
			}
		}
		want = max(want, least)
		off := func(n int) float64 { return math.Abs(rib.WidthCm(n) - want) }
		for _, other := range []int{x.Count - 2, x.Count + 2} {
			if off(other) < off(x.Count)-1e-9 && rib.WidthCm(other) >= least-1e-9 && other >= 2 {
				require.True(t, edgeIsBound(p, id, x.Count, other), "%s: %d stitches, and %d would be nearer to %.2f cm", id, x.Count, other, want)
			}
		}
		if rib.WidthCm(x.Count) < least-1e-9 {
			require.True(t, edgeIsBound(p, id, x.Count, x.Count+2) || p.Garment.Group == "foot" && rib.WidthCm(x.Count+2) > least, "%s: %d stitches are under %.2f cm", id, x.Count, least)
		}
	}
}

// edgeIsBound reports an edge that cannot have other stitches: it would have more than what
// it grows from, or fewer than one row leaves of that.
func edgeIsBound(p *Plan, part string, count, other int) bool {
	s, from := map[string]string{"cuff": "cuff", "ankle": "ankle", "waist": "waistband", "brim": "brim", "neck": "neck"}[part], 0
	for i, x := range p.Sections {
		if x.ID != s {
			continue
		}
		if i > 0 && x.Steps[0].Across != nil {
			from = x.Steps[0].Across.Stitches
		} else if i > 0 {
			from = p.Sections[i-1].To()
		}
	}
	if other > count {
		begins := map[string]string{"cuff": "sleeve", "ankle": "leg"}[part]
		if b, ok := p.Section(begins); ok {
			from = max(from, b.From)
			if last, ok := p.tapers[begins]; ok {
				return other > last.stitches
			}
		}
		return other > from
	}
	return 2*other < from-2
}

// lengthsAreNearest claims that lengths that nothing else binds come out in the rows that
// are nearest to them: of turned knitting in pairs of rows, so that what follows begins on
// the right side.
func lengthsAreNearest(t *testing.T, p *Plan) {
	for id, section := range map[string]string{"sleeve_length": "sleeve", "inside_leg": "leg", "skirt_length": "skirt", "thumb_length": "thumb", "hat_height": "side", "neck_height": "neck", "leg_height": "leg"} {
		x, ok := p.Part(id)
		if s, has := p.Section(section); ok && has {
			rows := 1
			if !s.InRounds && p.How.Craft == Knit && id != "thumb_length" {
				rows = 2
			}
			if s.Rows() > 2 {
				require.LessOrEqual(t, math.Abs(x.ErrorCm()), max(p.How.Gauge.HeightCm(rows), ribOf(p).HeightCm(1))/2+1e-9, "%s of %d rows", id, s.Rows())
			}
		}
	}
}

// girthsAreNearest claims that what the sides are shaped to is the count nearest to its
// girth that whole pairs of stitches reach, so many at a time as they are shaped; and the
// next one up where that would be under the least ease.
func girthsAreNearest(t *testing.T, p *Plan) {
	g := p.How.Gauge
	for part, ids := range map[string][]string{"waist": {"body", "body-closed", "bodice"}, "skirt_hip": {"skirt"}, "hip": {"seat", "hips"}, "hem": {"drape"}, "calf": {"leg"}} {
		x, ok := p.Part(part)
		if !ok || x.Ribbed || x.Multiple.Repeat > 2 || p.Garment.Group == "foot" { // of a leg-warmer in the body's multiple
			continue
		}
		var s *Section
		for _, id := range ids {
			if of, ok := p.Section(id); ok && of.Schedule != nil {
				s = of
			}
		}
		if s == nil {
			continue
		}
		pair := max(1, s.Schedule.Change/2, -s.Schedule.Change/2)
		least := x.Line.Finished
		for _, e := range x.Line.Ease {
			least -= e.Cm
		}
		least += x.Line.EaseLow
		if part == "hip" && p.Garment.Group == "one-piece" { // nowhere narrower than what is above it
			for _, id := range []string{"chest", "waist"} {
				above, _ := p.Part(id)
				least = max(least, above.SizeCm)
			}
		}
		over := x.SizeCm - x.WantCm
		require.True(t, math.Abs(over) <= g.WidthCm(pair)+0.05+1e-9 || over > 0 && x.SizeCm-g.WidthCm(2*pair) < max(least, x.WantCm-g.WidthCm(1)), "%s: %d stitches are %.2f cm beside %.2f", part, x.Count, over, x.WantCm)
	}
	if p.Legs == nil {
		return
	}
	thigh, ok := p.Part("thigh")
	require.True(t, ok)
	leg := mustSection(t, p, "leg")
	require.Equal(t, leg.From, thigh.Count)
	require.InDelta(t, thigh.WantCm, thigh.SizeCm, g.WidthCm(1)/2+0.05+1e-9)
	hip := p.Legs.Hip
	least := p.Finished.Spec.BridgeLeastCm(g.WidthCm(hip), p.Finished.Practice)
	require.GreaterOrEqual(t, g.WidthCm(p.Legs.Bridge), least-1e-9)
	bridge := leg.stepOf("bridge")
	require.Equal(t, []int{hip / 2, p.Legs.Bridge}, []int{bridge.n("each"), bridge.n("bridge")})
	round := leg.stepOf("leg")
	require.Equal(t, []int{p.Legs.Bridge / 2, p.Legs.Bridge - p.Legs.Bridge/2, hip / 2}, []int{round.n("half"), round.n("rest"), round.n("body")})
	wide := float64(p.Legs.Bridge) / float64(hip)
	require.Equal(t, wide > shareOf(p, "bridge_share_high")+0.005, len(notesOf(p, "bridge-wide")) == 1)
	need := thigh.Line.Finished
	if narrow := g.WidthCm(hip/2 + int(math.Ceil(g.Stitches(least)-1e-9))); narrow > need+0.05 {
		require.InDelta(t, narrow, thigh.WantCm, 1e-9, "half the hips and the least bridge")
	} else {
		require.InDelta(t, need, thigh.WantCm, 0.05)
	}
}

// sectionsJoin claims that a section that goes on from the one before it begins on what that
// ends on, or says how many stitches the row that joins them gains, loses or casts on.
func sectionsJoin(t *testing.T, p *Plan) {
	for i, s := range p.Sections {
		first := s.Steps[0]
		if i == 0 || first.PickUp != nil || s.ID == "foot" || s.ID == "hood-panel" || p.Adds(s) || first.is("pick-up", "hood-pick-up", "cast-on", "start", "divide", "leg-round", "sleeve-from", "heel", "join-halves", "join-front-back", "join-fronts-back") {
			continue
		}
		on := p.Sections[i-1].To()
		for _, x := range s.Steps {
			switch {
			case x.Kind == "join-fronts-cast-on":
				on += x.n("cast_on")
			case x.Across != nil && x.Row == 1:
				require.Equal(t, on, x.Across.Stitches, s.ID)
				on = x.Across.After()
			}
		}
		if s.ID != "seat-back" && s.ID != "crown" { // in which the first round may gain some
			require.Equal(t, s.From, on, s.ID)
		}
	}
	if s, ok := p.Section("seat-back"); ok { // the last short row goes from its turn to the middle of the back
		last := s.rows[len(s.rows)-2].worked
		require.InDelta(t, float64(last)/2, s.stepOf("end").n("half"), float64((&hand{}).further(s))/2+1)
		raise := "seat_raise"
		if slices.Contains(p.Spec.Options, sizing.Seated) {
			raise = "seat_raise_seated"
		}
		pairs, _, err := stitch.ShortRowSets(p.How.Gauge, figure(p, raise))
		require.NoError(t, err)
		require.LessOrEqual(t, s.stepOf("first").n("pairs"), pairs)
	}
}
