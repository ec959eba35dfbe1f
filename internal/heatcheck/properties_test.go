package heatcheck

import (
	"fmt"

	"kettlefrost/internal/heat"
)

func (l *lab) properties() section {
	s := section{title: "Properties from composition",
		intro: "What a food weighs, stores and conducts, from its water, protein, fat, carbohydrate, fibre and ash, and how much of it is ice."}
	componentLines(&s)
	printedLines(&s)
	mixtureLines(&s)
	measuredLines(&s)
	exampleLines(&s)
	freezingPointLines(&s)
	constantLines(&s)
	s.note("Fibre is counted twice in the printed specific heats: the rows come out to the last digit only so. In a composition of your own it " +
		"counts once. The printed heat below freezing is that of −40 °C and is not used as a mean.")
	s.note("The components' polynomials below 0 °C and those of ice are private to the package that uses them; its own test has them.")
	return s
}

// component is one of the six, at 0, 20 and 80 °C: k W/(m·K), density kg/m³, specific heat kJ/(kg·K).
type component struct {
	name, inFile string
	pure         heat.Composition
	k, rho, cp   [3]float64
}

var components = []component{
	{"water", "water", heat.Composition{Water: 1}, [3]float64{0.57109, 0.603659, 0.669187}, [3]float64{997.18, 995.74, 973.384}, [3]float64{4.1762, 4.17657, 4.20396}},
	{"protein", "protein", heat.Composition{Protein: 1}, [3]float64{0.17881, 0.201639, 0.25708}, [3]float64{1329.9, 1319.53, 1288.43}, [3]float64{2.0082, 2.03185, 2.09651}},
	{"fat", "fat", heat.Composition{Fat: 1}, [3]float64{0.18071, 0.175118, 0.157491}, [3]float64{925.59, 917.239, 892.184}, [3]float64{1.9842, 2.01175, 2.07134}},
	{"carbohydrate", "carb", heat.Composition{Carb: 1}, [3]float64{0.20141, 0.227426, 0.284682}, [3]float64{1599.1, 1592.89, 1574.26}, [3]float64{1.5488, 1.58567, 1.66778}},
	{"fibre", "fibre", heat.Composition{Fibre: 1}, [3]float64{0.18331, 0.207037, 0.263009}, [3]float64{1311.5, 1304.18, 1282.23}, [3]float64{1.8459, 1.88065, 1.96258}},
	{"ash", "ash", heat.Composition{Ash: 1}, [3]float64{0.32962, 0.356479, 0.423104}, [3]float64{2423.8, 2418.19, 2401.35}, [3]float64{1.0926, 1.12892, 1.22021}},
}

func componentLines(s *section) {
	var k, rho, cp []value
	for _, c := range components {
		for i, tempC := range []float64{0, 20, 80} {
			p, err := c.pure.At(tempC)
			name, body := fmt.Sprintf("%s at %g °C", c.name, tempC), "choi-okos "+c.inFile
			quantity := func(of string) string { return fmt.Sprintf("%s at %g C", of, tempC) }
			k = append(k, of(c.k[i])(p.ConductivityWMK, err).as(name).at(body, quantity("k"), 1))
			rho = append(rho, of(c.rho[i])(p.DensityKgM3, err).as(name).at(body, quantity("density"), 1))
			cp = append(cp, of(c.cp[i])(p.SpecificHeatJKgK/1000, err).as(name).at(body, quantity("cp"), 1))
		}
	}
	src := source{"Choi and Okos 1986, polynomials read in a copy of the table", inputsRead}
	s.add("conductivity of a component", "W/(m·K)", src, percent(0.1), k...)
	s.add("density of a component", "kg/m³", src, percent(0.1), rho...)
	s.add("specific heat of a component", "kJ/(kg·K)", src, percent(0.1), cp...)
	water, err := heat.Composition{Water: 1}.At(80)
	steam := source{"steam tables", memory}
	s.add("water at 80 °C: density", "kg/m³", steam, percent(0.3), of(971.8)(water.DensityKgM3, err))
	s.add("water at 80 °C: conductivity", "W/(m·K)", steam, percent(0.3), of(0.670)(water.ConductivityWMK, err))
	s.add("water at 80 °C: specific heat", "kJ/(kg·K)", steam, percent(0.3), of(4.196)(water.SpecificHeatJKgK/1000, err))
}

