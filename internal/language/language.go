// Package language says what is printed for people in their language: sentences from catalogues, numbers, measures and dates by the customs
// of the place.
//
// The English sentence is its own key, so that code reads as what it prints. Catalogues are the CSV files in data, one for each area, with
// the columns english, es and fr; verbs of package fmt in a sentence stand in its translations too, numbered (%[2]s) where their order
// differs. What no catalogue has is said in English and never left out; a test keeps that from happening to any sentence in the code.
package language

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	xlanguage "golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"
)

// Language is one that is spoken here, as a tag of BCP 47.
type Language string

// Languages that are spoken. Spanish of the United States writes numbers with a point.
const (
	English         Language = "en-US"
	BritishEnglish  Language = "en-GB"
	Spanish         Language = "es-ES"
	SpanishOfTheUS  Language = "es-US"
	French          Language = "fr-FR"
	FrenchOfCanada  Language = "fr-CA"
	defaultLanguage          = English
)

// all is in the order in which they are offered; the first is spoken where nothing fits.
var all = []Language{English, SpanishOfTheUS, FrenchOfCanada, BritishEnglish, Spanish, French}

// Languages are those that are spoken, English first.
func Languages() []Language { return append([]Language(nil), all...) }

// Name is what a language is called in itself.
func (l Language) Name() string {
	return map[Language]string{
		English: "English", BritishEnglish: "English (UK)", SpanishOfTheUS: "Español (EE. UU.)", Spanish: "Español",
		FrenchOfCanada: "Français (Canada)", French: "Français",
	}[l]
}

// Base is the language without its place: the column of the catalogues.
func (l Language) Base() string {
	base, _, _ := strings.Cut(string(l), "-")
	return base
}

var matcher = func() xlanguage.Matcher {
	tags := make([]xlanguage.Tag, len(all))
	for i, l := range all {
		tags[i] = xlanguage.MustParse(string(l))
	}
	return xlanguage.NewMatcher(tags)
}()

// Match is the language that fits best what is asked for, as in the header Accept-Language; English when none does or nothing is asked.
func Match(asked string) Language {
	tags, _, err := xlanguage.ParseAcceptLanguage(asked)
	if err != nil || len(tags) == 0 {
		return defaultLanguage
	}
	_, at, sure := matcher.Match(tags...)
	if sure == xlanguage.No {
		return defaultLanguage
	}
	return all[at]
}

// UnknownError is a language that is not spoken here.
type UnknownError struct{ Asked string }

func (e *UnknownError) Error() string {
	return fmt.Sprintf("no language is called %.40q here: use one of %v", e.Asked, all)
}

// Parse is the language of a tag, whatever its case; a tag without a place is that of the first that has it. The error is an *UnknownError.
func Parse(tag string) (Language, error) {
	for _, l := range all {
		if strings.EqualFold(tag, string(l)) || strings.EqualFold(tag, l.Base()) {
			return l, nil
		}
	}
	return "", &UnknownError{tag}
}

// Speaker speaks one language. The zero Speaker speaks English.
type Speaker struct{ of Language }

// In is a speaker of a language; of English for one that is not spoken.
func In(l Language) Speaker {
	if _, err := Parse(string(l)); err != nil {
		l = defaultLanguage
	}
	return Speaker{l}
}

// Language is what is spoken.
func (s Speaker) Language() Language {
	if s.of == "" {
		return defaultLanguage
	}
	return s.of
}

// Say is a sentence with its arguments, as fmt.Sprintf writes them. Arguments are texts that are ready to be read.
func (s Speaker) Say(english string, args ...any) string {
	sentence := catalogue().translate(english, s.Language().Base())
	if len(args) == 0 {
		return sentence
	}
	return fmt.Sprintf(sentence, args...)
}

// Fill is a sentence with figures in braces, as in "Heat it for {minutes}."; figures by their names, ready to be read.
func (s Speaker) Fill(english string, figures map[string]string) string {
	pairs := make([]string, 0, 2*len(figures))
	for name, text := range figures {
		pairs = append(pairs, "{"+name+"}", text)
	}
	return strings.NewReplacer(pairs...).Replace(s.Say(english))
}

// Single tells whether so many take the singular: up to one, and in French whatever is below two; none only in French.
func (s Speaker) Single(n float64) bool {
	if s.Language().Base() == "fr" {
		return n >= 0 && n < 2 // 0 paquet, 1 1/2 paquet
	}
	return n > 0 && n <= 1
}

// Plural is one sentence for 1 and another for any other number; the number is the first argument of both, as %s.
func (s Speaker) Plural(n int64, one, more string, args ...any) string {
	sentence := more
	if s.Single(float64(n)) {
		sentence = one
	}
	return s.Say(sentence, append([]any{s.Number(float64(n), 0)}, args...)...)
}

func (s Speaker) printer() *message.Printer {
	return message.NewPrinter(xlanguage.MustParse(string(s.Language())))
}

// Number is a number with so many places at most, as people there write it.
func (s Speaker) Number(x float64, places int) string {
	return s.printer().Sprint(number.Decimal(x, number.MaxFractionDigits(places)))
}

// numerals are numbers within what package unit shows.
var numerals = regexp.MustCompile(`[0-9][0-9,]*(\.[0-9]+)?`)

// Measure is a quantity as package unit shows it ("1.5 kg", "3 tbsp (45 g)"), with the signs in numbers and the words for units of the place.
// Symbols of the SI and of the pound and ounce stay.
func (s Speaker) Measure(shown string) string {
	if s.Language() == English || s.Language() == BritishEnglish {
		return shown
	}
	words := strings.Split(shown, " ")
	for i, w := range words {
		bare := strings.Trim(w, "(),;")
		if said, ok := catalogue().unit(bare, s.Language().Base()); ok {
			words[i] = strings.Replace(w, bare, said, 1)
		}
	}
	point, thousands := s.point(), s.thousands()
	return numerals.ReplaceAllStringFunc(strings.Join(words, " "), func(n string) string {
		whole, part, has := strings.Cut(n, ".")
		n = strings.ReplaceAll(strings.TrimRight(whole, ","), ",", thousands) + whole[len(strings.TrimRight(whole, ",")):]
		if has {
			n += point + part
		}
		return n
	})
}

// point and thousands are what the place puts before tenths and between thousands: read off a number that has both.
func (s Speaker) point() string {
	return s.sign(func(r rune) bool { return r != '5' && r != '1' }, s.Number(1.5, 1))
}
func (s Speaker) thousands() string {
	return s.sign(func(r rune) bool { return r < '0' || r > '9' }, s.Number(12345, 0))
}

func (s Speaker) sign(is func(rune) bool, in string) string {
	if i := strings.IndexFunc(in, is); i >= 0 {
		return string([]rune(in[i:])[0])
	}
	return ""
}

// Day is a date such as 2026-12-01, as people there write it with the month in letters; as it is when it is none.
func (s Speaker) Day(day string) string {
	t, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return day
	}
	month := s.Say(t.Month().String())
	switch s.Language() {
	case English:
		return fmt.Sprintf("%s %d, %d", month, t.Day(), t.Year())
	case Spanish, SpanishOfTheUS:
		return fmt.Sprintf("%d de %s de %d", t.Day(), month, t.Year())
	case French, FrenchOfCanada:
		if t.Day() == 1 {
			return fmt.Sprintf("1er %s %d", month, t.Year())
		}
	}
	return fmt.Sprintf("%d %s %d", t.Day(), month, t.Year())
}
