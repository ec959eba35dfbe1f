package heatcheck

import (
	"fmt"
	"math"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/cooling"
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/vessel"
)

// The reference pot: 40 US gal of the assumed soup in a pot of 0.57 m (assumed).
const (
	potM      = 0.57
	potM3     = 40 * 3.785411784e-3
	potKg     = potM3 * 1030
	potJK     = potKg * 3850
	potDepthM = potM3 / (math.Pi / 4 * potM * potM)
	potTopM2  = math.Pi / 4 * potM * potM
	potWetM2  = potTopM2 + math.Pi*potM*potDepthM
)

func openPot(wet float64) vessel.Open {
	return vessel.Open{Vessel: vessel.Vessel{HeatCapacityJK: potJK, LossWK: vessel.BareWallWM2K * (potWetM2 + potTopM2)}, OpenAreaM2: potTopM2, Wet: wet}
}

func btuH(btu, efficiency float64) vessel.Heater {
	return vessel.Heater{RatedW: btu * 1055.05585262 / 3600, Efficiency: efficiency}
}

func stirred(u float64) cooling.Pot {
	return cooling.Pot{DiameterM: potM, FillM3: 0.2, Have: 1, Wall: known(u), Bath: cooling.Bath{Ice: cooling.ToppedUp}}
}

var potOfSoup = cooling.Food{MassKg: potKg, Props: soupHot, StartC: 57.2}

// fallTo is a rule that never fails, for times that are wanted and not judged.
func fallTo(toC ...float64) (r coolrule.Rule) {
	for _, c := range toC {
		r.Stages = append(r.Stages, coolrule.Stage{ToC: c, WithinS: 9 * 24 * hourS, Start: coolrule.AtTheStart})
	}
	return r
}

// follow is one way of cooling, followed to temperatures.
func follow(f cooling.Food, w cooling.Way, toC ...float64) cooling.Option {
	return cooling.Compare(f, []cooling.Plan{{Stages: []cooling.Stage{{Way: w}}}}, fallTo(toC...))[0]
}

// passed is when the hottest point passes a temperature with the usual coefficients.
func passed(o cooling.Option, toC float64) (float64, error) {
	if o.Err != nil {
		return 0, o.Err
	}
	for _, m := range o.To {
		if math.Abs(m.TempC-toC) < 1e-9 && m.Usual.Reached {
			return m.Usual.TimeS, nil
		}
	}
	return 0, fmt.Errorf("%g °C is not reached", toC)
}

func (l *lab) vessels() section {
	s := section{title: "Stirred vessels, evaporation, ice and heating up",
		intro: "What is stirred has one temperature. The pot is one of 40 gal (151 L) of soup, 57 cm wide."}
	l.iceBathLines(&s)
	stirredAirLines(&s)
	heatUpLines(&s)
	evaporationLines(&s)
	overallLines(&s)
	l.poolLines(&s)
	s.note("Below 37.8 °C, where the table of evaporation ends, the outside program does not say how it goes on. Ours follows the vapour " +
		"pressures.")
	return s
}

func (l *lab) iceBathLines(s *section) {
	var ice []value
	for _, c := range []struct{ u, to21, to5 float64 }{{50, 151.473, 370.164}, {100, 75.7365, 185.082}, {300, 25.2455, 61.6939}} {
		o := follow(potOfSoup, stirred(c.u), 21.1, 5)
		body := fmt.Sprintf("40 gal pot stirred in 0 C ice bath, U %g on 1.318 m2", c.u)
		s.add(fmt.Sprintf("stirred pot in ice water, U %g, 57.2 to 21.1 and 5 °C", c.u), "min", source{"Newton's law, worked out apart from this code", assumed}, percent(0.5),
			of(c.to21)(inMinutes(passed(o, 21.1))).as("to 21.1 °C").at(body, "time 57.2 -> 21.1 C", 1),
			of(c.to5)(inMinutes(passed(o, 5))).as("to 5 °C").at(body, "time 57.2 -> 5 C", 1))
		ice = append(ice, of(93.9541)(o.IceKg, o.Err).as(fmt.Sprintf("U %g", c.u)).at("40 gal pot", "ice to melt for 57.2 -> 5 C", 1))
	}
	balance := source{"heat balance, worked out apart from this code", derived}
	s.add("ice that melts from 57.2 to 5 °C", "kg", balance, percent(0.5), ice...)
	uptake, err := vessel.IceUptakeJKg(-18, 21.1)
	drop, err2 := vessel.Vessel{HeatCapacityJK: potJK}.HeatJ(57.2, 21.1)
	if err == nil {
		err = err2
	}
	s.add("mean power to go from 57.2 to 21.1 °C in 2 h", "W", balance, percent(0.1),
		of(3010.55)(drop/7200, err).at("40 gal pot", "mean power to go 57.2 -> 21.1 C in 2 h", 1))
	s.add("an ice paddle of 3.6 kg from −18 °C that ends at 21.1 °C takes", "kJ", balance, percent(0.5), of(1651.77)(3.6*uptake/1000, err).
		at("ice paddle 3.6 kg water frozen at -18 C, ends at 21.1 C", "heat taken", 1))
	s.add("such paddles for 57.2 to 21.1 °C", "", balance, percent(0.5),
		of(13.1229)(drop/(3.6*uptake), err).at("40 gal pot", "such paddles for 57.2 -> 21.1 C", 1))
	for _, c := range []struct {
		paddles int
		want    string
	}{{13, "not reached"}, {14, "reached"}} {
		p := stirred(0)
		p.Wall, p.Bath = known(0), cooling.Bath{}
		p.Paddles = cooling.Paddles{Have: c.paddles, Together: c.paddles, WaterKg: 3.6, AreaM2: 0.2, Film: known(200), StartC: -18}
		o := follow(potOfSoup, p, 21.1)
		got := "reached"
		if o.Verdict == cooling.Never {
			got = "not reached"
		}
		s.add(fmt.Sprintf("21.1 °C with %d paddles, followed in time", c.paddles), "", balance, sameWord, word(c.want)(got, o.Err))
	}
}

