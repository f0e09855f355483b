package validate_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/sizing"
	"growtuck/testdata/samples"
	"growtuck/validate"
)

const head = "field,part,value,unit,note\n"

// little is a draft without faults and without findings.
const little = head + `garment,,hat,,
fit,,classic,,
layer,,skin,,
size,,4,,
craft,,knit,,
yarn,,4,class,
stitch_gauge,,18,10 cm,
row_gauge,,24,10 cm,
swatch,,25,cm,
finished,brim,46,cm,
finished,hat_height,19,cm,
`

func TestLittleDraft(t *testing.T) {
	require.Empty(t, check(t, samples.Reference(t), little))
}

// The same draft, as people and programs save a table.
func TestDraftAsItIsSaved(t *testing.T) {
	inches := strings.Replace(strings.Replace(little, "finished,brim,46,cm", "finished,brim,18 1/8\",in", 1), "finished,hat_height,19,cm", "finished,hat_height,7½,inches", 1)
	for name, text := range map[string]string{
		"CR":                strings.ReplaceAll(little, "\n", "\r"),
		"tabs":              strings.ReplaceAll(little, ",", "\t"),
		"semicolons":        strings.ReplaceAll(little, ",", ";"),
		"titles":            strings.Replace(little, "field,part,value", "Field, PART ,Value", 1),
		"units in capitals": strings.Replace(little, "46,cm", "46 cm,CM", 1),
		"inches":            inches,
	} {
		require.Empty(t, check(t, samples.Reference(t), text), name)
	}
}

