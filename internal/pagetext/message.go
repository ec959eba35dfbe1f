package pagetext

import (
	"fmt"
	"html"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"text/template/parse"
	"unicode"
)

// said is tokens as nodes, with its messages translated. Within an attribute quotes are escaped too.
func (w *walker) said(tokens []token, attribute bool) []parse.Node {
	var out []parse.Node
	for len(tokens) > 0 {
		n := slices.IndexFunc(tokens, func(t token) bool { return t.sort == wall })
		if n < 0 {
			n = len(tokens)
		}
		out = append(out, w.run(tokens[:n], attribute)...)
		if n < len(tokens) {
			out = append(out, tokens[n].nodes...)
			n++
		}
		tokens = tokens[n:]
	}
	return out
}

// run is what lies between two walls: one message where words stand on both sides of a tag, else one for each stretch between tags.
func (w *walker) run(tokens []token, attribute bool) []parse.Node {
	var out []parse.Node
	for n := signs(tokens); n > 0; n = signs(tokens) {
		for _, t := range tokens[:n] {
			out = append(out, t.as()...)
		}
		tokens = tokens[n:]
	}
	if whole(tokens) {
		return append(out, w.trimmed(tokens, attribute)...)
	}
	for len(tokens) > 0 {
		n := slices.IndexFunc(tokens, func(t token) bool { return t.sort == opening || t.sort == closing || t.sort == opaque })
		if n < 0 {
			n = len(tokens)
		}
		out = append(out, w.trimmed(tokens[:n], attribute)...)
		if n < len(tokens) {
			out = append(out, tokens[n].nodes...)
			n++
		}
		tokens = tokens[n:]
	}
	return out
}

// signs is how many tokens at the beginning are a tag that holds a sign and no words, and the space after it.
func signs(tokens []token) int {
	if len(tokens) > 0 && tokens[0].sort == text && strings.TrimSpace(tokens[0].text) == "" {
		return 1
	}
	if len(tokens) > 2 && tokens[0].sort == opening && tokens[1].sort == text && !wordy(tokens[1].text) && tokens[2].sort == closing {
		return 3
	}
	return 0
}

// whole tells whether tokens are one sentence that goes through tags: words outside of them and more words elsewhere, each tag closed.
func whole(tokens []token) bool {
	var open []string
	outside, words := false, 0
	for _, t := range tokens {
		switch t.sort {
		case opening:
			open = append(open, t.name)
		case closing:
			if len(open) == 0 || open[len(open)-1] != t.name {
				return false
			}
			open = open[:len(open)-1]
		case text:
			if wordy(t.text) {
				words++
				outside = outside || len(open) == 0
			}
		}
	}
	tags := slices.ContainsFunc(tokens, func(t token) bool { return t.sort == opening || t.sort == opaque })
	return len(open) == 0 && outside && words > 1 && tags
}

func wordy(s string) bool {
	return strings.ContainsFunc(html.UnescapeString(s), unicode.IsLetter)
}

// trimmed leaves out of a message what stands around it: space, and branches that may write nothing.
func (w *walker) trimmed(tokens []token, attribute bool) []parse.Node {
	from, to := 0, len(tokens)
	loose := func(t token) bool {
		return t.sort == text && !wordy(t.text) && strings.TrimSpace(html.UnescapeString(t.text)) == "" || t.sort == branch && t.name == "" || t.sort == opaque
	}
	for from < to && loose(tokens[from]) {
		from++
	}
	for to > from && loose(tokens[to-1]) {
		to--
	}
	var out []parse.Node
	for _, t := range tokens[:from] {
		out = append(out, t.as()...)
	}
	out = append(out, w.message(tokens[from:to], attribute)...)
	for _, t := range tokens[to:] {
		out = append(out, t.as()...)
	}
	return out
}

func (t token) as() []parse.Node {
	if t.sort == text {
		return []parse.Node{textNode(t.text)}
	}
	return t.nodes
}

// message is one message, translated if the words are known. Space at its ends stays.
func (w *walker) message(tokens []token, attribute bool) []parse.Node {
	var as []parse.Node
	for _, t := range tokens {
		as = append(as, t.as()...)
	}
	if !slices.ContainsFunc(tokens, func(t token) bool { return t.sort == text && wordy(t.text) }) {
		return as
	}
	key, put := keyOf(tokens)
	said, ok := w.Words(w.file, strings.TrimSpace(key))
	if !ok {
		return as
	}
	if err := Fits(strings.TrimSpace(key), said); err != nil {
		w.fail("%w", err)
		return as
	}
	lead, tail := key[:len(key)-len(strings.TrimLeft(key, " "))], key[len(strings.TrimRight(key, " ")):]
	var out []parse.Node
	rest := lead + said + tail
	from := 0
	for _, m := range mark.FindAllStringIndex(rest, -1) {
		out = appendText(out, rest[from:m[0]], attribute)
		out = append(out, put[rest[m[0]:m[1]]]...)
		from = m[1]
	}
	return appendText(out, rest[from:], attribute)
}

func appendText(out []parse.Node, s string, attribute bool) []parse.Node {
	if s == "" {
		return out
	}
	s = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(s)
	if attribute {
		s = strings.NewReplacer(`"`, "&#34;", "'", "&#39;").Replace(s)
	}
	return append(out, textNode(s))
}

// mark is a place in a message where something of the template stands.
var mark = regexp.MustCompile(`\{\d+\}|</?\d+>`)

var spaces = regexp.MustCompile(`[ \t\r\n]+`)

// keyOf is a message as the catalogues have it, and what stands for its marks.
func keyOf(tokens []token) (string, map[string][]parse.Node) {
	var key strings.Builder
	put := map[string][]parse.Node{}
	actions, tags := 0, 0
	var open []int
	for _, t := range tokens {
		as := ""
		switch t.sort {
		case text:
			key.WriteString(html.UnescapeString(t.text))
			continue
		case opening:
			tags++
			open = append(open, tags)
			as = fmt.Sprintf("<%d>", tags)
		case closing:
			as = fmt.Sprintf("</%d>", open[len(open)-1])
			open = open[:len(open)-1]
		default:
			actions++
			as = fmt.Sprintf("{%d}", actions)
		}
		put[as] = t.nodes
		key.WriteString(as)
	}
	return spaces.ReplaceAllString(key.String(), " "), put
}

// Fits tells why a translation cannot take the place of its message: each of its marks must stand there once, and tags must close in order.
func Fits(message, said string) error {
	want, got := mark.FindAllString(message, -1), mark.FindAllString(said, -1)
	sorted := func(all []string) []string { all = slices.Clone(all); slices.Sort(all); return all }
	if !slices.Equal(sorted(want), sorted(got)) {
		return fmt.Errorf("%q has the marks %v, and its translation %q %v", message, want, said, got)
	}
	var open []int
	for _, m := range got {
		n, err := strconv.Atoi(strings.Trim(m, "</>"))
		switch {
		case err != nil:
		case !strings.HasPrefix(m, "</"):
			open = append(open, n)
		case len(open) == 0 || open[len(open)-1] != n:
			return fmt.Errorf("%q closes %s out of order", said, m)
		default:
			open = open[:len(open)-1]
		}
	}
	return nil
}
