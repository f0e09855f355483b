package tell

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

// A reader works a row as its words say: how many stitches of the old row it
// uses, and how many it leaves. It knows nothing of how the words were made.
type reader struct {
	t    *testing.T
	text string
}

func (r *reader) take(prefix string) bool {
	rest, ok := strings.CutPrefix(r.text, prefix)
	if ok {
		r.text = rest
	}
	return ok
}

func (r *reader) number() int {
	end := 0
	for end < len(r.text) && r.text[end] >= '0' && r.text[end] <= '9' {
		end++
	}
	n, err := strconv.Atoi(r.text[:end])
	require.NoError(r.t, err, r.text)
	r.text = r.text[end:]
	return n
}

// row reads pieces with commas between them, up to a closing bracket or the
// end.
func (r *reader) row() (uses, leaves int) {
	for {
		u, l := r.piece()
		uses, leaves = uses+u, leaves+l
		if !r.take(", ") {
			return uses, leaves
		}
	}
}

func (r *reader) piece() (uses, leaves int) {
	for _, b := range [][2]string{{"(", ") "}, {"[", "] "}} {
		if r.take(b[0]) {
			uses, leaves = r.row()
			require.True(r.t, r.take(b[1]), "no end of the bracket before %q", r.text)
			n := 1
			if !r.take("once") {
				n = r.number()
				require.True(r.t, r.take(" times"), r.text)
			}
			return n * uses, n * leaves
		}
	}
	switch {
	case r.take("work 2 together"):
		return 2, 1
	case r.take("2 in the next stitch"):
		return 1, 2
	case r.take("buttonhole of "):
		n := r.number()
		return n, n
	case r.take("work "):
		n := r.number()
		return n, n
	}
	require.Fail(r.t, "no maker knows what to do", "%q", r.text)
	return 0, 0
}

var (
	everyStep = regexp.MustCompile(`every (?:(\d+)(?:st|nd|rd|th) )?(?:row|round) (once|(\d+) times)(?: \(first in (?:row|round) (\d+)\))?`)
	inRow     = regexp.MustCompile(`at each side in (?:row|round) (\d+)`)
	plainTail = regexp.MustCompile(`then work (\d+) (?:row|round)s? plain`)
	inAll     = regexp.MustCompile(`(\d+) (?:row|round)s? in all, (\d+) stitch`)
	atEach    = regexp.MustCompile(`(Increase|Decrease) (\d+) stitch(?:es)?`)
)

// followSchedule works shaping as its words say, and returns the stitches
// after each row.
func followSchedule(t *testing.T, text string, from int) []int {
	all := inAll.FindStringSubmatch(text)
	require.NotNil(t, all, text)
	number := func(s string) int { n, err := strconv.Atoi(s); require.NoError(t, err, text); return n }
	counts := make([]int, number(all[1]))
	how := atEach.FindStringSubmatch(text)
	require.NotNil(t, how, text)
	by := 2 * number(how[2])
	if how[1] == "Decrease" {
		by = -by
	}
	shaped := make(map[int]bool)
	at := 0
	if m := inRow.FindStringSubmatch(text); m != nil {
		shaped[number(m[1])], at = true, number(m[1])
	}
	for _, m := range everyStep.FindAllStringSubmatch(text, -1) {
		every, times := 1, 1
		if m[1] != "" {
			every = number(m[1])
		}
		if m[3] != "" {
			times = number(m[3])
		}
		if m[4] != "" {
			at = number(m[4]) - every
		}
		for range times {
			at += every
			shaped[at] = true
		}
	}
	if m := plainTail.FindStringSubmatch(text); m != nil {
		at += number(m[1])
	}
	require.Equal(t, len(counts), at, text)
	for i := range counts {
		if shaped[i+1] {
			from += by
		}
		counts[i] = from
	}
	require.Equal(t, number(all[2]), from, text)
	return counts
}

var toStitches = regexp.MustCompile(`, (increase|decrease) (\d+) evenly to (\d+) stitch`)

