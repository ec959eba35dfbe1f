package bookfile

import (
	"fmt"
	"strings"
	"unicode"

	"go.yaml.in/yaml/v4"
)

// quotes is how a single value was, or should be, written.
type quotes struct {
	style yaml.Style
	text  bool // words: quoted where YAML would take them for a number or a truth
}

func styleFor(n *yaml.Node) quotes { return quotes{style: n.Style, text: n.Tag == "!!str"} }

// where a single value stands.
type standing int

const (
	inBlock standing = iota
	inFlow
	inKey
)

// single is a single value on one line, as near to a style as it can be written.
func single(s string, q quotes, where standing) string {
	if q.style&yaml.DoubleQuotedStyle == 0 {
		if q.style&yaml.SingleQuotedStyle == 0 && plain(s, q.text, where) {
			return s
		}
		if !strings.ContainsFunc(s, odd) {
			return "'" + strings.ReplaceAll(s, "'", "''") + "'"
		}
	}
	return doubleQuoted(s)
}

// plain says that a text can stand without quotes: that YAML reads it back as it is.
func plain(s string, text bool, where standing) bool {
	frames := [][2]string{{"k: ", "\nz: z\n"}, {"- ", "\n- z\n"}}
	switch where {
	case inFlow:
		frames = [][2]string{{"{k: ", ", z: z}\n"}, {"[", ", z]\n"}}
	case inKey:
		frames = [][2]string{{"", ": z\n"}, {"{", ": z, z: z}\n"}, {"- ", ": z\n"}}
	}
	if s == "" || strings.ContainsFunc(s, odd) {
		return false
	}
	for _, f := range frames {
		documents, err := compose([]byte(f[0] + s + f[1]))
		if err != nil || len(documents) != 1 {
			return false
		}
		n := documents[0].Content[0]
		for n.Kind != yaml.ScalarNode {
			if len(n.Content) == 0 {
				return false
			}
			i := 0
			if n.Kind == yaml.MappingNode && where != inKey {
				i = 1
			}
			n = n.Content[i]
		}
		switch {
		case n.Value != s, n.Style != 0, n.Anchor != "", n.Tag == "!!null", n.Tag == mergeTag, text && n.Tag != "!!str":
			return false
		}
	}
	return true
}

// odd says that a character is written as an escape.
func odd(r rune) bool { return !unicode.IsPrint(r) }

func doubleQuoted(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case unicode.IsPrint(r):
			b.WriteRune(r)
		case r < 0x100:
			fmt.Fprintf(&b, `\x%02X`, r)
		case r < 0x10000:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			fmt.Fprintf(&b, `\U%08X`, r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
