package data

import (
	"crypto/sha256"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"growtuck/testdata/bounded"
)

// A change of the tables is an edition: it wants a row of changes.csv.
func TestTablesAreOfTheLatestEdition(t *testing.T) {
	skipWhilePending(t)
	e, err := EditionOf(Embedded(), rowRules)
	require.NoError(t, err)
	last, ok := editionNumbers(e.Version)
	require.True(t, ok)
	require.False(t, e.Changed, `the tables are not those of edition %s.
Add a row to data/changes.csv for each table that changed, under one of %s; growtuck tables --compare FOLDER
says, of a folder with the tables as they were, which readings moved and which of these it must be. The checksum is
%s`, e.Version, nextEditions(last), e.Checksum)
}

// skipWhilePending leaves to the release what is made there, where contributions
// were merged since the last one.
func skipWhilePending(t *testing.T) {
	t.Helper()
	pending, _, err := Pending(os.DirFS("."))
	require.NoError(t, err)
	if len(pending) > 0 {
		t.Skipf("%d changes wait for a release: growtuck rows --release --tables data", len(pending))
	}
}

// The checksum is what another program makes of the files.
func TestEditionOf(t *testing.T) {
	files := fstest.MapFS{
		"b.csv":     {Data: []byte("id,note\nx,\"a\nb\"\ny,\n")},
		"a.csv":     {Data: []byte("id\n")},
		"notes.txt": {Data: []byte("not a table")},
	}
	sum := func(s string) string { return fmt.Sprintf("%x", sha256.Sum256([]byte(s))) }
	e, err := EditionOf(files, rowRules)
	require.NoError(t, err)
	require.Equal(t, []TableSum{
		{"a.csv", 0, sum("id\n")},
		{"b.csv", 2, sum("id,note\nx,\"a\nb\"\ny,\n")},
	}, e.Tables)
	require.Equal(t, sum(e.Tables[0].SHA256+"  a.csv\n"+e.Tables[1].SHA256+"  b.csv\n"), e.Checksum)
	require.Equal(t, "tables without an edition, SHA-256 "+e.Checksum, e.String())

	log := strings.Join(columnNames[Change](), ",") + "\n1.0.0,2026-11-25," + e.Checksum + ",all,first,so,\n"
	files["changes.csv"] = &fstest.MapFile{Data: []byte(log)}
	named, err := EditionOf(files, rowRules)
	require.NoError(t, err)
	require.Equal(t, e.Checksum, named.Checksum, "the log is no part of what it names")
	require.Equal(t, "tables 1.0.0 of 2026-11-25, SHA-256 "+e.Checksum, named.String())

	files["a.csv"] = &fstest.MapFile{Data: []byte("id\nz\n")}
	changed, err := EditionOf(files, rowRules)
	require.NoError(t, err)
	require.NotEqual(t, e.Checksum, changed.Checksum)
	require.True(t, changed.Changed)
	require.Contains(t, changed.String(), "tables 1.0.0 of 2026-11-25, changed, SHA-256 ")

	_, err = EditionOf(fstest.MapFS{}, rowRules)
	require.EqualError(t, err, "no tables here")
}

func TestRowsAreCountedAsRead(t *testing.T) {
	tables, err := Load(Embedded())
	require.NoError(t, err)
	e, err := EditionOf(Embedded(), rowRules)
	require.NoError(t, err)
	rows := map[string]int{}
	for _, s := range e.Tables {
		rows[s.Name] = s.Rows
	}
	require.Len(t, rows, len(Schemas())-1, "all but the log")
	require.Equal(t, len(tables.Body), rows["body.csv"])
	require.Equal(t, len(tables.Sources), rows["sources.csv"])
	require.Equal(t, len(tables.Ease), rows["ease.csv"])
}

