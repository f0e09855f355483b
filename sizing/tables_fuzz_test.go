package sizing_test

import (
	"bytes"
	"io/fs"
	"math"
	"slices"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/data/rules"
	"growtuck/sizing"
	"growtuck/testdata/bounded"
)

// FuzzNew puts anything in place of one of the tables. They are refused, or
// what is read of them is a number.
func FuzzNew(f *testing.F) {
	names, err := fs.Glob(data.Embedded(), "*.csv")
	require.NoError(f, err)
	names = slices.DeleteFunc(names, func(n string) bool { return n == "changes.csv" })
	whole, few := fstest.MapFS{}, map[string][]byte{}
	for i, name := range names {
		raw, err := fs.ReadFile(data.Embedded(), name)
		require.NoError(f, err)
		whole[name] = &fstest.MapFile{Data: raw}
		lines := bytes.SplitAfterN(raw, []byte("\n"), 5)
		few[name] = bytes.Join(lines[:4], nil)
		f.Add(byte(i), few[name])
	}
	// body.csv is long, and the rest rests on it: most of it is not fuzzed.
	raw, err := fs.ReadFile(data.Embedded(), "body.csv")
	require.NoError(f, err)
	f.Fuzz(func(t *testing.T, table byte, more []byte) {
		defer bounded.By(t, 256<<20)()
		name := names[int(table)%len(names)]
		files := fstest.MapFS{}
		for n, file := range whole {
			files[n] = file
		}
		files[name] = &fstest.MapFile{Data: more}
		if name == "body.csv" { // rows more
			files[name] = &fstest.MapFile{Data: append(slices.Clone(raw), more...)}
		}
		tables, err := data.Load(files)
		if err == nil {
			err = tables.Check(rules.Rows(data.Forms()))
		}
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		ref, err := sizing.New(tables)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		for _, chart := range ref.Charts() {
			for _, run := range chart.Runs() {
				for _, r := range ref.BodyAt(sizing.Place{Run: run, Position: run.Sizes[0].Position}, sizing.Monotone).Readings {
					require.False(t, math.IsNaN(r.Value) || math.IsInf(r.Value, 0), r.Measurement.ID)
				}
			}
		}
		body, err := ref.Estimate(sizing.Child{Sex: sizing.Boy, Own: map[string]float64{"height": 110, "chest": 53}})
		if err != nil {
			return
		}
		for _, r := range body.Readings {
			require.Greater(t, r.Value, 0.0, r.Measurement.ID)
			require.False(t, math.IsInf(r.Value, 0), r.Measurement.ID)
		}
		for _, g := range ref.Garments() {
			f, err := ref.Finish(body, sizing.Spec{Garment: g.ID, Fit: "classic", Layer: "winter", Seasons: 1})
			if err != nil {
				continue
			}
			for _, l := range f.Lines {
				require.Greater(t, l.Finished, 0.0, l.Part.Part)
				require.False(t, math.IsInf(l.Finished, 0), l.Part.Part)
			}
		}
	})
}
