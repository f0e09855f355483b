package schematic

import (
	"bytes"
	"encoding/xml"
	"image"
	"io"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

func measuringOf(t *testing.T, f Figured) (Measuring, *sizing.Reference) {
	t.Helper()
	ref, err := sizing.Default()
	require.NoError(t, err)
	m := Measuring{Figure: f}
	for i, x := range ref.MeasuringOrder() {
		m.Measures = append(m.Measures, Measured{ID: x.ID, Name: x.Name, How: x.How, Wrong: ref.Pitfall(x.ID), Number: i + 1})
	}
	return m, ref
}

// Every measurement that the forms ask for has one place on every figure, a tape
// that goes behind the body where it is a girth, and words for what goes wrong.
func TestEveryMeasurementHasATape(t *testing.T) {
	for _, f := range Figures {
		m, ref := measuringOf(t, f)
		tapes := make(map[string]laidTape)
		for _, p := range postures(f) {
			for _, l := range p.tapes {
				require.NotContains(t, tapes, l.id, f)
				tapes[l.id] = l
			}
		}
		require.Len(t, tapes, len(m.Measures), f)
		for _, x := range ref.Measurements() {
			require.Contains(t, tapes, x.ID, f)
			require.NotEmpty(t, tapes[x.ID].seen, x.ID)
			if x.Kind == "girth" {
				require.NotEmpty(t, tapes[x.ID].hidden, "%s %s", f, x.ID)
			}
			require.NotEmpty(t, ref.Pitfall(x.ID), x.ID)
		}
	}
}

// Tapes lie where the words say, one above the other.
func TestTapesLieInOrder(t *testing.T) {
	for _, f := range []Figured{Girl, Baby} {
		at := make(map[string]box)
		for _, p := range postures(f) {
			for _, l := range p.tapes {
				at[l.id] = boxOf(l.seen[0])
			}
		}
		order := []string{"head", "neck", "chest", "waist", "waist_navel", "hip", "thigh", "mid_thigh", "calf", "ankle"}
		for i := 1; i < len(order); i++ {
			require.Less(t, at[order[i-1]].y0, at[order[i]].y0, "%s %s", f, order[i])
		}
		require.InDelta(t, 0, at["height"].y0, 1)
		require.InDelta(t, 200, at["height"].y1, 1)
		require.InDelta(t, at["waist"].y0, at["nape_to_waist"].y1, 3)
		require.InDelta(t, at["inside_leg"].y0, at["trunk"].y1, 3)
		require.Less(t, at["back_waist_length"].y1, at["nape_to_hip"].y1)
		require.Less(t, at["nape_to_hip"].y1, at["trunk"].y1)
	}
}

// Numbers do not cover each other.
func TestNumbersHaveRoom(t *testing.T) {
	for _, f := range Figures {
		m, _ := measuringOf(t, f)
		for _, p := range postures(f) {
			s := m.scene()
			m.lay(s, p, point{})
			var tags []item
			for _, i := range s.items {
				if i.class != "tag" {
					continue
				}
				for _, o := range tags {
					require.Greater(t, i.at.minus(o.at).long(), 2*tagRound*0.93, "%s, %s: %s and %s", f, p.id, i.part, o.part)
				}
				tags = append(tags, i)
			}
			require.Len(t, tags, len(p.tapes))
		}
	}
}

// The pictures of a page are well formed, name each tape, and are few bytes.
func TestViews(t *testing.T) {
	for _, f := range Figures {
		m, _ := measuringOf(t, f)
		bytes := 0
		var seen []string
		for _, v := range m.Views() {
			bytes += len(v.SVG)
			d := xml.NewDecoder(strings.NewReader(v.SVG))
			for {
				token, err := d.Token()
				if err == io.EOF {
					break
				}
				require.NoError(t, err)
				if e, ok := token.(xml.StartElement); ok {
					for _, a := range e.Attr {
						require.NotEqual(t, "style", a.Name.Local)
						require.NotContains(t, a.Value, "NaN")
						if a.Name.Local == "data-measure" {
							seen = append(seen, a.Value)
						}
					}
				}
			}
		}
		slices.Sort(seen)
		require.Len(t, slices.Compact(seen), len(m.Measures))
		require.Less(t, bytes, 22<<10)
	}
}

// The sheet says in words what it shows, and is a picture too.
func TestMeasuringSheet(t *testing.T) {
	m, ref := measuringOf(t, Boy)
	var out bytes.Buffer
	require.NoError(t, m.SVG(&out, SVGOptions{Title: "Where to measure", Key: true}))
	require.Contains(t, out.String(), "Where to measure")
	for _, x := range ref.Measurements() {
		require.Contains(t, out.String(), `data-part="`+x.ID+`"`)
	}
	require.Contains(t, out.String(), "What goes wrong")
	png, err := m.PNG(image.Point{X: 400, Y: 600}, SVGOptions{Key: true})
	require.NoError(t, err)
	require.NotEmpty(t, png)
}