// Whoever follows the words, stitch by stitch, ends on the counts.
func TestWordsLeadToTheCounts(t *testing.T) {
	rows, shaped := 0, 0
	everyPlan(t, func(t *testing.T, p *plan.Plan) {
		style := Style{Craft: string(p.How.Craft)}
		for _, s := range p.Sections {
			for _, step := range s.Steps {
				text := style.Step(step)
				require.NotContains(t, text, "{", "%s: a slot was left", s.ID)
				require.NotContains(t, text, "NaN", s.ID)
				if m := toStitches.FindStringSubmatch(text); m != nil {
					require.NotNil(t, step.Across, text)
					r := &reader{t, acrossRow(*step.Across)}
					require.True(t, strings.HasSuffix(text, ": "+r.text), text)
					uses, leaves := r.row()
					require.Empty(t, r.text, text)
					by, _ := strconv.Atoi(m[2])
					to, _ := strconv.Atoi(m[3])
					if m[1] == "decrease" {
						by = -by
					}
					require.Equal(t, to, leaves, text)
					require.Equal(t, to-by, uses, text)
					rows++
				}
				if step.ID == "shape" && strings.Contains(text, " in all, ") {
					from := s.From
					got := followSchedule(t, strings.Replace(text, "on both sides of the middle of the back", "at each side", 1), from)
					for i, n := range got {
						require.Equal(t, n, s.StitchesAfter(i+1), "%s row %d: %s", s.ID, i+1, text)
					}
					shaped++
				}
			}
		}
		if p.Circular != nil {
			yoke, _ := p.Section("yoke")
			at := p.Circular.Neck
			for _, r := range p.Circular.Rounds {
				require.Equal(t, at, yoke.StitchesAfter(r.Row-1))
				at += r.Increase
				require.Equal(t, at, yoke.StitchesAfter(r.Row))
			}
		}
	})
	require.Greater(t, rows, 1000)
	require.Greater(t, shaped, 500)
}

func TestSlots(t *testing.T) {
	p := phrase{words: "{} in {rows}, {times}, every {nth}, {cm1}, {pairs}", args: []any{3, 1, 1, 22, sizing.Length(4.06), 2}}
	require.Equal(t, "3 in 1 row, once, every 22nd, 4.1 cm, 2 pairs", p.text(Style{}))
	require.Equal(t, "3 in 1 row, once, every 22nd, 4.1 cm (1.6 in), 2 pairs", p.text(Style{Unit: "in"}))
	step := plan.Step{Kind: "straight-on", Values: plan.Values{"rows": 1, "stitches": 5}}
	require.Equal(t, "Work 1 row straight on 5 stitches.", Style{}.Step(step))
	step.InRounds = true
	require.Equal(t, "Work 1 round straight on 5 stitches.", Style{}.Step(step))
}

// The wording of a schedule is read back to the same rows, for all small ones.
func TestSchedulesReadBack(t *testing.T) {
	for from := 6; from <= 30; from += 4 {
		for to := 2; to <= 30; to += 2 {
			for _, rows := range []int{1, 2, 7, 15, 24} {
				for _, rightSide := range []bool{false, true} {
					for _, once := range []int{1, 2} {
						sc, err := stitch.Taper{From: from, To: to, Rows: rows, AtOnce: once, PlainBefore: rows / 5, RightSideOnly: rightSide}.Schedule()
						if err != nil || sc.Shapings() == 0 {
							continue
						}
						name := fmt.Sprintf("%d to %d in %d, %d at once, right side only %t", from, to, rows, once, rightSide)
						for i, n := range followSchedule(t, Style{}.Step(plan.Step{Kind: "shape-sides", Shaping: &sc}), from) {
							require.Equal(t, sc.StitchesAfter(i+1), n, name)
						}
					}
				}
			}
		}
	}
}

// The buttonholes of a front take up its stitches to the last.
func TestButtonholesOfAPlanReadBack(t *testing.T) {
	for _, how := range []plan.How{singleCrochet, stocking, coarse, fine} {
		how.Closure = plan.Buttons
		p, err := plan.Make(samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("cardigan")), how)
		require.NoError(t, err)
		band, ok := p.Section("underlap")
		require.True(t, ok)
		found := false
		for _, step := range band.Steps {
			if step.Buttonholes == nil {
				continue
			}
			found = true
			text := Style{}.Step(step)
			_, row, _ := strings.Cut(text, ": ")
			r := &reader{t, row}
			uses, leaves := r.row()
			require.Empty(t, r.text)
			require.Equal(t, []int{band.From, band.From}, []int{uses, leaves}, row)
		}
		require.True(t, found)
	}
}

