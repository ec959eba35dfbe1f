package bookfile

import (
	"bytes"
	"reflect"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"
)

// insertNew writes what the book has at some steps and the files have not: the largest part of it that is not written.
func (e *editor) insertNew(steps []step) error {
	for n := len(steps) - 1; n > 0; n-- {
		outer := e.locate(steps[:n])
		if outer == nil || n == 1 && steps[1].in == table { // an entry of a section may go into another file
			continue
		}
		return e.insertInto(outer, steps[:n+1])
	}
	return e.insertEntry(steps)
}

// insertInto adds the entry that the last of steps names to what stands at outer.
func (e *editor) insertInto(outer *spot, steps []step) error {
	last := steps[len(steps)-1]
	v := at(reflect.ValueOf(&e.book).Elem(), steps)
	n, err := encode(v, last.in != list || tall(v))
	if err != nil {
		return e.failAt(outer, "cannot be written: "+err.Error(), "")
	}
	onOneLineIfSmall(n, last)
	if last.in == list {
		return e.insertItem(outer, last.i, n)
	}
	holder := outer.value()
	i := count(holder)
	if last.in == group {
		i = placeOf(holder, last.key, fieldsOf(pointee(at(reflect.ValueOf(&e.book).Elem(), steps[:len(steps)-1]).Type())))
	}
	return e.insertPair(outer.d, outer, holder, i, textNode(last.key), n)
}

// tall says that an entry of a list stands over several lines.
func tall(v reflect.Value) bool { return shapeOf(v.Type()) == group }

// onOneLineIfSmall puts a group on one line as the encoder would within a larger one.
func onOneLineIfSmall(n *yaml.Node, last step) {
	if n.Kind == yaml.MappingNode && last.in != table {
		onOneLine(n)
	}
}

// placeOf is where a key goes among those of a group: after the last that comes before it in the order of the nouns.
func placeOf(holder *yaml.Node, key string, fields []field) int {
	order := keys(fields)
	mine, place, nearest := slices.Index(order, key), 0, -1
	for i := range count(holder) {
		if other := slices.Index(order, holder.Content[2*i].Value); other < mine && other > nearest {
			place, nearest = i+1, other
		}
	}
	return place
}

// insertPair adds a key to a group or table.
func (e *editor) insertPair(d *doc, s *spot, holder *yaml.Node, i int, key, value *yaml.Node) error {
	if holder.Kind != yaml.MappingNode {
		return e.failAt(s, "it is no group of keys in the file", "change it in the text of the file")
	}
	if holder.Style&yaml.FlowStyle != 0 {
		return e.intoBrackets(d, s, holder, i, single(key.Value, styleFor(key), inKey)+": "+flow(value))
	}
	indent := holder.Column - 1
	text := d.style().pair(key, value, indent)
	pad := strings.Repeat(" ", indent)
	if i == 0 {
		if count(holder) > 1 && d.apart(holder, 0, text) {
			text += "\n"
		}
		return e.mend(s, d.splice(d.start(holder), d.start(holder), text+pad))
	}
	if d.apart(holder, i, text) {
		return e.mend(s, d.putLines(d.below(holder, i-1), "\n"+pad+text))
	}
	return e.mend(s, d.putLines(d.below(holder, i-1), pad+text))
}

// intoBrackets adds an entry to a group or list that stands in braces or brackets.
func (e *editor) intoBrackets(d *doc, s *spot, holder *yaml.Node, i int, text string) error {
	from := d.start(holder)
	switch n := count(holder); {
	case !d.bracketed(holder):
		to := d.end(holder, 0)
		was := string(d.text[from:to])
		if i == 0 {
			return e.mend(s, d.splice(from, to, "{"+text+", "+was+"}"))
		}
		return e.mend(s, d.splice(from, to, "{"+was+", "+text+"}"))
	case n == 0:
		return e.mend(s, d.splice(from+1, from+1, text))
	case i == 0:
		first, _ := d.span(holder, 0)
		return e.mend(s, d.splice(first, first, text+", "))
	default:
		_, end := d.span(holder, i-1)
		return e.mend(s, d.splice(end, end, ", "+text))
	}
}

// insertItem adds an entry to a list.
func (e *editor) insertItem(s *spot, i int, item *yaml.Node) error {
	holder, d := s.value(), s.d
	switch {
	case holder.Kind == yaml.ScalarNode: // one value that stands for a list of one
		was := single(holder.Value, styleFor(holder), inFlow)
		both := []string{was, flow(item)}
		if i == 0 {
			slices.Reverse(both)
		}
		return e.splice(s, d.start(holder), s.end(), "["+strings.Join(both, ", ")+"]")
	case holder.Kind != yaml.SequenceNode:
		return e.failAt(s, "it is no list in the file", "change it in the text of the file")
	case holder.Style&yaml.FlowStyle != 0:
		if item.Kind != yaml.ScalarNode && e.unfold(s, item) {
			return e.insertItem(s.again(e), i, item)
		}
		return e.intoBrackets(d, s, holder, i, flow(item))
	}
	indent := holder.Column - 1
	text := d.style().item(item, indent)
	if i == 0 {
		at := d.lineStart(d.start(holder))
		if d.start(holder)-at != indent {
			return e.failAt(s, "the list does not begin on a line of its own", "change it in the text of the file")
		}
		if d.apart(holder, 0, text) {
			text += "\n"
		}
		return e.mend(s, d.putLines(at, text))
	}
	if d.apart(holder, i, text) {
		text = "\n" + text
	}
	return e.mend(s, d.putLines(d.below(holder, i-1), text))
}

// again is the same place after the text has changed.
func (s *spot) again(e *editor) *spot {
	if s.outer == nil {
		return keyIn(s.d, s.d.root, s.at().Value, nil)
	}
	outer := s.outer.again(e)
	if s.keyed() {
		return keyIn(s.d, outer.value(), s.at().Value, outer)
	}
	return &spot{s.d, outer.value(), s.i, outer}
}

// unfold sets a list of groups that stands on one line in brackets on lines of its own, where another entry would make it too long or does
// not go on a line. The entries stay as they are written.
func (e *editor) unfold(s *spot, item *yaml.Node) bool {
	d, holder := s.d, s.value()
	if !s.keyed() || s.holder.Style&yaml.FlowStyle != 0 || len(holder.Content) == 0 {
		return false
	}
	from, to := d.start(holder), d.end(holder, 0)
	rest := strings.TrimRight(string(d.text[to:d.lineEnd(to)]), " \t")
	inside := string(d.text[from:to])
	if d.line(from) != d.line(to) || strings.Contains(inside, "#") || rest != "" && !strings.HasPrefix(strings.TrimSpace(rest), "#") {
		return false
	}
	for _, c := range holder.Content {
		if c.Kind != yaml.MappingNode || !d.bracketed(c) {
			return false
		}
	}
	r := d.style()
	pad := strings.Repeat(" ", s.holder.Column-1+r.dash)
	text := rest
	for i := range holder.Content {
		a, b := d.span(holder, i)
		text += "\n" + pad + "- " + string(d.text[a:b])
	}
	colon := bytes.LastIndexByte(d.text[:from], ':') + 1
	return d.splice(colon, d.lineEnd(to), text)
}
