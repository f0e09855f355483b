package validate

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// Only the rows that are changed are written anew: comments, quotes, line ends and what
// stands between stay as they are.
func TestRewriteChangesOnlyItsRows(t *testing.T) {
	row := func(field, part, value, unit, note string) Row { return Row{field, part, value, unit, note} }
	brim := row("finished", "brim", "46", "cm", "")
	for _, tt := range []struct {
		name, text string
		edits      []RowEdit
		want       string
	}{
		{"nothing", "a,b,c\n# d\n\"e\",f,g\n", nil, "a,b,c\n# d\n\"e\",f,g\n"},
		{"another value", "field,part,value\n# sizes\nfinished,brim,64,cm\nfinished,hat_height,19,cm\n", []RowEdit{{Line: 3, From: row("finished", "brim", "64", "cm", ""), To: brim}},
			"field,part,value\n# sizes\nfinished,brim,46,cm\nfinished,hat_height,19,cm\n"},
		{"as many cells as it had", "field,part,value\nfinished,brim,64,cm,,\nfit,,loose\n", []RowEdit{{Line: 2, From: row("finished", "brim", "64", "cm", ""), To: brim}, {Line: 3, From: row("fit", "", "loose", "", ""), To: row("fit", "", "close", "", "")}},
			"field,part,value\nfinished,brim,46,cm,\nfit,,close\n"},
		{"as many cells as it needs", "field,part,value\nfinished,brim,64\n", []RowEdit{{Line: 2, From: row("finished", "brim", "64", "", ""), To: row("finished", "brim", "46", "cm", "a, b")}},
			"field,part,value\nfinished,brim,46,cm,\"a, b\"\n"},
		{"a row taken out", "field,part,value\nfinished,brim,64,cm\nfit,,loose\n", []RowEdit{{Line: 2, From: row("finished", "brim", "64", "cm", "")}}, "field,part,value\nfit,,loose\n"},
		{"a row added", "field,part,value\nfit,,loose\nlayer,,skin\n", []RowEdit{{Line: 2, To: brim}}, "field,part,value\nfit,,loose\nfinished,brim,46,cm,\nlayer,,skin\n"},
		{"a row added at the end", "field,part,value\nfit,,loose", []RowEdit{{Line: 2, To: brim}}, "field,part,value\nfit,,loose\nfinished,brim,46,cm,\n"},
		{"changed and added", "field,part,value\nfit,,loose\n# end\n", []RowEdit{{Line: 2, From: row("fit", "", "loose", "", ""), To: row("fit", "", "close", "", "")}, {Line: 2, To: brim}}, "field,part,value\nfit,,close\nfinished,brim,46,cm,\n# end\n"},
		{"ends of Windows, and a mark", "\ufefffield,part,value\r\nfit,,loose\r\nlayer,,skin\r\n", []RowEdit{{Line: 2, From: row("fit", "", "loose", "", ""), To: row("fit", "", "close", "", "")}, {Line: 3, To: brim}},
			"\ufefffield,part,value\r\nfit,,close\r\nlayer,,skin\r\nfinished,brim,46,cm,\r\n"},
		{"a cell over two lines", "field,part,value,unit,note\nfit,,loose,,\"a\nb\"\nlayer,,skin\n", []RowEdit{{Line: 4, From: row("layer", "", "skin", "", ""), To: row("layer", "", "winter", "", "")}},
			"field,part,value,unit,note\nfit,,loose,,\"a\nb\"\nlayer,,winter\n"},
	} {
		require.Equal(t, tt.want, string(rewrite([]byte(tt.text), tt.edits)), tt.name)
	}
}

// A draft of another program is brought into our columns; one of ours, and what is no
// draft, stay as they are.
func TestPlainly(t *testing.T) {
	ours := "field,part,value,unit\nfinished,brim,46,cm\n# a hat\n"
	for _, text := range []string{ours, "\ufeff" + ours, "a,b\n1,2\n", ""} {
		require.Equal(t, text, string(plainly([]byte(text))), text)
	}
	for _, text := range []string{"field;part;value;unit\nfinished;brim;46,5;cm\n", "Field\tPart\tValue\tUnit\nfinished\tbrim\t46,5\tcm\n", "FIELD,part,value,unit\nfinished,brim,\"46,5\",cm\n"} {
		require.Equal(t, "field,part,value,unit,note\nfinished,brim,\"46,5\",cm,\n", string(plainly([]byte(text))), text)
	}
}

