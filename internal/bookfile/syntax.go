package bookfile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"kettlefrost/internal/finding"
)

// parse turns the text of a file into its tree. It reports what is not plain YAML; ok says that the tree can be read on. A file of
// comments only gives no tree and is nothing to complain about.
func (d *decoder) parse(name string, text []byte) (root *yaml.Node, ok bool) {
	d.file = name
	if len(text) > maxFileBytes {
		d.syntax(CodeTooBig, finding.Position{File: name}, fmt.Sprintf("is too large: one file may have %d MB", maxFileBytes>>20), "divide it into several files")
		return nil, false
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff")) // some editors begin a file with a byte order mark
	if !d.plainText(text) {
		return nil, false
	}
	documents, err := compose(text)
	if err != nil {
		d.yamlError(err, text)
		return nil, false
	}
	if len(documents) == 0 {
		return nil, true
	}
	if len(documents) > 1 {
		at := documents[1]
		d.syntax(CodeRefused, d.at(at), "a second document begins here (---)", "keep one document in a file: take out the line ---, or put the rest into another file")
		return nil, false
	}
	d.refuse(documents[0])
	return documents[0].Content[0], true
}

// compose reads at most two documents, which is enough to say that there are too many.
func compose(text []byte) (documents []*yaml.Node, err error) {
	// The library reports its mistakes by panics of its own, and its internal errors by panics that it lets through.
	defer func() {
		if p := recover(); p != nil {
			documents, err = nil, fmt.Errorf("it cannot be read as YAML: %v", p)
		}
	}()
	loader, err := yaml.NewLoader(bytes.NewReader(text))
	if err != nil {
		return nil, err
	}
	for len(documents) < 2 {
		var node yaml.Node
		switch err := loader.Load(&node); {
		case errors.Is(err, io.EOF):
			return documents, nil
		case err != nil:
			return nil, err
		}
		documents = append(documents, &node)
	}
	return documents, nil
}

// plainText says whether the text is UTF-8 without control characters, and where it is not. The characters that YAML takes for
// line breaks and editors do not are among them, so that both count lines alike.
func (d *decoder) plainText(text []byte) bool {
	line, column := 1, 1
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRune(text[i:])
		at := finding.Position{File: d.file, Line: line, Column: column}
		switch {
		case r == utf8.RuneError && size == 1:
			message := fmt.Sprintf("the byte %02X here is not UTF-8", text[i])
			if bytes.HasPrefix(text, []byte{0xFF, 0xFE}) || bytes.HasPrefix(text, []byte{0xFE, 0xFF}) {
				message = "the file is in UTF-16, not in UTF-8"
			}
			d.syntax(CodeNotUTF8, at, message, "save the file as UTF-8")
			return false
		case r == '\n':
			line, column = line+1, 0
		case unicode.IsControl(r) && r != '\t' && r != '\r', r == '\u2028', r == '\u2029', r == '\ufffe', r == '\uffff':
			d.syntax(CodeControl, at, fmt.Sprintf("the character %U here does not belong in a text file", r), "delete it; if the file looks broken, save it again as plain text in UTF-8")
			return false
		}
		column++
		i += size
	}
	return true
}

// plainWords puts the library's commonest complaints in the words of somebody who only writes recipes.
var plainWords = []struct{ said, message, fix string }{
	{"mapping values are not allowed", "a colon stands where no key can be", "put a value that has a colon and a space in it in quotes; otherwise check that the line is indented like its neighbours"},
	{"found character that cannot start any token", "a value or line cannot begin like this", "indent with spaces, not tabs; put a value that begins with @, ` or % in quotes"},
	{"could not find expected ':'", "a key without its colon", "write key: value, or indent the line if it belongs to the text above"},
	{"did not find expected key", "the line does not line up with those above it", "indent the keys of one group alike"},
	{"did not find expected '-' indicator", "the line does not line up with the list above it", "begin each entry of the list with a dash, all indented alike"},
	{"did not find expected ',' or", "a list in [ ] or a group in { } is not closed, or a comma is missing", "close the bracket, and put a comma between the entries"},
	{"found unexpected end of stream", "a quote that was opened is not closed", "close the quote"},
	{"did not find expected node content", "a bracket or comma stands where a value should be, or the file ends too early", "write the value, or take the bracket or comma out"},
	{"exceeded max depth", "brackets or indents are nested far too deep", "write it flatter"},
	{"unknown anchor", "a value cannot begin with * (an alias)", "write the value out, or put text that begins with * in quotes"},
}

// yamlError reports why the library could not read the file. What is wrong at the end of a file without a last line break is said
// to be on the line after it, which the file does not have; it is moved to the end of the last line.
func (d *decoder) yamlError(err error, text []byte) {
	at := finding.Position{File: d.file}
	said := err.Error()
	if load, ok := errors.AsType[*yaml.LoadError](err); ok {
		at.Line, at.Column, said = load.Mark.Line, load.Mark.Column, load.Message
	}
	if last, column := end(text); at.Line > last {
		at.Line, at.Column = last, column
	}
	for _, w := range plainWords {
		if strings.Contains(said, w.said) {
			d.syntax(CodeSyntax, at, w.message, w.fix)
			return
		}
	}
	d.syntax(CodeSyntax, at, "this is not YAML: "+said, "look at this line and the one above it")
}

// end is the line and column behind the last character of a text.
func end(text []byte) (line, column int) {
	text = bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
	text = bytes.ReplaceAll(text, []byte("\r"), []byte("\n"))
	last := text[bytes.LastIndexByte(text, '\n')+1:]
	return 1 + bytes.Count(text, []byte("\n")), 1 + utf8.RuneCount(last)
}

// refuse reports what YAML can do and the book does not use. Aliases are never followed, so a file cannot grow by them.
func (d *decoder) refuse(n *yaml.Node) {
	switch {
	case n.Kind == yaml.AliasNode:
		d.syntax(CodeRefused, d.at(n), "*"+n.Value+" stands for something written elsewhere (an alias), which the book does not use", "write the value out, or put text that begins with * in quotes")
	case n.Anchor != "":
		d.syntax(CodeRefused, d.at(n), "&"+n.Anchor+" marks a value for use elsewhere (an anchor), which the book does not use", "take it out, or put text that begins with & in quotes")
	case n.Style&yaml.TaggedStyle != 0 || n.Tag == "!":
		d.syntax(CodeRefused, d.at(n), n.Tag+" before a value (a tag) is not used in the book", "take it out, or put text that begins with ! in quotes")
	case n.Kind == yaml.ScalarNode && n.Tag == mergeTag:
		d.syntax(CodeRefused, d.at(n), "<< takes over keys from elsewhere (a merge key), which the book does not use", "write the keys out")
	}
	for _, c := range n.Content {
		d.refuse(c)
	}
}

// mergeTag is how the library marks a plain <<.
const mergeTag = "!!merge"

// syntax reports something about a file as text.
func (d *decoder) syntax(code string, at finding.Position, message, fix string) {
	d.add(finding.Finding{Code: code, Severity: finding.Stop, Where: "file " + d.file, At: &at, Message: message, Fix: fix})
}

func (d *decoder) at(n *yaml.Node) finding.Position {
	return finding.Position{File: d.file, Line: n.Line, Column: n.Column}
}
