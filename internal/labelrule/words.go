package labelrule

import (
	"slices"
	"strings"
)

// says tells whether a text has a word or phrase, whole and capitals aside.
func says(text, phrase string) bool { return len(occurrences(text, phrase)) > 0 }

// notThat are words in front of which a word does not mean what it says: coconut milk is no milk, and cocoa butter no butter.
var notThat = map[string][]string{
	"milk":   {"coconut", "almond", "oat", "rice", "soy", "soya", "cashew", "hazelnut", "hemp"},
	"butter": {"cocoa", "peanut", "almond", "cashew", "apple", "shea"},
}

// occurrences are where a text has a phrase as whole words.
func occurrences(text, phrase string) []int {
	text, phrase = lower(text), lower(phrase)
	var all []int
	for from := 0; phrase != ""; {
		i := strings.Index(text[from:], phrase)
		if i < 0 {
			break
		}
		i += from
		end := i + len(phrase)
		whole := (i == 0 || !isLetter(text[i-1])) && (end == len(text) || !isLetter(text[end]))
		if whole && !slices.Contains(notThat[phrase], lastWord(text[:i])) {
			all = append(all, i)
		}
		from = end
	}
	return all
}

// lower keeps every byte in its place, which strings.ToLower does not.
func lower(text string) string {
	b := []byte(text)
	for i, c := range b {
		if c >= 'A' && c <= 'Z' {
			b[i] += 'a' - 'A'
		}
	}
	return string(b)
}

// lastWord is the word right in front, with nothing but blanks or a hyphen in between.
func lastWord(before string) string {
	before = strings.TrimRight(before, " -")
	i := strings.LastIndexFunc(before, func(r rune) bool { return !(r >= 'a' && r <= 'z') })
	return before[i+1:]
}

func isLetter(b byte) bool { return b >= 'a' && b <= 'z' || b >= 0x80 }

// plural and singular are as near as a label needs: tomatoes, berries, eggs.
func plural(word string) string {
	switch {
	case strings.HasSuffix(word, "y") && !strings.HasSuffix(word, "ey"):
		return strings.TrimSuffix(word, "y") + "ies"
	case strings.HasSuffix(word, "o"), strings.HasSuffix(word, "sh"), strings.HasSuffix(word, "ch"):
		return word + "es"
	}
	return word + "s"
}

func singular(word string) string {
	switch {
	case strings.HasSuffix(word, "ies"):
		return strings.TrimSuffix(word, "ies") + "y"
	case strings.HasSuffix(word, "oes"), strings.HasSuffix(word, "shes"), strings.HasSuffix(word, "ches"):
		return strings.TrimSuffix(word, "es")
	case strings.HasSuffix(word, "ss"):
		return word
	}
	return strings.TrimSuffix(word, "s")
}

func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
