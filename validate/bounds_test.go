package validate

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// A workedCase is what a rule says of a draft, worked out by hand.
type workedCase struct {
	rule, garment string
	rows          []string // of the draft, in place of those that it begins with
	line          int      // in the file
	want          []string // a finding each; none: the rule is silent
}

// workedCases reads a file of testdata/worked. A case is a line with the rule, the garment
// and the rows, and under it, indented, what is said. @ stands for a gauge of 20 stitches
// and 40 rows to 10 cm: a stitch is half a centimetre, a row a quarter; & for parts that are
// far too small. With a minus after the rule it is silent where any one of the rows is left out.
func workedCases(t *testing.T, name string) []workedCase {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", "worked", name))
	require.NoError(t, err)
	var all []workedCase
	for i, line := range strings.Split(string(text), "\n") {
		switch {
		case line == "" || line[0] == '#':
		case line[0] == ' ':
			last := &all[len(all)-1]
			last.want = append(last.want, strings.TrimSpace(line))
		default:
			head := strings.SplitN(line, " ", 3)
			head[2] = strings.Replace(head[2], "@;", "stitch_gauge,,20,10 cm; row_gauge,,40,10 cm;", 1)
			head[2] = strings.Replace(head[2], "&", tooSmallParts, 1)
			all = append(all, workedCase{rule: head[0], garment: head[1], rows: strings.Split(head[2], "; "), line: i + 1})
		}
	}
	return all
}

const tooSmallParts = "finished,chest,40,cm; finished,cross_back,30,cm; finished,neck,20,cm; finished,armhole_depth,8,cm; finished,upper_arm,30,cm; " +
	"finished,cuff,9,cm; finished,sleeve_length,20,cm; finished,waist,45,cm; finished,hip,42,cm; finished,thigh,20,cm; finished,calf,14,cm; finished,ankle,11,cm; " +
	"finished,rise,12,cm; finished,inside_leg,25,cm; finished,body_length,18,cm; finished,trunk,30,cm; finished,front_opening,20,cm; finished,hood_round,30,cm; finished,hood_height,20,cm"

// roundChild is a child of four whose measurements are round, so that what is expected can
// be worked out in the head.
const roundChild = `body,height,104,cm
body,chest,56,cm
body,waist,52,cm
body,hip,58,cm
body,head,50,cm
body,neck,26,cm
body,cross_back,24,cm
body,armhole_depth,14,cm
body,upper_arm,18,cm
body,wrist,12,cm
body,arm_to_underarm,26,cm
body,nape_to_hip,38,cm
body,nape_to_waist,24,cm
body,rise,20,cm
body,inside_leg,44,cm
body,trunk,44,cm
body,thigh,34,cm
body,calf,22,cm
body,ankle,16,cm
body,foot,16,cm
body,foot_length,16,cm
body,hand,14,cm
body,hand_length,12,cm
body,crown_to_throat,24,cm
body,waist_to_knee,36,cm
body,neck_to_wrist,46,cm
body,waist_height,64,cm
body,knee_height,27,cm
body,suprasternale_height,84,cm
`

// draft is the draft of a case: its rows from line 6, unless they take the place of the
// first, and the child's under them, unless there is "nobody".
func (w workedCase) draft() string {
	lines := []string{"field,part,value,unit,note", "garment,," + w.garment + ",,", "fit,,classic,,", "layer,,skin,,", "age,,4,years,"}
	if slices.Contains(w.rows, "noage") {
		lines[4] = "# whose age is not given"
	}
	for _, row := range w.rows {
		cells := strings.SplitN(row, ",", 3)
		placed := row == "nobody" || row == "noage"
		for i := range lines {
			if !placed && (cells[0] == "fit" || cells[0] == "layer" || cells[0] == "age") && strings.HasPrefix(lines[i], cells[0]+",") {
				lines[i], placed = row, true
			}
		}
		if !placed {
			lines = append(lines, row)
		}
	}
	text := strings.Join(lines, "\n") + "\n"
	for line := range strings.Lines(roundChild) {
		if slices.Contains(w.rows, "nobody") {
			break
		}
		cells := strings.SplitN(line, ",", 3)
		if !strings.Contains(text, "\n"+cells[0]+","+cells[1]+",") && !strings.Contains(text, "\n-"+cells[1]+"\n") {
			text += line
		}
	}
	for line := range strings.Lines(text) { // -chest: was not measured
		if strings.HasPrefix(line, "-") {
			text = strings.Replace(text, line, "# not measured\n", 1)
		}
	}
	return text
}