func TestReadDraftFaults(t *testing.T) {
	for _, tt := range []struct{ name, in, want string }{
		{"nothing", "", "draft.csv: is empty; want a header field,part,value,unit,note and rows under it"},
		{"header alone", strings.TrimSuffix(head, "\n"), "draft.csv: has no row garment,,…: what is made"},
		{"comments alone", "# a hat\n", "draft.csv: is empty"},
		{"vertical bars", strings.ReplaceAll(little, ",", "|"), `draft.csv:1:1: header is "field|part|value|unit|note"; want "field,part,value,unit,note", separated by commas, semicolons or tabs`},
		{"another table", "measurement,value,unit\nheight,104,cm\n", `draft.csv:1:1: header is "measurement,value,unit"; want "field,part,value,unit,note"`},
		{"workbook", "PK\x03\x04…", "draft.csv:1:1: is a workbook or an archive"},
		{"another encoding", head + "garment,,hat,,gr\xfcn\n", `draft.csv:2: is not in UTF-8; in Latin-1 it reads "garment,,hat,,grün"; save it in UTF-8`},
		{"zero byte", head + "garment,,h\x00at,,\n", "draft.csv:2: has a byte of value 0"},
		{"too long", head + strings.Repeat("#\n", validate.MaxDraftBytes/2), "draft.csv: is more than 1048576 bytes"},
		{"too many rows", head + strings.Repeat("option,,x,,\n", validate.MaxDraftRows+1), "draft.csv:2002: is one row too many"},
		{"long cell", little + "option,," + strings.Repeat("x", 500) + ",,\n", "draft.csv:13:9: has a cell of 500 bytes"},
		{"inches as a mark", little + "finished,neck,9\",in,\n", `draft.csv:13:10: finished: unknown part of hat "neck"`},
		{"quote not closed", little + "finished,neck,\"9,in,\n", `draft.csv:`},
		{"too many cells", little + "finished,brim,24,5,cm,x\n", "draft.csv:13:23: \"x\" has no column: the header has 5; a number with a comma is quoted: \"24,5\""},
		{"too few cells", little + "finished,brim\n", "draft.csv:13:1: has 2 of at least 3 cells"},
		{"unknown field", little + "finnished,brim,46,cm,\n", `draft.csv:13:1: unknown field "finnished"`},
		{"unknown part", little + "finished,crown,46,cm,\n", `draft.csv:13:10: finished: unknown part of hat "crown"; known are brim, hat_height`},
		{"part where none belongs", little + "nappy,brim,yes,,\n", `draft.csv:13:7: nappy: has the part "brim"; leave the column empty here`},
		{"unknown garment", strings.Replace(little, "hat,", "hut,", 1), `draft.csv:2:10: unknown garment "hut"; did you mean "hat"?`},
		{"unknown fit", strings.Replace(little, "classic", "relaxed", 1), `draft.csv:3:6: fit: "relaxed" is not one of very-close, close, classic, loose, oversized`},
		{"unknown size", strings.Replace(little, "size,,4", "size,,14 XL", 1), "draft.csv:5:7: size: "},
		{"size outside the chart", strings.Replace(little, "size,,4", "size,,44", 1), "draft.csv:5:7: size: "},
		{"unknown chart", little + "chart,,charts,,\n", `draft.csv:13:8: chart: unknown chart "charts"`},
		{"no size", strings.Replace(little, "size,,4,,\n", "", 1), "draft.csv: does not say who it is for"},
		{"no fit", strings.Replace(little, "fit,,classic,,\n", "", 1), "draft.csv: has no row fit,,very-close|close|classic|loose|oversized"},
		{"half a blend", strings.Replace(little, "size,,4", "widths,,3", 1), "draft.csv:5:1: widths: give widths and lengths together, or neither"},
		{"size and a blend", little + "widths,,3,,\nlengths,,5,,\n", "draft.csv:5:1: size: is given with widths or lengths"},
		{"option of another garment", little + "option,,tunic,,\n", `draft.csv:13:9: option: "tunic" is not an option of hat; it has: none`},
		{"NaN", strings.Replace(little, "46,cm", "NaN,cm", 1), `draft.csv:11:15: finished: "NaN" is not a measurement; write it as 24.5`},
		{"infinity", strings.Replace(little, "46,cm", "+Inf,cm", 1), `draft.csv:11:15: finished: "+Inf" is not a measurement`},
		{"exponent", strings.Replace(little, "46,cm", "4e1,cm", 1), `draft.csv:11:15: finished: "4e1" is not a measurement; write 40`},
		{"negative", strings.Replace(little, "46,cm", "-46,cm", 1), "draft.csv:11:15: finished: -46 cm is not above 0"},
		{"huge", strings.Replace(little, "46,cm", "460,cm", 1), "draft.csv:11:15: finished: 460 cm is not above 0 and at most 300 cm"},
		{"zero", strings.Replace(little, "46,cm", "0,cm", 1), "draft.csv:11:15: finished: 0 cm is not above 0"},
		{"no unit", strings.Replace(little, "46,cm", "46,", 1), "draft.csv:11:18: finished: has no unit; want cm, in, mm, stitches, rows"},
		{"unknown unit", strings.Replace(little, "46,cm", "46,yards", 1), `draft.csv:11:18: finished: unit "yards" is not one of cm, in, mm, stitches, rows`},
		{"another unit in the value", strings.Replace(little, "46,cm", "46 cm,in", 1), `draft.csv:11:15: finished: "46 cm" has the unit cm, and in is beside it; leave the wrong one out`},
		{"unit where none belongs", strings.Replace(little, "size,,4,", "size,,4,years", 1), `draft.csv:5:9: size: has the unit "years"`},
		{"half a stitch", little + "finished,brim,82.5,stitches,\n", `draft.csv:13:15: finished: "82.5" is not a whole number of stitches`},
		{"girth in rows", little + "finished,brim,82,rows,\n", "draft.csv:13:18: finished: brim is a girth: count it in stitches, not in rows"},
		{"length in stitches", little + "finished,hat_height,46,stitches,\n", "draft.csv:13:24: finished: hat_height is a length: count it in rows, not in stitches"},
		{"no stitches", little + "finished,brim,0,stitches,\n", "draft.csv:13:15: finished: 0 stitches is not a size"},
		{"row twice", little + "finished,brim,46,cm,\n", "draft.csv:13:1: finished: the row is given twice; the first is on line 11"},
		{"part twice", little + "finished,brim,47,cm,\n", "draft.csv:13:1: finished: finished brim is given again; the first is on line 11"},
		{"bad multiple", little + "multiple,brim,6n+,,\n", `draft.csv:13:15: multiple: "6n+" is not a multiple; write 4n, 6n+2, even, odd or plain`},
		{"gauge without rows", strings.Replace(little, "row_gauge,,24,10 cm,\n", "", 1), "draft.csv:8:1: stitch_gauge: is given without row_gauge"},
		{"gauge of no yarn", strings.Replace(little, "18,10 cm", "190,10 cm", 1), "draft.csv:8:15: stitch_gauge: 190 stitches to 24 rows is not a gauge"},
		{"count without gauge", head + "garment,,hat,,\nfit,,classic,,\nlayer,,skin,,\nsize,,4,,\nfinished,brim,80,stitches,\n", "draft.csv:6:15: finished: is a count, but the draft has no gauge"},
		{"half a yarn class", strings.Replace(little, "yarn,,4", "yarn,,4.5", 1), `draft.csv:7:7: yarn: "4.5" is not a weight class`},
		{"yarn class 9", strings.Replace(little, "yarn,,4", "yarn,,9", 1), `draft.csv:7:7: yarn: "9" is not between 0 and 7`},
		{"too much stretch", little + "stretch,brim,6,times,\n", `draft.csv:13:14: stretch: "6" is not between 1 and 3`},
		{"age of a grown-up", little + "age,,41,years,\n", `draft.csv:13:6: age: age "41" is not between 0 and 20 years`},
		{"row of a yoke", little + "increase,first,6,stitches,\n", `draft.csv:13:10: increase: "first" is not the number of a row, 1 to 2000`},
		{"unknown measurement", little + "body,girt,40,cm,\n", "draft.csv:13:6: body: unknown measurement \"girt\""},
		{"absolute path", strings.Replace(little, "size,,4", "child,,/etc/passwd", 1), "draft.csv:5:8: child: \"/etc/passwd\" is not a path inside the draft's folder"},
		{"no such child", strings.Replace(little, "size,,4", "child,,nobody.csv", 1), "draft.csv:5:8: child: "},
		{"a draft as child", strings.Replace(little, "size,,4", "child,,pram-suit.csv", 1), "pram-suit.csv:1:1: "},
		{"front opening twice", head + "garment,,cardigan,,\nfit,,classic,,\nlayer,,skin,,\nsize,,4,,\nfinished,front_opening,24,cm,\nopening,front,24,cm,\n",
			"draft.csv:7:9: opening: the front of a cardigan is a finished part: give front_opening alone"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := validate.CheckDraft(samples.Reference(t), strings.NewReader(tt.in), "draft.csv", options())
			require.ErrorContains(t, err, tt.want)
		})
	}
}

