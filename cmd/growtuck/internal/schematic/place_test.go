package schematic

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// panels are those of every garment in every size of the child's chart, close
// and thin, and wide over winter clothes; and of a very tall slim child and a
// short broad one.
func panels(t *testing.T) map[string]Panel {
	t.Helper()
	ref, err := sizing.Default()
	require.NoError(t, err)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	bodies := make(map[string]*sizing.Body)
	run, ok := chart.Run(sizing.Years, sizing.Both)
	require.True(t, ok)
	for _, s := range run.Sizes {
		place, err := chart.Place(s.Size, sizing.Both)
		require.NoError(t, err)
		bodies["size "+s.Size] = ref.BodyAt(place, sizing.Monotone)
	}
	for name, sizes := range map[string][2]string{"tall and slim": {"2", "12"}, "short and broad": {"12", "2"}} {
		widths, err := chart.Place(sizes[0], sizing.Both)
		require.NoError(t, err)
		lengths, err := chart.Place(sizes[1], sizing.Both)
		require.NoError(t, err)
		bodies[name], err = ref.Blend(widths, lengths, sizing.Child{Sex: sizing.Both}, sizing.Monotone)
		require.NoError(t, err)
	}
	out := make(map[string]Panel)
	for name, body := range bodies {
		for _, g := range ref.Garments() {
			for _, m := range []sizing.Spec{
				{Garment: g.ID, Fit: "very-close", Layer: "skin"},
				{Garment: g.ID, Fit: "classic", Layer: "skin"},
				{Garment: g.ID, Fit: "oversized", Layer: "winter", Seasons: 2},
			} {
				f, err := ref.Finish(body, m)
				require.NoError(t, err)
				for _, unit := range []string{"cm", "in"} {
					out[name+", "+g.ID+", "+string(m.Fit)+" over "+string(m.Layer)+", "+unit] = Finished(f, unit)
				}
			}
		}
	}
	return out
}

// No label covers another, and all are on the sheet.
func TestLabelsHaveRoom(t *testing.T) {
	for name, p := range panels(t) {
		for _, o := range []SVGOptions{{Inline: true}, {Key: true, Title: name}} {
			s := newSheet([]Panel{p}, o)
			requireRoom(t, s, name)
		}
	}
}

// Small sizes have room for their labels on one scale with large ones.
func TestLabelsHaveRoomSideBySide(t *testing.T) {
	all := panels(t)
	for _, garment := range []string{"pullover", "cardigan", "vest", "dress", "trousers", "one-piece", "one-piece-hooded", "hat", "mittens", "socks"} {
		var row []Panel
		for _, size := range []string{"2", "6", "12"} {
			p, ok := all["size "+size+", "+garment+", classic over skin, cm"]
			require.True(t, ok, garment)
			row = append(row, p)
		}
		requireRoom(t, newSheet(row, SVGOptions{Key: true}), garment)
	}
}

func requireRoom(t *testing.T, s *sheet, name string) {
	t.Helper()
	var taken []box
	for _, p := range s.panels {
		to := p.to(s.scale)
		require.Len(t, p.marks, len(p.Figure.Parts()), name)
		for _, m := range p.marks {
			a, b := to(point{m.box.x0, m.box.y0}), to(point{m.box.x1, m.box.y1})
			at := box{a.x, a.y, b.x, b.y}
			require.Greater(t, at.x1-at.x0, fontSize*0.6, name)
			for _, o := range taken {
				require.False(t, at.meets(o), "%s: %s covers another label", name, m.part)
			}
			require.True(t, at.x0 >= 0 && at.y0 >= s.heading && at.x1 <= s.wide && at.y1 <= s.foot, "%s: %s is off the sheet, %v", name, m.part, at)
			require.False(t, s.o.Key && at.x1 > s.keyAt.x, "%s: %s is on the key", name, m.part)
			taken = append(taken, at)
		}
	}
}

// Lines are as long as what they measure, half of it for a girth, all of them
// on one scale.
func TestLinesAreToScale(t *testing.T) {
	girths := []string{"chest", "waist", "hip", "skirt_hip", "upper_arm", "cuff", "thigh", "calf", "ankle", "hood_round", "brim", "hand", "foot"}
	lengths := []string{"cross_back", "armhole_depth", "sleeve_length", "body_length", "skirt_length", "rise", "inside_leg", "trunk",
		"hood_height", "hat_height", "hand_length", "thumb_length", "foot_length", "leg_height"}
	sizes := map[string]float64{
		"chest": 66, "waist": 60, "hip": 63, "skirt_hip": 67, "upper_arm": 22, "cuff": 12, "thigh": 34, "calf": 24, "ankle": 16, "hood_round": 55,
		"brim": 46, "hand": 13.5, "foot": 14.5, "cross_back": 27, "armhole_depth": 14, "sleeve_length": 26.5, "body_length": 25, "skirt_length": 30,
		"rise": 20, "inside_leg": 42, "trunk": 45, "hood_height": 28, "hat_height": 19, "hand_length": 12.5, "thumb_length": 3.5, "foot_length": 16,
		"leg_height": 11, "neck": 27, "front_opening": 36,
	}
	seen := make(map[string]bool)
	for group, parts := range map[string][]string{
		"upper":     {"chest", "cross_back", "armhole_depth", "sleeve_length", "upper_arm", "cuff", "waist", "skirt_hip", "skirt_length", "body_length"},
		"one-piece": {"chest", "waist", "hip", "thigh", "calf", "ankle", "rise", "inside_leg", "trunk", "hood_round", "hood_height", "body_length", "sleeve_length"},
		"lower":     {"waist", "hip", "thigh", "calf", "ankle", "rise", "inside_leg"},
		"head":      {"brim", "hat_height"}, "hand": {"hand", "cuff", "hand_length", "thumb_length"}, "foot": {"foot", "ankle", "foot_length", "leg_height"},
	} {
		cm := make(map[string]float64)
		for _, p := range parts {
			cm[p] = sizes[p]
		}
		for _, d := range Of(group, cm).dims {
			want := sizes[d.part]
			if slices.Contains(girths, d.part) {
				want /= 2
			} else {
				require.Contains(t, lengths, d.part)
			}
			require.InDelta(t, want, d.b.minus(d.a).long(), 1e-9, "%s %s", group, d.part)
			seen[d.part] = true
		}
	}
	for _, p := range append(girths, lengths...) {
		require.True(t, seen[p], p)
	}
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
		f := Of(group, map[string]float64{"chest": 60, "hood_height": 25, "sleeve_length": 30})
		require.NotEmpty(t, f.shapes)
		b := f.box()
		require.InDelta(t, 0, b.x0+b.x1, 1e-9, group)
	}
}
