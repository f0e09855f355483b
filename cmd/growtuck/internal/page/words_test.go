package page

import (
	"bytes"
	"html/template"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// The names that makers are sent to are those that the page has.
func TestNamesAreOnThePage(t *testing.T) {
	pages, err := parsePages()
	require.NoError(t, err)
	s := testSite(t)
	var out bytes.Buffer
	v := &makerView{Form: form{s.readState("garment=cardigan"), s.engine.Reference}}
	require.NoError(t, pages["maker.html"].ExecuteTemplate(&out, "main", v))
	for _, name := range []string{tell.PageMeasures, tell.PageSizes, tell.PageExtras, tell.PageStretch} {
		require.Contains(t, out.String(), ">"+template.HTMLEscapeString(strings.Trim(name, "“”"))+"<")
	}
}

func TestWhyNotInWordsOfThePage(t *testing.T) {
	s := testSite(t)
	tests := []struct {
		query, want string
	}{
		{"height=71&age=9m", "a height of 71 cm is outside the survey of measured children, which has 87.4 to 181.1 cm; nothing is extrapolated; name a size at " + tell.PageSizes + " instead"},
		{"foot_length=11", "give the height or name a size at " + tell.PageSizes},
	}
	for _, test := range tests {
		require.Contains(t, s.compute(s.readState(test.query)).bodyFault, test.want)
	}
	r := s.compute(s.readState("size=9m&garment=one-piece-hooded&stitches=14&rows=16"))
	require.Equal(t, "neck edge, at rest cannot be planned: the neck girth is not known; measure it and enter it at "+tell.PageMeasures, r.planFault)
}

func TestGaugeAsItWasCounted(t *testing.T) {
	g, err := stitch.Swatch{Stitches: 20, WidthCm: 10.16, Rows: 28, HeightCm: 10.16}.Gauge()
	require.NoError(t, err)
	require.Equal(t, "20 stitches and 28 rows to 4 in", shower{over: "4in"}.gauge(g))
	require.Equal(t, "19.69 stitches and 27.56 rows to 10 cm", shower{over: "10cm"}.gauge(g))
}

func TestWho(t *testing.T) {
	for want, years := range map[string]float64{"9 months": 0.75, "1 year": 1, "4 years 1 month": 4 + 1.0/12, "14 years": 14} {
		require.Equal(t, want, who(sizing.Child{AgeYears: years}))
	}
	require.Equal(t, "Über", capital("über"))
}
