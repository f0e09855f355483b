package validate_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/proof"
	"growtuck/testdata/samples"
	"growtuck/validate"
)

// finishedDraft is a draft that has every part at the size the reference makes.
func finishedDraft(f *sizing.Finished, size string) string {
	m := f.Spec
	var b strings.Builder
	row := func(field, part, value, unit string) { fmt.Fprintf(&b, "%s,%s,%s,%s,\n", field, part, value, unit) }
	b.WriteString(head)
	row("garment", "", m.Garment, "")
	row("fit", "", string(m.Fit), "")
	row("layer", "", string(m.Layer), "")
	row("size", "", size, "")
	if m.Nappy {
		row("nappy", "", "yes", "")
	}
	if m.Seasons > 0 {
		row("growth", "", fmt.Sprint(m.Seasons), "seasons")
	}
	for _, l := range f.Lines {
		row("finished", l.Part.Part, fmt.Sprintf("%.1f", l.Finished), "cm")
		if slices.Contains([]string{"neck", "cuff", "ankle", "waist", "brim"}, l.Part.Part) {
			row("stretch", l.Part.Part, "1.7", "times")
		}
	}
	return b.String()
}

// What the reference itself makes is no fault: every garment, fit, layer and
// size, with and without growth room. What must be said all the same is listed
// with its reason. By default a quarter of them, scattered, is checked.
func TestReferenceIsClean(t *testing.T) {
	t.Parallel()
	ref := samples.Reference(t)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	const legs = "the trade's hip is large against the surveyed thigh; in tight fits two legs come out under it"
	const bridge = "the finished leg is the thigh with its ease; a plan widens it to half the hips and the bridge"
	meant := map[string]string{ // rule and garment group
		"G01 upper":     "a neck that suits a child's neck does not pass the head without an opening, stretched 1.7 times or not",
		"P01 one-piece": "the trade's babies have a waist as large as their hip, and a suit has more ease at the waist",
		"P01 upper":     "a baby's back widens by more in a year than a very close cardigan leaves across",
		"P10 lower":     bridge,
		"P10 one-piece": bridge,
		"P07 lower":     legs,
		"P07 one-piece": legs,
	}
	first := make(map[string]string)
	count := make(map[string]int)
	n, drafts, every := 0, 0, 4
	if proof.Whole() {
		every = 1
	}
	for _, g := range ref.Garments() {
		for _, fit := range sizing.Fits {
			for _, layer := range sizing.Layers {
				for _, size := range []string{"6m", "12m", "18m", "2", "3", "4", "5.5", "7", "8", "10", "12", "14"} {
					for _, seasons := range []float64{0, 2} {
						if n++; scattered(n)%every != 0 {
							continue
						}
						place, err := chart.Place(size, sizing.Both)
						require.NoError(t, err)
						m := sizing.Spec{Garment: g.ID, Fit: fit, Layer: layer, Seasons: seasons,
							Nappy: seasons > 0 && (g.Group == "lower" || g.Group == "one-piece")}
						f, err := ref.Finish(ref.BodyAt(place, sizing.Monotone), m)
						if err != nil {
							continue // the chart has none of its measurements
						}
						drafts++
						for _, found := range check(t, ref, finishedDraft(f, size)) {
							if found.Severity == validate.Note {
								continue
							}
							key := found.Rule + " " + g.Group
							if count[key]++; count[key] == 1 {
								first[key] = fmt.Sprintf("%s %s %s %s: %s", g.ID, size, fit, layer, found.String())
							}
						}
					}
				}
			}
		}
	}
	require.Greater(t, drafts, 2000/every)
	for _, key := range slices.Sorted(maps.Keys(count)) {
		require.NotEmpty(t, meant[key], "%s, %d of %d drafts: %s", key, count[key], drafts, first[key])
	}
	for key := range meant {
		require.NotZero(t, count[key], "%s does not fire any more: take it out of the list", key)
	}
}
