//go:build unix

package main

import (
	"bytes"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/save"
	"growtuck/data"
	"growtuck/testdata/proof"
)

// A writer is a command that writes a file, for the sweep of faults. A new one
// is a row more here; TestEveryWriterIsSwept says which is missing.
type writer struct {
	name   string
	args   string // with FILE for the file to write
	target string // the file to write, in a folder of its own
	tree   bool   // FILE is the folder of target, and is made where it is not there
	beside int    // files that it writes next to its target
	input  string // what must be in the file before; it is always written over
	via    string // functions that have package save, writeFiles or writeInto write it, for TestEveryWriterIsSwept
	filter bool   // the file comes beside what is printed, and not without it
	always bool   // swept by default, not in the proof only
}

const sweepHow = " --craft knit --gauge 18x24/10cm"

func writers(t *testing.T) []writer {
	body, err := fs.ReadFile(data.Embedded(), "body.csv")
	require.NoError(t, err)
	lines := bytes.SplitAfter(body, []byte("\n"))
	slices.Reverse(lines[1 : len(lines)-1]) // to be put in order
	return []writer{
		{name: "workbook", args: "export FILE hat child.csv" + sweepHow, target: "hat.xlsx", via: "newExportCommand", always: true},
		{name: "workbook of a workbook", args: "export FILE made.xlsx", target: "again.xlsx", via: "newExportCommand"},
		{name: "markdown", args: "export FILE hat child.csv" + sweepHow, target: "hat.md", beside: 1, via: "newExportCommand"},
		{name: "picture", args: "export FILE hat child.csv" + sweepHow, target: "hat.png", via: "newExportCommand"},
		{name: "folder of CSV", args: "export FILE/ hat child.csv" + sweepHow, target: "body.csv", tree: true, via: "newExportCommand"},
		{name: "empty form", args: "export --blank FILE", target: "child.xlsx", via: "newExportCommand"},
		{name: "list of children", args: "export --list FILE hat child.csv child.csv", target: "list.xlsx", via: "newExportCommand"},
		{name: "drawing", args: "draw FILE hat child.csv", target: "hat.svg", via: "writeDrawing"},
		{name: "rejected lines", args: "batch list.csv --rejects FILE", target: "rejects.csv", via: "createRejects", filter: true},
		{name: "tables", args: "tables FILE", target: "body.csv", tree: true, via: "writeTables writeInto writeFiles mergeRows release", always: true},
		{name: "corrected draft", args: "check DRAFT --fix", target: "draft-corrected.csv", via: "writeCorrected"},
		{name: "canonical table", args: "rows --write FILE", target: "body.csv", input: string(bytes.Join(lines, nil)), via: "rewriteTable"},
	}
}

// Every function that has a file written is on the way of a row of the table,
// and nothing else creates files.
func TestEveryWriterIsSwept(t *testing.T) {
	swept := map[string]bool{}
	for _, w := range writers(t) {
		for _, f := range strings.Fields(w.via) {
			swept[f] = true
		}
	}
	calling := map[string]bool{}
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	lists, err := filepath.Glob("internal/list/*.go")
	require.NoError(t, err)
	require.NotEmpty(t, lists)
	for _, name := range append(files, lists...) {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		require.NoError(t, err)
		for _, d := range file.Decls {
			f, ok := d.(*ast.FuncDecl)
			if !ok {
				continue
			}
			ast.Inspect(f, func(n ast.Node) bool {
				sel, isSelector := n.(*ast.SelectorExpr)
				if id, ok := n.(*ast.Ident); ok && slices.Contains([]string{"writeFiles", "writeInto"}, id.Name) && id.Obj == nil && f.Name.Name != id.Name {
					calling[f.Name.Name] = true
				}
				if isSelector && slices.Contains([]string{"All", "One", "Begin", "BeginPrivate"}, sel.Sel.Name) {
					if x, ok := sel.X.(*ast.Ident); ok && x.Name == "save" {
						calling[f.Name.Name] = true
					}
				}
				if isSelector && slices.Contains([]string{"Create", "CreateTemp", "WriteFile", "OpenFile", "Rename", "CopyFS"}, sel.Sel.Name) {
					x, ok := sel.X.(*ast.Ident)
					require.False(t, ok && x.Name == "os", "%s calls os.%s; package save writes files", f.Name.Name, sel.Sel.Name)
				}
				return true
			})
		}
	}
	require.Equal(t, slices.Sorted(maps.Keys(calling)), slices.Sorted(maps.Keys(swept)), "functions that have files written, and those that the table of writers goes through")
}

// A sweep is a folder to run the program in, with what it reads.
type sweep struct {
	writer
	dir     string // work happens here
	program string
}

const old = "what was there before\n"

func newSweep(t *testing.T, w writer) *sweep {
	program, err := exec.LookPath("growtuck")
	require.NoError(t, err)
	s := &sweep{writer: w, dir: t.TempDir(), program: program}
	s.prepare(t, s.dir)
	return s
}