// printedLines: the tolerance is the last printed digit.
func printedLines(s *section) {
	for _, group := range []struct {
		kind string
		read bool
		src  source
	}{
		{"vegetables", true, source{"ASHRAE Handbook Refrigeration (2006), thermal properties of foods, table 3", read}},
		{"potato, meat and dairy", false, source{"the same table", partMemory}},
	} {
		var above, below, latent []value
		for _, f := range foods {
			if f.readThere != group.read {
				continue
			}
			above = append(above, of(f.above)(f.aboveKJKgK()).as(f.name))
			if f.below > 0 {
				below = append(below, of(f.below)(f.belowKJKgK()).as(f.name))
			}
			latent = append(latent, of(f.latent)(f.composition().Water*heat.LatentHeatIceJKg/1000, nil).as(f.name))
		}
		s.add("printed specific heat above freezing, "+group.kind, "kJ/(kg·K)", group.src, absolute(0.006), above...)
		s.add("printed specific heat below freezing, "+group.kind, "kJ/(kg·K)", group.src, absolute(0.006), below...)
		s.add("printed latent heat, "+group.kind, "kJ/kg", group.src, absolute(1), latent...)
	}
}

func mixtureLines(s *section) {
	var rho, cp, k, ice, tchigeov, levy, chen []value
	for _, f := range foods {
		c, body := f.composition(), "mix "+f.inFile
		p, err := c.At(20)
		rho = append(rho, of(f.rho20)(p.DensityKgM3, err).as(f.name).at(body, "density 20 C", 1))
		cp = append(cp, of(f.cp20)(p.SpecificHeatJKgK/1000, err).as(f.name).at(body, "cp 20 C (fibre once)", 1))
		k = append(k, of(f.k20)(p.ConductivityWMK, err).as(f.name).at(body, "k parallel 20 C", 1))
		if f.ice == 0 {
			continue
		}
		frozen, err := c.State(-20, f.freezesC)
		ice = append(ice, of(f.ice)(frozen.IceShare, err).as(f.name).at(body, "ice fraction -20 C, (xw-xb)(1-tf/t)", 1))
		levy = append(levy, of(f.levy)(frozen.ConductivityWMK, err).as(f.name).at(body, "k Levy -20 C (ice dispersed in the rest)", 1))
		tchigeov = append(tchigeov, of(f.tchigeov)(heat.TchigeovIceShare(c.Water, f.freezesC, -20)).as(f.name).
			at(body, "ice fraction -20 C, Tchigeov", 1))
		chen = append(chen, of(f.chen20)(f.chenKJKg(-20)).as(f.name+" at −20 °C").at(body, "Chen enthalpy -20 C above -40 C", 1),
			of(f.chen10)(f.chenKJKg(10)).as(f.name+" at 10 °C").at(body, "Chen enthalpy 10 C above -40 C", 1))
	}
	s.add("density of a food at 20 °C", "kg/m³", apart, percent(0.2), rho...)
	s.add("specific heat of a food at 20 °C", "kJ/(kg·K)", apart, percent(0.2), cp...)
	s.add("conductivity of a food at 20 °C (parallel)", "W/(m·K)", apart, percent(0.2), k...)
	s.add("ice in a food at −20 °C, ideal solution with bound water", "kg/kg", apart, percent(0.2), ice...)
	s.add("ice in a food at −20 °C, Tchigeov", "kg/kg", source{"ASHRAE eq. 5, read in a public statement of it", inputsRead}, percent(0.2), tchigeov...)
	s.add("conductivity of a food at −20 °C (Levy)", "W/(m·K)", source{"Levy 1981, formula from memory, worked out apart from this code", derived}, percent(0.3), levy...)
	s.add("enthalpy above −40 °C after Chen", "kJ/kg", source{"Chen 1985, ASHRAE eqs. 15 and 18, read in a public statement of them", inputsRead}, percent(0.3), chen...)

	broth := parts(97, 1.1, 0.2, 0.5, 0, 1.2)
	p, err := broth.At(20)
	frozen, err2 := broth.State(-20, -0.6)
	body := "clear broth 97.0/1.1/0.2/0.5/ash 1.2 tf -0.6 (composition assumed)"
	s.add("clear broth (assumed composition): density, specific heat, conductivities, freezable heat", "each in its unit", apart, percent(0.3),
		of(1007.28)(p.DensityKgM3, err).as("density").at(body, "density 20 C", 1),
		of(4.09912)(p.SpecificHeatJKgK/1000, err).as("specific heat").at(body, "cp 20 C", 1),
		of(0.596916)(p.ConductivityWMK, err).as("conductivity").at(body, "k 20 C", 1),
		of(2.21907)(frozen.ConductivityWMK, err2).as("conductivity at −20 °C").at(body, "k Levy -20 C", 1),
		of(322.124)(broth.FreezableWater()*heat.LatentHeatIceJKg/1000, nil).as("freezable heat").at(body, "freezable latent heat", 1))
}

