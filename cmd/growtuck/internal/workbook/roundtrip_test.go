package workbook_test

import (
	"bytes"
	"maps"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/testdata/samples"
	"growtuck/validate"
)

// What was written is read back: the child, the draft, what was asked for.
func TestRoundTrip(t *testing.T) {
	ref := samples.Reference(t)
	for _, g := range garments {
		for _, unit := range []string{"cm", "in"} {
			t.Run(g+" "+unit, func(t *testing.T) {
				t.Parallel()
				r := usual(g, unit)
				options, err := ref.GarmentOptions(g)
				require.NoError(t, err)
				r.making.Options = options[:min(1, len(options))]
				r.making.Nappy = g == "trousers"
				parts, err := ref.Parts(g)
				require.NoError(t, err)
				r.making.Extra[parts[0].Part] = 2.54
				c := r.content(t)

				w, err := workbook.Open(bytes.NewReader(r.xlsx(t)), "plan.xlsx")
				require.NoError(t, err)
				defer w.Close()

				table, err := w.Child()
				require.NoError(t, err)
				child, err := ref.ReadChild(bytes.NewReader(table.CSV), "plan.xlsx")
				require.NoError(t, err)
				require.Equal(t, "plan.xlsx:12:8", child.Where["height"])
				require.Equal(t, "plan.xlsx: Child!B12", table.Where(child.Where["height"]))
				child.Where = nil
				require.Equal(t, r.child, child)

				table, err = w.Draft()
				require.NoError(t, err)
				got, err := validate.ReadDraft(ref, bytes.NewReader(table.CSV), "plan", nil)
				require.NoError(t, err, "%s", table.CSV)
				want, err := validate.ReadDraft(ref, bytes.NewReader(draftCSV(t, c.Draft)), "plan", nil)
				require.NoError(t, err)
				sameDraft(t, want, got)

				settings, err := w.Settings()
				require.NoError(t, err)
				for _, s := range c.Settings {
					if text, ok := s.Value.(string); ok {
						require.Equal(t, text, settings[s.Name], s.Name)
					}
				}
			})
		}
	}
}

// sameDraft compares drafts row by row, in any order of the rows.
func sameDraft(t *testing.T, want, got *validate.Draft) {
	t.Helper()
	require.Equal(t, want.Garment.ID, got.Garment.ID)
	require.Equal(t, want.Child.Own, got.Child.Own)
	require.Equal(t, want.Spec.Options, got.Spec.Options)
	require.Equal(t, want.Spec.Fit, got.Spec.Fit)
	require.Equal(t, want.Spec.Nappy, got.Spec.Nappy)
	require.InDelta(t, want.Gauge.StitchesPer10Cm, got.Gauge.StitchesPer10Cm, 1e-3)
	type id struct {
		field, part, value string
		counted            bool
	}
	index := func(d *validate.Draft) map[id]*validate.Entry {
		all := make(map[id]*validate.Entry)
		for _, e := range d.Entries() {
			k := id{field: e.Field, part: e.Part, counted: e.Count > 0}
			if e.Field == "option" {
				k.value = e.Value
			}
			all[k] = e
		}
		return all
	}
	a, b := index(want), index(got)
	require.ElementsMatch(t, keys(a), keys(b))
	for k, e := range a {
		require.InDelta(t, e.Cm, b[k].Cm, 0.0051, "%v", k)
		require.Equal(t, e.Count, b[k].Count, "%v", k)
		require.InDelta(t, e.Number, b[k].Number, 1e-3, "%v", k)
		require.Equal(t, e.Multiple, b[k].Multiple, "%v", k)
	}
}

func keys[K comparable, V any](m map[K]V) []K {
	var out []K
	for k := range maps.Keys(m) {
		out = append(out, k)
	}
	return out
}

// The same input gives the same bytes.
func TestBytesAreTheSame(t *testing.T) {
	t.Parallel()
	r := usual("one-piece-hooded", "cm")
	first := r.xlsx(t)
	for range 5 {
		require.True(t, bytes.Equal(first, r.xlsx(t)))
	}
}

// The findings of the rules for the plan are those for its workbook.
func TestCheckedAlike(t *testing.T) {
	t.Parallel()
	ref := samples.Reference(t)
	for _, g := range garments {
		r := usual(g, "cm")
		c := r.content(t)
		w, err := workbook.Open(bytes.NewReader(r.xlsx(t)), "plan.xlsx")
		require.NoError(t, err)
		table, err := w.Draft()
		require.NoError(t, err)
		found, err := validate.CheckDraft(ref, bytes.NewReader(table.CSV), "plan.xlsx", validate.Options{})
		require.NoError(t, err)
		var want, got []string
		for _, f := range c.Findings {
			want = append(want, f.Rule+" "+f.Subject)
		}
		for _, f := range table.Findings(found) {
			got = append(got, f.Rule+" "+f.Subject)
			if f.Line > 0 {
				require.Regexp(t, `^plan\.xlsx:Draft![A-Z]\d+$`, f.File)
			}
		}
		require.ElementsMatch(t, want, got, g)
	}
}
