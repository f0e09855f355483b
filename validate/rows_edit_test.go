package validate

import (
	"bytes"
	"encoding/csv"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
)

// requireSettled makes an edit that a finding proposes: the rule says it no more.
func requireSettled(t *testing.T, tt ruleCase, f Finding, e CellEdit) {
	t.Helper()
	require.False(t, slices.ContainsFunc(findingsAfter(t, tt, e), func(g Finding) bool {
		return g.Rule == f.Rule && g.Subject == f.Subject && g.Found.String() == f.Found.String()
	}), f.String())
}

// findingsAfter checks a case with an edit made.
func findingsAfter(t *testing.T, tt ruleCase, e CellEdit) []Finding {
	t.Helper()
	if tt.edits == nil {
		raw := []byte(bodyHead + tt.rows)
		findings, err := CheckRows(bytes.NewReader(made(t, raw, bodyTable, e)), "p.csv", ownData(t))
		require.NoError(t, err)
		return findings
	}
	files := editedTables(t, tt)
	files[e.Table] = &fstest.MapFile{Data: made(t, files[e.Table].Data, e.Table, e)}
	findings, err := checkTables(files, "", nil, os.DirFS(frozenTables))
	require.NoError(t, err)
	return findings
}

// made makes an edit in a table: in the last row of its key, which is where
// the edit says.
func made(t *testing.T, raw []byte, table string, e CellEdit) []byte {
	t.Helper()
	form := formOf(newTableForms(), table)
	rows, err := csv.NewReader(bytes.NewReader(raw)).ReadAll()
	require.NoError(t, err)
	at := -1
	for i, row := range rows {
		var key []string
		for _, k := range form.key {
			key = append(key, row[form.index(k)])
		}
		if slices.Equal(key, e.Key) {
			at = i
		}
	}
	require.Equal(t, e.Line, at+1, "key %s of %s", strings.Join(e.Key, ", "), table)
	if e.Column == "" {
		return written(slices.Delete(rows, at, at+1))
	}
	require.Equal(t, e.From, rows[at][form.index(e.Column)])
	rows[at][form.index(e.Column)] = e.To
	return written(rows)
}
