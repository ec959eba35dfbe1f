package bookfile

import (
	"bytes"
	"reflect"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"
)

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

func (e *editor) mend(s *spot, ok bool) error {
	if !ok {
		return e.unwritable(s)
	}
	return nil
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
