package find

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// longest is how many bytes of a word count: beginnings of that length are one word.
const longest = 64

// letters that are no letter with an accent, as they are typed where they are not on the keys.
var unligatured = strings.NewReplacer("ß", "ss", "œ", "oe", "æ", "ae", "ø", "o", "ł", "l", "đ", "d", "ð", "d", "þ", "th", "ı", "i", "'", "", "’", "", "ʼ", "")

// fold writes a text in small letters without accents; wide letters and ligatures of typesetting are taken apart.
func fold(text string) string {
	text = strings.ToLower(text)
	if strings.IndexFunc(text, func(r rune) bool { return r >= 0x80 }) >= 0 {
		text = strings.Map(func(r rune) rune {
			if unicode.Is(unicode.Mn, r) {
				return -1
			}
			return r
		}, norm.NFKD.String(strings.ToValidUTF8(text, " ")))
		text = strings.ToLower(text)
	}
	return unligatured.Replace(text)
}

// chunk is what stands between spaces, taken apart where letters, numbers and signs change: P-1201-3#17 is p, 1201, 3 and 17.
type chunk struct {
	parts    []string
	numbered bool // it is the sign # and a number
}

// chunks are those of a text.
func chunks(text string) []chunk {
	var all []chunk
	for word := range strings.FieldsFuncSeq(fold(text), func(r rune) bool { return !isWordly(r) && !strings.ContainsRune("-–./:#_", r) }) {
		if parts := partsOf(word); len(parts) > 0 {
			sign, isNumber := strings.CutPrefix(word, "#")
			all = append(all, chunk{parts, isNumber && len(parts) == 1 && sign == parts[0] && isNumeral(sign)})
		}
	}
	return all
}

func partsOf(word string) []string {
	var parts []string
	from, last := -1, rune(0)
	for i, r := range word {
		switch in := isWordly(r); {
		case from < 0 && in:
			from = i
		case from >= 0 && !in:
			parts, from = append(parts, word[from:i]), -1
		case from >= 0 && isDigit(r) != isDigit(last):
			parts, from = append(parts, word[from:i]), i
		}
		last = r
	}
	if from >= 0 {
		parts = append(parts, word[from:])
	}
	return parts
}

// isWordly says whether a sign is part of a word.
func isWordly(r rune) bool { return unicode.IsLetter(r) || unicode.IsNumber(r) }

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

func isNumeral(word string) bool { return word != "" && strings.Trim(word, "0123456789") == "" }

// isCode says whether the parts are one thing: there is a number among them.
func (c chunk) isCode() bool { return slices.ContainsFunc(c.parts, isNumeral) }

// joined is the parts as one word: a stroke stands between two numbers alone, so that P-11-2 is not P-1-12.
func joined(parts []string) string {
	var b strings.Builder
	for i, p := range dated(parts) {
		if b.Len() > longest {
			break
		}
		if i > 0 && isNumeral(p) && isNumeral(parts[i-1]) {
			b.WriteByte('-')
		}
		b.WriteString(p)
	}
	return cut(b.String())
}

// dated writes a day with all its zeros: 2026-12-1 is 2026-12-01.
func dated(parts []string) []string {
	if !isDate(parts, 0) {
		return parts
	}
	return []string{parts[0], twoDigits(parts[1]), twoDigits(parts[2])}
}

// isDate says whether three numbers can be a day with the year at a place.
func isDate(parts []string, year int) bool {
	if len(parts) != 3 {
		return false
	}
	for i, p := range parts {
		if !isNumeral(p) || i == year && len(p) != 4 || i != year && len(p) > 2 {
			return false
		}
	}
	return true
}

func twoDigits(n string) string { return ("0" + n)[len(n)-1:] }

// cut is the beginning of a word that counts.
func cut(word string) string {
	if len(word) <= longest {
		return word
	}
	return strings.ToValidUTF8(word[:longest], "")
}

// number is a number as it is after the sign: #017 is #17.
func number(numeral string) string {
	if bare := strings.TrimLeft(numeral, "0"); bare != "" {
		return cut("#" + bare)
	}
	return "#0"
}

// indexed are the words by which a text is found: of codes, all that follows each part.
func indexed(text string) []string {
	var words []string
	for _, c := range chunks(text) {
		if !c.isCode() {
			for _, p := range c.parts {
				words = append(words, cut(p))
			}
			continue
		}
		for i, p := range c.parts {
			words = append(words, joined(c.parts[i:]))
			if !isNumeral(p) && i < len(c.parts)-1 {
				words = append(words, cut(p))
			}
		}
		if c.numbered {
			words = append(words, number(c.parts[0]))
		}
	}
	return words
}

// called is a text as it is compared whole.
func called(text string) string {
	var words []string
	for _, c := range chunks(text) {
		words = append(words, joined(c.parts))
	}
	return strings.Join(words, " ")
}