func stirredAirLines(s *section) {
	bare := source{"loss of a bare wall read in a table of open tanks", inputsRead}
	covered := cooling.Pot{DiameterM: potM, FillM3: 0.2, Have: 1, Wall: known(11.4), Bath: cooling.Bath{TempC: 3}, Top: known(11.4), AirC: 3}
	o := follow(potOfSoup, covered, 21.1, 5)
	body := "40 gal pot perfectly mixed, covered, 3 C air, U 11.4 on all 1.573 m2"
	s.add("well mixed pot, covered, air 3 °C, to 21.1 and 5 °C", "h", bare, percent(0.5),
		of(10.2017)(inHours(passed(o, 21.1))).as("to 21.1 °C").at(body, "time 57.2 -> 21.1 C", 1),
		of(30.6908)(inHours(passed(o, 5))).as("to 5 °C").at(body, "time 57.2 -> 5 C", 1))
	open := covered
	open.Wet = 1
	rough := source{"evaporation table of open tanks, rough by its own account", inputsRead}
	s.add("the same, open, to 21.1 °C", "h", rough, percent(1), of(8.58611)(inHours(passed(follow(potOfSoup, open, 21.1), 21.1))).
		at("40 gal pot perfectly mixed, open top, air 3 C", "time 57.2 -> 21.1 C", 1))
	after, err := openPot(1).After(vessel.Heater{}, 57.2, 21, 7200)
	s.add("the same, open, in a room of 21 °C, after 2 h", "°C", rough, percent(1), of(46.5869)(after.TempC, err).
		at("40 gal pot perfectly mixed, open top, air 21 C", "temperature after 2 h", 1))
	after, err = openPot(1).After(vessel.Heater{}, 57.2, 3, 7200)
	s.add("the same, open, in air of 3 °C, after 2 h", "°C", rough, absolute(0.1), of(43.4)(after.TempC, err))
}

func heatUpLines(s *section) {
	doe := source{"40 % efficiency: US Department of Energy figure as quoted on trade pages", inputsRead}
	p, err := openPot(0).To(btuH(90_000, 0.4), 20, 20, 95)
	s.add("pot of soup, 20 to 95 °C, 90,000 Btu/h, lid on", "min", doe, percent(0.5), of(76.1001)(p.TimeS/minuteS, err).
		at("40 gal pot 20 -> 95 C, 90 kBtu/h burner, 40% efficient, lid on, UA 17.93 W/K", "time", 1))
	none := openPot(0)
	none.Vessel.LossWK = 0
	p, err = none.To(btuH(90_000, 0.4), 20, 20, 95)
	s.add("the same without loss", "min", doe, percent(0.5), of(71.1397)(p.TimeS/minuteS, err).at("same, no losses", "time", 1))
	k := vessel.Kettle{Of: parts(86, 3.5, 3, 5.5, 1, 1), MassKg: potKg, DiameterM: potM, Burner: btuH(90_000, 0.4), AmbientC: 20, WallWM2K: vessel.BareWallWM2K}
	whole, err := k.HeatUp(20, 95)
	s.add("the same kettle with density and heat from its composition; theirs are rounded", "min", doe, percent(1.5),
		of(76.1001)(whole.TimeS/minuteS, err))
	water := vessel.Kettle{Of: heat.Composition{Water: 1}, MassKg: 56.8, DiameterM: 0.4, Burner: btuH(35_000, 0.4), AmbientC: 20}
	whole, err = water.HeatUp(20, 100)
	s.add("60 qt of water, 20 to 100 °C, 35,000 Btu/h, no loss", "min", source{"by hand", derived}, percent(1), of(77)(whole.TimeS/minuteS, err))
	boil, err := vessel.BoilOffKgH(10e3)
	s.add("boiled off by 10 kW net", "kg/h", source{"heat of vaporisation 2257 kJ/kg", derived}, percent(0.2),
		of(15.9504)(boil, err).at("boiling, 10 kW net of losses", "evaporation", 1))
}

