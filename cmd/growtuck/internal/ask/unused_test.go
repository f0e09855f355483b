package ask_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/sizing"
	"growtuck/testdata/samples"
)

// What is given and does nothing is said: fields without the one that they go with,
// and crochet's in knitting, where they are not merely as usual.
func TestUnused(t *testing.T) {
	for _, tt := range []struct {
		given ask.Values
		want  []string
	}{
		{ask.Values{"craft": {"knit"}, "stitch": {"dc"}, "rounds": {"spiral"}}, []string{"--stitch does nothing with --craft knit: it is for crochet", "--rounds does nothing with --craft knit: it is for crochet"}},
		{ask.Values{"craft": {"knit"}, "terms": {"us"}, "rounds": {"usual"}}, nil},
		{ask.Values{"craft": {"crochet"}, "stitch": {"dc"}, "terms": {"uk"}}, nil},
		{ask.Values{"craft": {"knit"}, "swatch": {"10x10cm 4g"}}, []string{"--swatch does nothing without --yarn"}},
	} {
		tt.given["garment"], tt.given["size"], tt.given["gauge"] = []string{"hat"}, []string{"6"}, []string{"14x8/10cm"}
		r, faults := ask.Read(samples.Reference(t), ask.PlanFields(), tt.given, sizing.Child{})
		require.Empty(t, faults)
		require.ElementsMatch(t, tt.want, r.Unused(ask.PlanFields()))
	}
}
