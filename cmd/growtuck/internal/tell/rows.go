package tell

import (
	"fmt"
	"strconv"
	"strings"

	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
)

// acrossRow is a row that gains or loses stitches evenly, stitch by stitch:
// "(work 7, 2 in the next stitch) 6 times" or "(work 6, work 2 together) 8
// times".
func acrossRow(a stitch.Across) string {
	if len(a.Gaps) == 0 {
		return "work " + strconv.Itoa(a.Stitches)
	}
	uses, what := 1, "2 in the next stitch"
	if a.Change < 0 {
		uses, what = 2, "work 2 together"
	}
	plain := make([]int, len(a.Gaps))
	for i, g := range a.Gaps {
		plain[i] = g - uses
	}
	if a.Trail > 0 {
		plain[0] -= a.Trail
		return strings.Join(groups(plain, what), ", ") + ", work " + strconv.Itoa(a.Trail)
	}
	// The gaps repeat as often as the divisor common to stitches and shapings.
	k := commonDivisor(a.Stitches, len(plain))
	if k == 1 || k == len(plain) {
		return strings.Join(groups(plain, what), ", ")
	}
	once := strings.Join(groups(plain[:len(plain)/k], what), ", ")
	if strings.Contains(once, "(") {
		return "[" + once + "] " + repeated(k)
	}
	return "(" + once + ") " + repeated(k)
}

// buttonholeRow is a row of buttonholes, stitch by stitch: "work 3, buttonhole
// of 4, (work 11, buttonhole of 4) 6 times, work 3".
func buttonholeRow(b stitch.Buttonholes) string {
	hole := fmt.Sprintf("buttonhole of %d", b.Size)
	parts := append([]string{hole}, groups(b.Gaps, hole)...)
	if b.Ends > 0 {
		end := fmt.Sprintf("work %d", b.Ends)
		parts = append(append([]string{end}, parts...), end)
	}
	return strings.Join(parts, ", ")
}

// groups tells what is done after a number of plain stitches each time, equal
// neighbours together.
func groups(plain []int, what string) []string {
	var parts []string
	for i := 0; i < len(plain); {
		j := i
		for j < len(plain) && plain[j] == plain[i] {
			j++
		}
		part := what
		if plain[i] > 0 {
			part = "work " + strconv.Itoa(plain[i]) + ", " + what
		}
		if j-i > 1 {
			part = "(" + part + ") " + repeated(j-i)
		}
		parts = append(parts, part)
		i = j
	}
	return parts
}

// pickUpRow is the repeat by which stitches are picked up: "pick up 3 of 4, 3 of
// 4, 4 of 5 rows; 100 stitches in all".
func pickUpRow(p stitch.PickUp) string {
	if len(p.Groups) == 0 {
		if p.Stitches == p.Rows {
			return "pick up 1 in each row"
		}
		return "pick up " + Counted(p.Stitches, "stitches") + " evenly over " + Counted(p.Rows, "rows")
	}
	parts := make([]string, len(p.Groups))
	for i, g := range p.Groups {
		parts[i] = fmt.Sprintf("%d of %d", g-1, g)
	}
	return "pick up " + strings.Join(parts, ", ") + " rows; " + Counted(p.Stitches, "stitches") + " in all"
}

// shaping tells shaping over the rows of a section: what is done at each side,
// and how often.
func (st Style) shaping(step plan.Step, kind string) phrase {
	sc := *step.Shaping
	row := "row"
	if sc.InRounds {
		row = "round"
	}
	each := sc.Change / max(sc.Sides, 1)
	step.Values = plan.Values{"rows": sc.Rows, "each_side": max(each, -each)}
	if len(sc.Steps) == 0 {
		return st.stepPhrase("shape-none", step)
	}
	if sc.Change < 0 {
		kind += "-decrease"
	} else {
		kind += "-increase"
	}
	p := st.stepPhrase(kind, step)
	if sc.Shapings() == 1 {
		p.add(" in "+row+" {}", sc.FirstRow)
	} else {
		for i, x := range sc.Steps {
			if i > 0 {
				p.add(", then")
			}
			if x.Every == 1 {
				p.add(" every "+row+" {times}", x.Times)
			} else {
				p.add(" every {nth} "+row+" {times}", x.Every, x.Times)
			}
			if i == 0 && sc.FirstRow != x.Every {
				p.add(" (first in "+row+" {})", sc.FirstRow)
			}
		}
	}
	rows := "{rows}"
	if step.InRounds {
		rows = "{rounds}"
	}
	if n := sc.PlainAfter(); n > 0 {
		p.add(", then work "+rows+" plain", n)
	}
	p.add(": "+rows+" in all, {stitches}.", sc.Rows, sc.To())
	return p
}

// Counted is a count with its noun, in the plural but for one.
func Counted(n int, noun string) string { return counted(strconv.Itoa(n), float64(n), noun) }

// repeated is "once" or "3 times".
func repeated(n int) string {
	if n == 1 {
		return "once"
	}
	return strconv.Itoa(n) + " times"
}

func commonDivisor(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