// prepare puts what the program reads into a folder.
func (s *sweep) prepare(t *testing.T, dir string) {
	require.NoError(t, os.WriteFile(filepath.Join(dir, "child.csv"), []byte("measurement,value,unit\nsex,m,\nheight,110.5,cm\nchest,53,cm\n"), 0o644))
	if s.filter { // the list's header, which is long, goes into the file
		long := strings.Repeat("x", 5000)
		require.NoError(t, os.WriteFile(filepath.Join(dir, "list.csv"), []byte("sex,height,"+long+"\nm,110.5,\n"), 0o644))
	}
	if strings.Contains(s.args, "made.xlsx") {
		code, _, stderr := try(t, noChild, "export", filepath.Join(dir, "made.xlsx"), "hat", filepath.Join(dir, "child.csv"), "--craft", "knit", "--gauge", "18x24/10cm")
		require.Zero(t, code, stderr)
	}
	require.NoError(t, os.Mkdir(filepath.Join(dir, "out"), 0o755))
}

// before is the content of the file before the command.
func (s *sweep) before() string {
	if s.input != "" {
		return s.input
	}
	return old
}

// path is the target's, under a folder of the sweep's.
func (s *sweep) path(folder string) string { return filepath.Join(s.dir, folder, s.target) }

// put puts the old file where the target will be.
func (s *sweep) put(t *testing.T, folder string) {
	require.NoError(t, os.WriteFile(s.path(folder), []byte(s.before()), 0o644))
}

// readsBeside reports whether what the command reads is beside its target.
func (s *sweep) readsBeside() bool { return strings.Contains(s.args, "DRAFT") }

// command is the program asked to write into a folder.
func (s *sweep) command(folder string, force bool) *exec.Cmd {
	file := filepath.Join(folder, s.target)
	if s.tree {
		file = folder
	}
	draft := filepath.Join(folder, "draft.csv") // beside which it is corrected
	if s.readsBeside() {
		// Where that cannot be written, the command cannot read it.
		_ = os.WriteFile(filepath.Join(s.dir, draft), []byte("# "+strings.Repeat("long ", 400)+"\nfield,part,value,unit,note\ngarment,,hat,,\nfit,,clasic,,\nlayer,,skin,,\nsize,,4,,\n"), 0o644)
	}
	args := strings.Fields(strings.NewReplacer("FILE", file, "DRAFT", draft).Replace(s.args))
	if force && s.input == "" {
		args = append(args, "--force")
	}
	cmd := exec.Command(s.program, args...)
	cmd.Dir = s.dir
	return cmd
}

// run runs the program and returns how it ended.
func (s *sweep) run(t *testing.T, folder string, force bool) (code int, stderr string) {
	return finish(t, s.command(folder, force))
}

func finish(t *testing.T, cmd *exec.Cmd) (code int, stderr string) {
	var out bytes.Buffer
	cmd.Stderr = &out
	err := cmd.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		require.NoError(t, err)
	}
	require.NotContains(t, out.String(), "goroutine ", "no crash")
	return cmd.ProcessState.ExitCode(), out.String()
}

// wanted is what the command writes where nothing fails.
func (s *sweep) wanted(t *testing.T) string {
	clean := *s
	clean.dir = t.TempDir()
	clean.prepare(t, clean.dir)
	if s.input != "" {
		clean.put(t, "out")
	}
	code, stderr := clean.run(t, "out", false)
	require.Zero(t, code, stderr)
	return read(t, clean.path("out"))
}

func read(t *testing.T, path string) string {
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(b)
}

// leftovers are files under a folder that a write did not finish.
func leftovers(t *testing.T, dir string) []string {
	var left []string
	require.NoError(t, filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		if err == nil && strings.HasPrefix(d.Name(), save.Prefix) {
			left = append(left, p)
		}
		return err
	}))
	return left
}

// refused wants the command to have ended with 2 and a word of the file's
// name, and nothing left over.
func (s *sweep) refused(t *testing.T, code int, stderr string) {
	t.Helper()
	require.Equal(t, exitUsage, code, stderr)
	require.True(t, strings.HasPrefix(stderr, "growtuck: "), stderr)
	require.NotContains(t, stderr, save.Prefix, "names the file that was asked for")
	require.Empty(t, leftovers(t, s.dir))
}

// eachWriter goes through the writers: by default one that writes a file and one
// that writes a folder, in the proof all. How package save meets such faults is
// tested there.
func eachWriter(t *testing.T, f func(t *testing.T, s *sweep)) {
	for _, w := range writers(t) {
		t.Run(w.name, func(t *testing.T) {
			if !w.always {
				proof.Only(t)
			}
			t.Parallel()
			f(t, newSweep(t, w))
		})
	}
}
