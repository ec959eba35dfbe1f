package labelrule_test

import (
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/statement"
	"kettlefrost/internal/unit"
)

const sixteenth = unit.Inch / 16

// soup is a label of the United States with nothing wrong.
func soup(t *testing.T) labelrule.Label {
	t.Helper()
	s, err := statement.Write([]statement.Line{
		{Name: "water", Mass: 5 * unit.Kilogram, AllergensKnown: true},
		{Name: "cream", Mass: unit.Kilogram, Allergens: []string{"milk"}, AllergensKnown: true},
		{Name: "cod", Mass: unit.Kilogram / 2, Allergens: []string{"fish: cod"}, AllergensKnown: true},
	})
	if err != nil {
		t.Fatal(err)
	}
	return labelrule.Label{Statement: s, Frozen: true, ReadyToEat: true, Elements: []labelrule.Placed{
		{Element: labelrule.Identity, Text: "Cod Chowder", Panel: labelrule.Principal, Letter: 8 * sixteenth, Bold: true, Parallel: true},
		{Element: labelrule.Net, Text: "Net Wt 24 oz (1 lb 8 oz) 680 g", Panel: labelrule.Principal, Letter: 4 * sixteenth, Parallel: true},
		{Element: labelrule.Ingredients, Text: s.Ingredients, Panel: labelrule.Information, Letter: sixteenth},
		{Element: labelrule.Contains, Text: s.Contains, Panel: labelrule.Information, Letter: sixteenth, After: labelrule.Ingredients},
		{Element: labelrule.Operator, Text: "Made by A Kitchen, Anytown, NY 10000", Panel: labelrule.Information, Letter: sixteenth},
		{Element: labelrule.Nutrition, Text: "Nutrition Facts", Panel: labelrule.Information, Letter: sixteenth},
	}}
}

func change(l labelrule.Label, e labelrule.Element, with func(*labelrule.Placed)) labelrule.Label {
	l.Elements = slices.Clone(l.Elements)
	for i := range l.Elements {
		if l.Elements[i].Element == e {
			with(&l.Elements[i])
		}
	}
	return l
}

func without(l labelrule.Label, e labelrule.Element) labelrule.Label {
	l.Elements = slices.DeleteFunc(slices.Clone(l.Elements), func(p labelrule.Placed) bool { return p.Element == e })
	return l
}

func codes(found finding.List) string {
	var all []string
	for _, f := range found {
		all = append(all, f.Code)
	}
	return strings.Join(all, " ")
}

