package workbook_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/testdata/bounded"
	"growtuck/testdata/samples"
)

// filled is a workbook with cells as somebody filled them in.
func filled(t testing.TB, cells map[string]any, more func(f *excelize.File)) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	for cell, v := range cells {
		require.NoError(t, f.SetCellValue("Sheet1", cell, v))
	}
	if more != nil {
		more(f)
	}
	var out bytes.Buffer
	require.NoError(t, f.Write(&out))
	return out.Bytes()
}

func header(row string, more map[string]any) map[string]any {
	cells := map[string]any{"A" + row: "Measurement", "B" + row: " value", "C" + row: "unit"}
	for k, v := range more {
		cells[k] = v
	}
	return cells
}

func TestReadsAChildAsFilledIn(t *testing.T) {
	ref := samples.Reference(t)
	for _, c := range []struct {
		name  string
		cells map[string]any
		more  func(f *excelize.File)
		want  map[string]float64
		err   string
	}{
		{name: "numbers", cells: header("1", map[string]any{"A2": "chest", "B2": 55, "A3": "height", "B3": 110.5}), want: map[string]float64{"chest": 55, "height": 110.5}},
		{name: "text numbers", cells: header("1", map[string]any{"A2": "chest", "B2": "55"}), want: map[string]float64{"chest": 55}},
		{name: "comma decimals", cells: header("1", map[string]any{"A2": "chest", "B2": "54,5", "C2": "cm"}), want: map[string]float64{"chest": 54.5}},
		{name: "fractions", cells: header("1", map[string]any{"A2": "chest", "B2": "20 3/4", "C2": "in"}), want: map[string]float64{"chest": 20.75 * 2.54}},
		{name: "unit in the cell", cells: header("1", map[string]any{"A2": "chest", "B2": "545 mm"}), want: map[string]float64{"chest": 54.5}},
		{name: "rows above, gaps and notes", cells: header("7", map[string]any{"A1": "For Ada", "A9": "chest", "B9": 55, "F9": "snug"}), want: map[string]float64{"chest": 55}},
		{name: "columns in another order", cells: map[string]any{"A1": "unit", "B1": "note", "C1": "measurement", "D1": "value", "A2": "in", "C2": "chest", "D2": 20}, want: map[string]float64{"chest": 50.8}},
		{name: "small number", cells: header("1", map[string]any{"A2": "chest", "B2": 5.5e1}), want: map[string]float64{"chest": 55}},
		{name: "renamed sheet", cells: header("1", map[string]any{"A2": "chest", "B2": 55}), more: func(f *excelize.File) {
			require.NoError(t, f.SetSheetName("Sheet1", "Ada's tape"))
		}, want: map[string]float64{"chest": 55}},
		{name: "an empty form", cells: header("1", map[string]any{"A2": "chest", "A3": "height"}), want: map[string]float64{}},

		{name: "not a number", cells: header("1", map[string]any{"A3": "chest", "B3": "wide"}), err: "f.xlsx: Sheet1!B3: chest: "},
		{name: "unknown measurement", cells: header("4", map[string]any{"A6": "chets", "B6": 55}), err: `f.xlsx: Sheet1!A6: unknown measurement "chets"`},
		{name: "given twice", cells: header("1", map[string]any{"A2": "chest", "B2": 55, "A3": "chest", "B3": 56}), err: "f.xlsx: Sheet1!A3: chest is given again; the first is on line 2"},
		{name: "error value", cells: header("1", map[string]any{"A2": "chest", "B2": "#DIV/0!"}), err: "f.xlsx: Sheet1!B2: has the error #DIV/0!"},
		{name: "merged", cells: header("1", map[string]any{"A2": "chest", "B2": 55, "A3": "height", "B3": 110}), more: func(f *excelize.File) {
			require.NoError(t, f.MergeCell("Sheet1", "B2", "B3"))
		}, err: "f.xlsx: Sheet1!B2: is merged with the cells up to B3"},
		{name: "two tables", cells: header("1", map[string]any{"A2": "chest", "B2": 55}), more: func(f *excelize.File) {
			_, err := f.NewSheet("Old")
			require.NoError(t, err)
			require.NoError(t, f.SetSheetRow("Old", "A1", &[]any{"measurement", "value", "unit"}))
		}, err: "f.xlsx: Old!A1: is a child's table, and so is Sheet1!A1"},
		{name: "no table", cells: map[string]any{"A1": "hello"}, err: "f.xlsx: has no table with the header measurement, value, unit"},
	} {
		t.Run(c.name, func(t *testing.T) {
			w, err := workbook.Open(bytes.NewReader(filled(t, c.cells, c.more)), "f.xlsx")
			require.NoError(t, err)
			defer w.Close()
			table, err := w.Child()
			if err == nil {
				child, readErr := ref.ReadChild(bytes.NewReader(table.CSV), "f.xlsx")
				if err = table.Faults(readErr); err == nil {
					require.Empty(t, c.err)
					require.InDeltaMapValues(t, c.want, child.Own, 1e-9)
					return
				}
			}
			require.NotEmpty(t, c.err, "%v", err)
			require.ErrorContains(t, err, c.err)
		})
	}
}

