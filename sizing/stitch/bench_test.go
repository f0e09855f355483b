package stitch

import "testing"

// Benchmarks of what a full plan spends its time on.

func BenchmarkCircularYoke(b *testing.B) {
	y := childrensYokes()[5]
	b.ReportAllocs()
	for b.Loop() {
		if _, err := PlanCircularYoke(customary(y)); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRaglan(b *testing.B) {
	y := childrensYokes()[5]
	b.ReportAllocs()
	for b.Loop() {
		if _, err := PlanRaglan(customary(y)); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkGradeTwelveYokes(b *testing.B) {
	sizes := childrensYokes()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := GradeYokes(customaryRun(sizes)); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTaper(b *testing.B) {
	t := Taper{From: 60, To: 38, Rows: 62, RightSideOnly: true}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := t.Schedule(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAcross(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ShapeAcross(132, 17, true); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCount(b *testing.B) {
	m := Multiple{6, 2}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := m.Count(105.6, Nearest); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkHood(b *testing.B) {
	h := HoodTarget{Gauge: Gauge{16, 18}, Neck: 48, RoundCm: 43, HeightCm: 32, Shape: ShapedHood}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := PlanHood(customaryHood(h)); err != nil {
			b.Fatal(err)
		}
	}
}
