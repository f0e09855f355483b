package plan

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// sectionsCanBeAdjusted claims what makes one section longer or wider while all others
// stay: whole rows, pairs of them where they are turned, and whole pairs or repeats of
// stitches, nearest to what was asked for and one at least; in the place that the section
// has for them; none where it has none.
func sectionsCanBeAdjusted(t *testing.T, p *Plan) {
	for i, s := range p.Sections {
		short := slices.Contains([]string{"back-neck", "seat-back", "heel"}, s.ID)
		edge := slices.Contains([]string{"front-edges", "underlap", "hood-edge"}, s.ID)
		shaped := s.Schedule != nil && s.Schedule.Rows == s.Rows() && s.From != s.To()
		for _, cm := range []float64{0.3, 2, 7} {
			long := p.Longer(s, cm)
			if short || edge {
				require.Equal(t, Adjustment{Place: Nowhere}, long, s.ID)
			} else {
				n := wholeNear(s.Gauge.Rows(cm), 1)
				if !s.InRounds {
					n = 2 * wholeNear(s.Gauge.Rows(cm)/2, 1)
				}
				place := AtEnd
				switch {
				case shaped && long.Shaping != nil:
					place = Throughout
					require.Equal(t, []int{s.Rows() + n, s.From, s.To()}, []int{long.Shaping.Rows, long.Shaping.From, long.Shaping.To()}, s.ID)
				case !shaped && s.To() < s.StitchesAfter(1) && !s.Ribbed:
					place = AtStart
				}
				require.InDelta(t, s.Gauge.HeightCm(n), long.Cm, 1e-9)
				require.Equal(t, []any{n, s.Rows() + n, s.To(), place}, []any{long.More, long.Total, long.To, long.Place}, s.ID)
			}

			wide := p.Wider(s, cm)
			grows := s.To() > s.From && (s.Schedule == nil || s.Schedule.Rows != s.Rows())
			per := 2
			switch {
			case grows && s.ID == "crown": // by whole rounds of its own rate
				for r := 1; r <= s.Rows(); r++ {
					if by := s.StitchesAfter(r) - s.StitchesAfter(r-1); by > 0 {
						per = by
					}
				}
			case !grows && !s.Ribbed:
				per = max(per, p.How.Multiple.Repeat)
			}
			n := per * wholeNear(s.Gauge.Stitches(cm)/float64(per), 1)
			switch {
			case short || edge || s.ID == "yoke" || s.Ribbed && s.Rows() < 2, s.To() < s.From && s.Schedule == nil:
				require.Equal(t, Adjustment{Place: Nowhere}, wide, s.ID)
				continue
			case wide.Place == Nowhere:
				require.True(t, shaped, s.ID)
				continue
			case grows:
				require.Equal(t, []any{n, s.From, s.To() + n, Increases}, []any{wide.More, wide.Total, wide.To, wide.Place}, s.ID)
				require.InDelta(t, s.Gauge.WidthCm(n), wide.Cm, 1e-9)
				continue
			}
			require.InDelta(t, s.Gauge.WidthCm(n), wide.Cm, 1e-9)
			require.Equal(t, []int{n, s.From + n}, []int{wide.More, wide.Total}, s.ID)
			to := s.To()
			last := i+1 == len(p.Sections) || !goesOnFrom(p, s)
			kind := s.Steps[0].Kind
			anew := i == 0 || strings.HasPrefix(kind, "pick-up") || strings.HasPrefix(kind, "hood-pick-up") || strings.HasPrefix(kind, "cast-on") || strings.HasPrefix(kind, "start")
			place := InFirstRow
			switch {
			case kind == "divide":
				place = Underarms
			case s.From == s.To() && last:
				place, to = Kept, s.To()+n
			case anew:
				place = AtBeginning
			}
			if shaped {
				require.NotNil(t, wide.Shaping, s.ID)
				if s.To() > s.From {
					to += n
				}
				require.Equal(t, []int{s.Rows(), s.From + n, to, s.Schedule.PlainAfter()}, []int{wide.Shaping.Rows, wide.Shaping.From, wide.Shaping.To(), wide.Shaping.PlainAfter()}, s.ID)
			}
			require.Equal(t, []any{place, to}, []any{wide.Place, wide.To}, s.ID)
		}
	}
}

