package bookfile

import (
	"bytes"
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
		if mark, is := d.asked(holder, from); is {
			from = mark
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

// asked is where the ? before a key over several lines stands. A text of the entry before may end in one too: that is none.
func (d *doc) asked(holder *yaml.Node, key int) (mark int, is bool) {
	before := bytes.TrimRight(d.text[:key], " \t\r\n")
	mark = len(before) - 1
	if mark < 0 || before[mark] != '?' {
		return 0, false
	}
	if holder.Style&yaml.FlowStyle != 0 {
		before = bytes.TrimRight(before[:mark], " \t\r\n")
		return mark, bytes.ContainsAny(before[max(0, len(before)-1):], "{[,")
	}
	return mark, len(bytes.Trim(d.text[d.lineStart(mark):mark], " -\t")) == 0
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
