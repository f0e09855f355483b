package tell

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// madeFacts finds in the program's source the ids that facts are made with, each
// with the fewest arguments that it is given, and all string literals, which
// other ids may be chosen from.
func madeFacts(t *testing.T) (ids map[string]int, literals map[string]bool) {
	ids, literals = map[string]int{"text": 1}, map[string]bool{"text": true}
	root := filepath.Join("..", "..", "..", "..")
	makers := map[string][]string{"sizing": {"NewFact", "note"}, "validate": {"NewFact", "fact"}, "cmd": {"NewFact"}}
	for folder := range makers {
		err := filepath.WalkDir(filepath.Join(root, folder), func(path string, d fs.DirEntry, err error) error {
			switch {
			case err != nil:
				return err
			case d.IsDir() && d.Name() == "tell":
				return fs.SkipDir
			case filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go"):
				return nil
			}
			file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(n ast.Node) bool {
				if text, ok := literal(n); ok {
					literals[text] = true
				}
				call, ok := n.(*ast.CallExpr)
				if !ok || len(call.Args) == 0 || !slices.Contains(makers[folder], calledName(call)) {
					return true
				}
				if id, ok := literal(call.Args[0]); ok {
					args := len(call.Args) - 1
					if call.Ellipsis.IsValid() {
						args = 99
					}
					if before, known := ids[id]; known {
						args = min(args, before)
					}
					ids[id] = args
				}
				return true
			})
			return nil
		})
		require.NoError(t, err)
	}
	return ids, literals
}

func literal(n ast.Node) (string, bool) {
	lit, ok := n.(*ast.BasicLit)
	if !ok || lit.Kind != token.STRING {
		return "", false
	}
	text, err := strconv.Unquote(lit.Value)
	return text, err == nil
}

func calledName(call *ast.CallExpr) string {
	switch f := call.Fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		return f.Sel.Name
	}
	return ""
}

// Every fact that is made has words, and all words are of a fact that is made;
// they ask for no argument that it does not have.
func TestFactsHaveWords(t *testing.T) {
	ids, literals := madeFacts(t)
	require.Greater(t, len(ids), 20)
	var beginnings []string // of ids that are put together
	for text := range literals {
		if len(text) > 1 && (strings.HasSuffix(text, ".") || strings.HasSuffix(text, "-")) {
			beginnings = append(beginnings, text)
		}
	}
	told := map[string]bool{}
	seen := map[string]bool{}
	for _, words := range wordTables {
		for key, template := range words {
			require.False(t, seen[key], "%s has words in two tables", key)
			seen[key] = true
			id, variant, varies := strings.Cut(key, "@")
			told[id] = true
			require.True(t, literals[id] || slices.ContainsFunc(beginnings, func(b string) bool { return strings.HasPrefix(id, b) }),
				"%s has words and is nowhere made", key)
			require.True(t, !varies || slices.Contains([]string{string(Page), string(Command), "crochet", "knit"}, variant), key)
			if given, ok := ids[id]; ok {
				fill(template, func(i int, form string) string {
					require.Less(t, i, given, "%s: %q asks for argument %d", key, template, i+1)
					return ""
				})
			}
		}
	}
	for id := range ids {
		require.True(t, told[id], "%s has no words", id)
	}
}
