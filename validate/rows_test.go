package validate

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"io/fs"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"testing/iotest"

	"github.com/stretchr/testify/require"

	"growtuck/data"
)

// Our own tables have nothing to stop or warn of, and what their notes explain
// is said as a note.
func TestOwnTablesAreSound(t *testing.T) {
	own, err := data.Load(data.Embedded())
	require.NoError(t, err)
	findings, err := CheckTables(data.Embedded(), "data/", own)
	require.NoError(t, err)
	require.Empty(t, atLeast(findings, Warn))
	require.NotEmpty(t, findings)
	for _, f := range findings {
		require.Equal(t, "rows.note-says", f.Fix.ID, f.String())
		require.True(t, strings.HasPrefix(f.Place(), "data/"), f.String())
	}
}

// Our own body rows, proposed again, change nothing.
func TestOwnRowsProposedAgain(t *testing.T) {
	raw := ownTables(t)[bodyTable].Data
	findings, err := CheckRows(bytes.NewReader(raw), "again.csv", ownData(t))
	require.NoError(t, err)
	require.Empty(t, findings)
	review, err := ReviewRows(bytes.NewReader(raw), "again.csv", ownData(t))
	require.NoError(t, err)
	require.Empty(t, review.Values)
	require.Empty(t, review.Moves)
}

// A table the row types have but the forms do not would go unchecked.
func TestFormsCoverEveryTable(t *testing.T) {
	forms := newTableForms()
	for name := range ownTables(t) {
		if strings.HasSuffix(name, ".csv") {
			require.NotNil(t, formOf(forms, name), name)
		}
	}
	for _, form := range forms {
		require.True(t, new(data.Tables).Rows(data.SchemaOf(form.name)).IsValid(), form.name)
		for _, c := range append(form.key, "") {
			require.True(t, c == "" || form.index(c) >= 0, "%s: %s", form.name, c)
		}
	}
	for name, at := range map[string]int{"chart": atChart, "size": atSize, "sex": atSex, "measurement": atMeasurement, "statistic": atStatistic,
		"value": atValue, "unit": atUnit, "source": atSource, "where": atWhere, "basis": atBasis, "review": atReview, "note": atNote, "n": atCount} {
		require.Equal(t, name, bodyNames()[at])
	}
	require.Equal(t, "both", bodySexes[inBoth])
	require.Equal(t, []string{"given", "low", "high", "mean", "sd", "p3", "p5", "p10", "p25", "p50", "p75", "p90", "p95", "p97"}, bodyStatistics, "the order of inGiven and so on")
	require.Equal(t, []string{"cm", "mm", "in", "kg", "lb", "oz"}, bodyUnits, "the order of inCm and so on")
}

// Everything that can be said of a file is said in one run.
func TestAllFindingsInOneRun(t *testing.T) {
	rows := craft("4", "chest", "NaN", "cm", "") + "short\n" + craft("99", "chest", "61", "cm", "") + craft("8", "chest", "60", "cm", "") +
		strings.Replace(craft("4", "waist", "54.5", "cm", ""), "craft-2018", "nobody", 1)
	findings, err := CheckRows(strings.NewReader(bodyHead+rows), "p.csv", ownData(t))
	require.NoError(t, err)
	var got []string
	for _, f := range findings {
		got = append(got, f.Place()+" "+f.Rule)
	}
	require.Equal(t, []string{"p.csv:2:26 R04", "p.csv:3 R03", "p.csv:4:7 R07", "p.csv:5 R22", "p.csv:5 R20", "p.csv:5 R21", "p.csv:5 R29", "p.csv:6 R08", "p.csv:6:34 R07"}, got)
}

// A contributor is not blamed for rows that were there before.
func TestOnlyNewRowsAreBlamed(t *testing.T) {
	own := ownData(t)
	for i := range own.Body {
		if b := &own.Body[i]; b.Chart == "craft" && b.Size == "6" && b.Measurement == "waist" {
			b.Value /= 2
		}
	}
	findings, err := CheckRows(strings.NewReader(bodyHead+craft("16", "cross_back", "33.5", "cm", "read again")), "p.csv", own)
	require.NoError(t, err)
	for _, f := range findings {
		require.Equal(t, "p.csv", f.File, f.String())
		require.NotContains(t, f.String(), "waist")
	}
}

