package draftdish

import (
	"slices"
	"strings"
	"unicode"
)

// wordsOf are the words of a text in small letters, without signs; numbers and what is within a word stay.
func wordsOf(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '\'' })
}

// idle are words that say nothing of which food it is.
var idle = []string{"a", "an", "the", "of", "or", "and", "in", "to", "for", "with", "fresh", "freshly", "large", "small", "medium", "good", "quality", "about", "plus", "more", "your", "favorite", "very", "ripe", "organic", "extra",
	"cold", "warm", "hot", "room", "temperature", "optional", "divided", "store", "bought", "homemade", "thick", "thin", "whole", "dry", "fine", "finely", "coarsely", "ground", "virgin", "low", "sodium", "unsalted", "salted"}

// contentOf are the words of a food's name that tell it from others, each in its singular.
func contentOf(text string) []string {
	var all []string
	for _, w := range wordsOf(text) {
		if !slices.Contains(idle, w) && !strings.ContainsAny(w, "0123456789") {
			all = append(all, singular(w))
		}
	}
	if len(all) == 0 { // all of it says nothing elsewhere, but it is all there is
		for _, w := range wordsOf(text) {
			all = append(all, singular(w))
		}
	}
	return all
}

// singular is a word without the ending of several.
func singular(w string) string {
	switch {
	case strings.HasSuffix(w, "oes"):
		return strings.TrimSuffix(w, "es")
	case strings.HasSuffix(w, "ies") && len(w) > 4:
		return strings.TrimSuffix(w, "ies") + "y"
	case strings.HasSuffix(w, "aves"):
		return strings.TrimSuffix(w, "ves") + "f"
	case strings.HasSuffix(w, "ss"), strings.HasSuffix(w, "us"), len(w) < 4:
		return w
	}
	return strings.TrimSuffix(w, "s")
}

// plainLetters are the letters with marks that recipes in English have.
var plainLetters = strings.NewReplacer("é", "e", "è", "e", "ê", "e", "É", "e", "ñ", "n", "ç", "c", "ü", "u", "ö", "o", "ä", "a", "î", "i", "â", "a")

// slug is a short word for the book: small letters, digits and single hyphens.
func slug(text string) string {
	var out strings.Builder
	for _, r := range strings.ToLower(plainLetters.Replace(text)) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			out.WriteRune(r)
		case out.Len() > 0 && !strings.HasSuffix(out.String(), "-"):
			out.WriteByte('-')
		}
		if out.Len() >= 40 {
			break
		}
	}
	return strings.Trim(out.String(), "-")
}

// unlike is a slug that nothing of the kind has yet.
func unlike(base, otherwise string, taken func(string) bool) string {
	if base == "" {
		base = otherwise
	}
	id := base
	for n := 2; taken(id); n++ {
		id = base + "-" + itoa(n)
	}
	return id
}
