package schematic

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/testdata/proof"
)

// bodies are those of every size of the child's chart, a very tall slim child and
// a short broad one.
func bodies(t *testing.T, ref *sizing.Reference) map[string]*sizing.Body {
	t.Helper()
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	all := make(map[string]*sizing.Body)
	run, ok := chart.Run(sizing.Years, sizing.Both)
	require.True(t, ok)
	for _, s := range run.Sizes {
		place, err := chart.Place(s.Size, sizing.Both)
		require.NoError(t, err)
		all["size "+s.Size] = ref.BodyAt(place, sizing.Monotone)
	}
	for name, sizes := range map[string][2]string{"tall and slim": {"2", "12"}, "short and broad": {"12", "2"}} {
		widths, err := chart.Place(sizes[0], sizing.Both)
		require.NoError(t, err)
		lengths, err := chart.Place(sizes[1], sizing.Both)
		require.NoError(t, err)
		all[name], err = ref.Blend(widths, lengths, sizing.Child{Sex: sizing.Both}, sizing.Monotone)
		require.NoError(t, err)
	}
	return all
}

// hows are the ways of making a garment that are seen in its drawing.
func hows(f *sizing.Finished) []plan.How {
	all := []plan.How{{}}
	if _, ok := f.Line("sleeve_length"); ok {
		all = []plan.How{{Construction: plan.Circular}, {Construction: plan.Raglan, Closure: plan.Buttons, Hood: plan.CentrePanel}, {Construction: plan.DropShoulder, Hood: plan.Straight}}
	}
	return all
}

// drawn calls for every garment in every construction, close and thin, and wide
// over winter clothes, for every body.
func drawn(t *testing.T, each func(name string, f *sizing.Finished, how plan.How)) {
	t.Helper()
	ref, err := sizing.Default()
	require.NoError(t, err)
	for name, body := range bodies(t, ref) {
		if !proof.Whole() && !slices.Contains([]string{"size 2", "size 6", "tall and slim", "short and broad"}, name) {
			continue
		}
		for _, g := range ref.Garments() {
			for _, m := range []sizing.Spec{
				{Garment: g.ID, Fit: "very-close", Layer: "skin"},
				{Garment: g.ID, Fit: "classic", Layer: "skin", Nappy: strings.HasPrefix(g.Group, "o")},
				{Garment: g.ID, Fit: "oversized", Layer: "winter", Seasons: 2},
			} {
				f, err := ref.Finish(body, m)
				require.NoError(t, err)
				for _, how := range hows(f) {
					each(strings.Join([]string{name, g.ID, string(m.Fit), string(how.Construction)}, ", "), f, how)
				}
			}
		}
	}
}

// No label covers another, and all are on the sheet.
func TestLabelsHaveRoom(t *testing.T) {
	drawn(t, func(name string, f *sizing.Finished, how plan.How) {
		for _, unit := range []string{"cm", "in"} {
			p := Finished(f, how, unit)
			s := newSheet(p, SVGOptions{Key: true, Title: name, Unit: unit})
			requireRoom(t, s, name)
			for _, m := range s.marks { // the sleeve's letter is not on the body
				middle, at := point{(m.box.x0 + m.box.x1) / 2, (m.box.y0 + m.box.y1) / 2}, between(m.lines[0][0], m.lines[len(m.lines)-1][1], 0.5)
				for _, piece := range p.Figure.shapes {
					q := piece.points()
					require.False(t, m.part == "upper_arm" && within(q, middle) && !within(q, at), "%s: %s", name, m.part)
				}
			}
		}
	})
}

// The one figure of several sizes has letters, with room for each, and the key the numbers in
// brackets.
func TestSeveralSizes(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	all := bodies(t, ref)
	for _, g := range ref.Garments() {
		for _, how := range plan.Constructions {
			var run []*sizing.Finished
			for _, size := range []string{"2", "4", "6", "8", "10"} {
				f, err := ref.Finish(all["size "+size], sizing.Spec{Garment: g.ID, Fit: "classic", Layer: "skin"})
				require.NoError(t, err)
				run = append(run, f)
			}
			p := Several(run, plan.How{Construction: how}, "in")
			requireRoom(t, newSheet(p, SVGOptions{Key: true, Unit: "in"}), g.ID+" "+string(how))
			require.Len(t, p.texts(), len(p.Key()))
			for _, row := range p.Key() {
				require.Equal(t, row.Letter, p.texts()[row.Part])
				require.Regexp(t, `^[\d/ ]+ \(([\d/ ]+, ){3}[\d/ ]+\)$`, row.Size, g.ID)
			}
		}
	}
}

func requireRoom(t *testing.T, s *sheet, name string) {
	t.Helper()
	var taken []box
	require.Len(t, s.marks, len(s.panel.Figure.Parts()), name)
	for _, m := range s.marks {
		a, b := s.to(point{m.box.x0, m.box.y0}), s.to(point{m.box.x1, m.box.y1})
		at := box{a.x, a.y, b.x, b.y}
		require.Greater(t, at.x1-at.x0, fontSize*0.5, name)
		for _, o := range taken {
			require.False(t, at.meets(o), "%s: %s covers another label", name, m.part)
		}
		require.True(t, at.x0 >= 0 && at.y0 >= 0 && at.x1 <= s.wide && at.y1 <= s.foot+1, "%s: %s is off the sheet, %v", name, m.part, at)
		require.False(t, s.keyAt.x > margin && at.x1 > s.keyAt.x, "%s: %s is on the key", name, m.part)
		taken = append(taken, at)
	}
}

