package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// rooms are the packages, each with those of ours that it may import: imports run
// one way, and nothing calls upward.
var rooms = map[string][]string{
	"data":          {},
	"data/table":    {"data"},
	"sizing":        {"data", "data/table"},
	"sizing/stitch": {},
	"sizing/order":  {},
	"sizing/plan":   {"data", "sizing", "sizing/stitch"},
	"data/rules":    {},
	"validate":      {"data", "data/rules", "data/table", "sizing", "sizing/stitch"},

	"cmd/growtuck/internal/save":        {},
	"cmd/growtuck/internal/ask":         {"data", "sizing", "sizing/plan", "sizing/stitch"},
	"cmd/growtuck/internal/tell":        {"data", "list", "sizing", "sizing/order", "sizing/plan", "sizing/stitch", "validate"},
	"cmd/growtuck/internal/schematic":   {"sizing", "sizing/plan", "tell"},
	"cmd/growtuck/internal/workbook":    {"data", "sizing", "sizing/plan", "sizing/stitch", "validate", "ask", "tell", "schematic"},
	"cmd/growtuck/internal/list":        {"data", "data/table", "sizing", "sizing/order", "save"},
	"cmd/growtuck/internal/work":        {"data", "data/rules", "data/table", "list", "sizing", "sizing/plan", "sizing/stitch", "validate", "ask", "tell", "save", "schematic", "workbook"},
	"cmd/growtuck/internal/page":        {"data", "list", "sizing", "sizing/plan", "sizing/stitch", "validate", "ask", "tell", "schematic", "work"},
	"cmd/growtuck/internal/site":        {"save"},
	"cmd/growtuck/internal/site/engine": {"work", "page"},
	"cmd/growtuck":                      {"data", "data/table", "sizing", "sizing/plan", "validate", "ask", "tell", "list", "save", "schematic", "work", "workbook", "page", "site"},
	"cmd/release":                       {},
	"cmd/relations":                     {"data", "sizing"},
}

func TestImportsRunOneWay(t *testing.T) {
	root := filepath.Join("..", "..")
	found := make(map[string]bool)
	require.NoError(t, filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && name != root && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata" || d.Name() == "node_modules") {
			return filepath.SkipDir
		}
		if filepath.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		dir, err := filepath.Rel(root, filepath.Dir(name))
		require.NoError(t, err)
		room := filepath.ToSlash(dir)
		allowed, known := rooms[room]
		require.True(t, known, "%s is no room that this test knows: say what it may import", room)
		found[room] = true
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		require.NoError(t, err)
		for _, i := range file.Imports {
			imported, err := strconv.Unquote(i.Path.Value)
			require.NoError(t, err)
			ours, is := strings.CutPrefix(imported, "growtuck/")
			if !is {
				continue
			}
			short := strings.TrimPrefix(ours, path.Join("cmd", "growtuck", "internal")+"/")
			require.True(t, slices.Contains(allowed, ours) || slices.Contains(allowed, short), "%s imports %s", name, ours)
		}
		return nil
	}))
	require.Len(t, found, len(rooms), "rooms that are no more")
}

// Who looks a figure up, plans or orders by the packages links nothing but them, the
// standard library and its encodings: neither the validator nor the writer of workbooks.
func TestLookUpsLinkLittle(t *testing.T) {
	gocmd, err := exec.LookPath("go")
	if err != nil {
		t.Skip("the go command is missing")
	}
	c := exec.Command(gocmd, "list", "-deps", "-f", "{{if not .Standard}}{{.ImportPath}}{{end}}", "./data", "./sizing/...")
	c.Dir = filepath.Join("..", "..")
	out, err := c.Output()
	require.NoError(t, err)
	require.Contains(t, string(out), "growtuck/sizing\n")
	for pkg := range strings.FieldsSeq(string(out)) {
		require.True(t, strings.HasPrefix(pkg, "growtuck/") || strings.HasPrefix(pkg, "golang.org/x/text/"), "%s is linked by a look-up", pkg)
	}
}
