package bookfile

import (
	"bytes"
	"reflect"
	"strings"

	"go.yaml.in/yaml/v4"

	"kettlefrost/internal/kitchen"
)

// fieldAt is what is known of the key that steps end in.
func fieldAt(steps []step) field {
	t, f := reflect.TypeFor[kitchen.Book](), field{}
	for _, s := range steps {
		t = pointee(t)
		switch s.in {
		case group:
			f, _ = find(fieldsOf(t), s.key)
			t = f.kind
		default:
			t, f = t.Elem(), field{}
		}
	}
	f.kind = t
	return f
}

// remove takes out what is written at steps, wherever in the files.
func (e *editor) remove(steps []step) error {
	for s := e.locate(steps); s != nil; s = e.locate(steps) {
		if err := e.removeSpot(s, steps); err != nil {
			return err
		}
		if len(steps) > 1 {
			return nil
		}
	}
	return nil
}

// removeSpot takes out one entry. A group, table or list that nothing is left in goes too, where it may.
func (e *editor) removeSpot(s *spot, steps []step) error {
	if s.holder == nil || count(s.holder) == 1 && s.outer != nil {
		outer := steps[:len(steps)-1]
		f := fieldAt(outer)
		if outer[len(outer)-1].in == group && !f.required && f.kind.Kind() != reflect.Pointer {
			return e.removeSpot(s.outer, outer)
		}
		return e.emptied(s.outer, steps[len(steps)-1].in == list)
	}
	i := s.i
	if s.keyed() {
		i /= 2
	}
	if s.holder.Style&yaml.FlowStyle != 0 {
		return e.removeInBrackets(s, i)
	}
	return e.removeLines(s, i)
}

// emptied writes that there is nothing in a group, table or list.
func (e *editor) emptied(s *spot, isList bool) error {
	nothing := "{}"
	if isList {
		nothing = "[]"
	}
	n := s.value()
	from, to := s.d.start(n), s.end()
	if n.Kind != yaml.ScalarNode && n.Style&yaml.FlowStyle == 0 { // onto the line of its key or dash
		before := bytes.TrimRight(s.d.text[:from], " \t\r\n")
		if !bytes.HasSuffix(before, []byte(":")) && !bytes.HasSuffix(before, []byte("-")) {
			return e.failAt(s, "the last entry cannot be taken out: a comment stands before it", "change it in the text of the file")
		}
		from, nothing = len(before), " "+nothing
	}
	return e.splice(s, from, to, nothing)
}

// removeInBrackets takes an entry out of braces or brackets, with one comma. Comments among them stay.
func (e *editor) removeInBrackets(s *spot, i int) error {
	d := s.d
	from, to := d.span(s.holder, i)
	if i+1 < count(s.holder) {
		next, _ := d.span(s.holder, i+1)
		if bytes.IndexByte(d.text[to:next], '#') < 0 {
			return e.splice(s, from, next, "")
		}
		return e.splice(s, from, to+bytes.IndexByte(d.text[to:next], ',')+1, "")
	}
	if i > 0 {
		if _, before := d.span(s.holder, i-1); bytes.IndexByte(d.text[before:from], '#') < 0 {
			from = before
		}
	}
	return e.splice(s, from, to, "")
}

// removeLines takes an entry of a block out with its lines, and an empty line that set it apart.
func (e *editor) removeLines(s *spot, i int) error {
	d := s.d
	from, to := d.span(s.holder, i)
	end := d.blockEnd(to, s.holder.Column-1)
	if line := d.lineStart(from); len(bytes.TrimSpace(d.text[line:from])) > 0 { // the first key after a dash
		next, _ := d.span(s.holder, i+1)
		if s.holder.Kind != yaml.MappingNode || i > 0 {
			return e.failAt(s, "it does not begin on a line of its own", "change it in the text of the file")
		}
		if d.lineStart(next) == end {
			return e.splice(s, from, next, "")
		}
		dash := len(bytes.TrimRight(d.text[:from], " "))
		return e.splice(s, dash, end, d.eol)
	}
	from = d.lineStart(from)
	before := from > 0 && d.alone(from-1) == ""
	afterKeep := i > 0 && d.keeps(s.holder.Content[len(s.holder.Content)/count(s.holder)*i-1])
	for end < len(d.text) && d.alone(end) == "" && (before || afterKeep || i == 0) {
		end = d.next(end)
		if !afterKeep {
			break
		}
	}
	if end == len(d.text) && i > 0 && !afterKeep {
		for from > 0 && d.alone(from-1) == "" && d.line(from) > d.line(d.endBefore(s.holder, i))+1 {
			from = d.lineStart(from - 1)
		}
	}
	return e.splice(s, from, end, "")
}

// endBefore is where the entry before one ends.
func (d *doc) endBefore(holder *yaml.Node, i int) int {
	_, end := d.span(holder, i-1)
	return end
}

// replace writes something anew as a whole.
func (e *editor) replace(steps []step, v reflect.Value) error {
	s := e.locate(steps)
	n, err := encode(v, false)
	if err != nil {
		return e.failAt(s, "cannot be written: "+err.Error(), "")
	}
	if len(n.Content) == 0 && n.Kind != yaml.ScalarNode {
		n.Style = yaml.FlowStyle
	}
	was := s.value()
	if was.Kind == yaml.ScalarNode || was.Style&yaml.FlowStyle != 0 {
		text := flow(n)
		if n.Kind == yaml.ScalarNode && s.holder.Style&yaml.FlowStyle == 0 {
			text = s.d.style().text(n.Value, styleFor(n), s.textIndent())
		}
		return e.splice(s, s.d.start(was), s.end(), text)
	}
	from, to := s.d.start(was), s.end()
	before := strings.TrimRight(string(s.d.text[:from]), " \t\r\n")
	if !strings.HasSuffix(before, ":") {
		return e.failAt(s, "it cannot be written anew: a comment stands before it", "change it in the text of the file")
	}
	return e.splice(s, len(before), to, " "+flow(n))
}
