package plan

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// replanned is a plan of which something is worked, and the rest changed.
type replanned struct {
	t     *testing.T
	p     *Plan
	trial Trial
	r     *Remaining
	name  string
}

func (x *replanned) what() string {
	switch {
	case len(x.trial.Worked) > 0:
		return "worked"
	case len(x.trial.Changes) == 0:
		return "nothing"
	case x.trial.Changes[0].WiderCm != 0:
		return "wider"
	case x.trial.Changes[0].Ends == nil:
		return "longer"
	case x.trial.Changes[0].Ends.FromHereCm != nil:
		return "ends from here"
	}
	return "ends"
}

func (x *replanned) noted(id string) bool {
	return slices.ContainsFunc(x.r.Notes, func(n sizing.Fact) bool { return n.ID == id })
}

// done is how many rows of each section are worked and stay, over all copies.
func (x *replanned) done() map[string]int {
	last := 0
	done := make(map[string]int)
	for _, d := range x.trial.Done {
		done[d.Section] = d.Rows
		last = max(last, slices.IndexFunc(x.p.Sections, func(s *Section) bool { return s.ID == d.Section }))
	}
	for _, s := range x.p.Sections[:last] {
		if _, named := done[s.ID]; !named {
			done[s.ID] = s.Rows() * s.Copies
		}
	}
	for _, rip := range x.r.RipBack {
		done[rip.Section] -= rip.Rows
		for _, id := range rip.Whole {
			done[id] = 0
		}
	}
	return done
}

func (x *replanned) look() {
	t, name := x.t, x.name
	left := make(map[string]Left)
	for _, l := range x.r.Left {
		left[l.Section.ID] = l
	}
	done := x.done()
	var worked, toGo, planned count
	for i, was := range x.p.Sections {
		now := x.r.now.Sections[i]
		require.Equal(t, was.ID, now.ID, name)
		planned.add(was, was.rows, was.Copies)
		l, more := left[was.ID]
		if x.what() == "worked" { // whole copies are so too
			was = now
		}
		whole, part := done[was.ID]/was.Rows(), done[was.ID]%was.Rows()
		if more && l.part >= was.Rows() || more && l.part > part { // a copy that is finished, and tried on at its end
			whole, part = whole-1, done[was.ID]-(whole-1)*was.Rows()
		}
		worked.add(was, was.rows, whole)
		worked.add(was, was.rows[:part], 1)
		if !more {
			if done[was.ID] < was.Rows()*was.Copies { // the last copy ends here
				require.Equal(t, []int{was.Copies - 1, now.Rows()}, []int{whole, part}, "%s: nothing is left of %s", name, was.ID)
				continue
			}
			require.Equal(t, was.Rows(), now.Rows(), name)
			continue
		}
		x.section(was, l, part)
		other := now
		if l.other != nil {
			other = l.other
		}
		var rest count
		if whole < was.Copies {
			rest.add(now, now.rows[min(part, now.Rows()):], 1)
			rest.add(now, other.rows, was.Copies-whole-1)
		}
		toGo.add(now, now.rows, 0)
		toGo.rows, toGo.stitches, toGo.area = toGo.rows+rest.rows, toGo.stitches+rest.stitches, toGo.area+rest.area
		require.Equal(t, []int{done[was.ID], rest.rows}, []int{l.RowsDone, l.Rows}, "%s: %s", name, was.ID)
		if part > 0 {
			require.Equal(t, was.StitchesAfter(part), l.OnWork, "%s: %s", name, was.ID)
		}
	}
	progress := x.r.Progress
	require.Equal(t, []int{worked.rows, toGo.rows, worked.rows + toGo.rows}, []int{progress.RowsDone, progress.RowsLeft, progress.Rows}, name)
	require.Equal(t, []float64{float64(worked.stitches), float64(toGo.stitches)}, []float64{progress.StitchesDone, progress.StitchesLeft}, name)
	require.InDelta(t, float64(worked.stitches)/float64(worked.stitches+toGo.stitches), progress.DoneShare, 1e-12, name)
	require.Len(t, progress.Left, len(x.r.Left), name)
	for i, l := range progress.Left {
		require.Equal(t, x.r.Left[i].Section.ID, l.Name)
		require.Equal(t, x.r.Left[i].Rows, l.Rows)
	}
	if y := x.p.Yarn; y != nil {
		require.InDelta(t, y.Need.Metres*toGo.area/planned.area, x.r.NeedMetres, 1e-6, name)
		require.InDelta(t, y.Need.Metres*((worked.area+toGo.area)/planned.area-1), x.r.MoreMetres, 1e-6, name)
	}
	x.joined()
	x.moved()
	x.notes(done)
	x.inWork(done)
	switch x.what() {
	case "nothing":
		require.Empty(t, x.r.RipBack, name)
		require.Empty(t, x.r.Moves, name)
		for i, s := range x.r.now.Sections {
			require.Same(t, x.p.Sections[i], s)
		}
	case "longer":
		x.longer(x.trial.Changes[0].LongerCm)
	case "ends", "ends from here":
		x.ends(*x.trial.Changes[0].Ends, done)
	}
}

