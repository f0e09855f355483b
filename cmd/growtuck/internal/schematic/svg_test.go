package schematic_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/schematic"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/testdata/bounded"
)

var update = flag.Bool("update", false, "write the golden drawings anew")

func finished(t *testing.T, garment, size string) *sizing.Finished {
	t.Helper()
	ref, err := sizing.Default()
	require.NoError(t, err)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	place, err := chart.Place(size, sizing.Both)
	require.NoError(t, err)
	f, err := ref.Finish(ref.BodyAt(place, sizing.Monotone), sizing.Spec{Garment: garment, Fit: "classic", Layer: "skin"})
	require.NoError(t, err)
	return f
}

func svg(t *testing.T, o schematic.SVGOptions, p schematic.Panel) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, p.SVG(&out, o))
	return out.String()
}

// Every garment is drawn as its golden file has it.
func TestGolden(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	for _, g := range ref.Garments() {
		f := finished(t, g.ID, "4")
		how := []plan.Construction{""}
		if _, ok := f.Line("sleeve_length"); ok {
			how = plan.Constructions
		}
		for _, c := range how {
			got := svg(t, schematic.SVGOptions{Title: g.Title, Prefix: g.ID, Inline: true}, schematic.Finished(f, plan.How{Construction: c}, "cm"))
			compare(t, filepath.Join("testdata", strings.TrimSuffix(g.ID+"-"+string(c), "-")+".svg"), got)
		}
	}
	compare(t, filepath.Join("testdata", "alone.svg"), svg(t, schematic.SVGOptions{Title: "Hat", Note: "classic fit", Unit: "in", Key: true, Credits: []string{"Source: a chart"}},
		schematic.Finished(finished(t, "hat", "4"), plan.How{}, "in")))
}

func compare(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, string(want), got, file)
}

// An element of a document, as far as these tests look at it.
type element struct {
	name  string
	attrs map[string]string
	text  string
}

func elements(t *testing.T, doc string) []element {
	t.Helper()
	var all []element
	var open []int
	d := xml.NewDecoder(strings.NewReader(doc))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return all
		}
		require.NoError(t, err, doc)
		switch token := token.(type) {
		case xml.StartElement:
			e := element{name: token.Name.Local, attrs: make(map[string]string)}
			for _, a := range token.Attr {
				e.attrs[a.Name.Local] = a.Value
			}
			open = append(open, len(all))
			all = append(all, e)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			for _, i := range open {
				all[i].text += string(token)
			}
		}
	}
}

// Those who cannot see the drawing are told all of it, and a page can point at
// each measurement.
func TestWords(t *testing.T) {
	f := finished(t, "one-piece-hooded", "4")
	all := elements(t, svg(t, schematic.SVGOptions{Title: "Suit", Prefix: "suit", Inline: true}, schematic.Finished(f, plan.How{}, "cm")))
	root := all[0]
	require.Equal(t, "svg", root.name)
	require.Equal(t, "img", root.attrs["role"])
	require.Equal(t, "suit-title suit-desc", root.attrs["aria-labelledby"])
	ids, parts := make(map[string]element), make(map[string]int)
	for _, e := range all {
		if id := e.attrs["id"]; id != "" {
			require.NotContains(t, ids, id)
			ids[id] = e
		}
		if part := e.attrs["data-part"]; part != "" {
			parts[part]++
		}
	}
	require.Equal(t, "Suit", ids["suit-title"].text)
	for i, l := range f.Lines {
		words := l.Part.Name + ": " + sizing.FormatCm(l.Finished) + " cm"
		require.Contains(t, ids["suit-desc"].text, words)
		require.Equal(t, 1, parts[l.Part.Part])
		require.Contains(t, ids["suit-"+l.Part.Part].text, words)
		require.Contains(t, ids["suit-"+l.Part.Part].text, tell.Letter(i)+" "+sizing.FormatCm(l.Finished), "the letter of the tables")
	}
}

