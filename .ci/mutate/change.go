package main

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"go/printer"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// A change is of some bytes of one file.
type change struct {
	pkg, file  string // as in the repository
	function   string
	line       int
	start, end int    // bytes that are replaced
	with       string // by these
	from, to   string // what is read: the expression or statement
}

func (c change) place() string { return fmt.Sprintf("%s:%d", c.file, c.line) }

func (c change) String() string {
	return fmt.Sprintf("%s: %s: %s → %s", c.place(), c.function, c.from, c.to)
}

// key says which change it is, wherever in its function it stands.
func (c change) key() string { return strings.Join([]string{c.file, c.function, c.from, c.to}, "\n") }

// swaps are what a token may become. That of a comparison moves its bound, then turns it round.
var swaps = map[token.Token][]token.Token{
	token.ADD: {token.SUB}, token.SUB: {token.ADD}, token.MUL: {token.QUO}, token.QUO: {token.MUL}, token.REM: {token.MUL},
	token.LSS: {token.LEQ, token.GEQ}, token.LEQ: {token.LSS, token.GTR}, token.GTR: {token.GEQ, token.LEQ}, token.GEQ: {token.GTR, token.LSS},
	token.EQL: {token.NEQ}, token.NEQ: {token.EQL}, token.LAND: {token.LOR}, token.LOR: {token.LAND},
	token.ADD_ASSIGN: {token.SUB_ASSIGN}, token.SUB_ASSIGN: {token.ADD_ASSIGN}, token.MUL_ASSIGN: {token.QUO_ASSIGN}, token.QUO_ASSIGN: {token.MUL_ASSIGN},
	token.INC: {token.DEC}, token.DEC: {token.INC}, token.BREAK: {token.CONTINUE}, token.CONTINUE: {token.BREAK},
}

// names are what a name may become.
var names = map[string]string{
	"true": "false", "false": "true", "min": "max", "max": "min", "Floor": "Ceil", "Ceil": "Floor", "Round": "Floor", "Inf": "Abs",
	"Up": "Down", "Down": "Up", "Nearest": "Up",
}

// changesOf are all changes of a package's files, in their order.
func changesOf(pkg string) ([]change, error) {
	paths, err := filepath.Glob(filepath.Join(pkg, "*.go"))
	if err != nil {
		return nil, err
	}
	var all []change
	for _, path := range paths {
		if strings.HasSuffix(path, "_test.go") {
			continue
		}
		src, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, path, src, 0)
		if err != nil {
			return nil, err
		}
		x := &reader{pkg: pkg, path: filepath.ToSlash(path), set: set, src: src}
		for _, d := range file.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				x.function = functionName(d)
				if d.Body != nil {
					ast.Inspect(d.Body, x.see)
				}
			case *ast.GenDecl:
				x.function = ""
				if d.Tok == token.CONST || d.Tok == token.VAR {
					ast.Inspect(d, x.see)
				}
			}
		}
		all = append(all, x.found...)
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("%s has nothing to change", pkg)
	}
	return all, nil
}

func functionName(d *ast.FuncDecl) string {
	if d.Recv == nil {
		return d.Name.Name
	}
	t := d.Recv.List[0].Type
	if s, ok := t.(*ast.StarExpr); ok {
		t = s.X
	}
	if i, ok := t.(*ast.IndexExpr); ok {
		t = i.X
	}
	return fmt.Sprint(t) + "." + d.Name.Name
}

// A reader finds the changes of one file.
type reader struct {
	pkg, path, function string
	set                 *token.FileSet
	src                 []byte
	found               []change
}

// text is a piece of the file on one line.
func (x *reader) text(n ast.Node) string {
	var b bytes.Buffer
	_ = printer.Fprint(&b, x.set, n)
	return strings.Join(strings.Fields(b.String()), " ")
}

func (x *reader) at(p token.Pos) int { return x.set.Position(p).Offset }

// add adds the change of some bytes within what is read.
func (x *reader) add(within ast.Node, from, to token.Pos, with string) {
	start, end := x.at(from), x.at(to)
	a, b := x.at(within.Pos()), x.at(within.End())
	one := func(s string) string { return strings.Join(strings.Fields(s), " ") }
	x.found = append(x.found, change{pkg: x.pkg, file: x.path, function: x.function, line: x.set.Position(from).Line, start: start, end: end, with: with,
		from: short(one(string(x.src[a:b]))), to: short(one(string(x.src[a:start]) + with + string(x.src[end:b])))})
}

// short keeps what is read readable.
func short(s string) string {
	const most = 160
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + " …"
	}
	return s
}

