package unit

import (
	"math"
	"strconv"
	"strings"
)

// Show is a quantity as a cook reads it at arm's length: rounded, in the units of one system. How far it is rounded is said
// at each method. What Show gives is for reading; MarshalText gives what reads back exactly.

// figures is x to three significant figures, but never coarser than 1: 3.2, 0.0125, 1234. The error is at most 0.5 %.
func figures(x float64) string {
	if x == 0 {
		return "0"
	}
	places := max(0, 2-int(math.Floor(math.Log10(math.Abs(x)))))
	text := strconv.FormatFloat(x, 'f', places, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
	}
	return text
}

// showIn is x units to three figures. Bigger is shown if what is printed would reach it: 999.6 g is 1 kg.
func showIn(x float64, word string, perBigger float64, bigger string) string {
	text := figures(x)
	if shown, err := strconv.ParseFloat(text, 64); err == nil && shown >= perBigger {
		text, word = figures(x/perBigger), bigger
	}
	return text + " " + word
}

// withSign is show of v without its sign, behind its sign.
func withSign[T ~int64](v T, show func(T) string) string {
	switch {
	case v == math.MinInt64:
		v = math.MinInt64 + 1
		fallthrough
	case v < 0:
		return "-" + show(-v)
	}
	return show(v)
}

// Show of a span is the same in both systems: under 2 min in seconds, but for 1 min; under 10 min in minutes and seconds; under 1 h in minutes;
// under a day in hours and minutes; else in days and hours. It is rounded to the smaller of the two, halves up: at most 5 %
// just above 10 min, at most 2.1 % from 1 day on.
func (d Span) Show(System) string { return withSign(d, Span.show) }

func (d Span) show() string {
	grain := Hour
	switch {
	case d < 10*Minute:
		grain = Second
	case d < Day-Minute/2:
		grain = Minute
	}
	if rest := d % grain; rest != 0 && d < math.MaxInt64-grain {
		d += grain*Span(halfUp(uint64(rest), uint64(grain))) - rest
	}
	if d < 2*Minute && d != Minute {
		return strconv.FormatInt(int64(d), 10) + " s"
	}
	text, _ := appendChain(nil, uint64(d), chains[spanKind]) // whole seconds are always exact
	return string(text)
}

// Show of a temperature is in whole degrees, halves away from zero.
func (t Temp) Show(s System) string {
	degrees, word := t.C(), " °C"
	if s == US {
		degrees, word = t.F(), " °F"
	}
	return strconv.FormatFloat(math.Round(degrees)+0, 'f', 0, 64) + word // +0: minus zero is zero
}

// Show of a power is to three figures, in W or kW, or in Btu/h.
func (p Power) Show(s System) string {
	if s == US {
		return withCommas(figures(p.W()/wattsPerBtuH)) + " Btu/h"
	}
	return withSign(p, func(p Power) string { return showIn(p.W(), "W", 1000, "kW") })
}

// Show of a share is in per cent, to three figures, the same in both systems.
func (s Share) Show(System) string { return figures(100*s.F()) + " %" }

// Show of a count is as it is.
func (c Count) Show(System) string { return c.String() }

// Show of a density is to three figures, in kg/L or lb/gal.
func (d Density) Show(s System) string {
	return showRate(float64(d), s, "kg/L", kgPerLb/litrePerGal, "lb/gal")
}

// Show of a load on an area is to three figures, in kg/m² or lb/ft².
func (a AreaLoad) Show(s System) string {
	return showRate(float64(a), s, "kg/m²", kgPerLb/m2PerFt2, "lb/ft²")
}

// Show of an evaporation is to three figures, in kg/m²·h or lb/ft²·h.
func (e Evaporation) Show(s System) string {
	return showRate(float64(e), s, "kg/m²·h", kgPerLb/m2PerFt2, "lb/ft²·h")
}

// Show of a pace is to three figures, in s/kg or min/kg, or in s/lb or min/lb; minutes from 2 min on.
func (p Pace) Show(s System) string {
	perUnit, word := float64(p), "/kg"
	if s == US {
		perUnit, word = perUnit*kgPerLb, "/lb"
	}
	if perUnit < 120 {
		return figures(perUnit) + " s" + word
	}
	return figures(perUnit/60) + " min" + word
}

// Show of a surface heat transfer coefficient is to three figures, in W/m²·K or Btu/h·ft²·°F.
func (f Film) Show(s System) string {
	return showRate(float64(f), s, "W/m²·K", wattsPerBtuH/m2PerFt2/kPerF, "Btu/h·ft²·°F")
}

func showRate(x float64, s System, metric string, perUS float64, us string) string {
	if s == US {
		return figures(x/perUS) + " " + us
	}
	return figures(x) + " " + metric
}

// Fine is a mass in grams to a tenth, in either system of units: rounded ounces would hide what packs scatter by.
func (m Mass) Fine() string { return strconv.FormatFloat(m.Kg()*1000, 'f', 1, 64) + " g" }
