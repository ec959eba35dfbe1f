package coldstore

import "kettlefrost/internal/unit"

// Stowing is what a litre of a place holds as things lie there, with the air between them, in kg/L: as usual, and the range of practice.
type Stowing struct {
	Kind             Kind
	Low, Usual, High unit.Density
	Source           string
}

// stowings are for places of which nobody weighed it. A kitchen finds its own by weighing what is in a full one.
var stowings = []Stowing{
	{Frozen, 0.45, 0.56, 0.65, "a cubic foot of a freezer holds about 35 lb of packed food: rule of US extension services, from memory; common practice for flat bags"},
	{Chilled, 0.2, 0.35, 0.5, "crates and pans on racks: common practice"},
	{Dry, 0.35, 0.5, 0.7, "bags, tins and boxes on shelves: common practice; sacks of flour or rice piled up come to 0.7 (stowage 1.4 m3/t, from memory)"},
}

// StowOf is what is taken for places of a kind; of no kind, that of a freezer, which is usual of what holds packs.
func StowOf(k Kind) Stowing {
	for _, s := range stowings {
		if s.Kind == k {
			return s
		}
	}
	return stowings[0]
}

// stow is what a litre of the place holds.
func (p Place) stow() unit.Density {
	if p.Stow > 0 {
		return p.Stow
	}
	return StowOf(p.Kind).Usual
}
