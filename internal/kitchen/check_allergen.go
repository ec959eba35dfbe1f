package kitchen

import (
	"errors"
	"fmt"
	"slices"

	"kettlefrost/internal/allergen"
)

// allergens checks the answer for an ingredient and for its own ingredients.
func (c *checker) allergens(at spot, g Ingredient) {
	c.answer(at, g.Allergens)
	c.shares(at, g.Contains)
	for i, part := range g.Contains {
		here := at.item("contains", i, part.Name)
		c.text(here, "name", part.Name)
		c.answer(here, part.Allergens)
		if !g.Allergens.Answered {
			continue
		}
		for _, name := range part.Allergens.Names {
			if major := majorOf(name); major >= 0 && !g.Allergens.has(major) {
				c.stop(AllergensContradict, at.key("allergens"),
					fmt.Sprintf("%s is in its part %s, but not among its own allergens", name, part.Name),
					fmt.Sprintf("add %s to its allergens, or correct the part", name))
			}
		}
	}
}

// shares checks that the parts of an ingredient are not more than all of it, but for the rounding of each on the sheet.
func (c *checker) shares(at spot, parts []SubIngredient) {
	sum, slack := 0.0, 0.0
	for i, part := range parts {
		c.within(at.item("contains", i, part.Name), "share", inPerCent(part.Share), perCent)
		if part.Share > 0 {
			sum, slack = sum+inPerCent(part.Share), slack+0.5
		}
	}
	if sum > 100+slack {
		c.stop(OutOfRange, at.key("contains"), fmt.Sprintf("its parts are %.1f %% together, more than all of it", sum), "check the shares on the supplier's sheet")
	}
}

// has says whether a major allergen is among the names, of whatever kind.
func (a Allergens) has(major int) bool {
	return slices.ContainsFunc(a.Names, func(name string) bool { return majorOf(name) == major })
}

// majorOf is which of the nine a name means, -1 for none.
func majorOf(name string) int {
	a, _ := allergen.Parse(name) // what is wrong with it is found where it stands
	return a.Major
}

func (c *checker) answer(at spot, a Allergens) {
	at = at.key("allergens")
	if !a.Answered {
		c.caution(AllergensUndeclared, at, "nobody has said which major allergens are in it; no label can be made of what it goes into", "look at the supplier's label and write allergens: none, or their names")
		return
	}
	for i, name := range a.Names {
		here := spot{path: PathAt(at.path, i), where: at.where}
		_, err := allergen.Parse(name)
		bad := (*allergen.Error)(nil)
		switch {
		case !errors.As(err, &bad):
		case bad.Problem == allergen.KindMissing:
			c.caution(AllergenKindMissing, here, fmt.Sprintf("%q %s", name, bad.Reason()), bad.Hint())
		default:
			c.stop(UnknownAllergen, here, fmt.Sprintf("%q %s", name, bad.Reason()), bad.Hint())
		}
	}
}
