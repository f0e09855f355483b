package tell

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

func TestForms(t *testing.T) {
	for _, c := range []struct {
		form string
		arg  any
		unit string
		want string
	}{
		{"", 3, "cm", "3"},
		{"", 2.345, "cm", "2.35"},
		{"", sizing.Length(14.25), "cm", "14.3 cm"},
		{"", sizing.Length(14.25), "in", "14.3 cm (5.6 in)"},
		{"cm", sizing.Length(14), "cm", "14 cm"},
		{"cm1", sizing.Length(14), "cm", "14.0 cm"},
		{"cm1", sizing.Length(-0.01), "cm", "0.0 cm"},
		{"cm4", sizing.Length(110.5), "both", "110.5 cm (43.5 in)"},
		{"cm0", sizing.Length(25.4), "in", "25 cm (9.8 in)"},
		{"range", sizing.Range{Low: 2.5, High: 5}, "in", "2.5 to 5 cm (1 to 2 in)"},
		{"range", sizing.Range{Low: 2.5, High: sizing.Length(math.Inf(1))}, "cm", "at least 2.5 cm"},
		{"range", sizing.Range{Low: 2.5, High: 2.51}, "cm", "2.5 cm"},
		{"stitches", 1, "cm", "1 stitch"},
		{"rounds", 2, "cm", "2 rounds"},
		{"times", 1, "cm", "once"},
		{"times", 4, "cm", "4 times"},
		{"nth", 1, "cm", "1st"},
		{"nth", 3, "cm", "3rd"},
		{"nth", 4, "cm", "4th"},
		{"nth", 11, "cm", "11th"},
		{"nth", 12, "cm", "12th"},
		{"nth", 13, "cm", "13th"},
		{"nth", 103, "cm", "103rd"},
		{"nth", 112, "cm", "112th"},
		{"nth", 22, "cm", "22nd"},
		{"pct", 0.125, "cm", "13 %"},
		{"percent", 0.08, "cm", "8"},
		{"quarters", 9.5, "cm", "9 1/2"},
		{"capital", "cuff", "cm", "Cuff"},
		{"section", "back-neck", "cm", "Back of the neck"},
		{"n2", 1.5, "cm", "1.50"},
		{"g3", 1.2345, "cm", "1.23"},
		{"spoken", "upper_arm", "cm", "upper arm"},
		{"quoted", "a b", "cm", `"a b"`},
		{"join", []string{"a", "b"}, "cm", "a, b"},
		{"", []string{"a", "b", "c"}, "cm", "a, b and c"},
		{"", sizing.Text("as written"), "cm", "as written"},
	} {
		require.Equal(t, c.want, Style{Unit: c.unit}.value(c.arg, c.form), "%s of %v in %s", c.form, c.arg, c.unit)
	}
}

func TestFillTakesArgumentsInOrderAndByNumber(t *testing.T) {
	args := []string{"a", "b", "c"}
	got := fill("{}, {} – {1:x}{3:}", func(i int, form string) string { return args[i] + form })
	require.Equal(t, "a, b – axc", got)
}