// goesOnFrom reports a section whose first row is worked on the last of another.
func goesOnFrom(p *Plan, s *Section) bool {
	for i, x := range p.Sections {
		kind := x.Steps[0].Kind
		switch {
		case i == 0 || strings.HasPrefix(kind, "pick-up") || strings.HasPrefix(kind, "hood-pick-up") || strings.HasPrefix(kind, "cast-on") || strings.HasPrefix(kind, "start"):
		case kind == "sleeve-from-yoke":
			if s.ID == "yoke" {
				return true
			}
		case p.Sections[i-1] == s:
			return true
		}
	}
	return false
}

// rowsAreColoured claims that stripes go on from one section to that which is worked on it,
// a short row within the stripe that it lies in, and that ribbing and edges have one colour.
func rowsAreColoured(t *testing.T, p *Plan) {
	var cycle []string
	for _, s := range p.How.Stripes {
		for range s.Rows {
			cycle = append(cycle, s.Colour)
		}
	}
	own := make(map[string]string)
	for _, c := range p.How.Colours {
		own[c.Part] = c.Colour
	}
	main := own[MainColour]
	switch {
	case main == "" && len(cycle) > 0:
		main = cycle[0]
	case main == "":
		main = "main colour"
	}
	ends := make(map[string]int)
	for i, s := range p.Sections {
		if len(cycle)+len(own) == 0 {
			require.Empty(t, s.Colours)
			continue
		}
		at, kind := 0, s.Steps[0].Kind
		switch {
		case kind == "sleeve-from-yoke":
			at = ends["yoke"]
		case i > 0 && !strings.HasPrefix(kind, "pick-up") && !strings.HasPrefix(kind, "hood-pick-up") && !strings.HasPrefix(kind, "cast-on") && !strings.HasPrefix(kind, "start"):
			at = ends[p.Sections[i-1].ID]
		}
		edge := slices.Contains([]string{"front-edges", "underlap", "hood-edge"}, s.ID)
		short := slices.Contains([]string{"back-neck", "seat-back", "heel"}, s.ID)
		require.Len(t, s.Colours, s.Rows(), s.ID)
		for r, colour := range s.Colours {
			switch {
			case s.Ribbed && own[Ribbing] != "":
				require.Equal(t, own[Ribbing], colour, s.ID)
			case s.Ribbed || edge || len(cycle) == 0:
				require.Equal(t, main, colour, s.ID)
			default:
				require.Equal(t, cycle[at%len(cycle)], colour, "%s, row %d", s.ID, r+1)
				if !short {
					at++
				}
			}
		}
		ends[s.ID] = at
		rows := 0
		for k, b := range s.Bands() {
			require.Equal(t, s.Colours[rows], b.Colour)
			require.True(t, k == 0 || s.Bands()[k-1].Colour != b.Colour)
			rows += b.Rows
		}
		require.Equal(t, s.Rows(), rows)
	}
}

