package plan

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

// Parts of any kind and size, sewn to any garment, are of the piece that is planned for
// them: filled by their volume, with the yarn of their stitches; at the height of their
// place, as wide there as they are, and as far from the line that they are symmetrical to.
func TestAnyPartIsSewnOn(t *testing.T) {
	kinds := samples.Reference(t).AddedParts()
	seen := make(map[string]int)
	for seed := range uint64(1500) {
		r := chooser{rand.New(rand.NewPCG(seed, 7))}
		finished, err := r.finished(t)
		if err != nil {
			continue
		}
		how := r.how()
		how.Hold, how.Rib = nil, nil
		row := pick(r, kinds...)
		a := Addition{Kind: row.ID, Place: pick(r, append(strings.Fields(row.Places), "")...), WidthCm: r.between(3, 12)}
		if r.half() {
			a.HeightCm = r.between(3, 14)
		}
		if r.IntN(3) == 0 {
			a.Pieces = 1 + r.IntN(4)
		}
		how.Add = []Addition{a}
		p, err := Make(finished, how)
		if err != nil {
			continue
		}
		sewn := &sewing{t, p, row, p.Added[0]}
		require.Equal(t, row, sewn.a.Row)
		sewn.piece(a)
		sewn.worked()
		seen[sewn.on()]++
	}
	for _, kind := range []string{"sew-middle", "sew-each", "sew-beginning", "sew-crown", "sew-pair", "sew-line"} {
		require.Greater(t, seen[kind], 3, kind)
	}
}

type sewing struct {
	t   *testing.T
	p   *Plan
	row data.AddedPart
	a   Added
}

// piece looks at one of them, and at what is in all of them.
func (x *sewing) piece(asked Addition) {
	t, a, p := x.t, x.a, x.p
	every := 1
	if p.How.Craft == Knit {
		every = 2
	}
	wide, long := asked.WidthCm, asked.HeightCm
	if long == 0 {
		long = wide * x.row.HeightShare / 100
	}
	require.InDelta(t, long, a.HeightCm, 1e-9)
	target := stitch.PieceTarget{Gauge: p.How.Gauge, Shape: stitch.Shape(x.row.Shape), WidthCm: wide, HeightCm: long, Every: every}
	hangs := long
	if x.row.Folded == "yes" { // half of it is seen
		target.WidthCm, target.HeightCm = 2*min(wide, long), max(wide, long)
	}
	want, err := stitch.PlanPiece(target)
	require.NoError(t, err)
	require.Equal(t, want, a.Piece)
	if x.row.Folded == "yes" {
		hangs = a.Piece.WidthCm / 2
	} else {
		hangs = a.Piece.HeightCm
	}
	require.InDelta(t, hangs, a.HangsCm(), 1e-9)

	if asked.Pieces > 0 {
		require.Equal(t, asked.Pieces, a.Pieces)
	}
	zone := map[string]string{"hood": "hood", "face": "face", "head": "brim", "back": "back", "seat": "seat", "knee": "leg", "elbow": "sleeve", "palm": "hand", "sole": "foot"}[a.Place]
	require.Equal(t, zone, a.Zone)
	var said []string
	for _, r := range p.Draft() {
		if r.Field == x.row.Field && r.Field != "" {
			said = append(said, r.Part, r.Value, r.Unit)
		}
	}
	if x.row.Field == "" {
		require.Empty(t, said)
	} else {
		require.Equal(t, []string{zone, exact(math.Round(hangs*10) / 10), "cm"}, said)
	}
	require.Equal(t, []any{a.Pieces, x.row.ID, true}, []any{a.Section.Copies, a.Section.Kind, a.Section.InRounds})
	fill := 0.0
	if x.row.Filled == "yes" {
		volume := want.VolumeCm3
		if volume == 0 { // flat: an ellipse, a third of its width thick
			volume = math.Pi * want.WidthCm / 2 * want.HeightCm / 2 * want.WidthCm / 3
		}
		fill = volume / 1000 * figure(p, "added_fill") * float64(a.Pieces)
		step := a.Section.stepOf("fill")
		require.InDelta(t, fill/float64(a.Pieces), step.Values["grams"], 1e-9)
		require.InDelta(t, volume, step.Values["volume"], 1e-9)
	}
	require.InDelta(t, fill, a.FillG, 1e-9)
	require.InDelta(t, fill, p.Filling(), 1e-9)
	stitches := 0
	for _, n := range want.Counts {
		stitches += n
	}
	perCm2 := p.How.Swatch.Grams / p.How.Swatch.WidthCm / p.How.Swatch.HeightCm
	require.InDelta(t, float64(stitches*a.Pieces)*100/p.How.Gauge.StitchesPer10Cm/p.How.Gauge.RowsPer10Cm*perCm2, a.YarnG, 1e-9)
	require.True(t, p.Adds(a.Section))
	require.False(t, p.Adds(p.Sections[0]))
}