// measuredLines are held to what people measured, so their tolerances are those of a model, not of arithmetic.
func measuredLines(s *section) {
	var k, levy []value
	for _, m := range []struct{ tempC, k, levy float64 }{{-10, 1.2086, 1.30772}, {-20, 1.3264, 1.37687}, {-40, 1.4996, 1.47221}} {
		frozen, err := parts(74.86, 23.09, 1.24, 0, 0, 1.02).State(m.tempC, -0.8)
		k = append(k, of(m.k)(frozen.ConductivityWMK, err).as(fmt.Sprintf("at %s °C", number(m.tempC))).
			at("chicken white meat", fmt.Sprintf("k measured fit at %g C", m.tempC), 1))
		levy = append(levy, of(m.levy)(frozen.ConductivityWMK, err).as(fmt.Sprintf("at %s °C", number(m.tempC))).
			at("chicken white meat, tf -0.8", fmt.Sprintf("k Levy at %g C", m.tempC), 1))
	}
	s.add("conductivity of frozen chicken white meat, measured", "W/(m·K)",
		source{"Sweat, Haugh and Stadelman 1973, fit in the abstract; composition from memory", read}, percent(10), k...)
	s.add("the same, Levy's model", "W/(m·K)", source{"Levy 1981, formula from memory, worked out apart from this code", derived}, percent(0.3), levy...)

	beef := parts(74.5, 22, 2.4, 0, 0, 1.1)
	drop := func(toC float64) (float64, error) {
		warm, err := beef.State(0, -1)
		if err != nil {
			return 0, err
		}
		cold, err := beef.State(toC, -1)
		return (warm.EnthalpyJKg - cold.EnthalpyJKg) / 1000, err
	}
	s.add("heat given off by lean beef from 0 °C down, measured", "kJ/kg", source{"Riedel's enthalpies as tabulated by ASHRAE", memory}, percent(4),
		of(304-72)(drop(-10)).as("to −10 °C"), of(304-42)(drop(-20)).as("to −20 °C"), of(304)(drop(-40)).as("to −40 °C"))

	var salt []value
	for _, m := range []struct{ molal, depressionK float64 }{{0.05, 0.18}, {0.10, 0.35}, {0.25, 0.85}, {0.50, 1.68}, {0.75, 2.60}} {
		kg := m.molal * heat.Salt.MolarMassKgMol // in 1 kg of water
		t, err := heat.FreezingPointC(1/(1+kg), heat.Solute{Kind: heat.Salt, Share: kg / (1 + kg)})
		salt = append(salt, of(-m.depressionK)(t, err).as(fmt.Sprintf("%g mol/kg", m.molal)))
	}
	s.add("freezing point of salt water, measured", "°C", source{"Smithsonian Physical Tables in the CRC Handbook", read}, percent(5), salt...)
}

func exampleLines(s *section) {
	recalled := source{"ASHRAE ch. 19, worked example, recalled and done again", memory}
	s.add("example 1, beef carcass at −20 °C: ice (Tchigeov)", "kg/kg", recalled, absolute(0.005),
		of(0.51638)(heat.TchigeovIceShare(0.58, -1.7, -20)).at("ASHRAE ch.19 ex.1 beef carcass xw 0.58 tf -1.7", "Tchigeov ice fraction -20 C", 1))
	lamb, err := parts(73.42, 20.29, 5.25, 0, 0, 1.06).At(5)
	s.add("example 2, lamb at 5 °C: specific heat", "kJ/(kg·K)", recalled, absolute(0.01),
		of(3.59085)(lamb.SpecificHeatJKgK/1000, err).at("ASHRAE ch.19 ex.2 lamb 73.42/20.29/5.25/ash 1.06", "cp at 5 C", 1))
	s.add("example 2, 150 kg of lamb, 10 to 0 °C: heat", "kJ", recalled, percent(0.2), of(5390)(150*10*lamb.SpecificHeatJKgK/1000, err))
	beef := heat.ChenFood{Water: 0.5821, Protein: 0.1748, Solids: 1 - 0.5821, FreezingPointC: -1.7}
	warm, err := beef.EnthalpyJKg(10)
	cold, err2 := beef.EnthalpyJKg(-20)
	if err == nil {
		err = err2
	}
	s.add("example 3, beef 10 to −20 °C: heat after Chen", "kJ/kg", recalled, percent(0.5),
		of(231.582)((warm-cold)/1000, err).at("ASHRAE ch.19 ex.3 beef 58.21 water 17.48 protein tf -1.7", "Chen enthalpy drop 10 -> -20 C", 1))
	own, err := parts(58.21, 17.48, 23.5, 0, 0, 0.81).FreezingFood(-1.7, 5)
	drop, err2 := own.HeatJKg(10, -20)
	if err == nil {
		err = err2
	}
	s.add("the same beef with the model that the simulation uses", "kJ/kg", recalled, percent(5), of(231.582)(drop/1000, err))
	pork, err := parts(72.63, 19.55, 7.14, 0, 0, 1.02).State(-40, -2.2)
	body := "lean pork shoulder 72.63/19.55/7.14/ash 1.02 tf -2.2 at -40 C"
	s.add("example 4, lean pork shoulder at −40 °C: ice, density, conductivity (Levy)", "each in its unit", recalled, percent(0.3),
		of(0.612454)(pork.IceShare, err).as("ice").at(body, "ice fraction", 1),
		of(999.637)(pork.DensityKgM3, err).as("density").at(body, "density", 1),
		of(1.35819)(pork.ConductivityWMK, err).as("conductivity").at(body, "k Levy", 1))
}

