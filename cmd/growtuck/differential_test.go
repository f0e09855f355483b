package main

import (
	"encoding/csv"
	"fmt"
	"maps"
	"math/rand/v2"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/proof"
	"growtuck/testdata/samples"
)

// A drawnChild is a made-up child: some of its measurements, about as they are usual.
type drawnChild struct {
	sex, age string
	own      map[string]string // in cm and kg
}

func drawChild(t *testing.T, r *rand.Rand) drawnChild {
	t.Helper()
	sex := []string{"m", "f", "both"}[r.IntN(3)]
	height := 90 + 75*r.Float64()
	c := drawnChild{sex: sex, own: map[string]string{"height": strconv.FormatFloat(height, 'f', 1, 64)}}
	usual, err := samples.Reference(t).Estimate(sizing.Child{Sex: sizing.Sex(sex), Own: map[string]float64{"height": height}})
	require.NoError(t, err)
	for _, b := range usual.Readings {
		if b.Measurement.ID != "height" && r.IntN(6) == 0 {
			c.own[b.Measurement.ID] = strconv.FormatFloat(b.Value*(0.93+0.14*r.Float64()), 'f', 1, 64)
		}
	}
	if r.IntN(2) == 0 {
		c.age = strconv.FormatFloat((height-74)/6.6, 'f', 1, 64)
	}
	return c
}

// flags are the child as it is given to a command.
func (c drawnChild) flags() []string {
	flags := []string{"--sex", c.sex}
	if c.age != "" {
		flags = append(flags, "--age", c.age)
	}
	for _, id := range slices.Sorted(maps.Keys(c.own)) { // the same every time
		flags = append(flags, "--set", id+"="+c.own[id])
	}
	return flags
}

// drawn is how many of each kind are drawn.
func drawn(some, all int) int {
	if proof.Whole() {
		return all
	}
	return some
}

// A list says of each child, in every figure, what growtuck blend says of it alone.
func TestBatchAndBlendAgree(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 12))
	var ids []string
	for _, m := range samples.Reference(t).Measurements() {
		ids = append(ids, m.ID)
	}
	children := make([]drawnChild, drawn(8, 300))
	list := &strings.Builder{}
	rows := csv.NewWriter(list)
	require.NoError(t, rows.Write(append([]string{"sex", "age"}, ids...)))
	for i := range children {
		children[i] = drawChild(t, r)
		row := []string{children[i].sex, children[i].age}
		for _, id := range ids {
			row = append(row, children[i].own[id])
		}
		require.NoError(t, rows.Write(row))
	}
	rows.Flush()
	_, stdout, _ := try(t, list.String(), "batch", "--ranges", "--want", strings.Join(ids, ","))
	out, err := csv.NewReader(strings.NewReader(stdout)).ReadAll()
	require.NoError(t, err)
	require.Len(t, out, 1+len(children))
	for i, c := range children {
		figures := make(map[string]string)
		for k, name := range out[0] {
			figures[name] = out[1+i][k]
		}
		code, stdout, stderr := try(t, noChild, append([]string{"blend", "--format", "csv"}, c.flags()...)...)
		require.Zero(t, code, stderr)
		blend, err := csv.NewReader(strings.NewReader(stdout)).ReadAll()
		require.NoError(t, err)
		column := func(name string) int { return slices.Index(blend[0], name) }
		for _, row := range blend[1:] {
			id, unit := row[column("measurement")], row[column("unit")]
			for name, in := range map[string]string{"value": id + "_" + unit, "low": id + "_low_" + unit, "high": id + "_high_" + unit} {
				if _, copied := figures[in]; !copied && name == "value" {
					in = id // a measurement that the list gives
				}
				require.Equal(t, row[column(name)], figures[in], "%s of %v", in, c)
			}
		}
	}
}

// The page answers what the commands say, refusals too.
func TestPageAndCommandsAgree(t *testing.T) {
	h := pageHandler(t)
	r := rand.New(rand.NewPCG(19, 13))
	one := func(all ...string) string { return all[r.IntN(len(all))] }
	ref := samples.Reference(t)
	garments := ref.Garments()
	planned, refused := 0, 0
	for i := range drawn(10, 400) {
		c := drawChild(t, r)
		g := garments[r.IntN(len(garments))]
		query := url.Values{"sex": {c.sex}, "garment": {g.ID}}
		args := append([]string{g.ID}, c.flags()...)
		if c.age != "" {
			query.Set("age", c.age)
		}
		for id, v := range c.own {
			query.Add("set", id+"="+v)
		}
		given := func(name, value string) {
			query.Add(name, value)
			args = append(args, "--"+name+"="+value)
		}
		given("fit", one("very-close", "close", "classic", "loose", "oversized"))
		given("layer", one("skin", "indoor", "winter"))
		given("growth", one("0", "1", "2.5"))
		if r.IntN(4) == 0 {
			given("nappy", "true")
		}
		options, err := ref.GarmentOptions(g.ID)
		require.NoError(t, err)
		if len(options) > 0 && r.IntN(2) == 0 {
			given("option", options[r.IntN(len(options))])
		}
		asked := "garment"
		if i%2 == 0 {
			asked = "plan"
			given("craft", one("knit", "crochet"))
			given("gauge", fmt.Sprintf("%dx%d/%s", 10+r.IntN(20), 10+r.IntN(28), one("10cm", "4in")))
			for name, value := range map[string]string{"yoke": one("circular", "raglan", "drop-shoulder"), "closure": one("zip", "buttons"), "stretch": one("cuff=1.3", "neck=1.5", "waist=1.4")} {
				if r.IntN(3) == 0 {
					given(name, value)
				}
			}
		}
		code, out, stderr := try(t, noChild, append([]string{asked, "--format", "json"}, args...)...)
		answer := fetch(h, http.MethodGet, "/api/"+asked+"?"+query.Encode(), "")
		if code != 0 {
			refused++
			require.GreaterOrEqual(t, answer.StatusCode, 400, "%v: %s", args, stderr)
			continue
		}
		planned++
		require.Equal(t, http.StatusOK, answer.StatusCode, "%v: %s", args, stderr)
		require.Equal(t, out, withoutEdition(t, text(t, answer)), "%v", args)
	}
	t.Logf("%d answered, %d refused", planned, refused)
	require.Positive(t, planned)
}
