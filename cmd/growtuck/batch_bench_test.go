package main

import (
	"encoding/csv"
	"io"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// BenchmarkBatch sizes a list beside what it costs to copy the same bytes with
// encoding/csv: the ratio of the two is the figure to look at.
func BenchmarkBatch(b *testing.B) {
	const children = 50_000
	text := someChildren(children, false)
	rate := func(b *testing.B, before time.Duration) {
		b.ReportMetric(float64((processorTime(b)-before).Nanoseconds())/float64(b.N)/children, "cpu-ns/child")
		b.ReportMetric(float64(children)*float64(b.N)/b.Elapsed().Seconds(), "children/s")
		b.SetBytes(int64(len(text)))
	}
	b.Run("copy", func(b *testing.B) {
		before := processorTime(b)
		for b.Loop() {
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
		rate(b, before)
	})
	for _, tt := range []struct{ name, args string }{
		{"default", ""}, {"three", "--want chest,waist,inside_leg"}, {"ranges", "--ranges"}, {"garment", "--garment pullover"}, {"json", "--format json"},
	} {
		b.Run(tt.name, func(b *testing.B) {
			before := processorTime(b)
			for b.Loop() {
				require.Zero(b, run(append([]string{"batch"}, strings.Fields(tt.args)...), strings.NewReader(text), io.Discard, io.Discard))
			}
			rate(b, before)
		})
	}
}

// processorTime is what the process has used of all cores: what a run costs
// where others use them too.
func processorTime(b *testing.B) time.Duration {
	b.Helper()
	var used syscall.Rusage
	require.NoError(b, syscall.Getrusage(syscall.RUSAGE_SELF, &used))
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}
