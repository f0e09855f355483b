package sizing

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/data/rules"
)

// Every figure that the program asks for has a row, and it asks for every row.
func TestPracticeRowsAreThoseUsed(t *testing.T) {
	rows, err := builtinPractice()
	require.NoError(t, err)
	known := map[string]bool{}
	for _, r := range rows {
		known[r.ID] = true
	}
	call := regexp.MustCompile(`(?:\.(?:Practice|practice|share)|figure)\("([^"]*)"\)`)
	list := regexp.MustCompile(`\.PracticeList\("([^"]+)"\)`)
	used, lists := map[string]bool{}, map[string]bool{}
	for _, root := range []string{".", "../validate", "../cmd"} {
		require.NoError(t, filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			text, err := os.ReadFile(path)
			for _, m := range call.FindAllStringSubmatch(string(text), -1) {
				require.True(t, known[m[1]], "%s: no row %s in practice.csv", path, m[1])
				used[m[1]] = true
			}
			for _, m := range list.FindAllStringSubmatch(string(text), -1) {
				lists[m[1]] = true
			}
			return err
		}))
	}
	require.NotEmpty(t, used)
	for _, r := range rows {
		prefix := strings.TrimRight(r.ID, "0123456789")
		require.True(t, used[r.ID] || lists[prefix], "practice.csv:%d: nothing uses %s", r.Line, r.ID)
	}
}

// Shares are those that the program computes with, to the last bit.
func TestPracticeShare(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	for id, want := range map[string]float64{
		"underarm_share": 0.08, "bridge_share_high": 0.12, "steepest_taper": 0.7, "slip_low": 0.55, "slip_high": 1.8,
		"hip_share_of_rise": 2.0 / 3, "raglan_sleeve_neck_share": 1.0 / 6, "crochet_yarn_high": 4.0 / 3, "most_stretch": 1.8, "neck_drop": 5,
	} {
		require.Equal(t, want, ref.Practice(id).Share(), id)
	}
	require.Equal(t, "memory", ref.Practice("underarm_share").Source)
	require.Panics(t, func() { ref.Practice("underarm_shares") })
}

// A folder's figures go before the built-in ones, which replace what it
// lacks. A finished garment has those of its tables.
func TestPracticeOfOtherTables(t *testing.T) {
	tables, err := data.Load(data.Embedded())
	require.NoError(t, err)
	figure := func(id string, value float64, unit string) data.Practice {
		return data.Practice{Line: 2, ID: id, Value: value, Unit: unit, What: "w", Source: "memory", Basis: "memory"}
	}
	tables.Practice = []data.Practice{figure("neck_drop", 6, "cm"), figure("stocked_zipper_8", 8, "in")}
	require.NoError(t, tables.Check(rules.Rows(data.Forms())))
	ref, err := New(tables)
	require.NoError(t, err)
	f := finish(t, ref)
	require.Equal(t, 6.0, f.Practice("neck_drop").Value)
	require.Equal(t, 4.0, f.Practice("hem_depth").Value)
	require.Len(t, f.PracticeList("stocked_zipper_"), 1)

	tables.Practice = nil
	ref, err = New(tables)
	require.NoError(t, err)
	require.Equal(t, 5.0, ref.Practice("neck_drop").Value)
	require.Len(t, ref.PracticeList("stocked_zipper_"), 10)

	tables.Practice = []data.Practice{figure("neck_drop", 2, "in")}
	_, err = New(tables)
	require.EqualError(t, err, "practice.csv:2: neck_drop has the unit in; want cm")
}

func finish(t *testing.T, ref *Reference) *Finished {
	t.Helper()
	c, err := ref.Chart("craft")
	require.NoError(t, err)
	p, err := c.Place("4", Both)
	require.NoError(t, err)
	f, err := ref.Finish(ref.BodyAt(p, Monotone), Spec{Garment: "pullover", Fit: "classic", Layer: "indoor"})
	require.NoError(t, err)
	return f
}
