package plan

import (
	"math"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// roomIsHeld claims of room that is held: it is that of its part, in the rows nearest to
// it; shared by as few folds as their depth allows, as evenly as rows do, as far from each
// other and from edges as they must be; let down from the lowest up, each making its parts
// as much longer; and known with the yarn that is in it.
func roomIsHeld(t *testing.T, p *Plan) {
	type fold struct {
		Fold
		s     *Section
		after int // the row that it follows
	}
	for _, room := range Rooms {
		var folds []fold
		for _, s := range p.Sections {
			for _, f := range s.Folds {
				if f.Room == room {
					folds = append(folds, fold{f, s, s.Rows() - f.Rows - f.Below})
				}
			}
		}
		var got []Held
		for _, h := range p.Held() {
			if h.Room == room {
				got = append(got, h)
			}
		}
		require.Len(t, got, len(folds), room)
		if len(folds) == 0 {
			continue
		}
		s, way := folds[0].s, folds[0].Way
		line, _ := p.Finished.Line(folds[0].Parts[0])
		rows, most, least := 0, 0, math.MaxInt
		for i, f := range folds {
			require.Same(t, s, f.s, room)
			require.Equal(t, way, f.Way, room)
			rows, most, least = rows+f.Rows, max(most, f.Rows), min(least, f.Rows)
			if i > 0 && way != Buttoned { // from the top down
				between := f.after - folds[i-1].after - folds[i-1].Rows
				require.GreaterOrEqual(t, between, max(1, int(s.Gauge.Rows(figure(p, "tuck_apart")))), room)
			}
		}
		pair := 1
		if !s.InRounds && !s.Ribbed && p.How.Craft == Knit && way != Buttoned {
			pair = 2
		}
		require.LessOrEqual(t, most-least, pair, "%s by %s", room, way)
		folded := 2 * len(folds) // the least there are
		if way == OnHold {
			folded = 1
		}
		require.InDelta(t, s.Gauge.Rows(line.RoomCm()), rows, max(float64(pair)/2, float64(folded)), "%s by %s", room, way)
		if rows > folded && rows > pair && (way != Buttoned || rows > strapHoleRows) {
			require.InDelta(t, s.Gauge.Rows(line.RoomCm()), rows, float64(pair)/2+1e-9, "%s by %s", room, way)
		}
		if way == Tuck || way == RiseFold {
			deepest := 2 * figure(p, "tuck_depth_most")
			require.Equal(t, int(math.Ceil(line.RoomCm()/deepest-1e-9)), len(folds), room)
			for r := folds[0].after; r <= s.Rows(); r++ {
				require.Equal(t, s.To(), s.StitchesAfter(r), "%s: what is folded is straight", room)
			}
		}
		if way == Tuck {
			from := "tuck_from_edge"
			if room == BodyRoom && p.Garment.Group == "one-piece" {
				from = "tuck_from_crotch"
			}
			require.InDelta(t, p.How.Gauge.Rows(figure(p, from)), folds[len(folds)-1].Below, 1.5, room)
		}
		// What is let down first is the lowest; of a strap the hole that is nearest to its beginning.
		if room != StrapRoom {
			slices.Reverse(folds)
		}
		left, grown := 0.0, 0.0
		for _, f := range folds {
			left += s.Gauge.HeightCm(f.Rows)
		}
		for i, h := range got {
			f := folds[i]
			cm := s.Gauge.HeightCm(f.Rows)
			after := f.after
			if way == OnHold {
				after = s.Rows()
			}
			require.Equal(t, []any{f.Fold, s, i + 1, after}, []any{h.Fold, h.Section, h.Place, h.Row}, room)
			require.InDelta(t, cm, h.Cm, 1e-9, room)
			for k, id := range f.Parts {
				x, _ := p.Part(id)
				require.InDelta(t, x.SizeCm-left, h.WornCm[k], 1e-9, id)
				require.InDelta(t, x.SizeCm-left+cm, h.DownCm[k], 1e-9, id)
			}
			require.Equal(t, line.Body.Measurement.ID, h.Body.Measurement.ID)
			require.InDelta(t, line.Body.Value+line.OfBody(line.GrownCm()+grown+shareOf(p, "let_down_at")*cm), h.AtCm, 1e-9, room)
			when, ok := p.Finished.Passes(line.Body.Measurement.ID, h.AtCm)
			require.Equal(t, ok, h.When != nil)
			require.True(t, !ok || when == *h.When)
			if p.Yarn != nil {
				stitches := f.Rows * s.To()
				if way != OnHold {
					stitches = 0
					for _, r := range s.rows[f.after : f.after+f.Rows] {
						stitches += r.worked
					}
				}
				metres := p.Yarn.Need.Metres / p.Yarn.AreaCm2 * float64(stitches*s.Copies) / s.Gauge.StitchesPer10Cm / s.Gauge.RowsPer10Cm * 100
				require.InDelta(t, metres, h.Metres, 1e-6, room)
				require.InDelta(t, metres*p.How.Ball.Grams/p.How.Ball.Metres, h.Grams, 1e-6, room)
			}
			left, grown = left-cm, grown+cm
			told(t, p, h)
		}
	}
	for _, s := range p.Sections {
		for row := range s.Rows() + 1 {
			n := 0
			for _, f := range s.Folds {
				if f.Way != OnHold && s.Rows()-f.Below-f.Rows >= row {
					n += f.Rows
				}
			}
			require.Equal(t, n, s.foldedAfter(row))
		}
	}
}

// told looks at the steps of a fold.
func told(t *testing.T, p *Plan, h Held) {
	steps := p.StepsOf(h)
	v := steps[0].Values
	on := h.Section.StitchesAfter(h.Row)
	if h.Below == 0 {
		on = h.Section.To()
	}
	part, _ := p.Part(h.Parts[0])
	require.Equal(t, Values{"section": h.Section.Kind, "on": h.Row, "first": h.Row + 1, "to": h.Row + h.Rows, "rows": h.Rows, "stitches": on,
		"every": wholeNear(h.Section.Gauge.Stitches(figure(p, "tuck_catch")), 2), "deep": sizing.Length(h.Cm / 2), "cm": sizing.Length(h.Cm),
		"long": sizing.Length(h.WornCm[0]), "then": sizing.Length(h.DownCm[0]), "part": part.Line.Part.Name}, v)
	id := string(h.Room) + "-" + strconv.Itoa(h.Place)
	when, _ := h.when()
	for i, kind := range []string{"hold-" + string(h.Way), "let-down-" + string(h.Way), when} {
		require.Equal(t, []any{kind, kind + "-" + id, h.Section.InRounds, h.Section.From, h.Section.To()}, []any{steps[i].Kind, steps[i].ID, steps[i].InRounds, steps[i].From, steps[i].To})
	}
}

// foldsInOrder claims that folds are made from the first that is worked on, and let down
// from the first that is needed.
func foldsInOrder(t *testing.T, p *Plan) {
	var made, down []string
	for _, room := range Rooms {
		of := 0
		for _, h := range p.Held() {
			if h.Room == room {
				of++
			}
		}
		for i := range of {
			made = append(made, string(room)+"-"+strconv.Itoa(of-i))
			down = append(down, string(room)+"-"+strconv.Itoa(i+1))
		}
	}
	steps := p.HoldSteps()
	require.Len(t, steps, 3*len(made))
	for i := range made {
		require.Regexp(t, "^hold-.*-"+made[i]+"$", steps[i].ID)
		require.Regexp(t, "^let-down-.*-"+down[i]+"$", steps[len(made)+2*i].ID)
		require.Regexp(t, "^let-down-when.*-"+down[i]+"$", steps[len(made)+2*i+1].ID)
	}
}

// draftSaysThePlan claims that a draft has what is planned, in its counts and lengths.
func draftSaysThePlan(t *testing.T, p *Plan) {
	got := make(map[string][]string)
	for _, r := range p.Draft() {
		key := r.Field
		if r.Part != "" {
			key += " " + r.Part
		}
		got[key] = append(got[key], r.Value)
	}
	want := map[string][]string{"garment": {p.Garment.ID}, "fit": {string(p.Spec.Fit)}, "layer": {string(p.Spec.Layer)}, "craft": {string(p.How.Craft)},
		"stitch_gauge": {exact(p.How.Gauge.StitchesPer10Cm)}, "row_gauge": {exact(p.How.Gauge.RowsPer10Cm)}}
	say := func(key string, value string, ok bool) {
		if ok {
			want[key] = append(want[key], value)
		}
	}
	n := strconv.Itoa
	say("stitch", string(p.How.Stitch), p.How.Craft == Crochet)
	say("nappy", "yes", p.Spec.Nappy)
	say("growth", exact(p.Spec.Seasons), p.Spec.Seasons > 0)
	for _, o := range slices.Sorted(slices.Values(p.Spec.Options)) {
		say("option", o, true)
	}
	for _, r := range p.Body.Readings {
		say("body "+r.Measurement.ID, exact(r.Value), true)
	}
	for _, x := range p.Parts {
		id := x.Line.Part.Part
		say("finished "+id, n(x.Count), x.Count > 0)
		say("finished "+id, strconv.FormatFloat(x.SizeCm, 'f', 2, 64), x.Count == 0)
		say("edges "+id, exact(x.EdgesCm), x.EdgesCm > 0)
		say("multiple "+id, x.Multiple.String(), x.Multiple.Repeat > 1)
		stretch, ok := p.How.Stretch[id]
		say("stretch "+id, exact(stretch), ok)
		d, ok := p.departures[id]
		say("extra "+id, exact(d.cm), ok)
		own := x.Ribbed && p.How.Rib != nil && *p.How.Rib != p.How.Gauge
		say("stitch_gauge "+id, exact(ribOf(p).StitchesPer10Cm), own)
		say("row_gauge "+id, exact(ribOf(p).RowsPer10Cm), own)
		first := true
		for _, s := range p.Sections {
			for _, f := range s.Folds {
				if slices.Contains(f.Parts, id) {
					say("hold "+id, string(f.Way), first)
					say("held "+id, exact(x.HeldCm), first)
					say("tuck_above "+id, exact(s.Gauge.HeightCm(f.Below)), f.Way == Tuck)
					first = false
				}
			}
		}
	}
	for _, o := range p.openings {
		say("opening "+o.place, exact(o.cm), o.how == "")
		say(o.how+" "+o.place, exact(o.withCm), o.how != "")
		say("guard chin", "yes", o.how == "zipper")
	}
	yoke, yoked := p.Section("yoke")
	if yoked {
		say("yoke start", n(yoke.From), true)
		say("yoke end", n(yoke.To()), true)
		say("yoke_rows", n(yoke.Rows()+1), true) // with the row that goes round the neck
		rounds := 0
		for r := 1; r <= yoke.Rows(); r++ {
			if by := yoke.StitchesAfter(r) - yoke.StitchesAfter(r-1); by > 0 {
				say("increase "+n(r+1), n(by), true)
				rounds++
				want["yoke per_round"] = []string{n(by)}
			}
		}
		say("yoke_rounds", n(rounds), true)
		if p.Raglan != nil || rounds == 0 {
			delete(want, "yoke per_round")
		}
		if p.Circular != nil && rounds == 0 {
			want["yoke per_round"] = []string{n(p.Circular.PerRound)}
		}
		body, ok := p.Section("body")
		if !ok {
			body = mustSection(t, p, "bodice")
		}
		divide := body.stepOf("split")
		left, right := divide.n("front"), divide.n("other_front")
		say("split front", n(left+right), p.Garment.Opening != "front")
		say("split front_left", n(left), p.Garment.Opening == "front")
		say("split front_right", n(right), p.Garment.Opening == "front")
		say("split back", n(divide.n("back")), true)
		say("split sleeve_left", n(divide.n("on_hold")), true)
		say("split sleeve_right", n(divide.n("on_hold")), true)
		say("split underarm", n(divide.n("cast_on")), true)
		say("split body", n(body.From), true)
		say("split sleeve", n(mustSection(t, p, "sleeve").From), true)
	}
	sleeve, sleeved := p.Section("sleeve")
	say("construction", string(p.How.Construction), sleeved)
	leg, legged := p.Section("leg")
	legged = legged && p.Legs != nil
	if sleeved {
		say("decrease sleeve", n((sleeve.From-sleeve.To())/2), true)
		say("end sleeve", n(sleeve.To()), true)
	}
	if legged {
		last := leg
		if lower, ok := p.Section("lower-leg"); ok {
			last = lower
		}
		say("split bridge", n(leg.stepOf("bridge").n("bridge")), true)
		say("decrease leg", n((leg.From-last.To())/2), true)
		say("end leg", n(last.To()), true)
	}
	for _, a := range p.Added {
		delete(got, a.Row.Field+" "+a.Zone)
	}
	require.Equal(t, want, got)
}
