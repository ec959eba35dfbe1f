package heatcase

import (
	"errors"
	"fmt"
	"strings"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/heat"
)

// resolved is the food of a case, with where its figures come from.
type resolved struct {
	name        string
	source      string
	composition heat.Composition // adds up to 1
	sum         float64          // before that
	freezesC    float64
	freezesFrom string   // where freezesC comes from
	assumed     bool     // freezesC is a soup's, for want of better
	others      []string // further foods that the words fit
}

// A foodError says which key of a food is wrong.
type foodError struct{ key, what, fix string }

func (e *foodError) Error() string { return e.what + " (" + e.fix + ")" }

// resolve finds the composition and the freezing point of a food.
func (f Food) resolve() (resolved, error) {
	r := resolved{name: "this food", source: "composition as given", composition: f.Composition.fractions()}
	switch zero := (Composition{}); {
	case f.Find != "" && f.Composition != zero:
		return r, &foodError{"food", "there is both a food of the table and a composition", "keep one of them"}
	case f.Find == "" && f.Composition == zero:
		return r, &foodError{"food", "it is not said what food it is", "name one of the composition table, or give its water, protein, fat, carbohydrate, fibre and ash in %"}
	case f.Find != "":
		row, others, err := find(f.Find)
		if err != nil {
			return r, err
		}
		r.name, r.others, r.source = row.Name, others, "composition of NDB "+row.NDB+", USDA SR28"
		r.composition = perGram(row.Per100g)
		r.freezesC, r.freezesFrom, r.assumed = fromSolutes(row.Per100g)
	default:
		r.freezesC, r.freezesFrom, r.assumed = heat.DefaultFreezingPointC, "usual for a soup; most lie between -0.6 and -1.5 °C", true
	}
	if f.FreezesAt != nil {
		r.freezesC, r.freezesFrom, r.assumed = f.FreezesAt.C(), "as given", false
	}
	if err := f.checkComposition(r.composition); err != nil {
		return r, err
	}
	r.sum = r.composition.Sum()
	var err error
	if r.composition, err = r.composition.Normalise(); err != nil {
		return r, &foodError{"food", err.Error(), "give a composition in % of the whole"}
	}
	return r, nil
}

// checkComposition wants fractions that can be, and that add up if a person gave them; rows of the table leave a few per cent out.
func (f Food) checkComposition(c heat.Composition) error {
	if c.Carb < 0 {
		return &foodError{"fibre", "there is more fibre than carbohydrate", "give carbohydrate with its fibre, as printed tables do"}
	}
	for _, p := range []struct {
		key  string
		x    float64
		most float64
	}{{"water", c.Water, 1}, {"protein", c.Protein, 1}, {"fat", c.Fat, 1}, {"carbohydrate", c.Carb, 1}, {"fibre", c.Fibre, 1}, {"ash", c.Ash, 1}, {"alcohol", c.Alcohol, heat.MaxAlcohol}} {
		if !(p.x >= 0 && p.x <= p.most) {
			return &foodError{p.key, fmt.Sprintf("%.4g %% of %s cannot be computed", 100*p.x, p.key), fmt.Sprintf("give 0 to %g %%", 100*p.most)}
		}
	}
	if sum := c.Sum(); f.Find == "" && heat.InRange("sum", "", sum, 1-heat.SumTolerance, 1+heat.SumTolerance) != nil {
		return &foodError{"water", fmt.Sprintf("the composition adds up to %.4g %%, not to 100 %%", 100*sum),
			"give water, protein, fat, carbohydrate (fibre included), ash and alcohol so that they do, within 2 %"}
	}
	return nil
}

// longestFind is more than any name of the table.
const longestFind = 200

// find is a food of the table by its number, or the best one that all the words fit, and the next ones.
func find(words string) (foodtable.Food, []string, error) {
	if len(words) > longestFind {
		return foodtable.Food{}, nil, &foodError{"food", "this is no name of a food: " + quoted(words), "give a number or a few words"}
	}
	table, err := foodtable.Default()
	if err != nil {
		return foodtable.Food{}, nil, fmt.Errorf("composition table: %w", err)
	}
	if row, ok := table.Lookup(words); ok {
		return row, nil, nil
	}
	const shown = 4
	matches := table.Search(words, shown)
	if len(matches) == 0 {
		return foodtable.Food{}, nil, &foodError{"food", "the table has no food " + quoted(words), "try fewer or plainer words, or give its composition in %"}
	}
	var names []string
	for _, m := range matches {
		names = append(names, m.Food.NDB+" "+m.Food.Name)
	}
	if best := matches[0]; !best.All() || best.Near {
		return foodtable.Food{}, nil, &foodError{"food", "the table has no food with all the words " + quoted(words), "nearest are " + strings.Join(names, "; ")}
	}
	var others []string
	for i, m := range matches[1:] {
		if m.All() && !m.Near {
			others = append(others, names[i+1])
		}
	}
	return matches[0].Food, others, nil
}

// perGram is a row of the table as fractions; what the source does not give counts as none.
func perGram(n foodtable.Nutrients) heat.Composition {
	fibre := n.FibreG.Or(0)
	return heat.Composition{Water: n.WaterG.Or(0) / 100, Protein: n.ProteinG.Or(0) / 100, Fat: n.FatG.Or(0) / 100, Carb: max(0, n.CarbG.Or(0)-fibre) / 100,
		Fibre: fibre / 100, Ash: n.AshG.Or(0) / 100, Alcohol: n.AlcoholG.Or(0) / 100}
}

// saltPerSodium is NaCl over Na by molar masses.
const saltPerSodium = 58.44 / 22.99

// fromSolutes is the freezing point that the salt, sugars and alcohol of a row give its water.
func fromSolutes(n foodtable.Nutrients) (tempC float64, from string, assumed bool) {
	t, err := heat.FreezingPointC(n.WaterG.Or(0)/100, heat.Solute{Kind: heat.Salt, Share: n.SodiumMg.Or(0) / 1000 / 100 * saltPerSodium},
		heat.Solute{Kind: heat.Sucrose, Share: n.SugarsG.Or(0) / 100}, heat.Solute{Kind: heat.Ethanol, Share: n.AlcoholG.Or(0) / 100})
	if err != nil || t < heat.LowestFreezingPointC {
		return heat.DefaultFreezingPointC, "usual for a soup; not to be had from this food's salt and sugars", true
	}
	// Acids, minerals and protein lower a food by some tenths more: what Raoult's law puts above the mildest of soups is taken as that.
	if t > mildestC {
		return mildestC, "the mildest of soups; its salt and sugars alone would give less", true
	}
	return t, "from its salt, sugars and alcohol (Raoult's law)", false
}

// mildestC is the upper end of the freezing points of soups.
const mildestC = -0.6

// constants are the seven of the food for this case: unfrozen ones at the middle of the temperatures that its unfrozen part has, which
// while thawing go up to those of the medium.
func (c Case) constants(r resolved) (heat.FreezingFood, error) {
	warm, cold := max(c.From.C(), c.To.C()), max(min(c.From.C(), c.To.C()), r.freezesC)
	if c.Process == Thaw {
		warm = max(warm, c.warmestC())
	}
	return r.composition.FreezingFood(r.freezesC, max(r.freezesC, (warm+cold)/2))
}

// asFoodError is what a food's own mistake says, or any other with a fix.
func asFoodError(err error) *foodError {
	if e, ok := errors.AsType[*foodError](err); ok {
		return e
	}
	return &foodError{"food", err.Error(), "give another food"}
}
