package find

import (
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/spelling"
)

// mostWords is how many words of a question count, and longestAsk how many bytes of it.
const (
	mostWords  = 16
	longestAsk = 400
)

// asked is one word of a question.
type asked struct {
	forms  []string // that stand for it: the word itself first
	number int64    // of a pack or a code; 0 for none
}

// ask takes a question apart. Words that tell nothing count only when there are no others.
func ask(text string) (words []asked, more bool) {
	text, more = text[:min(len(text), longestAsk)], len(text) > longestAsk
	var idle []asked
	seen := map[string]bool{}
	for _, c := range chunks(text) {
		for _, a := range askedOf(c) {
			switch {
			case seen[a.forms[0]]:
			case isIdle(a.forms[0]):
				idle = append(idle, a)
			case len(words) == mostWords:
				more = true
			default:
				words = append(words, a)
			}
			seen[a.forms[0]] = true
		}
	}
	if len(words) == 0 {
		words = idle[:min(len(idle), mostWords)]
	}
	return words, more
}

func askedOf(c chunk) []asked {
	switch {
	case c.numbered:
		n, err := strconv.ParseInt(c.parts[0], 10, 64)
		if err != nil { // more digits than any pack has
			n = 0
		}
		return []asked{{[]string{number(c.parts[0])}, n}}
	case isDate(c.parts, 2): // the month first, or the day
		month, day, year := twoDigits(c.parts[0]), twoDigits(c.parts[1]), c.parts[2]
		return []asked{{forms: []string{joined(c.parts), year + "-" + month + "-" + day, year + "-" + day + "-" + month}}}
	case c.isCode():
		return []asked{{forms: []string{joined(c.parts)}}}
	}
	var all []asked
	for _, p := range c.parts {
		all = append(all, asked{forms: singular(cut(p))})
	}
	return all
}

func isIdle(w string) bool {
	return slices.Contains([]string{"a", "an", "and", "for", "from", "in", "of", "on", "or", "the", "to", "with"}, w)
}

// singular is a word with what it may be the plural of. It need not be a word: what nobody wrote finds nothing.
func singular(w string) []string {
	forms := []string{w}
	stem, plural := strings.CutSuffix(w, "s")
	if !plural || len(stem) < 3 || strings.HasSuffix(stem, "s") {
		return forms
	}
	forms = append(forms, stem)
	if y, ok := strings.CutSuffix(stem, "ie"); ok {
		return append(forms, y+"y")
	}
	if e, ok := strings.CutSuffix(stem, "e"); ok && strings.ContainsAny(e[len(e)-1:], "oshxz") {
		forms = append(forms, e)
	}
	return forms
}

// slips is how many slips of the pen a word may hold and still be known.
func slips(word string) int {
	n := len([]rune(word))
	switch {
	case n < 4 || strings.ContainsAny(word, "0123456789#"):
		return 0
	case n < 8:
		return 1
	}
	return 2
}

// near says whether a word is another one but for slips of the pen.
func near(word, known string) bool {
	if strings.ContainsAny(known, "0123456789#") {
		return false
	}
	_, is := spelling.Slips(word, known, slips(word))
	return is
}
