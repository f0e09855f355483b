package tell

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

func TestReasonsBySize(t *testing.T) {
	var s bySize
	s.reading("3", "16.0", Reason{How: "between", From: "child, between 2 and 4", Formula: "a - b [x]", Notes: []string{"a note"}})
	s.reading("4", "17.5", Reason{How: "derived", From: "child 4", Formula: "a - b [x]", Notes: []string{"a note"}})
	s.reading("5", "18.5", Reason{How: "measured on the child"})
	s.reading("6", "19.0", Reason{How: "published", From: "child 6 [x]"})
	s.add("4", "range 1–2")
	require.Equal(t, []string{
		"3: 16.0, between, child, between 2 and 4", "3, 4: a - b [x]", "3, 4: a note",
		"4: 17.5, derived, child 4", "5: 18.5, measured on the child", "6: 19.0, published: child 6 [x]", "4: range 1–2",
	}, s.lines())
}

func TestLengthsInTables(t *testing.T) {
	for cm, want := range map[float64][2]string{53: {"53.0", "20 3/4"}, 24.6: {"24.5", "9 3/4"}, 0.6: {"0.5", "1/4"}} {
		require.Equal(t, want, [2]string{LengthIn(cm, "cm"), LengthIn(cm, "in")})
	}
	require.Equal(t, [4]string{"", "+4.0", "−4.0", "−1 1/2"}, [4]string{signed(0, "cm"), signed(4, "cm"), signed(-4, "cm"), signed(-3.81, "in")})
	require.Equal(t, "−4 cm (−1 1/2 in)", quantity(-4, "both"))
}

func TestGaugeAsItWasCounted(t *testing.T) {
	g, err := stitch.Swatch{Stitches: 20, WidthCm: 10.16, Rows: 28, HeightCm: 10.16}.Gauge()
	require.NoError(t, err)
	require.Equal(t, "20 stitches and 28 rows to 4 in", Style{Over4In: true}.Gauge(g))
	require.Equal(t, "19.69 stitches and 27.56 rows to 10 cm", Style{}.Gauge(g))
}

func TestChildLine(t *testing.T) {
	for want, years := range map[string]float64{"9 months": 0.75, "1 month": 1.0 / 12, "1 year": 1, "1 year 1 month": 1 + 1.0/12, "4 years 1 month": 4 + 1.0/12, "14 years": 14} {
		require.Equal(t, want, ChildLine(sizing.Child{AgeYears: years}))
	}
	require.Equal(t, "Juno, girl, 4 years", ChildLine(sizing.Child{Name: "Juno", Sex: sizing.Girl, AgeYears: 4}))
}
