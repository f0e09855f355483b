package validate

import (
	"bytes"
	"maps"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"growtuck/data"
	"growtuck/testdata/bounded"
)

// FuzzCheckRows: no input makes the checker panic, every finding has a place
// and a known rule, and the canonical form of canonical form is itself.
func FuzzCheckRows(f *testing.F) {
	own := tradeChart(f)
	known := map[string]bool{}
	for _, r := range RowRules() {
		known[r.Code] = true
	}
	for _, c := range ruleCases {
		if c.rows != "" {
			f.Add([]byte(bodyHead + c.rows))
		} else if c.raw != "" {
			f.Add([]byte(c.raw))
		}
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		defer bounded.By(t, 256<<20)()
		findings, err := CheckRows(bytes.NewReader(raw), "p.csv", own)
		if err == nil {
			for _, finding := range findings {
				require.True(t, known[finding.Rule], finding.Rule)
				require.NotEmpty(t, finding.Found.String())
				require.Equal(t, "p.csv", finding.File, finding.String())
			}
		}
		if review, err := ReviewRows(bytes.NewReader(raw), "p.csv", own); err == nil {
			for _, v := range review.Values {
				require.Positive(t, v.Line)
				require.NotContains(t, []string{v.Chart, v.Size, v.Sex, v.Measurement, v.Statistic, v.Unit}, "")
			}
		}
		once, err := Canonical(bodyTable, raw, own)
		if err != nil {
			return
		}
		twice, err := Canonical(bodyTable, once, own)
		require.NoError(t, err)
		require.Equal(t, string(once), string(twice))
		form := formOf(newTableForms(), bodyTable)
		before, err := form.readAll(raw)
		require.NoError(t, err)
		after, err := form.readAll(once)
		require.NoError(t, err)
		require.ElementsMatch(t, before, after)
	})
}

// tradeChart is our own tables with the trade chart alone, which is quick.
func tradeChart(tb testing.TB) *data.Tables {
	own := ownData(tb)
	own.Body = slices.DeleteFunc(own.Body, func(b data.Body) bool { return b.Chart != "craft" && b.Chart != statureChart })
	own.Relations, own.Derivations = nil, nil
	return own
}

// FuzzCheckTables puts anything in place of one of the small tables.
func FuzzCheckTables(f *testing.F) {
	for i, form := range newTableForms() {
		f.Add(byte(i), []byte(strings.Join(form.names(), ",")+"\n"))
		f.Add(byte(i), bytes.Clone(ownTables(f)[form.name].Data[:200]))
	}
	small := fstest.MapFS{} // the first rows of each table
	for name, file := range ownTables(f) {
		lines := bytes.SplitAfterN(file.Data, []byte("\n"), 16)
		small[name] = &fstest.MapFile{Data: bytes.Join(lines[:min(len(lines), 15)], nil)}
	}
	f.Fuzz(func(t *testing.T, table byte, raw []byte) {
		defer bounded.By(t, 256<<20)()
		files := maps.Clone(small)
		forms := newTableForms()
		files[forms[int(table)%len(forms)].name] = &fstest.MapFile{Data: raw}
		_, err := checkTables(files, "", nil, os.DirFS(frozenTables))
		if err != nil {
			require.NotEmpty(t, err.Error())
		}
	})
}

// However a table is shuffled and its cells are quoted, its canonical form is
// the same, holds the same cells, and is its own canonical form.
func TestCanonicalFormIsOne(t *testing.T) {
	t.Parallel()
	own := ownData(t)
	tables := ownTables(t)
	ix, err := newTableIndex(own)
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		form := rapid.SampledFrom(newTableForms()).Draw(t, "table")
		want := tables[form.name].Data
		lines := strings.SplitAfter(strings.TrimSuffix(string(want), "\n"), "\n")
		lines[len(lines)-1] += "\n"
		head, rows := lines[0], append([]string(nil), lines[1:]...)
		ordered := ix.rankOf(form) != nil
		if ordered {
			r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
			r.Shuffle(len(rows), func(i, j int) { rows[i], rows[j] = rows[j], rows[i] })
		}
		for range rapid.IntRange(0, 5).Draw(t, "quoted") {
			i := rapid.IntRange(0, len(rows)-1).Draw(t, "row")
			if first, rest, ok := strings.Cut(rows[i], ","); ok && !strings.Contains(first, `"`) {
				rows[i] = `"` + first + `",` + rest
			}
		}
		in := head + strings.Join(rows, "")
		if rapid.Bool().Draw(t, "returns") {
			in = strings.ReplaceAll(in, "\n", "\r\n")
		}
		if rapid.Bool().Draw(t, "mark") {
			in = "\ufeff" + in
		}
		got, err := Canonical(form.name, []byte(in), own)
		require.NoError(t, err)
		again, err := Canonical(form.name, got, own)
		require.NoError(t, err)
		require.Equal(t, string(got), string(again))
		sameCells(t, []byte(in), got)
		if form.name == bodyTable || form.name == "sources.csv" || !ordered {
			require.Equal(t, string(want), string(got), form.name) // its order is complete
		}
	})
}

func TestNearFindsWhatFindFinds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		keys := rapid.SliceOfNDistinct(rapid.Uint64Range(0, 300), 1, 100, rapid.ID).Draw(t, "keys")
		slices.Sort(keys)
		s := &bodySet{}
		has := map[bodyKey]bool{}
		for _, k := range keys {
			s.records = append(s.records, bodyRecord{key: bodyKey(k)})
			has[bodyKey(k)] = true
		}
		k := bodyKey(rapid.Uint64Range(0, 301).Draw(t, "wanted"))
		for _, got := range []*bodyRecord{s.find(k), s.near(rapid.IntRange(0, len(keys)-1).Draw(t, "from"), k)} {
			require.Equal(t, has[k], got != nil)
			if got != nil {
				require.Equal(t, k, got.key)
			}
		}
	})
}

func TestBodyKeyHoldsItsParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		part := func(max int, name string) int { return rapid.IntRange(0, max-1).Draw(t, name) }
		chart, size, sex := part(maxCharts, "chart"), part(maxSizes, "size"), part(len(bodySexes), "sex")
		measurement, statistic, unit := part(maxMeasurements, "measurement"), part(len(bodyStatistics), "statistic"), part(len(bodyUnits), "unit")
		k := newBodyKey(chart, size, sex, measurement, statistic, unit)
		require.Equal(t, []int{chart, size, sex, measurement, statistic, unit},
			[]int{k.chart(), k.size(), k.sex(), k.measurement(), k.statistic(), k.unit()})
		require.Equal(t, newBodyKey(chart, 0, sex, measurement, statistic, unit), k.withSize(0))
		require.Equal(t, newBodyKey(chart, size, 0, measurement, statistic, unit), k.withSex(0))
		require.Equal(t, newBodyKey(chart, size, sex, 7, statistic, unit), k.withMeasurement(7))
		require.Equal(t, newBodyKey(chart, size, sex, measurement, inP50, unit), k.withStatistic(inP50))
		require.Equal(t, newBodyKey(chart, size, sex, measurement, statistic, inKg), k.withUnit(inKg))
	})
}
