package bookfile

import (
	"bytes"
	"slices"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
)

// mark is what some editors begin a file with.
var mark = []byte("\ufeff")

// doc is the text of one file with its tree, which says where everything begins. Where it ends is worked out from the text.
type doc struct {
	name  string
	first []byte // as it was, whole
	text  []byte // without a byte order mark
	root  *yaml.Node
	lines []int // where each line begins
	eol   string
	flat  bool // texts are written on one line: below is a comment that would become part of one
}

// newDoc is a file; ok is false when it cannot be read, which the decoder then has said.
func newDoc(name string, text []byte, d *decoder) (one *doc, root *yaml.Node, ok bool) {
	root, ok = d.parse(name, text)
	one = &doc{name: name, first: text, root: root, eol: "\n"}
	one.set(bytes.TrimPrefix(text, mark))
	if i := bytes.IndexByte(text, '\n'); i > 0 && text[i-1] == '\r' {
		one.eol = "\r\n"
	}
	return one, root, ok
}

// set puts a text in, and finds its lines. YAML takes a lone carriage return for a line's end too.
func (d *doc) set(text []byte) {
	d.text, d.lines = text, []int{0}
	for i, c := range text {
		if c == '\n' || c == '\r' && (i+1 == len(text) || text[i+1] != '\n') {
			d.lines = append(d.lines, i+1)
		}
	}
}

// whole is the file as it is written: nil when nothing is left in it but comments.
func (d *doc) whole() []byte {
	if d.gone() {
		return nil
	}
	if bytes.HasPrefix(d.first, mark) {
		return append(slices.Clone(mark), d.text...)
	}
	return d.text
}

func (d *doc) changed() bool { return !bytes.Equal(d.text, bytes.TrimPrefix(d.first, mark)) }

// gone says that changes left nothing in it.
func (d *doc) gone() bool { return d.changed() && (d.root == nil || len(d.root.Content) == 0) }

// splice replaces a part of the text and reads it again; false when it is no YAML any more.
func (d *doc) splice(from, to int, put string) bool {
	if d.eol != "\n" {
		put = strings.ReplaceAll(strings.ReplaceAll(put, d.eol, "\n"), "\n", d.eol)
	}
	text := slices.Concat(d.text[:from], []byte(put), d.text[to:])
	documents, err := compose(text)
	if err != nil || len(documents) > 1 {
		return false
	}
	d.set(text)
	d.root = nil
	if len(documents) == 1 {
		d.root = documents[0].Content[0]
		if empty(d.root) {
			d.root = nil
		}
	}
	return true
}

// start is where a node begins.
func (d *doc) start(n *yaml.Node) int {
	at := d.lines[min(n.Line, len(d.lines))-1]
	for range n.Column - 1 {
		if at >= len(d.text) {
			break
		}
		_, size := utf8.DecodeRune(d.text[at:])
		at += size
	}
	return at
}

// end is where a node ends. indent is that of the group or list it stands in, in columns.
func (d *doc) end(n *yaml.Node, indent int) int {
	at := d.start(n)
	switch {
	case n.Kind == yaml.ScalarNode:
		return d.endOfScalar(n, at, indent)
	case len(n.Content) > 0 && n.Style&yaml.FlowStyle == 0:
		return d.end(n.Content[len(n.Content)-1], n.Column-1)
	case !d.bracketed(n): // a pair without braces in a list in brackets
		return d.end(n.Content[len(n.Content)-1], 0)
	}
	at++
	if len(n.Content) > 0 {
		at = d.end(n.Content[len(n.Content)-1], 0)
	}
	for at = d.past(at); at < len(d.text) && d.text[at] == ','; {
		at = d.past(at + 1)
	}
	return min(at+1, len(d.text))
}

// bracketed says that a group or list stands in braces or brackets of its own.
func (d *doc) bracketed(n *yaml.Node) bool {
	at := d.start(n)
	return at < len(d.text) && (d.text[at] == '{' || d.text[at] == '[')
}

// past goes over space, line ends and comments.
func (d *doc) past(at int) int {
	for at < len(d.text) {
		switch c := d.text[at]; {
		case isSpace(c):
			at++
		case c == '#':
			at = d.lineEnd(at)
		default:
			return at
		}
	}
	return at
}

// line is the number of the line that a place is on, from 0.
func (d *doc) line(at int) int {
	i, found := slices.BinarySearch(d.lines, at)
	if !found {
		i--
	}
	return i
}

// lineStart is where the line of a place begins.
func (d *doc) lineStart(at int) int { return d.lines[d.line(at)] }

// lineEnd is where the line of a place ends, before its line end.
func (d *doc) lineEnd(at int) int {
	end := d.next(at)
	if end > at && d.text[end-1] == '\n' {
		end--
	}
	if end > at && d.text[end-1] == '\r' {
		end--
	}
	return end
}

// next is where the next line begins; the end of the text when there is none.
func (d *doc) next(at int) int {
	if i := d.line(at) + 1; i < len(d.lines) {
		return d.lines[i]
	}
	return len(d.text)
}

// alone is what stands on the line of a place, without space around it.
func (d *doc) alone(at int) string {
	return strings.TrimSpace(string(d.text[d.lineStart(at):d.lineEnd(at)]))
}

// blockEnd is where the lines of something that ends at a place end, with the comments below that are set deeper than column indent.
func (d *doc) blockEnd(end, indent int) int {
	at := d.next(end)
	for line := at; line < len(d.text); line = d.next(line) {
		text := string(d.text[line:d.lineEnd(line)])
		body := strings.TrimLeft(text, " ")
		if !strings.HasPrefix(body, "#") || len(text)-len(body) <= indent {
			break
		}
		at = d.next(line)
	}
	return at
}
