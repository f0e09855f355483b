package validate

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// searchOf is a search in a draft, at its beginning.
func searchOf(ref *sizing.Reference, draft string) *search {
	t := newTrials(ref, "", Options{})
	rows := rowsOf([]byte(draft))
	return &search{trials: t, rows: rows, now: t.check(rows), places: make(map[string]int)}
}

// proposes are the slips that a step of the search thinks of, by name, those of a row, a kind
// and a cost on one line: "unit 0.8: 6 finished,chest,63.5,cm > in"; a row to add is after the +.
// Other numbers of a row, which TestNumberVariants has, are counted.
func proposes(t *testing.T, s *search, step string) []string {
	t.Helper()
	step, of, _ := strings.Cut(step, ":")
	switch step {
	case "advised": // the likeliest slip, and what is then left of the remedies
		var said []string
		for _, f := range s.advise(s.rows, s.now) {
			switch {
			case f.Likeliest():
				said = append(said, worked(f))
			case f.counts():
				said = append(said, f.Rule+" "+f.Subject+": "+f.Fix.ID)
			}
		}
		return said
	case "inFaultyRows":
		s.inFaultyRows()
	case "forgotten":
		s.forgotten()
	case "closed":
		s.closed()
	case "finishedPart":
		s.finishedPart(of)
	case "section":
		s.section(of)
	case "yokeRows":
		s.yokeRows()
	case "gauges":
		s.gauges()
	case "wholeDraft":
		s.wholeDraft()
	case "remedies":
		s.suspect()
		s.remedies()
	case "exchanged":
		s.suspect()
		s.exchanged()
	case "inCells":
		i := slices.IndexFunc(s.rows, func(p placed) bool { return p.Field+"/"+p.Part == of })
		require.GreaterOrEqual(t, i, 0, of)
		f, ok := fieldNamed(draftFields(), s.rows[i].Field)
		require.True(t, ok, of)
		s.inCells(s.rows[i], f)
	default:
		require.Fail(t, "no such step", step)
	}
	var lines []string
	var variants string
	number, garments := 0, 0
	flush := func() {
		if number > 0 {
			lines = append(lines, fmt.Sprintf("%s %d numbers", variants, number))
		}
		number = 0
	}
	text := func(r Row) string { return strings.Join([]string{r.Field, r.Part, r.Value, r.Unit}, ",") }
	for _, c := range s.found {
		e := c.edits[0]
		if from, to := e.From, e.To; step != "remedies" && step != "yokeRows" && (strings.HasPrefix(c.kind, "digit") || c.kind == "point" || c.kind == "miscounted") {
			from.Value = to.Value
			require.Equal(t, from, to)
			if at := strconv.Itoa(e.Line) + " " + text(e.From) + " >"; at != variants {
				flush()
				variants = at
			}
			number++
			continue
		}
		flush()
		if slices.ContainsFunc(c.edits, func(e RowEdit) bool { return step == "exchanged" && e.From.Field == "body" }) {
			continue // what the child's other measurements may have been exchanged with
		}
		if e.From.Field == "garment" && e.From.Part == e.To.Part {
			garments++
			continue
		}
		var edits []string
		what, to := "", ""
		for _, e := range c.edits {
			switch {
			case e.From == Row{}:
				what, to = fmt.Sprintf("%d + ", e.Line), text(e.To)
			case e.To == Row{}:
				what, to = fmt.Sprintf("%d - ", e.Line), text(e.From)
			case e.From.Field == e.To.Field && e.From.Part == e.To.Part && e.From.Unit == e.To.Unit:
				what, to = fmt.Sprintf("%d %s > ", e.Line, text(e.From)), e.To.Value
			default:
				what, to = fmt.Sprintf("%d %s > ", e.Line, text(e.From)), text(e.To)
			}
			edits = append(edits, what+to)
		}
		head := c.kind + " " + strconv.FormatFloat(c.cost, 'g', 4, 64) + ": "
		if n := len(lines); n > 0 && len(edits) == 1 && strings.HasPrefix(lines[n-1], head+what) && !strings.Contains(lines[n-1], " & ") {
			lines[n-1] += " | " + to
			continue
		}
		lines = append(lines, head+strings.Join(edits, " & "))
	}
	flush()
	if step == "wholeDraft" {
		require.Equal(t, len(s.ref.Garments())-1, garments, "every other garment may have been meant")
	}
	return lines
}