// Every labelled line is as long as what it measures, or half of what goes all
// round; one scale holds for all.
func TestLinesAreToScale(t *testing.T) {
	drawn(t, func(name string, f *sizing.Finished, how plan.How) {
		otherwise := map[string]float64{}
		if how.Construction == plan.DropShoulder {
			otherwise = plan.DropShoulderCm(f)
		}
		for _, d := range Finished(f, how, "cm").Figure.dims {
			l, ok := f.Line(d.part)
			require.True(t, ok, name)
			want := l.Finished
			if cm, ok := otherwise[d.part]; ok {
				want = cm
			}
			require.Equal(t, l.Part.Dimension == "girth", d.half, "%s: %s", name, d.part)
			if d.part == "neck" { // a ring, drawn as wide as it opens: its edge is among the outline's
				continue
			}
			if d.half {
				want /= 2
			}
			require.InDelta(t, want, d.b.minus(d.a).long(), 1e-6, "%s: %s", name, d.part)
		}
	})
}

// The outline's own edges, added up along what is drawn, are as long as the
// finished measurements say.
func TestOutlineHasItsLengths(t *testing.T) {
	seen := make(map[string]bool)
	drawn(t, func(name string, f *sizing.Finished, how plan.How) {
		figure := Finished(f, how, "cm").Figure
		require.NotEmpty(t, figure.edges, name)
		for _, e := range figure.edges {
			seen[e.name] = true
			// What slants or bends is longer than the height that it is measured by.
			require.InDelta(t, e.want, e.cm, math.Max(0.5, e.want*0.04), "%s: %s", name, e.name)
		}
	})
	for _, edge := range []string{"side seam", "hem", "sleeve top", "underarm seam of the sleeve", "end of the sleeve", "neck edge", "face edge of the hood", "inseam", "outside of the leg",
		"end of the leg", "side, underarm to waist", "side, waist to leg", "side of the skirt", "waist edge", "brim", "heel to toe", "thumb"} {
		require.True(t, seen[edge], edge)
	}
}

// The constructions differ in what is drawn, not in numbers alone.
func TestConstructionsDiffer(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	body := bodies(t, ref)["size 6"]
	for _, garment := range []string{"pullover", "cardigan", "dress", "one-piece", "one-piece-hooded"} {
		f, err := ref.Finish(body, sizing.Spec{Garment: garment, Fit: "classic", Layer: "skin"})
		require.NoError(t, err)
		seen := make(map[string]plan.Construction)
		for _, c := range plan.Constructions {
			var lines []string
			for _, l := range Finished(f, plan.How{Construction: c}, "cm").Figure.lines {
				lines = append(lines, l.kind+l.path.relative())
			}
			all := strings.Join(lines, " ")
			require.NotContains(t, seen, all, "%s: %s looks like %s", garment, c, seen[all])
			seen[all] = c
		}
	}
}

// Hips do not bulge: beside the legs nothing is wider than the hips are, until the
// legs part.
func TestBridgeIsAtTheCrotch(t *testing.T) {
	drawn(t, func(name string, f *sizing.Finished, how plan.How) {
		hip, ok := f.Line("hip")
		rise, trousers := f.Line("rise")
		if !ok || !trousers || f.Garment.Group != "lower" {
			return
		}
		for _, s := range Finished(f, how, "cm").Figure.shapes {
			for _, p := range s.points() {
				if p.y >= 0 && p.y < rise.Finished*0.8 {
					require.LessOrEqual(t, math.Abs(p.x), hip.Finished/4+0.2, name)
				}
			}
		}
	})
}

func TestAround(t *testing.T) {
	b := box{2, -1, 4, 1}
	for _, tt := range []struct {
		line [2]point
		want [][2]point
	}{
		{[2]point{{0, 0}, {10, 0}}, [][2]point{{{0, 0}, {2, 0}}, {{4, 0}, {10, 0}}}},
		{[2]point{{3, 0}, {10, 0}}, [][2]point{{{4, 0}, {10, 0}}}},
		{[2]point{{2.5, 0}, {3.5, 0.5}}, nil},
		{[2]point{{0, 3}, {10, 3}}, [][2]point{{{0, 3}, {10, 3}}}},
		{[2]point{{1, -5}, {1, 5}}, [][2]point{{{1, -5}, {1, 5}}}},
	} {
		require.Equal(t, tt.want, around([][2]point{tt.line}, b))
	}
}

// Both sides of a garment are alike.
func TestWholeIsSymmetric(t *testing.T) {
	for _, group := range []string{"one-piece", "upper", "lower", "head"} {
		f := Of(Garment{Group: group, Cm: map[string]float64{"chest": 60, "sleeve_length": 30}})
		require.NotEmpty(t, f.shapes)
		b := f.box()
		require.InDelta(t, 0, b.x0+b.x1, 1e-9, group)
	}
}