// All faults of a draft are named in one run, each with its place.
func TestAllFaultsAtOnce(t *testing.T) {
	in := head + `garment,,hat,,
fit,,relaxed,,
layer,,rain,,
finished,"brim" x,46,cm,
finished,brim,NaN,cm,
finished,crown,46,cm,
colour,,red,,
`
	_, err := validate.ReadDraft(samples.Reference(t), strings.NewReader(in), "hat.csv", nil)
	var joined interface{ Unwrap() []error }
	require.True(t, errors.As(err, &joined))
	var lines []int
	for _, e := range joined.Unwrap() {
		var fault *data.Error
		require.True(t, errors.As(e, &fault))
		require.Equal(t, "hat.csv", fault.File)
		require.NotZero(t, fault.Column)
		lines = append(lines, fault.Line)
	}
	require.ElementsMatch(t, []int{3, 4, 5, 6, 7, 8}, lines)
}

// Faults beyond a hundred are counted, not listed.
func TestManyFaults(t *testing.T) {
	in := head + strings.Repeat("colour,,red,,\n", 300)
	_, err := validate.ReadDraft(samples.Reference(t), strings.NewReader(in), "hat.csv", nil)
	require.ErrorContains(t, err, "hat.csv: and 203 more") // 300 colours, 3 fields missing
	require.Equal(t, 100, strings.Count(err.Error(), "\n"))
}

