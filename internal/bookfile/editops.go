package bookfile

import (
	"bytes"
	"reflect"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"
)

// count is how many entries something holds.
func count(n *yaml.Node) int {
	if n.Kind == yaml.MappingNode {
		return len(n.Content) / 2
	}
	return len(n.Content)
}

// span is where an entry of a group, table or list stands, with its key or dash.
func (d *doc) span(holder *yaml.Node, i int) (from, to int) {
	if holder.Kind == yaml.MappingNode {
		from, to = d.start(holder.Content[2*i]), d.end(holder.Content[2*i+1], holder.Column-1)
		if before := bytes.TrimRight(d.text[:from], " \t\r\n"); bytes.HasSuffix(before, []byte("?")) { // a key over several lines
			from = len(before) - 1
		}
		return from, to
	}
	from, to = d.start(holder.Content[i]), d.end(holder.Content[i], holder.Column-1)
	if holder.Style&yaml.FlowStyle == 0 {
		from = d.start(holder)
		if i > 0 {
			_, before := d.span(holder, i-1)
			from = d.past(before)
		}
	}
	return from, to
}

// keeps says that an entry ends in a text that keeps its empty lines (|+): one more below it would belong to it.
func (d *doc) keeps(n *yaml.Node) bool {
	for len(n.Content) > 0 {
		n = n.Content[len(n.Content)-1]
	}
	if n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) == 0 {
		return false
	}
	at := d.start(n)
	return bytes.ContainsRune(d.text[at:d.lineEnd(at)], '+')
}

// blankBetween says that there is an empty line between an entry and the one before it.
func (d *doc) blankBetween(holder *yaml.Node, i int) bool {
	_, at := d.span(holder, i-1)
	next, _ := d.span(holder, i)
	for line := d.next(at); line < d.lineStart(next); line = d.next(line) {
		if d.alone(line) == "" {
			return true
		}
	}
	return false
}

// apart says that a new entry at place i of a block is set apart by an empty line, as its neighbours are.
func (d *doc) apart(holder *yaml.Node, i int, text string) bool {
	n := count(holder)
	switch {
	case i > 0 && d.keeps(holder.Content[len(holder.Content)/n*i-1]):
		return false
	case i > 0 && i < n:
		return d.blankBetween(holder, i)
	case n > 1:
		return d.blankBetween(holder, min(max(i, 1), n-1))
	case holder == d.root:
		return true
	}
	from, to := d.span(holder, 0)
	return holder.Kind == yaml.SequenceNode && d.line(from) != d.line(to) && strings.Count(text, "\n") > 1
}

// below is where a new entry after another goes: under its lines, and the comments that an empty line sets apart from what follows.
func (d *doc) below(holder *yaml.Node, i int) int {
	_, end := d.span(holder, i)
	if i+1 >= count(holder) {
		return d.blockEnd(end, holder.Column-2) // comments as far in as the entries close them
	}
	at := d.blockEnd(end, holder.Column-1)
	next, _ := d.span(holder, i+1)
	for line := at; line < d.lineStart(next); line = d.next(line) {
		switch {
		case strings.HasPrefix(d.alone(line), "#"):
		case line > at && d.alone(line) == "":
			return line
		default:
			return at
		}
	}
	return at
}

// putLines puts whole lines at the beginning of a line.
func (d *doc) putLines(at int, text string) bool {
	if at == len(d.text) && at > 0 && d.text[at-1] != '\n' && d.text[at-1] != '\r' {
		text = "\n" + text
	}
	return d.splice(at, at, text)
}

// style is how the file indents.
func (d *doc) style() renderer {
	r := renderer{step: 2, dash: 2, flat: d.flat}
	if d.root == nil {
		return r
	}
	var known func(n *yaml.Node) bool // a list in a block sets how dashes stand, a group how keys do
	steps := false
	known = func(n *yaml.Node) bool {
		for i := 0; n.Kind == yaml.MappingNode && n.Style&yaml.FlowStyle == 0 && i+1 < len(n.Content); i += 2 {
			v := n.Content[i+1]
			if v.Style&yaml.FlowStyle != 0 || v.Kind == yaml.ScalarNode || len(v.Content) == 0 {
				continue
			}
			if v.Kind == yaml.SequenceNode {
				r.dash = v.Column - n.Column
				return true
			}
			if !steps {
				r.step, steps = v.Column-n.Column, true
			}
			if known(v) {
				return true
			}
		}
		if n.Kind == yaml.SequenceNode {
			return slices.ContainsFunc(n.Content, known)
		}
		return false
	}
	if !known(d.root) {
		r.dash = r.step
	}
	return r
}

