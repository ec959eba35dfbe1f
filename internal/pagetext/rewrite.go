// Package pagetext puts the templates of pages into another language: it reads a parsed template, finds the text that people read and the
// attributes that are read to them, and puts translations in their place.
//
// Templates are written in English. What is translated at once is a message: the text and the actions between two tags of blocks, with
// actions as {1} and {2} and the tags within a sentence as <1>…</1>; a translation may change their order. Text within code, pre, textarea,
// script, style, and within elements with translate="no" or a lang of their own, stays. What an action writes is only known when the page is
// made: where it writes text it is handed to the function named by Said, or by Named where it is usually a name that the kitchen gave.
//
// A translation is text, never markup: its signs are escaped, so no catalogue can break a page.
package pagetext

import (
	"fmt"
	"slices"
	"strings"
	"text/template/parse"
)

// Names of the functions that a translated template needs.
const (
	Said  = "said"
	Named = "named"
)

// Words says a message of a template file in another language; false when there is no translation.
type Words func(file, message string) (string, bool)

// Rewriter translates the templates of one set.
type Rewriter struct {
	Words  Words
	Lang   string              // for the element html
	Parsed func(string) string // the text of a template of the set, as it was before; a template that is called there may hold blocks
}

// Rewrite puts one parsed template into another language, in place. An error is a template that is not written as this reads them, or a
// translation that does not fit; what was changed by then stays changed.
func (r Rewriter) Rewrite(tree *parse.Tree) error {
	if tree == nil || tree.Root == nil {
		return nil
	}
	w := &walker{Rewriter: r, file: strings.TrimSuffix(tree.ParseName, ".html")}
	w.list(tree.Root)
	if w.err == nil && w.in != content {
		w.err = fmt.Errorf("%s: template %s ends within a tag", tree.ParseName, tree.Name)
	}
	return w.err
}

// walker goes through one template. Its state is that of a reader of HTML at the place that was reached.
type walker struct {
	Rewriter
	file string
	err  error
	state
	dot string // the field that . stands for, as far as it is known
}

// list rewrites a list of nodes and leaves the state at its end.
func (w *walker) list(l *parse.ListNode) {
	if l == nil {
		return
	}
	c := &collector{w: w}
	if w.in != content {
		c.openTag()
	}
	if w.in == value && w.spoken() {
		c.openValue()
	}
	for _, n := range l.Nodes {
		c.node(n)
	}
	c.close()
	l.Nodes = joined(w.said(c.tokens, false))
}

// joined are nodes with texts that follow each other made one: package html/template wants the end of a script whole.
func joined(nodes []parse.Node) []parse.Node {
	var out []parse.Node
	for _, n := range nodes {
		if t, is := n.(*parse.TextNode); is && len(out) > 0 {
			if last, is := out[len(out)-1].(*parse.TextNode); is {
				last.Text = append(last.Text, t.Text...)
				continue
			}
		}
		out = append(out, n)
	}
	return out
}

// branch rewrites what lies within a node and gives back whether it begins and ends in the same place.
func (w *walker) branch(b *parse.BranchNode, dot string) {
	before, was := w.state, w.dot
	if dot != "" {
		w.dot = dot
	}
	w.list(b.List)
	after := w.state
	w.state, w.dot = before, was
	w.hush = slices.Clone(before.hush)
	if b.ElseList != nil {
		w.list(b.ElseList)
	}
	if after.in != w.in {
		if w.in == content && len(b.List.Nodes) > 0 {
			w.fail("a branch ends elsewhere than its other: %.60q", b.String())
		}
	}
	w.state = after
}

func (w *walker) fail(format string, args ...any) {
	if w.err == nil {
		w.err = fmt.Errorf("%s: %w", w.file, fmt.Errorf(format, args...))
	}
}

// action hands what an action writes to one of the functions.
func (w *walker) action(n *parse.ActionNode) {
	if len(n.Pipe.Decl) > 0 || len(n.Pipe.Cmds) == 0 {
		return
	}
	name := w.fieldOf(n.Pipe)
	if kitchens[name[strings.LastIndexByte(name, '.')+1:]] {
		return
	}
	do := Said
	if isName(name) {
		do = Named
	}
	n.Pipe.Cmds = append(n.Pipe.Cmds, &parse.CommandNode{NodeType: parse.NodeCommand, Pos: n.Pos, Args: []parse.Node{parse.NewIdentifier(do).SetPos(n.Pos)}})
}

// fieldOf is the field that a pipeline shows, after the field that . stands for: "Nav.Name", or "" when it is none.
func (w *walker) fieldOf(p *parse.PipeNode) string {
	args := p.Cmds[len(p.Cmds)-1].Args
	if len(args) == 0 {
		return ""
	}
	switch a := args[0].(type) {
	case *parse.DotNode:
		return w.dot
	case *parse.FieldNode:
		return strings.Join(append([]string{w.dot}, a.Ident...), ".")
	case *parse.VariableNode:
		return strings.Join(a.Ident, ".")
	case *parse.ChainNode:
		return a.Field[len(a.Field)-1]
	}
	return ""
}