func (x *reader) token(within ast.Node, at token.Pos, t token.Token) {
	for _, to := range swaps[t] {
		x.add(within, at, at+token.Pos(len(t.String())), to.String())
	}
}

// see finds the changes at a node.
func (x *reader) see(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.BinaryExpr:
		if !hasText(n) {
			x.token(n, n.OpPos, n.Op)
		}
	case *ast.UnaryExpr:
		if n.Op == token.SUB || n.Op == token.NOT {
			x.add(n, n.OpPos, n.OpPos+1, "")
		}
	case *ast.BasicLit:
		for _, to := range others(n) {
			x.add(n, n.Pos(), n.End(), to)
		}
	case *ast.Ident:
		if to, ok := names[n.Name]; ok {
			x.add(n, n.Pos(), n.End(), to)
		}
	case *ast.IfStmt:
		x.add(n.Cond, n.Cond.Pos(), n.Cond.End(), "!("+x.text(n.Cond)+")")
	case *ast.CallExpr:
		if isError(n) {
			break
		}
		if f, ok := n.Fun.(*ast.SelectorExpr); ok && f.Sel.Name == "Inf" && len(n.Args) == 1 {
			if _, ok := n.Args[0].(*ast.BasicLit); ok { // of any number above 0 it is the same
				x.see(f.Sel)
				return false
			}
		}
		if f, ok := n.Fun.(*ast.Ident); ok && (f.Name == "min" || f.Name == "max" || f.Name == "append") {
			break // of which the order says nothing, or does not compile
		}
		for i := 1; i < len(n.Args); i++ {
			a, b := x.text(n.Args[i-1]), x.text(n.Args[i])
			if a != b && !strings.ContainsAny(a+b, "\"`") { // those with texts differ in type, or are checks one after the other
				x.add(n, n.Args[i-1].Pos(), n.Args[i].End(), b+", "+a)
			}
		}
	case *ast.ReturnStmt: // beside an error a number says nothing
		if last := len(n.Results) - 1; last > 0 && (isError(n.Results[last]) || x.text(n.Results[last]) == "err") {
			for _, r := range n.Results {
				if _, ok := r.(*ast.BasicLit); !ok {
					ast.Inspect(r, x.see)
				}
			}
			return false
		}
	case *ast.AssignStmt:
		x.token(n, n.TokPos, n.Tok)
		if n.Tok != token.DEFINE {
			x.add(n, n.Pos(), n.End(), "")
		}
	case *ast.IncDecStmt:
		x.token(n, n.TokPos, n.Tok)
	case *ast.BranchStmt:
		if n.Label == nil {
			x.token(n, n.TokPos, n.Tok)
		}
	case *ast.ExprStmt:
		if !says(n.X) {
			x.add(n, n.Pos(), n.End(), "")
		}
	}
	return !isError(n)
}

// hasText reports whether an operation is on texts, as far as one sees.
func hasText(n ast.Node) bool {
	found := false
	ast.Inspect(n, func(n ast.Node) bool {
		l, ok := n.(*ast.BasicLit)
		found = found || ok && l.Kind == token.STRING
		return !found
	})
	b, ok := n.(*ast.BinaryExpr)
	return found && ok && b.Op == token.ADD
}

// others are what a constant may become. Of what is so small that it only takes up what
// floating point leaves, nothing.
func others(l *ast.BasicLit) []string {
	switch l.Kind {
	case token.INT:
		n, err := strconv.Atoi(l.Value)
		if err != nil {
			return nil
		}
		return []string{strconv.Itoa(n + 1), strconv.Itoa(n - 1)}
	case token.FLOAT:
		v, err := strconv.ParseFloat(l.Value, 64)
		if err != nil || v < 1e-5 {
			return nil
		}
		return []string{strconv.FormatFloat(v*1.5, 'g', -1, 64), strconv.FormatFloat(v/1.5, 'g', -1, 64)}
	}
	return nil
}

// says reports whether a call only says something.
func says(e ast.Expr) bool {
	c, ok := e.(*ast.CallExpr)
	if !ok {
		return false
	}
	name, ok := c.Fun.(*ast.Ident)
	return ok && name.Name == "panic"
}

// isError reports whether a node words an error, whose text no one computes with.
func isError(n ast.Node) bool {
	c, ok := n.(*ast.CallExpr)
	if !ok {
		return false
	}
	f, ok := c.Fun.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	of, ok := f.X.(*ast.Ident)
	return ok && slices.Contains([]string{"fmt.Errorf", "errors.New", "fmt.Sprintf"}, of.Name+"."+f.Sel.Name)
}