// TestSlipsThoughtOf holds what each step of the search for a slip thinks of, all of it and
// how likely it is held, against what is worked out by hand.
func TestSlipsThoughtOf(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	for _, w := range workedCases(t, "slips.txt") {
		require.Equal(t, w.want, proposes(t, searchOf(ref, w.draft()), w.rule), "line %d: %s %s %s", w.line, w.rule, w.garment, strings.Join(w.rows, "; "))
	}
}

// Whatever number one slip of the hand leads from to a text is thought of, and nothing else: held
// against all numbers of nearly as many digits.
func TestNumberVariants(t *testing.T) {
	one := func(short, long string) (doubled, ok bool) { // long has one digit more
		for i := range long {
			if long[i] != '.' && long[:i]+long[i+1:] == short {
				ok = true
				doubled = doubled || i > 0 && long[i-1] == long[i] || i+1 < len(long) && long[i+1] == long[i]
			}
		}
		return doubled, ok
	}
	for _, text := range []string{"7", "10", "24", "33", "150", "2.5", "16.5"} {
		kinds := make(map[string]string)
		for _, v := range numberVariants(text) {
			require.NotContains(t, kinds, v.text)
			require.NotEqual(t, text, v.text)
			kinds[v.text] = fmt.Sprintf("%s %g", v.kind, v.cost)
		}
		digits := strings.ReplaceAll(text, ".", "")
		seen := 0
		var each func(prefix string, left int)
		each = func(prefix string, left int) {
			if prefix != "" && prefix != text {
				want := ""
				exchanged, wrong := 0, 0
				for i := range min(len(prefix), len(text)) {
					if prefix[i] != text[i] {
						wrong++
					}
					if i > 0 && prefix[:i-1]+prefix[i:i+1]+prefix[i-1:i]+prefix[i+1:] == text && prefix[i] != '.' && prefix[i-1] != '.' {
						exchanged++
					}
				}
				n, errN := strconv.Atoi(text)
				m, errM := strconv.Atoi(prefix)
				value, _ := strconv.ParseFloat(text, 64)
				other, errOther := strconv.ParseFloat(prefix, 64)
				tenfold := false
				for _, by := range []float64{10, 0.1, 100, 0.01} {
					tenfold = tenfold || prefix == strconv.FormatFloat(round(value*by, 6), 'f', -1, 64)
				}
				moved := strings.Contains(text, ".") && strings.ReplaceAll(prefix, ".", "") == digits && strings.Contains(prefix, ".") &&
					max(strings.Index(prefix, ".")-strings.Index(text, "."), strings.Index(text, ".")-strings.Index(prefix, ".")) == 1 && prefix[0] != '.' && prefix[len(prefix)-1] != '.'
				more, isMore := one(text, prefix)
				fewer, isFewer := one(prefix, text)
				off := max(m-n, n-m)
				switch {
				case exchanged > 0:
					want = "digits-exchanged 1"
				case isFewer && fewer:
					want = "digit-doubled 0.8"
				case errOther == nil && (tenfold || moved) && other > 0:
					want = "point 1.5"
				case errN == nil && errM == nil && off == 1 && m > 0 && prefix == strconv.Itoa(m):
					want = "miscounted 1.6"
				case errN == nil && errM == nil && off == 2 && m > 0 && prefix == strconv.Itoa(m):
					want = "miscounted 2.5"
				case len(prefix) == len(text) && wrong == 1 && strings.Index(prefix, ".") == strings.Index(text, "."):
					want = "digit-wrong 2.5"
				case isFewer:
					want = "digit-too-many 2.5"
				case isMore && more:
					want = "digit-missing 1.5"
				case isMore:
					want = "digit-missing 2.5"
				}
				require.Equal(t, want, kinds[prefix], "%s from %s", text, prefix)
				if want != "" {
					seen++
				}
			}
			if left == 0 {
				return
			}
			for _, d := range "0123456789." {
				if d != '.' || strings.Contains(text, ".") && !strings.Contains(prefix, ".") {
					each(prefix+string(d), left-1)
				}
			}
		}
		each("", len(text)+1)
		for v := range kinds { // the others are of more digits, or have a point where there was none
			if len(v) > len(text)+1 || strings.Contains(v, ".") && !strings.Contains(text, ".") {
				seen++
			}
		}
		require.Equal(t, seen, len(kinds), text)
	}
}
