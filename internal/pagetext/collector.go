package pagetext

import (
	"regexp"
	"strings"
	"text/template/parse"
)

type sort int

const (
	text   sort = iota // that people read
	action             // writes text
	branch             // nodes within, which are translated already
	opening
	closing // tags within a sentence
	opaque  // what stays as it is, within a sentence
	wall    // what ends a sentence: tags of blocks, and all else
)

// token is a piece of a template.
type token struct {
	sort  sort
	text  string       // of text, as it stands in the template
	nodes []parse.Node // of all others
	name  string       // of a tag's element
}

// collector cuts a list of nodes into tokens.
type collector struct {
	w      *walker
	tokens []token
	tag    *token  // that is open
	value  []token // of a spoken attribute that is open
	speaks bool
}

func (c *collector) openTag()   { c.tag = &token{sort: wall} }
func (c *collector) openValue() { c.value, c.speaks = nil, true }

// close ends the list, perhaps within a tag.
func (c *collector) close() {
	c.closeValue()
	if c.tag != nil {
		c.tokens = append(c.tokens, *c.tag)
		c.tag = nil
	}
}

func (c *collector) closeValue() {
	if c.speaks {
		c.tag.nodes = append(c.tag.nodes, c.w.said(c.value, true)...)
		c.value, c.speaks = nil, false
	}
}

func textNode(s string) parse.Node { return &parse.TextNode{NodeType: parse.NodeText, Text: []byte(s)} }

// raw takes markup as it stands.
func (c *collector) raw(s string) {
	if s == "" {
		return
	}
	if c.tag != nil {
		c.tag.nodes = append(c.tag.nodes, textNode(s))
		return
	}
	c.keep(textNode(s))
}

// keep takes a node that is not translated; what follows another is one with it.
func (c *collector) keep(n parse.Node) {
	c.add(token{sort: c.still(), nodes: []parse.Node{n}})
}

func (c *collector) add(t token) {
	if last := len(c.tokens) - 1; t.sort == opaque && last >= 0 && c.tokens[last].sort == opaque {
		c.tokens[last].nodes = append(c.tokens[last].nodes, t.nodes...)
		return
	}
	c.tokens = append(c.tokens, t)
}

// still is what something untranslated is: a part of a sentence as code is, or a wall.
func (c *collector) still() sort {
	if h := c.w.hush; c.w.in != comment && len(h) > 0 && inline[h[0]] {
		return opaque
	}
	return wall
}

func (c *collector) node(n parse.Node) {
	w := c.w
	switch n := n.(type) {
	case *parse.TextNode:
		c.text(string(n.Text))
		return
	case *parse.ActionNode:
		switch {
		case c.speaks:
			w.action(n)
			c.value = append(c.value, token{sort: action, nodes: []parse.Node{n}})
			return
		case w.in == content && len(w.hush) == 0:
			if len(n.Pipe.Decl) > 0 {
				c.add(token{sort: opaque, nodes: []parse.Node{n}})
				return
			}
			w.action(n)
			c.tokens = append(c.tokens, token{sort: action, nodes: []parse.Node{n}})
			return
		}
	case *parse.IfNode:
		c.inner(n, &n.BranchNode, "")
		return
	case *parse.WithNode:
		c.inner(n, &n.BranchNode, w.fieldOf(n.Pipe))
		return
	case *parse.RangeNode:
		c.inner(n, &n.BranchNode, w.fieldOf(n.Pipe))
		return
	case *parse.TemplateNode:
		if c.speaks {
			w.fail("template %s is called within an attribute", n.Name)
		}
		if w.in == content && len(w.hush) == 0 {
			s := wall
			if w.Parsed != nil && !blocks(w.Parsed(n.Name)) {
				s = branch
			}
			c.tokens = append(c.tokens, token{sort: s, nodes: []parse.Node{n}})
			return
		}
	}
	c.put(n)
}

// put takes a node as it is.
func (c *collector) put(n parse.Node) {
	switch {
	case c.speaks:
		c.value = append(c.value, token{sort: opaque, nodes: []parse.Node{n}})
	case c.tag != nil:
		c.tag.nodes = append(c.tag.nodes, n)
	default:
		c.keep(n)
	}
}

// inner takes a node with nodes within.
func (c *collector) inner(n parse.Node, b *parse.BranchNode, dot string) {
	shown := n.String()
	from := c.w.in
	c.w.branch(b, dot)
	switch {
	case c.speaks:
		c.value = append(c.value, token{sort: branch, nodes: []parse.Node{n}, name: alternatives(b)})
	case c.tag != nil:
		c.tag.nodes = append(c.tag.nodes, n)
		if c.w.in == content { // the tag ends within
			c.close()
		}
	case from == content && c.w.in == content && len(c.w.hush) == 0 && !c.holdsBlocks(shown):
		c.tokens = append(c.tokens, token{sort: branch, nodes: []parse.Node{n}, name: alternatives(b)})
	default:
		c.keep(n)
		if c.w.in != content && c.tag == nil {
			c.openTag()
		}
	}
}

// alternatives marks a branch that writes something in any case, as a part of its sentence.
func alternatives(b *parse.BranchNode) string {
	if b.ElseList != nil && b.NodeType == parse.NodeIf {
		return "either"
	}
	return ""
}

var (
	blockTag = regexp.MustCompile(`<(?:p|div|ul|ol|li|table|tr|td|th|tbody|thead|section|article|nav|form|h[1-6]|details|summary|dl|dt|dd|figure|picture|img|button|input|select|textarea|label|fieldset|legend|aside|header|footer|main|option|br|hr|svg)\b|<a class="(?:[^"]* )?button`)
	called   = regexp.MustCompile(`\{\{template "([^"]+)"`)
)

func blocks(text string) bool { return blockTag.MatchString(text) || called.MatchString(text) }

func (c *collector) holdsBlocks(text string) bool {
	if blockTag.MatchString(text) {
		return true
	}
	for _, m := range called.FindAllStringSubmatch(text, -1) {
		if c.w.Parsed == nil || blocks(c.w.Parsed(m[1])) {
			return true
		}
	}
	return strings.Contains(text, "<!--")
}
