package foodtable

import (
	"strings"
	"unicode"
)

// unaccented writes the accented letters of kitchen words plainly.
var unaccented = strings.NewReplacer(
	"à", "a", "á", "a", "â", "a", "ä", "a", "ç", "c", "è", "e", "é", "e", "ê", "e", "ë", "e", "í", "i", "î", "i", "ï", "i",
	"ñ", "n", "ó", "o", "ô", "o", "ö", "o", "ù", "u", "ú", "u", "û", "u", "ü", "u", "œ", "oe", "’", "", "'", "",
)

// wordsOf are the words of a text, in order, folded so that what a cook takes for the same word is the same: small letters, no
// accents, singular. Words that tell nothing ("of", "with") are left out. Numbers are words ("80", "3.25").
func wordsOf(text string) []string {
	text = unaccented.Replace(strings.ToLower(text))
	fields := strings.FieldsFunc(text, func(r rune) bool { return r != '.' && !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	words := make([]string, 0, len(fields))
	for _, w := range fields {
		if w = strings.Trim(w, "."); w != "" && !isFiller(w) {
			words = append(words, singular(w))
		}
	}
	return words
}

func isFiller(w string) bool {
	switch w {
	case "a", "an", "and", "for", "from", "in", "of", "on", "or", "the", "to", "with":
		return true
	}
	return false
}

// singular takes the plural ending off an English word. It need not be right, only the same for query and table; what matters is
// that it never makes one word of two foods.
func singular(w string) string {
	switch w {
	case "leaves":
		return "leaf"
	case "halves":
		return "half"
	case "loaves":
		return "loaf"
	case "dried": // dried beans and dry beans are the same beans
		return "dry"
	}
	if len(w) < 4 || !strings.HasSuffix(w, "s") {
		return w
	}
	for _, keep := range []string{"ss", "us", "is"} {
		if strings.HasSuffix(w, keep) {
			return w
		}
	}
	if stem, ok := strings.CutSuffix(w, "ies"); ok && len(stem) > 2 {
		return stem + "y"
	}
	for _, ending := range []string{"oes", "shes", "ches", "sses", "xes"} {
		if strings.HasSuffix(w, ending) {
			return strings.TrimSuffix(w, "es")
		}
	}
	return strings.TrimSuffix(w, "s")
}

// alsoCalled is the table's word for a word that cooks elsewhere use, "" when there is none.
func alsoCalled(w string) string {
	switch w {
	case "aubergine":
		return "eggplant"
	case "beetroot":
		return "beet"
	case "capsicum":
		return "pepper"
	case "courgette":
		return "zucchini"
	case "groundnut":
		return "peanut"
	case "linseed":
		return "flaxseed"
	case "maize":
		return "corn"
	case "mince", "minced":
		return "ground"
	case "prawn":
		return "shrimp"
	case "rapeseed":
		return "canola"
	case "swede":
		return "rutabaga"
	case "tinned":
		return "canned"
	case "veg", "veggie":
		return "vegetable"
	}
	return ""
}

// slips is how many slips of the pen a word of n letters may hold and still be recognised.
func slips(n int) int {
	switch {
	case n < 4:
		return 0
	case n < 8:
		return 1
	default:
		return 2
	}
}