// saidBy is what one rule says of a draft.
func saidBy(t *testing.T, ref *sizing.Reference, code, draft string) []Finding {
	t.Helper()
	d, err := ReadDraft(ref, strings.NewReader(draft), "", nil)
	require.NoError(t, err, draft)
	c, err := d.checker(ref)
	require.NoError(t, err, draft)
	for _, r := range draftRules() {
		if r.Code == code {
			c.rule = r.Rule
			r.check(c)
		}
	}
	return c.findings
}

var longNumber = regexp.MustCompile(`-?\d+\.\d{5,}(e-\d+)?`)

// rounded is a text with its figures to a thousandth.
func rounded(text string) string {
	return longNumber.ReplaceAllStringFunc(text, func(s string) string {
		v, _ := strconv.ParseFloat(s, 64)
		return strconv.FormatFloat(math.Round(v*1000)/1000+0, 'f', -1, 64)
	})
}

// worked is a finding as the files have it: figures to a thousandth, and its sources.
func worked(f Finding) string {
	text := rounded(strings.Replace(f.String(), f.Rule+": ", "", 1))
	if f.Source != "" {
		text += " | " + f.Source
	}
	return strings.TrimSpace(strings.TrimPrefix(text, ":"))
}

// TestRulesAtTheirBounds holds each rule for drafts against what is worked out by hand: just
// what it lets pass, and what is just beyond it, with where and how far off it says that is,
// and what to change.
func TestRulesAtTheirBounds(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	for _, name := range []string{"fit.txt", "openings.txt", "proportions.txt", "counts.txt", "others.txt", "unknown.txt"} {
		t.Run(name, func(t *testing.T) {
			for _, w := range workedCases(t, name) {
				what := fmt.Sprintf("line %d: %s %s %s", w.line, w.rule, w.garment, strings.Join(w.rows, "; "))
				if rule, each := strings.CutSuffix(w.rule, "-"); each {
					require.NotEmpty(t, saidBy(t, ref, rule, w.draft()), what)
					for i, row := range w.rows {
						if !strings.Contains(row, "_gauge,") {
							without := w
							without.rows = slices.Concat(w.rows[:i], w.rows[i+1:])
							require.Empty(t, saidBy(t, ref, rule, without.draft()), "%s: without %s", what, row)
						}
					}
					continue
				}
				var said []string
				for _, f := range saidBy(t, ref, w.rule, w.draft()) {
					said = append(said, worked(f))
				}
				require.Equal(t, w.want, said, what)
			}
		})
	}
}

// A doubt about the child has what was likely meant as its remedy, in the row that it is of,
// both of two that were exchanged.
func TestLikelyFixOfADoubt(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	for _, tt := range []struct {
		rows string
		want []string // line, column and remedy
	}{
		{"body,height,104,cm; body,weight,37,kg", []string{"7:13 weight: fix.set-likely {body weight <nil> 16.8 kg}"}}, // 37 lb
		{"body,height,104,cm; body,chest,50,cm; body,head,56,cm", []string{"8:11 head: fix.set-both {body head <nil> 50 cm} {body chest <nil> 56 cm}", "7:12 chest: fix.set-both {body chest <nil> 56 cm} {body head <nil> 50 cm}"}},
		{"age,,11,years; body,height,75,cm", []string{"5:6 age: fix.set-likely {age  <nil> 0.917 years}"}}, // 11 months
		{"body,height,104,cm; body,chest,80,cm", []string{"7:12 chest: fix.measure-again"}},
		{"body,height,104,cm; body,chest,56,cm", nil},
	} {
		w := workedCase{garment: "pullover", rows: append([]string{"nobody"}, strings.Split(tt.rows, "; ")...)}
		var said []string
		for _, f := range saidBy(t, ref, "D05", w.draft()) {
			require.Equal(t, Warn, f.Severity)
			said = append(said, fmt.Sprintf("%d:%d %s: %s", f.Line, f.Column, f.Subject, rounded(f.Fix.String())))
		}
		require.Equal(t, tt.want, said, tt.rows)
	}
}
