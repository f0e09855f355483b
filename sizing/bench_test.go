package sizing_test

import (
	"testing"

	"growtuck/data"
	"growtuck/sizing"
)

// What the first use of the tables costs, after they are read.
func BenchmarkNew(b *testing.B) {
	t := tables(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := sizing.New(t); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLoadAndNew(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		t, err := data.Load(data.Embedded())
		if err != nil {
			b.Fatal(err)
		}
		if _, err := sizing.New(t); err != nil {
			b.Fatal(err)
		}
	}
}