// freezingPointLines: the derived values count two ions per salt; the engine's own count is 1.85, after the measured depressions.
func freezingPointLines(s *section) {
	ions := heat.SoluteKind{MolarMassKgMol: heat.Salt.MolarMassKgMol, Particles: 2}
	s.add("ideal freezing point of salt and sugar in water", "°C", source{"Raoult's law, worked out apart from this code", derived}, absolute(0.01),
		of(-0.735334)(heat.FreezingPointC(0.86, heat.Solute{Kind: ions, Share: 0.010})).as("1 % salt, 86 % water").
			at("ideal freezing point", "0.86 kg water, 10 g NaCl per kg food", 1),
		of(-0.587493)(heat.FreezingPointC(0.97, heat.Solute{Kind: ions, Share: 0.009})).as("0.9 % salt, 97 % water").
			at("ideal freezing point", "0.97 kg water, 9 g NaCl per kg food", 1),
		of(-1.08981)(heat.FreezingPointC(0.86, heat.Solute{Kind: ions, Share: 0.010}, heat.Solute{Kind: heat.Glucose, Share: 0.030})).as("with 3 % glucose").
			at("ideal freezing point", "0.86 kg water, 10 g NaCl + 30 g glucose per kg food", 1))
}

// constantLines: the seven constants that a simulation needs, from the assumed recipes, and the heat that the rounded ones give.
func constantLines(s *section) {
	var constants, heats []value
	for _, r := range []struct {
		name         string
		of           heat.Composition
		cold         heat.FreezingFood
		kuHot        float64
		to15, from18 float64 // kJ/kg
	}{
		{"soup", parts(86, 3.5, 3, 5.5, 1, 1), soupCold, 0.59, 318.258, 592.15},
		{"braise", parts(72, 16, 7, 3.5, 0.5, 1), braiseCold, 0.53, 253.912, 508.716},
	} {
		cold, err := r.of.FreezingFood(r.cold.FreezingPointC, 5)
		hot, err2 := r.of.FreezingFood(r.cold.FreezingPointC, 40)
		constants = append(constants,
			of(r.cold.DensityKgM3)(cold.DensityKgM3, err).as(r.name+", density"),
			of(r.cold.UnfrozenHeatJKgK)(cold.UnfrozenHeatJKgK, err).as(r.name+", unfrozen heat"),
			of(r.cold.FrozenHeatJKgK)(cold.FrozenHeatJKgK, err).as(r.name+", frozen heat"),
			of(r.cold.FreezableJKg)(cold.FreezableJKg, err).as(r.name+", freezable heat"),
			of(r.cold.UnfrozenConductivityWMK)(cold.UnfrozenConductivityWMK, err).as(r.name+", conductivity, cold"),
			of(r.kuHot)(hot.UnfrozenConductivityWMK, err2).as(r.name+", conductivity, hot"),
			of(r.cold.FrozenConductivityWMK)(cold.FrozenConductivityWMK, err).as(r.name+", conductivity, frozen"))
		heats = append(heats,
			of(r.to15)(times(1e-3)(r.cold.HeatJKg(5, -15))).as(r.name+", 5 to −15 °C").at(r.name, "enthalpy 5 -> -15 C", 1),
			of(r.from18)(times(1e-3)(r.cold.HeatJKg(73.9, -18))).as(r.name+", −18 to 73.9 °C").at(r.name, "enthalpy -18 -> 73.9 C", 1))
	}
	s.add("the seven constants of two assumed recipes from their composition; theirs are rounded", "each in its unit", source{"the same models in another program", derived}, percent(1), constants...)
	s.add("heat to freeze and to reheat a kilogram", "kJ/kg", source{"closed form, worked out apart from this code", derived}, percent(0.2), heats...)
}
