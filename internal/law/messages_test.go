package law

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"
)

// silent are packages whose texts reach no page: they are of the command line, of paper, of tests, or the language itself.
var silent = set("cli law language pagetext phrasebook history heatcheck pdf sheet papers homepaper labelmaker store workbook bookfile-schema preview")

func set(words string) map[string]bool {
	all := map[string]bool{}
	for _, w := range strings.Fields(words) {
		all[w] = true
	}
	return all
}

// keys are calls whose texts are read by programs.
var keys = set("HandleFunc Handle Get Has Set Add Del FormValue PostFormValue PathValue HasPrefix HasSuffix Contains ContainsAny Index IndexAny LastIndex Cut CutPrefix CutSuffix TrimPrefix TrimSuffix Trim " +
	"TrimLeft TrimRight Split SplitN SplitSeq Fields parse MustCompile Join Replace ReplaceAll NewReplacer Open ReadFile ReadDir Glob Parse ParseInLocation ParseFS Format Header Lookup ExecuteTemplate Exec Query QueryRow " +
	"Prepare EqualFold Count panic Debug Info Error Warn Log showPart text temp mass masses must2 Getenv cookie onDevice SetString Say Fill")

// shown are fields of structs that are read by people even when one word stands in them.
var shown = set("Name Title Label Says Hint Button Word Nothing Text Why State Verdict Message Fix Where Note Left Reason Help Heading Does Does2 Kind Sort Summary Sentence Words Stands Unit Around Problem Notice Headline Advice")

// sentencesOf are the texts of a file that may be read by people: sentences with the verbs of package fmt where something is put in.
func sentencesOf(file *ast.File) []string {
	r := &reader{}
	for _, d := range file.Decls {
		if g, is := d.(*ast.GenDecl); is && g.Tok == token.IMPORT {
			continue
		}
		ast.Walk(r, d)
	}
	return r.all
}

type reader struct {
	all  []string
	lone bool // a single word is meant to be read
}

func (r *reader) with(lone bool) *reader { return &reader{lone: lone} }

func (r *reader) inner(lone bool, nodes ...ast.Node) {
	x := r.with(lone)
	for _, n := range nodes {
		if n != nil {
			ast.Walk(x, n)
		}
	}
	r.all = append(r.all, x.all...)
}

func (r *reader) Visit(n ast.Node) ast.Visitor {
	switch n := n.(type) {
	case *ast.Field: // struct tags
		return nil
	case *ast.IndexExpr:
		r.inner(false, n.X)
		return nil
	case *ast.CaseClause:
		for _, s := range n.Body {
			r.inner(false, s)
		}
		return nil
	case *ast.KeyValueExpr:
		id, is := n.Key.(*ast.Ident)
		r.inner(is && shown[id.Name] || !is && r.lone, n.Value)
		return nil
	case *ast.AssignStmt:
		for i, x := range n.Rhs {
			lone := false
			if i < len(n.Lhs) {
				if sel, is := n.Lhs[i].(*ast.SelectorExpr); is {
					lone = shown[sel.Sel.Name]
				}
			}
			r.inner(lone, x)
		}
		return nil
	case *ast.BinaryExpr:
		if n.Op == token.ADD {
			if format, ok := joined(n); ok {
				r.take(format)
			}
			r.inner(false, others(n)...)
			return nil
		}
		if n.Op == token.EQL || n.Op == token.NEQ {
			return nil
		}
	case *ast.CallExpr:
		return r.call(n)
	case *ast.BasicLit:
		if n.Kind == token.STRING {
			if text, err := strconv.Unquote(n.Value); err == nil {
				r.take(strings.ReplaceAll(text, "%", "%%"))
			}
		}
	}
	return r
}

// call takes the texts of a call: a format as it is, those of programs not at all.
func (r *reader) call(c *ast.CallExpr) ast.Visitor {
	name := ""
	switch f := c.Fun.(type) {
	case *ast.Ident:
		name = f.Name
	case *ast.SelectorExpr:
		name = f.Sel.Name
		r.inner(false, f.X)
	}
	if name == "times" && len(c.Args) == 3 {
		for _, a := range c.Args[1:] {
			if l, is := a.(*ast.BasicLit); is {
				text, _ := strconv.Unquote(l.Value)
				r.lone = true
				r.take("%d " + text)
			}
		}
		return nil
	}
	for _, a := range c.Args {
		if l, is := a.(*ast.BasicLit); is && l.Kind == token.STRING {
			if keys[name] {
				continue
			}
			text, err := strconv.Unquote(l.Value)
			if err == nil && (strings.HasSuffix(name, "f") || name == "ask" || name == "say" || name == "wrong") && strings.Contains(text, "%") {
				r.take(text)
				continue
			}
		}
		r.inner(false, a)
	}
	return nil
}

