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
	pages, err := parsePages()
	require.NoError(t, err)
	s := testSite(t)
	var out bytes.Buffer
	v := &makerView{Form: form{st: s.readState("garment=cardigan"), ref: s.engine.Reference}}
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
		{"height=51&age=1m", "a height of 51 cm is outside the survey of measured babies and children, which has 60.1 to 181.1 cm; nothing is extrapolated; name a size at " + tell.PageSizes + " instead"},
		{"foot_length=5", "give the height or name a size at " + tell.PageSizes},
	}
	for _, test := range tests {
		require.Contains(t, s.compute(s.readState(test.query)).bodyFault, test.want)
	}
	r := s.compute(s.readState("size=9m&garment=one-piece-hooded&stitches=14&rows=16"))
	require.Empty(t, r.planFault, "babies are planned too")
}
