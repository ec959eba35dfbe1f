package homecard

import (
	"fmt"
	"math"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// inPieces takes whole and half pieces: nobody cuts a bay leaf in five.
func (m *Amount) inPieces(one unit.Mass, measure string) {
	halves := max(1, int64(math.Round(2*m.Need.Kg()/one.Kg())))
	m.Said = unit.Mass(halves) * one / 2
	m.Class, m.About = piecesClass, ""
	m.Bound = unit.ShareOf(max(0.05, one.Kg()/2/max(m.Need.Kg(), 1e-12)))
	m.Text = partText(halves, 2)
	if measure != "each" && measure != "" {
		m.Text += " " + measure
	}
	m.Off = unit.ShareOf(m.off())
}

// partText is a number of halves or quarters: 1/2, 2, 1 3/4.
func partText(n, of int64) string {
	whole, rest := n/of, n%of
	for rest > 0 && rest%2 == 0 && of%2 == 0 {
		rest, of = rest/2, of/2
	}
	switch {
	case rest == 0:
		return fmt.Sprint(whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d", rest, of)
	}
	return fmt.Sprintf("%d %d/%d", whole, rest, of)
}

// piece is what one piece of an ingredient weighs that the dish counts.
func (a Ask) piece(id kitchen.IngredientID, use unit.Amount) (unit.Mass, bool) {
	if use.Kind != unit.AmountCount {
		return 0, false
	}
	one := use
	one.Count = unit.One
	m, ok := a.ingredient(id).Weigh(one)
	return m, ok && m > 0
}

// pieceWords are the pieces in which cooks think of vegetables, by the names of the composition table, the likeliest first.
var pieceWords = []string{"medium", "large", "clove", "stalk, medium", "leek", "bulb"}

// about is how many pieces that is about, to the next half: for the shop, not for the pot.
func (a Ask) about(id kitchen.IngredientID, m unit.Mass) string {
	ing := a.ingredient(id)
	if ing.Class != "produce" && ing.Class != "eggs" {
		return ""
	}
	says, name, one := a.pieceOf(ing)
	if one <= 0 {
		return ""
	}
	quarters := int64(math.Round(4 * m.Kg() / one.Kg()))
	if quarters > 8 {
		quarters = (quarters + 1) / 2 * 2 // beyond two, quarters of one are no matter
	}
	if quarters < 1 || quarters > 48 {
		return ""
	}
	in, sentence := a.speaker(), says.more
	if in.Single(float64(quarters) / 4) {
		sentence = says.one
	}
	if strings.Count(sentence, "%s") == 1 {
		return in.Say(sentence, partText(quarters, 4))
	}
	return in.Say(sentence, partText(quarters, 4), name)
}

// largeEgg is a large one without its shell: 50 g (USDA SR28 01123).
const largeEgg = 50 * unit.Gram

// pieceOf is what is said of one piece and of more, what it is called there, and what one weighs; 0 when nothing says so.
func (a Ask) pieceOf(ing kitchen.Ingredient) (counted, string, unit.Mass) {
	if ing.Class == "eggs" {
		return counted{"about %s large egg", "about %s large eggs"}, "", largeEgg
	}
	short := ing.Name
	if ing.Label != "" {
		short = strings.TrimSuffix(ing.Label, "s")
	}
	if m, ok := ing.Measures["each"]; ok && m.Kind == unit.AmountMass {
		return inPieces, short, m.Mass
	}
	for _, word := range pieceWords {
		for _, m := range a.Foods.Measures(ing.Food) {
			name, _, _ := strings.Cut(m.Name, " (")
			if name == word && m.Amount == 1 && m.Grams > 0 {
				return sayPieces(word), short, unit.MassKg(m.Grams / 1000)
			}
		}
	}
	return counted{}, "", 0
}

// counted is a sentence for one piece and one for more.
type counted struct{ one, more string }

var inPieces = counted{"about %s %s", "about %s %ss"}

// sayPieces is how pieces are counted: cloves of garlic, stalks of celery, medium carrots.
func sayPieces(word string) counted {
	switch word {
	case "clove":
		return counted{"about %s clove", "about %s cloves"}
	case "stalk, medium":
		return counted{"about %s medium stalk", "about %s medium stalks"}
	case "medium":
		return counted{"about %s medium %s", "about %s medium %ss"}
	case "large":
		return counted{"about %s large %s", "about %s large %ss"}
	}
	return inPieces
}
