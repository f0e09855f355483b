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
	t    require.TestingT
	text string
	at   []int // where each shaping ended, in stitches used
	used int
}

func (r *reader) take(prefix string) bool {
	rest, ok := strings.CutPrefix(r.text, prefix)
	if ok {
		r.text = rest
	}
	return ok
}

// number takes a number.
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
// end, and returns the stitches it leaves.
func (r *reader) row() (leaves int) {
	for {
		leaves += r.piece()
		if !r.take(", ") {
			return leaves
		}
	}
}

func (r *reader) piece() (leaves int) {
	for _, b := range [][2]string{{"(", ") "}, {"[", "] "}} {
		if !r.take(b[0]) {
			continue
		}
		inside := r.text
		leaves = r.row()
		require.True(r.t, r.take(b[1]), "no end of the bracket before %q", r.text)
		n := 2
		if !r.take("twice") {
			n = r.number()
			require.True(r.t, r.take(" times"), r.text)
		}
		rest := r.text
		for range n - 1 {
			r.text = inside
			leaves += r.row()
		}
		r.text = rest
		return leaves
	}
	shaped := func(uses, leaves int) int {
		r.used += uses
		r.at = append(r.at, r.used)
		return leaves
	}
	for _, word := range []struct {
		word         string
		uses, leaves int
	}{{"sc2tog", 2, 1}, {"dc2tog", 2, 1}, {"k2tog", 2, 1}, {"p2tog", 2, 1}, {"inc", 1, 2}, {"kfb", 1, 2}, {"M1L", 0, 1}, {"M1p", 0, 1}} {
		if r.take(word.word) {
			return shaped(word.uses, word.leaves)
		}
	}
	switch {
	case r.take("ch "), r.take("bind off "):
		n := r.number()
		if r.take(", skip ") { // a buttonhole
			r.number()
		} else if n <= 2 && r.used == 0 {
			return 0 // the turning chain
		}
		r.used += n
		return n
	case r.take("sc "), r.take("dc "), r.take("k"), r.take("p"):
		n := r.number()
		r.used += n
		return n
	}
	require.Fail(r.t, "no maker knows what to do", "%q", r.text)
	return 0
}

var (
	workedIn  = regexp.MustCompile(`Work it in (?:row|round) (\d+)`)
	everyStep = regexp.MustCompile(`then every (?:(\d+)(?:st|nd|rd|th) )?(?:row|round) (once|twice|(\d+) times)`)
	lastRow   = regexp.MustCompile(`work the other (?:row|round)s of (\d+)–(\d+) even — (\d+) (?:sts?|sc|dc)`)
	tog       = regexp.MustCompile(`(?:sc|dc|k)2tog|ssk`)
	gained    = regexp.MustCompile(`inc,|M1[RL]`)
)

// followSchedule works shaping as its words say, and returns the stitches
// after each row.
func followSchedule(t *testing.T, text string, from int) []int {
	number := func(s string) int { n, err := strconv.Atoi(s); require.NoError(t, err, text); return n }
	all := lastRow.FindStringSubmatch(text)
	require.NotNil(t, all, text)
	counts := make([]int, number(all[2]))
	shaping, when, _ := strings.Cut(text, ". Work it")
	by := len(gained.FindAllString(shaping, -1)) - len(tog.FindAllString(shaping, -1))
	if strings.Contains(shaping, " twice") {
		by *= 2
	}
	at := number(workedIn.FindStringSubmatch("Work it" + when)[1])
	shaped := map[int]bool{at: true}
	for _, m := range everyStep.FindAllStringSubmatch(when, -1) {
		every, times := 1, map[string]int{"once": 1, "twice": 2}[m[2]]
		if m[1] != "" {
			every = number(m[1])
		}
		if m[3] != "" {
			times = number(m[3])
		}
		for range times {
			at += every
			shaped[at] = true
		}
	}
	require.LessOrEqual(t, at, len(counts), text)
	for i := range counts {
		if shaped[i+1] {
			from += by
		}
		counts[i] = from
	}
	require.Equal(t, number(all[3]), from, text)
	return counts
}