// 21 U.S.C. 343 and 21 CFR 101, as the rules' own sources say; what is from memory is never more than a caution.
func TestLabelUS(t *testing.T) {
	l := soup(t)
	text := func(s string) func(*labelrule.Placed) { return func(p *labelrule.Placed) { p.Text = s } }
	poultry := func(ready bool) labelrule.Label { x := l; x.Poultry, x.ReadyToEat = true, ready; return x }
	meat := l
	meat.Meat = true
	exempt := without(l, labelrule.Nutrition)
	exempt.NoPanel = true
	withheld := l
	withheld.Statement.Missing = []statement.Missing{{Path: []string{"stock"}}}
	for _, c := range []struct {
		name  string
		label labelrule.Label
		want  string
	}{
		{"nothing wrong", l, ""},
		{"exempt from the panel", exempt, ""},
		{"no list of ingredients, nor Contains", without(without(l, labelrule.Ingredients), labelrule.Contains), "us-ingredients us-allergen us-allergen"},
		{"no panel", without(l, labelrule.Nutrition), "us-nutrition"},
		{"no name", without(l, labelrule.Identity), "us-identity"},
		{"name on the back", change(l, labelrule.Identity, func(p *labelrule.Placed) { p.Panel = labelrule.Other }), "us-identity-panel"},
		{"slanted name", change(l, labelrule.Identity, func(p *labelrule.Placed) { p.Parallel = false }), "us-identity-parallel"},
		{"faint name", change(l, labelrule.Identity, func(p *labelrule.Placed) { p.Bold = false }), "us-identity-type"},
		{"name smaller than half", change(l, labelrule.Identity, func(p *labelrule.Placed) { p.Letter = sixteenth }), "us-identity-type"},
		{"net quantity on the back", change(l, labelrule.Net, func(p *labelrule.Placed) { p.Panel = labelrule.Information }), "us-net"},
		{"no Contains, and the list does not say fish nor cream's source", change(without(l, labelrule.Contains), labelrule.Ingredients, text("Ingredients: water, cream, whitefish.")), "us-allergen us-allergen"},
		{"no Contains, all in the list", change(without(l, labelrule.Contains), labelrule.Ingredients, text("Ingredients: water, cream (milk), cod.")), ""},
		{"coconut milk is no milk", change(without(l, labelrule.Contains), labelrule.Ingredients, text("Ingredients: water, coconut milk, cream, cod.")), "us-allergen"},
		{"Contains: fish", change(change(l, labelrule.Contains, text("Contains: Milk, Fish.")), labelrule.Ingredients, text("Ingredients: water, cream (milk), surimi.")), "us-allergen us-species"},
		{"Contains leaves milk out", change(change(l, labelrule.Contains, text("Contains: Fish (cod).")), labelrule.Ingredients, text("Ingredients: water, cream (milk), cod.")), "us-contains-whole"},
		{"Contains elsewhere", change(l, labelrule.Contains, func(p *labelrule.Placed) { p.After = labelrule.Operator }), "us-contains-place"},
		{"small Contains", change(l, labelrule.Contains, func(p *labelrule.Placed) { p.Letter = sixteenth - 1 }), "us-contains-type us-small-type"},
		{"small address", change(l, labelrule.Operator, func(p *labelrule.Placed) { p.Letter = sixteenth - 1 }), "us-small-type"},
		{"address elsewhere", change(l, labelrule.Operator, func(p *labelrule.Placed) { p.Panel = labelrule.Other }), "us-together"},
		{"no address", without(l, labelrule.Operator), "us-operator"},
		{"frozen poultry, cooked", poultry(true), "us-keep-frozen"},
		{"frozen poultry, raw", poultry(false), "us-keep-frozen us-safe-handling"},
		{"frozen meat", meat, "us-keep-frozen-meat"},
		{"allergens not answered", withheld, "label-withheld"},
		{"type of the list not measured", change(l, labelrule.Ingredients, func(p *labelrule.Placed) { p.Letter = 0 }), "label-type-not-known"},
	} {
		found := labelrule.Check(labelrule.US, c.label)
		if got := codes(found); got != c.want {
			t.Errorf("%s: %q, want %q: %v", c.name, got, c.want, found)
		}
		honest(t, found)
	}
}

// honest: what is from memory is a caution, what was read stops, and each names a source and a fix.
func honest(t *testing.T, found finding.List) {
	t.Helper()
	for _, f := range found {
		r, known := labelrule.RuleOf(f.Code)
		if f.Source == "" || f.Fix == "" || known && (f.Severity == finding.Stop) != (r.Confirm == "") {
			t.Errorf("%+v", f)
		}
	}
}

func soupEU(t *testing.T) labelrule.Label {
	mm := unit.Millimetre
	l := soup(t)
	l.EU = []labelrule.EUFound{{Code: "milk"}, {Code: "fish"}}
	l.LargestCm2 = 200
	l.Elements = []labelrule.Placed{
		{Element: labelrule.Identity, Text: "Cod chowder", Letter: 4 * mm, Field: 1}, {Element: labelrule.Net, Text: "680 g", Letter: 4 * mm, Field: 1},
		{Element: labelrule.Ingredients, Text: "Ingredients: water, cream (milk), cod (fish).", Letter: 12 * mm / 10, Emphasised: []string{"milk", "fish"}},
		{Element: labelrule.Operator, Text: "A Kitchen, Street 1, Town", Letter: 12 * mm / 10}, {Element: labelrule.Date, Text: "Best before end 06/2027", Letter: 2 * mm},
		{Element: labelrule.Nutrition, Text: "Energy 370 kJ / 88 kcal", Letter: 12 * mm / 10}, {Element: labelrule.Storage, Text: "Store at -18 °C.", Letter: 12 * mm / 10},
		{Element: labelrule.Lot, Text: "L0917", Letter: 2 * mm},
	}
	return l
}

