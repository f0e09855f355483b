package ask_test

import (
	"net/url"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/sizing"
)

func reference(t *testing.T) *sizing.Reference {
	t.Helper()
	ref, err := sizing.Default()
	require.NoError(t, err)
	return ref
}

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
		got, faults := ask.FromForm(reference(t), ask.FormFields(), form, test.tape)
		require.Empty(t, faults, test.form)
		for name, want := range test.want {
			require.ElementsMatch(t, want, got[name], "%s: %s", test.form, name)
		}
		for name, texts := range got {
			require.True(t, len(texts) == 0 || test.want[name] != nil, "%s: %s is %q", test.form, name, texts)
		}
	}
}

// Every field of the form is read from the controls that it has, and what is wrong
// with it is said at one of them.
func TestFormHasEveryField(t *testing.T) {
	ref := reference(t)
	right := map[string]string{"sex": "f", "age": "4y6m", "set": "53", "size": "4", "widths": "3", "lengths": "5", "extra": "2", "gauge": "20", "rib": "22", "before-washing": "21",
		"over": "4in", "growth": "1", "multiple": "4n", "rib-share": "0.8", "stretch": "1.5", "zippers": "30", "yarn": "50g 125m", "swatch": "10x10cm 4g", "margin": "0.2", "knits-to": "22"}
	for _, f := range ask.FormFields() {
		controls := f.Controls(ref, "one-piece-hooded")
		require.NotEmpty(t, controls, f.Name)
		form := url.Values{"garment": {"one-piece-hooded"}}
		for _, c := range controls {
			require.NotEmpty(t, c.Label, c.Name)
			switch {
			case c.Tick != "":
				form.Set(c.Name, c.Tick)
			case right[c.Name] != "":
				form.Set(c.Name, right[c.Name])
			case len(c.Choices) > 0:
				form.Set(c.Name, c.Choices[len(c.Choices)-1].Value)
			default:
				form.Set(c.Name, right[f.Name])
			}
		}
		form.Set("garment", "one-piece-hooded")
		values, faults := ask.FromForm(ref, ask.FormFields(), form, "cm")
		require.Empty(t, faults, f.Name)
		require.NotEmpty(t, values[f.Name], f.Name)
		_, faults = ask.Read(ref, ask.Named("garment", f.Name), values, sizing.Child{})
		require.NoError(t, faults.Of(f.Name))

		if len(controls[0].Choices) > 0 || f.Name == "size" || f.Name == "widths" || f.Name == "lengths" {
			continue // any size is one until the chart is read
		}
		form = url.Values{"garment": {"one-piece-hooded"}, controls[0].Name: {"?"}}
		values, faults = ask.FromForm(ref, ask.FormFields(), form, "cm")
		_, more := ask.Read(ref, ask.Named("garment", f.Name), values, sizing.Child{})
		require.NotEmpty(t, append(faults, more...), f.Name)
		require.Equal(t, controls[0].Name, append(faults, more...)[0].Control(), f.Name)
	}
}
