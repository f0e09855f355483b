package page

import (
	"net/url"
	"strings"
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
		{"fit=classic&layer=skin&over=10cm", ""}, // what is usual
		{"paint=red&height=110", "height=110"},   // what is not known
		{"height=11%000", "height=110"},          // what cannot be shown
		{"chest=%ff53", "chest=53"},
		{"height=1&height=2", "height=1"},
	}
	for _, test := range tests {
		require.Equal(t, test.want, s.readState(test.query).Query(), test.query)
	}
}

// What another garment or another view has is kept, and so is its unit; a button that
// corrects an entry sets it; what no view has is named.
func TestStateKeepsTheRest(t *testing.T) {
	s := testSite(t)
	tests := []struct{ query, want string }{
		{"garment=hat&extra.sleeve_length=2&option=tunic", "extra.sleeve_length=2&garment=hat&option=tunic"},
		{"height=110&sizes=3,4&curve=hip&curve=chest&linear=yes", "curve=hip&curve=chest&height=110&linear=yes&sizes=3%2C4"},
		{"tape=in&was=cm&garment=hat&extra.sleeve_length=2", "extra.sleeve_length=2+cm&garment=hat&tape=in"},
		{"height=53&chest=110&set=height%3D110%2Bcm%26chest%3D53%2Bcm", "chest=53+cm&height=110+cm"},
	}
	for _, test := range tests {
		require.Equal(t, test.want, s.readState(test.query).Query(), test.query)
	}
	st := s.designerState("height=110&chest=53&garment=cardigan&sizes=3,4")
	require.Equal(t, "chest=53&garment=cardigan&height=110&sizes=3%2C4", st.Query())
	require.Equal(t, []string{"paint", "set2"}, s.readState("set2=x&paint=red&height=110").Unknown)
}

// A wrong entry takes nothing away but itself, and is named where it is left out; what is
// in doubt is named with what may have been meant.
func TestAnEntryTakesNoAnswerAway(t *testing.T) {
	s := testSite(t)
	const base = "height=110.5&chest=53&stitches=16&rows=18&"
	tests := []struct{ query, control, section string }{
		{"yarn=big", "yarn", ""},
		{"swatch=4g&yarn=50g+125m", "swatch", ""},
		{"stretch=cuff+5", "stretch", "plan"},
		{"multiple=x", "multiple", "plan"},
		{"size=huge", "size", "child"},
		{"size=20", "size", "child"},
		{"widths=3", "lengths", "child"},
		{"age=young", "age", "child"},
		{"hip=wide", "hip", "child"},
		{"hip=-3", "hip", "child"},
		{"fit=snug", "fit", "finished"},
		{"growth=9", "growth", "finished"},
		{"option=wings", "option", "finished"},
		{"ease=chest%3D90", "ease", "finished"},
		{"extra.chest=long", "extra.chest", "finished"},
		{"extra.chest=-100", "extra.chest", "finished"},
		{"done=hem", "done", "left"},
	}
	for _, test := range tests {
		st := s.readState(base + test.query)
		r := s.compute(st)
		require.NotNil(t, r.plan, test.query)
		all := form{st: st, ref: s.engine.Reference, doubts: r.doubts}.Concerns()
		require.Len(t, all, 1, test.query)
		require.Equal(t, test.control, all[0].Name, test.query)
		require.Equal(t, test.section, all[0].Section, test.query)
		require.NotEmpty(t, all[0].To, test.query)
		require.NotContains(t, st.query(st.left), test.control+"=", "files are made without it")
	}
	for _, test := range []struct{ query, control, section, likely string }{ // in doubt, with what may have been meant
		{"height=43.5&chest=53", "height", "child", "height=110.5+cm"},
		{"height=110.5&chest=5.3", "chest", "child", "chest=53+cm"},
		{"height=110&chest=95", "chest", "", "chest=59+cm"},
		{"height=53&chest=110.5", "height", "", "chest=53+cm&height=110.5+cm"},
	} {
		st := s.readState(test.query)
		all := form{st: st, ref: s.engine.Reference, doubts: s.compute(st).doubts}.Concerns()
		require.NotEmpty(t, all, test.query)
		require.Equal(t, test.control, all[0].Name, test.query)
		require.Equal(t, test.section, all[0].Section, test.query)
		require.Equal(t, test.likely, all[0].Doubt.Likely[0].Set, test.query)
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
		{"size=20", "size", "outside chart child"},
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
		require.Contains(t, strings.ToLower(st.Fault(test.field)), strings.ToLower(test.words), test.query)
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
