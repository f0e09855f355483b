// Package paired times two pieces of work in turn, so that their ratio holds on a
// machine whose speed drifts. It is for benchmarks alone.
package paired

import (
	"slices"
	"testing"
	"time"
)

// Bench runs the work and what it is measured against, in turn, and reports the
// medians of both and of their ratio, pair by pair. Each returns how long it took.
func Bench(b *testing.B, work, against func() time.Duration) {
	b.Helper()
	var of, beside, ratio []float64
	for b.Loop() {
		y := against().Seconds()
		x := work().Seconds()
		of, beside, ratio = append(of, x*1e3), append(beside, y*1e3), append(ratio, x/y)
	}
	b.ReportMetric(0, "ns/op") // of both together: says nothing
	b.ReportMetric(median(of), "ms")
	b.ReportMetric(median(beside), "ms-beside")
	b.ReportMetric(median(ratio), "ratio")
}

// Timed is how long something takes.
func Timed(run func()) func() time.Duration {
	return func() time.Duration {
		start := time.Now()
		run()
		return time.Since(start)
	}
}

func median(all []float64) float64 {
	slices.Sort(all)
	return all[len(all)/2]
}
