package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

func remaining(t testing.TB, p *Plan, done Done, ch Change) *Remaining {
	t.Helper()
	r, err := p.Remaining(Trial{Done: []Done{done}, Changes: []Change{ch}})
	require.NoError(t, err)
	return r
}

func (r *Remaining) leftOf(t testing.TB, id string) Left {
	t.Helper()
	for _, l := range r.Left {
		if l.Section.ID == id {
			return l
		}
	}
	require.Fail(t, "nothing left of "+id)
	return Left{}
}

func moved(r *Remaining, part string) float64 {
	for _, m := range r.Moves {
		if m.Part.Line.Part.Part == part {
			return m.Cm - m.WasCm
		}
	}
	return 0
}

// Longer is against the plan, not from here; the cuff stays, and the other sleeve
// is worked in as many rows.
func TestSleeveLongerThanPlanned(t *testing.T) {
	p := suit(t, singleCrochet)
	sleeve, _ := p.Section("sleeve")
	done := sleeve.Rows() / 2
	r := remaining(t, p, Done{"sleeve", done}, Change{Section: "sleeve", LongerCm: 3})
	more := int(math.Round(p.How.Gauge.Rows(3)))
	l := r.leftOf(t, "sleeve")
	require.Equal(t, []int{sleeve.StitchesAfter(done), sleeve.Rows() - done + more}, []int{r.OnWork, r.RowsLeft})
	require.Equal(t, sleeve.Rows()-done+more+sleeve.Rows()+more, l.Rows)
	rest := l.Rest[0].Shaping
	require.Equal(t, []int{sleeve.StitchesAfter(done), sleeve.Rows() - done + more, sleeve.To()}, []int{rest.From, rest.Rows, rest.To()})
	other := l.Others[len(l.Others)-1].Shaping
	require.Equal(t, []int{sleeve.From, sleeve.Rows() + more, sleeve.To()}, []int{other.From, other.Rows, other.To()})
	require.Empty(t, r.RipBack)
	require.InDelta(t, p.How.Gauge.HeightCm(more), moved(r, "sleeve_length"), 1e-9)
}

// Work that is finished is extended at its end before what hangs from it is begun.
func TestYokeLongerAtItsEnd(t *testing.T) {
	p := suit(t, singleCrochet)
	yoke, _ := p.Section("yoke")
	r := remaining(t, p, Done{"yoke", yoke.Rows()}, Change{Section: "yoke", LongerCm: 2})
	more := int(math.Round(p.How.Gauge.Rows(2)))
	require.Equal(t, more, r.leftOf(t, "yoke").Rows)
	cm := p.How.Gauge.HeightCm(more)
	for _, part := range []string{"armhole_depth", "body_length", "trunk", "front_opening"} {
		require.InDelta(t, cm, moved(r, part), 1e-9, part)
	}
	require.NotNil(t, r.Zipper)
	require.InDelta(t, p.Zipper.OpeningCm+cm, r.Zipper.OpeningCm, 1e-9)
	require.NotEmpty(t, r.leftOf(t, "front-edges").Rest)

	// Below it the body is begun: it must come off.
	r = remaining(t, p, Done{"body", 5}, Change{Section: "yoke", LongerCm: 2})
	require.Equal(t, []RipBack{{Section: "yoke", ToRow: yoke.Rows(), Onto: yoke.To(), Whole: []string{"body"}}}, r.RipBack)
	body, _ := p.Section("body")
	require.Equal(t, body.Rows(), r.leftOf(t, "body").Rows)
}

// The increases that are left are made in the rows that are left, each told.
func TestYokeLongerInItsMiddle(t *testing.T) {
	for _, how := range []How{singleCrochet, {Craft: Crochet, Gauge: singleCrochet.Gauge, Construction: Raglan}} {
		p := suit(t, how)
		yoke, _ := p.Section("yoke")
		done := yoke.Rows() / 2
		r := remaining(t, p, Done{"yoke", done}, Change{Section: "yoke", LongerCm: 2})
		at := yoke.StitchesAfter(done)
		last := done
		for _, step := range r.leftOf(t, "yoke").Rest {
			row, named := step.Values["row"].(int)
			if !named {
				continue
			}
			require.Greater(t, row, last)
			require.Greater(t, step.Values["to"], at)
			last, at = row, step.Values["to"].(int)
		}
		require.Equal(t, yoke.To(), at)
		require.LessOrEqual(t, last, yoke.Rows()+int(math.Round(p.How.Gauge.Rows(2))))
	}
}

