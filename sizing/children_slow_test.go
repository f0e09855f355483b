package sizing

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func TestAdviceIsGivenWhereItHelps(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	trainedAt, ok := chart.Run(Years, Both)
	require.True(t, ok)
	tall := trainedAt.Value("height", 2.5) // from that age, by the table, a child goes alone
	find := func(f *Finished, id string) (Fact, bool) {
		advice := f.Advice()
		i := slices.IndexFunc(advice, func(a Fact) bool { return a.ID == id })
		if i < 0 {
			return Fact{}, false
		}
		return advice[i], true
	}
	spec := Spec{Garment: "one-piece", Fit: "classic", Layer: "skin"}
	for height, want := range map[float64]bool{tall - 0.01: true, tall: false, tall + 1: false, 80: true} {
		b := bodyOf(t, Child{Own: map[string]float64{"height": height}})
		f, err := ref.Finish(b, spec)
		require.NoError(t, err)
		fact, ok := find(f, "nappy-offered")
		require.Equal(t, want, ok, "%g", height)
		over := spec
		over.Nappy = true
		with, err := ref.Finish(b, over)
		require.NoError(t, err)
		_, ok = find(with, "nappy-offered")
		require.False(t, ok)
		if want {
			hip, _ := f.Line("hip")
			rise, _ := f.Line("rise")
			hip2, _ := with.Line("hip")
			rise2, _ := with.Line("rise")
			require.InDelta(t, hip2.Finished-hip.Finished, float64(fact.Args[0].(Length)), 1e-9)
			require.InDelta(t, rise2.Finished-rise.Finished, float64(fact.Args[1].(Length)), 1e-9)
		}
		hat, err := ref.Finish(b, Spec{Garment: "hat", Fit: "classic", Layer: "skin"})
		require.NoError(t, err)
		require.Empty(t, hat.Advice(), "no nappy under a hat")
		trunk, ok := find(f, "trunk-first")
		require.True(t, ok)
		r, _ := b.Get("trunk")
		require.Equal(t, []any{Range{Length(r.Low), Length(r.High)}}, trunk.Args)
		place, err := chart.Place("6", Both)
		require.NoError(t, err)
		size, err := ref.Finish(ref.BodyAt(place, Monotone), spec)
		require.NoError(t, err)
		_, ok = find(size, "trunk-first")
		require.False(t, ok, "a size has none to take")
	}
	// How tall: by the child's age, or one that its height implies, on a day if it is known.
	spec = Spec{Garment: "pullover", Fit: "classic", Layer: "skin", Seasons: 1, Wear: 3}
	day := time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC)
	for _, tt := range []struct {
		child Child
		want  []string
	}{
		{Child{Sex: Girl, AgeYears: 6, Own: map[string]float64{"height": 116}}, []string{"growth-height"}},
		{Child{Sex: Girl, Own: map[string]float64{"height": 116}}, []string{"growth-height", "growth-implied-age"}},
		{Child{Sex: Girl, AgeYears: 6, Measured: day, Own: map[string]float64{"height": 116}}, []string{"growth-height-dated"}},
		{Child{Sex: Girl, AgeYears: 10, Own: map[string]float64{"height": 138}, Earlier: []Earlier{{1, map[string]float64{"height": 132}}}}, []string{"growth-height", "growth-paced"}},
	} {
		f, err := ref.Finish(bodyOf(t, tt.child), spec)
		require.NoError(t, err)
		facts := f.growthFacts()
		var ids []string
		for _, a := range facts {
			ids = append(ids, a.ID)
		}
		require.Equal(t, tt.want, ids)
		h, err := f.Growth.Height(0.75) // worn from three months on, for half a year
		require.NoError(t, err)
		now := tt.child.Own["height"]
		if tt.child.Measured.IsZero() {
			require.Equal(t, NewFact("growth-height", Length(now), Length(h.Value), Range{Length(h.Low), Length(h.High)}), facts[0])
		} else {
			require.Equal(t, NewFact("growth-height-dated", Length(now), "2026-05-01", Length(h.Value), Range{Length(h.Low), Length(h.High)}, "2027-01-30"), facts[0])
		}
	}
	place, err := chart.Place("6", Both)
	require.NoError(t, err)
	f, err := ref.Finish(ref.BodyAt(place, Monotone), spec)
	require.NoError(t, err)
	require.Equal(t, "growth-size-age", f.growthFacts()[1].ID)
	craft, err := ref.Chart("craft")
	require.NoError(t, err)
	place, err = craft.Place("6", Both)
	require.NoError(t, err)
	spec.Wear = 0
	f, err = ref.Finish(ref.BodyAt(place, Monotone), spec)
	require.NoError(t, err)
	require.Equal(t, []Fact{NewFact("growth-by-season")}, f.growthFacts())
	place, err = chart.Place("16", Both)
	require.NoError(t, err)
	spec.Seasons = 4
	f, err = ref.Finish(ref.BodyAt(place, Monotone), spec)
	require.NoError(t, err)
	require.Equal(t, f.Growth == nil, f.growthFacts()[0].ID == "growth-by-season-ended")
	spec.Seasons = 0
	f, err = ref.Finish(ref.BodyAt(place, Monotone), spec)
	require.NoError(t, err)
	require.Empty(t, f.growthFacts())
}

