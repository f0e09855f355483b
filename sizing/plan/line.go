package plan

import (
	"strconv"
	"strings"

	"growtuck/sizing/stitch"
)

// A Line is one instruction. Words have a slot for each of its counts: {} for
// a number alone, {stitches}, {rows}, {rounds} and {pairs} for a number with
// its noun, {times} for once or so many times, {nth} for an ordinal and {cm}
// for a length. ID names the line within its section: the lines of several
// sizes that have it in common are graded together.
type Line struct {
	ID     string
	Words  string
	Counts []float64
	Row    string // stitch by stitch, where the line is about one row
}

// Text is the line as a maker follows it.
func (l Line) Text() string {
	s := l.fill(func(i int, noun string) string { return slot(l.Counts[i], noun) })
	if l.Row != "" {
		s += ": " + l.Row
	}
	return s
}

// fill puts text into the slots.
func (l Line) fill(text func(i int, noun string) string) string {
	var b strings.Builder
	rest := l.Words
	for i := range l.Counts {
		before, after, ok := strings.Cut(rest, "{")
		if !ok {
			break
		}
		noun, tail, _ := strings.Cut(after, "}")
		b.WriteString(before + text(i, noun))
		rest = tail
	}
	return b.String() + rest
}

// slot is a count with its noun.
func slot(v float64, noun string) string {
	n := number(v, noun)
	switch noun {
	case "", "nth", "cm":
		return n
	case "times":
		if v == 1 {
			return "once"
		}
	default:
		if v == 1 {
			noun = singular[noun]
		}
	}
	return n + " " + noun
}

var singular = map[string]string{"stitches": "stitch", "rows": "row", "rounds": "round", "pairs": "pair"}

// number is a count without its noun, as in brackets.
func number(v float64, noun string) string {
	switch noun {
	case "nth":
		return stitch.Ordinal(int(v))
	case "cm":
		return cm(v)
	}
	return strconv.Itoa(int(v))
}

// cm is a length to the millimetre, without its unit.
func cm(v float64) string {
	s := strconv.FormatFloat(v, 'f', 1, 64)
	if s == "-0.0" {
		return "0.0"
	}
	return s
}

// counts turns whole numbers into the counts of a line.
func counts(n ...int) []float64 {
	out := make([]float64, len(n))
	for i, v := range n {
		out[i] = float64(v)
	}
	return out
}

// shaping words a schedule.
func shaping(s stitch.Schedule) Line {
	row := "row"
	if s.InRounds {
		row = "round"
	}
	if len(s.Steps) == 0 {
		return Line{"shape", "Work {rows} plain.", counts(s.Rows), ""}
	}
	l := Line{ID: "shape"}
	verb, each := "Increase", s.Change/max(s.Sides, 1)
	if s.Change < 0 {
		verb, each = "Decrease", -each
	}
	l.Words = verb + " {stitches} at each side"
	l.Counts = counts(each)
	if s.Shapings() == 1 {
		l.Words += " in " + row + " {}"
		l.Counts = append(l.Counts, float64(s.FirstRow))
	}
	for i, st := range s.Steps {
		if s.Shapings() == 1 {
			break
		}
		if i > 0 {
			l.Words += ", then"
		}
		if st.Every == 1 {
			l.Words += " every " + row + " {times}"
			l.Counts = append(l.Counts, float64(st.Times))
		} else {
			l.Words += " every {nth} " + row + " {times}"
			l.Counts = append(l.Counts, float64(st.Every), float64(st.Times))
		}
		if i == 0 && s.FirstRow != st.Every {
			l.Words += " (first in " + row + " {})"
			l.Counts = append(l.Counts, float64(s.FirstRow))
		}
	}
	if n := s.PlainAfter(); n > 0 {
		l.Words += ", then work {rows} plain"
		l.Counts = append(l.Counts, float64(n))
	}
	l.Words += ": {rows} in all, {stitches}."
	l.Counts = append(l.Counts, float64(s.Rows), float64(s.To()))
	return l
}

// across words a row that gains or loses stitches evenly.
func across(id, where string, a stitch.Across) Line {
	l := Line{ID: id}
	switch {
	case a.Change > 0:
		l.Words, l.Counts, l.Row = where+", increase {} evenly to {stitches}", counts(a.Change, a.After()), a.Wording()
	case a.Change < 0:
		l.Words, l.Counts, l.Row = where+", decrease {} evenly to {stitches}", counts(-a.Change, a.After()), a.Wording()
	default:
		l.Words, l.Counts = where+", work {stitches}", counts(a.Stitches)
	}
	return l
}

// lineID numbers lines of a kind.
func lineID(kind string, n int) string { return kind + "-" + strconv.Itoa(n) }

// replaceSide says in another way where the stitches of a schedule are shaped.
func replaceSide(words, where string) string {
	return strings.Replace(words, "at each side", where, 1)
}
