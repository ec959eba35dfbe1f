package homemeasure

import (
	"slices"
	"strings"
)

// read takes the whole line apart, and settles it.
func (r *reader) read() string {
	if problem := r.front(); problem != "" {
		return problem
	}
	r.at.each = r.at.low != nil && r.take("each")
	rest := r.brackets(r.rest())
	rest, loose := cutPhrases(rest)
	r.words(rest)
	if problem := r.settle(); problem != "" {
		return problem
	}
	r.ask(loose)
	return ""
}

// brackets takes what stands in brackets out of a text.
func (r *reader) brackets(text string) string {
	for {
		open := strings.IndexByte(text, '(')
		if open < 0 {
			return text
		}
		inner, after, _ := strings.Cut(text[open+1:], ")")
		if inner = strings.TrimSpace(inner); strings.EqualFold(inner, "optional") {
			r.line.Optional = true
		} else if inner != "" {
			r.line.Notes = append(r.line.Notes, inner)
		}
		text = strings.TrimSpace(text[:open]) + " " + strings.TrimSpace(after)
	}
}

// loosePhrases say that the amount is left to whoever cooks. The longer stand before those they hold.
var loosePhrases = []string{"plus more to taste", "plus extra to taste", "or more to taste", "and more to taste", "or to taste", "to taste", "plus more as needed", "or as needed",
	"as needed", "as required", "as desired", "if needed", "plus more for serving", "plus extra for serving", "plus more", "plus extra", "or more"}

// usePhrases say what it is for; they belong to what is said of it.
var usePhrases = []string{"for serving", "to serve", "for garnish", "to garnish", "for frying", "for greasing", "for dusting", "for sprinkling", "for brushing", "for drizzling", "for the pan"}

// cutPhrases takes loose phrases out of a text and says whether there was one.
func cutPhrases(text string) (rest string, loose bool) {
	for _, p := range loosePhrases {
		if i := indexFold(text, p); i >= 0 {
			text, loose = strings.TrimRight(text[:i], " ,;-")+text[i+len(p):], true
		}
	}
	return text, loose
}

// indexFold is where a phrase of small letters stands in a text as words of their own, whatever the letters' case; -1 if nowhere.
func indexFold(text, phrase string) int {
	for i := 0; i+len(phrase) <= len(text); i++ {
		if !strings.EqualFold(text[i:i+len(phrase)], phrase) || i > 0 && letterAt(text, i-1) || letterAt(text, i+len(phrase)) {
			continue
		}
		return i
	}
	return -1
}

// described are words before a comma that are not yet what it is: "boneless, skinless chicken thighs".
var described = strings.Fields("boneless skinless bone-in skin-on fresh dried ripe raw cooked frozen unsalted salted lean low-sodium sweet hot whole canned organic large small medium thick thin sharp mild firm")

// words are what is left: what it is, what is said of it, and what may be taken instead.
func (r *reader) words(rest string) {
	rest = strings.TrimSpace(rest)
	if rest2, ok := cutFold(rest, "optional"); ok {
		rest, r.line.Optional = rest2, true
	}
	at := comma(rest, 0)
	for at >= 0 && isDescribed(rest[:at]) {
		next := comma(rest, at+1)
		if next < 0 && !strings.ContainsAny(rest[at+1:], " ") {
			break
		}
		at = next
	}
	what, prep := rest, ""
	if at >= 0 {
		what, prep = rest[:at], rest[at+1:]
	} else if a, b, ok := strings.Cut(rest, " - "); ok {
		what, prep = a, b
	}
	if i := indexFold(what, "or"); i > 0 {
		r.line.Other = trimmed(what[i+2:])
		what = what[:i]
	}
	for _, p := range usePhrases {
		if i := indexFold(what, p); i > 0 {
			what, prep = what[:i], strings.Trim(what[i:]+"; "+prep, "; ")
		}
	}
	r.line.Words, r.line.Prep = trimmed(what), trimmed(prep)
	if r.at.part != "" {
		r.line.Prep = strings.Trim(r.at.part+" of; "+r.line.Prep, "; ")
	}
}

// cutFold takes a last word off.
func cutFold(text, word string) (string, bool) {
	i := len(text) - len(word)
	if i < 0 || !strings.EqualFold(text[i:], word) || letterAt(text, i-1) {
		return text, false
	}
	return strings.TrimRight(text[:i], " ,;-"), true
}

// comma is the first one from a place on that is not within a number; -1 if there is none.
func comma(text string, from int) int {
	for i := from; i < len(text); i++ {
		if text[i] == ',' && !digit(text, i+1) {
			return i
		}
	}
	return -1
}

func isDescribed(text string) bool {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == ',' })
	return len(words) > 0 && !slices.ContainsFunc(words, func(w string) bool { return !slices.Contains(described, w) })
}

func trimmed(text string) string {
	return strings.Trim(strings.Join(strings.Fields(text), " "), " ,;:.*-")
}
