package data

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write datapackage.json")

func TestDataPackageIsCurrent(t *testing.T) {
	skipWhilePending(t)
	edition, err := EditionOf(os.DirFS("."), rowRules)
	require.NoError(t, err)
	log, err := os.ReadFile(changesFile)
	require.NoError(t, err)
	want, err := describe(os.DirFS("."), edition.Version, log)
	require.NoError(t, err)
	if *update {
		require.NoError(t, os.WriteFile("datapackage.json", want, 0o644))
	}
	got, err := os.ReadFile("datapackage.json")
	require.NoError(t, err)
	if !bytes.Equal(want, got) {
		t.Fatalf("datapackage.json is stale at line %d; run go test ./data -run DataPackage -update", firstDifference(want, got))
	}
}

func firstDifference(a, b []byte) int {
	x, y := bytes.Split(a, []byte("\n")), bytes.Split(b, []byte("\n"))
	for i := range min(len(x), len(y)) {
		if !bytes.Equal(x[i], y[i]) {
			return i + 1
		}
	}
	return min(len(x), len(y)) + 1
}

// Every table is described, and nothing else.
func TestDataPackageCoversEveryTable(t *testing.T) {
	var described, found []string
	for _, doc := range Schemas() {
		described = append(described, doc.File)
		for _, names := range append([][]string{doc.Key}, refColumns(doc)...) {
			require.Subset(t, doc.Names(), names, doc.File)
		}
		for _, c := range doc.Columns {
			require.NotEmpty(t, c.Doc, "%s %s", doc.File, c.Name)
		}
	}
	entries, err := fs.ReadDir(os.DirFS("."), ".")
	require.NoError(t, err)
	for _, e := range entries {
		if strings.HasSuffix(e.Name(), ".csv") {
			found = append(found, e.Name())
		}
	}
	require.ElementsMatch(t, found, described)
}

func refColumns(s Schema) [][]string {
	var columns [][]string
	for _, ref := range s.Refs {
		columns = append(columns, ref.Columns)
	}
	return columns
}

// A second, obvious check of what the descriptor claims of the files.
func TestDataPackageHashesMatchTheEmbeddedFiles(t *testing.T) {
	if *update {
		t.Skip("the files embedded in this test are those of before the update")
	}
	skipWhilePending(t)
	raw, err := fs.ReadFile(Embedded(), "datapackage.json")
	require.NoError(t, err)
	var p packageJSON
	require.NoError(t, json.Unmarshal(raw, &p))
	require.Len(t, p.Resources, len(Schemas()))
	for _, r := range p.Resources {
		table, err := fs.ReadFile(Embedded(), filepath.ToSlash(r.Path))
		require.NoError(t, err)
		require.Equal(t, r.Bytes, len(table), r.Path)
		require.Equal(t, r.Hash, fmt.Sprintf("sha256:%x", sha256.Sum256(table)), r.Path)
		head, _, _ := strings.Cut(string(table), "\n")
		var names []string
		for _, f := range r.Schema.Fields {
			names = append(names, f.Name)
		}
		require.Equal(t, head, strings.Join(names, ","))
	}
}
