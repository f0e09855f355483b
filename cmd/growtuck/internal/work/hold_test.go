package work_test

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/testdata/follow"
	"growtuck/testdata/proof"
	"growtuck/testdata/samples"
	"growtuck/validate"
)

var foldedIn = []ask.Values{
	{"craft": {"knit"}, "gauge": {"22x30/10cm"}},
	{"craft": {"knit"}, "gauge": {"16x22/10cm"}},
	{"craft": {"crochet"}, "gauge": {"16x18/10cm"}},
	{"craft": {"crochet"}, "gauge": {"14x11/10cm"}, "terms": {"uk"}},
}

// wished plans what was asked for, follows it from its words and checks it: with all
// folds held and with all let down it is as long as the plan says, and its draft passes.
func wished(t *testing.T, who sizing.Child, v ask.Values) (*work.Planned, error) {
	t.Helper()
	ref := samples.Reference(t)
	r, faults := ask.Read(ref, ask.PlanFields(), v, who)
	require.Empty(t, faults)
	r.FromFile = len(who.Own) > 0
	p, err := work.MakePlan(ref, r)
	if err != nil {
		return nil, err
	}
	s := sample{v, p, tell.Style{}.Plan(ref, r.Child, p.Plan, nil).Recorded().JSON.(tell.PlanDocument)}
	w := follow.Follow(patternOf(s.doc))
	require.Empty(t, w.Faults, "%v", v)
	require.Empty(t, measured(s, w), "%v", v)
	for _, f := range p.Findings {
		require.False(t, f.Severity >= validate.Warn && !unmeasured(s, f), "%v: %s", v, f)
	}
	for _, h := range p.Held() {
		require.NoError(t, catches(p, h), "%v", v)
		// It is let down when the child needs half of what it holds.
		l, ok := p.Finished.Line(h.Parts[0])
		require.True(t, ok)
		needs := l.Finished - l.RoomCm() - l.GrownCm()
		if by := h.AtCm - l.Body.Value; l.Share.Cm != 0 {
			needs += by * l.Share.Cm / 100
		} else {
			needs += by
		}
		require.InDelta(t, h.WornCm[0]+h.Cm/2, needs, 2*h.Section.Gauge.RowHeightCm(), "%v: %s", v, h.Parts[0])
	}
	return p, nil
}

// catches says where a fold lies that it must not: across shaping, at the end of an
// opening, near a crotch or underarm. The distances are those of the trade's figures.
func catches(p *work.Planned, h plan.Held) error {
	if h.Way != plan.Tuck && h.Way != plan.RiseFold {
		return nil
	}
	s := h.Section
	cm := func(id string) float64 { return p.Finished.Practice(id).Value - s.Gauge.RowHeightCm()/2 }
	for row := h.Row; row <= h.Row+h.Rows; row++ {
		if row < 1 || s.StitchesAfter(row) != s.StitchesAfter(h.Row) {
			return fmt.Errorf("%s: shaped in row %d of a fold after %d", s.ID, row, h.Row)
		}
	}
	above, below := s.Gauge.HeightCm(h.Row), s.Gauge.HeightCm(s.Rows()-h.Row-h.Rows)
	switch {
	case p.Garment.Opening == "front" && h.Room == plan.BodyRoom && !s.InRounds:
		return fmt.Errorf("%s: a fold across a front that opens", s.ID)
	case h.Room == plan.BodyRoom && p.Garment.Group == "one-piece":
		if above < cm("tuck_from_opening") && s.ID == "seat-closed" || below < cm("tuck_from_crotch") {
			return fmt.Errorf("%s: a fold %.1f cm under the opening and %.1f over the crotch", s.ID, above, below)
		}
	case h.Room != plan.RiseRoom && below < cm("tuck_from_edge"):
		return fmt.Errorf("%s: a fold %.1f cm over the edge", s.ID, below)
	case (h.Room == plan.SleeveRoom || h.Room == plan.BodyRoom || s.ID == "leg") && above < cm("tuck_from_join"):
		return fmt.Errorf("%s: a fold %.1f cm from where it begins", s.ID, above)
	}
	return nil
}

// A suit for a baby, for a two-year-old and for a tall, slim child of nine has a tuck in
// body, sleeves and legs, in both crafts.
func TestSuitIsTucked(t *testing.T) {
	for _, who := range []string{"6m", "12m", "24m", "ines.csv", "otto.csv"} {
		var child sizing.Child
		size := ask.Values{"size": {who}}
		if file, ok := strings.CutSuffix(who, ".csv"); ok {
			child, size = childOf(t, file), nil
		}
		for i, how := range foldedIn[:3] {
			for _, growth := range []string{"1", "2", "3"} {
				for _, turned := range []string{"false", "true"} {
					if !proof.Whole() && (i == 1 || growth == "1" && turned == "true") {
						continue
					}
					v := joined(size, how, ask.Values{"garment": {"one-piece-hooded"}, "layer": {"winter"}, "growth": {growth}, "turned": {turned},
						"hold": {"sleeve=tuck", "body=tuck", "leg=tuck"}, "stretch": {"1.7"}})
					p, err := wished(t, child, v)
					if growth == "3" && p == nil && who == "6m" {
						var hold *plan.HoldError // 5 cm in legs of 22
						require.ErrorAs(t, err, &hold)
						continue
					}
					require.NoError(t, err, "%v", v)
					for _, room := range []plan.Room{plan.SleeveRoom, plan.BodyRoom, plan.LegRoom} {
						require.True(t, slices.ContainsFunc(p.Held(), func(h plan.Held) bool { return h.Room == room && h.Way == plan.Tuck }), "%s %v", room, v)
					}
				}
			}
		}
	}
}

