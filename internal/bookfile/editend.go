package bookfile

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
)

func (d *doc) endOfScalar(n *yaml.Node, at, indent int) int {
	switch {
	case n.Style&yaml.SingleQuotedStyle != 0:
		for at++; at < len(d.text); at++ {
			if d.text[at] == '\'' {
				if at+1 >= len(d.text) || d.text[at+1] != '\'' {
					return at + 1
				}
				at++
			}
		}
	case n.Style&yaml.DoubleQuotedStyle != 0:
		for at++; at < len(d.text); at++ {
			switch d.text[at] {
			case '"':
				return at + 1
			case '\\':
				at++
			}
		}
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return d.endOfBlockText(at, indent)
	default: // plain: what stands there but for the space between is the value
		for _, r := range n.Value {
			if unicode.IsSpace(r) {
				continue
			}
			for at < len(d.text) && isSpace(d.text[at]) {
				at++
			}
			at += utf8.RuneLen(r)
		}
	}
	return min(at, len(d.text))
}

// endOfBlockText is the end of a text after | or >: of its last line with something on it, or of the last empty line that + keeps.
func (d *doc) endOfBlockText(at, indent int) int {
	header, _, _ := strings.Cut(string(d.text[at:d.lineEnd(at)]), "#")
	header = strings.TrimRight(header, " \t")
	end, inside, known := at+len(header), indent+1, false // inside: the least indent of what is in it; the first line says it
	if i := strings.IndexAny(header, "123456789"); i >= 0 {
		inside, known = indent+int(header[i]-'0'), true
	}
	kept := end
	for line := d.next(at); line < len(d.text); line = d.next(line) {
		text := string(d.text[line:d.lineEnd(line)])
		lead := len(text) - len(strings.TrimLeft(text, " "))
		if lead == len(text) && (!known || lead <= inside) {
			kept = line + lead
			continue
		}
		if lead < inside {
			break
		}
		if !known {
			inside, known = lead, true
		}
		end = line + len(text)
		kept = end
	}
	if strings.Contains(header, "+") {
		return kept
	}
	return end
}

func isSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\n' || c == '\r' }
