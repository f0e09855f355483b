package plan

import (
	"strconv"
	"testing"

	"growtuck/sizing"
	"growtuck/testdata/samples"
)

func BenchmarkSuit(b *testing.B) {
	m := samples.Spec("one-piece-hooded")
	m.Layer = "winter"
	f := samples.Finish(b, samples.Baby(b), m)
	how := withYarn(singleCrochet)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Make(f, how); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRaglanPullover(b *testing.B) {
	f := samples.Finish(b, samples.BodyAt(b, "6"), samples.Spec("pullover"))
	how := stocking
	how.Construction = Raglan
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Make(f, how); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkHat(b *testing.B) {
	f := samples.Finish(b, samples.BodyAt(b, "6"), samples.Spec("hat"))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Make(f, stocking); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkGradeTwelveSizes(b *testing.B) {
	var labels []string
	var run []*sizing.Finished
	for size := 2; size <= 13; size++ {
		labels = append(labels, strconv.Itoa(size))
		run = append(run, samples.Finish(b, samples.BodyAt(b, strconv.Itoa(size)), samples.Spec("cardigan")))
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Grade(labels, run, singleCrochet); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDraft(b *testing.B) {
	p := suit(b, singleCrochet)
	b.ReportAllocs()
	for b.Loop() {
		if len(p.Draft()) == 0 {
			b.Fatal("no rows")
		}
	}
}