// Regulation (EU) 1169/2011, as the rules' own sources say.
func TestLabelEU(t *testing.T) {
	l := soupEU(t)
	mm := unit.Millimetre
	area := func(l labelrule.Label, cm2 float64) labelrule.Label { l.LargestCm2 = cm2; return l }
	small := change(l, labelrule.Operator, func(p *labelrule.Placed) { p.Letter = 9 * mm / 10 })
	tiny := without(without(without(without(without(area(l, 9), labelrule.Operator), labelrule.Nutrition), labelrule.Storage), labelrule.Lot), labelrule.Ingredients)
	tiny.Elements = append(tiny.Elements, labelrule.Placed{Element: labelrule.Contains, Text: "Contains milk, fish", Letter: mm})
	open := l
	open.Open = []labelrule.EUQuestion{{Part: "stock", Allergen: "celery", Asks: "whether the stock has celery in it", Source: "common composition"}}
	for _, c := range []struct {
		name  string
		label labelrule.Label
		want  string
	}{
		{"nothing wrong", l, ""},
		{"type of 0.9 mm on 200 cm²", small, "eu-x-height"},
		{"type of 0.9 mm on 79 cm²", area(small, 79), ""},
		{"type of 0.9 mm on 80 cm²", area(small, 80), "eu-x-height"},
		{"type of 0.8 mm on 79 cm²", area(change(l, labelrule.Operator, func(p *labelrule.Placed) { p.Letter = 8 * mm / 10 }), 79), "eu-x-height-small"},
		{"net quantity on the back", change(l, labelrule.Net, func(p *labelrule.Placed) { p.Field = 2 }), "eu-same-field"},
		{"no word of fish", change(l, labelrule.Ingredients, func(p *labelrule.Placed) { p.Text = "Ingredients: water, cream (milk), cod." }), "eu-allergen"},
		{"fish not set off", change(l, labelrule.Ingredients, func(p *labelrule.Placed) { p.Emphasised = []string{"milk"} }), "eu-emphasis"},
		{"no heading", change(l, labelrule.Ingredients, func(p *labelrule.Placed) { p.Text = "water, cream (milk), cod (fish)" }), "eu-ingredients"},
		{"no date, lot, address, declaration or storage", without(without(without(without(without(l, labelrule.Date), labelrule.Lot), labelrule.Operator), labelrule.Nutrition), labelrule.Storage),
			"eu-date eu-operator eu-nutrition eu-storage eu-lot"},
		{"24 cm² without a declaration", area(without(l, labelrule.Nutrition), 24), ""},
		{"9 cm² with the least", tiny, ""},
		{"the least on a surface that nobody measured", area(tiny, 0), "eu-x-height eu-operator eu-ingredients eu-nutrition eu-storage eu-lot"},
		{"celery not answered", open, "label-withheld"},
		{"type not measured", change(l, labelrule.Date, func(p *labelrule.Placed) { p.Letter = 0 }), "label-type-not-known"},
	} {
		found := labelrule.Check(labelrule.EU, c.label)
		if got := codes(found); got != c.want {
			t.Errorf("%s: %q, want %q: %v", c.name, got, c.want, found)
		}
		honest(t, found)
	}
}

func TestRulesAreSourced(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range []labelrule.Market{labelrule.US, labelrule.EU} {
		for _, r := range labelrule.Rules(m) {
			if seen[r.Code] || r.Says == "" || !strings.HasPrefix(r.Code, strings.ToLower(string(m))) {
				t.Errorf("%+v", r)
			}
			seen[r.Code] = true
		}
	}
	if len(seen) != 32 {
		t.Errorf("%d rules", len(seen))
	}
}
