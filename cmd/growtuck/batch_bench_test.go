package main

import (
	"encoding/csv"
	"io"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"growtuck/testdata/paired"
)

// BenchmarkBatch sizes a list on all cores, beside encoding/csv copying the same bytes
// on one: the ratio is that of the time which a user waits, cpu-ns/child what all cores
// together take.
func BenchmarkBatch(b *testing.B) {
	const children = 50_000
	text := someChildren(children, false)
	common := commonChildren(b, text)
	copying := func(text string) func() {
		return func() {
			r, w := csv.NewReader(strings.NewReader(text)), csv.NewWriter(io.Discard)
			r.ReuseRecord = true
			for {
				row, err := r.Read()
				if err == io.EOF {
					break
				}
				require.NoError(b, err)
				require.NoError(b, w.Write(row))
			}
			w.Flush()
		}
	}
	for _, tt := range []struct{ name, text, args string }{
		{"default", text, ""}, {"three", text, "--want chest,waist,inside_leg"}, {"common", common, ""}, {"common-three", common, "--want chest,waist,inside_leg"},
		{"ranges", text, "--ranges"}, {"garment", text, "--garment pullover"}, {"json", text, "--format json"},
	} {
		b.Run(tt.name, func(b *testing.B) {
			var used time.Duration
			paired.Bench(b, paired.Timed(func() {
				before := processorTime(b)
				require.Zero(b, run(append([]string{"batch"}, strings.Fields(tt.args)...), strings.NewReader(tt.text), io.Discard, io.Discard))
				used += processorTime(b) - before
			}), paired.Timed(copying(tt.text)))
			b.ReportMetric(float64(used.Nanoseconds())/float64(b.N)/children, "cpu-ns/child")
		})
	}
}

// commonChildren is what most lists have of those children: a name, sex, age, height and
// chest.
func commonChildren(b *testing.B, text string) string {
	b.Helper()
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	require.NoError(b, err)
	var out strings.Builder
	w := csv.NewWriter(&out)
	for _, r := range rows {
		require.NoError(b, w.Write([]string{r[1], r[2], r[3], r[4], r[6]}))
	}
	w.Flush()
	return out.String()
}

// processorTime is what the process has used of all cores: what a run costs
// where others use them too.
func processorTime(b *testing.B) time.Duration {
	b.Helper()
	var used syscall.Rusage
	require.NoError(b, syscall.Getrusage(syscall.RUSAGE_SELF, &used))
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}
