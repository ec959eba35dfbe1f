package coldstore

import "kettlefrost/internal/unit"

// DoorLimit is how warm something may be when it comes through the door.
type DoorLimit struct {
	Kind   Kind
	AtMost unit.Temp
	Says   string
	Source string
}

// doorLimits are those of things that must be cold. Dry goods have none.
var doorLimits = []DoorLimit{
	{Chilled, unit.TempF(41), "refrigerated food is received at 41 °F (5 °C) or below; where the law of a trade names another limit (milk, shellfish, shell eggs in air of 45 °F), a named person decides",
		"FDA Food Code 2022, 3-202.11(A) to (C)"},
	{Frozen, unit.TempC(-12), "food shipped frozen is received frozen; −12 °C (10 °F) is the warmest that quick frozen food may come to while it is handled, and what has thawed and frozen again shows ice and misshapen packs",
		"FDA Food Code 2022, 3-202.11(E) and (F), which name no figure; −12 °C: Codex CXC 8-1976, from memory"},
}

// DoorLimitOf is the limit for things to be kept so; false when there is none.
func DoorLimitOf(k Kind) (DoorLimit, bool) {
	for _, l := range doorLimits {
		if l.Kind == k {
			return l, true
		}
	}
	return DoorLimit{}, false
}

// Over says that something came too warm.
func (l DoorLimit) Over(t unit.Temp) bool { return t > l.AtMost }
