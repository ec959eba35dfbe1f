package kitchen

// entryWords says what one entry of a list or section of the book is called.
var entryWords = map[string]string{
	"people": "person", "suppliers": "supplier", "ingredients": "ingredient", "equipment": "equipment", "chilling": "chilling",
	"media": "medium", "tax-rates": "tax rate", "price-lists": "price list", "prices": "price", "parts": "part", "freezers": "freezer", "places": "place", "shelves": "shelf", "boxes": "box", "bags": "bag", "dishes": "dish", "packs": "pack", "runs": "run",
	"steps": "step", "use": "line", "gives": "output", "fill": "line", "breaks": "break", "buy": "offer", "contains": "part",
	"measures": "measure", "trials": "trial", "mix": "mix of", "want": "target", "appointments": "appointment",
	"lots": "lot", "checks": "weighing", "weighed": "weight of", "used": "ingredient", "hands": "hands for", "late": "late task", "gone": "absence", "out": "outage",
}

// Entry is what a cook calls one entry of a list or section of the book: Entry("dishes", "dal") is "dish dal". It is "" for a
// list whose entries have no name of their own, such as the allergens.
func Entry(list, name string) string {
	word, ok := entryWords[list]
	if !ok {
		return ""
	}
	return word + " " + name
}

// Within adds a smaller place to a larger one: Within("dish dal", "step simmer") is "dish dal, step simmer".
func Within(outer, inner string) string {
	switch {
	case outer == "":
		return inner
	case inner == "":
		return outer
	default:
		return outer + ", " + inner
	}
}
