package work_test

import (
	"fmt"
	"maps"
	"math"
	"math/rand"
	"regexp"
	"slices"
	"strconv"
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

// howMany are the plans that tests of patterns go through.
func howMany() int {
	if proof.Whole() {
		return 2000
	}
	return 150
}

// stitchGauges are gauges of crochet by its stitch, from coarse to fine.
var stitchGauges = map[string][]string{"sc": {"12x14", "16x18", "18x20", "22x24"}, "hdc": {"14x11", "16x13"}, "dc": {"12x7", "14x8", "18x10"}}

var knitGauges = []string{"12x16", "14x19", "16x22", "18x24", "20x28", "22x30", "28x36", "30x42"}

var inUK = map[string]string{"sc": "dc", "hdc": "htr", "dc": "tr"}

// wishes are plans of all garments, from babies to 16, in all ways to work them: the
// same every time.
func wishes(n int) []ask.Values {
	rnd := rand.New(rand.NewSource(20261126))
	pick := func(of ...string) string { return of[rnd.Intn(len(of))] }
	var all []ask.Values
	for range n {
		v := ask.Values{
			"garment": {pick("cardigan", "pullover", "vest", "dress", "one-piece", "one-piece-hooded", "trousers", "hat", "mittens", "socks")},
			"size":    {pick("3m", "6m", "12m", "18m", "24m", "2", "3", "4", "5", "6", "8", "10", "12", "14", "16")},
			"craft":   {pick("knit", "crochet")}, "fit": {pick("close", "classic", "loose")}, "layer": {pick("skin", "indoor", "winter")}, "growth": {pick("0", "1", "2", "4")},
			"turned": {pick("true", "false")}, "yoke": {pick("circular", "raglan", "drop-shoulder")}, "hood": {pick("shaped-crown", "centre-panel", "straight")},
			"closure": {pick("zipper", "buttons")},
		}
		if hold := pick("usual", "fold-cuff", "hem", "tuck", "tuck", "on-hold", "none"); v["growth"][0] != "0" && hold != "usual" {
			v["hold"] = []string{hold}
		}
		if pick("measured", "not") == "measured" {
			v["stretch"] = []string{"1.6"}
		}
		if v["craft"][0] == "knit" {
			v["gauge"] = []string{pick(knitGauges...) + "/10cm"}
		} else {
			stitch := pick("sc", "hdc", "dc")
			v["gauge"] = []string{pick(stitchGauges[stitch]...) + "/10cm"}
			v["stitch"], v["terms"] = []string{stitch}, []string{pick("us", "uk")}
			v["rounds"], v["foundation"] = []string{pick("turned", "joined", "spiral")}, []string{pick("chain", "chainless")}
			if v["terms"][0] == "uk" {
				v["stitch"] = []string{inUK[stitch]}
			}
		}
		all = append(all, v)
	}
	return all
}

// fitting are the wishes that apply to the garment.
func fitting(t *testing.T, ref *sizing.Reference, v ask.Values) *ask.Request {
	t.Helper()
	_, faults := ask.Read(ref, ask.PlanFields(), v, sizing.Child{})
	v = maps.Clone(v)
	for _, f := range faults {
		require.Contains(t, f.Error(), " is for ")
		delete(v, f.Field)
	}
	r, faults := ask.Read(ref, ask.PlanFields(), v, sizing.Child{})
	require.Empty(t, faults)
	return r
}

// patternOf is the pattern as it is printed.
func patternOf(d tell.PlanDocument) follow.Pattern {
	p := follow.Pattern{Gauge: d.Gauge}
	for _, s := range d.Sections {
		x := follow.Section{ID: s.Section, Name: s.Name, Copies: s.Copies, From: s.From, To: s.To, Rows: s.Rows}
		for _, step := range s.Steps {
			x.Lines = append(x.Lines, step.Text)
		}
		p.Sections = append(p.Sections, x)
	}
	p.Lengths = make(map[string]string)
	for _, x := range d.Parts {
		p.Lengths[x.Name] = x.Part
	}
	p.Growth = d.Growth
	return p
}

// A sample is a plan, and what is printed of it.
type sample struct {
	wish ask.Values
	plan *work.Planned
	doc  tell.PlanDocument
}

// sampled makes plans of the wishes. What cannot be planned is left out: a measurement
// that is not known, a gauge that is too coarse.
func sampled(t *testing.T, n int) []sample {
	t.Helper()
	ref := samples.Reference(t)
	var all []sample
	for _, v := range wishes(n) {
		r := fitting(t, ref, v)
		p, err := work.MakePlan(ref, r)
		if err != nil {
			continue
		}
		all = append(all, sample{v, p, tell.Style{}.Plan(ref, r.Child, p.Plan, nil).Recorded().JSON.(tell.PlanDocument)})
	}
	require.Greater(t, len(all), n/2)
	return all
}

// Every plan can be worked from its words alone: its counts, rows and lengths are
// those that its sections and its finished measurements say.
func TestPatternsAreFollowed(t *testing.T) {
	var out faultList
	for _, s := range sampled(t, howMany()) {
		w := follow.Follow(patternOf(s.doc))
		for _, f := range w.Faults {
			out.add(s, f.String())
		}
		if len(w.Faults) > 0 {
			continue
		}
		for _, f := range measured(s, w) {
			out.add(s, f)
		}
	}
	out.none(t)
}

// measured holds the finished measurements of a plan against those that its words
// give.
func measured(s sample, w *follow.Work) []string {
	var all []string
	sizes := w.Sizes()
	for _, p := range s.plan.Parts {
		id := p.Line.Part.Part
		cm, known := sizes[id]
		slack := 0.06
		if worn, held := w.Worn[id]; held && math.Abs(worn-p.WornCm()) > slack && id != "hood_height" {
			all = append(all, fmt.Sprintf("%s: with all folds the words give %.2f cm, the plan says %.2f", id, worn, p.WornCm()))
		}
		if id == "hood_height" && s.plan.How.Hood == plan.CentrePanel {
			slack += s.plan.How.Gauge.RowHeightCm() / 2 // half the panel's width, in whole rows
		}
		if known && math.Abs(cm-p.SizeCm) > slack {
			all = append(all, fmt.Sprintf("%s: the words give %.2f cm, the plan says %.2f", id, cm, p.SizeCm))
		}
		if !near(s, p) && !said(s, p) {
			all = append(all, fmt.Sprintf("%s: %.2f cm of %.2f asked, more than half of what its count can be", id, p.SizeCm, p.WantCm))
		}
	}
	return all
}

// near reports that a part is as near to what was asked for as its count allows: half a
// stitch or row, or half of the multiple that it keeps; the next count up where the
// nearest would be under the body with its least ease. Parts that are chosen together
// may be two stitches off, lengths that share their rows a whole step.
func near(s sample, p plan.Part) bool {
	g := s.plan.How.Gauge
	if p.Ribbed && s.plan.How.Rib != nil {
		g = *s.plan.How.Rib
	}
	id := p.Line.Part.Part
	unit := g.StitchWidthCm() * float64(max(1, p.Multiple.Repeat))
	if id == "cross_back" {
		unit *= 2 // as much is gained at both armholes
	}
	if p.Line.Part.Dimension == "length" {
		unit = g.RowHeightCm()
		if s.plan.How.Craft == plan.Knit {
			unit *= 2 // turned rows are even, so that a part begins on the right side
		}
	}
	miss := math.Abs(p.ErrorCm()) - 1e-6
	least := p.Line.Finished - sizing.TotalCm(p.Line.Ease) + p.Line.EaseLow
	switch {
	case miss <= unit/2:
		return true
	case p.ErrorCm() > 0 && miss <= unit && len(p.Line.Ease) > 0 && p.SizeCm-unit < least-1e-9:
		return true
	case id == "front_opening": // it goes with the torso, which has a miss of its own
		return miss <= 2*unit
	case slices.Contains(shared, id):
		return miss <= unit
	}
	return slices.Contains(s.together(), id) && miss <= 2*g.StitchWidthCm()
}

// shared are lengths of one body that are measured in several ways and planned in the
// same rows, and girths that begin on the one above them: a hip that is not narrower than
// waist and chest, a waist or calf that short rows must lead to.
var shared = []string{"body_length", "rise", "trunk", "waist", "hip", "calf"}

// together are the parts whose counts are chosen together: of a yoke so that it is one
// sentence, of a neck below shoulders so that its sides are alike.
func (s sample) together() []string {
	if s.plan.Circular != nil || s.plan.Raglan != nil {
		return []string{"neck", "chest", "upper_arm", "armhole_depth"}
	}
	return []string{"neck"}
}

// said reports that the plan itself says what a part misses, or by how much the lengths
// differ that it is measured by.
func said(s sample, p plan.Part) bool {
	return slices.ContainsFunc(s.plan.Notes, func(f sizing.Fact) bool {
		return f.ID == "trunk-lengths-differ" && slices.Contains([]string{"body_length", "rise", "trunk"}, p.Line.Part.Part) ||
			slices.ContainsFunc(f.Args, func(a any) bool { return a == p.Line.Part.Name })
	})
}

// A faultList lists faults of plans by what they are, each with one example.
type faultList struct {
	count   map[string]int
	example map[string]string
}

var digits = regexp.MustCompile(`\d+(\.\d+)?`)

func (l *faultList) add(s sample, fault string) {
	if l.count == nil {
		l.count, l.example = make(map[string]int), make(map[string]string)
	}
	what, _, _ := strings.Cut(fault, "\n")
	kind := digits.ReplaceAllString(what, "#")
	l.count[kind]++
	if l.example[kind] == "" {
		l.example[kind] = fmt.Sprintf("%v\n%s", s.wish, fault)
	}
}

func (l *faultList) none(t *testing.T) {
	t.Helper()
	for _, kind := range slices.SortedFunc(maps.Keys(l.count), func(a, b string) int { return l.count[b] - l.count[a] }) {
		t.Errorf("%d × %s\n%s", l.count[kind], kind, l.example[kind])
	}
}

// A number of the words that is another one is noticed: the work does not come out, or
// not at the sizes that are said.
func TestFollowerNoticesAnotherNumber(t *testing.T) {
	rnd := rand.New(rand.NewSource(1))
	noticed, all := 0, 0
	var missed faultList
	for _, s := range sampled(t, howMany()/2) {
		p := patternOf(s.doc)
		if len(follow.Follow(p).Faults) > 0 {
			continue // TestPatternsAreFollowed says so
		}
		for range 4 {
			changed, what := mutated(rnd, p)
			w := follow.Follow(changed)
			all++
			if len(w.Faults) > 0 || len(measured(s, w)) > 0 {
				noticed++
			} else {
				missed.add(s, what)
			}
		}
	}
	t.Logf("%d of %d changed numbers are noticed", noticed, all)
	require.Positive(t, all)
	if share := float64(noticed) / float64(all); share < 0.95 {
		t.Errorf("%.1f %% of %d changed numbers are noticed", 100*share, all)
		missed.none(t)
	}
}

// mutated changes one number of a line, by one up or down.
func mutated(rnd *rand.Rand, p follow.Pattern) (follow.Pattern, string) {
	growth := follow.Section{Name: "growth", Lines: slices.DeleteFunc(slices.Clone(p.Growth), func(line string) bool { return strings.HasPrefix(line, "It is time") })}
	p.Sections = slices.Clone(p.Sections)
	for {
		k := rnd.Intn(len(p.Sections) + min(1, len(growth.Lines)))
		s := &growth
		if k < len(p.Sections) {
			s = &p.Sections[k]
		}
		i := rnd.Intn(len(s.Lines))
		at := digits.FindAllStringIndex(s.Lines[i], -1)
		if len(at) == 0 {
			continue
		}
		place := at[rnd.Intn(len(at))]
		line := s.Lines[i]
		old, by := line[place[0]:place[1]], 1-2*rnd.Intn(2)
		value, err := strconv.ParseFloat(old, 64)
		if err != nil || value < 1 {
			continue
		}
		s.Lines = slices.Clone(s.Lines)
		s.Lines[i] = line[:place[0]] + strconv.FormatFloat(value+float64(by), 'f', strings.Count(old, "."), 64) + line[place[1]:]
		if s == &growth {
			p.Growth = s.Lines
		}
		return p, fmt.Sprintf("%s: %s is %s: %s", s.Name, old, strconv.Itoa(by), s.Lines[i])
	}
}

// The checks pass every plan: nothing stops it, and nothing is warned of but an edge
// whose stretch nobody has measured.
func TestSampledPlansPassTheChecks(t *testing.T) {
	var out faultList
	for _, s := range sampled(t, howMany()) {
		for _, f := range s.plan.Findings {
			if f.Severity < validate.Warn || unmeasured(s, f) {
				continue
			}
			out.add(s, fmt.Sprintf("%s %s: %s", f.Severity, f.Rule, tell.Style{}.Message(f)))
		}
	}
	out.none(t)
}

// unmeasured reports a finding about how far an edge stretches, where that was not
// measured.
func unmeasured(s sample, f validate.Finding) bool {
	return len(s.wish["stretch"]) == 0 && strings.HasPrefix(f.Rule, "G")
}
