package validate

import (
	"bytes"
	"flag"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"growtuck/data"
)

// frozenTables are tables as they once were: faults are put into them, so that a row
// more in ours fails no test of a rule. They are renewed where the form of a table
// has changed: go test ./validate -run FrozenTables -update.
const frozenTables = "testdata/tables"

func TestFrozenTablesHaveTheFormOfOurs(t *testing.T) {
	var differ []string
	for _, form := range newTableForms() {
		raw, err := os.ReadFile(filepath.Join(frozenTables, form.name))
		if head, _, _ := bytes.Cut(raw, []byte("\n")); err != nil || string(head) != strings.Join(form.names(), ",") {
			differ = append(differ, form.name)
		}
	}
	if flag.Lookup("update").Value.String() == "true" && len(differ) > 0 {
		require.NoError(t, os.RemoveAll(frozenTables))
		require.NoError(t, os.MkdirAll(frozenTables, 0o755))
		for _, form := range newTableForms() {
			raw, err := fs.ReadFile(data.Embedded(), form.name)
			require.NoError(t, err)
			require.NoError(t, os.WriteFile(filepath.Join(frozenTables, form.name), raw, 0o644))
		}
		differ = nil
	}
	require.Empty(t, differ, "run this test with -update")
	for _, f := range findingsIn(t, ownTables(t)) {
		require.Less(t, f.Severity, Warn, f.String())
	}
}

// ownTables returns the frozen tables as files that can be changed.
func ownTables(tb testing.TB) fstest.MapFS {
	tb.Helper()
	files := fstest.MapFS{}
	for _, form := range newTableForms() {
		raw, err := os.ReadFile(filepath.Join(frozenTables, form.name))
		require.NoError(tb, err)
		files[form.name] = &fstest.MapFile{Data: raw}
	}
	return files
}

// ownData are the frozen tables as they are read.
func ownData(tb testing.TB) *data.Tables {
	tb.Helper()
	own, err := data.Load(ownTables(tb))
	require.NoError(tb, err)
	return own
}

// findingsIn are those in tables for a program into which the frozen ones are built.
func findingsIn(tb testing.TB, files fs.FS) []Finding {
	tb.Helper()
	findings, err := checkTables(files, "", nil, os.DirFS(frozenTables))
	require.NoError(tb, err)
	return findings
}