// Programs that leave computing to others write formulas without values.
func TestNamesFormulasThatWereNeverComputed(t *testing.T) {
	const sheet = `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>
<row r="1"><c r="A1" t="str"><v>measurement</v></c><c r="B1" t="str"><v>value</v></c><c r="C1" t="str"><v>unit</v></c></row>
<row r="2"><c r="A2" t="str"><v>chest</v></c><c r="B2"><f>50+5</f></c></row>
<row r="3"><c r="A3" t="str"><v>waist</v></c><c r="B3"><f>50+5</f><v>55</v></c></row>
<row r="4"><c r="A4" t="str"><v>hip</v></c><c r="B4" t="str"><f>IF(1,"","")</f><v></v></c></row>
<row r="5"><c r="A5" t="str"><v>calf</v></c><c r="B5"><f>20+5</f><v></v></c></row>
</sheetData></worksheet>`
	raw := withSheet(t, filled(t, nil, nil), []byte(sheet))
	w, err := workbook.Open(bytes.NewReader(raw), "f.xlsx")
	require.NoError(t, err)
	defer w.Close()
	_, err = w.Child()
	const fault = "has a formula without its value; open the file in a spreadsheet program, save it, and try again"
	require.EqualError(t, err, "f.xlsx: Sheet1!B2: "+fault+"; B5 too")
}

// What was typed and read as a date is reported, in any format that shows one;
// other formats of numbers are not read as dates.
func TestNamesDates(t *testing.T) {
	text := func(s string) *string { return &s }
	for _, c := range []struct {
		look excelize.Style
		date bool
	}{
		{excelize.Style{NumFmt: 14}, true},
		{excelize.Style{NumFmt: 16}, true},
		{excelize.Style{CustomNumFmt: text(`dd\.mm\.`)}, true},
		{excelize.Style{CustomNumFmt: text("[$-407]d. mmm")}, true},
		{excelize.Style{NumFmt: 12}, false},
		{excelize.Style{NumFmt: 9}, false},
		{excelize.Style{CustomNumFmt: text(`0.0" days"`)}, false},
		{excelize.Style{CustomNumFmt: text(`[Red]0.0\m`)}, false},
		{excelize.Style{CustomNumFmt: text("General")}, false},
	} {
		raw := filled(t, header("1", map[string]any{"A2": "chest", "B2": 55, "A3": "waist", "D3": 45421}), func(f *excelize.File) {
			id, err := f.NewStyle(&c.look)
			require.NoError(t, err)
			for _, cell := range []string{"B2", "B3", "D3"} { // B3 is empty, D3 a note
				require.NoError(t, f.SetCellStyle("Sheet1", cell, cell, id))
			}
		})
		w, err := workbook.Open(bytes.NewReader(raw), "f.xlsx")
		require.NoError(t, err)
		_, err = w.Child()
		if c.date {
			require.EqualError(t, err, "f.xlsx: Sheet1!B2: is a date: spreadsheet programs turn 5-6 or 4.5 into one. Format the cell as text and enter the value again")
		} else {
			require.NoError(t, err)
		}
		require.NoError(t, w.Close())
	}
}

// A few cells at the far corner of a sheet do not fill the memory.
func TestFarCells(t *testing.T) {
	var sheet strings.Builder
	sheet.WriteString(`<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>
<row r="1"><c r="A1" t="str"><v>measurement</v></c><c r="B1" t="str"><v>value</v></c><c r="C1" t="str"><v>unit</v></c></row>
<row r="2"><c r="A2" t="str"><v>chest</v></c><c r="B2"><v>55</v></c></row>`)
	for row := 3; row < 500; row++ {
		fmt.Fprintf(&sheet, `<row r="%d"><c r="XFD%d"/></row>`, row, row)
	}
	sheet.WriteString(`<row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData><mergeCells><mergeCell ref="D1:XFD1048576"/></mergeCells></worksheet>`)
	raw := withSheet(t, filled(t, nil, nil), []byte(sheet.String()))
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	w, err := workbook.Open(bytes.NewReader(raw), "f.xlsx")
	require.NoError(t, err)
	defer w.Close()
	_, err = w.Child()
	require.ErrorContains(t, err, "f.xlsx: Sheet1!A1048576: is beyond the 3000 rows that are read")
	runtime.ReadMemStats(&after)
	require.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(600<<20))
}

