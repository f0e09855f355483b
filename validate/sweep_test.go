package validate_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
	"growtuck/testdata/proof"
	"growtuck/validate"
)

// A combination is one garment, made in one way.
type combination struct {
	who    string
	making sizing.Spec
	how    plan.How
	way    string
}

func (c combination) String() string {
	return fmt.Sprintf("%s for %s, %s, %s %s %gx%g, %s", c.making.Garment, c.who, c.making.Fact(), c.how.Construction, c.how.Craft,
		c.how.Gauge.StitchesPer10Cm, c.how.Gauge.RowsPer10Cm, c.way)
}

// meant are findings that a plan cannot or should not avoid, each with the
// reason. One that does not fire fails the test.
var meant = []struct {
	rule, subject string
	when          func(c combination) bool
	reason        string
}{
	{"G01", "neck", func(c combination) bool { return c.unmeasured() && c.making.Garment == "balaclava" },
		"the neck is narrower than the head, and nobody has measured how far it stretches"},
	{"G02", "cuff", combination.unmeasured, "the cuff is narrower than the hand, and nobody has measured how far it stretches"},
	{"G03", "ankle", combination.unmeasured, "the ankle is narrower than the foot, and nobody has measured how far it stretches"},
	{"F02", "neck", func(c combination) bool { return (c.infant() || c.who == "2") && c.tall() },
		"in tall stitches a small child's neckline has so few rows that its edge comes no closer"},
	{"F02", "chest", func(c combination) bool { return c.infant() && c.tall() },
		"in stitches of a centimetre what the yoke and the underarms can give an infant's chest is wider than a fit class"},
	{"F02", "ankle", func(c combination) bool { return c.infant() && c.tall() && c.making.Garment == "romper" },
		"in stitches of a centimetre an infant's short leg has too few rows to come in to its edge"},
	{"P03", "leg", func(c combination) bool { return c.infant() && c.making.Garment == "romper" },
		"an infant's short leg, loose over clothes, has few rows between wide hips and its edge"},
	{"F03", "calf", func(c combination) bool { return c.how.Multiple.Repeat == 6 },
		"a repeat of six stitches is wider than the ease of a leg warmer"},
	{"F02", "waist", func(c combination) bool { return c.how.Multiple.Repeat == 6 },
		"a repeat of six stitches is wider than a fit class"},
	{"F03", "waist", func(c combination) bool { return c.infant() && c.making.Fit == "very-close" && c.how.Rib != nil },
		"ribbing narrower than the fabric, on no more stitches than an infant's hips in a very close fit"},
	{"G04", "waist", combination.unmeasured, "the waist is narrower than what it passes, and nobody has measured how far it stretches"},
}

// infant reports a wearer of under two years, tall a stitch more than 1.4 times as high as it is wide.
func (c combination) infant() bool { return strings.HasSuffix(c.who, "m") }
func (c combination) tall() bool   { return c.how.Gauge.RowByStitch() > 1.4 }

func (c combination) unmeasured() bool { return c.how.Stretch == nil }

// sweepWays vary what does not depend on the garment: one for each
// combination, in turn.
var sweepWays = []struct {
	name string
	set  func(c *combination, options []string, n int)
}{
	{"as usual", func(*combination, []string, int) {}},
	{"4n", func(c *combination, _ []string, _ int) { c.how.Multiple = stitch.Multiple{Repeat: 4} }},
	{"6n+2", func(c *combination, _ []string, _ int) { c.how.Multiple = stitch.Multiple{Repeat: 6, Edge: 2} }},
	{"own rib gauge, turned", func(c *combination, _ []string, _ int) {
		c.how.Rib = &stitch.Gauge{StitchesPer10Cm: c.how.Gauge.StitchesPer10Cm * 1.15, RowsPer10Cm: c.how.Gauge.RowsPer10Cm * 1.05}
		c.how.Turned = true
	}},
	{"option, two seasons", func(c *combination, options []string, n int) {
		c.making.Seasons = 2
		if len(options) > 0 {
			c.making.Options = []string{options[n%len(options)]}
		}
	}},
	{"nappy, one season", func(c *combination, _ []string, _ int) { c.making.Nappy, c.making.Seasons = true, 1 }},
	{"stretch not measured", func(c *combination, _ []string, _ int) { c.how.Stretch = nil }},
	{"buttons, short ribbing", func(c *combination, _ []string, _ int) {
		c.how.Closure, c.how.HemCm, c.how.CuffCm, c.how.RibShare = plan.Buttons, 2, 2, 0.8
	}},
	{"turned", func(c *combination, _ []string, _ int) { c.how.Turned = true }},
}

