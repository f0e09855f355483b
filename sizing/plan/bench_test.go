package plan

import (
	"strconv"
	"testing"

	"growtuck/sizing"
)

func BenchmarkSuit(b *testing.B) {
	m := spec("one-piece-hooded")
	m.Layer = "winter"
	f := finish(b, baby(b), m)
	how := withYarn(singleCrochet)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Make(f, how); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRaglanPullover(b *testing.B) {
	f := finish(b, bodyAt(b, "6"), spec("pullover"))
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
	f := finish(b, bodyAt(b, "6"), spec("hat"))
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
		run = append(run, finish(b, bodyAt(b, strconv.Itoa(size)), spec("cardigan")))
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
