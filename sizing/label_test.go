package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/bounded"
)

// What labels of children's clothes say. Heights by EN 13402-3:2017 and ISO 8559-2:2017,
// which call children's sizes by their height in cm, in steps of 6, so that a double
// size is both; ages as the label itself says. T and X are the trade's: of them, and of
// months and of letters, common practice, no source.
func TestLabels(t *testing.T) {
	chart, err := reference(t).Chart(sizing.DefaultChart)
	require.NoError(t, err)
	for _, tt := range []struct {
		label  string
		years  float64 // of the place
		height float64 // or its height in cm
		how    string  // the fact of how it was read
		means  string  // and who says so
	}{
		{"2T", 2, 0, "label.toddler", "two years, cut for a nappy: common practice"},
		{"4T", 4, 0, "label.toddler", "four years, cut for a nappy: common practice"},
		{"2T-3T", 2.5, 0, "label.ages", "two to three years: common practice"},
		{"6x", 6.5, 0, "label.6x", "between 6 and 7: common practice"},
		{"6X", 6.5, 0, "label.6x", "between 6 and 7: common practice"},
		{"4-5", 4.5, 0, "label.ages", "four to five: the label"},
		{"4–5", 4.5, 0, "label.ages", "the same with a dash: the label"},
		{"4/5 years", 4.5, 0, "label.ages", "four to five years: the label"},
		{"4-5Y", 4.5, 0, "label.ages", "four to five years: the label"},
		{"16-17", 16, 0, "label.ages", "sixteen to seventeen: the label; the chart ends at 16"},
		{"4 ans", 4, 0, "", "four years: the label"},
		{"age 7", 7, 0, "", "seven years: the label"},
		{"5½", 5.5, 0, "", "five and a half: the label"},
		{"5 1/2", 5.5, 0, "", "five and a half: the label"},
		{"4 years", 4, 0, "", "four years: the label"},
		{"size 18m", 1.5, 0, "", "a size of the chart"},
		{"24M", 2, 0, "", "a size of the chart"},
		{"18-24 months", 1.75, 0, "label.ages", "18 to 24 months: the label"},
		{"6-9m", 0.625, 0, "label.ages", "six to nine months: the label"},
		{"0-3m", 0.25, 0, "label.ages", "to three months, where the chart begins: the label"},
		{"3 to 6 months", 0.375, 0, "label.ages", "three to six months: the label"},
		{"T4", 4, 0, "label.toddler", "the same as 4T: common practice"},
		{"5-6A", 5.5, 0, "label.ages", "cinq à six ans: the label"},
		{"L (10-12)", 11, 0, "label.ages", "ten to twelve, which the letter stands for: the label"},
		{"EU104", 0, 104, "label.height", "height 104 cm: EN 13402-3"},
		{"98/104", 0, 101, "label.heights", "heights 98 and 104: EN 13402-3, ISO 8559-2"},
		{"104-110", 0, 107, "label.heights", "heights 104 and 110: EN 13402-3, ISO 8559-2"},
		{"110", 0, 110, "label.height", "height 110 cm: EN 13402-3, ISO 8559-2"},
		{"62", 0, 62, "label.height", "height 62 cm: EN 13402-3, ISO 8559-2"},
		{"EU 104", 0, 104, "label.height", "height 104 cm: EN 13402-3"},
		{"size 104", 0, 104, "label.height", "height 104 cm: EN 13402-3, ISO 8559-2"},
		{"Gr. 98", 0, 98, "label.height", "height 98 cm: EN 13402-3"},
		{"104 cm", 0, 104, "", "height: the label"},
		{"41 in", 0, 104.14, "", "height: the label"},
		{"110 (4-5Y)", 0, 110, "label.height", "height 110, of children of four to five: the label"},
		{"4-5 years / 110 cm", 0, 110, "", "the same: the label"},
	} {
		p, err := chart.Place(tt.label, sizing.Both)
		require.NoError(t, err, "%s: %s", tt.label, tt.means)
		if tt.height > 0 {
			h, ok := p.Height()
			require.True(t, ok)
			require.InDelta(t, tt.height, h, 0.01, "%s: %s", tt.label, tt.means)
		} else {
			years := p.Position
			if p.Run.Scale == sizing.Months {
				years /= 12
			}
			require.InDelta(t, tt.years, years, 1e-9, "%s: %s", tt.label, tt.means)
		}
		if tt.how == "" {
			require.Nil(t, p.How, tt.label)
		} else {
			require.NotNil(t, p.How, tt.label)
			require.Equal(t, tt.how, p.How.ID, tt.label)
		}
	}
	for label, want := range map[string]string{
		"NB":       `size "NB": is below chart child; give 3m, its smallest`,
		"newborn":  `size "newborn": is below chart child; give 3m, its smallest`,
		"L":        `size "L": says neither an age nor a height; letters stand for others with each maker; give the age or the height that goes with it, such as 4-5 or 110`,
		"one size": `size "one size": says neither an age nor a height; letters stand for others with each maker; give the age or the height that goes with it, such as 4-5 or 110`,
		"EU 4":     `size "EU 4": European sizes of children are heights in cm; give 4 years, or the height`,
		"6-9":      `size "6-9": may be months or years; give 6-9m or 6-9y`,
		"17-18":    `size "17-18": is outside chart child; give 16, its largest, or a size below it`,
		"0-1m":     `size "0-1m": is below chart child; give 3m, its smallest`,
		"4T-110":   `size "4T-110": its ends are of two kinds; give one of them`,
		"8 slim":   `size "8 slim": "slim" says a width, which differs from maker to maker; give 8, with the child's own girths`,
		"10R":      `size "10R": "r" says a width, which differs from maker to maker; give 10, with the child's own girths`,
		"200":      "height 200 is outside chart child, which has 60.1 to 168.1; nothing is extrapolated",
		"56":       "height 56 is outside chart child, which has 60.1 to 168.1; nothing is extrapolated",
		"30":       "size 30 is outside chart child (years), which has 2 to 16; nothing is extrapolated",
	} {
		_, err := chart.Place(label, sizing.Both)
		require.EqualError(t, err, want, label)
	}
	for _, label := range []string{"", "-", "/", "4/", "T", "10-8", "1e9", "4-5-6", "()", "4 (", "½-", "size"} {
		_, err := chart.Place(label, sizing.Both)
		var unknown *sizing.SizeError
		require.ErrorAs(t, err, &unknown, label)
	}
}

// Every chart that has heights has sizes by height, in steps of 6.
func TestSizesByHeight(t *testing.T) {
	for id, want := range map[string]int{"child": 18, "measured": 15, "craft-head": 0} {
		chart, err := reference(t).Chart(id)
		require.NoError(t, err)
		names := chart.WithHeights([]string{"heights"}, sizing.Boy)
		require.Len(t, names, want, id)
		for _, name := range names {
			_, err := chart.Place(name, sizing.Boy)
			require.NoError(t, err)
		}
	}
}

func FuzzLabel(f *testing.F) {
	for _, label := range []string{"4-5y", "98/104", "6x", "EU 104", "4-5 (110)", "½", "٤-٥", "size size 4"} {
		f.Add(label)
	}
	ref, err := sizing.Default()
	require.NoError(f, err)
	f.Fuzz(func(t *testing.T, label string) {
		defer bounded.By(t, 8<<20)()
		for _, c := range ref.Charts() {
			p, err := c.Place(label, sizing.Both)
			require.True(t, err != nil || p.Run != nil && len(ref.BodyAt(p, sizing.Monotone).Readings) >= 0)
		}
	})
}
