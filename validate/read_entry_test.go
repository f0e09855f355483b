package validate

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// A draft is read as it is filled in by hand: capitals, decimal commas, units in words and
// beside the number.
func TestDraftByHand(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	plain := "field,part,value,unit,note\ngarment,,one-piece-hooded,,\nfit,,classic,,\nlayer,,indoor,,\nnappy,,yes,,\nsize,,4,,\ncraft,,knit,,\n" +
		"body,chest,58.5,cm,\nstitch_gauge,,20,10 cm,\nrow_gauge,,28,10 cm,\nfinished,chest,132,stitches,\nfinished,sleeve_length,80,rows,\nfinished,neck,11,in,\n"
	byHand := "field,part,value,unit,note\nGarment,,One-piece hooded,,\nFit,,Classic,,\nLAYER,, Indoor ,,\nNappy,,Yes,,\nsize,,4,,\ncraft,,Knit,,\n" +
		"Body,Chest,\"58,5 cm\",,\nStitch gauge,,\"20,0\",10 cm,\nrow gauge,,28 rows,10 cm,\nfinished,Chest,132 sts,,\nFinished,sleeve length,80 rounds,Rows,\nfinished,neck,11 inches,,\n"
	read := func(text string) []Entry {
		d, err := ReadDraft(ref, strings.NewReader(text), "draft.csv", nil)
		require.NoError(t, err)
		var all []Entry
		for _, e := range d.entries {
			all = append(all, Entry{Field: e.Field, Part: e.Part, Unit: e.Unit, Count: e.Count, Number: e.Number, Cm: e.Cm})
		}
		return all
	}
	require.Equal(t, read(plain), read(byHand))

	for row, words := range map[string]string{
		"finished,chest,132 rows,stitches,":        "is not a whole number of stitches",
		"finished,chest,\"66,5\",stitches,":        "is not a whole number of stitches",
		"finished,chest,132 furlongs,stitches,":    "is not a whole number",
		"row_gauge,,28 sts,10 cm,":                 "28 sts",
		"finished,chest,132,,":                     "has no unit",
		"fit,,Snug,,":                              "is not one of",
		"finished,sleeve_length,30 stitches,rows,": "is not a whole number of rows",
	} {
		_, err := ReadDraft(ref, strings.NewReader("field,part,value,unit,note\ngarment,,pullover,,\n"+row+"\n"), "draft.csv", nil)
		require.ErrorContains(t, err, words, row)
	}
}
