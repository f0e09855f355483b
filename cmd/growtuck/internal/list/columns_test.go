package list

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data/table"
	"growtuck/testdata/samples"
)

func TestColumns(t *testing.T) {
	ref := samples.Reference(t)
	for _, c := range []struct {
		text, unit string // of lengths that name none
		want       column
		err        string
	}{
		{text: "height", unit: "cm", want: column{name: "height", role: measuredColumn, unit: "cm", id: "height"}},
		{text: "Inside leg (in)", unit: "cm", want: column{name: "inside_leg_in", role: measuredColumn, unit: "in", named: true, id: "inside_leg"}},
		{text: "chest_in_inches", unit: "mm", want: column{name: "chest_in_inches", role: measuredColumn, unit: "in", named: true, id: "chest"}},
		{text: "weight", unit: "in", want: column{name: "weight", role: measuredColumn, unit: "lb", id: "weight"}},
		{text: "weight", unit: "mm", want: column{name: "weight", role: measuredColumn, unit: "kg", id: "weight"}},
		{text: "Age (months)", unit: "cm", want: column{name: "age_months", role: ageColumn, unit: "months", named: true}},
		{text: "Height (m)", unit: "cm", want: column{name: "height_m", role: measuredColumn, unit: "m", named: true, id: "height"}},
		{text: "height, feet", unit: "cm", want: column{name: "height_feet", role: measuredColumn, unit: "ft", named: true, id: "height"}},
		{text: "weight_g", unit: "cm", want: column{name: "weight_g", role: measuredColumn, unit: "g", named: true, id: "weight"}},
		{text: "SEX", unit: "cm", want: column{name: "sex", role: sexColumn}},
		{text: "size", unit: "cm", want: column{name: "size", role: computedColumn}},
		{text: "voice", unit: "cm", want: column{name: "voice", role: copiedColumn}},
		{text: "height_kg", unit: "cm", err: "column height_kg: a length is not in kg"},
	} {
		got, err := newColumn(ref, c.text, c.text, Options{Unit: c.unit, Computed: []string{"size"}})
		if c.err != "" {
			require.EqualError(t, err, c.err)
			continue
		}
		require.NoError(t, err)
		c.want.raw = c.text
		require.Equal(t, c.want, got)
	}
}

func TestSeparators(t *testing.T) {
	for header, want := range map[string]separator{"a": ',', "a,b": ',', "a;b,c": ';', "a,b\tc;d": '\t', `"a;b",c`: ','} {
		require.Equal(t, want, separator(table.Separator(header)), header)
	}
	require.Equal(t, "4,4–5,5", string(separator(';').localize([]byte("4.4–5.5"))))
	require.Equal(t, "4.4", string(separator(',').localize([]byte("4.4"))))
}
