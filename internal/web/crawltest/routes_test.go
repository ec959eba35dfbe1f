package crawltest

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"net/http"
	"net/url"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// routes is what the pages' code registers, read from the code itself.
type routes struct {
	mux      *http.ServeMux
	patterns []string // such as "GET /lot"
}

// readRoutes finds every HandleFunc of package web. Its pattern has to be a constant: another could not be found by a reader, either.
func readRoutes(t *testing.T) routes {
	t.Helper()
	files := parsed(t, "../*.go")
	constants := constantsOf(files)
	x := routes{mux: http.NewServeMux()}
	for _, f := range files {
		x.find(t, f, constants)
	}
	if len(x.patterns) < 100 {
		t.Fatalf("only %d routes were found", len(x.patterns))
	}
	return x
}

// find adds the routes of a piece of code.
func (x *routes) find(t *testing.T, in ast.Node, constants map[string]ast.Expr) {
	t.Helper()
	ast.Inspect(in, func(n ast.Node) bool {
		if loop, ok := n.(*ast.RangeStmt); ok { // over a list of texts: each of them in turn
			list, isList := loop.X.(*ast.CompositeLit)
			name, isName := loop.Value.(*ast.Ident)
			if !isList || !isName {
				return true
			}
			for _, text := range list.Elts {
				of := maps.Clone(constants)
				of[name.Name] = text
				x.find(t, loop.Body, of)
			}
			return false
		}
		call, ok := n.(*ast.CallExpr)
		if !ok || len(call.Args) != 2 {
			return true
		}
		if fun, ok := call.Fun.(*ast.SelectorExpr); !ok || fun.Sel.Name != "HandleFunc" && fun.Sel.Name != "Handle" {
			return true
		}
		pattern, ok := constantText(call.Args[0], constants)
		if !ok {
			t.Errorf("a route whose pattern is no constant: %v", call.Args[0])
			return true
		}
		x.patterns = append(x.patterns, pattern)
		x.mux.HandleFunc(pattern, func(http.ResponseWriter, *http.Request) {})
		return true
	})
}

func parsed(t testing.TB, glob string) []*ast.File {
	t.Helper()
	names, err := filepath.Glob(glob)
	if err != nil {
		t.Fatal(err)
	}
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") != strings.HasSuffix(glob, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, f)
	}
	return files
}

// constantsOf are the constants of a package, by name.
func constantsOf(files []*ast.File) map[string]ast.Expr {
	constants := map[string]ast.Expr{}
	for _, f := range files {
		for _, d := range f.Decls {
			g, ok := d.(*ast.GenDecl)
			if !ok || g.Tok != token.CONST {
				continue
			}
			for _, s := range g.Specs {
				v := s.(*ast.ValueSpec)
				for i, name := range v.Names {
					if i < len(v.Values) {
						constants[name.Name] = v.Values[i]
					}
				}
			}
		}
	}
	return constants
}

// constantText is the text of an expression of literals, constants and their sums.
func constantText(e ast.Expr, constants map[string]ast.Expr) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		text, err := strconv.Unquote(e.Value)
		return text, err == nil
	case *ast.Ident:
		v, ok := constants[e.Name]
		if !ok {
			return "", false
		}
		return constantText(v, constants)
	case *ast.BinaryExpr:
		a, ok := constantText(e.X, constants)
		b, ok2 := constantText(e.Y, constants)
		return a + b, ok && ok2 && e.Op == token.ADD
	}
	return "", false
}

// of is the pattern that answers an address, or nothing: what only the page for missing pages answers is answered by none.
func (x routes) of(method, address string) string {
	u, err := url.Parse(address)
	if err != nil {
		return ""
	}
	_, pattern := x.mux.Handler(&http.Request{Method: method, URL: u, Host: "localhost"})
	if pattern == "/" {
		return ""
	}
	return pattern
}
