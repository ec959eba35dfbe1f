package homecard

import (
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/language"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/unit"
)

// What is said by a name that stands in a table has its translations too.
func TestNamesOfTablesAreTranslated(t *testing.T) {
	var all []string
	for _, tool := range Kit() {
		all = append(all, tool.Name)
	}
	for _, s := range Sections() {
		all = append(all, s.Name)
	}
	for _, p := range partners {
		all = append(all, p.to.says)
	}
	for _, word := range append(slices.Clone(pieceWords), "") {
		all = append(all, sayPieces(word).one, sayPieces(word).more)
	}
	for _, f := range nutrition.FDA.Facts(nutrition.Amounts{}) {
		all = append(all, factName(f.Nutrient))
	}
	for _, thick := range []unit.Length{0, 2 * unit.Inch} {
		all = append(all, homeBagOf(kitchen.Pack{Thickness: thick}).Name)
	}
	all = append(all, FactsSource, finding.Note.String(), finding.Caution.String(), finding.Stop.String())
	for _, word := range all {
		if !language.Knows(word) {
			t.Errorf("%q has no translation", word)
		}
	}
}

// Nothing is said to be free of allergens in any language while a question is open.
func TestOpenAllergensInSpanish(t *testing.T) {
	a := ask(t, "ale-cheddar-lb", 4)
	a.In = language.SpanishOfTheUS
	ale := a.Book.Ingredients["ale"]
	ale.Allergens = kitchen.Allergens{}
	a.Book.Ingredients["ale"] = ale
	c, err := Make(t.Context(), a)
	if err != nil {
		t.Fatal(err)
	}
	if c.Contains != "" || len(c.Unanswered) != 1 {
		t.Errorf("contains %q, not answered %q", c.Contains, c.Unanswered)
	}
	i := slices.IndexFunc(c.Findings, func(f finding.Finding) bool { return f.Code == CodeAllergen })
	if i < 0 || !strings.HasPrefix(c.Findings[i].Message, "nadie ha contestado qué alérgenos tiene") {
		t.Errorf("%v", c.Findings)
	}
}

// Pieces by hand: 6 g of garlic are 2 cloves of 3 g, 225 g of onion one and a half of 150 g, which is singular in French alone.
func TestPiecesInWords(t *testing.T) {
	for _, c := range []struct {
		in    language.Language
		of    kitchen.IngredientID
		grams float64
		want  string
	}{
		{language.English, "onion", 225, "about 1 1/2 onions"}, {language.English, "garlic", 4.5, "about 1 1/2 cloves"},
		{language.Spanish, "garlic", 4.5, "aprox. 1 1/2 dientes"}, {language.French, "garlic", 4.5, "environ 1 1/2 gousse"},
		{language.French, "garlic", 6, "environ 2 gousses"}, {language.French, "garlic", 1.5, "environ 1/2 gousse"},
	} {
		a := ask(t, "bean-pot-2lb", 4)
		a.In = c.in
		if got := a.about(c.of, unit.MassKg(c.grams/1000)); got != c.want {
			t.Errorf("%v g of %s in %s: %q, want %q", c.grams, c.of, c.in, got, c.want)
		}
	}
}