var sweepGauges = []struct {
	craft plan.Craft
	gauge stitch.Gauge
}{
	{plan.Crochet, stitch.Gauge{StitchesPer10Cm: 10, RowsPer10Cm: 6}},
	{plan.Crochet, stitch.Gauge{StitchesPer10Cm: 14, RowsPer10Cm: 7}},
	{plan.Crochet, stitch.Gauge{StitchesPer10Cm: 16, RowsPer10Cm: 18}},
	{plan.Crochet, stitch.Gauge{StitchesPer10Cm: 22, RowsPer10Cm: 24}},
	{plan.Knit, stitch.Gauge{StitchesPer10Cm: 12, RowsPer10Cm: 16}},
	{plan.Knit, stitch.Gauge{StitchesPer10Cm: 18, RowsPer10Cm: 24}},
	{plan.Knit, stitch.Gauge{StitchesPer10Cm: 22, RowsPer10Cm: 30}},
	{plan.Knit, stitch.Gauge{StitchesPer10Cm: 28, RowsPer10Cm: 36}},
}

// A wearer is a body, and the rows of a draft that name it.
type wearer struct {
	name string
	body *sizing.Body
	rows []plan.Row
}

func sweepWearers(t *testing.T, ref *sizing.Reference) []wearer {
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	var all []wearer
	for _, size := range []string{"3m", "6m", "12m", "18m", "2", "3", "4", "5.5", "6", "8", "10", "12", "14", "16"} {
		p, err := chart.Place(size, sizing.Both)
		require.NoError(t, err)
		all = append(all, wearer{size, ref.BodyAt(p, sizing.Monotone), []plan.Row{{Field: "size", Value: size}}})
	}
	for _, name := range []string{"ines.csv", "inches.csv"} {
		f, err := os.Open("../testdata/children/" + name)
		require.NoError(t, err)
		child, err := ref.ReadChild(f, name)
		require.NoError(t, err)
		require.NoError(t, f.Close())
		body, err := ref.Estimate(child)
		require.NoError(t, err)
		w := wearer{name, body, []plan.Row{{Field: "sex", Value: string(child.Sex)}, {Field: "age", Value: fmt.Sprint(child.AgeYears), Unit: "years"}}}
		for id, v := range child.Own {
			m, err := ref.Measurement(id)
			require.NoError(t, err)
			w.rows = append(w.rows, plan.Row{Field: "body", Part: id, Value: fmt.Sprint(v), Unit: m.Unit})
		}
		all = append(all, w)
	}
	return all
}

func draftRows(rows []plan.Row) []validate.Row {
	var draft []validate.Row
	for _, r := range rows {
		draft = append(draft, validate.Row{Field: r.Field, Part: r.Part, Value: r.Value, Unit: r.Unit, Note: r.Note})
	}
	return draft
}

// A plan's rows are checked as the table is that they are written to, for every
// garment.
func TestRowsAreCheckedAsTheirTable(t *testing.T) {
	t.Parallel()
	ref, err := sizing.Default()
	require.NoError(t, err)
	found := 0
	for _, g := range ref.Garments() {
		for _, w := range sweepWearers(t, ref) {
			f, err := ref.Finish(w.body, sizing.Spec{Garment: g.ID, Fit: "close", Layer: "winter", Seasons: 1})
			require.NoError(t, err)
			p, err := plan.Make(f, plan.How{Craft: plan.Crochet, Gauge: stitch.Gauge{StitchesPer10Cm: 14, RowsPer10Cm: 7}})
			if err != nil {
				continue // a body measurement is not known
			}
			rows := p.Draft(w.rows...)
			draft, err := validate.ReadDraft(ref, bytes.NewReader(draftText(t, rows)), "plan", nil)
			require.NoError(t, err)
			asTable, err := draft.Check(ref)
			require.NoError(t, err)
			asRows, err := validate.CheckDraftRows(ref, draftRows(rows), "plan", validate.Options{})
			require.NoError(t, err)
			require.Equal(t, asTable, asRows, "%s for %s", g.ID, w.name)
			found += len(asRows)
		}
	}
	require.Greater(t, found, 100)
}

