// Package phrasebook says in another language what was written in English by a program: whole sentences, and sentences with something put in.
//
// A phrase is the English text of the code, with the verbs of package fmt where something is put in ("%d packs of %s"). A text is looked up
// as it is, then as one of those sentences with anything in the place of its verbs, then as a list whose parts are all known. What fits
// nothing stays as it is: it may be what a person wrote. Numbers, measures and times are never touched, so that a figure reads the same in
// every language and can be compared across two devices.
package phrasebook

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Book is the phrases of one language. The zero Book says everything in English. It may be read by many at a time.
type Book struct {
	exact       map[string]string
	index       index
	said, named memory
}

// New makes a book from phrases, English to what is said for them. A phrase whose verbs have too few words around them to be told from
// what people write is left out.
func New(phrases map[string]string) *Book {
	b := &Book{exact: make(map[string]string, len(phrases)), index: newIndex()}
	for english, said := range phrases {
		if said == "" {
			continue
		}
		if p, ok := newPattern(english, said); ok {
			b.index.add(p)
			if part, ok := newPattern(strings.TrimLeft(english, separators), strings.TrimLeft(said, separators)); ok && part.english != english {
				b.index.add(part)
			}
		} else if !strings.Contains(english, "%") || strings.ReplaceAll(english, "%%", "") == strings.ReplaceAll(english, "%", "") {
			b.exact[strings.ReplaceAll(english, "%%", "%")] = strings.ReplaceAll(said, "%%", "%")
		}
	}
	b.index.sort()
	return b
}

// separators begin a sentence that the code writes behind another: in a list it stands without them.
const separators = ";, "

// deepest is how often a text within a text is looked up.
const deepest = 3

// Said is a text as it is said; English is kept where no phrase fits.
func (b *Book) Said(text string) string {
	return b.said.said(text, func(text string) string { return b.say(text, true) })
}

// Named is Said for what is usually a name that the kitchen gave: single words stay.
func (b *Book) Named(text string) string {
	return b.named.said(text, func(text string) string { return b.say(text, false) })
}

func (b *Book) say(text string, words bool) string {
	if said, ok := b.whole(text, deepest, words); ok {
		return said
	}
	return text
}

// whole says a text, and tells whether a phrase was found. Single words are looked up only where they are meant.
func (b *Book) whole(text string, depth int, words bool) (string, bool) {
	if len(text) < 2 || len(text) > longest || depth == 0 || !hasLetter(text) {
		return "", false
	}
	if trimmed := strings.TrimSpace(text); trimmed != text {
		said, ok := b.whole(trimmed, depth, words)
		return strings.Replace(text, trimmed, said, 1), ok
	}
	if said, ok := b.one(text, depth, words); ok {
		return said, true
	}
	if said, ok := b.sentence(text, depth); ok {
		return said, true
	}
	for _, between := range []string{". ", "; ", " · ", ", "} {
		if said, ok := b.list(text, between, depth-1); ok {
			return said, true
		}
	}
	if head, rest, both := strings.Cut(text, ": "); both {
		if said, ok := b.whole(head, depth-1, false); ok {
			if more, ok := b.whole(rest, depth-1, false); ok {
				rest = more
			}
			return said + ": " + rest, true
		}
	}
	return "", false
}

// longest is a text that is looked at, in bytes; what is longer was written by people.
const longest = 2000

func (b *Book) one(text string, depth int, words bool) (string, bool) {
	if said, ok := b.exact[text]; ok && (words || strings.ContainsAny(text, " \u00a0")) {
		return said, true
	}
	return b.pattern(text, depth)
}

// sentence says a text that is written in the code without its capital and its point, as errors are.
func (b *Book) sentence(text string, depth int) (string, bool) {
	bare, point := strings.CutSuffix(text, ".")
	first, size := utf8.DecodeRuneInString(bare)
	upper := unicode.IsUpper(first)
	if !point && !upper || size == len(bare) || !strings.Contains(bare, " ") {
		return "", false
	}
	said, ok := "", false
	if upper {
		low := string(unicode.ToLower(first)) + bare[size:]
		if said, ok = b.one(low, depth, false); !ok && point {
			said, ok = b.one(low+".", depth, false)
		}
	}
	if !ok && point {
		said, ok = b.one(bare, depth, false)
	}
	if !ok {
		return "", false
	}
	if upper {
		said = Capital(said)
	}
	if point && !strings.HasSuffix(said, ".") {
		said += "."
	}
	return said, true
}

// list says a text made of several, if all of them are known or hold no words.
func (b *Book) list(text, between string, depth int) (string, bool) {
	if !strings.Contains(text, between) || depth <= 0 {
		return "", false
	}
	parts := strings.Split(text, between)
	found := false
	for i, p := range parts {
		if !hasLetter(p) {
			continue
		}
		ask := p
		if between == ". " && i < len(parts)-1 {
			ask += "."
		}
		said, ok := b.whole(ask, depth, false)
		if !ok {
			if measure(p) {
				continue
			}
			return "", false
		}
		if ask != p {
			said = strings.TrimSuffix(said, ".")
		}
		parts[i], found = said, true
	}
	return strings.Join(parts, between), found
}

// Capital is a text with a capital at its beginning.
func Capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:]
}

func hasLetter(text string) bool {
	for i := range len(text) {
		if c := text[i]; c|0x20 >= 'a' && c|0x20 <= 'z' || c >= 0xc3 && c <= 0xc9 {
			return true
		}
	}
	return false
}

// measure tells whether a text is a number with no more than a unit: it begins with a digit and has no word of more than four letters.
func measure(text string) bool {
	text = strings.TrimLeft(text, "-+~≤≥<>$€£( ")
	if text == "" || text[0] < '0' || text[0] > '9' {
		return false
	}
	for word := range strings.FieldsSeq(text) {
		if letters := strings.IndexFunc(word, unicode.IsLetter); letters == 0 && len(strings.Trim(word, "().,;")) > 4 {
			return false
		}
	}
	return true
}
