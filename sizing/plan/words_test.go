package plan

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing/stitch"
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
	everyPlan(t, func(t *testing.T, p *Plan) {
		for _, s := range p.Sections {
			for _, l := range s.Lines {
				text := l.Text()
				require.NotContains(t, text, "{", "%s: a slot was left", s.ID)
				require.NotContains(t, text, "NaN", s.ID)
				if m := toStitches.FindStringSubmatch(text); m != nil {
					r := &reader{t, l.Row}
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
				if l.ID == "shape" && strings.Contains(text, " in all, ") {
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
	l := Line{Words: "{} in {rows}, {times}, every {nth}, {cm} cm, {pairs}", Counts: []float64{3, 1, 1, 22, 4.06, 2}}
	require.Equal(t, "3 in 1 row, once, every 22nd, 4.1 cm, 2 pairs", l.Text())
	l = Line{Words: "{stitches} {times}", Counts: []float64{1, 5}, Row: "work 1"}
	require.Equal(t, "1 stitch 5 times: work 1", l.Text())
	require.Equal(t, "{rows} stays", Line{Words: "{rows} stays"}.Text()) // a slot without a count is a slip that shows
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
						for i, n := range followSchedule(t, shaping(sc).Text(), from) {
							require.Equal(t, sc.StitchesAfter(i+1), n, name)
						}
					}
				}
			}
		}
	}
}