// What is left of a sleeve that was tried on can be worked from its words.
func TestRestReadsBack(t *testing.T) {
	p := suit(t, singleCrochet)
	sleeve, ok := p.Section("sleeve")
	require.True(t, ok)
	done := sleeve.Rows() / 2
	r, err := p.Remaining(plan.Trial{Done: []plan.Done{{Section: "sleeve", Rows: done}}, Changes: []plan.Change{{Section: "sleeve", LongerCm: 3}}})
	require.NoError(t, err)
	l := r.Left[0]
	counts := followSchedule(t, Style{}.Step(l.Rest[0]), sleeve.StitchesAfter(done))
	require.Len(t, counts, l.Section.Rows()-done)
	require.Equal(t, sleeve.To(), counts[len(counts)-1])
	other := l.Others[len(l.Others)-1]
	require.Equal(t, sleeve.To(), followSchedule(t, Style{}.Step(other), sleeve.From)[other.Shaping.Rows-1])
}

// kindsIn are the ids that package plan gives to steps, by its source.
func kindsIn(t *testing.T, pattern string) map[string]bool {
	t.Helper()
	files, err := filepath.Glob("../../../../sizing/plan/*.go")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	found := make(map[string]bool)
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		for _, m := range regexp.MustCompile(pattern).FindAllStringSubmatch(string(text), -1) {
			found[m[1]] = true
		}
	}
	return found
}

// stepKinds finds the kinds of steps and sections.
const stepKinds = `(?:\.step\([^"]*"[^)]*?, |ID: "[a-z-]+", Kind: |\.Kind = |kind :?= )"([a-z0-9-]+[a-z0-9])"`

// Every kind of step and every note that package plan makes has words.
func TestPlansHaveWords(t *testing.T) {
	kinds := kindsIn(t, stepKinds)
	require.Greater(t, len(kinds), 60)
	for kind := range kinds {
		_, shaped := stepWords[kind+"-increase"]
		_, straight := stepWords[kind]
		_, section := sectionNames[kind]
		require.True(t, shaped || straight || section, "no words for %s", kind)
	}
	notes := kindsIn(t, `(?:\.note\(|NewFact\(|\.depart\([^"]*"[a-z_]+", .*, )"([a-z0-9-]+)"`)
	require.Greater(t, len(notes), 30)
	for id := range notes {
		require.Contains(t, planNotes, id)
	}
}

// No slot of the words is without a value, and no words are without a step.
func TestWordsHaveSteps(t *testing.T) {
	used := make(map[string]bool)
	see := func(t *testing.T, p *plan.Plan) {
		for _, s := range p.Sections {
			require.Contains(t, sectionNames, s.Kind)
			used["section "+s.Kind] = true
			for _, step := range s.Steps {
				used[step.Kind] = true
				for _, arg := range (Style{}).phrase(step).args {
					require.NotNil(t, arg, step.Kind)
				}
			}
		}
	}
	everyPlan(t, see)
	for _, hood := range plan.Hoods {
		how := doubleCrochet
		how.Hood, how.Closure = hood, plan.Buttons
		see(t, suit(t, how))
	}
	for _, construction := range plan.Constructions {
		how := stocking
		how.Construction, how.Stretch = construction, map[string]float64{"neck": 2}
		p, err := plan.Make(samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("pullover")), how)
		require.NoError(t, err)
		see(t, p)
	}
	how := singleCrochet
	how.ZippersIn = []float64{9, 30}
	see(t, suit(t, how))
	short := samples.Spec("one-piece")
	short.Extra = map[string]float64{"front_opening": -20}
	p, err := plan.Make(samples.Finish(t, samples.BodyAt(t, "6"), short), how)
	require.NoError(t, err)
	see(t, p)
	for kind := range sectionNames {
		require.True(t, used["section "+kind], "no section is a %s", kind)
	}
	made := kindsIn(t, stepKinds)
	for kind := range stepWords {
		kind, _, _ := strings.Cut(kind, "@")
		switch {
		case strings.HasPrefix(kind, "shape-"), strings.HasPrefix(kind, "zipper-"), strings.HasPrefix(kind, "work-other"), kind == "work-rest":
			continue // parts of words, and what only the rest of begun work has
		case kind == "work-evenly-row":
			continue // at odd gauges alone
		}
		require.True(t, used[kind] || made[kind], "no step is a %s", kind)
	}
}
