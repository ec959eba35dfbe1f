package dispersal

import (
	"fmt"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/unit"
)

// Say is one thing to do in a cook's words, in a kitchen's units. Small amounts are in grams, as they are weighed.
func Say(s dosing.Step, units unit.System) string {
	much := ""
	if s.Mass > 0 {
		much = s.Mass.Show(units) + " of "
		if s.Mass < 500*unit.Gram {
			much = dosing.Grams(s.Mass) + " of "
		}
	}
	text := ""
	switch s.Act {
	case dosing.HoldBack:
		text = "Hold back " + much + s.What
	case dosing.MixDry:
		text = fmt.Sprintf("Mix %s%s dry with the %s", much, s.What, s.Into)
	case dosing.StirInOil, dosing.StirCold, dosing.StirIn:
		text = fmt.Sprintf("Stir %s%s into %s", much, s.What, s.Into)
	case dosing.StartJar:
		text = fmt.Sprintf("Start %s with %s%s", s.Into, much, s.What)
	case dosing.Sprinkle:
		text = fmt.Sprintf("Sprinkle %s%s into %s", much, s.What, s.Into)
	case dosing.Blend:
		text = "Blend " + s.What
	case dosing.Boil:
		text = "Boil " + s.What
	case dosing.Soak:
		text = "Let " + s.What + " soak"
	case dosing.Heat:
		text = fmt.Sprintf("Heat %s to %s", s.What, unit.TempC(s.AtC).Show(units))
	case dosing.AddAfter:
		text = fmt.Sprintf("Only then add %s to %s", s.What, s.Into)
	}
	switch {
	case s.Seconds >= 3600:
		text += fmt.Sprintf(", %g h", float64(s.Seconds)/3600)
	case s.Seconds >= 120:
		text += fmt.Sprintf(", %g min", float64(s.Seconds)/60)
	case s.Seconds > 0:
		text += fmt.Sprintf(", %d s", s.Seconds)
	}
	if s.Times > 1 {
		text += fmt.Sprintf(" (%d times)", s.Times)
	}
	if s.Note != "" {
		text += ": " + s.Note
	}
	return text + "."
}

// WayWords is a way in words.
func WayWords(w dosing.Way) string {
	switch w {
	case dosing.PreHydrate:
		return "blended into cold liquid"
	case dosing.OilSlurry:
		return "stirred up in oil"
	case dosing.DryBlend:
		return "mixed dry with another powder"
	case dosing.ColdSlurry:
		return "stirred up in cold liquid"
	case dosing.Dissolve:
		return "dissolved in the warm liquid"
	}
	return string(w)
}
