package heatcheck

import (
	"math"

	"kettlefrost/internal/freezing"
	"kettlefrost/internal/heat"
)

func (l *lab) formulas() section {
	s := section{title: "Handbook formulas beside the simulation",
		intro: "Plank's and Pham's formulas are shown for comparison and for instant estimates; the answer is the simulation's."}
	textbookPlank(&s)
	gelSlab := freezing.Freeze{Food: gel, Shape: heat.Slab, SizeM: 0.05, FilmWM2K: 25, StartC: 10, AirC: -30, CoreC: -10}
	body := "gel slab 0.05 m h 25 air -30 Ti 10 Tc -10"
	s.add("Pham, gel slab 50 mm", "s", source{"Pham 1986, formula from memory, worked out apart from this code", derived}, percent(0.1),
		of(11710.6)(gelSlab.TimeS()).at(body, "Pham 1986 with Lv from the enthalpy actually released to Tc, ks = k(Tc)", 1))
	s.add("Plank, gel slab 50 mm", "s", apart, percent(0.1), of(8697.95)(plankS(gelSlab)).at(body, "Plank (A only)", 1))
	l.ratioLines(&s)
	dimensionLines(&s)
	s.note("Pham's formula can be off by a tenth either way. Plank's is always short, most in still air where the bag has to come close " +
		"to the temperature of the air.")
	return s
}

func plankS(f freezing.Freeze) (float64, error) {
	p, err := f.Plank()
	if err != nil {
		return 0, err
	}
	return p.TimeS()
}

func textbookPlank(s *section) {
	meat := freezing.Plank{Shape: heat.Slab, SizeM: 0.0635, LatentJM3: 0.75 * 335e3 * 1057, FrozenConductivityWMK: 1.038, FilmWM2K: 17,
		FreezingPointC: 270.4 - 273.15, AirC: 244.3 - 273.15}
	s.add("Plank, meat slab 63.5 mm (Geankoplis 5.5-2)", "h", source{"textbook's companion code", inputsRead}, percent(0.2),
		of(6.65123)(inHours(meat.TimeS())).
			at("Geankoplis 5.5-2 lean meat slab 0.0635 m 75% water L 335 kJ/kg rho 1057 k 1.038 h 17 Tf 270.4 K air 244.3 K", "Plank time", 1))
	slab := freezing.Plank{Shape: heat.Slab, SizeM: 0.10, LatentJM3: 256e3 * 1090, FrozenConductivityWMK: 1.6, FilmWM2K: 600, FreezingPointC: -2, AirC: -34}
	earle := source{"Earle, Unit Operations in Food Processing; the book has 4.1 and 2.0 to 2.1 h", partMemory}
	bare, err := slab.TimeS()
	slab.FilmWM2K, _ = heat.CoatedFilmWM2K(600, heat.Coat{ThicknessM: 1e-3, ConductivityWMK: 0.06})
	s.add("Plank, meat in a plate freezer, cardboard on both sides", "h", earle, percent(0.5), of(4.11273)(inHours(slab.TimeS())).
		at("Earle plate freezer meat 0.10 m, 1 mm cardboard each side, h 600, k 1.6, L 256 kJ/kg rho 1090 -2/-34 C", "Plank time", 1))
	s.add("Plank, the same without cardboard", "h", earle, percent(0.5),
		of(2.09421)(bare/hourS, err).at("Earle same without cardboard", "Plank time", 1))
}

// ratioLines: the formulas over the simulation, in the cases of flat and round bodies of the section on freezing.
func (l *lab) ratioLines(s *section) {
	var cases []freezing.Freeze
	for _, b := range bags {
		for _, coreC := range []float64{-10, -15} {
			for _, food := range []heat.FreezingFood{soupCold, braiseCold} {
				cases = append(cases, freezing.Freeze{Food: food, Shape: heat.Slab, SizeM: 0.0254, FilmWM2K: b.film, StartC: 5, AirC: b.airC, CoreC: coreC})
			}
		}
	}
	for _, c := range []struct{ sizeM, film, startC, airC float64 }{{0.05, 25, 10, -30}, {0.024, 13.9, 20, -30}, {0.1, 25, 10, -25}, {0.1, 100, 20, -35}, {0.0254, 8, 5, -18}, {0.0254, 300, 5, -20}} {
		cases = append(cases, freezing.Freeze{Food: gel, Shape: heat.Slab, SizeM: c.sizeM, FilmWM2K: c.film, StartC: c.startC, AirC: c.airC, CoreC: -10})
	}
	var pham, plank [2]float64
	var failed error
	for i, f := range cases {
		simulated, err := l.coreS(slab(f.Food, f.StartC, f.SizeM, face(f.FilmWM2K, f.AirC)), f.CoreC)
		byPham, err2 := f.TimeS()
		byPlank, err3 := plankS(f)
		for _, e := range []error{err, err2, err3} {
			if e != nil {
				failed = e
			}
		}
		for _, r := range []struct {
			into  *[2]float64
			ratio float64
		}{{&pham, byPham / simulated}, {&plank, byPlank / simulated}} {
			if i == 0 {
				*r.into = [2]float64{r.ratio, r.ratio}
			}
			r.into[0], r.into[1] = math.Min(r.into[0], r.ratio), math.Max(r.into[1], r.ratio)
		}
	}
	src := source{"27 other slabs against a second finite-volume program", derived}
	wider := "; bags to −15 °C are not among those 27"
	for i, end := range []string{"smallest", "largest"} {
		s.add("Pham over simulation, "+end+" of 26 cases", "", src, between(0.91, 1.12), from(pham[i], failed))
		s.add("Plank over simulation, "+end+" of 26 cases", "", src, between(0.65, 0.88).reading("0.65 to 0.88"+wider),
			from(plank[i], failed).beside("0.69 to 0.87", ""))
	}
}

// dimensionLines: how many slabs' worth of surface work on a brick. The formula is optimistic, so it is held to its own arithmetic only.
func dimensionLines(s *section) {
	var arithmetic []value
	for _, c := range []struct {
		name, inFile       string
		food               heat.FreezingFood
		mm, mm1, mm2       float64
		film               float64
		formula, simulated float64
	}{
		{"soup bag", "soup brick 25.4x160x165 mm h 8 air -18 Ti 5 Tc -10", soupCold, 25.4, 160, 165, 8, 1.27, 1.20732},
		{"stack of four alone", "soup brick 101.6x160x165 mm h 8 air -18 Ti 5 Tc -10", soupCold, 101.6, 160, 165, 8, 2.18, 2.08556},
		{"gel block", "gel brick 40x120x160 mm h 40 air -30 Ti 10 Tc -10", gel, 40, 120, 160, 40, 1.40, 1.1448},
		{"gel cube", "gel cube 40 mm h 8 air -18 Ti 5 Tc -10", gel, 40, 40, 40, 8, 3.00, 2.96715},
	} {
		k, err := c.food.ConductivityWMK(-10)
		got := 0.0
		if err == nil {
			got, err = freezing.Dimensionality(c.film*c.mm/2000/k, c.mm1/c.mm, c.mm2/c.mm)
		}
		arithmetic = append(arithmetic, of(c.formula)(got, err).as(c.name))
		s.add("slab time over brick time by the formula, "+c.name, "", explicitRow,
			shownOnly("the formula is an approximation, and optimistic; the simulation of bricks is used instead"), of(c.simulated)(got, err).
				at(c.inFile, "slab time / brick time", 1))
	}
	s.add("the same formula's own arithmetic", "", source{"formula from memory, worked out apart from this code to two decimals", derived}, absolute(0.01), arithmetic...)
}
