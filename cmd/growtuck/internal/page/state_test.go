package page

import (
	"net/url"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/ask"
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
		"tape=in&chest=9%C2%BE&stretch=1.5%2C+neck%3D1.4&nappy=yes",
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
		{"colour=red&height=110", "height=110"},                           // what is not known
		{"garment=hat&extra.sleeve_length=2&option=tunic", "garment=hat"}, // what another garment has
		{"height=11%000", "height=110"},                                   // what cannot be shown
		{"chest=%ff53", "chest=53"},
		{"height=1&height=2", "height=1"},
	}
	for _, test := range tests {
		require.Equal(t, test.want, s.readState(test.query).Query(), test.query)
	}
}

// Numbers without a unit are in that of the tape, in files as on the page.
func TestQuestionHasUnits(t *testing.T) {
	s := testSite(t)
	q := question{fields: ask.Named("set", "extra", "gauge", "nappy", "widths", "lengths")}
	tests := []struct {
		query string
		want  url.Values
	}{
		{"height=110,5&weight=17", url.Values{"set": {"height=110,5 cm", "weight=17 kg"}}},
		{"tape=in&height=43+1/2&weight=38&chest=53+cm", url.Values{"set": {"chest=53 cm", "height=43 1/2 in", "weight=38 lb"}}},
		{"tape=in&extra.sleeve_length=1", url.Values{"extra": {"sleeve_length=1 in"}}},
		{"stitches=16,5&rows=18&over=4in&nappy=yes", url.Values{"gauge": {"16.5x18/4in"}, "nappy": {"true"}}},
		{"size=5", url.Values{"widths": {"5"}, "lengths": {"5"}}},
	}
	for _, test := range tests {
		require.Equal(t, test.want, s.readState(test.query).question(q), test.query)
	}
}

// Wrong entries are named at their field, with what would be right, and the
// rest is worked out.
func TestFaultsAtTheirFields(t *testing.T) {
	s := testSite(t)
	tests := []struct{ query, field, words string }{
		{"height=tall", "height", "write it as 24.5, 24.5 cm or 9 3/4 in"},
		{"height=110&chest=-3", "chest", "not above nothing"},
		{"age=old", "age", "write 4.5, 4y6m or 30m"},
		{"sex=x", "sex", "none of m, f, both"},
		{"size=99", "size", "outside chart child"},
		{"size=4&widths=3&lengths=5", "size", "empty the others"},
		{"widths=3", "lengths", "give the size for lengths too"},
		{"lengths=3", "widths", "give the size for widths too"},
		{"size=4&garment=coat", "garment", "unknown garment"},
		{"size=4&fit=snug", "fit", "snug"},
		{"size=4&layer=fur", "layer", "fur"},
		{"size=4&growth=9", "growth", "half-years, 0 to 4"},
		{"size=4&option=wings", "option", `no option "wings"`},
		{"size=4&extra.sleeve_length=long", "extra.sleeve_length", "not a measurement"},
		{"size=4&stitches=16", "rows", "count the rows too"},
		{"size=4&rows=16", "stitches", "count the stitches too"},
		{"size=4&stitches=many&rows=18", "stitches", "want stitches"},
		{"size=4&stitches=16&rows=18&over=1m", "over", "want 10cm or 4in"},
		{"size=4&stitches=16&rows=18&craft=weave", "craft", "none of crochet, knit"},
		{"size=4&stitches=16&rows=18&yarn=big", "yarn", "50g 125m"},
		{"size=4&stitches=16&rows=18&swatch=big", "swatch", "10x10cm 4g"},
		{"size=4&stitches=16&rows=18&multiple=x", "multiple", "6n+2"},
		{"size=4&stitches=16&rows=18&stretch=9", "stretch", "1 to 3"},
		{"size=4&stitches=16&rows=18&stretch=ear=1.2", "stretch", "none of the edges"},
	}
	for _, test := range tests {
		st := s.readState(test.query)
		s.makeBody(st, &result{child: s.child(st)})
		s.making(st)
		s.how(st)
		require.Contains(t, st.Fault(test.field), test.words, test.query)
	}
}

// Edges stretch by numbers with a decimal point or comma, parted by commas.
func TestStretches(t *testing.T) {
	s := testSite(t)
	for text, want := range map[string]map[string]float64{
		"1,5":                    {"neck": 1.5, "cuff": 1.5, "ankle": 1.5, "waist": 1.5, "brim": 1.5},
		"neck=1,4,cuff=1.3":      {"neck": 1.4, "cuff": 1.3},
		"neck=1.4, cuff=1,3":     {"neck": 1.4, "cuff": 1.3},
		"1.2 brim=1.6;neck=1,45": {"neck": 1.45, "cuff": 1.2, "ankle": 1.2, "waist": 1.2, "brim": 1.6},
	} {
		st := s.readState(url.Values{"stretch": {text}}.Encode())
		require.Equal(t, want, st.readStretch(), text)
		require.Empty(t, st.faults, text)
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