// bodyOf is what a line says is done in its rows, and its count.
func bodyOf(t require.TestingT, text string) (body string, count int) {
	_, body, ok := strings.Cut(text, ": ")
	require.True(t, ok, text)
	body, rest, ok := strings.Cut(body, " — ")
	require.True(t, ok, text)
	for _, end := range []string{"; turn", "; join, turn", "; join"} {
		body = strings.TrimSuffix(body, end)
	}
	count, err := strconv.Atoi(strings.Fields(rest)[0])
	require.NoError(t, err, text)
	return body, count
}

// Whoever follows the words, stitch by stitch, ends on the counts.
func TestWordsLeadToTheCounts(t *testing.T) {
	rows, shaped := 0, 0
	everyPlan(t, func(t *testing.T, p *plan.Plan) {
		style := Style{}.For(p.How)
		for _, s := range p.Sections {
			for _, step := range s.Steps {
				text := style.Step(step)
				require.NotContains(t, text, "{", "%s: a slot was left", s.ID)
				require.NotContains(t, text, "NaN", s.ID)
				if step.Across != nil && step.Across.Change != 0 {
					body, count := bodyOf(t, text)
					r := &reader{t: t, text: body}
					require.Equal(t, count, r.row(), text)
					require.Empty(t, r.text, text)
					require.Equal(t, step.Across.Stitches, r.used, text)
					require.Equal(t, step.To, count, text)
					rows++
				}
				if step.Shaping != nil && strings.Contains(text, "Work it in ") {
					for i, n := range followSchedule(t, text, s.From) {
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
	p := phrase{words: "{} in {rows}, {times}, every {nth}, {cm1}, {pairs}, {sts}", args: []any{3, 1, 1, 22, sizing.Length(4.06), 2, 1}}
	require.Equal(t, "3 in 1 row, once, every 22nd, 4.1 cm, 2 pairs, 1 st", p.text(Style{}))
	require.Equal(t, "3 in 1 row, once, every 22nd, 4.1 cm (1.6 in), 2 pairs, 1 st", p.text(Style{Unit: "in"}))
	step := plan.Step{Kind: "straight-on", Row: 2, Rows: 4, To: 5}
	require.Equal(t, "Rows 2–5: work in St st — 5 sts.", Style{}.Step(step))
	step.InRounds = true
	require.Equal(t, "Rounds 2–5: knit — 5 sts.", Style{}.Step(step))
	require.Equal(t, "Rounds 2–5: ch 1, sc in each st; join, turn — 5 sc.", Style{Craft: "crochet", Rounds: plan.RoundsTurned}.Step(step))
	require.Equal(t, "Rounds 2–5: dc in each st — 5 dc.", Style{Craft: "crochet", Rounds: plan.RoundsSpiral, Terms: plan.UK}.Step(step))
	step.InRounds, step.Rows = false, 1
	require.Equal(t, "Row 2: ch 2, tr in each st; turn — 5 tr.", Style{Craft: "crochet", Stitch: plan.Double, Terms: plan.UK}.Step(step))
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
						for _, kind := range []string{"shape-sides", "shape-tube", "shape-middle-back"} {
							for _, style := range []Style{{}, {Craft: "crochet"}} {
								for i, n := range followSchedule(t, style.Step(plan.Step{Kind: kind, Row: 1, Shaping: &sc}), from) {
									require.Equal(t, sc.StitchesAfter(i+1), n, name)
								}
							}
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
			body, count := bodyOf(t, Style{}.For(p.How).Step(step))
			r := &reader{t: t, text: body}
			require.Equal(t, count, r.row(), body)
			require.Empty(t, r.text)
			require.Equal(t, []int{band.From, band.From}, []int{r.used, count}, body)
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
	require.Len(t, counts, l.Section.Rows())
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

// onlyIn are kinds of steps that one craft alone has.
var onlyIn = map[string]plan.Craft{"cast-on-brim": plan.Knit, "start-ring": plan.Crochet}

// Every kind of step and every note that package plan makes has words.
func TestPlansHaveWords(t *testing.T) {
	kinds := kindsIn(t, stepKinds)
	require.Greater(t, len(kinds), 60)
	for kind := range kinds {
		_, section := sectionNames[kind]
		for _, c := range []plan.Craft{plan.Crochet, plan.Knit} {
			_, worded := Style{Craft: string(c)}.stepWords(kind, plan.Step{})
			shaped := strings.HasPrefix(kind, "shape-") || kind == "work-other-shaped"
			require.True(t, shaped || worded || section || onlyIn[kind] != "" && onlyIn[kind] != c, "no %s words for %s", c, kind)
		}
	}
	notes := kindsIn(t, `(?:\.note\(|NewFact\(|\.depart\([^"]*"[a-z_]+", .*, )"([a-z0-9-]+)"`)
	require.Greater(t, len(notes), 30)
	for id := range notes {
		require.Contains(t, planNotes, id)
	}
}

// When a fold is let down is said by the calendar where the day of measuring is known.
func TestWhenInWords(t *testing.T) {
	for kind, want := range map[string]string{
		"let-down-when":            "It is time when the inside leg passes 52.6 cm.",
		"let-down-when-in":         "It is time when the inside leg passes 52.6 cm, in about 4 months (2 to 7).",
		"let-down-when-in-open":    "It is time when the inside leg passes 52.6 cm, in about 4 months (2 or later).",
		"let-down-when-dated":      "It is time when the inside leg passes 52.6 cm, about April 2027 (February 2027 to August 2027).",
		"let-down-when-dated-open": "It is time when the inside leg passes 52.6 cm, about April 2027 (February 2027 or later).",
	} {
		v := plan.Values{"measurement": "inside leg", "at": sizing.Length(52.6), "about": 4, "early": 2, "late": 7}
		if strings.Contains(kind, "dated") {
			v["about"], v["early"], v["late"] = "2027-04", "2027-02", "2027-08"
		}
		require.Equal(t, want, Style{}.Step(plan.Step{Kind: kind, Values: v}))
	}
}

// No slot of the words is without a value, and no words are without a step.
func TestWordsHaveSteps(t *testing.T) {
	used := make(map[string]bool)
	see := func(t *testing.T, p *plan.Plan) {
		for _, s := range p.Sections {
			require.Contains(t, sectionNames, s.Kind)
			used["section "+s.Kind] = true
		}
		for _, s := range append(p.Sections, &plan.Section{Steps: p.HoldSteps()}) {
			for _, step := range s.Steps {
				used[step.Kind] = true
				for _, arg := range (Style{}).For(p.How).phrase(step).args {
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
		p, err := plan.Make(samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("balaclava")), how)
		require.NoError(t, err)
		see(t, p)
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
	for _, way := range plan.Ways {
		for _, how := range []plan.How{singleCrochet, stocking} {
			for _, garment := range []string{"pullover", "cardigan", "dress", "trousers-straps", "one-piece-hooded"} {
				spec := samples.Spec(garment)
				spec.Seasons, how.Hold = 2, map[plan.Room]plan.Way{"": way}
				p, err := plan.Make(samples.Finish(t, samples.BodyAt(t, "6"), spec), how)
				require.NoError(t, err)
				see(t, p)
			}
		}
	}
	for kind := range sectionNames {
		require.True(t, used["section "+kind], "no section is a %s", kind)
	}
	made := kindsIn(t, stepKinds)
	for _, table := range []map[string]string{commonSteps, knitSteps, crochetSteps} {
		for kind := range table {
			kind, _, _ := strings.Cut(kind, "@")
			switch {
			case strings.HasPrefix(kind, "zipper-"), strings.HasPrefix(kind, "work-other"), kind == "work-rest", kind == "bind-off":
				continue // parts of words, and what only the rest of begun work has
			case kind == "work-evenly-row", strings.HasPrefix(kind, "let-down-when"):
				continue // at odd gauges alone; TestWhenInWords
			}
			require.True(t, used[kind] || made[kind], "no step is a %s", kind)
		}
	}
}
