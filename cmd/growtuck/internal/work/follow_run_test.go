package work_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/testdata/follow"
	"growtuck/testdata/samples"
)

// ofSize is a pattern for several sizes as one of them reads it.
func ofSize(t *testing.T, d tell.GradedDocument, size int) follow.Pattern {
	t.Helper()
	p := follow.Pattern{Gauge: d.Gauge}
	line := func(sizes, text string, into *[]string) {
		at, of := size, len(d.Sizes)
		if sizes != "" {
			named := strings.FieldsFunc(sizes, func(r rune) bool { return strings.ContainsRune(" (,)", r) })
			if at, of = slices.Index(named, d.Sizes[size]), len(named); at < 0 {
				return
			}
		}
		for _, dash := range []string{"– (", ", –", "(–"} {
			require.NotContains(t, text, dash, "a line that some sizes have not")
		}
		*into = append(*into, follow.OfSize(text, at, of))
	}
	for _, s := range d.Sections {
		place := slices.Index(s.Sizes, d.Sizes[size])
		if place < 0 {
			continue // a section that this size has not
		}
		number := func(text string) int {
			n, err := strconv.Atoi(follow.OfSize(text, place, len(s.Sizes)))
			require.NoError(t, err)
			return n
		}
		name, _, _ := strings.Cut(s.Name, ", size ") // of the sizes that have it
		x := follow.Section{ID: s.Section, Name: name, Copies: s.Copies, From: number(s.From), To: number(s.To), Rows: number(s.Rows)}
		for _, step := range s.Steps {
			line(step.Sizes, step.Text, &x.Lines)
		}
		p.Sections = append(p.Sections, x)
	}
	for _, step := range d.Growth {
		line(step.Sizes, step.Text, &p.Growth)
	}
	p.Lengths = make(map[string]string)
	for _, part := range d.Parts {
		p.Lengths[part.Name] = part.Part
	}
	return p
}

// A pattern for several sizes can be worked in each of them.
func TestPatternsForSizesAreFollowed(t *testing.T) {
	ref := samples.Reference(t)
	var out faultList
	runs := []string{"2,4,6", "6,8,10,12,14", "6m,12m,18m", "4,8"}
	followed := 0
	for i, v := range wishes(howMany() / 5) {
		v["sizes"] = []string{runs[i%len(runs)]}
		delete(v, "size")
		d, err := work.Plan(ref, fitting(t, ref, v), tell.Style{})
		if err != nil {
			continue
		}
		doc := d.JSON.(tell.GradedDocument)
		for size := range doc.Sizes {
			w := follow.Follow(ofSize(t, doc, size))
			followed++
			for _, f := range w.Faults {
				out.add(sample{wish: v}, f.String())
			}
		}
	}
	require.Greater(t, followed, howMany()/10)
	out.none(t)
}