// section looks at one that is changed, or goes on as planned.
func (x *replanned) section(was *Section, l Left, part int) {
	t, what := x.t, x.name+": "+was.ID
	now, _ := x.r.now.Section(was.ID)
	if l.Section != now { // edges of an opening that is longer or shorter
		require.Contains(t, []string{"front-edges", "underlap"}, was.ID)
		worksOut(t, what, &hand{t: t, on: l.Section.From}, l.Section, l.Rest)
		return
	}
	if l.Planned == nil {
		planned, _ := x.p.Section(was.ID)
		require.Same(t, planned, now, what)
		require.Empty(t, l.Rest, what)
		return
	}
	require.Equal(t, was.rows[:l.RestFrom], now.rows[:l.RestFrom], "%s: what is worked stays", what)
	if sc, old := now.Schedule, was.Schedule; sc != nil && old != nil && sc != old && old.Shapings() > 0 && sc.Shapings() > 0 && sc.Rows > 0 { // the plain rows at its end stay
		require.GreaterOrEqual(t, sc.PlainAfter(), min(old.PlainAfter(), sc.Rows-sc.Shapings(), old.Rows-l.RestFrom)-1, what)
	}
	h := &hand{t: t, rows: slices.Clone(now.rows[:l.RestFrom]), on: now.StitchesAfter(l.RestFrom)}
	worksOut(t, what, h, now, l.Rest)
	if l.other != nil {
		h := &hand{t: t, on: l.other.From}
		worksOut(t, what+", the other", h, l.other, l.Others)
		require.Equal(t, []int{now.Rows(), now.To()}, []int{l.other.Rows(), l.other.To()}, what)
	}
}

// worksOut works a section on by its steps, to its last row.
func worksOut(t *testing.T, what string, h *hand, s *Section, steps []Step) {
	t.Helper()
	for _, step := range steps {
		if step.Rows == 0 {
			continue
		}
		require.Equal(t, len(h.rows)+1, step.Row, "%s: %s", what, step.ID)
		if step.Across != nil && len(h.rows) == 0 {
			h.on = step.Across.Stitches
		}
		h.step(s, step, false)
		require.Equal(t, h.on, step.To, "%s: %s", what, step.ID)
	}
	require.Equal(t, s.rows, h.rows, what)
}

// notes looks at what is said of the changes.
func (x *replanned) notes(done map[string]int) {
	want := make(map[string][]sizing.Fact)
	say := func(id string, args ...any) { want[id] = append(want[id], sizing.NewFact(id, args...)) }
	for _, w := range x.trial.Worked {
		was, _ := x.p.Section(w.Section)
		now, _ := x.r.now.Section(w.Section)
		require.Equal(x.t, []int{orPlanned(w.Rows, was.Rows()), orPlanned(w.Stitches, was.To())}, []int{now.Rows(), now.To()}, x.name)
		if now != was {
			say("as-worked", was.Kind, now.Rows(), now.To())
		}
	}
	for i, now := range x.r.now.Sections {
		was := x.p.Sections[i]
		n := done[was.ID]
		for _, rip := range x.r.RipBack {
			if rip.Section == was.ID {
				n += rip.Rows
			}
		}
		ripped := slices.ContainsFunc(x.r.RipBack, func(r RipBack) bool { return slices.Contains(r.Whole, was.ID) })
		if n > was.Rows() && x.what() != "worked" && !ripped && (now.Rows() != was.Rows() || now.To() != was.To()) {
			say("first-copy-differs", was.Kind, was.Rows(), was.To(), now.Rows(), now.To())
		}
	}
	steep := make(map[string]bool) // kinds of sections that go in or out by more than they can
	for _, n := range x.r.Notes {
		if n.ID == "section-narrows-steeply" || n.ID == "section-widens-steeply" {
			steep[n.Args[0].(string)] = true
		}
	}
	for _, l := range x.r.Left {
		now, _ := x.r.now.Section(l.Section.ID)
		if sc := now.Schedule; sc != nil && l.Planned != nil && sc != l.Planned.Schedule && l.Planned != now && now.ID != "yoke" {
			in := math.Abs(float64(sc.From-sc.To())) / 2 * now.Gauge.WidthCm(1)
			if in > shareOf(x.p, "steepest_taper")*now.Gauge.HeightCm(sc.Rows)+1e-9 {
				require.True(x.t, steep[now.Kind], "%s: %s", x.name, now.ID)
			}
		}
	}
	if sp := x.r.now.split(); sp != nil && sp.Underarm != x.p.split().Underarm {
		say("underarm-becomes", sp.Underarm)
	}
	for _, id := range []string{"as-worked", "first-copy-differs", "underarm-becomes"} {
		var got []sizing.Fact
		for _, n := range x.r.Notes {
			if n.ID == id {
				got = append(got, n)
			}
		}
		require.ElementsMatch(x.t, want[id], got, x.name)
	}
	for _, n := range x.r.Notes {
		switch n.ID {
		case "bridge-becomes":
			now, _ := x.r.now.Section("leg")
			require.Equal(x.t, []any{x.p.Legs.Bridge + now.From - x.p.Legs.Leg}, n.Args, x.name)
		case "change-under-a-row", "change-under-a-pair":
			ch := x.trial.Changes[0]
			if ch.Ends == nil {
				require.Equal(x.t, sizing.Length(ch.LongerCm+ch.WiderCm), n.Args[1], x.name)
			}
		case "below-moves-too":
			all, which := x.more()
			require.Equal(x.t, []any{which[len(which)-1].Gauge.HeightCm(all) > 0}, []any{n.Args[2].(string)[len("body=")] == '-' || n.Args[2].(string)[len("bodice=")] == '-'}, x.name)
			require.Contains(x.t, n.Args[2], fmt.Sprintf("=%+.1fcm", -which[0].Gauge.HeightCm(all)), x.name)
		}
	}
}

