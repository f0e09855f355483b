package sizing

import "testing"

// What a run of the program costs that looks up one size: the embedded tables
// read, and the columns of one run made.
func BenchmarkFirstSize(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		ref, err := readEmbedded()
		if err != nil {
			b.Fatal(err)
		}
		place, err := ref.charts[defaultChart].Place("3", Both)
		if err != nil {
			b.Fatal(err)
		}
		if len(ref.BodyAt(place, Monotone).Readings) == 0 {
			b.Fatal("nothing read")
		}
	}
}
