package learned

import (
	"cmp"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

const poundKg = 0.45359237

// Words is what the figure is, and of what, as two short phrases: "water lost", "Bake at 400 °F".
func (f Figure) Words(b kitchen.Book) (what, of string) {
	dish := kitchen.DishID(f.Dish)
	of = f.Step
	if step, ok := stepOf(b, dish, f.Step); ok {
		of = strings.TrimRight(step.Do, ". ")
	}
	switch f.Kind {
	case Water:
		return "water lost in cooking", of
	case Fat:
		return "fat lost in cooking", of
	case Drain:
		return "poured off", of
	case ReduceTo:
		return "what is left when it is reduced", of
	case Evaporation:
		return "what evaporates", of
	case Residue:
		return "left sticking, each filling", of
	case Takes:
		return "share that " + outputName(b, dish, f.Step, f.Part) + " takes", of
	case Spread:
		return "how " + outputName(b, dish, f.Step, f.Part) + " scatters from run to run", of
	case Trim:
		return "trimmed off", cmp.Or(b.Ingredients[kitchen.IngredientID(f.Part)].Name, f.Part)
	case Pace:
		return "hands, by weight", of
	case Time:
		return "time of a load", of
	case Pot:
		return "how long the pot takes, all its steps", of
	case PackPace:
		return "hands for one pack", cmp.Or(b.Packs[kitchen.PackID(f.Part)].Name, f.Part)
	}
	return "how filled packs scatter", cmp.Or(b.Packs[kitchen.PackID(f.Part)].Name, f.Part)
}

func outputName(b kitchen.Book, dish kitchen.DishID, step, output string) string {
	if s, ok := stepOf(b, dish, step); ok {
		for _, o := range s.Outputs() {
			if string(o.ID) == output {
				return cmp.Or(o.Name, output)
			}
		}
	}
	return output
}

// Axis is by what a value is multiplied to be counted in the unit that Show has for the book's, and that unit.
func (f Figure) Axis(s unit.System) (factor float64, name string) {
	us := s == unit.US
	switch f.Kind {
	case Evaporation:
		if us {
			return 1 / 4.88242763638305, "lb/ft²·h" // 0.45359237 kg on 0.09290304 m²
		}
		return 1, "kg/m²·h"
	case Residue:
		if us {
			return 1 / 0.028349523125, "oz"
		}
		return 1000, "g"
	case Pace:
		factor, name = 1, "kg"
		if us {
			factor, name = poundKg, "lb"
		}
		if f.Value*factor < longS {
			return factor, "s/" + name
		}
		return factor / 60, "min/" + name
	case Time:
		return 1.0 / 60, "min"
	case PackPace:
		return 1, "s"
	case Fills:
		return 1, "g"
	case Pot:
		return 1, "times as planned"
	}
	return 100, "%"
}