func orPlanned(n, planned int) int {
	if n == 0 {
		return planned
	}
	return n
}

// joined looks at where sections follow each other.
func (x *replanned) joined() {
	for i, next := range x.r.now.Sections {
		if i == 0 || x.p.limbOf(next.ID) != x.p.limbOf(x.p.Sections[i-1].ID) {
			continue
		}
		before, was := x.r.now.Sections[i-1], x.p.Sections[i-1]
		if was.To() == x.p.Sections[i].From && was.Copies == next.Copies && !next.begins() && !next.Ribbed {
			require.Equal(x.t, before.To(), next.From, "%s: %s on %s", x.name, next.ID, before.ID)
		}
	}
}

// moved looks at the finished measurements that become something else.
func (x *replanned) moved() {
	rows := (*Section).Rows
	now, was := lengthsOf(x.r.now, rows), lengthsOf(x.p, rows)
	moves := make(map[string]Move)
	for _, m := range x.r.Moves {
		moves[m.Part.Line.Part.Part] = m
		require.Equal(x.t, m.Part.SizeCm, m.WasCm)
	}
	for _, part := range x.p.Parts {
		id := part.Line.Part.Part
		cm, ok := now[id]
		if !ok || id == "armhole_depth" || id == "hood_height" {
			continue
		}
		m, says := moves[id]
		require.Equal(x.t, math.Abs(cm-was[id]) > 1e-9, says, "%s: %s", x.name, id)
		require.InDelta(x.t, cm-was[id], m.Cm-m.WasCm, 1e-9, "%s: %s", x.name, id)
	}
	if m, ok := moves["front_opening"]; ok && x.r.Zipper != nil {
		require.InDelta(x.t, x.p.Zipper.OpeningCm+m.Cm-m.WasCm, x.r.Zipper.OpeningCm, 1e-9, x.name)
		require.Equal(x.t, x.p.Zipper, x.r.WasZipper)
	}
	for id, section := range map[string][]string{"chest": {"body", "bodice"}, "upper_arm": {"sleeve"}, "cuff": {"cuff"}, "ankle": {"ankle"}, "thigh": {"leg"}} {
		for _, s := range section {
			now, ok := x.r.now.Section(s)
			was, _ := x.p.Section(s)
			if _, known := x.p.Part(id); !ok || !known {
				continue
			}
			more := now.StitchesAfter(min(2, now.Rows())) - was.StitchesAfter(min(2, was.Rows())) // a sleeve may get its width in its second row
			require.Equal(x.t, more != 0, moves[id].Cm != 0, "%s: %s", x.name, id)
			require.InDelta(x.t, now.Gauge.WidthCm(more), moves[id].Cm-moves[id].WasCm, 1e-9, "%s: %s", x.name, id)
		}
	}
}

