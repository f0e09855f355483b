package main

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A bad value of a flag or argument is a command line that cannot be followed, for
// every command; a file with nothing in it cannot be used.
func TestBadValuesExitAlike(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("empty.csv", nil, 0o644))
	for _, args := range []string{
		"size nine", "size 4 --chart nosuch", "size 4 --sex q", "size 4 --only nosuch", "size 4 --unit yd", "size 4 --format xml",
		"garment nosuch --size 4", "garment hat --size 20", "garment hat --size 4 --fit tight", "garment hat --size 4 --option foo",
		"garment hat --size 4 --layer q", "garment hat --size 4 --ease q", "garment hat --size 4 --extra q", "garment hat --size 4 --growth 9",
		"plan hat --size 4 --craft knit --gauge 20", "plan hat --size 4 --craft weave --gauge 20x20/10cm", "draw x.svg hat --size 4 --fit tight",
		"export x.xlsx hat --size 4 --craft knit --gauge 20", "check empty.csv --fail-on q", "check empty.csv --format q", "rows --fail-on q",
		"page --listen q", "manual nosuch", "profile empty.csv", "blend empty.csv", "garment hat empty.csv", "check empty.csv", "check empty.csv --fix",
		"rows empty.csv", "order empty.csv", "batch empty.csv",
	} {
		code, _, stderr := try(t, noChild, strings.Fields(args)...)
		require.Equal(t, exitUsage, code, "%s: %s", args, stderr)
		require.NotEmpty(t, stderr, args)
	}
}

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
