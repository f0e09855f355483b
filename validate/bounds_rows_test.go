package validate

import (
	"bytes"
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"growtuck/data"
)

// littleRows are tables with round figures: charts of each scale, and ratios of the chest and
// the weight, so that what is expected of a row can be worked out in the head.
const littleRows = `sources:memory,a,b,none,,c,d,no,
sources:other,a,b,1,,c,d,no,
sources:s,a,b,1,,c,d,no,
charts:y,y,s,
charts:my,my,s,
charts:h,h,s,
charts:b,b,s,
charts:stature,stature,s,
charts:measured,measured,s,
sizes:y,2,years,2
sizes:y,4,years,4
sizes:y,6,years,6
sizes:y,8,years,8
sizes:y,10,years,10
sizes:y,12,years,12
sizes:my,6m,months,6
sizes:my,12m,months,12
sizes:my,24m,months,24
sizes:my,2,years,2
sizes:my,3,years,3
sizes:my,4,years,4
sizes:h,80,height,80
sizes:h,90,height,90
sizes:h,100,height,100
sizes:h,110,height,110
sizes:h,120,height,120
sizes:b,S,band,
sizes:b,M,band,
sizes:b,L,band,
sizes:b,XL,band,
sizes:stature,2,years,2
sizes:stature,4,years,4
sizes:stature,6,years,6
sizes:stature,8,years,8
sizes:stature,10,years,10
sizes:stature,12,years,12
sizes:measured,80,height,80
sizes:measured,90,height,90
sizes:measured,100,height,100
sizes:measured,110,height,110
sizes:measured,120,height,120
sizes:measured,130,height,130
sizes:measured,140,height,140
sizes:measured,150,height,150
ratios:m,chest,80,130,0.5,0.55,0.6,100,s,computed
ratios:both,chest,80,100,0.5,0.55,0.6,100,s,computed
ratios:both,chest,100,130,0.5,0.52,0.55,100,s,computed
ratios:both,weight,80,130,0.1,0.15,0.2,100,s,computed
`

// littleTables are tables of these rows, "table:cells", with measurements as we have them.
func littleTables(t *testing.T, rows []string) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	heads := make(map[string][]string)
	for _, form := range newTableForms() {
		heads[form.name] = form.names()
		text := strings.Join(form.names(), ",") + "\n"
		if form.name == "measurements.csv" && slices.Contains(rows, "charts:measured,measured,s,") {
			raw, err := os.ReadFile(filepath.Join(frozenTables, form.name))
			require.NoError(t, err)
			text = string(raw)
		}
		files[form.name] = &fstest.MapFile{Data: []byte(text)}
	}
	for _, row := range rows {
		table, cells, ok := strings.Cut(row, ":")
		file := files[table+".csv"]
		require.True(t, ok && file != nil, row)
		wants := len(heads[table+".csv"]) - 1 - strings.Count(cells, ",")
		require.GreaterOrEqual(t, wants, 0, row)
		file.Data = append(file.Data, cells+strings.Repeat(",", wants)+"\n"...)
	}
	return files
}

// seriesRows are body rows of a chart: "m:chest given cm 50 52 - 56", a value for each of its
// sizes in turn; 50#98 is of 98 children, 50(R20_so_printed) has a note.
func seriesRows(t *testing.T, chart, series string) string {
	t.Helper()
	var sizes []string
	for line := range strings.Lines(littleRows) {
		if rest, ok := strings.CutPrefix(line, "sizes:"+chart+","); ok {
			size, _, _ := strings.Cut(rest, ",")
			sizes = append(sizes, size)
		}
	}
	words := strings.Fields(series)
	sex, measurement, ok := strings.Cut(words[0], ":")
	if !ok {
		sex, measurement = "both", words[0]
	}
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	for i, value := range words[3:] {
		if value == "-" {
			continue
		}
		value, note, _ := strings.Cut(strings.TrimSuffix(value, ")"), "(")
		value, n, _ := strings.Cut(value, "#")
		require.NoError(t, w.Write([]string{chart, sizes[i], sex, measurement, words[1], value, words[2], "s", "p. 1", "published", "read twice", strings.ReplaceAll(note, "_", " "), n}))
	}
	w.Flush()
	return out.String()
}

// saidOfRows is what all rules say of a case: of proposed rows of a chart, where those with
// a plus are in the tables already; of a whole file, raw, where {head} is the header and {2} and
// {4} are rows; or of whole tables, alone or with the little ones.
func saidOfRows(t *testing.T, w workedCase) []Finding {
	t.Helper()
	base := strings.Split(strings.TrimSpace(littleRows), "\n")
	if w.garment == "alone" || w.garment == "tables" {
		if w.garment == "alone" {
			base = nil
		}
		built := littleTables(t, []string{"practice:built_low,4,cm,a,growtuck,judgement,", "practice:built_high,8,cm,a,growtuck,judgement,", "practice:list_5,5,in,a,memory,memory,"})
		findings, err := checkTables(littleTables(t, append(base, w.rows...)), "", nil, built)
		require.NoError(t, err)
		return findings
	}
	files := littleTables(t, base)
	proposed := bodyHead
	if w.garment == "raw" {
		text, err := strconv.Unquote(w.rows[0])
		require.NoError(t, err, w.rows[0])
		text = strings.NewReplacer("{head}", strings.TrimSpace(bodyHead), "{2}", strings.TrimSpace(seriesRows(t, "y", "chest given cm 50")), "{4}", strings.TrimSpace(seriesRows(t, "y", "chest given cm - 52"))).Replace(text)
		proposed, w.rows = text, nil
	}
	for _, series := range w.rows {
		standing, chart := strings.HasPrefix(series, "+"), w.garment
		series = strings.TrimPrefix(series, "+")
		if c, rest, ok := strings.Cut(series, "/"); ok && series[0] != '=' {
			chart, series = c, rest
		}
		var rows string
		if raw, ok := strings.CutPrefix(series, "="); ok {
			rows = strings.ReplaceAll(raw, "|", ",") + "\n"
		} else {
			rows = seriesRows(t, chart, series)
		}
		if standing {
			body := files[bodyTable]
			body.Data = append(body.Data, rows...)
		} else {
			proposed += rows
		}
	}
	tables, err := data.Load(files)
	require.NoError(t, err)
	findings, err := CheckRows(strings.NewReader(proposed), "p.csv", tables)
	require.NoError(t, err)
	return findings
}

// TestRowRulesAtTheirBounds is TestRulesAtTheirBounds for rows.
func TestRowRulesAtTheirBounds(t *testing.T) {
	paths, err := filepath.Glob(filepath.Join("testdata", "worked", "rows*.txt"))
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	for _, path := range paths {
		name := filepath.Base(path)
		for _, w := range workedCases(t, name) {
			var said []string
			for _, f := range saidOfRows(t, w) {
				if f.Rule == w.rule {
					said = append(said, worked(f))
				}
			}
			require.Equal(t, w.want, said, "%s:%d: %s %s %s", name, w.line, w.rule, w.garment, strings.Join(w.rows, "; "))
		}
	}
}
