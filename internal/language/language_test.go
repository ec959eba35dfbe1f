package language

import (
	"errors"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// Numbers and dates by the CLDR (Unicode Common Locale Data Repository), as golang.org/x/text carries it; dates in words are common practice.
func TestByTheCustomsOfThePlace(t *testing.T) {
	for _, c := range []struct {
		in                        Language
		number, mass, spoons, day string
	}{
		{English, "12,345.5", "1.5 kg", "3 tbsp", "December 1, 2026"},
		{BritishEnglish, "12,345.5", "1.5 kg", "3 tbsp", "1 December 2026"},
		{SpanishOfTheUS, "12,345.5", "1.5 kg", "3 cda.", "1 de diciembre de 2026"},
		{Spanish, "12.345,5", "1,5 kg", "3 cda.", "1 de diciembre de 2026"},
		{French, "12 345,5", "1,5 kg", "3 c. à s.", "1er décembre 2026"},
		{FrenchOfCanada, "12 345,5", "1,5 kg", "3 c. à s.", "1er décembre 2026"},
	} {
		s := In(c.in)
		spaced := strings.NewReplacer("\u00a0", " ", "\u202f", " ") // between thousands: a space that does not break, narrow or not
		if got := spaced.Replace(s.Number(12345.5, 1)); got != c.number {
			t.Errorf("%s writes 12345.5 as %q, want %q", c.in, got, c.number)
		}
		if got := s.Measure("1.5 kg"); got != c.mass {
			t.Errorf("%s writes 1.5 kg as %q, want %q", c.in, got, c.mass)
		}
		if got := s.Measure("3 tbsp"); got != c.spoons {
			t.Errorf("%s writes 3 tbsp as %q, want %q", c.in, got, c.spoons)
		}
		if got := s.Day("2026-12-01"); got != c.day {
			t.Errorf("%s writes the day as %q, want %q", c.in, got, c.day)
		}
	}
	if got := In(French).Day("soon"); got != "soon" {
		t.Errorf("what is no day is said as %q", got)
	}
}

func TestMeasure(t *testing.T) {
	for shown, want := range map[string]string{
		"165 °F (73.9 °C)": "165 °F (73,9 °C)", "3 tbsp (45 g)": "3 c. à s. (45 g)", "1 lb 8 oz": "1 lb 8 oz", "2, 3 and 4": "2, 3 and 4",
		"12,000 kg": "12\u00a0000 kg", "1/2 cup": "1/2 tasse", "-0.5 °C": "-0,5 °C", "": "", "≤ 2.25 in": "≤ 2,25 po",
	} {
		if got := In(French).Measure(shown); got != want {
			t.Errorf("%q is %q, want %q", shown, got, want)
		}
	}
}

func TestMatch(t *testing.T) {
	for asked, want := range map[string]Language{
		"": English, "de": English, "es": Spanish, "es-MX,es;q=0.9": SpanishOfTheUS, "es-ES": Spanish, "fr-FR,fr;q=0.8,en;q=0.5": French,
		"fr-CA": FrenchOfCanada, "en-GB": BritishEnglish, "not a header;;": English,
	} {
		if got := Match(asked); got != want {
			t.Errorf("who asks for %q is spoken to in %s, want %s", asked, got, want)
		}
	}
}

func TestParse(t *testing.T) {
	for tag, want := range map[string]Language{"en": English, "ES-us": SpanishOfTheUS, "es": SpanishOfTheUS, "fr-fr": French} {
		if got, err := Parse(tag); err != nil || got != want {
			t.Errorf("%s is %s (%v), want %s", tag, got, err, want)
		}
	}
	_, err := Parse("klingon")
	if bad, ok := errors.AsType[*UnknownError](err); !ok || !strings.Contains(bad.Error(), "fr-CA") {
		t.Errorf("the error is %v", err)
	}
	if In("klingon").Language() != English || (Speaker{}).Language() != English {
		t.Error("who speaks nothing known does not speak English")
	}
}

func TestEachLanguageHasAName(t *testing.T) {
	for _, l := range Languages() {
		if l.Name() == "" {
			t.Errorf("%s has no name", l)
		}
	}
}

var verb = regexp.MustCompile(`%(?:\[(\d+)\])?[-+# 0]*\d*(?:\.\d+)?([a-zA-Z%])`)

var figure = regexp.MustCompile(`\{[A-Za-z]+\}`)

// verbs are the arguments of a sentence by number, each with its verb, and its figures in braces.
func verbs(sentence string) (all []string) {
	next := 1
	for _, m := range verb.FindAllStringSubmatch(sentence, -1) {
		if m[2] == "%" {
			continue
		}
		if m[1] != "" {
			next = int(m[1][0] - '0')
		}
		all = append(all, string(rune('0'+next))+m[2])
		next++
	}
	all = append(all, figure.FindAllString(sentence, -1)...)
	slices.Sort(all)
	return all
}

// A translation takes the same arguments as its sentence, and no cell is empty.
func TestCataloguesAreWhole(t *testing.T) {
	b := catalogue()
	for _, table := range []map[string]map[string]string{b.sentences, b.units} {
		for l, sentences := range table {
			for english, said := range sentences {
				if said == "" || strings.TrimSpace(said) != said {
					t.Errorf("%s: %q is said as %q", l, english, said)
				}
				if want, got := verbs(english), verbs(said); !slices.Equal(want, got) {
					t.Errorf("%s: %q takes %v, and %q takes %v", l, english, want, said, got)
				}
			}
		}
	}
	if !Knows("January") || Knows("no such sentence") {
		t.Error("it does not tell what is known from what is not")
	}
}

func TestOneSentenceTwoTranslations(t *testing.T) {
	head := "english,es,fr\n"
	_, err := read(fstest.MapFS{"data/a.csv": {Data: []byte(head + "lot,lote,lot\n")}, "data/b.csv": {Data: []byte(head + "lot,partida,lot\n")}})
	if err == nil || !strings.Contains(err.Error(), `"lote" in one catalogue and "partida"`) {
		t.Errorf("two translations of one sentence: %v", err)
	}
	if _, err := read(fstest.MapFS{"data/a.csv": {Data: []byte("english,es\nlot,lote\n")}}); err == nil {
		t.Error("a catalogue without French is taken")
	}
}

// English and Spanish say one for one alone and for parts of it; French for all below two, none among them. Common practice.
func TestSingle(t *testing.T) {
	for n, want := range map[float64][3]bool{0: {false, false, true}, 0.5: {true, true, true}, 1: {true, true, true}, 1.5: {false, false, true}, 2: {false, false, false}} {
		for i, l := range []Language{English, Spanish, French} {
			if got := In(l).Single(n); got != want[i] {
				t.Errorf("%v is single in %s: %v", n, l, got)
			}
		}
	}
}

func TestFill(t *testing.T) {
	if got, want := In(Spanish).Fill("{day} and {night}", map[string]string{"day": "{night}", "night": "9"}), "{night} and 9"; got != want {
		t.Errorf("filled it is %q, want %q: what was put in is not looked at again", got, want)
	}
}

func TestSayWhatIsNotKnown(t *testing.T) {
	if got := In(French).Say("%s of nothing known", "2 lb"); got != "2 lb of nothing known" {
		t.Errorf("said %q", got)
	}
}