// Of two slips the likeliest is put right first, then the other, and nothing is left.
func TestCorrectTwoSlips(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	draft := "field,part,value,unit,note\ngarment,,hat,,\nfit,,classic,,\nlayer,,skin,,\nsize,,4,,\nstitch_gauge,,18,10 cm,\nrow_gauge,,24,10 cm,\nfinished,brim,%s,cm,\nfinished,hat_height,%s,cm,\n"
	right := fmt.Sprintf(draft, "46", "19")
	text, done, left, err := Correct(ref, []byte(fmt.Sprintf(draft, "64", "91")), "hat.csv", Options{})
	require.NoError(t, err)
	require.Equal(t, right, string(text))
	require.Len(t, done, 2)
	for _, f := range done {
		require.Equal(t, "slip.digits-exchanged", f.Found.ID)
	}
	require.LessOrEqual(t, Worst(left), Note)
	text, done, _, err = Correct(ref, []byte(right), "hat.csv", Options{})
	require.NoError(t, err)
	require.Equal(t, right, string(text))
	require.Empty(t, done)
}

// What is said weighs: a fault far more than all else, a stop a quarter more than a warning,
// notes only where all is counted.
func TestWeights(t *testing.T) {
	note, warn, stop := Finding{Rule: "C01", Severity: Note}, Finding{Rule: "F02", Severity: Warn, Subject: "chest"}, Finding{Rule: "F01", Severity: Stop}
	measure := Finding{Rule: "G01", Severity: Warn, Fix: fact("fix.measure-stretch", "neck")}
	excepted := Finding{Rule: "X01", Severity: Warn}
	for _, tt := range []struct {
		o         outcome
		weight    float64
		withNotes float64
	}{
		{outcome{}, 0, 0},
		{outcome{findings: []Finding{note}}, 0, 0.01},
		{outcome{findings: []Finding{warn, warn}}, 2, 2},
		{outcome{findings: []Finding{stop, warn, note, note}}, 2.25, 2.27},
		{outcome{findings: []Finding{measure, excepted}}, 0, 0.02},
		{outcome{faults: []Finding{stop, stop}}, 2000, 2000},
	} {
		require.InDelta(t, tt.weight, tt.o.weight(), 1e-9)
		require.InDelta(t, tt.withNotes, tt.o.withNotes(), 1e-9)
	}
	worse := warn
	worse.Severity = Stop
	other := warn
	other.Subject = "neck"
	before := outcome{findings: []Finding{warn, stop, note}}
	require.Equal(t, []Finding{warn, stop}, before.without(outcome{}))
	require.Equal(t, []Finding{stop}, before.without(outcome{findings: []Finding{worse}}), "a warning that became a stop is not cleared")
	require.Equal(t, []Finding{warn, stop}, before.without(outcome{findings: []Finding{other}}))
	require.Equal(t, []Finding{worse}, outcome{findings: []Finding{worse}}.without(outcome{findings: []Finding{warn}}), "a stop that became a warning is")
	unread := Finding{Rule: "D06", Severity: Stop, Line: 3}
	elsewhere := unread
	elsewhere.Line = 4
	require.Equal(t, []Finding{unread}, outcome{faults: []Finding{unread}}.without(outcome{faults: []Finding{elsewhere}}))
	require.Empty(t, outcome{faults: []Finding{unread}}.without(outcome{faults: []Finding{unread}}))
}

