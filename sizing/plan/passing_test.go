package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// edgesLetThrough claims of each edge in ribbing what is said of what must pass it: how far
// it must stretch where nobody measured that; where it was measured and is not enough, by
// how much the edge is wider.
func edgesLetThrough(t *testing.T, p *Plan) {
	for _, x := range p.Parts {
		id := x.Line.Part.Part
		if !x.Ribbed || id == "calf" {
			continue
		}
		through := map[string]string{"cuff": "hand", "waist": "hip", "brim": "head", "neck": "head"}[id]
		over, ok := 0.0, false
		if pass, known := p.Finished.Passage(id); known {
			r, has := p.Body.Get(pass.Measurement)
			over, ok = pass.Cm(r.Value), has && r.Value > 0
		} else {
			r, has := p.Body.Get(through)
			over, ok = r.Value, has && r.Value > 0
		}
		if l, has := p.Finished.Line("hip"); has && id == "waist" {
			over += l.NappyCm()
		}
		var must, wider []sizing.Fact
		for _, n := range p.Notes {
			switch {
			case n.ID == "edge-must-stretch" && n.Args[0] == id:
				must = append(must, n)
			case n.ID == "edge-wider-to-pass" && n.Args[0] == id:
				wider = append(wider, n)
			}
		}
		stretch, measured := p.How.Stretch[id]
		least := x.Line.Finished
		switch {
		case !ok:
			require.Empty(t, append(must, wider...), id)
		case !measured:
			require.Empty(t, wider, id)
			if len(must) == 0 {
				require.GreaterOrEqual(t, x.SizeCm, over-1e-9, id)
				break
			}
			girth := float64(must[0].Args[1].(sizing.Length))
			require.GreaterOrEqual(t, girth, x.SizeCm-1e-9, id)
			require.Equal(t, sizing.NewFact("edge-must-stretch", id, sizing.Length(girth), passers[id], sizing.Length(over), math.Ceil(over/girth*100)/100), must[0])
			require.Greater(t, over, girth, id)
		default:
			require.Empty(t, must, id)
			more := over/stretch - least
			require.Equal(t, more > 1e-9, len(wider) == 1, id)
			if more > 1e-9 {
				require.Equal(t, sizing.NewFact("edge-wider-to-pass", id, sizing.Length(least), sizing.Length(least*stretch), passers[id], sizing.Length(over)), wider[0])
			}
			if d := p.departures[id]; more > 0.051 {
				require.InDelta(t, more, d.cm, 1e-9, id)
			}
		}
	}
}

// A figure that lies within bounds is not outside of them; one beyond by how much it is;
// bounds that are not known are never met.
func TestOutside(t *testing.T) {
	low, high := 18.0, 22.0
	for v, want := range map[float64]float64{18: 0, 22: 0, 20: 0, 17.5: 0.5, 24: 2} {
		require.InDelta(t, want, outside(v, &low, &high), 1e-12)
		require.InDelta(t, max(0, low-v), outside(v, &low, nil), 1e-12)
		require.InDelta(t, max(0, v-high), outside(v, nil, &high), 1e-12)
		require.True(t, math.IsInf(outside(v, nil, nil), 1))
	}
}
