package main

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A file that is not there, or is none, is treated alike by every command.
func TestUnreadableFilesExitAlike(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.MkdirAll("folder", 0o755))
	require.NoError(t, os.WriteFile("child.csv", []byte("measurement,value,unit\nheight,110,cm\n"), 0o644))
	for _, tt := range []struct{ args, stderr string }{
		{"size 3 --tables nowhere", "nowhere: no such file"},
		{"size 3 --tables child.csv", "child.csv is not a folder"},
		{"size 3 --tables folder", "folder/sources.csv: cannot be opened"},
		{"profile nowhere.csv", "nowhere.csv: no such file"},
		{"profile folder", "folder is a folder; want the file of a child"},
		{"blend nowhere.csv", "nowhere.csv: no such file"},
		{"blend folder", "folder is a folder"},
		{"garment hat nowhere.csv", "nowhere.csv: no such file"},
		{"garment hat folder", "folder is a folder"},
		{"plan hat nowhere.csv --craft knit --gauge 18x24/10cm", "nowhere.csv: no such file"},
		{"plan nowhere.xlsx", "nowhere.xlsx: no such file"},
		{"export out.xlsx hat nowhere.csv --craft knit --gauge 18x24/10cm", "nowhere.csv: no such file"},
		{"export out.xlsx nowhere.xlsx", "nowhere.xlsx: no such file"},
		{"export --list out.xlsx hat child.csv nowhere.csv", "nowhere.csv: no such file"},
		{"export --list out.xlsx hat folder", "folder is a folder"},
		{"export nowhere/out.xlsx hat child.csv --craft knit --gauge 18x24/10cm", "write nowhere/out.xlsx: no such file"},
		{"export --blank child.csv/child.xlsx", "write child.csv/child.xlsx: not a directory"},
		{"tables child.csv", "child.csv/body.csv: not a directory"},
		{"check nowhere.csv", "nowhere.csv: no such file"},
		{"check folder", "folder has no draft in it"},
		{"check child.csv --exceptions nowhere.csv", "nowhere.csv: no such file"},
		{"rows nowhere.csv", "nowhere.csv: no such file"},
		{"rows folder", "folder is a folder"},
		{"rows --tables nowhere", "no tables here"},
		{"rows --write nowhere.csv", "nowhere.csv: no such file"},
		{"rows --write folder", "folder is a folder"},
	} {
		code, stdout, stderr := try(t, noChild, strings.Fields(tt.args)...)
		require.Equal(t, exitUsage, code, "%s: %s", tt.args, stderr)
		require.Empty(t, stdout, tt.args)
		require.Contains(t, stderr, tt.stderr, tt.args)
	}
	left, err := os.ReadDir(".")
	require.NoError(t, err)
	require.Len(t, left, 2, "nothing is written")
}