// worked looks at its rounds: each is in one step.
func (x *sewing) worked() {
	t, s := x.t, x.a.Section
	require.Equal(t, x.a.Piece.Counts[0], s.From)
	require.Len(t, s.rows, len(x.a.Piece.Counts))
	for i, n := range x.a.Piece.Counts {
		require.Equal(t, row{n, n}, s.rows[i])
	}
	done := 0
	for _, step := range s.Steps {
		if step.Rows > 0 {
			require.Equal(t, done+1, step.Row)
			done += step.Rows
			require.Equal(t, s.StitchesAfter(done), step.To)
		}
		if step.Across != nil {
			require.Equal(t, []int{s.StitchesAfter(step.n("row") - 1), s.StitchesAfter(step.n("row"))}, []int{step.Across.Stitches, step.Across.After()})
		} else if n, straight := step.Values["rows"]; straight {
			want := step.Rows
			if step.Row == 2 { // the round that begins it is among them
				want++
			}
			require.Equal(t, want, n)
		}
	}
	require.Equal(t, s.Rows(), done)
	kinds := func(kind string) bool {
		return slices.ContainsFunc(s.Steps, func(y Step) bool { return y.Kind == kind })
	}
	require.Equal(t, x.a.Piece.Shape == stitch.Sphere, kinds("gather"))
	require.Equal(t, x.a.Piece.Shape != stitch.Sphere, kinds("finish-piece"))
	require.Equal(t, x.row.Folded == "yes" && x.a.Piece.Shape != stitch.Sphere, kinds("fold-in-half"))
	require.Equal(t, x.a.Piece.Foundation > 0, kinds("start-oval"))
}