func childOf(t *testing.T, name string) sizing.Child {
	t.Helper()
	f, err := os.Open("../../../../testdata/children/" + name + ".csv")
	require.NoError(t, err)
	defer f.Close()
	c, err := samples.Reference(t).ReadChild(f, name)
	require.NoError(t, err)
	return c
}

func joined(all ...ask.Values) ask.Values {
	v := make(ask.Values)
	for _, some := range all {
		for name, texts := range some {
			v[name] = texts
		}
	}
	return v
}

// Every garment holds its room in each way it has; what it cannot hold it says.
func TestEveryWayIsFollowed(t *testing.T) {
	sizes, ways := []string{"12m", "9"}, foldedIn[1:3]
	if proof.Whole() {
		ways = foldedIn
		sizes = []string{"3m", "6m", "12m", "18m", "24m", "2", "3", "4", "6", "7.5", "9", "12", "16"}
	}
	held := make(map[string]int)
	for _, garment := range []string{"cardigan", "pullover", "vest", "dress", "trousers", "trousers-straps", "one-piece", "one-piece-hooded", "leg-warmers", "poncho"} {
		for _, size := range sizes {
			for _, how := range ways {
				for _, way := range plan.Ways {
					for _, growth := range []string{"2", "4"} {
						p, err := wished(t, sizing.Child{}, joined(how, ask.Values{"garment": {garment}, "size": {size}, "growth": {growth}, "hold": {string(way)}, "stretch": {"1.7"}}))
						require.NoError(t, err, "%s %s %s %s", garment, size, way, growth)
						for _, h := range p.Held() {
							held[fmt.Sprintf("%s %s=%s", garment, h.Room, h.Way)]++
						}
						if way == plan.Worn {
							require.Empty(t, p.Held())
						}
					}
				}
			}
		}
	}
	for _, want := range []string{
		"cardigan sleeve=fold-cuff", "cardigan sleeve=tuck", "cardigan sleeve=hem", "cardigan sleeve=on-hold", "cardigan body=on-hold", "cardigan body=hem",
		"pullover body=tuck", "pullover body=hem", "pullover body=on-hold", "vest body=tuck", "dress skirt=hem", "dress skirt=tuck", "dress skirt=on-hold", "dress sleeve=tuck",
		"trousers rise=rise", "trousers leg=fold-cuff", "trousers leg=tuck", "trousers leg=hem", "trousers leg=on-hold",
		"trousers-straps strap=buttons", "leg-warmers leg=fold-cuff", "poncho body=hem", "poncho body=on-hold",
		"one-piece body=tuck", "one-piece leg=tuck", "one-piece-hooded body=tuck", "one-piece-hooded leg=fold-cuff", "one-piece-hooded sleeve=on-hold",
	} {
		require.Positive(t, held[want], want)
	}
	require.Zero(t, held["cardigan body=tuck"])
}

// All sizes of a run hold the same rows.
func TestRunHoldsAlike(t *testing.T) {
	ref := samples.Reference(t)
	for _, garment := range []string{"one-piece-hooded", "trousers", "trousers-straps", "pullover", "dress", "cardigan"} {
		for _, how := range foldedIn {
			r, faults := ask.Read(ref, ask.PlanFields(), joined(how, ask.Values{"garment": {garment}, "sizes": {"2", "4", "6", "8"}, "growth": {"2"}, "hold": {"tuck"}}), sizing.Child{})
			require.Empty(t, faults)
			var run []*sizing.Finished
			for _, size := range r.Run {
				run = append(run, samples.Finish(t, samples.BodyAt(t, size), r.Spec))
			}
			g, err := plan.Grade(r.Run, run, r.How)
			require.NoError(t, err)
			require.NotEmpty(t, g.Plans[0].Held())
			for i, h := range g.Plans[0].Held() {
				for _, p := range g.Plans[1:] {
					other := p.Held()[i]
					require.Equal(t, []any{h.Room, h.Way, h.Rows, h.Below}, []any{other.Room, other.Way, other.Rows, other.Below}, garment)
				}
			}
		}
	}
}

func TestWhatCannotBeHeldIsSaid(t *testing.T) {
	for hold, want := range map[string]string{
		"body=tuck": "hold body=tuck: a fold across a front that opens would gape at the opening; want on-hold or hem",
		"leg=tuck":  "hold leg=tuck: the garment has no such room",
	} {
		_, err := wished(t, sizing.Child{}, joined(foldedIn[0], ask.Values{"garment": {"cardigan"}, "size": {"6"}, "growth": {"2"}, "hold": {hold}}))
		require.ErrorContains(t, err, want)
	}
	_, err := wished(t, sizing.Child{}, joined(foldedIn[0], ask.Values{"garment": {"cardigan"}, "size": {"6"}, "hold": {"tuck"}}))
	require.ErrorContains(t, err, "no room to grow")
}
