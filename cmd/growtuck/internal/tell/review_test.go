package tell

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/validate"
)

func TestReviewSheet(t *testing.T) {
	none := math.NaN()
	r := &validate.Review{
		File: "rows|new.csv",
		Values: []validate.ReviewedValue{
			{Chart: "craft", Size: "4", Sex: "both", Measurement: "chest", Statistic: "given", Unit: "cm", Line: 2,
				Value: 60, Was: 58.5, BelowSize: "2", Below: 53, AboveSize: "6", Above: 63.5, Between: 58.831},
			{Chart: "craft", Size: "4", Sex: "both", Measurement: "calf", Statistic: "low", Unit: "cm", Line: 3,
				Value: 22, Was: none, Below: none, AboveSize: "6", Above: 24, Between: none},
		},
		Moves: []validate.ReviewedMove{{Chart: "craft", Sex: "both", Place: "3.5", Measurement: "chest", Unit: "cm", Before: 57.1, After: 58.237}},
	}
	found := []validate.Finding{{Rule: "R08", Severity: validate.Warn, File: "rows.csv", Line: 3, Found: sizing.NewFact("rows.belongs-before", 2)}}
	require.Equal(t, `# Review of rows\|new.csv

## New and changed values: 2

The chart would have read: what lies between the other sizes without this row.

| line | chart | size | sex | measurement | value | was | size below | size above | the chart would have read | off by |
| ---: | --- | --- | --- | --- | ---: | ---: | ---: | ---: | ---: | ---: |
| 2 | craft | 4 | both | chest | 60 cm | 58.5 | 2: 53 | 6: 63.5 | 58.83 | +1.17 |
| 3 | craft | 4 | both | calf low | 22 cm | – | – | 6: 24 | – | – |

## Readings that move by more than 0.5 cm (or kg): 1

| chart | sex | at | measurement | before | after | moved |
| --- | --- | ---: | --- | ---: | ---: | ---: |
| craft | both | 3.5 | chest | 57.1 | 58.24 cm | +1.14 |

## Findings: 1

- rows.csv:3: warn R08: the row belongs before line 2
`, string(ReviewSheet(r, found)))
}

func TestReviewSheetOfNothing(t *testing.T) {
	require.Equal(t, "# Review of p.csv\n\n## New and changed values: 0\n\n## Readings that move by more than 0.5 cm (or kg): 0\n\n## Findings: 0\n", string(ReviewSheet(&validate.Review{File: "p.csv"}, nil)))
}

// A sheet has an end, and says how much is left out.
func TestReviewSheetIsBounded(t *testing.T) {
	sheet := string(Review(&validate.Review{Values: make([]validate.ReviewedValue, maxReviewed+3)}))
	require.Equal(t, maxReviewed+2, strings.Count(sheet, "\n|"))
	require.Contains(t, sheet, "\nand 3 more\n\n## Readings")
}
