package validate_test

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/samples"
	"growtuck/validate"
)

// A seed is a fault put into a clean draft.
type seed struct {
	kind string
	row  string // the row it was put into, "" for the whole file
	text string
}

// blind lists what no rule can see, and why. One that is not needed fails the
// test.
var blind = []struct{ kind, row, reason string }{
	{"dropped row", "finished", "the part's other row, in cm or in stitches or rows, still gives its size"},
	{"dropped row", "multiple", "a count may be of no multiple"},
	{"dropped row", "craft", "optional: without it the gauge is not compared with the yarn's"},
	{"dropped row", "yarn", "optional: without it the gauge is not compared with the yarn's"},
	{"dropped row", "construction", "optional"},
	{"dropped row", "wear", "optional: it calls for cautions"},
	{"dropped row", "colour", "optional: it calls for cautions"},
	{"dropped row", "age", "optional where the body is measured: the height implies one"},
	{"dropped row", "growth", "half a year of leg is within what a leg may be off"},
	{"dropped row", "body", "what was not measured is estimated, and the estimate agrees"},
	{"dropped row", "swatch", "optional: 10 cm are taken"},
	{"dropped row", "split,bridge", "hip and leg still give it"},
	{"dropped row", "zipper", "an opening may be closed by other means"},
	{"dropped row", "pompom", "an ornament may be left off"},
	{"dropped row", "button", "an ornament may be left off"},
	{"cm for in", "pompom", "no size is expected of an ornament"},
	{"wrong unit", "button", "no size is expected of an ornament"},
	{"swapped digits", "button", "no size is expected of an ornament"},
	{"wrong unit", "stitch_gauge,cuff", "10 cm and 4 in differ by 1.6 %, less than half a stitch in a cuff"},
	{"wrong unit", "stitch_gauge,ankle", "10 cm and 4 in differ by 1.6 %, less than half a stitch in a cuff"},
	{"cm for in", "swatch", "a larger swatch is no fault"},
	{"swapped digits", "swatch", "a larger swatch is no fault"},
}

// TestSeededFaults puts faults into the clean drafts and counts how many are
// found: refused by the reader, or named in a finding that the clean draft has
// not.
func TestSeededFaults(t *testing.T) {
	t.Parallel()
	ref := samples.Reference(t)
	type tally struct{ seeds, found, warned int }
	rates := make(map[string]*tally)
	needed := make([]bool, len(blind))
	var missed []string
	for _, name := range []string{"pram-suit.csv", "pullover.csv", "trousers.csv"} {
		text, err := os.ReadFile(filepath.Join(draftFolder, name))
		require.NoError(t, err)
		clean := said(ref, string(text))
		for _, s := range seeds(string(text)) {
			n := rates[s.kind]
			if n == nil {
				n = &tally{}
				rates[s.kind] = n
			}
			n.seeds++
			worst := validate.Severity(0)
			now := said(ref, s.text)
			for words, severity := range now {
				if _, before := clean[words]; !before {
					worst = max(worst, severity)
				}
			}
			// A finding that is gone is no detection.
			if worst > validate.Note {
				n.warned++
			}
			if worst > 0 {
				n.found++
				continue
			}
			known := slices.IndexFunc(blind, func(b struct{ kind, row, reason string }) bool {
				return b.kind == s.kind && (strings.HasPrefix(s.row, b.row+",") || s.row == b.row)
			})
			if known >= 0 {
				needed[known] = true
				continue
			}
			missed = append(missed, fmt.Sprintf("%s: %s: %s", name, s.kind, s.row))
		}
	}
	var table strings.Builder
	for _, kind := range slices.Sorted(maps.Keys(rates)) {
		n := rates[kind]
		fmt.Fprintf(&table, "\n%-22s %4d of %4d found (%3d %%), %4d as warn, stop or unusable", kind, n.found, n.seeds, 100*n.found/n.seeds, n.warned)
	}
	t.Log(table.String())
	require.Zero(t, len(missed), "faults that nothing names and no reason excuses:\n%s", strings.Join(missed, "\n"))
	for i, ok := range needed {
		require.True(t, ok, "%v is found after all: take it out of the list", blind[i])
	}
}

// said is what a check says: findings by their words, and faults.
func said(ref *sizing.Reference, text string) map[string]validate.Severity {
	out := make(map[string]validate.Severity)
	var findings []validate.Finding
	d, err := validate.ReadDraft(ref, strings.NewReader(text), "draft.csv", options().Open)
	if err == nil {
		findings, err = d.Check(ref)
	}
	if err != nil {
		out[err.Error()] = validate.Stop
	}
	for _, f := range findings {
		words := fmt.Sprintf("%s %s %s %s", f.Rule, f.Subject, f.Found, f.By)
		out[words] = max(out[words], f.Severity)
	}
	return out
}

