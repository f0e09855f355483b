package main

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/data"
)

// A workbook says which tables made it, also where they are a folder's.
func TestAWorkbookNamesItsTables(t *testing.T) {
	t.Chdir(t.TempDir())
	code, _, stderr := try(t, noChild, "tables", "other")
	require.Zero(t, code, stderr)
	change(t, "other/sources.csv", "CC0", "CC0 as ever")
	for _, tt := range []struct {
		tables  []string
		changed bool
	}{{nil, false}, {[]string{"--tables", "other"}, true}} {
		code, out, stderr := try(t, noChild, append([]string{"version", "--checksums", "--format", "json"}, tt.tables...)...)
		require.Zero(t, code, stderr)
		var e tell.EditionDocument
		require.NoError(t, json.Unmarshal([]byte(out), &e))
		require.Equal(t, tt.changed, e.Changed)
		args := []string{"export", "plan.xlsx", "hat", "--size", "4", "--craft", "knit", "--gauge", "22x30/10cm", "--force"}
		code, _, stderr = try(t, noChild, append(args, tt.tables...)...)
		require.Zero(t, code, stderr)
		f, err := excelize.OpenFile("plan.xlsx")
		require.NoError(t, err)
		props, err := f.GetDocProps()
		require.NoError(t, err)
		rows, err := f.GetRows("Start")
		require.NoError(t, err)
		require.NoError(t, f.Close())
		require.Contains(t, props.Description, e.Checksum)
		require.Contains(t, props.Description, e.Edition)
		require.Equal(t, tt.changed, strings.Contains(props.Description, "changed"))
		require.Equal(t, []string{"Made from the " + props.Description + "."}, rows[len(rows)-1])
	}
}

// change puts one text in place of another in a file; it must be there.
func change(t *testing.T, path, from, to string) {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Contains(t, string(text), from, path)
	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(string(text), from, to, 1)), 0o644))
}

const footBreadth = `child,years,foot_breadth,measured.foot_breadth,2,cpsc-1977,read,not in the trade standard; children of that height; just below the lowest class it is made smaller with height` + "\n"

func TestCompare(t *testing.T) {
	t.Chdir(t.TempDir())
	code, _, stderr := try(t, noChild, "tables", "now")
	require.Zero(t, code, stderr)
	ask := func(t *testing.T, args ...string) tell.CompareDocument {
		code, out, stderr := try(t, noChild, append(strings.Fields("tables --format json --compare"), args...)...)
		require.Zero(t, code, stderr)
		var d tell.CompareDocument
		require.NoError(t, json.Unmarshal([]byte(out), &d))
		return d
	}
	same := ask(t, "now")
	require.Empty(t, same.Differ)
	require.Empty(t, same.Moves)
	require.Equal(t, same.Before, same.After)
	require.Equal(t, data.Patch.String(), same.Step)
	require.Greater(t, same.Readings, 5000)

	for _, tt := range []struct {
		name, table, from, to string
		step                  data.Step
		look                  func(d tell.CompareDocument)
	}{
		{"words alone", "sources.csv", "CC0", "CC0 as ever", data.Patch, func(d tell.CompareDocument) { require.Empty(t, d.Moves) }},
		{"a value", "body.csv", "craft,4,both,chest,given,58.5,cm", "craft,4,both,chest,given,59,cm", data.Minor, func(d tell.CompareDocument) {
			require.Contains(t, d.Moves, tell.MoveRecord{What: "size", Of: "craft", Sex: "both", At: "4", Measurement: "chest",
				Before: tell.Known(59, true), After: tell.Known(58.5, true), Moved: tell.Known(-0.5, true), Unit: "cm"})
			for _, m := range d.Moves {
				require.Contains(t, []string{"chest", "neck", "wrist", "thigh", "calf", "ankle"}, m.Measurement, "what follows the size's chest moves too")
				require.Equal(t, "4", m.At)
			}
		}},
		{"a little", "body.csv", "craft,4,both,chest,given,58.5,cm", "craft,4,both,chest,given,58.6,cm", data.Patch, func(d tell.CompareDocument) { require.NotEmpty(t, d.Moves) }},
		{"ease", "ease.csv", "fit,upper,close,skin,chest,0,0,0,cm", "fit,upper,close,skin,chest,0,0.2,0.2,cm", data.Patch, func(d tell.CompareDocument) {
			require.NotEmpty(t, d.Moves)
			for _, m := range d.Moves {
				require.Equal(t, "ease", m.What)
			}
		}},
		{"a figure of practice", "practice.csv", "neck_drop,5,cm", "neck_drop,5.1,cm", data.Minor, func(d tell.CompareDocument) {
			require.Equal(t, []tell.MoveRecord{{What: "practice", Measurement: "neck_drop",
				Before: tell.Known(5.1, true), After: tell.Known(5, true), Moved: tell.Known(-0.1, true), Unit: "cm"}}, d.Moves)
		}},
		{"a column taken away", "derivations.csv", footBreadth, "", data.Minor,
			func(d tell.CompareDocument) { require.NotZero(t, d.Added) }},
	} {
		t.Run(tt.name, func(t *testing.T) {
			defer os.RemoveAll("before")
			require.NoError(t, os.CopyFS("before", os.DirFS("now")))
			change(t, "before/"+tt.table, tt.from, tt.to)
			d := ask(t, "before")
			require.Equal(t, []string{tt.table}, d.Differ)
			require.Equal(t, tt.step.String(), d.Step)
			tt.look(d)
		})
	}
	change(t, "now/derivations.csv", footBreadth, "")
	require.NoError(t, os.RemoveAll("built-in"))
	code, _, stderr = try(t, noChild, "tables", "built-in")
	require.Zero(t, code, stderr)
	d := ask(t, "built-in", "--tables", "now")
	require.NotZero(t, d.Gone)
	require.Equal(t, data.Major.String(), d.Step)
}