// setScalar writes another single value, quoted as the one before it where that can be.
func (e *editor) setScalar(s *spot, text string, words bool) error {
	n := s.value()
	if n.Kind != yaml.ScalarNode {
		return e.failAt(s, "it is not a single value in the file", "change it in the text of the file")
	}
	if n.Value == text {
		return nil
	}
	q := quotes{n.Style, words && n.Tag == "!!str"}
	put := ""
	if s.holder != nil && s.holder.Style&yaml.FlowStyle != 0 {
		put = single(text, q, inFlow)
	} else {
		put = s.d.style().text(text, q, s.textIndent())
		if s.end() == len(s.d.text) && strings.Contains(put, "\n") {
			put += "\n" // the last line of such a text has an end
		}
	}
	return e.splice(s, s.d.start(n), s.end(), put)
}

// textIndent is how far the lines of a text over several lines are set in.
func (s *spot) textIndent() int {
	n := s.value()
	if n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 {
		end := s.end()
		for line := s.d.next(s.d.start(n)); line < end; line = s.d.next(line) {
			if s.d.alone(line) != "" {
				text := s.d.text[line:]
				return len(text) - len(bytes.TrimLeft(text, " "))
			}
		}
	}
	return s.indent() + 2
}

func (e *editor) splice(s *spot, from, to int, put string) error {
	at := s.d
	if !at.splice(from, to, put) {
		return e.unwritable(s)
	}
	return nil
}

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

func (e *editor) mend(s *spot, ok bool) error {
	if !ok {
		return e.unwritable(s)
	}
	return nil
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

// insertEntry adds an entry to a section, in the file where others of its kind are.
func (e *editor) insertEntry(steps []step) error {
	if len(steps) > 2 {
		steps = steps[:2]
	}
	if len(steps) == 1 || steps[1].in != table {
		return e.newSection(steps[:1], steps[0].key+".yaml")
	}
	name := e.fileFor(steps)
	d, there := e.docs[name]
	if !there || d.root == nil {
		return e.newSection(steps, name)
	}
	if s := keyIn(d, d.root, steps[0].key, nil); s != nil {
		return e.insertInto(s, steps)
	}
	return e.newSection(steps, name)
}

// newSection writes a section with one entry, or a whole one, into a file that has none of it, or is new.
func (e *editor) newSection(steps []step, name string) error {
	value, err := encode(at(reflect.ValueOf(&e.book).Elem(), steps), true)
	if err != nil {
		return e.fail("cannot be written: "+err.Error(), "")
	}
	key := textNode(steps[0].key)
	if len(steps) > 1 {
		value = &yaml.Node{Kind: yaml.MappingNode, Content: []*yaml.Node{textNode(steps[1].key), value}}
	}
	d, there := e.docs[name]
	switch {
	case !there:
		d = &doc{name: name, eol: e.eol(), flat: e.flat}
		d.set(nil)
		e.docs[name] = d
		return e.mend(nil, d.splice(0, 0, e.style().pair(key, value, 0)))
	case d.root == nil:
		return e.mend(nil, d.putLines(len(d.text), e.style().pair(key, value, 0)))
	default:
		return e.insertPair(d, nil, d.root, count(d.root), key, value)
	}
}

// style is that of the first file that has one.
func (e *editor) style() renderer {
	for _, d := range e.inOrder() {
		if d.root != nil {
			return d.style()
		}
	}
	return renderer{step: 2, dash: 2, flat: e.flat}
}

func (e *editor) eol() string {
	for _, d := range e.inOrder() {
		return d.eol
	}
	return "\n"
}
