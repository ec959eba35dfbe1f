package kitchen_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"strconv"
	"strings"
	"testing"
)

// The table in the comment on Code lists every code once, in the order of the constants.
func TestTableOfCodesIsComplete(t *testing.T) {
	file, err := parser.ParseFile(token.NewFileSet(), "codes.go", nil, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	var table, codes []string
	for _, decl := range file.Decls {
		group, ok := decl.(*ast.GenDecl)
		if !ok {
			continue
		}
		if group.Tok == token.TYPE {
			for line := range strings.SplitSeq(group.Doc.Text(), "\n") {
				if row, isRow := strings.CutPrefix(line, "\t"); isRow {
					table = append(table, strings.Fields(row)[0])
				}
			}
		}
		ast.Inspect(group, func(n ast.Node) bool {
			if s, isText := n.(*ast.BasicLit); isText && group.Tok == token.CONST {
				code, err := strconv.Unquote(s.Value)
				if err != nil {
					t.Fatal(err)
				}
				codes = append(codes, code)
			}
			return true
		})
	}
	if len(table) < 2 || strings.Join(table[1:], "\n") != strings.Join(codes, "\n") { // the first row is the table's head
		t.Errorf("the table has\n%s\nthe constants are\n%s", strings.Join(table, "\n"), strings.Join(codes, "\n"))
	}
}