// inWork looks at the section that was worked last.
func (x *replanned) inWork(done map[string]int) {
	var last *Section
	at := 0
	for _, s := range x.p.Sections {
		for _, d := range x.trial.Done {
			if d.Section == s.ID && d.Rows > 0 {
				last, at = s, d.Rows
			}
		}
	}
	if last == nil {
		require.Nil(x.t, x.r.Section, x.name)
		return
	}
	require.Equal(x.t, last.ID, x.r.Section.ID, x.name)
	if x.what() == "worked" {
		last, _ = x.r.now.Section(last.ID)
	}
	part := (at-1)%last.Rows() + 1
	require.Equal(x.t, last.StitchesAfter(part), x.r.OnWork, x.name)
	if len(x.r.RipBack) == 0 {
		now, _ := x.r.now.Section(last.ID)
		require.Equal(x.t, max(0, now.Rows()-part), x.r.RowsLeft, x.name)
	}
	for _, rip := range x.r.RipBack {
		was, _ := x.p.Section(rip.Section)
		require.Positive(x.t, rip.Rows+len(rip.Whole), x.name)
		require.LessOrEqual(x.t, rip.ToRow+rip.Rows, was.Rows(), x.name)
		if rip.ToRow > 0 {
			require.Equal(x.t, was.StitchesAfter(rip.ToRow), rip.Onto, x.name)
		}
		for _, id := range rip.Whole {
			require.True(x.t, x.p.growsFrom(id, rip.Section), "%s: %s need not come off", x.name, id)
		}
	}
}

// more are the rows that sections become longer by.
func (x *replanned) more() (all int, which []*Section) {
	for i, s := range x.r.now.Sections {
		if n := s.Rows() - x.p.Sections[i].Rows(); n != 0 {
			all = n
			which = append(which, s)
		}
	}
	return all, which
}

func (x *replanned) longer(cm float64) {
	all, which := x.more()
	s, _ := x.p.Section(x.trial.Changes[0].Section)
	g := s.Gauge
	if len(which) > 0 {
		g = which[0].Gauge
	}
	unit := 1.0
	if x.p.How.Craft == Knit {
		unit = 2
	}
	require.LessOrEqual(x.t, math.Abs(float64(all)-g.Rows(cm)), unit/2+1e-9*g.Rows(10)+unit/2*boolFloat(len(which) > 0 && which[0].Gauge != s.Gauge), "%s: %d rows", x.name, all)
	require.Equal(x.t, all == 0, x.noted("change-under-a-row"), x.name)
	for i, now := range x.r.now.Sections {
		require.Equal(x.t, x.p.Sections[i].To(), now.To(), x.name)
	}
	switch ids := len(which); {
	case ids > 1: // front and back meet at the underarm
		require.Equal(x.t, 2, ids, x.name)
		require.Subset(x.t, []string{"back", "front", "slit"}, []string{which[0].ID, which[1].ID}, x.name)
		require.Equal(x.t, x.r.now.Sections[0].Rows(), which[0].Rows(), x.name)
	case ids == 1 && which[0].ID != s.ID:
		require.True(x.t, x.noted("change-lower-down"), x.name)
		require.Equal(x.t, x.p.limbOf(s.ID), x.p.limbOf(which[0].ID), x.name)
		require.False(x.t, which[0].Ribbed, x.name)
	}
}

func boolFloat(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// ends looks at where a limb ends, from a landmark of the body or from its last row.
func (x *replanned) ends(e End, done map[string]int) {
	s, _ := x.p.Section(x.trial.Changes[0].Section)
	unit := s.Gauge.HeightCm(1)
	if e.FromHereCm == nil {
		all, which := x.more()
		planned, err := x.p.beyondCm(x.p.limbOf(s.ID), e.Mark)
		require.NoError(x.t, err)
		cm := 0.0
		if len(which) > 0 {
			cm = which[0].Gauge.HeightCm(all)
		}
		require.InDelta(x.t, e.BeyondCm, planned+cm, unit+1e-9, x.name)
		return
	}
	if len(x.r.RipBack) > 0 {
		return
	}
	toGo := 0.0
	for _, now := range x.r.now.Sections {
		if x.p.limbOf(now.ID) != x.p.limbOf(s.ID) || now.ID == "back-neck" || now.ID == "seat-back" {
			continue
		}
		was, _ := x.p.Section(now.ID)
		at := 0
		if n := done[now.ID]; n > 0 {
			at = (n-1)%was.Rows() + 1
		}
		rows := now.Rows() - at
		for _, f := range now.Folds {
			if !f.later() && now.Rows()-f.Below-f.Rows >= at {
				rows -= f.Rows
			}
		}
		toGo += now.Gauge.HeightCm(rows)
	}
	require.InDelta(x.t, *e.FromHereCm+e.BeyondCm, toGo, unit+1e-9, x.name)
}
