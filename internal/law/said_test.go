package law

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"kettlefrost/internal/language"
)

// saying are the functions whose texts are said in the language of the reader.
var saying = map[string]bool{"Say": true, "Plural": true, "Fill": true, "loud": true, "quiet": true, "columns": true, "blanks": true, "lines": true}

// Every sentence that the code says has its translations.
func TestWhatIsSaidIsTranslated(t *testing.T) {
	said := 0
	for _, pkg := range []string{"papers", "pdf", "reheating", "labelmaker", "homecard", "homepaper", "packlabel"} {
		err := fs.WalkDir(os.DirFS("../"+pkg), ".", func(file string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
				return err
			}
			code, err := parser.ParseFile(token.NewFileSet(), filepath.Join("..", pkg, file), nil, 0)
			if err != nil {
				return err
			}
			for _, sentence := range sentences(code) {
				said++
				if !language.Knows(sentence) {
					t.Errorf("internal/%s/%s says %q: give it its line in a catalogue of internal/language/data", pkg, file, sentence)
				}
			}
			return nil
		})
		if err != nil && !os.IsNotExist(err) {
			t.Fatal(err)
		}
	}
	if said < 80 {
		t.Errorf("only %d sentences were found: is the code said otherwise?", said)
	}
}

// sentences are the texts that a file says.
func sentences(file *ast.File) (all []string) {
	ast.Inspect(file, func(n ast.Node) bool {
		call, is := n.(*ast.CallExpr)
		if !is {
			return true
		}
		if f, is := call.Fun.(*ast.SelectorExpr); !is || !saying[f.Sel.Name] {
			return true
		}
		for _, arg := range call.Args {
			if l, is := arg.(*ast.BasicLit); is && l.Kind == token.STRING {
				text, err := strconv.Unquote(l.Value)
				if text = strings.TrimPrefix(text, "#"); err == nil && text != "" && strings.Trim(text, "0123456789") != "" {
					all = append(all, text)
				}
			}
		}
		return true
	})
	return all
}