// A sleeve that is too long already is ripped back as far as its decreases need.
func TestShorterThanWorked(t *testing.T) {
	p := suit(t, singleCrochet)
	sleeve, _ := p.Section("sleeve")
	r := remaining(t, p, Done{"sleeve", sleeve.Rows()}, Change{Section: "sleeve", LongerCm: -4})
	less := int(math.Round(p.How.Gauge.Rows(4)))
	require.Len(t, r.RipBack, 1)
	rip := r.RipBack[0]
	require.LessOrEqual(t, rip.ToRow, sleeve.Rows()-less)
	require.Equal(t, sleeve.StitchesAfter(rip.ToRow), rip.Onto)
	require.Equal(t, sleeve.Rows()-rip.ToRow, rip.Rows)
	l := r.leftOf(t, "sleeve")
	require.Equal(t, sleeve.To(), l.Section.To())
	require.Equal(t, sleeve.Rows()-less, l.Section.Rows())
}

// Where a sleeve should end is said from the wrist: by the measurements, or as far
// as it was seen to be from the last row.
func TestEndsAboveTheWrist(t *testing.T) {
	p := suit(t, singleCrochet)
	part, _ := p.Part("sleeve_length")
	arm, _ := p.Body.Get("arm_to_underarm")
	r := remaining(t, p, Done{"sleeve", 5}, Change{Section: "sleeve", Ends: &End{BeyondCm: -2, Mark: Wrist}})
	require.InDelta(t, arm.Value-2, part.SizeCm+moved(r, "sleeve_length"), p.How.Gauge.RowHeightCm()/2)

	away := 20.0
	r = remaining(t, p, Done{"sleeve", 5}, Change{Section: "sleeve", Ends: &End{BeyondCm: -2, Mark: Wrist, FromHereCm: &away}})
	cuff, _ := p.Section("cuff")
	toGo := p.How.Gauge.HeightCm(r.RowsLeft) + cuff.HeightCm()
	require.InDelta(t, away-2, toGo, p.How.Gauge.RowHeightCm()/2)

	_, err := p.Remaining(Trial{Done: []Done{{"sleeve", 5}}, Changes: []Change{{Section: "sleeve", Ends: &End{Mark: Crotch}}}})
	require.ErrorContains(t, err, "known are wrist")
}

// A difference that is worked into one sleeve is planned for the other.
func TestTheOtherIsLikeTheFirst(t *testing.T) {
	p := suit(t, singleCrochet)
	sleeve, _ := p.Section("sleeve")
	rows := sleeve.Rows() + 3
	r, err := p.Remaining(Trial{Done: []Done{{"sleeve", rows}}, Worked: []Worked{{Section: "sleeve", Rows: rows, Stitches: sleeve.To() + 2}}})
	require.NoError(t, err)
	l := r.leftOf(t, "sleeve")
	require.Equal(t, []int{rows, rows, sleeve.To() + 2}, []int{l.RowsDone, l.Rows, l.Section.To()})
	shaping := l.Rest[len(l.Rest)-1].Shaping
	require.Equal(t, []int{sleeve.From, rows, sleeve.To() + 2}, []int{shaping.From, shaping.Rows, shaping.To()})
	// The cuff begins on what the sleeve ends on.
	for _, step := range r.leftOf(t, "cuff").Rest {
		if step.Across != nil {
			require.Equal(t, sleeve.To()+2, step.Across.Stitches)
		}
	}
}

// Wider comes from the yoke where that has rows left, else from the underarm, and
// what follows begins on what is there.
func TestBodyWider(t *testing.T) {
	p := suit(t, singleCrochet)
	yoke, _ := p.Section("yoke")
	body, _ := p.Section("body")
	r := remaining(t, p, Done{"yoke", 3}, Change{Section: "body", WiderCm: 5})
	gains := r.leftOf(t, "yoke").Section.To() - yoke.To()
	require.InDelta(t, p.How.Gauge.Stitches(5), gains, 2)
	require.Equal(t, body.From+gains, r.leftOf(t, "body").Section.From)
	require.Equal(t, 0.0, moved(r, "upper_arm"))

	r = remaining(t, p, Done{"yoke", yoke.Rows()}, Change{Section: "body", WiderCm: 5})
	require.Positive(t, moved(r, "upper_arm"))
	sleeve, _ := p.Section("sleeve")
	more := r.leftOf(t, "body").Section.From - body.From
	require.Equal(t, sleeve.From+more/2, r.leftOf(t, "sleeve").Section.From)
}

