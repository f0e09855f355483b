package main

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/testdata/bounded"
)

// Whatever the bytes, a survey is read or refused with its name.
func FuzzReadSurvey(f *testing.F) {
	columns := requiredColumns()
	f.Add(strings.Join(columns, ",") + "\n" + strings.TrimSuffix(strings.Repeat("100,", len(columns)), ",") + "\n")
	row := make([]string, len(columns))
	for i, c := range columns {
		row[i] = map[string]string{"sex": "m", "age_years": "4.5", "stature": "110"}[c]
	}
	f.Add(strings.Join(columns, ",") + "\n" + strings.Join(row, ",") + "\n")
	f.Add("")
	f.Fuzz(func(t *testing.T, text string) {
		defer bounded.By(t, 64<<20)()
		children, err := readSurvey(strings.NewReader(text), "survey.csv")
		if err != nil {
			var fault *data.Error
			require.ErrorAs(t, err, &fault)
			require.Equal(t, "survey.csv", fault.File)
			return
		}
		require.NotEmpty(t, children)
		for _, c := range children {
			require.Len(t, c.values, len(variables))
			require.False(t, math.IsNaN(c.height))
			for _, v := range c.values {
				require.False(t, math.IsInf(v, 0))
			}
		}
	})
}
