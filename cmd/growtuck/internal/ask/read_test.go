package ask_test

import (
	"net/url"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/data"
	"growtuck/sizing"
)

// A field that a garment has no part for is refused for it, and taken for every
// other.
func TestFieldsApplyToGarments(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	for _, g := range ref.Garments() {
		parts, err := ref.Parts(g.ID)
		require.NoError(t, err)
		has := func(id string) bool {
			return slices.ContainsFunc(parts, func(p data.Part) bool { return p.Part == id })
		}
		for _, f := range ask.PlanFields() {
			if len(f.Parts) == 0 {
				continue
			}
			values := ask.Values{"garment": {g.ID}, f.Name: fieldSamples[f.Name].texts}
			_, faults := ask.Read(ref, ask.PlanFields(), values, sizing.Child{})
			if slices.ContainsFunc(f.Parts, has) {
				require.Empty(t, faults, "%s of %s", f.Name, g.ID)
				continue
			}
			require.ErrorContains(t, faults.Of(f.Name), f.Name+" is for "+f.For+", not for "+g.ID, "%s of %s", f.Name, g.ID)
			if f.Usual != "" { // a form or a workbook has it filled in for every garment
				values[f.Name] = []string{f.Usual}
				_, faults = ask.Read(ref, ask.PlanFields(), values, sizing.Child{})
				require.Empty(t, faults, "the usual %s of %s", f.Name, g.ID)
			}
		}
	}
}

func TestReadFaults(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	for _, tt := range []struct {
		values     ask.Values
		field, key string
		want       string
	}{
		{ask.Values{"set": {"height=110", "height=120"}}, "set", "height", "set height is given twice"},
		{ask.Values{"set": {"hieght=110"}}, "set", "hieght", `did you mean "height"?`},
		{ask.Values{"extra": {"chest=1", "chest=2"}}, "extra", "chest", "extra chest is given twice"},
		{ask.Values{"fit": {"clasic"}}, "fit", "", `unknown fit "clasic"; did you mean "classic"?`},
		{ask.Values{"growth": {"5"}}, "growth", "", "want a number from 0 to 4"},
		{ask.Values{"growth": {"NaN"}}, "growth", "", "want a number from 0 to 4"},
		{ask.Values{"margin": {"-0.1"}}, "margin", "", "want a number from 0 to 1"},
		{ask.Values{"nappy": {"perhaps"}}, "nappy", "", "is not true or false"},
		{ask.Values{"layer": {"skin", "winter"}}, "layer", "", "layer is given 2 times"},
		{ask.Values{"widths": {"4"}}, "lengths", "", "widths without lengths"},
		{ask.Values{"size": {"4"}, "widths": {"4"}, "lengths": {"5"}}, "size", "", "give either size or both of those"},
		{ask.Values{"used": {"40"}}, "used", "", "go with done"},
		{ask.Values{"gauge": {"18"}}, "gauge", "", "want stitches x rows over a length"},
	} {
		values := ask.Values{"garment": {"trousers"}}
		for name, texts := range tt.values {
			values[name] = texts
		}
		_, faults := ask.Read(ref, ask.PlanFields(), values, sizing.Child{})
		require.Len(t, faults, 1, "%v: %v", tt.values, faults)
		require.Equal(t, tt.field, faults[0].Field)
		require.Equal(t, tt.key, faults[0].Key)
		require.ErrorContains(t, faults, tt.want)
	}
}

// What is wrong in one field leaves the others as they were said.
func TestFaultsLeaveTheRest(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	r, faults := ask.Read(ref, ask.PlanFields(), ask.Values{"garment": {"hat"}, "age": {"old"}, "sex": {"f"}, "fit": {"loose"}, "gauge": {"x"},
		"set": {"head=51", "chest=much"}}, sizing.Child{})
	require.Len(t, faults, 3)
	require.Equal(t, sizing.Girl, r.Child.Sex)
	require.Zero(t, r.Child.AgeYears)
	require.Equal(t, map[string]float64{"head": 51}, r.Child.Own)
	require.Equal(t, sizing.Fit("loose"), r.Spec.Fit)
	require.Equal(t, sizing.Layer("skin"), r.Spec.Layer)
}

func TestZeroMarginIsKept(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	r, faults := ask.Read(ref, ask.PlanFields(), ask.Values{"garment": {"hat"}, "margin": {"0"}}, sizing.Child{})
	require.Empty(t, faults)
	require.NotNil(t, r.How.Margin)
	require.Zero(t, *r.How.Margin)
	require.Equal(t, []string{"--margin does nothing without --yarn"}, r.Unused(ask.PlanFields()))
}

func TestAddressesAreBounded(t *testing.T) {
	many := make([]string, 101)
	for i := range many {
		many[i] = "4"
	}
	_, faults := ask.FromQuery(ask.SizeQuery(), url.Values{"size": many})
	require.ErrorContains(t, faults.Of("size"), "size has 101 values; want at most 100")
	_, faults = ask.FromQuery(ask.SizeQuery(), url.Values{"colour": {"red"}})
	require.ErrorContains(t, faults.Of("colour"), `unknown parameter "colour"; known are size, `)
	require.ErrorContains(t, faults.Of("size"), "size is missing")
}

// Edges stretch by numbers with a decimal point or comma, comma-separated.
func TestSplitStretch(t *testing.T) {
	for s, want := range map[string][]string{
		"":                       nil,
		"1.5":                    {"1.5"},
		"1,5":                    {"1.5"},
		"neck=1,4,cuff=1.3":      {"neck=1.4", "cuff=1.3"},
		"1.2 brim=1.6;neck=1,45": {"1.2", "brim=1.6", "neck=1.45"},
		"neck=1,4, cuff=1.3":     {"neck=1.4", "cuff=1.3"},
		"neck=1.4;cuff=1,3 ":     {"neck=1.4", "cuff=1.3"},
		" neck=1.4  brim=1.6":    {"neck=1.4", "brim=1.6"},
	} {
		require.Equal(t, want, ask.SplitStretch(s), "%q", s)
	}
}
