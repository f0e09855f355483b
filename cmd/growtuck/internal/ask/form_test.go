package ask_test

import (
	"net/url"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/sizing"
	"growtuck/testdata/samples"
)

// Numbers without a unit are in that of the tape.
func TestFromFormJoins(t *testing.T) {
	tests := []struct {
		tape, form string
		want       ask.Values
	}{
		{"cm", "height=110,5&weight=17", ask.Values{"set": {"height=110,5 cm", "weight=17 kg"}}},
		{"in", "height=43+1/2&weight=38&chest=53+cm", ask.Values{"set": {"height=43 1/2 in", "weight=38 lb", "chest=53 cm"}}},
		{"in", "garment=pullover&extra.sleeve_length=1", ask.Values{"garment": {"pullover"}, "extra": {"sleeve_length=1 in"}}},
		{"cm", "stitches=16,5&rows=18&over=4in&nappy=yes", ask.Values{"gauge": {"16.5x18/4in"}, "nappy": {"yes"}}},
		{"cm", "rib-stitches=20&rib-rows=24&before-stitches=17&before-rows=19", ask.Values{"rib": {"20x24/10cm"}, "before-washing": {"17x19/10cm"}}},
		{"cm", "garment=hat&yoke=raglan&nappy=yes&extra.sleeve_length=2", ask.Values{"garment": {"hat"}}}, // a hat has neither
		{"cm", "stretch=neck%3D1,4,cuff%3D1.3", ask.Values{"stretch": {"neck=1.4", "cuff=1.3"}}},
	}
	for _, test := range tests {
		form, err := url.ParseQuery(test.form)
		require.NoError(t, err)
		got, faults := ask.FromForm(samples.Reference(t), ask.FormFields(), form, test.tape)
		require.Empty(t, faults, test.form)
		for name, want := range test.want {
			require.ElementsMatch(t, want, got[name], "%s: %s", test.form, name)
		}
		for name, texts := range got {
			require.True(t, len(texts) == 0 || test.want[name] != nil, "%s: %s is %q", test.form, name, texts)
		}
	}
}

// What is wrong with a field is said at one of its controls.
func TestFaultsAtTheirControls(t *testing.T) {
	ref := samples.Reference(t)
	for _, f := range ask.FormFields() {
		controls := f.Controls(ref, "one-piece-hooded")
		require.NotEmpty(t, controls, f.Name)
		for _, c := range controls {
			require.NotEmpty(t, c.Label, c.Name)
		}
		if len(controls[0].Choices) > 0 || f.Name == "size" || f.Name == "widths" || f.Name == "lengths" {
			continue // any size is one until the chart is read
		}
		form := url.Values{"garment": {"one-piece-hooded"}, controls[0].Name: {"?"}}
		values, faults := ask.FromForm(ref, ask.FormFields(), form, "cm")
		_, more := ask.Read(ref, ask.Named("garment", f.Name), values, sizing.Child{})
		require.NotEmpty(t, append(faults, more...), f.Name)
		require.Equal(t, controls[0].Name, append(faults, more...)[0].Control(), f.Name)
	}
}
