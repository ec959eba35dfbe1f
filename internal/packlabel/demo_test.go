package packlabel_test

import (
	"slices"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/language"
	"kettlefrost/internal/netdeclare"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// Every pack of the demo prints, or says what is missing, where to answer it and what to do; in every language and both markets.
func TestThePacksOfTheDemo(t *testing.T) {
	b := bookfile.Read(demo.Book()).Book
	run := plan.Make(t.Context(), b, foods(t), b.Runs["kettle"])
	small := labelrule.Business{Staff: 3, YearlyUnits: 5000, YearlyPounds: 9000}
	printed := 0
	for id := range b.Packs {
		for _, regime := range []kitchen.LabelRegime{kitchen.USLabels, kitchen.EULabels} {
			for _, in := range []language.Language{language.English, language.SpanishOfTheUS, language.French} {
				for _, business := range []labelrule.Business{{}, small} {
					a := packlabel.Asked{Book: b, Foods: foods(t), Plan: run, Pack: id, Regime: regime, Language: in, Business: business, Lot: packlabel.Lot{Code: "L-0917", Packed: "2026-12-03"}}
					if made(t, a).Withheld() {
						missing(t, string(id)+", "+string(regime)+", "+string(in), made(t, a))
					} else {
						printed++
						whole(t, string(id)+", "+string(regime)+", "+string(in), made(t, a))
					}
				}
			}
		}
	}
	if printed < 7*3 { // a business so small may leave the panel out
		t.Errorf("%d labels are printed", printed)
	}
}

// missing holds a label that is withheld to saying why.
func missing(t *testing.T, name string, l packlabel.Label) {
	t.Helper()
	if len(l.Sides) > 0 || l.Open.Worst() != finding.Stop {
		t.Errorf("%s: it is withheld and printed", name)
	}
	for _, f := range l.Open {
		if f.Fix == "" || f.Message == "" || f.Severity == finding.Stop && f.Path == "" && !strings.HasPrefix(f.Code, "us-") && !strings.HasPrefix(f.Code, "eu-") && f.Code != labelmaker.CodeDoesNotFit {
			t.Errorf("%s: %s at %q: do %q", name, f, f.Path, f.Fix)
		}
	}
}

// whole holds a label that is printed to having all of it on its sides.
func whole(t *testing.T, name string, l packlabel.Label) {
	t.Helper()
	if len(l.Sides) == 0 || l.Hash == "" {
		t.Fatalf("%s: neither withheld nor printed", name)
	}
	elements := map[labelmaker.Element]bool{}
	for _, side := range l.Sides {
		if side.Laid.Empty() {
			t.Errorf("%s: a side is empty", name)
		}
		for _, mark := range side.Laid.Marks {
			elements[mark.Element] = true
		}
	}
	for _, e := range []labelmaker.Element{labelmaker.Identity, labelmaker.KeepFrozen, labelmaker.NetQuantity, labelmaker.Ingredients, labelmaker.Firm, labelmaker.Dates, labelmaker.Lot} {
		if !elements[e] {
			t.Errorf("%s: %v does not stand on it", name, e)
		}
	}
	list, _ := text(l.Content.Ingredients)
	contains, _ := text(l.Content.Contains)
	for e, want := range map[labelmaker.Element]string{labelmaker.Ingredients: list, labelmaker.Contains: contains, labelmaker.Identity: l.Name, labelmaker.NetQuantity: strings.Join(l.Content.Net, ""),
		labelmaker.Firm: strings.Join(l.Content.Firm, ""), labelmaker.Heating: strings.Join(l.Content.Heating, ""), labelmaker.Caution: strings.Join(l.Content.Cautions, "")} {
		if got := inked(l, e); got != bare(want) {
			t.Errorf("%s: of %v stands on it %q, want %q", name, e, got, want)
		}
	}
}

// inked is what stands on a label of an element, without the spaces between words.
func inked(l packlabel.Label, e labelmaker.Element) string {
	all := ""
	for _, side := range l.Sides {
		for _, mark := range side.Laid.Marks {
			if mark.Element == e {
				all += mark.Text
			}
		}
	}
	return bare(all)
}

func bare(text string) string {
	return strings.NewReplacer(" ", "", "\u00a0", "", "\u202f", "").Replace(text)
}

// A label of a run is that of its pot: the figures of the kettle, not those of the recipe.
func TestALabelIsOfItsRun(t *testing.T) {
	b := bookfile.Read(demo.Book()).Book
	a := packlabel.Asked{Book: b, Foods: foods(t), Pack: "lentil-squash-2lb"}
	written := made(t, a)
	a.Plan = plan.Make(t.Context(), b, foods(t), b.Runs["kettle"])
	run := made(t, a)
	if !run.Planned || written.Planned || has(written.Advice, packlabel.CodeAsWritten) == nil || has(run.Advice, packlabel.CodeAsWritten) != nil {
		t.Error("where the figures are from is not told")
	}
	if got, put := run.Statement.Items[0].Mass, written.Statement.Items[0].Mass; run.Statement.Items[0].Name != "water" || got >= put {
		t.Errorf("a full kettle loses a smaller share of its water than a pot: %v was put in for a pack of the kettle, %v as written", got, put)
	}
}

// The sizes that a label is held to are those of the rules, whoever keeps a table of them.
func TestLeastSizesAreThoseOfTheRules(t *testing.T) {
	for _, area := range []float64{4, 5, 20, 25, 48, 100, 101, 500} {
		want, err := netdeclare.USHeight(area, false)
		if got := labelmaker.US(area).Least[labelmaker.NetQuantity].LetterMm; err != nil || got-want.Least.M()*1000 > 1e-9 || want.Least.M()*1000-got > 1e-9 {
			t.Errorf("%v sq in: the layout asks for %v mm, the rule for %v", area, got, want.Least)
		}
	}
	l := made(t, asked(t, lentilSoup()))
	for _, s := range nutrition.TypeSizes() {
		e, is := map[string]labelmaker.Element{"servings per container": labelmaker.PanelServings, "serving size": labelmaker.PanelServing, "calories": labelmaker.PanelCalories, "figure of calories": labelmaker.PanelFigure,
			"nutrients": labelmaker.PanelLine, "footnote": labelmaker.PanelNote}[s.Element]
		if points, given := s.Standard.Get(); is && given && l.Rules.Least[e].TypePt != points {
			t.Errorf("%s: %v points, the rule says %v", s.Element, l.Rules.Least[e].TypePt, points)
		}
	}
}

// Whatever a panel or a list may say that is not written in this package's code is translated too.
func TestWhatLabelsSayIsTranslated(t *testing.T) {
	var words []string
	l := made(t, asked(t, lentilSoup()))
	for _, row := range l.Panel.Rows {
		words = append(words, row.Name)
	}
	words = append(words, l.Panel.Headings...)
	words = append(words, strings.Replace(l.Panel.Footnote, "%", "%s", 1))
	for _, n := range nutrition.Required() {
		words = append(words, n.String())
	}
	a := asked(t, lentilSoup())
	a.Regime = kitchen.EULabels
	d, err := nutrition.EUDeclarationOf(nutrition.EUAsked{Food: made(t, a).Food, Intakes: true, SaltIsNatural: true, Voluntary: nutrition.Nutrients()})
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range d.Rows {
		words = append(words, row.Name)
	}
	words = append(slices.Concat(words, d.Statements, d.Headings), "container", "piece", "pieces", "pack")
	words = append(words, allergenNames()...)
	for _, a := range labelrule.EUAllergens() {
		words = append(append(words, a.Name), a.Kinds...)
	}
	for _, w := range words {
		if !language.Knows(w) {
			t.Errorf("%q is not translated", w)
		}
	}
}

// In another language than English the same facts stand there, with the names of the book, and the label says what follows.
func TestInSpanish(t *testing.T) {
	a := asked(t, creamSoup())
	a.Language, a.WithoutPanel, a.Business = language.SpanishOfTheUS, true, labelrule.Business{Staff: 3, YearlyUnits: 1000}
	l := made(t, a)
	list, _ := text(l.Content.Ingredients)
	line, _ := text(l.Content.Contains)
	for got, want := range map[string]string{list: "Ingredientes: water, lentils, cream (milk fat), fish sauce (seasoning).", line: "Contiene: Leche, Pescado (anchovy).", l.Content.Net[0]: "Peso neto 23.98 oz (1 lb 7.98 oz) 680 g",
		l.Content.Dates[0].Is: "2\u00a0de\u00a0marzo\u00a0de\u00a02027", l.Content.Keep: "Mantener congelado"} {
		if got != want {
			t.Errorf("it says %q, want %q", got, want)
		}
	}
	if f := has(l.Open, packlabel.CodeLanguage); f == nil || !strings.Contains(f.Source, "101.15(c)") || l.Withheld() {
		t.Errorf("it asks %v", l.Open)
	}
}

// Regulation (EU) 1169/2011, article 21 (quoted) and 15 (from memory): the allergens in a language that customers understand, where the book's names
// do not say them; in a French book the word for it is set off.
func TestAllergensInFrench(t *testing.T) {
	a := asked(t, creamSoup())
	a.Regime, a.Language = kitchen.EULabels, language.French
	a.Beyond = map[kitchen.IngredientID]kitchen.Allergens{"water": none(), "cream": none(), "sauce": none(), "base": {Answered: true, Names: []string{"celery"}}}
	edit(a.Book.Ingredients, "cream", func(i *kitchen.Ingredient) { i.Label, i.Contains = "crème de lait", nil })
	edit(a.Book.Ingredients, "sauce", func(i *kitchen.Ingredient) {
		z := 0.0
		i.Analysis.Fibre, i.Analysis.Sugars, i.Analysis.SatFat, i.Analysis.Sodium = &z, &z, &z, &z
	})
	list, strong := text(made(t, a).Content.Ingredients)
	if want := "Ingrédients : lentils (50 %) (céleri), water, crème de lait, seasoning: fish sauce."; list != want || strong != "céleri|lait|fish" {
		t.Errorf("%s, set off %s", list, strong)
	}
}

// A panel of two columns is too wide for a label of 4 in with the words for "less than 1 g", and fits with 1 g, which 21 CFR 101.9(c)(6) allows too
// (read).
func TestFiguresWhereWordsAreTooWide(t *testing.T) {
	a := asked(t, lentilSoup())
	a.Cup, a.Language = 245*unit.Gram, language.SpanishOfTheUS
	l := made(t, a)
	if len(l.Sides) != 2 || l.Sides[0].Panel != labelrule.Principal || l.Sides[1].Panel != labelrule.Information || has(l.Advice, packlabel.CodeTwoLabels) == nil {
		t.Fatalf("%d sides: %v", len(l.Sides), l.Open)
	}
	if len(l.Formats) != 1 || l.Formats[0].Format != nutrition.Standard || l.Formats[0].Small {
		t.Errorf("its panel may be %+v", l.Formats)
	}
	for _, line := range l.Sides[1].Content.Panel.Lines {
		if strings.Contains(line.Name, "añadidos") && line.Amounts[1] != "1 g" {
			t.Errorf("added sugars are %q", line.Amounts)
		}
	}
	if f := l.Sides[0].Content; f.Panel != nil || len(f.Ingredients) > 0 || f.Identity == "" || len(f.Net) == 0 || f.Keep == "" || f.Lot.Is == "" {
		t.Errorf("on the front stands %+v", f)
	}
}

// 21 CFR 101.9(j)(13) (from memory): a pack of 40 sq in or less may have its panel as text, in the type of small packages.
func TestASmallPackHasItsPanelAsText(t *testing.T) {
	b := lentilSoup()
	b.Bags["bag"] = kitchen.Bag{Name: "small bag", Length: 5 * unit.Inch, Width: 4 * unit.Inch}
	b.Kitchen.Labels.Wide, b.Kitchen.Labels.High = 4*unit.Inch, 4*unit.Inch
	edit(b.Packs, "pack", func(p *kitchen.Pack) { p.Fill[0].Mass = 300 * unit.Gram })
	l := made(t, asked(t, b))
	if len(l.Sides) != 1 || !l.Sides[0].Content.Panel.Linear || len(l.Formats) == 0 || l.Formats[0].Format != nutrition.Linear {
		t.Errorf("%d sides, formats %+v: %v", len(l.Sides), l.Formats, l.Open)
	}
	b.Bags["bag"] = kitchen.Bag{Name: "large bag", Length: 6 * unit.Inch, Width: 4 * unit.Inch}
	if l = made(t, asked(t, b)); slices.ContainsFunc(l.Sides, func(s packlabel.Side) bool { return s.Content.Panel != nil && s.Content.Panel.Linear }) {
		t.Error("48 sq in are not small")
	}
}