// seeds makes every faulty draft.
func seeds(text string) []seed {
	lines := strings.Split(strings.TrimRight(text, "\n"), "\n")
	var out []seed
	with := func(kind string, i int, rows ...string) {
		changed := slices.Concat(lines[:i], rows, lines[i+1:])
		out = append(out, seed{kind, lines[i], strings.Join(changed, "\n") + "\n"})
	}
	set := func(kind string, i, cell int, value string) {
		cells := strings.Split(lines[i], ",")
		if cells[cell] != value {
			cells[cell] = value
			with(kind, i, strings.Join(cells, ","))
		}
	}
	for i, line := range lines {
		cells := strings.Split(line, ",")
		if i == 0 || len(cells) < 4 || strings.HasPrefix(line, "#") {
			continue
		}
		value, unit := cells[2], cells[3]
		with("dropped row", i)
		with("duplicated row", i, line, line)
		if unit != "in" { // there it is the sign for inches
			set("quote in a cell", i, 2, value+`"`)
		}
		set("empty value", i, 2, "")
		set("unknown field", i, 0, cells[0]+"s")
		for from, to := range map[string]string{"cm": "in", "in": "cm"} {
			if unit == from {
				set("cm for in", i, 3, to)
			}
		}
		for from, to := range map[string]string{"cm": "mm", "mm": "cm", "stitches": "rows", "rows": "stitches", "10 cm": "4 in", "4 in": "10 cm", "times": "cm"} {
			if unit == from {
				set("wrong unit", i, 3, to)
			}
		}
		if cells[0] == "size" || cells[0] == "child" {
			set("unknown size", i, 2, "XXL")
			set("unknown size", i, 2, "99")
		}
		if value == "" || value[0] < '0' || value[0] > '9' {
			continue
		}
		for _, bad := range []string{"NaN", "Inf", "-" + value, "9999" + value} {
			kind := map[byte]string{'N': "NaN", 'I': "infinite", '-': "negative"}[bad[0]]
			set(cmp.Or(kind, "huge"), i, 2, bad)
		}
		for d := 0; d+1 < len(value); d++ {
			if a, b := value[d], value[d+1]; digit(a) && digit(b) && a != b {
				set("swapped digits", i, 2, value[:d]+string(b)+string(a)+value[d+2:])
			}
		}
		if n, err := strconv.Atoi(value); err == nil && (unit == "stitches" || unit == "rows" || unit == "rounds") {
			set("off by one", i, 2, strconv.Itoa(n+1))
			set("off by one", i, 2, strconv.Itoa(n-1))
		}
		if v, err := strconv.ParseFloat(value, 64); err == nil && unit == "cm" && cells[0] == "finished" {
			set("point misplaced", i, 2, fmt.Sprintf("%.4g", v*10))
			set("point misplaced", i, 2, fmt.Sprintf("%.4g", v/10))
		}
	}
	out = append(out, swaps(lines)...)
	out = append(out, droppedSleeve(lines)...)
	whole := func(kind, text string) { out = append(out, seed{kind, "", text}) }
	whole("byte order mark", "\ufeff"+text)
	whole("carriage returns", strings.ReplaceAll(text, "\n", "\r\n"))
	whole("wrong delimiter", strings.ReplaceAll(text, ",", "|"))
	whole("wrong delimiter", strings.ReplaceAll(text, ",", ":"))
	whole("UTF-16", "\xff\xfe\x00"+text)
	whole("cut short", text[:len(text)/2])
	whole("header missing", text[strings.IndexByte(text, '\n')+1:])
	return out
}

func digit(b byte) bool { return b >= '0' && b <= '9' }

// swaps exchanges the values of every two finished sizes in the same unit, as
// when a width is written where a length belongs.
func swaps(lines []string) []seed {
	var out []seed
	for i, a := range lines {
		for j := i + 1; j < len(lines); j++ {
			x, y := strings.Split(a, ","), strings.Split(lines[j], ",")
			if len(x) < 4 || len(y) < 4 || x[0] != "finished" || y[0] != "finished" || x[3] != y[3] || near(x[2], y[2]) {
				continue
			}
			changed := slices.Clone(lines)
			x[2], y[2] = y[2], x[2]
			changed[i], changed[j] = strings.Join(x, ","), strings.Join(y, ",")
			out = append(out, seed{"swapped sizes", a + " ↔ " + lines[j], strings.Join(changed, "\n") + "\n"})
		}
	}
	return out
}

// near reports sizes less than half a centimetre apart, which no one would see
// exchanged.
func near(a, b string) bool {
	x, err1 := strconv.ParseFloat(a, 64)
	y, err2 := strconv.ParseFloat(b, 64)
	return a == b || err1 == nil && err2 == nil && math.Abs(x-y) < 0.5
}

// droppedSleeve leaves out all rows about one sleeve part or about sleeves.
func droppedSleeve(lines []string) []seed {
	var out []seed
	for _, parts := range [][]string{{"upper_arm"}, {"cuff"}, {"sleeve_length"}, {"sleeve_left"}, {"sleeve_right"},
		{"upper_arm", "cuff", "sleeve_length", "sleeve", "sleeve_left", "sleeve_right"}} {
		kept := slices.DeleteFunc(slices.Clone(lines), func(l string) bool {
			cells := strings.Split(l, ",")
			return len(cells) > 1 && slices.Contains(parts, cells[1])
		})
		if len(kept) < len(lines) {
			out = append(out, seed{"dropped sleeve", strings.Join(parts, " "), strings.Join(kept, "\n") + "\n"})
		}
	}
	return out
}
