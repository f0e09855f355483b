package list

import (
	"bytes"
	"context"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/samples"
)

// heard is what a listener was told.
type heard struct {
	doubts   []sizing.Fact
	rejected []string
	children int
}

func (h *heard) listener() Listener {
	return Listener{
		Doubt: func(f sizing.Fact) { h.doubts = append(h.doubts, f) },
		Rejected: func(lines []*LineError) {
			for _, l := range lines {
				h.rejected = append(h.rejected, l.Error())
			}
		},
		Read: func(children int, _ int64) { h.children += children },
	}
}

// open opens a list named choir.csv.
func open(t *testing.T, text string, computed []string) *List {
	t.Helper()
	in, err := Open(samples.Reference(t), "choir.csv", strings.NewReader(text), Options{Header: true, Unit: "cm", Computed: computed})
	require.NoError(t, err)
	return in
}

func TestBatchTellsItsListener(t *testing.T) {
	path := filepath.Join(t.TempDir(), "rejects.csv")
	b, err := NewBatch(samples.Reference(t), BatchOptions{Want: []string{"chest", "chest"}, Units: []string{"cm"}, Rejects: path})
	require.NoError(t, err)
	require.Equal(t, []string{"size_by_height", "place_by_height", "size_by_chest", "place_by_chest", "check", "chest_cm"}, b.Columns())
	var h heard
	var out bytes.Buffer
	r, err := b.Run(context.Background(), open(t, "voice,height,chst_cm\nalto,104.5,53\nbass,x,\n", b.Columns()), &out, h.listener())
	require.NoError(t, err)
	require.Equal(t, 1, r.Rejected)
	require.False(t, r.JSON)
	require.Contains(t, r.Sources, "craft-2018")
	require.Equal(t, heard{
		doubts:   []sizing.Fact{sizing.NewFact("list.doubtful-column", "chst_cm", "chest")},
		rejected: []string{"choir.csv:3:6: height: " + notLength},
		children: 1,
	}, h)
	require.FileExists(t, path)
}

// A batch that is stopped leaves no file of rejects.
func TestBatchStops(t *testing.T) {
	dir := t.TempDir()
	b, err := NewBatch(samples.Reference(t), BatchOptions{Units: []string{"cm"}, Rejects: filepath.Join(dir, "rejects.csv")})
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	endless := reads(func(p []byte) int {
		stop()
		return copy(p, "104\n")
	})
	in, err := Open(samples.Reference(t), "choir.csv", endless, Options{Columns: "height", Unit: "cm"})
	require.NoError(t, err)
	var h heard
	_, err = b.Run(ctx, in, &bytes.Buffer{}, h.listener())
	require.ErrorIs(t, err, errStopped)
	left, err := filepath.Glob(filepath.Join(dir, "*"))
	require.NoError(t, err)
	require.Empty(t, left)
	hidden, err := filepath.Glob(filepath.Join(dir, ".*"))
	require.NoError(t, err)
	require.Empty(t, hidden)
}

// reads is a reader that never ends.
type reads func([]byte) int

func (r reads) Read(p []byte) (int, error) { return r(p), nil }

// By hand: 53 and 54 | 60, 61 and 62, one cm too small being four too big.
func TestOrderCuts(t *testing.T) {
	o, err := NewOrder(samples.Reference(t), OrderOptions{By: []string{"chest"}, Cuts: 2, SmallWeight: 4, ToleranceCm: 1.5, Each: true})
	require.NoError(t, err)
	var h heard
	r, err := o.Run(t.Context(), open(t, "name;chest\na;53\nb;54\nc;60\nd;61\ne;62\nf;?\n", o.Columns()), h.listener())
	require.NoError(t, err)
	require.Equal(t, []SizeCount{
		{Label: "1", BodyCm: []float64{54}, Children: 2, LowCm: 53, HighCm: 54},
		{Label: "2", BodyCm: []float64{62}, Children: 3, LowCm: 60, HighCm: 62},
	}, r.ToMake())
	require.Equal(t, 1, r.Rejected)
	require.Equal(t, 5, h.children)
	require.Equal(t, 4, r.Plan.Fitted, "c is 2 cm smaller")
	require.Empty(t, r.Sources, "of no chart")
	var out bytes.Buffer
	require.NoError(t, r.WriteEach(&out))
	require.Equal(t, "name;size;chest_off_cm\na;1;1\nb;1;0\nc;2;2\nd;2;1\ne;2;0\n", out.String())
}

func TestOrderChooses(t *testing.T) {
	o, err := NewOrder(samples.Reference(t), OrderOptions{Chart: "child", By: []string{"height"}, Best: 1, Halves: true, SmallWeight: 4, ToleranceCm: 2.5})
	require.NoError(t, err)
	var h heard
	r, err := o.Run(t.Context(), open(t, "height\n104\n", nil), h.listener())
	require.NoError(t, err)
	require.NotNil(t, r.Choice)
	require.Len(t, r.ToMake(), 1)
	require.Equal(t, 1, r.ToMake()[0].Children)
	require.NotEmpty(t, r.Sources)
}

func TestOrderRefuses(t *testing.T) {
	for want, o := range map[string]OrderOptions{
		"chest is named twice":  {By: []string{"chest", "chest"}},
		"lengths and girths":    {By: []string{"weight"}},
		"there are only":        {Best: 99},
		"size 4 is named twice": {Sizes: []string{"4", "4"}},
		"cannot count -1 times": {SmallWeight: -1},
	} {
		if o.By == nil {
			o.By = []string{"chest"}
		}
		if o.SmallWeight == 0 {
			o.SmallWeight = 4
		}
		o.Chart, o.ToleranceCm = "child", 2.5
		_, err := NewOrder(samples.Reference(t), o)
		require.ErrorContains(t, err, want)
	}
}
