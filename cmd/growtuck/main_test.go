package main

import (
	"encoding/csv"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite what the scripts compare with")

func TestMain(m *testing.M) {
	testscript.Main(seldom{m}, map[string]func(){"growtuck": main})
}

// seldom collects garbage less often while the tests run, but not in the programs that
// scripts start: a third of the time was that.
type seldom struct{ *testing.M }

func (s seldom) Run() int {
	debug.SetGCPercent(400)
	return s.M.Run()
}

// TestScripts runs the program as a maker would. Each script finds the sample
// children in its folder.
func TestScripts(t *testing.T) {
	children := filepath.Join("..", "..", "testdata", "children")
	testscript.Run(t, testscript.Params{
		Dir:                filepath.Join("testdata", "script"),
		UpdateScripts:      *update,
		RequireUniqueNames: true,
		Setup: func(env *testscript.Env) error {
			return os.CopyFS(env.WorkDir, os.DirFS(children))
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"jsonfields": jsonFields,
			"csvfields":  csvFields,
		},
	})
}

// jsonFields checks that a file is JSON with the fields: jsonfields FILE FIELD...
func jsonFields(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 {
		ts.Fatalf("usage: jsonfields file field...")
	}
	var doc map[string]any
	ts.Check(json.Unmarshal([]byte(ts.ReadFile(args[0])), &doc))
	for _, f := range args[1:] {
		if v, ok := doc[f]; !ok {
			ts.Fatalf("no field %s", f)
		} else if v == nil {
			ts.Fatalf("field %s is null", f)
		}
	}
}

// csvFields checks that a file is CSV with even rows, and its header:
// csvfields FILE COLUMN...
func csvFields(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: csvfields file column...")
	}
	rows, err := csv.NewReader(strings.NewReader(ts.ReadFile(args[0]))).ReadAll()
	ts.Check(err)
	if len(rows) < 2 {
		ts.Fatalf("%d rows; want a header and more", len(rows))
	}
	if got, want := strings.Join(rows[0], " "), strings.Join(args[1:], " "); got != want {
		ts.Fatalf("columns are\n%s\nwant\n%s", got, want)
	}
}
