package homepaper

import (
	"encoding/csv"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"kettlefrost/internal/homecard"
	"kettlefrost/internal/language"
	"kettlefrost/internal/pdf"
)

// speaks holds a card to the English one of the same dish: it gives the same figures, and nothing that the program says is English on it.
func speaks(t *testing.T, english, other homecard.Card) {
	t.Helper()
	for what, of := range map[string]func(homecard.Card) string{"page": pageText, "text": Text} {
		for figure, n := range figuresOf(of(english), english.Language) {
			if got := figuresOf(of(other), other.Language)[figure]; got < n {
				t.Errorf("%s of %s for %d in %s: %v stands there %d times, in English %d", what, other.Pack, other.People, other.Language, figure, got, n)
			}
		}
		theirs := withoutBook(of(other), other)
		for _, key := range englishPieces(t) {
			if strings.Contains(theirs, key) {
				t.Errorf("%s of %s for %d in %s still says %q", what, other.Pack, other.People, other.Language, key)
			}
		}
		for line := range strings.Lines(withoutBook(of(english), english)) {
			if len(words.FindAllString(line, -1)) > 1 && strings.Contains(theirs, line) {
				t.Errorf("%s of %s for %d in %s says the same as in English: %q", what, other.Pack, other.People, other.Language, line)
			}
		}
	}
}

// words are those of sentences: no symbols of units.
var words = regexp.MustCompile(`[a-z]{3,}`)

// pageText is all that stands on the page, a line for each piece.
func pageText(c homecard.Card) string {
	doc := Document(c, pdf.Letter, 0)
	all := []string{doc.Title, doc.Subject, doc.Foot}
	for _, b := range doc.Blocks {
		switch b := b.(type) {
		case pdf.Title:
			all = append(all, b.Text, b.Below)
		case pdf.Columns:
			for _, p := range slices.Concat(b.Left, b.Right) {
				all = append(all, p.Name)
				for _, i := range p.Items {
					all = append(all, i.Mark, i.Text, i.Small)
				}
			}
		}
	}
	return strings.Join(all, "\n") + "\n"
}

// withoutBook is a text without what the book calls things and how it says its steps, and without the name of a code that has no other.
func withoutBook(text string, c homecard.Card) string {
	names := []string{c.Name, c.Kitchen, "FDA Food Code"}
	for _, s := range c.Steps {
		names = append(names, strings.TrimSpace(s.Do+" "+s.How), s.Do)
	}
	for _, x := range c.Items {
		names = append(names, x.Name)
	}
	slices.SortFunc(names, func(a, b string) int { return len(b) - len(a) })
	for _, n := range names {
		text = strings.ReplaceAll(text, n, "·")
	}
	return text
}

var numeral = regexp.MustCompile(`[0-9]+([.,\x{a0}\x{202f}][0-9]+)*`)

// figuresOf counts the numbers in a text, read by the customs of the place: what stands before three digits and parts thousands there is left out.
func figuresOf(text string, in language.Language) map[float64]int {
	thousands := map[language.Language]string{language.Spanish: ".", language.French: "\u202f\u00a0"}[in]
	if thousands == "" {
		thousands = ","
	}
	all := map[float64]int{}
	for _, n := range numeral.FindAllString(text, -1) {
		for _, sign := range thousands {
			n = regexp.MustCompile(regexp.QuoteMeta(string(sign))+`([0-9]{3})`).ReplaceAllString(n, "$1")
		}
		x, err := strconv.ParseFloat(strings.ReplaceAll(n, ",", "."), 64)
		if err == nil {
			all[x]++
		}
	}
	return all
}

var gaps = regexp.MustCompile(`%(\[\d+\])?[sd%]|\{[A-Za-z]+\}`)

// englishPieces is what stands between the figures of each sentence of the catalogue, where it is long enough to be known for English, and its
// translations do not say the same.
func englishPieces(t *testing.T) (all []string) {
	t.Helper()
	for _, row := range catalogue(t) {
		for _, piece := range gaps.Split(row[0], -1) {
			if len(piece) > 8 && strings.Contains(strings.TrimSpace(piece), " ") && !strings.Contains(row[1]+row[2], piece) {
				all = append(all, piece)
			}
		}
	}
	if len(all) < 60 {
		t.Fatalf("only %d pieces of English sentences", len(all))
	}
	return all
}

// catalogue is the sentences of a home card in English, Spanish and French.
func catalogue(t *testing.T) [][]string {
	t.Helper()
	f, err := os.Open("../language/data/homecard.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

// No sentence loses or changes a figure in another language, whether a dish of the demo has it or not.
func TestSentencesKeepTheirFigures(t *testing.T) {
	for _, row := range catalogue(t) {
		want := numeral.FindAllString(row[0], -1)
		for _, said := range row[1:] {
			if got := numeral.FindAllString(said, -1); !slices.Equal(slices.Sorted(slices.Values(got)), slices.Sorted(slices.Values(want))) {
				t.Errorf("%q has the figures %v, %q has %v", row[0], want, said, got)
			}
		}
	}
}

// By hand: what a place puts before tenths and between thousands.
func TestFiguresAreRead(t *testing.T) {
	for text, in := range map[string]language.Language{"1,5 kg y 12.345": language.Spanish, "1,5 kg et 12\u00a0345": language.French, "1.5 kg and 12,345": language.English} {
		if got := figuresOf(text, in); got[1.5] != 1 || got[12345] != 1 || len(got) != 2 {
			t.Errorf("%q: %v", text, got)
		}
	}
}