// A table that is missing, or has another header, is one finding: the rows
// that name its rows are not blamed.
func TestOneBrokenTableIsOneFinding(t *testing.T) {
	t.Parallel()
	for _, form := range newTableForms() {
		for name, file := range map[string]*fstest.MapFile{"missing": nil, "other header": {Data: []byte("a,b\n1,2\n")}} {
			files := ownTables(t)
			delete(files, form.name)
			if file != nil {
				files[form.name] = file
			}
			built := fs.FS(os.DirFS(frozenTables))
			if name == "missing" && form.name == data.PracticeFile { // it is then the program's own
				built = data.Embedded()
			}
			findings, err := checkTables(files, "", ownData(t), built)
			require.NoError(t, err)
			if name == "missing" && slices.Contains(data.LaterFiles(), form.name) {
				for _, f := range findings {
					require.Less(t, f.Severity, Warn, "the built-in one is read: %s", f.String())
				}
				continue
			}
			require.Len(t, findings, 1, "%s %s", form.name, name)
			require.Equal(t, "R01", findings[0].Rule)
			require.Equal(t, form.name, findings[0].File)
		}
	}
}

func TestUnreadableInput(t *testing.T) {
	own := ownData(t)
	_, err := CheckRows(iotest.ErrReader(errors.New("disk gone")), "p.csv", own)
	require.EqualError(t, err, "p.csv: cannot be read: disk gone")
	_, err = CheckRows(io.MultiReader(strings.NewReader(bodyHead), iotest.ErrReader(errors.New("disk gone"))), "p.csv", own)
	require.EqualError(t, err, "p.csv: cannot be read: disk gone")
	_, err = CheckTables(fstest.MapFS{}, "x/", nil)
	require.EqualError(t, err, "no tables here; sources.csv, measurements.csv and so on are wanted")
}

func TestTooBigIsRefused(t *testing.T) {
	t.Parallel()
	endless := io.MultiReader(strings.NewReader(bodyHead), &repeating{line: []byte(craft("4", "chest", "58.5", "cm", ""))})
	_, err := CheckRows(endless, "p.csv", ownData(t))
	require.EqualError(t, err, "p.csv: is too big: at most 67108864 bytes are read")
}

// repeating is a reader without an end.
type repeating struct {
	line []byte
	at   int
}

func (r *repeating) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = r.line[r.at]
		r.at = (r.at + 1) % len(r.line)
	}
	return len(p), nil
}

// Findings beyond a number are counted, not kept.
func TestFindingsAreBounded(t *testing.T) {
	var b strings.Builder
	b.WriteString(bodyHead)
	for range maxRowFindings + 500 {
		b.WriteString("x\n")
	}
	findings, err := CheckRows(strings.NewReader(b.String()), "p.csv", ownData(t))
	require.NoError(t, err)
	require.Len(t, findings, maxRowFindings+1)
	require.Equal(t, "p.csv: note R03: rows.more 500; rows.fix-these-first", findings[0].String())
}

func TestChangeOfTables(t *testing.T) {
	files := ownTables(t)
	files[bodyTable].Data = []byte(strings.Replace(string(files[bodyTable].Data), "craft,4,both,chest,given,58.5,", "craft,4,both,chest,given,58,", 1))
	lines := strings.SplitAfter(string(files[bodyTable].Data), "\n")
	files[bodyTable].Data = []byte(strings.Join(append(lines[:1], lines[2:]...), "")) // without its first row
	findings, err := checkTables(files, "", ownData(t), os.DirFS(frozenTables))
	require.NoError(t, err)
	var said []string
	for _, f := range findings {
		if f.Rule == "R29" {
			said = append(said, f.String())
		}
	}
	require.Equal(t, []string{
		"body.csv: warn R29: craft 3m both cross_back given: rows.gone; expected rows.as-before 18.5; rows.put-back",
		"body.csv:111: note R29: craft 4 chest: rows.changed 58 58.5 (rows.change -0.5); rows.check-source",
	}, said)
}

