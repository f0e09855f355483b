package workbook_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/testdata/samples"
	"growtuck/validate"
)

// A form is a blank form to fill in by what stands in its rows.
type form struct {
	t    *testing.T
	file *excelize.File
	rows [][]string
	head int
}

func openForm(t *testing.T, book *workbook.Book) form {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, book.WriteXLSX(&out))
	f, err := excelize.OpenReader(&out)
	require.NoError(t, err)
	t.Cleanup(func() { f.Close() })
	rows, err := f.GetRows(f.GetSheetName(0))
	require.NoError(t, err)
	for i, cells := range rows {
		if len(cells) > 1 && cells[1] == "value" {
			return form{t, f, rows, i + 1}
		}
	}
	t.Fatal("the form has no header")
	return form{}
}

// set fills in the value and the unit of the row that ends with some cells; a nil unit is
// left as it is.
func (f form) set(ends string, value, unit any) {
	f.t.Helper()
	for i, cells := range f.rows {
		if i >= f.head && strings.HasSuffix(strings.TrimRight(strings.Join(cells, "|"), "|"), "|"+ends) {
			sheet := f.file.GetSheetName(0)
			require.NoError(f.t, f.file.SetCellValue(sheet, fmt.Sprintf("B%d", i+1), value))
			if unit != nil {
				require.NoError(f.t, f.file.SetCellValue(sheet, fmt.Sprintf("C%d", i+1), unit))
			}
			return
		}
	}
	f.t.Fatalf("the form has no row %s", ends)
}

func (f form) open() *workbook.File {
	f.t.Helper()
	var out bytes.Buffer
	require.NoError(f.t, f.file.Write(&out))
	w, err := workbook.Open(bytes.NewReader(out.Bytes()), "form.xlsx")
	require.NoError(f.t, err)
	f.t.Cleanup(func() { w.Close() })
	return w
}

// The form of a child begins with what is worth most, in words; ids come last.
func TestChildFormLeads(t *testing.T) {
	f := openForm(t, workbook.BlankChild(samples.Reference(t), "growtuck"))
	require.Equal(t, []string{"what it is", "value", "unit", "how to take it", "measurement"}, f.rows[f.head-1])
	var ids []string
	for _, cells := range f.rows[f.head:] {
		if len(cells) == 5 {
			ids = append(ids, cells[4])
		}
	}
	require.Equal(t, append([]string{"name", "sex", "age", "born", "measured"}, ask.WorthMost...), ids[:5+len(ask.WorthMost)])
	require.Len(t, ids, 5+len(samples.Reference(t).Measurements()))
}

// A form is read as it is filled in by hand; what cannot be used is named with its cell.
func TestChildFormAsFilledIn(t *testing.T) {
	ref := samples.Reference(t)
	f := openForm(t, workbook.BlankChild(ref, "growtuck"))
	f.set("height", "110,5", "Centimetres")
	f.set("chest", "21", "inches")
	f.set("weight", 40, "pounds")
	f.set("age", 54, "Months")
	table, err := f.open().Child()
	require.NoError(t, err)
	child, err := ref.ReadChild(bytes.NewReader(table.CSV), "form.xlsx")
	require.NoError(t, err)
	require.InDelta(t, 110.5, child.Own["height"], 1e-9)
	require.InDelta(t, 53.34, child.Own["chest"], 1e-9)
	require.InDelta(t, 18.14, child.Own["weight"], 0.01)
	require.InDelta(t, 4.5, child.AgeYears, 1e-9)

	for _, c := range []struct {
		id          string
		value, unit any
		want        string
	}{
		{"chest", true, nil, "form.xlsx: Child!B14: is TRUE or FALSE, not a value"},
		{"chest", 53, "ell", `form.xlsx: Child!C14: chest: "53": "ell" is not a unit of length`},
		{"chest", "21 inches", nil, "form.xlsx: Child!B14: chest:"},
		{"chest", "wide", nil, "form.xlsx: Child!B14: chest:"},
	} {
		f := openForm(t, workbook.BlankChild(ref, "growtuck"))
		f.set(c.id, c.value, c.unit)
		table, err := f.open().Child()
		if err == nil {
			_, err = ref.ReadChild(bytes.NewReader(table.CSV), "form.xlsx")
			err = table.Faults(err)
		}
		require.ErrorContains(t, err, c.want)
	}
}

func TestDraftFormAsFilledIn(t *testing.T) {
	ref := samples.Reference(t)
	f := openForm(t, workbook.BlankDraft(ref, "growtuck"))
	require.Equal(t, []string{"what it is", "value", "unit", "note", "field", "part"}, f.rows[f.head-1])
	f.set("garment", "Cardigan", nil)
	f.set("fit", " Classic", nil)
	f.set("layer", "Indoor", nil)
	f.set("body|chest", "58,5", nil)
	f.set("craft", "Knit", nil)
	f.set("stitch_gauge", "20,0", nil)
	f.set("row_gauge", "28 rows", nil)
	f.set("finished|chest", "132,0", nil)
	f.set("finished|sleeve_length", "80 rows", nil)
	table, err := f.open().Draft()
	require.NoError(t, err)
	findings, err := validate.CheckDraft(ref, bytes.NewReader(table.CSV), "form.xlsx", validate.Options{})
	require.NoError(t, err)
	for _, found := range findings {
		require.NotEqual(t, validate.Stop, found.Severity, "%v", found)
	}
}

// A fault of many cells is said once, with how many there are.
func TestRepeatedFaultIsSaidOnce(t *testing.T) {
	ref := samples.Reference(t)
	f := openForm(t, workbook.BlankChild(ref, "growtuck"))
	for _, id := range ask.WorthMost {
		f.set(id, true, nil)
	}
	_, err := f.open().Child()
	require.EqualError(t, err, "form.xlsx: Child!B12: is TRUE or FALSE, not a value; write what was measured or counted, or yes or no as text; 7 more cells of this sheet too, B13 to B19")
}

// The first sheet begins with what comes out.
func TestFirstSheetShowsResults(t *testing.T) {
	r := usual("cardigan", "cm")
	f, err := excelize.OpenReader(bytes.NewReader(r.xlsx(t)))
	require.NoError(t, err)
	defer f.Close()
	rows, err := f.GetRows("Start")
	require.NoError(t, err)
	plan := r.content(t).Plan
	at := 0
	for i, cells := range rows {
		if len(cells) > 1 && cells[1] == "finished" {
			at = i + 1
		}
	}
	require.Positive(t, at)
	require.Less(t, at, 8)
	for i, line := range plan.Finished.Lines {
		require.Contains(t, rows[at+i][0], line.Part.Name)
		formula, err := f.GetCellFormula("Start", fmt.Sprintf("B%d", at+i+1))
		require.NoError(t, err)
		require.NotEmpty(t, formula, "it follows the settings")
		if p, ok := plan.Part(line.Part.Part); ok && p.Count > 0 {
			require.Contains(t, rows[at+i][2], fmt.Sprint(p.Count))
		}
	}
}
