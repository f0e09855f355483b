package page

import (
	"net/url"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

func testSite(t testing.TB) *site {
	t.Helper()
	ref, err := sizing.Default()
	require.NoError(t, err)
	return &site{engine: Engine{Reference: ref}}
}

// An address says the same after it was read and written once more.
func TestStateRoundTrip(t *testing.T) {
	s := testSite(t)
	for _, query := range []string{
		"",
		"height=110.5&chest=20+3%2F4+in&sex=m&age=4y6m",
		"garment=cardigan&option=tunic&option=fold-back-cuffs&extra.sleeve_length=2",
		"tape=in&chest=9%C2%BE&stretch=1.5%2C+neck%3D1.4&garment=trousers&nappy=yes",
		"size=nonsense&stitches=16%2C5&rows=&over=4in",
	} {
		once := s.readState(query).Query()
		twice := s.readState(once).Query()
		require.Equal(t, once, twice, query)
		want, err := url.ParseQuery(query)
		require.NoError(t, err)
		got, err := url.ParseQuery(once)
		require.NoError(t, err)
		for name, values := range want {
			if values[0] != "" {
				require.ElementsMatch(t, values, got[name], "%s: %s", query, name)
			}
		}
	}
}

func TestStateLeavesOut(t *testing.T) {
	s := testSite(t)
	tests := []struct{ query, want string }{
		{"fit=classic&layer=skin&over=10cm", ""},                          // what is usual
		{"paint=red&height=110", "height=110"},                            // what is not known
		{"garment=hat&extra.sleeve_length=2&option=tunic", "garment=hat"}, // what another garment has
		{"height=11%000", "height=110"},                                   // what cannot be shown
		{"chest=%ff53", "chest=53"},
		{"height=1&height=2", "height=1"},
	}
	for _, test := range tests {
		require.Equal(t, test.want, s.readState(test.query).Query(), test.query)
	}
}

// Wrong entries are named at their field, with what would be right, and the
// rest is worked out.
func TestFaultsAtTheirFields(t *testing.T) {
	s := testSite(t)
	tests := []struct{ query, field, words string }{
		{"height=tall", "height", "write it as 24.5, 24.5 cm or 9 3/4 in"},
		{"height=110&chest=-3", "chest", "must be greater than 0"},
		{"age=old", "age", "write it as 4.5, 4y6m or 30m"},
		{"sex=x", "sex", "not one of m, f, both"},
		{"size=99", "size", "outside chart child"},
		{"size=4&widths=3&lengths=5", "size", "give either size or both of those"},
		{"widths=3", "lengths", "give both sizes"},
		{"lengths=3", "widths", "give both sizes"},
		{"size=4&garment=coat", "garment", "unknown garment"},
		{"size=4&fit=snug", "fit", "snug"},
		{"size=4&layer=fur", "layer", "fur"},
		{"size=4&growth=9", "growth", "want a number from 0 to 4"},
		{"size=4&option=wings", "option", `unknown option of pullover "wings"`},
		{"size=4&extra.sleeve_length=long", "extra.sleeve_length", "not a measurement"},
		{"size=4&stitches=16", "rows", "count the rows too"},
		{"size=4&rows=16", "stitches", "count the stitches too"},
		{"size=4&stitches=many&rows=18", "stitches", "want stitches"},
		{"size=4&stitches=16&rows=18&over=1m", "over", "want 10cm or 4in"},
		{"size=4&stitches=16&rows=18&craft=weave", "craft", "known are crochet, knit"},
		{"size=4&stitches=16&rows=18&yarn=big", "yarn", "such as 50 g / 125 m or 100g 220yd"},
		{"size=4&stitches=16&rows=18&swatch=big", "swatch", "10x10cm 4g"},
		{"size=4&stitches=16&rows=18&stripes=red", "stripes", "such as 4 red, 2 white"},
		{"size=4&stitches=16&rows=18&colour=tail=red", "colour", `unknown section "tail"`},
		{"size=4&stitches=16&rows=18&pace=100&by=soon", "by", "such as 2026-12-24"},
		{"size=4&stitches=16&rows=18&pace=100&from=2026-12-24&by=2026-12-01", "by", "the first day is after the last"},
		{"size=4&stitches=16&rows=18&multiple=x", "multiple", "6n+2"},
		{"size=4&stitches=16&rows=18&stretch=9", "stretch", "1 to 3"},
		{"size=4&stitches=16&rows=18&stretch=ear=1.2", "stretch", `unknown edge "ear"`},
	}
	for _, test := range tests {
		st := s.readState(test.query)
		s.compute(st)
		require.Contains(t, st.Fault(test.field), test.words, test.query)
	}
}

// What is wrong with the yarn, colours or the time takes no stitch out of the plan.
func TestPlanStaysBesideFaultsOfYarn(t *testing.T) {
	s := testSite(t)
	for _, wrong := range []string{"yarn=big", "swatch=4g", "margin=9", "stripes=red", "colour=tail=red", "pace=0", "by=soon&pace=100", "from=2026-12-24&by=2026-12-01&pace=100"} {
		st := s.readState("size=4&stitches=16&rows=18&" + wrong)
		require.NotNil(t, s.compute(st).plan, wrong)
		require.NotEmpty(t, st.faults, wrong)
	}
}

func TestOwnHost(t *testing.T) {
	for host, own := range map[string]bool{
		"127.0.0.1:8474": true, "127.0.0.1": true, "localhost:1": true, "localhost": true, "[::1]:80": true, "[::1]": true, "127.9.9.9:1": true,
		"": false, "example.org": false, "example.org:8474": false, "localhost.example.org": false, "127.0.0.1.example.org:80": false, "10.0.0.1:80": false,
	} {
		require.Equal(t, own, ownHost(host), host)
	}
}