func TestReview(t *testing.T) {
	rows := craft("4", "chest", "60", "cm", "misread before") + craft("4", "calf", "22", "cm", "") + craft("6", "calf", "24", "cm", "")
	review, err := ReviewRows(strings.NewReader(bodyHead+rows), "p.csv", ownData(t))
	require.NoError(t, err)
	require.Len(t, review.Values, 3)
	v := review.Values[0]
	require.Equal(t, "craft 4 chest cm", strings.Join([]string{v.Chart, v.Size, v.Measurement, v.Unit}, " "))
	require.Equal(t, []float64{60, 58.5, 53, 63.5}, []float64{v.Value, v.Was, v.Below, v.Above})
	require.Equal(t, []string{"2", "6"}, []string{v.BelowSize, v.AboveSize})
	require.InDelta(t, 58.8, v.Between, 0.1)
	require.True(t, math.IsNaN(review.Values[1].Was))
	require.Equal(t, "", review.Values[1].BelowSize)
	require.Equal(t, 24.0, review.Values[1].Above)

	// The trade chart moves, and the default chart that reads it.
	moved := map[string]float64{}
	for _, m := range review.Moves {
		require.Greater(t, math.Abs(m.After-m.Before), MovesFrom)
		if m.Measurement != "chest" {
			require.Contains(t, []string{"neck", "wrist", "thigh", "calf", "ankle"}, m.Measurement, "read of children with the size's chest")
			continue
		}
		moved[m.Chart+" "+m.Sex+" "+m.Place] = m.After - m.Before
	}
	require.Contains(t, moved, "craft both 3.5")
	require.Contains(t, moved, "child both 4.5")
	require.InDelta(t, 1.5, moved["child both 4"], 1e-9)
	require.Equal(t, []string{"craft both 4 cm", "craft both 4 calf"}, []string{
		strings.Join([]string{v.Chart, v.Sex, v.Size, v.Unit}, " "),
		strings.Join([]string{review.Values[1].Chart, review.Values[1].Sex, review.Values[1].Size, review.Values[1].Measurement}, " ")})
	require.Equal(t, []int{2, 3, 4}, []int{v.Line, review.Values[1].Line, review.Values[2].Line})
}

func TestCanonical(t *testing.T) {
	own := ownData(t)
	for name, file := range ownTables(t) {
		if name == "datapackage.json" {
			continue
		}
		got, err := Canonical(name, file.Data, own)
		require.NoError(t, err)
		require.Equal(t, string(file.Data), string(got), name)
		require.Equal(t, name, TableOf(file.Data))
	}
	two := craft("4", "chest", "58.5", "cm", "") + craft("6", "chest", "63.5", "cm", "")
	lines := strings.SplitAfter(two, "\n")
	for name, in := range map[string]string{
		"order":            bodyHead + lines[1] + lines[0],
		"byte order mark":  "\ufeff" + bodyHead + two,
		"carriage returns": strings.ReplaceAll(bodyHead+two, "\n", "\r\n"),
		"quotes":           strings.ReplaceAll(bodyHead+two, "craft", `"craft"`),
		"blank lines":      strings.ReplaceAll(bodyHead+two, "\n", "\n\n"),
		"UTF-16":           "\xff\xfe" + strings.Join(strings.Split(bodyHead+two, ""), "\x00") + "\x00",
		"returns":          strings.ReplaceAll(bodyHead+two, "\n", "\r"),
		"semicolons":       strings.NewReplacer(",", ";", "58.5", "58,5", "63.5", "63,5").Replace(bodyHead + two),
		"tabs":             strings.ReplaceAll(bodyHead+two, ",", "\t"),
		"titles":           strings.Replace(bodyHead+two, "chart,size", "Chart, SIZE ", 1),
		"no line end":      strings.TrimSuffix(bodyHead+two, "\n"),
	} {
		if name == "quotes" {
			in = strings.ReplaceAll(in, `"craft"-2018`, "craft-2018")
		}
		got, err := Canonical(bodyTable, []byte(in), own)
		require.NoError(t, err, name)
		require.Equal(t, bodyHead+two, string(got), name)
	}
	for name, tt := range map[string]struct{ table, in, want string }{
		"no such table": {"shoes.csv", bodyHead, `no table is called "shoes.csv"`},
		"no header":     {bodyTable, "", "body.csv:1: the header is not chart,size,"},
		"other header":  {bodyTable, "a,b\n", "body.csv:1: the header is not chart,size,"},
		"ragged":        {bodyTable, bodyHead + "a,b\n", "body.csv:2: has 2 cells; want 13"},
		"line end":      {bodyTable, bodyHead + craft("4", "chest", "58.5", "cm", "\"a\nb\""), "body.csv: row 1: a cell holds a line end; write it on one line"},
	} {
		_, err := Canonical(tt.table, []byte(tt.in), own)
		require.ErrorContains(t, err, tt.want, name)
	}
	require.Empty(t, TableOf([]byte("a,b\n")))
	require.Empty(t, TableOf(nil))
}

// sameCells reports whether two tables hold the same rows, in any order.
func sameCells(t require.TestingT, a, b []byte) {
	rows := func(raw []byte) []string {
		r := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(raw, []byte("\ufeff"))))
		all, err := r.ReadAll()
		require.NoError(t, err)
		var joined []string
		for _, row := range all {
			joined = append(joined, strings.Join(row, "\x00"))
		}
		return joined
	}
	require.ElementsMatch(t, rows(a), rows(b))
}