// joined is a chain of + as a format, with %s for what is no text of the code.
func joined(n ast.Expr) (string, bool) {
	switch n := n.(type) {
	case *ast.BinaryExpr:
		if n.Op != token.ADD {
			return "%s", false
		}
		x, okX := joined(n.X)
		y, okY := joined(n.Y)
		if strings.HasSuffix(x, "%s") && strings.HasPrefix(y, "%s") {
			y = strings.TrimPrefix(y, "%s")
		}
		return x + y, okX || okY
	case *ast.ParenExpr:
		return joined(n.X)
	case *ast.BasicLit:
		if n.Kind == token.STRING {
			text, err := strconv.Unquote(n.Value)
			return strings.ReplaceAll(text, "%", "%%"), err == nil
		}
	case *ast.CallExpr:
		if f, is := n.Fun.(*ast.SelectorExpr); is && f.Sel.Name == "Itoa" {
			return "%d", false
		}
	}
	return "%s", false
}

// others are the parts of a chain of + that are no texts of the code.
func others(n ast.Expr) (all []ast.Node) {
	switch n := n.(type) {
	case *ast.BinaryExpr:
		if n.Op == token.ADD {
			return append(others(n.X), others(n.Y)...)
		}
	case *ast.BasicLit:
		return nil
	}
	return []ast.Node{n}
}

var (
	aVerb   = regexp.MustCompile(`%(?:\[\d+\])?[-+# 0]*\d*(?:\.\d+)?[a-zA-Z%]`)
	program = regexp.MustCompile(`^(/|\?|https?:|text/|application/|image/|SELECT |INSERT |CREATE |UPDATE |DELETE |PRAGMA |BEGIN|ALTER |DROP |kettlefrost[./]|<|data:|[a-z]+=|\.|#|--|default-src)|[<>{}]|=%|="|%s/|/%s|^[A-Z][a-z]+(-[A-Z][a-z]+)+$|\\n|SHA-256|^[a-z0-9]+(?:[.\-/_:][a-z0-9%]+)+:?$|\.(?:html|csv|json|svg|pdf|yaml|js|css|go)$|2006|15:04`)
	aWord   = regexp.MustCompile(`\p{L}{2,}`)
)

// take keeps a text that reads as if it were for people.
func (r *reader) take(format string) {
	format = strings.TrimSpace(format)
	bare := aVerb.ReplaceAllString(format, " ")
	if strings.ContainsFunc(format, unicode.IsControl) || program.MatchString(format) || !aWord.MatchString(bare) {
		return
	}
	if words := strings.Fields(bare); len(words) == 1 && !r.lone && !strings.ContainsAny(format, " ") {
		first := []rune(words[0])[0]
		if !unicode.IsUpper(first) || strings.Contains(format, "%") || strings.ToUpper(words[0]) == words[0] || strings.ContainsFunc(words[0][1:], unicode.IsUpper) {
			return
		}
	}
	r.all = append(r.all, format)
}

// codeSentences are all texts for people by package, those of internal/web by the first word of their file.
func codeSentences(t *testing.T) map[string]map[string]bool {
	t.Helper()
	all := map[string]map[string]bool{}
	files, err := filepath.Glob("../*/*.go")
	more, err2 := filepath.Glob("../*/*/*.go")
	if err != nil || err2 != nil {
		t.Fatal(err, err2)
	}
	for _, name := range append(files, more...) {
		pkg := strings.Split(filepath.ToSlash(name), "/")[1]
		if strings.HasSuffix(name, "_test.go") || silent[pkg] || strings.Contains(name, "test/") {
			continue
		}
		source, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		code, err := parser.ParseFile(token.NewFileSet(), name, source, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		into := pkg
		if pkg == "web" {
			into = "web-" + areaOf(strings.TrimSuffix(filepath.Base(name), ".go"))
		}
		for _, s := range sentencesOf(code) {
			if all[into] == nil {
				all[into] = map[string]bool{}
			}
			all[into][s] = true
		}
	}
	return all
}

// areas are the parts of the pages that are translated together: each is a file of a catalogue.
var areas = strings.Fields("bill book board cool cold count day device dish draft filling find folder hazard heat home help job keep label learn lot glance logs log money next office offline order packlabel people paper pick recall receive reading run rule safety signin start stock thermometer trial view watch week who workshop target tubs")

// areaOf is the area of a template or of a file of the code, by the beginning of its name.
func areaOf(name string) string {
	name = strings.ReplaceAll(name, "_", "-")
	best := ""
	for _, a := range areas {
		if strings.HasPrefix(name, a) && len(a) > len(best) {
			best = a
		}
	}
	if best == "" {
		return name
	}
	return best
}