// A page whose policy allows no inline style can hold the drawing.
func TestInlineHasNoStyle(t *testing.T) {
	panel := schematic.Finished(finished(t, "cardigan", "4"), plan.How{}, "both")
	for _, e := range elements(t, svg(t, schematic.SVGOptions{Inline: true, Key: true}, panel)) {
		require.NotEqual(t, "style", e.name)
		require.NotContains(t, e.attrs, "style")
		for _, ink := range []string{e.attrs["fill"], e.attrs["stroke"]} {
			require.Contains(t, []string{"", "none", "currentColor"}, ink)
		}
	}
	alone := svg(t, schematic.SVGOptions{}, panel)
	require.Contains(t, alone, schematic.Style)
	for _, e := range elements(t, alone) {
		require.NotContains(t, e.attrs, "style")
		for _, class := range strings.Fields(e.attrs["class"]) {
			require.True(t, strings.HasPrefix(class, "schematic"), class)
		}
	}
}

func TestTextIsEscaped(t *testing.T) {
	const nasty = "a<b>&\"c'</svg>\x00\x1b\xff]]>"
	p := schematic.Panel{Figure: hat(46), Caption: nasty,
		Labels: map[string]string{"brim": nasty}, Names: map[string]string{"brim": nasty}, Sizes: map[string]string{"brim": nasty}}
	doc := svg(t, schematic.SVGOptions{Title: nasty, Note: nasty, Key: true, Credits: []string{nasty}}, p)
	require.NotContains(t, doc, "a<b")
	require.NotEmpty(t, elements(t, doc))
	require.Equal(t, 1, strings.Count(doc, "</svg>"))
}

func TestSVGRefuses(t *testing.T) {
	cap := schematic.Panel{Figure: hat(46), Labels: map[string]string{"brim": "46"}}
	for _, tt := range []struct {
		panel schematic.Panel
		o     schematic.SVGOptions
		want  string
	}{
		{cap, schematic.SVGOptions{Prefix: "1 a"}, `"1 a" is not a prefix of ids`},
		{cap, schematic.SVGOptions{Prefix: `a"b`}, "is not a prefix of ids"},
		{cap, schematic.SVGOptions{Unit: "furlong"}, `unknown unit "furlong"`},
		{schematic.Panel{Figure: hat(math.NaN())}, schematic.SVGOptions{}, "brim: NaN cm cannot be drawn"},
	} {
		var out bytes.Buffer
		require.ErrorContains(t, tt.panel.SVG(&out, tt.o), tt.want)
		require.Zero(t, out.Len())
	}
	require.EqualError(t, cap.SVG(broken{}, schematic.SVGOptions{}), "full")
}

func hat(brim float64) schematic.Figure {
	return schematic.Of(schematic.Garment{Group: "head", Cm: map[string]float64{"brim": brim}})
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("full") }

// Sizes of any kind are drawn as a document that can be read, or refused.
func FuzzSVG(f *testing.F) {
	f.Add("upper", "chest", 66.0, "sleeve_length", 26.5, "66")
	f.Add("one-piece", "hood_height", 28.0, "inside_leg", 400.0, "26 1/4")
	f.Add("lower", "hip", 0.1, "rise", math.Inf(1), "<&>")
	f.Add("hand", "thumb_length", 399.0, "hand", 0.1, "\xff")
	f.Add("foot", "ankle", 0.1, "foot", 400.0, "")
	f.Fuzz(func(t *testing.T, group, one string, a float64, other string, b float64, text string) {
		defer bounded.By(t, 64<<20)()
		p := schematic.Panel{Figure: schematic.Of(schematic.Garment{Group: group, Cm: map[string]float64{one: a, other: b}}),
			Caption: text, Labels: map[string]string{one: text, other: text}, Names: map[string]string{one: text}}
		var out bytes.Buffer
		if err := p.SVG(&out, schematic.SVGOptions{Title: text, Key: len(text)%2 == 0}); err != nil {
			require.Zero(t, out.Len())
			return
		}
		require.NotContains(t, out.String(), "NaN,")
		for _, e := range elements(t, out.String()) {
			for _, name := range []string{"d", "x", "y", "viewBox"} {
				require.NotContains(t, e.attrs[name], "NaN")
				require.NotContains(t, e.attrs[name], "Inf")
			}
		}
	})
}
