package draftdish

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// weigh is what an amount of a line weighs: by the book, then by the table. What is not known is said as a question.
func (d *drafter) weigh(l *Line, a unit.Amount) (unit.Mass, string) {
	if a.Kind == 0 {
		return 0, ""
	}
	ing := d.ingredient(l.Is)
	if m, ok := ing.Weigh(a); ok {
		return m, ""
	}
	switch a.Kind {
	case unit.AmountVolume:
		if density, ok := d.density(l, ing, a.Measure); ok {
			return a.Volume.Times(density), ""
		}
		return 0, fmt.Sprintf("What does a cup of %s weigh?", l.Name)
	case unit.AmountCount:
		if one := pieceOf(d.foods, ing, a.Measure, contentOf(l.Words)); one > 0 {
			return unit.MassKg(one.Kg() * a.Count.N()), ""
		}
		return 0, fmt.Sprintf("What does one %s weigh?", pieceName(a.Measure, l.Words))
	}
	return 0, ""
}

// density is what a litre of a line weighs: of the book, or of the table in the form that the line says, or else in the only one it has.
func (d *drafter) density(l *Line, ing kitchen.Ingredient, form string) (unit.Density, bool) {
	said := append(contentOf(l.Prep), wordsOf(l.Words+" "+form)...)
	var bulk []foodtable.Density
	for _, x := range d.foods.Densities(ing.Food) {
		if x.Form == "" {
			return x.KgPerL, true
		}
		for _, w := range wordsOf(x.Form) {
			if slices.Contains(said, w) || slices.Contains(said, singular(w)) {
				return x.KgPerL, true
			}
		}
		bulk = append(bulk, x)
	}
	if len(bulk) > 0 {
		return bulk[0].KgPerL, true
	}
	if hasAny(l.Words, "water", "broth", "stock", "wine", "beer", "juice", "vinegar", "milk") {
		return 1, true
	}
	return 0, false
}

func hasAny(text string, words ...string) bool {
	return slices.ContainsFunc(wordsOf(text), func(w string) bool { return slices.Contains(words, singular(w)) })
}

// sizes are the words for one of something that say nothing of what it is.
var sizes = []string{"", "each", "whole", "medium", "large", "small"}

// pieceName is what one piece is called.
func pieceName(measure, words string) string {
	if content := contentOf(words); slices.Contains(sizes, measure) {
		return content[len(content)-1]
	}
	return singular(measure)
}

// largeEgg is a large egg without its shell (USDA SR28 01123).
const largeEgg = 50 * unit.Gram

// pieceOf is what one piece weighs: by the book, then by the table's measure of that name; of a whole one a medium one, or a large one if the
// recipe says so.
func pieceOf(foods *foodtable.Table, ing kitchen.Ingredient, measure string, content []string) unit.Mass {
	measure = singular(strings.ToLower(measure))
	sized := slices.Contains(sizes, measure)
	if m, ok := ing.Measures["each"]; ok && m.Kind == unit.AmountMass && sized {
		return m.Mass
	}
	if sized && content[len(content)-1] == "egg" {
		return largeEgg
	}
	wanted := [][]string{{measure}}
	if sized {
		wanted = [][]string{{cmp.Or(measure, "medium")}, {"medium"}, {"large"}, content[len(content)-1:]}
	}
	for _, words := range wanted {
		for _, m := range foods.Measures(ing.Food) {
			name, _, _ := strings.Cut(m.Name, " (")
			in := wordsOf(name)
			if m.Amount > 0 && m.Grams > 0 && !slices.Contains(in, "cup") && !slices.Contains(in, "slice") && !slices.Contains(in, "strip") && slices.ContainsFunc(in, func(w string) bool { return singular(w) == words[0] }) {
				return unit.MassKg(m.Grams / 1000 / m.Amount)
			}
		}
	}
	return 0
}

// bookAmount is an amount as the book can weigh it out: as the cook wrote it where the book says what that weighs, else in grams.
func (d *drafter) bookAmount(l *Line, a unit.Amount, mass unit.Mass) unit.Amount {
	if mass <= 0 {
		return unit.Amount{}
	}
	if a.Kind == unit.AmountMass {
		return unit.Amount{Kind: unit.AmountMass, Mass: a.Mass}
	}
	if m, ok := d.ingredient(l.Is).Weigh(a); ok && m == mass {
		if _, err := a.MarshalText(); err == nil {
			return a
		}
	}
	return unit.Amount{Kind: unit.AmountMass, Mass: roundGrams(mass)}
}

// roundGrams is a mass to a tenth of a gram, or to a hundredth below 2 g.
func roundGrams(m unit.Mass) unit.Mass {
	step := 100 * unit.Milligram
	if m < 2*unit.Gram {
		step = 10 * unit.Milligram
	}
	return max(step, unit.Mass(math.Round(float64(m)/float64(step)))*step)
}

// shares gives what is a share of the finished food its mass, once all else is known.
func (d *drafter) shares() {
	var total unit.Mass
	for _, l := range d.lines {
		total += l.Mass
	}
	for _, l := range d.lines {
		if l.share > 0 && l.Mass == 0 && l.Problem == "" {
			l.Mass = roundGrams(l.share.Of(total))
			l.Amount, l.Assumed = unit.Amount{Kind: unit.AmountMass, Mass: l.Mass}, true
			l.Out = l.Mass <= 0 || total == 0
		}
	}
}
