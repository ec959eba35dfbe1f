package kitchen

import (
	"fmt"
	"slices"
	"strings"
)

// allergens checks the answer for an ingredient and for its own ingredients.
func (c *checker) allergens(at spot, g Ingredient) {
	c.answer(at, g.Allergens)
	for i, part := range g.Contains {
		here := at.item("contains", i, part.Name)
		c.text(here, "name", part.Name)
		c.answer(here, part.Allergens)
		if !g.Allergens.Answered {
			continue
		}
		for _, name := range part.Allergens.Names {
			if major, _, ok := SplitAllergen(name); ok && !g.Allergens.has(major) {
				c.stop(AllergensContradict, at.key("allergens"),
					fmt.Sprintf("%s is in its part %s, but not among its own allergens", name, part.Name),
					fmt.Sprintf("add %s to its allergens, or correct the part", name))
			}
		}
	}
}

// has says whether a major allergen is among the names, of whatever kind.
func (a Allergens) has(major string) bool {
	return slices.ContainsFunc(a.Names, func(name string) bool {
		m, _, _ := SplitAllergen(name)
		return m == major
	})
}

func (c *checker) answer(at spot, a Allergens) {
	at = at.key("allergens")
	if !a.Answered {
		c.caution(AllergensUndeclared, at, "nobody has said which major allergens are in it; no label can be made of what it goes into", "look at the supplier's label and write allergens: none, or their names")
		return
	}
	for i, name := range a.Names {
		here := spot{path: PathAt(at.path, i), where: at.where}
		major, kind, ok := SplitAllergen(name)
		switch {
		case !ok:
			c.stop(UnknownAllergen, here, fmt.Sprintf("%q is none of the major allergens", name), allergenHint(major))
		case kind == "" && slices.Contains(kindWanted[:], major):
			c.caution(AllergenKindMissing, here, fmt.Sprintf("%s without its kind: a label must name the nut, or the species", major), fmt.Sprintf("write the kind behind it, as in %s", otherWordFor(major)))
		}
	}
}

// allergenHint is what may have been meant by a word.
func allergenHint(word string) string {
	meant := otherWords[strings.ToLower(word)]
	if meant == "" {
		meant = Nearest(word, majorAllergens[:])
	}
	if meant != "" {
		return fmt.Sprintf("did you mean %s?", meant)
	}
	return "write one of these: " + strings.Join(majorAllergens[:], ", ") + "; other things people react to go into the note"
}

// otherWordFor is an example of a major allergen with its kind.
func otherWordFor(major string) string {
	switch major {
	case "fish":
		return "fish: trout"
	case "tree nuts":
		return "tree nuts: cashew"
	default:
		return major + ": shrimp"
	}
}