// on looks at where they are, and returns how they are sewn on.
func (x *sewing) on() string {
	t, p, a := x.t, x.p, x.a
	step := a.Section.Steps[len(a.Section.Steps)-1]
	i := slices.IndexFunc(p.Sections, func(s *Section) bool { return s.Kind == step.Values["on"] })
	on := p.Sections[i]
	at := step.n("on_row")
	section, row := x.place()
	stitches := on.StitchesAfter(at)
	cm := a.Piece.WidthCm
	if a.Place == "face" || a.Place == "head" && a.Piece.Shape == stitch.FlatOval {
		cm = a.Piece.HeightCm
	}
	width := wholeNear(p.How.Gauge.Stitches(cm), 1)
	first, last := step.n("first"), step.n("last")
	if step.Kind != "sew-line" && step.Kind != "sew-crown" {
		require.Equal(t, []any{section, row}, []any{on.ID, at}, a.Place)
	}
	side := strings.Contains("knee palm sole", a.Place)
	switch step.Kind {
	case "sew-middle":
		require.Equal(t, 1, a.Pieces)
		if side || a.Place == "elbow" {
			middle := float64(stitches) / 2
			if side { // of one half
				middle /= 2
			}
			require.Equal(t, width, last-first+1)
			require.InDelta(t, middle, float64(first+last-1)/2, 0.5)
			break
		}
		require.Equal(t, stitches+1, first+last)
		require.InDelta(t, width, last-first+1, 1)
		require.LessOrEqual(t, last-first+1, width)
	case "sew-each", "sew-pair":
		require.Equal(t, []int{width, 2, stitches}, []int{last - first + 1, a.Pieces, step.n("stitches")})
		require.Equal(t, []int{stitches + 1 - last, stitches + 1 - first}, []int{step.n("first_other"), step.n("last_other")})
		middle := float64(first+last-1) / 2
		switch {
		case step.Kind == "sew-pair":
			apart := max(float64(stitches)*shareOf(p, "added_from_middle"), float64(width)/2+0.5)
			require.InDelta(t, float64(stitches)/2-apart, middle, 0.5+1e-9)
		case side:
			require.InDelta(t, float64(stitches)/4, middle, 0.5+1e-9)
		default:
			require.InDelta(t, float64(stitches)/2, middle, 0.5+1e-9)
		}
	case "sew-beginning":
		require.Equal(t, []int{1, max(1, width/2), stitches}, []int{a.Pieces, step.n("half"), step.n("stitches")})
		require.LessOrEqual(t, 2*width, 2*(stitches/2))
	case "sew-crown":
		require.Equal(t, []any{"crown", 1, 1}, []any{on.ID, at, a.Pieces})
	case "sew-line":
		if hood, ok := p.Section("hood"); ok && a.Place == "hood" {
			require.Same(t, hood, on)
		}
		require.Equal(t, []int{a.Pieces, on.Rows() / a.Pieces, max(1, on.Rows()/a.Pieces/2)}, []int{step.n("pieces"), step.n("apart"), at})
		require.GreaterOrEqual(t, on.HeightCm(), a.Piece.WidthCm*float64(a.Pieces)-1e-9)
	default:
		t.Fatalf("%s", step.Kind)
	}
	return step.Kind
}

// place is the section and row that a place is at.
func (x *sewing) place() (section string, row int) {
	p := x.p
	has := func(id string) *Section { s, _ := p.Section(id); return s }
	body := func(id string) float64 { r, _ := p.Body.Get(id); return r.Value }
	switch x.a.Place {
	case "hood":
		if has("hood-crown") != nil {
			return "hood-crown", 1
		}
		return "hood", has("hood").Rows()
	case "face":
		return "hood-edge", 1
	case "head":
		if p.How.Craft == Knit { // from the brim up
			return "crown", 1
		}
		return "crown", has("crown").Rows()
	case "back":
		for _, id := range []string{"back", "body", "bodice"} {
			if s := has(id); s != nil {
				return id, max(1, s.Rows()/2)
			}
		}
	case "seat":
		if s := has("hips"); s != nil {
			return "hips", max(1, s.Rows()/2)
		}
		return "seat", max(1, has("seat").Rows()/3)
	case "palm":
		return "palm", max(1, has("palm").Rows()/2)
	case "sole":
		return "foot", max(1, has("foot").Rows()/2)
	case "knee":
		down := wholeNear(p.How.Gauge.Rows(body("inside_leg")-body("knee_height")), 1)
		leg := has("leg")
		if lower := has("lower-leg"); lower != nil && down > leg.Rows() {
			return "lower-leg", min(down-leg.Rows(), lower.Rows())
		}
		return "leg", min(down, leg.Rows())
	case "elbow":
		l, _ := p.Finished.Line("sleeve_length")
		cm := l.Finished - p.HeldCm("sleeve_length") - body("arm_length")*shareOf(p, "elbow_to_wrist")
		return "sleeve", min(wholeNear(p.How.Gauge.Rows(cm), 1), has("sleeve").Rows())
	}
	return "", 0
}
