package page

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What is asked by somebody who has gone is not worked out to its end, and nothing is
// tried out to find what is to blame.
func TestWorkEndsWithItsRequest(t *testing.T) {
	s := testSite(t)
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	var sizes []string
	for i := range 40 {
		sizes = append(sizes, fmt.Sprint(2+float64(i)/8))
	}
	var list strings.Builder
	list.WriteString("sex,height,chest,hip\n")
	for i := range 5000 {
		fmt.Fprintf(&list, "f,%d,%d,%d\n", 95+i%60, 52+i%13, 55+i%17)
	}
	how := "&craft=knit&gauge=20x28/10cm"
	run := "garment=cardigan&sizes=" + strings.Join(sizes, ",") + how
	for _, asked := range []struct{ name, query, body string }{
		{"plan", "garment=cardigan&size=4" + how, ""},
		{"plan", run, ""},
		{"export/plan.xlsx", run, ""},
		{"export/pattern.html", run, ""},
		{"export/plan.xlsx", "garment=cardigan&size=4" + how, ""},
		{"batch", "ranges=true", list.String()},
		{"order", "by=chest,hip&best=4&halves=true", list.String()},
	} {
		q := question{}
		for _, known := range questions(s.engine) {
			if known.name == asked.name {
				q = known
			}
		}
		require.NotNil(t, q.respond, asked.name)
		values, err := url.ParseQuery(asked.query)
		require.NoError(t, err)
		_, err = s.ask(t.Context(), q, values, []byte(asked.body))
		require.NoError(t, err, asked.name)
		_, err = s.ask(gone, q, values, []byte(asked.body))
		require.Error(t, err, asked.name)
		require.True(t, errors.Is(err, context.Canceled) || strings.Contains(err.Error(), "stopped"), "%s: %v", asked.name, err)
		require.Equal(t, err, s.blame(gone, q, values, err))
	}
}