func TestHeadersOfChildren(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	for header, want := range map[string]bool{
		"measurement,value,unit": true, "value,unit,measurement": true, "remark,measurement,value": true, "measurement,value": true, "unit,date,measurement,value": true, "date,measurement,value": true,
		"measurement,2025-05-01": true, "measurement,2025-05,2026-05": true, "2025-05-01,measurement,unit": true, "measurement,unit": false, "value,unit": false, "measurement,value,value": false,
		"measurement,value,2025-05-01": false, "measurement,date,2025-05-01": false, "date,measurement,2025-05-01": false, "measurement,value,date,date": true, "measurement,measurement,value": true,
	} {
		row := map[string]string{"measurement": "chest", "value": "53", "unit": "cm", "date": "2026-05-01", "remark": "in a vest"}
		var cells []string
		for _, head := range strings.Split(header, ",") {
			text, ok := row[head]
			if !ok {
				text = "53"
			}
			cells = append(cells, text)
		}
		c, err := ref.ReadChild(strings.NewReader(header+"\n"+strings.Join(cells, ",")+"\n"), "child.csv")
		require.Equal(t, want, err == nil, "%s: %v", header, err)
		if want {
			require.Equal(t, map[string]float64{"chest": 53}, c.Own, header)
		}
	}
	c, err := ref.ReadChild(strings.NewReader("measurement,value,unit,date\nage,4,years,2025-01-01\nheight,102,cm,2025-01-01\nheight,108,cm,2026-01-01\nchest,54,cm,2024-01-01\nhip,,cm,2024-01-01\nname,Ines,,\nsex,girl,,\n"), "child.csv")
	require.NoError(t, err)
	require.InDelta(t, 4+11.99/12, c.AgeYears, 1e-9, "the age of then tells that of now")
	require.Equal(t, []any{"Ines", Girl, map[string]float64{"height": 108, "chest": 54}}, []any{c.Name, c.Sex, c.Own})
	require.Len(t, c.Earlier, 2)
	require.InDeltaSlice(t, []float64{365 / 365.25, 731 / 365.25}, []float64{c.Earlier[0].Years, c.Earlier[1].Years}, 1e-9, "the newest first")
	require.Equal(t, map[string]string{"height": "child.csv:4:8", "chest": "child.csv:5:7", "name": "child.csv:7:6", "sex": "child.csv:8:5"}, c.Where)
	for text, want := range map[string]string{
		"measurement,value,unit\nchest,53 cm,in\n":          `child.csv:2:7: chest: "53 cm" has the unit cm, and in is beside it; leave the wrong one out`,
		"measurement,value,unit\nchest,53,kg\n":             `child.csv:2:10: chest: "53": "kg" is not a unit of length; use cm, mm, m, in or ft`,
		"measurement,value,unit\nchset,53,cm\n":             `child.csv:2:1: unknown measurement "chset"; did you mean "chest"?`,
		"measurement,value,unit\nchest\n":                   `child.csv:2:1: "chest": want measurement,value,unit`,
		"measurement,value,unit\nchest,0,cm\n":              `child.csv:2:7: chest: "0": must be greater than 0`,
		"measurement,value,unit\nchest,53,\nhip,53 kg,cm\n": `child.csv:3:5: hip: "53 kg": "kg" is not a unit of length; use cm, mm, m, in or ft`,
		"": "child.csv: is empty; want a header measurement,value,unit and rows under it",
	} {
		_, err := ref.ReadChild(strings.NewReader(text), "child.csv")
		require.EqualError(t, err, want)
	}
	for size, want := range map[int]bool{1 << 20: true, 1<<20 + 1: false} { // a megabyte
		text := "measurement,value\nchest,53\n#"
		_, err := ref.ReadChild(strings.NewReader(text+strings.Repeat("x", size-len(text))), "child.csv")
		require.Equal(t, want, err == nil, "%d: %v", size, err)
	}
	for text, want := range map[string]string{"Chest girth": "chest", "CHEST": "chest", "arm-length": "arm_length", "  Inside__leg ": "inside_leg", "Age": "age", "Tail": "Tail"} {
		require.Equal(t, want, ref.idOf(text))
	}
	for text, want := range map[string]Sex{"M": Boy, "boy": Boy, "male": Boy, "F": Girl, "Girl": Girl, "female": Girl, "both": Both, "": Both} {
		got, err := ParseSex(text)
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
}
