package heat

import (
	"fmt"
	"strings"
)

// checkFoodNames are the foods of the check file by the names they have in the table of these tests.
var checkFoodNames = map[string]string{"beef sirloin lean": "lean beef sirloin", "beef carcass choice": "beef carcass",
	"milk whole": "whole milk"}

// checkFood is a food of the check file; twice counts fibre a second time, as part of carbohydrate, as the printed table does.
type checkFood struct {
	once     Composition
	twice    float64 // kJ/(kg·K) at 20 °C
	solids   float64 // sum of the listed ones, fibre twice
	freezesC float64
}

func findCheckFood(name string) (checkFood, bool) {
	if other, ok := checkFoodNames[name]; ok {
		name = other
	}
	for _, f := range foods {
		if f.name == name {
			c := percent(f.water, f.protein, f.fat, f.carb-f.fibre, f.fibre, f.ash)
			again := f.fibre / 100
			return checkFood{c, c.mixAt(20, 0).specificHeat()/1000 + again*carb.heatKJKgK(20), c.Sum() - c.Water + again, f.freezesC}, true
		}
	}
	return checkFood{}, false
}

// checkFileFood works out the rows of components and foods.
func checkFileFood(body, quantity string) (float64, bool) {
	if name, ok := strings.CutPrefix(body, "choi-okos "); ok {
		return componentValue(name, quantity)
	}
	kind, name, _ := strings.Cut(body, " ")
	if f, ok := findCheckFood(name); ok && kind == "table3" {
		return tableValue(f, quantity)
	} else if ok && kind == "mix" {
		return mixValue(f, quantity)
	}
	switch {
	case strings.HasPrefix(body, "chicken white meat"):
		return whiteMeatValue(quantity)
	case strings.HasPrefix(body, "clear broth"):
		return mixValue(checkFood{once: percent(97, 1.1, 0.2, 0.5, 0, 1.2), freezesC: -0.6}, quantity)
	case strings.HasPrefix(body, "lean pork shoulder"):
		return mixValue(checkFood{once: percent(72.63, 19.55, 7.14, 0, 0, 1.02), freezesC: -2.2}, quantity+" -40 C")
	case strings.HasPrefix(body, "ideal freezing point"):
		return idealValue(quantity)
	}
	return ashraeExample(body)
}

func tableValue(f checkFood, quantity string) (float64, bool) {
	switch {
	case strings.HasPrefix(quantity, "c above freezing"):
		return f.twice, true
	case strings.HasPrefix(quantity, "c below freezing"):
		ca, err := ChenFood{f.once.Water, f.once.Protein, f.solids, f.freezesC}.HeatJKgK(-40)
		return ca / 1000, err == nil
	}
	return f.once.Water * 334, strings.HasPrefix(quantity, "latent heat")
}

func mixValue(f checkFood, quantity string) (float64, bool) {
	at := 20.0
	for i := range quantity {
		if n, _ := fmt.Sscanf(quantity[i:], " %g C", &at); n == 1 {
			break
		}
	}
	if at >= f.freezesC {
		p, err := f.once.At(at)
		switch strings.Fields(quantity)[0] {
		case "density":
			return p.DensityKgM3, err == nil
		case "cp":
			return p.SpecificHeatJKgK / 1000, err == nil
		case "k":
			return p.ConductivityWMK, err == nil
		case "freezable":
			return f.once.FreezableWater() * LatentHeatIceJKg / 1000, true
		}
	}
	return frozenMixValue(f, quantity, at)
}

func frozenMixValue(f checkFood, quantity string, at float64) (float64, bool) {
	if strings.HasPrefix(quantity, "Chen enthalpy") {
		chen, _ := f.once.Chen(f.freezesC)
		h, err := chen.EnthalpyJKg(at)
		return h / 1000, err == nil
	}
	if strings.HasSuffix(quantity, "Tchigeov") {
		x, err := TchigeovIceShare(f.once.Water, f.freezesC, at)
		return x, err == nil
	}
	s, err := f.once.State(at, f.freezesC)
	switch {
	case err != nil:
		return 0, false
	case strings.HasPrefix(quantity, "ice fraction"):
		return s.IceShare, true
	case strings.HasPrefix(quantity, "density"):
		return s.DensityKgM3, true
	case strings.HasPrefix(quantity, "k parallel"):
		return f.once.mixAt(at, s.IceShare).parallel(), true
	}
	return s.ConductivityWMK, strings.HasPrefix(quantity, "k Levy")
}

// whiteMeatValue: the rows of the measured fit allow 10 %.
func whiteMeatValue(quantity string) (float64, bool) {
	var at float64
	_, end, _ := strings.Cut(quantity, " at ")
	if n, _ := fmt.Sscanf(end, "%g C", &at); n != 1 {
		return 0, false
	}
	s, err := percent(74.86, 23.09, 1.24, 0, 0, 1.02).State(at, -0.8)
	return s.ConductivityWMK, err == nil
}

// idealValue: the file counts two ions per salt.
func idealValue(quantity string) (float64, bool) {
	var water, saltG, glucoseG float64
	if n, _ := fmt.Sscanf(quantity, "%g kg water, %g g NaCl", &water, &saltG); n != 2 {
		return 0, false
	}
	if _, more, ok := strings.Cut(quantity, " + "); ok {
		fmt.Sscanf(more, "%g g glucose", &glucoseG)
	}
	t, err := FreezingPointC(water, Solute{SoluteKind{Salt.MolarMassKgMol, 2}, saltG / 1000}, Solute{Glucose, glucoseG / 1000})
	return t, err == nil
}

func ashraeExample(body string) (float64, bool) {
	switch {
	case strings.HasPrefix(body, "ASHRAE ch.19 ex.1"):
		x, err := TchigeovIceShare(0.58, -1.7, -20)
		return x, err == nil
	case strings.HasPrefix(body, "ASHRAE ch.19 ex.2"):
		p, err := percent(73.42, 20.29, 5.25, 0, 0, 1.06).At(5)
		return p.SpecificHeatJKgK / 1000, err == nil
	case strings.HasPrefix(body, "ASHRAE ch.19 ex.3"):
		f := ChenFood{0.5821, 0.1748, 1 - 0.5821, -1.7}
		warm, err := f.EnthalpyJKg(10)
		cold, err2 := f.EnthalpyJKg(-20)
		return (warm - cold) / 1000, err == nil && err2 == nil
	}
	return 0, false
}