// bodiesAreLaidOut claims of a body how it comes from its shoulders or yoke: fronts and back
// of a drop shoulder are halves of its chest, its sleeves as wide as its armholes and as
// long as the arm leaves beside it; of a vest, the back is as wide as the child's and what
// the chest needs more is gained above the underarm and at it; a dress narrows to its waist
// and widens to its hips as far down as those are.
func bodiesAreLaidOut(t *testing.T, p *Plan) {
	g := p.How.Gauge
	finished := func(id string) float64 { l, _ := p.Finished.Line(id); return l.Finished }
	back, ok := p.Section("back")
	_, sleeved := p.Finished.Line("sleeve_length")
	if chest, _ := p.Part("chest"); ok && sleeved {
		front := mustSection(t, p, "back").From
		require.InDelta(t, float64(chest.Count)/2, front, float64(g.Stitches(chest.EdgesCm))/2+1.5)
		arm, _ := p.Part("upper_arm")
		require.InDelta(t, 2*g.HeightCm(back.Rows()), arm.SizeCm, g.WidthCm(1)+1e-9, "picked up along both sides")
		if long, ok := p.Body.Get("neck_to_wrist"); ok && long.Value > 0 {
			l, _ := p.Finished.Line("sleeve_length")
			x, _ := p.Part("sleeve_length")
			want := long.Value + sizing.TotalCm(l.Adjust) - g.WidthCm(back.From)/2
			if math.Abs(want-l.Finished) > 0.05 {
				require.InDelta(t, want, x.WantCm, 1e-9)
			}
			drop := DropShoulderCm(p.Finished)
			require.InDelta(t, long.Value+sizing.TotalCm(l.Adjust)-finished("chest")/4, drop["sleeve_length"], 1e-9)
			require.InDelta(t, 2*finished("armhole_depth"), drop["upper_arm"], 1e-9)
		} else {
			require.Len(t, notesOf(p, "neck-to-wrist-unknown"), 1)
		}
	}
	if ok && !sleeved {
		chest, _ := p.Part("chest")
		across, _ := p.Part("cross_back")
		require.Equal(t, across.Count, back.From)
		body, _ := p.Section("body")
		half := chest.Count / 2
		require.Equal(t, chest.Count, body.From)
		require.Zero(t, (half-back.From)%2)
		gained, under := (back.To()-back.From)/2, body.stepOf("join").n("cast_on")
		require.Equal(t, half-back.From, 2*gained+under)
		require.LessOrEqual(t, gained, (half-back.From)/4)
		for _, n := range []int{back.From - 2, back.From + 2} { // none nearer, of those that are no wider than half the chest
			off := func(n int) float64 { return math.Abs(g.WidthCm(n) - finished("cross_back")) }
			if n <= half && off(n) < off(back.From)-1e-9 {
				l, _ := p.Finished.Line("cross_back")
				require.True(t, n < back.From && (len(l.Ease) > 0 || l.Share.Cm == 0), "%d stitches across, and %d are nearer", back.From, n)
			}
		}
		bands := mustSection(t, p, "armbands")
		hole := finished("armhole_depth")
		round := 2*g.HeightCm(wholeNear(g.Rows(hole), 0)) + g.WidthCm(under)
		require.Equal(t, 2*wholeNear(g.Stitches(round)*p.How.RibShare/2, 1), bands.From)
		require.Equal(t, 2, bands.Copies)
	}
	if skirt, ok := p.Section("skirt"); ok {
		down := finished("skirt_length") * shareOf(p, "hip_share_of_skirt")
		if rise, ok := p.Body.Get("rise"); ok && rise.Value > 0 {
			down = rise.Value * shareOf(p, "hip_share_of_rise")
		}
		hem, _ := p.Section("skirt-hem")
		rows := wholeNear(g.Rows(down), 1)
		if p.How.Craft == Knit && !skirt.InRounds && rows > 1 {
			rows -= rows % 2
		}
		if hem != nil && len(hem.Folds) == 0 && len(skirt.Folds) == 0 && max(skirt.To()-skirt.From, skirt.From-skirt.To())/2+2 < rows {
			require.Equal(t, rows, skirt.Rows())
		}
		require.Equal(t, hem != nil, len(notesOf(p, "skirt-straight-below-hip")) == 1)
		waist, _ := p.Part("waist")
		chest, _ := p.Body.Get("chest")
		w := p.Finished
		l, _ := w.Line("waist")
		stretch := max(1, p.How.Stretch["waist"])
		require.Equal(t, l.Finished*stretch < chest.Value, len(notesOf(p, "waist-must-stretch")) == 1)
		require.Equal(t, skirt.From, waist.Count)
	}
}