// Whatever is changed: what is worked stays up to where it is ripped back, each
// section begins on what the one above ends on as far as it did, and the rows and
// counts of the steps are those of the section.
func TestChangesHoldTogether(t *testing.T) {
	var plans []*Plan
	for _, garment := range []string{"one-piece-hooded", "pullover", "cardigan", "dress", "trousers", "vest", "hat", "mittens", "socks"} {
		for _, how := range []How{singleCrochet, {Craft: Knit, Gauge: stitch.Gauge{StitchesPer10Cm: 22, RowsPer10Cm: 30}, Construction: Raglan, Turned: true}, {Craft: Knit, Gauge: stitch.Gauge{StitchesPer10Cm: 20, RowsPer10Cm: 28}, Construction: DropShoulder}} {
			p, err := Make(samples.Finish(t, samples.BodyAt(t, "8"), samples.Spec(garment)), how)
			require.NoError(t, err)
			plans = append(plans, p)
		}
	}
	worked := 0
	rapid.Check(t, func(t *rapid.T) {
		p := plans[rapid.IntRange(0, len(plans)-1).Draw(t, "plan")]
		s := p.Sections[rapid.IntRange(0, len(p.Sections)-1).Draw(t, "section")]
		target := p.Sections[rapid.IntRange(0, len(p.Sections)-1).Draw(t, "changed")]
		t.Logf("%s %s: %s is worked, %s changed", p.Garment.ID, p.How.Construction, s.ID, target.ID)
		n := rapid.IntRange(0, s.Rows()*s.Copies).Draw(t, "rows")
		ch := Change{Section: target.ID}
		if cm := rapid.Float64Range(-6, 8).Draw(t, "cm"); rapid.Bool().Draw(t, "longer") {
			ch.LongerCm = cm
		} else {
			ch.WiderCm = cm
		}
		r, err := p.Remaining(Trial{Done: []Done{{s.ID, n}}, Changes: []Change{ch}})
		if err != nil {
			return // says what it cannot do
		}
		worked++
		for _, rip := range r.RipBack {
			was, _ := p.Section(rip.Section)
			if rip.ToRow > 0 && rip.Onto != was.StitchesAfter(rip.ToRow) {
				t.Fatalf("%s: row %d was worked to %d stitches, not %d", rip.Section, rip.ToRow, was.StitchesAfter(rip.ToRow), rip.Onto)
			}
		}
		for _, l := range r.Left {
			was, _ := p.Section(l.Section.ID)
			for row := 1; row <= l.part && l.Section.ID != "front-edges"; row++ {
				if l.Section.StitchesAfter(row) != was.StitchesAfter(row) {
					t.Fatalf("%s: row %d is worked to %d stitches and becomes %d", was.ID, row, was.StitchesAfter(row), l.Section.StitchesAfter(row))
				}
			}
			if err := adds(l.Rest, l.Section, l.RestFrom); err != "" {
				t.Fatalf("%s: %s", l.Section.ID, err)
			}
			for row := 0; row <= l.Section.Rows(); row++ {
				if l.Section.StitchesAfter(row) < 1 {
					t.Fatalf("%s has no stitches in row %d", l.Section.ID, row)
				}
			}
		}
	})
	require.Positive(t, worked)
}

// adds follows the steps of a rest, and says where they part from its section.
func adds(steps []Step, s *Section, from int) string {
	for _, step := range steps {
		to, named := step.Values["to"].(int)
		row, numbered := step.Values["row"].(int)
		if last, again := step.Values["last"].(int); again && step.Values["times"] != nil {
			row = last
		}
		switch {
		case named && numbered && s.StitchesAfter(row) != to:
			return "a step's row ends on other stitches"
		case step.Across != nil && step.Across.After() < 1:
			return "a row without stitches"
		case step.Shaping != nil && step.Shaping.Rows <= s.Rows() && step.Shaping.From != s.StitchesAfter(from) && from > 0:
			return "the shaping begins on other stitches"
		}
	}
	return ""
}

func TestRemainingRefuses(t *testing.T) {
	p := suit(t, singleCrochet)
	nan := math.NaN()
	for want, trial := range map[string]Trial{
		`unknown section "yok"`:          {Done: []Done{{"yok", 1}}},
		`unknown section "sleev"`:        {Done: []Done{{"yoke", 1}}, Changes: []Change{{Section: "sleev", LongerCm: 1}}},
		"given twice":                    {Done: []Done{{"yoke", 1}, {"yoke", 2}}},
		"changed twice":                  {Changes: []Change{{Section: "yoke", LongerCm: 1}, {Section: "yoke", LongerCm: 2}}},
		"-1 rows done of yoke":           {Done: []Done{{"yoke", -1}}},
		"9999 rows done of yoke: want 0": {Done: []Done{{"yoke", 9999}}},
		"NaN cm is not a length":         {Changes: []Change{{Section: "yoke", LongerCm: nan}}},
		"say it of yoke":                 {Changes: []Change{{Section: "back-neck", LongerCm: 3}}},
		"body or sleeve":                 {Changes: []Change{{Section: "yoke", WiderCm: 3}}},
		"far from the planned":           {Worked: []Worked{{Section: "sleeve", Rows: 9999}}},
		"cannot be changed so":           {Done: []Done{{"sleeve", 20}}, Changes: []Change{{Section: "sleeve", LongerCm: -90}}},
	} {
		_, err := p.Remaining(trial)
		require.ErrorContains(t, err, want)
	}
	var unknown *sizing.UnknownError
	_, err := p.Remaining(Trial{Done: []Done{{"yok", 1}}})
	require.ErrorAs(t, err, &unknown)
}
