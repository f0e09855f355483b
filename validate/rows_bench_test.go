package validate

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/testdata/paired"
)

// manyRows makes a proposal of at least n rows out of our own, in as many
// copies of the survey's chart as that takes, and the tables to check it
// against.
func manyRows(tb testing.TB, n int) ([]byte, *data.Tables) {
	tb.Helper()
	own, err := data.Load(data.Embedded())
	require.NoError(tb, err)
	t := *own
	t.Charts, t.Sizes = append([]data.Chart(nil), own.Charts...), append([]data.Size(nil), own.Sizes...)
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	require.NoError(tb, w.Write(formOf(newTableForms(), bodyTable).names()))
	rows := 0
	for copies := 0; rows < n; copies++ {
		id := fmt.Sprintf("survey-%03d", copies)
		t.Charts = append(t.Charts, data.Chart{ID: id, Title: id, Source: "cpsc-1977"})
		for _, z := range own.Sizes {
			if z.Chart == "measured" {
				z.Chart = id
				t.Sizes = append(t.Sizes, z)
			}
		}
		for _, r := range own.Body {
			if r.Chart == "measured" {
				require.NoError(tb, w.Write([]string{id, r.Size, r.Sex, r.Measurement, r.Statistic,
					strconv.FormatFloat(r.Value, 'f', -1, 64), r.Unit, r.Source, r.Where, r.Basis, r.Review, r.Note, "98"}))
				rows++
			}
		}
	}
	w.Flush()
	require.NoError(tb, w.Error())
	return b.Bytes(), &t
}

func TestManyRowsAreCheckedInOneRun(t *testing.T) {
	raw, tables := manyRows(t, 100_000)
	findings, err := CheckRows(bytes.NewReader(raw), "many.csv", tables)
	require.NoError(t, err)
	require.Empty(t, atLeast(findings, Warn))
	require.Less(t, testing.AllocsPerRun(1, func() { _, _ = CheckRows(bytes.NewReader(raw), "many.csv", tables) }), 220_000.0)

	// A fault in the last row is found, at its line.
	lines := strings.Count(string(raw), "\n")
	raw = append(raw, "survey-000,86,m,chest,p50,NaN,cm,cpsc-1977,p. 1,computed,read twice,,1\n"...)
	findings, err = CheckRows(bytes.NewReader(raw), "many.csv", tables)
	require.NoError(t, err)
	require.Equal(t, fmt.Sprintf(`many.csv:%d:27: stop R04: value: rows.not-number NaN; expected rows.number`, lines+1),
		atLeast(findings, Warn)[0].String())
}

// atLeast picks the findings of a severity or worse.
func atLeast(findings []Finding, severity Severity) []Finding {
	var some []Finding
	for _, f := range findings {
		if f.Severity >= severity {
			some = append(some, f)
		}
	}
	return some
}

// BenchmarkCheckRows checks rows beside encoding/csv reading the same bytes, keeping
// none of them and keeping all.
func BenchmarkCheckRows(b *testing.B) {
	raw, tables := manyRows(b, 100_000)
	check := func() {
		_, err := CheckRows(bytes.NewReader(raw), "many.csv", tables)
		require.NoError(b, err)
	}
	read := func() {
		r := csv.NewReader(bytes.NewReader(raw))
		r.ReuseRecord = true
		for {
			if _, err := r.Read(); err == io.EOF {
				return
			} else if err != nil {
				b.Fatal(err)
			}
		}
	}
	readAll := func() {
		_, err := csv.NewReader(bytes.NewReader(raw)).ReadAll()
		require.NoError(b, err)
	}
	b.Run("alone", func(b *testing.B) {
		b.SetBytes(int64(len(raw)))
		b.ReportAllocs()
		for b.Loop() {
			check()
		}
	})
	b.Run("csv-read", func(b *testing.B) { paired.Bench(b, paired.Timed(check), paired.Timed(read)) })
	b.Run("csv-read-all", func(b *testing.B) { paired.Bench(b, paired.Timed(check), paired.Timed(readAll)) })
}
