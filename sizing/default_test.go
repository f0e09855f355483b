package sizing_test

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/data/rules"
	"growtuck/sizing"
)

// The embedded tables, whose columns are made when they are first read, say
// what they say when they are made at once, whichever is asked for first and by
// how many.
func TestDefaultIsNewOfTheEmbeddedTables(t *testing.T) {
	loaded, err := data.Load(data.Embedded())
	require.NoError(t, err)
	require.NoError(t, loaded.Check(rules.Rows(data.Forms())))
	atOnce, err := sizing.New(loaded)
	require.NoError(t, err)
	ref := reference(t)
	require.Equal(t, atOnce.Sources(), ref.Sources())
	require.Equal(t, atOnce.Garments(), ref.Garments())
	require.Len(t, ref.Charts(), len(atOnce.Charts()))
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			for i, chart := range ref.Charts() {
				runs, others := chart.Runs(), atOnce.Charts()[i].Runs()
				if len(runs) != len(others) {
					t.Errorf("%s has %d runs, not %d", chart.ID, len(runs), len(others))
					continue
				}
				for k, run := range runs {
					other := others[k]
					for _, mark := range run.Sizes {
						got := ref.BodyAt(sizing.Place{Run: run, Position: mark.Position}, sizing.Monotone)
						want := atOnce.BodyAt(sizing.Place{Run: other, Position: mark.Position}, sizing.Monotone)
						if !assert.ObjectsAreEqual(want, got) {
							t.Errorf("%s %s %s %s differs", chart.ID, run.Scale, run.Sex, mark.Size)
						}
					}
				}
			}
		})
	}
	wg.Wait()
	want, err := atOnce.Estimate(sizing.Child{Own: map[string]float64{"height": 110}})
	require.NoError(t, err)
	require.Equal(t, want, estimate(t, "", map[string]float64{"height": 110}))
}
