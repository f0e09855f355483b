package sizing

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
)

// What a chart says of boys and girls together at a size it says of boys and of
// girls: every chart, sex, size and measurement, of our tables and of charts in
// which boys alone have figures of some measurements.
func TestBoysAndGirlsReadWhatBothRead(t *testing.T) {
	t.Parallel()
	own, err := data.Load(data.Embedded())
	require.NoError(t, err)
	lent := *own
	lent.Body = nil
	for _, b := range own.Body {
		lent.Body = append(lent.Body, b)
		if b.Chart == "measured-infants" && b.Measurement == "head" || b.Chart == "craft" && b.Measurement == "chest" {
			b.Sex, b.Value = "m", b.Value*1.01
			lent.Body = append(lent.Body, b)
		}
	}
	for _, tables := range []*data.Tables{own, &lent} {
		ref, err := New(tables)
		require.NoError(t, err)
		for _, c := range ref.Charts() {
			for _, both := range c.Runs() {
				for _, sex := range []Sex{Boy, Girl} {
					if both.Sex == Both {
						readsAll(t, ref, both, sex)
					}
				}
			}
		}
	}
}

func readsAll(t *testing.T, ref *Reference, both *Run, sex Sex) {
	t.Helper()
	for _, z := range both.Sizes {
		p, err := both.Chart.Place(z.Size, sex)
		if err != nil { // the class of tall children that has no girls
			require.Equal(t, Height, both.Scale, "%s %s %s: %v", both.Chart.ID, sex, z.Size, err)
			continue
		}
		at := Place{Run: both, Position: z.Position}
		if both.Scale == Height { // a class stands at another height for each sex
			at.Position = p.Position
		}
		for _, m := range ref.Measurements() {
			if _, err := ref.Read(at, m.ID, Monotone); err != nil {
				continue
			}
			_, err := ref.Read(p, m.ID, Monotone)
			require.NoError(t, err, "%s %s %s", both.Chart.ID, sex, z.Size)
		}
	}
}

// A chart of boys and girls apart, or of one of them, says so wherever a place on it
// is looked for.
func TestAChartNeedsASex(t *testing.T) {
	t.Parallel()
	own, err := data.Load(data.Embedded())
	require.NoError(t, err)
	girls := *own
	girls.Derivations, girls.Body = nil, nil
	for _, b := range own.Body {
		if b.Chart == "stature" && b.Sex == "f" {
			girls.Body = append(girls.Body, b)
		}
	}
	for name, c := range map[string]struct {
		body []data.Body
		sex  Sex
		want string
	}{
		"apart":                  {own.Body, Both, "chart stature is of boys and girls apart; give the sex m or f"},
		"apart, sex not said":    {own.Body, "", "chart stature is of boys and girls apart; give the sex m or f"},
		"girls alone":            {girls.Body, Both, "chart stature is of girls alone; give the sex f"},
		"girls alone, for a boy": {girls.Body, Boy, "chart stature is of girls alone; give the sex f"},
	} {
		t.Run(name, func(t *testing.T) {
			tables := girls
			tables.Body = c.body
			ref := newReference(&tables)
			require.NoError(t, ref.buildCharts(tables.BodyRows(), true))
			chart, err := ref.Chart("stature")
			require.NoError(t, err)
			for _, size := range []string{"4", "4y", "18m", "104cm", "99", "no size"} {
				_, err = chart.Place(size, c.sex)
				require.EqualError(t, err, c.want, size)
			}
			_, err = chart.AtHeight(104, c.sex)
			require.EqualError(t, err, c.want)
			_, err = chart.SizeOf("height", 104, c.sex)
			require.EqualError(t, err, c.want)
			require.EqualError(t, chart.CheckSex(c.sex), c.want)
			require.NoError(t, chart.CheckSex(Girl))
			_, err = chart.Place("4", Girl)
			require.NoError(t, err)
		})
	}
}