// An edit is of the row that it names, a count of a counted one, in the unit that the row has.
func TestRowEditOfAnEdit(t *testing.T) {
	var rows []placed
	for i, r := range []Row{{"fit", "", "loose", "", ""}, {"finished", "chest", "25", "in", "a"}, {"finished", "chest", "127", "stitches", ""}, {"finished", "neck", "290", "mm", ""}, {"split", "body", "120", "stitches", ""}, {"body", "weight", "40", "lb", ""}, {"age", "", "48", "months", ""}} {
		rows = append(rows, placed{Row: r, line: i + 2})
	}
	for _, tt := range []struct {
		edit Edit
		line int
		to   string
	}{
		{Edit{"fit", "", "loose", "close", ""}, 2, "fit,,close,,"},
		{Edit{"finished", "chest", cm(63.5), cm(66.04), "cm"}, 3, "finished,chest,26,in,a"},
		{Edit{"finished", "chest", cm(63.5), cm(66.1), "cm"}, 3, "finished,chest,26.02,in,a"},
		{Edit{"finished", "chest", 127, 132, "stitches"}, 4, "finished,chest,132,stitches,"},
		{Edit{"finished", "neck", cm(29), cm(30.04), "cm"}, 5, "finished,neck,300.4,mm,"},
		{Edit{"finished", "neck", cm(29), cm(30.04), "in"}, 5, "finished,neck,11.83,in,"},
		{Edit{"split", "body", 120, 126, "stitches"}, 6, "split,body,126,stitches,"},
		{Edit{"split", "body", 120, 0, "stitches"}, 6, ""},
		{Edit{"split", "body", 120, 120, "stitches"}, 6, ""},
		{Edit{"body", "weight", nil, sizing.Weight(20), "lb"}, 7, "body,weight,44.092,lb,"},
		{Edit{"body", "weight", nil, sizing.Weight(20), "kg"}, 7, "body,weight,20,kg,"},
		{Edit{"age", "", nil, sizing.Age(3.5), "months"}, 8, "age,,42,months,"},
		{Edit{"age", "", nil, sizing.Age(3.5), "years"}, 8, "age,,3.5,years,"},
		{Edit{"zipper", "front", nil, cm(30.0004), "cm"}, 8, "zipper,front,30,cm,"},
		{Edit{"zipper", "front", nil, cm(30.0006), "cm"}, 8, "zipper,front,30.001,cm,"},
		{Edit{"zipper", "front", nil, cm(0), "cm"}, 8, ""},
		{Edit{"stretch", "neck", nil, 1.5, "times"}, 8, "stretch,neck,1.5,times,"},
		{Edit{"fit", "", "loose", "", ""}, 2, ""},
		{Edit{"fit", "", "loose", nil, ""}, 2, ""},
	} {
		e, ok := rowEdit(rows, tt.edit)
		require.Equal(t, tt.to != "", ok, tt.edit)
		if ok {
			require.Equal(t, tt.line, e.Line, tt.edit)
			require.Equal(t, tt.to, strings.Join([]string{e.To.Field, e.To.Part, e.To.Value, e.To.Unit, e.To.Note}, ","))
		}
	}
}

// Changes are of the rows of their lines; the others stay in their order.
func TestApply(t *testing.T) {
	var rows []placed
	for i, v := range []string{"a", "b", "c"} {
		rows = append(rows, placed{Row: Row{Field: v}, line: i + 2})
	}
	for want, edits := range map[string][]RowEdit{
		"2a 3b 4c":    nil,
		"2a 3x 4c":    {{Line: 3, From: Row{Field: "b"}, To: Row{Field: "x"}}},
		"2a 4c":       {{Line: 3, From: Row{Field: "b"}}},
		"2a 3b 3x 4c": {{Line: 3, To: Row{Field: "x"}}},
		"2y 3b 4c 4x": {{Line: 4, To: Row{Field: "x"}}, {Line: 2, From: Row{Field: "a"}, To: Row{Field: "y"}}},
		"3b 3x 4c":    {{Line: 3, To: Row{Field: "x"}}, {Line: 2, From: Row{Field: "a"}}},
	} {
		var got []string
		for _, p := range apply(rows, edits) {
			got = append(got, fmt.Sprint(p.line, p.Field))
		}
		require.Equal(t, want, strings.Join(got, " "))
	}
}

// The misfit of a size is half the square of how far it is off, by what rounding and a tape
// leave: of a brim of 46 cm a hundredth and a millimetre, 0.56; no part adds more than 6.
func TestMisfit(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	misfit := func(rows ...string) float64 {
		return searchOf(ref, workedCase{garment: "hat", rows: rows}.draft()).now.misfit
	}
	require.InDelta(t, 0, misfit("finished,brim,46,cm", "finished,hat_height,19,cm"), 1e-9)
	require.InDelta(t, 0.5, misfit("finished,brim,46.56,cm"), 1e-9)
	require.InDelta(t, 2, misfit("finished,brim,44.88,cm"), 1e-9)
	require.InDelta(t, 6, misfit("finished,brim,56,cm"), 1e-9)
	require.InDelta(t, 2+0.5, misfit("finished,brim,44.88,cm", "finished,hat_height,19.29,cm"), 1e-9)
	require.InDelta(t, 0.5, misfit("stitch_gauge,,20,10 cm", "row_gauge,,40,10 cm", "finished,brim,46.81,cm"), 1e-9, "and half a stitch")
	of := func(rows ...string) float64 {
		return searchOf(ref, workedCase{garment: "pullover", rows: append([]string{"stitch_gauge,,20,10 cm", "row_gauge,,40,10 cm"}, rows...)}.draft()).now.misfit
	}
	require.InDelta(t, 0.5, of("opening,back,20,cm", "zipper,back,21,cm"), 1e-9, "a centimetre of a zipper")
	require.InDelta(t, 0, of("yoke_rows,,64,rows"), 1e-9)
	require.InDelta(t, 0.75*0.75/(0.35*0.35)/2, of("yoke_rows,,67,rows"), 1e-9, "three rows, by a row and a millimetre")
	require.InDelta(t, 0, of("yoke_rows,,48,rows", "split,underarm,16,stitches"), 1e-9, "with half the underarm")
}

