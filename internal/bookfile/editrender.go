package bookfile

import (
	"strings"

	"go.yaml.in/yaml/v4"
)

// renderer writes trees as a cook would, the way the file around them is indented.
type renderer struct {
	step int  // keys below a key
	dash int  // dashes below a key: 0 or step
	flat bool // no text stands over several lines
}

// longest is what a line may be for a list to stand on it.
const longest = 100

// block is the keys of a group, one below the other, indent spaces from the left. It ends in a line end.
func (r renderer) block(n *yaml.Node, indent int) string {
	var b strings.Builder
	for i := 0; i+1 < len(n.Content); i += 2 {
		b.WriteString(strings.Repeat(" ", indent))
		b.WriteString(r.pair(n.Content[i], n.Content[i+1], indent))
	}
	return b.String()
}

// pair is a key with its value, without the space before it. It ends in a line end.
func (r renderer) pair(key, value *yaml.Node, indent int) string {
	k := single(key.Value, styleFor(key), inKey) + ":"
	switch {
	case value.Kind == yaml.ScalarNode:
		return k + " " + r.text(value.Value, styleFor(value), indent+r.step) + "\n"
	case r.onLine(value, indent+len(k)+1):
		return k + " " + flow(value) + "\n"
	case value.Kind == yaml.MappingNode:
		return k + "\n" + r.block(value, indent+r.step)
	default:
		return k + "\n" + r.items(value, indent+r.dash)
	}
}

// items is the entries of a list, with empty lines between where they are tall.
func (r renderer) items(n *yaml.Node, indent int) string {
	var b strings.Builder
	for i, c := range n.Content {
		if i > 0 && c.Kind == yaml.MappingNode && !r.onLine(c, 0) {
			b.WriteString("\n")
		}
		b.WriteString(r.item(c, indent))
	}
	return b.String()
}

// item is one entry of a list with its dash.
func (r renderer) item(n *yaml.Node, indent int) string {
	dash := strings.Repeat(" ", indent) + "- "
	switch {
	case n.Kind == yaml.ScalarNode:
		return dash + r.text(n.Value, styleFor(n), indent+2) + "\n"
	case n.Kind == yaml.MappingNode && !r.onLine(n, 0):
		return dash + r.block(n, indent+2)[indent+2:]
	default:
		return dash + flow(n) + "\n"
	}
}

// onLine says that a group or list goes on one line in brackets: as the encoder says, and a list of one short group too.
func (r renderer) onLine(n *yaml.Node, column int) bool {
	if len(n.Content) == 0 || n.Style&yaml.FlowStyle != 0 {
		return true
	}
	return n.Kind == yaml.SequenceNode && len(n.Content) == 1 && n.Content[0].Style&yaml.FlowStyle != 0 && column+len(flow(n)) <= longest
}

// flow is a tree on one line.
func flow(n *yaml.Node) string {
	parts := make([]string, 0, len(n.Content))
	switch n.Kind {
	case yaml.MappingNode:
		for i := 0; i+1 < len(n.Content); i += 2 {
			parts = append(parts, single(n.Content[i].Value, styleFor(n.Content[i]), inKey)+": "+flow(n.Content[i+1]))
		}
		return "{" + strings.Join(parts, ", ") + "}"
	case yaml.SequenceNode:
		for _, c := range n.Content {
			parts = append(parts, flow(c))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	return single(n.Value, styleFor(n), inFlow)
}

// text is a single value after a key or a dash, over several lines where it has them or was written so. indent is that of its lines.
func (r renderer) text(s string, q quotes, indent int) string {
	var text string
	switch {
	case r.flat, strings.ContainsFunc(s, func(r rune) bool { return r != '\n' && odd(r) }):
	case q.style&yaml.FoldedStyle != 0:
		text = folded(s, indent)
	case strings.Contains(s, "\n") && q.style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) == 0:
		text = literal(s, indent)
	}
	if text != "" && readsBack(text, s, indent) {
		return text
	}
	q.style &^= yaml.FoldedStyle | yaml.LiteralStyle
	return single(s, q, inBlock)
}

// readsBack says that a text over several lines is read as it was meant, with something below it.
func readsBack(text, s string, indent int) bool {
	pad := strings.Repeat(" ", max(0, indent-2))
	documents, err := compose([]byte(pad + "k: " + text + "\n\n" + pad + "z: z\n"))
	if err != nil || len(documents) != 1 || documents[0].Content[0].Kind != yaml.MappingNode {
		return false
	}
	c := documents[0].Content[0].Content
	return len(c) == 4 && c[1].Value == s && c[3].Value == "z"
}

// literal is a text with its line ends after |. Texts that it cannot hold come out as something that does not read back.
func literal(s string, indent int) string {
	sign := "|-"
	if strings.HasSuffix(s, "\n") {
		sign, s = "|", s[:len(s)-1]
	}
	var b strings.Builder
	b.WriteString(sign)
	for line := range strings.SplitSeq(s, "\n") {
		b.WriteByte('\n')
		if line != "" {
			b.WriteString(strings.Repeat(" ", indent) + line)
		}
	}
	return b.String()
}

// folded is a text after >, its paragraphs broken into lines.
func folded(s string, indent int) string {
	sign := ">-"
	if strings.HasSuffix(s, "\n") {
		sign, s = ">", s[:len(s)-1]
	}
	pad := "\n" + strings.Repeat(" ", indent)
	var b strings.Builder
	b.WriteString(sign)
	for i, paragraph := range strings.Split(s, "\n") {
		if i > 0 {
			b.WriteByte('\n')
		}
		width := 0
		for word := range strings.SplitSeq(paragraph, " ") {
			if width == 0 || width+1+len(word) > 120-indent {
				b.WriteString(pad)
				width = 0
			} else {
				b.WriteByte(' ')
				width++
			}
			b.WriteString(word)
			width += len(word)
		}
	}
	return b.String()
}