// fieldTable is the table of fields in Markdown.
func fieldTable() string {
	var b strings.Builder
	b.WriteString("| field | part | value | unit | meaning |\n|---|---|---|---|---|\n")
	for _, f := range validate.DraftFields() {
		name := "`" + f.Name + "`"
		switch {
		case f.Required:
			name += " (required)"
		case f.Many:
			name += " (any number)"
		}
		part, value := f.Part, f.Value
		if len(f.Parts) > 0 {
			part = strings.Join(f.Parts, ", ")
		}
		if len(f.Words) > 0 {
			value = strings.Join(f.Words, ", ")
		}
		fmt.Fprintf(&b, "| %s | %s | %s | %s | %s |\n", name, part, value, strings.Join(f.Units, ", "), f.Means)
	}
	return b.String()
}

// The table of fields in the documentation is the one the reader uses.
func TestFieldTable(t *testing.T) {
	const path, begin, end = "README.md", "<!-- fields of a draft: go test ./validate -update -->\n", "<!-- end of the fields -->\n"
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	before, rest, ok := strings.Cut(string(text), begin)
	require.True(t, ok, "%s has no line %s", path, begin)
	table, after, ok := strings.Cut(rest, end)
	require.True(t, ok, "%s has no line %s", path, end)
	if *update {
		table = fieldTable()
		require.NoError(t, os.WriteFile(path, []byte(before+begin+table+end+after), 0o666))
	}
	require.Equal(t, fieldTable(), table)
	for _, f := range validate.DraftFields() {
		require.NotEmpty(t, f.Means, f.Name)
		require.NotEmpty(t, f.Value+strings.Join(f.Words, ""), f.Name)
	}
}

// What arithmetic alone settles: 48 stitches, increased by 6 in each of 14
// rows, are 132; split 21 + 24 + 42 + 24 + 21; with 8 chained at each underarm
// the body has 100 and each sleeve 32.
const settled = head + `garment,,one-piece-hooded,,
fit,,classic,,
layer,,winter,,
size,,4,,
craft,,crochet,,
stitch_gauge,,15,10 cm,
row_gauge,,15,10 cm,
yoke,start,48,stitches,
yoke,per_round,6,stitches,
yoke_rounds,,14,rounds,
yoke,end,132,stitches,
split,front_left,21,stitches,
split,sleeve_left,24,stitches,
split,back,42,stitches,
split,sleeve_right,24,stitches,
split,front_right,21,stitches,
split,underarm,8,stitches,
split,body,100,stitches,
split,sleeve,32,stitches,
`

func TestSettledArithmetic(t *testing.T) {
	ref := samples.Reference(t)
	arithmetic := func(text string) []string {
		var codes []string
		for _, f := range check(t, ref, text) {
			if f.Rule[0] == 'S' {
				codes = append(codes, f.Rule)
			}
		}
		return codes
	}
	require.Empty(t, arithmetic(settled), "6 a row in rows as high as stitches are wide lie flat too: 2π is 6.28")
	for _, tt := range []struct{ from, to, rule string }{
		{"yoke,end,132", "yoke,end,138", "S11"},
		{"yoke,start,48", "yoke,start,47", "S11"},
		{"yoke_rounds,,14", "yoke_rounds,,13", "S11"},
		{"split,back,42", "split,back,41", "S01"},
		{"split,body,100", "split,body,92", "S02"},
		{"split,sleeve,32", "split,sleeve,40", "S03"},
		{"front_left,21", "front_left,22", "S04"},
		{"sleeve_right,24", "sleeve_right,23", "S04"},
		{"per_round,6", "per_round,8", "S13"},
	} {
		require.Contains(t, arithmetic(strings.Replace(settled, tt.from, tt.to, 1)), tt.rule, tt.to)
	}
	f := ofRule(check(t, ref, strings.Replace(settled, "split,body,100", "split,body,94", 1)), "S02")
	require.Len(t, f, 1)
	require.Equal(t, []validate.Edit{{Field: "split", Part: "body", From: 94, To: 100, Unit: "stitches"}}, f[0].Edits())
	require.Equal(t, sizing.NewFact("sum", []sizing.Fact{term("front_left", 21), term("front_right", 21), term("back", 42), term("underarm", 8), term("underarm", 8)}, 100), f[0].Expected)
}