func TestChangesAreChecked(t *testing.T) {
	sum := strings.Repeat("0a", 32)
	row := func(edition, date, rest string) string { return edition + "," + date + "," + sum + "," + rest + "\n" }
	first := row("1.0.0", "2026-01-01", "all,first,so,")
	for _, tt := range []struct{ name, rows, want string }{
		{"one", first, ""},
		{"two tables of an edition", first + row("1.1.0", "2026-02-01", "body.csv,a,so,0.5") + row("1.1.0", "2026-02-01", "ease.csv,b,so,0.25"), ""},
		{"each step", first + row("1.0.1", "2026-01-01", "all,a,so,0.2") + row("1.1.0", "2026-01-02", "all,b,so,") + row("2.0.0", "2026-01-03", "all,c,so,3"), ""},
		{"none", "", "changes.csv: has no edition in it"},
		{"not a number", row("1.0", "2026-01-01", "all,a,so,"), `changes.csv:2:1: edition: "1.0" is not an edition; want three numbers, such as 1.2.0`},
		{"leading zero", row("1.00.0", "2026-01-01", "all,a,so,"), `is not an edition`},
		{"no date", row("1.0.0", "1 May", "all,a,so,"), `changes.csv:2:7: date: "1 May" is not a date`},
		{"no checksum", "1.0.0,2026-01-01,abc,all,a,so,\n", `changes.csv:2:18: sha256: "abc" is not a checksum`},
		{"no reason", row("1.0.0", "2026-01-01", "all,a,,"), `why: "" is missing`},
		{"skipped", first + row("1.2.0", "2026-02-01", "all,a,so,"), "edition: 1.2.0 does not follow 1.0.0; want 1.0.1, 1.1.0, 2.0.0"},
		{"back in time", first + row("1.1.0", "2025-02-01", "all,a,so,"), "date: 2025-02-01 is before that of 1.0.0"},
		{"two dates", first + row("1.0.0", "2026-01-02", "ease.csv,a,so,"), "edition: 1.0.0 has another date or checksum on line 2"},
		{"more than a patch", first + row("1.0.1", "2026-01-02", "body.csv,a,so,0.25"), "moved_cm: 0.25 cm is a minor edition at least, not a patch one"},
		{"twice", first + first, "is already on line 2"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Changes(fstest.MapFS{changesFile: {Data: []byte(strings.Join(columnNames[Change](), ",") + "\n" + tt.rows)}}, rowRules)
			if tt.want == "" {
				require.NoError(t, err)
				return
			}
			require.ErrorContains(t, err, tt.want)
		})
	}
}

// Every table named in the log is there.
func TestChangesNameTables(t *testing.T) {
	changes, err := Changes(Embedded(), rowRules)
	require.NoError(t, err)
	for _, c := range changes {
		if c.Table != "all" {
			_, err := fs.Stat(Embedded(), c.Table)
			require.NoError(t, err, "changes.csv:%d", c.Line)
		}
	}
}

func TestStepFor(t *testing.T) {
	require.Equal(t, Patch, StepFor(0, 0, 0.24))
	require.Equal(t, Minor, StepFor(0, 0, MovedShown))
	require.Equal(t, Minor, StepFor(0, 1, 0))
	require.Equal(t, Major, StepFor(1, 1, 0))
	require.Equal(t, "minor", Minor.String())
}

func FuzzChanges(f *testing.F) {
	raw, err := fs.ReadFile(Embedded(), changesFile)
	require.NoError(f, err)
	f.Add(raw)
	f.Add([]byte(strings.Join(columnNames[Change](), ",") + "\n65535.1.0,x,,,,,\n"))
	f.Fuzz(func(t *testing.T, raw []byte) {
		defer bounded.By(t, 8<<20)()
		changes, err := Changes(fstest.MapFS{changesFile: {Data: raw}}, rowRules)
		for _, m := range messages(err) {
			require.True(t, strings.HasPrefix(m, changesFile+":"), m)
		}
		if err == nil {
			require.NotEmpty(t, changes)
		}
	})
}
