package homecard

import (
	_ "embed"
	"strings"
	"unicode"
	"unicode/utf8"

	"kettlefrost/internal/sourced"
)

//go:embed data/words.csv
var wordsCSV string

//go:embed data/talk.csv
var talkCSV string

// renamed is what a kitchen calls something, and what a home does.
type renamed struct{ kitchen, home string }

var words = sourced.MustRead(wordsCSV, func(row sourced.Row) (renamed, error) {
	return renamed{row["kitchen"], row["home"]}, nil
})

// talk is what only a sentence about the kitchen's own business says.
var talk = sourced.MustRead(talkCSV, func(row sourced.Row) (string, error) { return row["says"], nil })

// atHome is a text with what a kitchen calls things said as a home does, and without the sentences that are the kitchen's own business, which
// are returned beside it.
func atHome(text string) (says string, left []string) {
	var kept []string
	for _, s := range sentences(text) {
		if ofTheKitchen(s) {
			left = append(left, s)
			continue
		}
		for _, w := range words {
			s = replaceWord(s, w.kitchen, w.home)
		}
		kept = append(kept, s)
	}
	return strings.Join(kept, " "), left
}

func ofTheKitchen(sentence string) bool {
	for _, t := range talk {
		if at := wordAt(sentence, t, 0); at >= 0 {
			return true
		}
	}
	return false
}

// sentences cuts a text after each full stop, question or exclamation mark that a space follows.
func sentences(text string) []string {
	var all []string
	start := 0
	for i, r := range text {
		if strings.ContainsRune(".!?", r) && i+1 < len(text) && text[i+1] == ' ' {
			all = append(all, strings.TrimSpace(text[start:i+1]))
			start = i + 1
		}
	}
	if rest := strings.TrimSpace(text[start:]); rest != "" {
		all = append(all, rest)
	}
	return all
}

// replaceWord puts one word or phrase in the place of another, wherever it stands by itself, in capitals as it stood.
func replaceWord(text, old, new string) string {
	for at := wordAt(text, old, 0); at >= 0; at = wordAt(text, old, at+len(new)) {
		put := new
		if first, _ := utf8.DecodeRuneInString(text[at:]); unicode.IsUpper(first) {
			put = strings.ToUpper(new[:1]) + new[1:]
		}
		text = text[:at] + put + text[at+len(old):]
	}
	return text
}

// wordAt is where a phrase stands by itself, from a byte on; -1 when nowhere. Capitals make no difference; the phrase is plain ASCII.
func wordAt(text, phrase string, from int) int {
	for at := from; at+len(phrase) <= len(text); at++ {
		if strings.EqualFold(text[at:at+len(phrase)], phrase) && bounded(text, at, at+len(phrase)) {
			return at
		}
	}
	return -1
}

func bounded(text string, from, to int) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:from])
	after, _ := utf8.DecodeRuneInString(text[to:])
	return (from == 0 || !wordRune(before)) && (to == len(text) || !wordRune(after))
}

func wordRune(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