func term(part string, n int) sizing.Fact { return sizing.NewFact("sum.term", part, n) }

// A fit finding names the class that the draft has.
func TestNamesTheClassItHas(t *testing.T) {
	text := head + "garment,,pullover,,\nfit,,classic,,\nlayer,,skin,,\nbody,height,104,cm\nbody,chest,58,cm\nfinished,chest,%s,cm,\n"
	for size, want := range map[string]sizing.Fact{
		"62":   sizing.NewFact("fit.between-classes", "chest", sizing.Length(4), "classic"),
		"60":   sizing.NewFact("fit.other-class", "chest", sizing.Length(2), "close", "classic"),
		"71":   sizing.NewFact("fit.other-class", "chest", sizing.Length(13), "loose", "classic"),
		"75":   sizing.NewFact("fit.other-class", "chest", sizing.Length(17), "oversized", "classic"),
		"53.5": sizing.NewFact("fit.other-class", "chest", sizing.Length(-4.5), "very-close", "classic"),
	} {
		f := ofRule(check(t, samples.Reference(t), strings.Replace(text, "%s", size, 1)), "F02")
		require.Len(t, f, 1, size)
		require.Equal(t, want, f[0].Found)
	}
	for _, size := range []string{"63", "65.5", "68"} {
		require.Empty(t, ofRule(check(t, samples.Reference(t), strings.Replace(text, "%s", size, 1)), "F02"), size)
	}
	loose := strings.Replace(strings.Replace(text, "classic", "loose", 1), "%s", "62", 1)
	f := ofRule(check(t, samples.Reference(t), loose), "F02")
	require.Len(t, f, 1)
	require.Equal(t, sizing.NewFact("fit.other-class", "chest", sizing.Length(4), "classic", "loose"), f[0].Found)
}

// The clean samples have no finding that stops or warns; the broken ones have
// what they were broken for.
func TestSamples(t *testing.T) {
	ref := samples.Reference(t)
	for _, tt := range []struct {
		file  string
		rules []string // that stop or warn
	}{
		{"pram-suit.csv", nil},
		{"pullover.csv", nil},
		{"trousers.csv", nil},
		{"pram-suit-lengthened.csv", []string{"F01", "F04", "G02", "G05", "O04", "O05", "P06", "S02", "S08"}},
		{"cardigan-lengthened.csv", []string{"F01", "F04", "G02", "G05", "S02", "S08"}},
		{"cardigan-slips.csv", []string{"F02", "F04", "F05", "G02", "G06", "S01", "S04", "S06", "S07", "S08", "S12", "S13", "U01", "U04"}},
	} {
		t.Run(tt.file, func(t *testing.T) {
			f, err := os.Open(filepath.Join(draftFolder, tt.file))
			require.NoError(t, err)
			defer f.Close()
			found, err := validate.CheckDraft(ref, f, tt.file, options())
			require.NoError(t, err)
			codes := []string{}
			for _, f := range found {
				if f.Severity > validate.Note {
					codes = append(codes, f.Rule)
				}
			}
			if tt.rules == nil {
				require.Empty(t, codes)
			}
			for _, r := range tt.rules {
				require.Contains(t, codes, r)
			}
		})
	}
}

func TestNoOpener(t *testing.T) {
	_, err := validate.CheckDraft(samples.Reference(t), strings.NewReader(strings.Replace(little, "size,,4", "child,,noor.csv", 1)), "hat.csv", validate.Options{})
	require.EqualError(t, err, `hat.csv:5:8: child: "noor.csv" cannot be opened here`)
}
