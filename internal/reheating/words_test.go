package reheating

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"kettlefrost/internal/language"
	"kettlefrost/internal/unit"
)

var update = flag.Bool("update", false, "write the golden files")

// cards are one of each kind.
func cards(t *testing.T) map[string]Card {
	thin := bag(soup)
	thin.ThicknessM = 0.018
	inch := bag(braise)
	thick := bag(soup)
	thick.ThicknessM = 0.045
	fish := thin
	fish.Fish, fish.ThawedKeepDays = true, 2
	uneven := thin
	uneven.ThinM, uneven.ThickM = 0.008, 0.024
	measured := Evaluate(microwave(t), []Trial{good(8), good(9), good(8.5)})
	return map[string]Card{
		"thin":       must(Make(thin, Water{}, Options{Measured: []Evaluation{measured}}))(t),
		"inch":       must(Make(inch, Water{LitresPerBag: 2.5, Bags: 4, NetPowerW: 2500}, Options{LimitS: 40 * 60}))(t),
		"thick":      must(Make(thick, Water{}, Options{}))(t),
		"fish":       must(Make(fish, Water{}, Options{}))(t),
		"fish-thick": must(Make(Bag{Food: braise, MassKg: 1, ThicknessM: 0.05, Fish: true}, Water{}, Options{}))(t),
		"uneven":     must(Make(uneven, Water{}, Options{}))(t),
		"small-pot":  must(Make(thin, Water{LitresPerBag: 0.5, Bags: 6, NetPowerW: 800}, Options{}))(t),
		"mountain":   must(Make(thin, Water{TempC: 76}, Options{}))(t),
	}
}

func TestCardsInWords(t *testing.T) {
	for name, card := range cards(t) {
		var b strings.Builder
		for _, s := range []unit.System{unit.US, unit.Metric} {
			fmt.Fprintf(&b, "== %s: frozen %s, thawed %s\n", s, card.Frozen.Verdict, card.Thawed.Verdict)
			for _, l := range card.Lines() {
				fmt.Fprintf(&b, "%s: %s\n", l.Section, l.English(s))
			}
		}
		golden(t, name, b.String())
	}
}

func TestThawingAndFormInWords(t *testing.T) {
	var b strings.Builder
	fish := bag(soup)
	fish.Fish = true
	lines := must(ThawIn(bag(soup), ThawPlace{}))(t).Lines()
	lines = append(lines, must(ThawIn(fish, ThawPlace{Water: true}))(t).Lines()...)
	for _, l := range append(lines, microwave(t).Rules...) {
		fmt.Fprintf(&b, "%s: %s\n", l.Section, l.English(unit.US))
	}
	golden(t, "thawing-and-form", b.String())
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name+".txt")
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s: got\n%s\nwant\n%s", file, got, want)
	}
}

// Reassuring words that no figure carries.
var reassuring = regexp.MustCompile(`(?i)\b(safe|safely|fine|ok|okay|guarantee|guaranteed|certain|always|sure)\b`)

func TestEverySentence(t *testing.T) {
	for code, text := range sentences {
		if reassuring.MatchString(text) {
			t.Errorf("%s promises: %q", code, text)
		}
		if !strings.HasSuffix(text, ".") {
			t.Errorf("%s is no sentence: %q", code, text)
		}
	}
}

// What the reference asks of a printed card (section 5 of its food-safety part), whatever the verdict.
func TestEveryCardHasItsCautions(t *testing.T) {
	for name, card := range cards(t) {
		has := map[Code]bool{}
		for _, l := range card.Lines() {
			has[l.Code] = true
			checkLine(t, name, l)
		}
		for _, code := range []Code{CheckMiddle, KeepFrozen, ThawCold, Discard, OnlyOnce} {
			if !has[code] {
				t.Errorf("%s: no line %s", name, code)
			}
		}
		inBag := card.FrozenMinutes() > 0 || card.ThawedMinutes() > 0
		if has[StepFrozen] != (card.FrozenMinutes() > 0) || has[StepThawed] != (card.ThawedMinutes() > 0) {
			t.Errorf("%s: minutes %d and %d do not match its lines", name, card.FrozenMinutes(), card.ThawedMinutes())
		}
		if (has[StepCrowd] || has[StepApart]) != inBag {
			t.Errorf("%s: crowding is not spoken of, or for no pot", name)
		}
		for _, code := range []Code{NoHardBoil, OffBottom, StepTurn, StepCut, CheckDecides} {
			if has[code] != inBag {
				t.Errorf("%s: line %s is there: %v, heated in the bag: %v", name, code, has[code], inBag)
			}
		}
		if has[StepPot] == inBag || has[StepBoil] == inBag {
			t.Errorf("%s: pot and bag at once, or neither", name)
		}
		if has[OpenFish] != card.Bag.Fish || card.Bag.Fish && has[StepThawed] {
			t.Errorf("%s: fish %v is not handled", name, card.Bag.Fish)
		}
	}
}

// checkLine: a line is known, and nothing in it is left open.
func checkLine(t *testing.T, name string, l Line) {
	t.Helper()
	for _, s := range []unit.System{unit.US, unit.Metric} {
		text := l.English(s)
		if text == "" || strings.ContainsAny(text, "{}") || strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
			t.Errorf("%s: line %s reads %q", name, l.Code, text)
		}
	}
}

func TestEverySentenceIsTranslated(t *testing.T) {
	for code, sentence := range sentences {
		if !language.Knows(sentence) {
			t.Errorf("%s has no translation: %s", code, sentence)
		}
	}
}

func TestACardInOtherLanguages(t *testing.T) {
	for _, in := range []language.Language{language.SpanishOfTheUS, language.French} {
		var b strings.Builder
		for _, l := range cards(t)["inch"].Lines() {
			fmt.Fprintf(&b, "%s: %s\n", l.Section, l.In(language.In(in), unit.US))
		}
		golden(t, "inch-"+string(in), b.String())
	}
}
