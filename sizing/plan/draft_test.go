package plan

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/testdata/samples"
)

// A draft gives every part once, in counts where it has them, and the body
// where nothing else names it. That the rules accept it is tested with them.
func TestDraft(t *testing.T) {
	p := suit(t, singleCrochet)
	values := make(map[string]string)
	for _, r := range p.Draft() {
		key := r.Field + " " + r.Part
		require.NotContains(t, values, key)
		values[key] = r.Value
		require.NotEmpty(t, r.Value, key)
		require.Len(t, r.Cells(), len(DraftColumns))
	}
	require.Equal(t, "one-piece-hooded", values["garment "])
	require.Equal(t, "winter", values["layer "])
	require.Equal(t, "50.5", values["body chest"])
	for _, x := range p.Parts {
		v := values["finished "+x.Line.Part.Part]
		require.NotEmpty(t, v)
		if x.Count > 0 {
			require.Equal(t, strconv.Itoa(x.Count), v)
		}
	}
	require.Equal(t, strconv.Itoa(p.Circular.Body), values["split body"])
	require.Equal(t, strconv.Itoa(p.Legs.Bridge), values["split bridge"])

	named := p.Draft(Row{Field: "size", Value: "4"})
	for _, r := range named {
		require.NotEqual(t, "body", r.Field)
	}
}

// What a drop shoulder makes larger on purpose is said as meant.
func TestDraftSaysWhatIsMeant(t *testing.T) {
	how := stocking
	how.Construction = DropShoulder
	m := samples.Spec("pullover")
	m.Extra = map[string]float64{"sleeve_length": 1.5}
	p, err := Make(samples.Finish(t, samples.BodyAt(t, "6"), m), how)
	require.NoError(t, err)
	sleeve, _ := p.Part("upper_arm")
	hole, _ := p.Part("armhole_depth")
	require.InDelta(t, 2*hole.SizeCm, sleeve.SizeCm, p.How.Gauge.StitchWidthCm())
	found := 0
	for _, r := range p.Draft() {
		if r.Field == "extra" && (r.Part == "upper_arm" || r.Part == "sleeve_length") {
			found++
			require.False(t, r.Why.IsZero())
		}
	}
	require.Equal(t, 2, found)
}