func draftText(t testing.TB, rows []plan.Row) []byte {
	t.Helper()
	text, err := plan.DraftCSV(rows)
	require.NoError(t, err)
	return text
}

// TestPlansAreCleanDrafts checks the drafts of plans for every garment over
// sizes and children, fits, layers, gauges and constructions: the rules have
// nothing to warn of. The proof checks all 28,800 combinations.
func TestPlansAreCleanDrafts(t *testing.T) {
	t.Parallel()
	ref, err := sizing.Default()
	require.NoError(t, err)
	wearers := sweepWearers(t, ref)
	step := 41
	if proof.Whole() {
		step = 1
	}
	fired := make([]int, len(meant))
	n, checked, found := 0, 0, 0
	for _, g := range ref.Garments() {
		options, err := ref.GarmentOptions(g.ID)
		require.NoError(t, err)
		parts, err := ref.Parts(g.ID)
		require.NoError(t, err)
		sleeved := false
		for _, p := range parts {
			sleeved = sleeved || p.Part == "sleeve_length"
		}
		for _, w := range wearers {
			for _, fit := range sizing.Fits {
				for _, layer := range sizing.Layers {
					for _, gauge := range sweepGauges {
						for i, k := range plan.Constructions {
							if !sleeved && i > 0 {
								continue
							}
							if n++; n%step != 0 {
								continue
							}
							c := combination{who: w.name, making: sizing.Spec{Garment: g.ID, Fit: fit, Layer: layer},
								how: plan.How{Craft: gauge.craft, Gauge: gauge.gauge, Construction: k,
									Stretch: map[string]float64{"neck": 1.5, "cuff": 1.5, "ankle": 1.5, "waist": 1.5, "brim": 1.5}}}
							at := scattered(n)
							way := sweepWays[at%len(sweepWays)]
							c.way = way.name
							way.set(&c, options, at/len(sweepWays))
							checked++
							if sweepOne(t, ref, w, c, fired) {
								found++
							}
						}
					}
				}
			}
		}
	}
	t.Logf("%d combinations, %d with a finding that is meant or a plan that cannot be", checked, found)
	if !proof.Whole() {
		return // too few to make every exception fire
	}
	for i, m := range meant {
		t.Logf("%d × %s %s: %s", fired[i], m.rule, m.subject, m.reason)
		if fired[i] == 0 {
			t.Errorf("%s about %s did not fire (%s): take it out of the list", m.rule, m.subject, m.reason)
		}
	}
}

// scattered mixes a number, so that ways do not go in step with gauges.
func scattered(n int) int { return int(uint32(n) * 2654435761 >> 12) }

// sweepOne checks one combination. It reports whether there was anything to
// say.
func sweepOne(t *testing.T, ref *sizing.Reference, w wearer, c combination, fired []int) bool {
	f, err := ref.Finish(w.body, c.making)
	require.NoError(t, err, c)
	p, err := plan.Make(f, c.how)
	if err != nil {
		var input *stitch.InputError
		// Stitches of a centimetre and more are too coarse for the yoke of an infant.
		coarse := c.infant() && c.tall() && errors.As(err, &input) && input.What == "yoke"
		if !coarse && !errors.As(err, new(*plan.UnmeasuredError)) {
			t.Errorf("%s: %v", c, err)
		}
		return true
	}
	findings, err := validate.CheckDraftRows(ref, draftRows(p.Draft(w.rows...)), "draft.csv", validate.Options{})
	require.NoError(t, err, c)
	any := false
	for _, f := range findings {
		if f.Severity < validate.Warn {
			continue
		}
		any = true
		known := false
		for i, m := range meant {
			if f.Rule == m.rule && f.Subject == m.subject && f.Severity == validate.Warn && m.when(c) {
				fired[i]++
				known = true
			}
		}
		if !known {
			t.Errorf("%s: %s", c, f)
		}
	}
	return any
}