func archive(t testing.TB, parts map[string]string) []byte {
	t.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for name, content := range parts {
		w, err := z.Create(name)
		require.NoError(t, err)
		_, err = w.Write([]byte(content))
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return out.Bytes()
}

func TestRefusesWhatIsNoWorkbook(t *testing.T) {
	plan := usual("hat", "cm").xlsx(t)
	many := make(map[string]string)
	for i := range 401 {
		many["part"+strings.Repeat("x", i)] = ""
	}
	for _, c := range []struct {
		name string
		raw  []byte
		err  string
	}{
		{"empty", nil, "f.xlsx: is empty"},
		{"text", []byte("measurement,value,unit\n"), "is not a workbook"},
		{"old kind", []byte("\xd0\xcf\x11\xe0\xa1\xb1"), "old kind, or has a password"},
		{"cut short", plan[:len(plan)/2], "is not a workbook"},
		{"archive", archive(t, map[string]string{"readme.txt": "hello"}), "is an archive but not a workbook"},
		{"OpenDocument", archive(t, map[string]string{"content.xml": "<x/>"}), "OpenDocument"},
		{"too many parts", archive(t, many), "has 401 parts"},
		{"a bomb in a sheet", archive(t, map[string]string{"xl/workbook.xml": "", "xl/worksheets/sheet1.xml": strings.Repeat(" ", 7<<20)}), "unpacks xl/worksheets/sheet1.xml"},
		{"a bomb in a picture", archive(t, map[string]string{"xl/workbook.xml": "", "xl/media/image1.png": strings.Repeat("\x00", 25<<20)}), "unpacks to more than 16 MB"},
		{"not XML", archive(t, map[string]string{"xl/workbook.xml": "hello"}), "cannot be opened"},
		{"too long", make([]byte, workbook.MaxBytes+1), "is more than 8 MB"},
	} {
		t.Run(c.name, func(t *testing.T) {
			w, err := workbook.Open(bytes.NewReader(c.raw), "f.xlsx")
			if err == nil {
				_, err = w.Child()
				require.NoError(t, w.Close())
			}
			require.ErrorContains(t, err, "f.xlsx: ")
			if c.name != "not XML" {
				require.ErrorContains(t, err, c.err)
			}
		})
	}
}

// Text that begins like a formula stays text, and does so in CSV.
func TestTextStaysText(t *testing.T) {
	r := usual("hat", "cm")
	for _, name := range []string{"=1+1", "+1+1", "-1+1", "@SUM(A1)", "=cmd|' /C calc'!A0"} {
		r.child.Name = name
		f, err := excelize.OpenReader(bytes.NewReader(r.xlsx(t)), excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		formula, err := f.GetCellFormula("Child", "B6")
		require.NoError(t, err)
		require.Empty(t, formula)
		v, err := f.GetCellValue("Child", "B6")
		require.NoError(t, err)
		require.Equal(t, name, v)
		require.NoError(t, f.Close())
		b, err := workbook.New(r.content(t))
		require.NoError(t, err)
		parts, err := b.CSV()
		require.NoError(t, err)
		for _, p := range parts {
			for line := range strings.Lines(string(p.CSV)) {
				require.NotContains(t, []string{"=", "@"}, line[:1], "%s: %s", p.Name, line)
				require.NotContains(t, line, ","+name, p.Name)
			}
		}
	}
}

func FuzzOpen(f *testing.F) {
	f.Add(usual("hat", "cm").xlsx(f))
	f.Add(filled(f, header("1", map[string]any{"A2": "chest", "B2": "9 3/4"}), nil))
	f.Add([]byte("PK\x03\x04"))
	f.Fuzz(func(t *testing.T, raw []byte) {
		defer bounded.By(t, 600<<20)()
		readAll(t, raw)
	})
}

// FuzzSheet puts any XML in place of a sheet.
func FuzzSheet(f *testing.F) {
	base := filled(f, header("1", map[string]any{"A2": "chest", "B2": 55}), nil)
	f.Add([]byte(`<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>measurement</t></is></c><c r="B1" t="str"><v>value</v></c><c r="C1" t="str"><v>unit</v></c></row><row r="2"><c r="A2" t="s"><v>99</v></c><c r="B2"><f>1/0</f></c></row></sheetData><mergeCells><mergeCell ref="A1"/></mergeCells></worksheet>`))
	f.Fuzz(func(t *testing.T, sheet []byte) {
		defer bounded.By(t, 600<<20)()
		readAll(t, withSheet(t, base, sheet))
	})
}

func withSheet(t *testing.T, base, sheet []byte) []byte {
	in, err := zip.NewReader(bytes.NewReader(base), int64(len(base)))
	require.NoError(t, err)
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, part := range in.File {
		if part.Name != "xl/worksheets/sheet1.xml" {
			require.NoError(t, z.Copy(part))
			continue
		}
		w, err := z.Create(part.Name)
		require.NoError(t, err)
		_, err = w.Write(sheet)
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return out.Bytes()
}

// readAll reads all that can be read of a workbook; every fault names the file.
func readAll(t *testing.T, raw []byte) {
	w, err := workbook.Open(bytes.NewReader(raw), "f.xlsx")
	if err != nil {
		require.ErrorContains(t, err, "f.xlsx: ")
		return
	}
	defer w.Close()
	ref := samples.Reference(t)
	if table, err := w.Child(); err == nil {
		_, err := ref.ReadChild(bytes.NewReader(table.CSV), "f.xlsx")
		_ = table.Faults(err)
	}
	if table, err := w.Draft(); err == nil {
		require.NotEmpty(t, table.CSV)
	}
	_, _ = w.Settings()
}
