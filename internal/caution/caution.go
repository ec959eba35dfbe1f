// Package caution holds what a person must be told at the moment of acting, each with its source. It decides nothing: your local code and a
// licensed professional do.
package caution

import "slices"

// Act is something done that can hurt somebody: who does it, or who eats what comes of it. The codes are stable, for programs.
type Act string

// Acts that need a word of caution.
const (
	SealingVacuum Act = "sealing-vacuum" // cooked food, air taken away
	BlendingHot   Act = "blending-hot"
	MovingHot     Act = "moving-hot" // liquid that scalds, out of its pot or with it
	RawAnimal     Act = "raw-animal" // raw meat, poultry, fish or eggs in hand
	Allergens     Act = "allergens"
	SellingFrozen Act = "selling-frozen"
	FishInVacuum  Act = "fish-in-vacuum"
)

// Caution is what to say.
type Caution struct {
	Act    Act    `json:"act"`
	Says   string `json:"says"`
	Source string `json:"source"`
}

// Decides stands wherever cautions do.
const Decides = "Your local code and a licensed professional decide."

// ScaldsC is warm enough to scald and to build up steam (common practice).
const ScaldsC = 50

var all = []Caution{
	{SealingVacuum, "Vacuum takes the air away, and without air Clostridium botulinum can grow in food that warms up. Seal only chilled food, freeze it at once, keep it frozen until use. Packing cooked food so usually needs an approved plan.",
		"FDA Food Code 3-502.11 and 3-502.12, as adopted by states"},
	{BlendingHot, "Hot liquid in a blender throws its lid off and scalds: fill it half at most, vent the lid under a cloth, start slowly, or let it cool first.", "common practice"},
	{MovingHot, "Hot liquid scalds: clear the way, say “hot behind you”, carry no more than you can hold level, and tip away from yourself; two people to a big pot.", "common practice"},
	{RawAnimal, "Raw meat, poultry, fish and eggs carry germs to whatever they touch: own board and knife, then wash hands, table and tools before anything else.", "FDA Food Code 2-301.14, 3-302.11 and 4-602.11, from memory"},
	{Allergens, "Wash table, ladles, sealer and hands before the next product: a trace of another one's allergens is not on its label.", "21 U.S.C. 343(w) for the label; the washing is common practice"},
	{SellingFrozen, "Keep frozen until use.", "FDA Food Code 3-502.12, as adopted by states"},
	{FishInVacuum, "Fish: open the pack before it thaws in the refrigerator, and before or right after it thaws in running water.", "FDA Food Code 3-501.13(E)"},
}

// For are the cautions of some acts, each once, the gravest first.
func For(acts ...Act) []Caution {
	found := []Caution{}
	for _, c := range all {
		if slices.Contains(acts, c.Act) {
			found = append(found, c)
		}
	}
	return found
}

// Of is the caution of one act. An act without one is a mistake in the program.
func Of(a Act) Caution {
	for _, c := range all {
		if c.Act == a {
			return c
		}
	}
	panic("caution: nothing to say of " + string(a))
}
