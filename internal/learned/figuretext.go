package learned

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"kettlefrost/internal/unit"
)

// roundTo is the nearest multiple of one part of so many.
func roundTo(x, parts float64) float64 { return math.Round(x*parts) / parts }

const (
	ounceKg = 0.028349523125
	longS   = 120 // a pace from here on is told in minutes
)

// inOunces says whether the book writes a mass in ounces or pounds.
func inOunces(before string) bool {
	return strings.Contains(before, "oz") || strings.Contains(before, "lb")
}

// rounded is a value to what is worth writing: a thousandth of what goes in, a tenth of a kg/m²h, 5 g or a quarter of an ounce of residue, a
// second or a hundredth of a minute of pace, half a minute of time.
func (k Kind) rounded(x float64, before string) float64 {
	switch {
	case k == Evaporation || k == Fills:
		return roundTo(x, 10)
	case k == Residue && inOunces(before):
		return roundTo(x/ounceKg, 4) * ounceKg
	case k == Residue:
		return roundTo(x, 200)
	case k == Pace && x >= longS:
		return roundTo(x/60, 100) * 60
	case k == Pace || k == PackPace:
		return roundTo(x, 1)
	case k == Time:
		return roundTo(x/30, 1) * 30
	case k == Pot:
		return roundTo(x, 100)
	}
	return roundTo(x, 1000)
}

// written is a value as the book writes it.
func (k Kind) written(x float64) string {
	switch {
	case k == Evaporation:
		return unit.Evaporation(x).String()
	case k == Residue:
		return unit.MassKg(x).String()
	case k == Pace && x >= longS:
		return strconv.FormatFloat(roundTo(x/60, 100), 'f', -1, 64) + " min/kg"
	case k == Pace:
		return unit.Pace(x).String()
	case k == PackPace || k == Time:
		return unit.SpanS(x).String()
	case k == Fills:
		return unit.MassKg(roundTo(x, 10) / 1000).String()
	case k == Pot:
		return "as planned"
	}
	return unit.ShareOf(x).String()
}

// read is a value from how the book writes it; none is nothing.
func (k Kind) read(text string) (x float64, err error) {
	switch {
	case text == none || text == "":
		return 0, nil
	case k == Evaporation:
		e, err := unit.ParseEvaporation(text)
		return float64(e), err
	case k == Residue || k == Fills:
		m, err := unit.ParseMass(text)
		return m.Kg(), err
	case k == Pace:
		p, err := unit.ParsePace(text)
		return float64(p), err
	case k == PackPace || k == Time:
		d, err := unit.ParseSpan(text)
		return d.S(), err
	}
	share, err := unit.ParseShare(text)
	return share.F(), err
}

// Show is a value for reading, in a system of units.
func (k Kind) Show(x float64, s unit.System) string {
	switch k {
	case Evaporation:
		return unit.Evaporation(x).Show(s)
	case Residue:
		return unit.MassKg(x).Show(s)
	case Pace:
		return unit.Pace(x).Show(s)
	case PackPace:
		return fmt.Sprintf("%.0f s each", x)
	case Time:
		return fmt.Sprintf("%.3g min", x/60)
	case Fills:
		return fmt.Sprintf("%.2g g", x)
	case Pot:
		return fmt.Sprintf("%.2f × planned", x)
	}
	return fmt.Sprintf("%.3g %%", 100*x)
}
