package tell

import (
	"slices"
	"strings"

	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
)

// A craft is how one craft words the steps of a plan. What it does not word itself
// is in commonSteps.
type craft struct {
	steps map[string]string
	// increaseUses is how many stitches of the row an increase takes up: those worked
	// in one stitch take it, those made between two stitches take none.
	increaseUses int

	plain    func(st Style, step plan.Step) string // rows without shaping
	some     func(st Style, step plan.Step) string // a number of plain stitches, {}
	increase func(st Style, step plan.Step) string
	decrease func(st Style, step plan.Step) string
	start    func(st Style, step plan.Step) string // before the first stitch of a row
	end      func(st Style, step plan.Step) string // after its last
	sided    func(step plan.Step) bool             // its row says which side it is on
	// shape is a row that shapes at a place, so many stitches on each side of it.
	shape func(st Style, where string, increases bool, times int) string
	// raglan is a row that gains stitches before and after each of four markers.
	// Of two on one side the second has so many plain stitches between.
	raglan func(st Style, body, sleeve, between int) string
	slots  func(st Style) []string                // words for slots, as strings.NewReplacer takes them
	noun   func(st Style) string                  // of a count of stitches
	notes  func(st Style, inRounds bool) []string // what holds in all its rows; inRounds: there are rounds
}

// crafts are the crafts by their names. A style without one knits.
func (st Style) craft() *craft {
	if st.Craft == string(plan.Crochet) {
		return &crochet
	}
	return &knit
}

// For is the style in which a plan worked so is told.
func (st Style) For(h plan.How) Style {
	st.Craft, st.Stitch, st.Terms, st.Foundation, st.Rounds = string(h.Craft), h.Stitch, h.Terms, h.Foundation, h.Rounds
	return st
}

// at is the row or rows of a step: "Row 5 (RS)", "Rounds 2–9".
func (st Style) at(step plan.Step) phrase {
	line := "Row"
	if step.InRounds {
		line = "Round"
	}
	var p phrase
	switch {
	case step.Rows == 0:
		p.add("Set-up")
	case step.Rows == 1:
		p.add(line+" {}", step.Row)
	default:
		p.add(line+"s {}–{}", step.Row, step.Row+step.Rows-1)
	}
	if step.Rows == 1 && !step.InRounds && st.craft().sided(step) {
		p.add(" (" + side(step) + ")")
	}
	return p
}

func side(step plan.Step) string {
	if step.WrongSide {
		return "WS"
	}
	return "RS"
}

// end is what closes a row: turning or joining, and the count after it.
func (st Style) end(step plan.Step) phrase {
	var p phrase
	p.add(st.craft().end(st, step))
	p.add(" — {sts}.", step.To)
	return p
}

// across is a row that gains or loses stitches evenly, stitch by stitch:
// "(sc 7, inc) 6 times" or "(k6, k2tog) 8 times".
func (st Style) across(step plan.Step) phrase {
	c, a := st.craft(), *step.Across
	var p phrase
	p.add(c.start(st, step))
	if len(a.Gaps) == 0 {
		p.add(c.plain(st, step))
		return p
	}
	uses, what := c.increaseUses, c.increase(st, step)
	plain := make([]int, len(a.Gaps))
	copy(plain, a.Gaps)
	plain[0] -= a.Trail
	if a.Change < 0 {
		uses, what = 2, c.decrease(st, step)
	} else if uses == 0 && !step.InRounds && (plain[0] == 0 || a.Trail == 0) {
		uses, what = 1, "kfb" // nothing can be made between an edge and its stitch
	}
	for i := range plain {
		plain[i] -= uses
	}
	some := c.some(st, step)
	p.groups(plain, some, what)
	if a.Trail > 0 {
		p.add(", "+some, a.Trail)
	}
	return p
}

// groups tells groups of plain stitches with their shaping. What repeats is told
// once, in brackets, with how often.
func (p *phrase) groups(plain []int, some, what string) {
	for i := 0; i < len(plain); {
		if i > 0 {
			p.add(", ")
		}
		size, n := longestRepeat(plain[i:])
		if n == 1 {
			p.group(plain[i], some, what)
			i++
			continue
		}
		var once phrase
		once.groups(plain[i:i+size], some, what)
		open, shut := "(", ")"
		if strings.Contains(once.words, "(") {
			open, shut = "[", "]"
		}
		p.add(open+once.words, once.args...)
		p.add(shut+" {times}", n)
		i += size * n
	}
}

func (p *phrase) group(plain int, some, what string) {
	if plain > 0 {
		p.add(some+", ", plain)
	}
	p.add(what)
}

