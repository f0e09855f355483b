package page

import (
	"bytes"
	"html/template"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/tell"
)

// The names that makers are sent to are those that the page has.
func TestNamesAreOnThePage(t *testing.T) {
	s := testSite(t)
	var err error
	s.pages, err = parsePages()
	require.NoError(t, err)
	var out bytes.Buffer
	v := s.makerView(s.readState("garment=cardigan"))
	require.NoError(t, s.pages["maker.html"].ExecuteTemplate(&out, "main", v))
	for _, name := range []string{tell.PageMeasures, tell.PageSizes, tell.PageExtras, tell.PageStretch} {
		require.Contains(t, out.String(), ">"+template.HTMLEscapeString(strings.Trim(name, "“”"))+"<")
	}
}

func TestWhyNotInWordsOfThePage(t *testing.T) {
	s := testSite(t)
	tests := []struct {
		query, want string
	}{
		{"height=51&age=1m", "a height of 51 cm is outside the survey of measured babies and children, which has 60.1 to 181.1 cm; nothing is extrapolated; name a size at " + tell.PageSizes + " instead"},
		{"foot_length=5", "give the height or name a size at " + tell.PageSizes},
	}
	for _, test := range tests {
		st := s.readState(test.query)
		r := s.compute(st)
		require.Contains(t, strings.ToLower(r.bodyFault+st.Fault("height")), strings.ToLower(test.want))
	}
	r := s.compute(s.readState("size=9m&garment=one-piece-hooded&stitches=14&rows=16"))
	require.Empty(t, r.planFault, "babies are planned too")
}