// Severities have their names, and no others.
func TestParseSeverity(t *testing.T) {
	for name, want := range map[string]Severity{"note": Note, "warn": Warn, "stop": Stop} {
		got, err := ParseSeverity(name)
		require.NoError(t, err)
		require.Equal(t, want, got)
		require.Equal(t, name, got.String())
	}
	got, err := ParseSeverity("grave")
	require.EqualError(t, err, `severity "grave" is not one of note, warn, stop`)
	require.Zero(t, got)
	require.Equal(t, Stop, Worst([]Finding{{Severity: Warn}, {Severity: Stop}, {Severity: Note}}))
	require.Zero(t, Worst(nil))
}

// What is said of many rows for one cause is said once, with the lines of the others.
func TestGather(t *testing.T) {
	at := func(line int, rule string, fix any) Finding {
		f := Finding{Rule: rule, Severity: Warn, File: "a.csv", Line: line, Found: fact("found"), Expected: fact("expected"), By: fact("by")}
		if fix != nil {
			f.Fix = fact("rows.fix", fix)
		}
		return f
	}
	edit := func(line int, to string) CellEdit {
		return CellEdit{Table: "a.csv", Line: line, Key: []string{fmt.Sprint(line)}, Column: "unit", From: "cm", To: to}
	}
	lines := func(findings ...Finding) []string {
		var out []string
		for _, f := range Gather(findings) {
			out = append(out, strings.TrimSpace(fmt.Sprint(f.Line, " ", f.Rule, " ", f.Also)))
		}
		return out
	}
	require.Equal(t, []string{"2 R04 [3 5]"}, lines(at(2, "R04", nil), at(3, "R04", nil), at(5, "R04", nil)))
	require.Equal(t, []string{"2 R04 []", "3 R05 []"}, lines(at(2, "R04", nil), at(3, "R05", nil)))
	require.Equal(t, []string{"0 R04 []", "0 R04 []"}, lines(at(0, "R04", nil), at(0, "R04", nil)), "of a file as a whole")
	require.Equal(t, []string{"2 L01 []", "3 L01 []"}, lines(at(2, "L01", nil), at(3, "L01", nil)), "each slip is its own")
	require.Equal(t, []string{"2 R04 [3]", "4 R04 []"}, lines(at(2, "R04", edit(2, "in")), at(3, "R04", edit(3, "in")), at(4, "R04", edit(4, "mm"))), "the same remedy in another row")
	other := at(3, "R04", nil)
	for _, change := range []func(f *Finding){
		func(f *Finding) { f.Severity = Stop }, func(f *Finding) { f.File = "b.csv" }, func(f *Finding) { f.Found = fact("x") },
		func(f *Finding) { f.Expected = fact("x") }, func(f *Finding) { f.By = fact("x") }, func(f *Finding) { f.Fix = fact("x") },
	} {
		f := other
		change(&f)
		require.Len(t, lines(at(2, "R04", nil), f), 2)
	}
}

// A part that was forgotten is asked for, though no rule has an edit for it.
func TestAForgottenRowIsProposed(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	found, err := CheckDraft(ref, strings.NewReader("field,part,value,unit,note\ngarment,,hat,,\nfit,,classic,,\nlayer,,skin,,\nsize,,4,,\nfinished,hat_height,19,cm,\n"), "hat.csv", Options{})
	require.NoError(t, err)
	require.True(t, found[0].Likeliest())
	require.Equal(t, "slip.row-forgotten", found[0].Found.ID)
	edits := found[0].RowEdits()
	require.Len(t, edits, 1)
	require.Equal(t, 6, edits[0].Line)
	require.Equal(t, Row{}, edits[0].From)
	require.Equal(t, [3]string{"finished", "brim", "cm"}, [3]string{edits[0].To.Field, edits[0].To.Part, edits[0].To.Unit})
}