// longestRepeat is the size of what repeats from the front, and how often: the one
// that goes furthest, of several the shortest.
func longestRepeat(plain []int) (size, times int) {
	size, times = 1, 1
	for k := 1; k <= len(plain)/2; k++ {
		n := 1
		for (n+1)*k <= len(plain) && slices.Equal(plain[:k], plain[n*k:(n+1)*k]) {
			n++
		}
		if n > 1 && n*k > size*times {
			size, times = k, n
		}
	}
	return size, times
}

// raglan is a row with increases at the four lines of a raglan.
func (st Style) raglan(step plan.Step) phrase {
	c := st.craft()
	body, _ := step.Values["body"].(int)
	sleeve, _ := step.Values["sleeve"].(int)
	between, _ := step.Values["apart"].(int)
	var p phrase
	p.add(c.start(st, step))
	p.add(c.raglan(st, body, sleeve, between))
	return p
}

// repeated tells a row of shaping that is worked again and again.
func (st Style) repeated(step plan.Step) phrase {
	first := step
	first.Rows, first.To = 1, step.Values["first_to"].(int)
	var p phrase
	p.join(st.at(first))
	p.add(": ")
	if step.Repeat != nil {
		a := step.Repeat.Across(0)
		first.Across = &a
		p.join(st.across(first))
	} else {
		p.join(st.raglan(first))
	}
	p.join(st.end(first))
	times, _ := step.Values["times"].(int)
	if times == 1 {
		return p
	}
	line, every := "row", step.Values["every"]
	if step.InRounds {
		line = "round"
	}
	if every == 1 {
		p.add(" The same in every "+line+" to {}", step.Values["last"])
		if !step.InRounds && st.Craft != string(plan.Crochet) {
			p.add(" (on the other side purl, and make the sts purlwise)")
		}
	} else {
		p.add(" The same in every {nth} "+line+" to {}, {} in all", every, step.Values["last"], times)
	}
	p.add(st.growing(step.Repeat))
	if every != 1 {
		p.add("; work the " + line + "s between even")
	}
	p.add(": {} "+gainedOrLost(step)+" each time — {sts}.", step.Values["change"], step.To)
	return p
}

// growing is how a row of shaping differs from the one before.
func (st Style) growing(r *stitch.Repeat) string {
	switch {
	case r == nil:
		return ""
	case r.Change < 0:
		return ", with 1 st fewer between the decreases each time"
	case r.InRounds:
		return ", with 1 st more between the increases each time"
	case r.Lead > r.Trail:
		return ", with 1 st more between the increases each time, and 1 more by turns at the end and at the beginning"
	}
	return ", with 1 st more between the increases each time, and 1 more by turns at the beginning and at the end"
}

func gainedOrLost(step plan.Step) string {
	if step.Repeat != nil && step.Repeat.Change < 0 {
		return "fewer"
	}
	return "more"
}

// schedule tells shaping over the rows of a section: the shaping row, the rows in
// which it is worked, and the count in the end.
func (st Style) schedule(step plan.Step, where string) phrase {
	c, sc := st.craft(), *step.Shaping
	var p phrase
	if len(sc.Steps) == 0 {
		at := st.at(step)
		p.add(at.words, at.args...)
		p.add(": " + c.start(st, step) + c.plain(st, step))
		end := st.end(step)
		p.add(end.words, end.args...)
		return p
	}
	line, what, each := "row", "Dec", sc.Change/max(sc.Sides, 1)
	if step.InRounds {
		line = "round"
	}
	if sc.Change > 0 {
		what = "Inc"
	}
	p.add(what + " " + line)
	first := step
	first.WrongSide = step.WrongSide != ((step.Offset+sc.FirstRow-step.Row)%2 != 0)
	if !step.InRounds && sc.RightSideOnly {
		p.add(" (" + side(first) + ")")
	}
	p.add(": " + c.start(st, step) + c.shape(st, where, sc.Change > 0, max(each, -each)) + c.end(st, step) + ". Work it")
	p.times(sc, step.Offset, line)
	p.add("; work the other "+line+"s of {}–{} even", step.Row, step.Offset+sc.Rows)
	p.add(" — {sts}.", sc.To())
	return p
}

// times tells the rows of a schedule: "in row 10, then every 7th row 4 times".
func (p *phrase) times(sc stitch.Schedule, offset int, line string) {
	p.add(" in "+line+" {}", offset+sc.FirstRow)
	for i, x := range sc.Steps {
		times := x.Times
		if i == 0 {
			times--
		}
		switch {
		case times == 0:
		case x.Every == 1:
			p.add(", then every "+line+" {times}", times)
		default:
			p.add(", then every {nth} "+line+" {times}", x.Every, times)
		}
	}
}