func evaporationLines(s *section) {
	var table, tips []value
	for _, c := range []struct{ tempF, kgM2H float64 }{{100, 0.75}, {120, 1.72}, {140, 3.18}, {160, 5.36}, {180, 8.58391}, {200, 13.3775}, {210, 16.2689}} {
		e, err := vessel.OpenSurfaceEvaporation(unit.TempF(c.tempF).C(), 15.6)
		v := of(c.kgM2H)(e.KgM2H, err).as(fmt.Sprintf("%g °F", c.tempF))
		if c.tempF >= 180 {
			v = v.at(fmt.Sprintf("open hot surface %g F, still 15.6 C air", c.tempF), "evaporation", 1)
		}
		table = append(table, v)
	}
	s.add("evaporation from an open surface in still air", "kg/(m²·h)", source{"The Engineering Toolbox, heat loss from open water tanks; rough by its own account", inputsRead}, percent(2), table...)
	for _, c := range []struct{ tempF, kgM2H float64 }{{170, 7.7}, {190, 14.1}} {
		e, err := vessel.OpenSurfaceEvaporation(unit.TempF(c.tempF).C(), 15.6)
		tips = append(tips, of(c.kgM2H)(e.KgM2H, err).as(fmt.Sprintf("%g °F", c.tempF)))
	}
	s.add("the same beside another source, in drier air", "kg/(m²·h)", source{"US Department of Energy, steam tip sheet 19", read}, percent(100*vessel.EvaporationSpread), tips...)
}

func overallLines(s *section) {
	wall := heat.Coat{ThicknessM: 1e-4, ConductivityWMK: 1}
	broth, err := heat.OverallWM2K(800, 500, wall)
	thick, err2 := heat.OverallWM2K(150, 400, wall)
	bag, err3 := heat.CoatedFilmWM2K(500, heat.Coat{ThicknessM: 1e-4, ConductivityWMK: 0.33})
	air, err4 := heat.CoatedFilmWM2K(24, heat.Coat{ThicknessM: 1e-3, ConductivityWMK: 0.024})
	s.add("overall coefficients: stirred broth, scraped thick food, a bag's film in water, a millimetre of trapped air", "W/(m²·K)",
		source{"sum of resistances; the resistances are judgement or from memory", derived}, percent(0.5),
		of(299)(broth, err).as("broth"), of(108)(thick, err2).as("thick food"), of(435)(bag, err3).as("film"), of(12)(air, err4).as("trapped air"))
}

// poolLines: surroundings that the food warms or cools, against closed solutions.
func (l *lab) poolLines(s *section) {
	const sizeM, film, count, poolJK = 0.01, 20.0, 3.0, 60e3
	bodyJK := 1000 * 4000 * sizeM * count
	meetC := (bodyJK*60 + poolJK*10) / (bodyJK + poolJK)
	rate := 2 * film * count * (1/bodyJK + 1/poolJK)
	own := slab(heat.Solid{DensityKgM3: 1000, SpecificHeatJKgK: 4000, ConductivityWMK: 50}, 60, sizeM, conduction.Face{FilmWM2K: film})
	r, err := conduction.Pool{StartC: 10, HeatCapacityJK: poolJK}.Simulate([]conduction.Batch{{Body: own, Count: count}}, conduction.Ask{CoreC: meetC + 2, Accuracy: conduction.Fine})
	got := 0.0
	if err == nil {
		got = r.Batches[0].TimeS
		l.closures = append(l.closures, r.Closure)
	}
	s.add("thin bodies in a bath that they warm, until 2 K are left", "s", source{"two lumps, closed solution", exact}, percent(0.2),
		of(math.Log((60-meetC)/2)/rate)(got, err))

	bath := conduction.Pool{StartC: 0, HeatCapacityJK: 20 * 4186, IceKg: 15, LossWK: 3, AmbientC: 21}
	bagFace := conduction.Face{FilmWM2K: 300}
	iced, err := bath.Simulate([]conduction.Batch{{Body: slab(soupHot, 57.2, 0.0254, bagFace), Count: 0.5}}, conduction.Ask{CoreC: 5})
	if err != nil {
		s.add("ice that a bath of bags melts", "kg", source{"heat balance", exact}, percent(0.1), from(0, err))
		return
	}
	l.closures = append(l.closures, iced.Closure)
	bag := iced.Batches[0]
	s.add("ice that a bath of bags melts", "kg", source{"heat balance: bags and room over the heat of fusion", exact}, percent(0.1),
		of((0.5*bag.GivenOffJ+3*21*bag.TimeS)/333.6e3)(15-iced.Points[len(iced.Points)-1].IceKg, nil))
}
