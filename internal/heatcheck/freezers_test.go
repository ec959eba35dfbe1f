package heatcheck

import (
	"fmt"
	"math"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/freezing"
	"kettlefrost/internal/medium"
)

const dayS = 24 * hourS

func soupBag() freezing.Pack {
	return freezing.Pack{Food: soupCold, ThicknessM: 0.0254, MassKg: 0.68, StartC: 5}
}

// bare is a freezer of next to no heat capacity without stock.
func bare(setC, coolingW float64) freezing.Freezer {
	return freezing.Freezer{VolumeM3: 0.3, SetC: setC, CoolingW: coolingW, Film: known(8), RoomKg: 100, HeatCapacityJK: 100}
}

// chest is invented: 300 L with 40 kg in it.
func chest() freezing.Freezer {
	return freezing.Freezer{VolumeM3: 0.3, SetC: -20, CoolingW: 150, Film: medium.Film{LowWM2K: 5, UsualWM2K: 8, HighWM2K: 10}, RoomKg: 80,
		Stock: freezing.Stock{MassKg: 40}}
}

func (l *lab) load(f freezing.Freezer, bags int, ask freezing.Ask) (freezing.Loaded, error) {
	r, err := f.Load([]freezing.Batch{{Pack: soupBag(), Count: bags}}, ask)
	if err == nil {
		l.closures = append(l.closures, r.Closure)
	}
	return r, err
}

func frozenS(r freezing.Loaded, err error) (float64, error) {
	if err != nil {
		return 0, err
	}
	if !r.Batches[0].Reached {
		return 0, fmt.Errorf("not frozen in %g s", r.EndS)
	}
	return r.Batches[0].TimeS, nil
}

func (l *lab) freezers() section {
	s := section{title: "Freezers", intro: "Twenty bags of 0.68 kg of soup, an inch thick, that go into a freezer whose machine has only " +
		"so much power."}
	balance := source{"heat balance, worked out apart from this code", derived}
	perKg, err := soupCold.HeatJKg(5, -15)
	s.add("heat of twenty bags, 5 to −15 °C", "MJ", balance, percent(0.2), of(20*0.68*318.258e-3)(20*0.68*perKg/1e6, err))
	s.add("power for them over 10.6 h", "W", balance, percent(1), of(113)(20*0.68*perKg/(10.6*hourS), err))
	daily, err2 := freezing.DailyIntakeKg(113, perKg)
	if err == nil {
		err = err2
	}
	s.add("what 113 W freeze in a day at the very most", "kg", balance, percent(1), of(20*0.68*24/10.6)(daily, err))
	all, err := l.load(bare(-15, 1000), 20, freezing.Ask{CoreC: -14, WithinS: 4 * dayS, Accuracy: conduction.Fine})
	s.add("heat that twenty bags gave off, followed in time to −15 °C throughout", "MJ", balance, percent(0.1),
		of(20*0.68*318.258e-3)(all.HeatJ/1e6, err))

	strong, err := frozenS(l.load(bare(-18, 1e5), 20, freezing.Ask{CoreC: -15, WithinS: 4 * dayS}))
	s.add("with a machine that is never at its limit: as one bag in steady air", "h", solverFilm, percent(1).noise(),
		of(10.6431)(strong/hourS, err))
	weak, err := frozenS(l.load(bare(-18, 5), 20, freezing.Ask{CoreC: -15, WithinS: 20 * dayS}))
	s.add("with a machine of 5 W: heat over power", "h", source{"heat balance", exact}, percent(2), of(20*0.68*318258/5/hourS)(weak/hourS, err))
	limit, err := frozenS(l.load(bare(-18, 113), 20, freezing.Ask{CoreC: -15, WithinS: 2 * dayS}))
	s.add("with a machine of 113 W: not before its heat balance, 10.6 h, and not half as long again", "h", balance, between(10.6, 15.9).noise(),
		from(limit/hourS, err))
	l.intakeLines(&s)
	s.note("The chest is invented: 300 L, −20 °C, 150 W beside its own leaks, 40 kg of old stock, bags lying apart. The household rule " +
		"comes from freezers that are not described, " +
		"so it is shown beside the simulation and not tested by it; only that the chest freezes within a day what the rule allows is held.")
	return s
}

func (l *lab) intakeLines(s *section) {
	bulletins := source{"Michigan State and West Virginia University Extension: 2 to 3 lb per cubic foot in 24 h", read}
	rule, err := freezing.HouseholdIntakeKg(0.3)
	perKg := 0.45359237 / 0.028316846592
	s.add("household rule for 300 L", "kg", bulletins, percent(0.1),
		of(0.3*2*perKg)(rule.LowKg, err).as("low end"), of(0.3*3*perKg)(rule.HighKg, err).as("high end"))

	limits := freezing.Limits{CoreC: -17}
	full, err := chest().PacksADay(soupBag(), freezing.Placing{}, limits)
	if err == nil {
		l.closures = append(l.closures, full.Load.Closure)
	}
	s.add("simulated intake of an invented chest of 300 L in a day, beside the middle of the rule", "kg", bulletins,
		shownOnly("the rule's freezers are not known"),
		of(0.3*2.5*perKg)(full.MassKg, err))
	s.add("the same, at most what its power can carry off in a day", "kg", source{"heat balance: 150 W for a day over the heat of a kilogram to −17 °C", exact},
		between(0, full.BalanceKg), from(full.MassKg, err))
	heavy, err := soupCold.HeatJKg(5, -17)
	s.add("that balance itself", "kg", source{"150 W · 86,400 s over the closed-form heat", exact}, percent(0.1),
		of(150*dayS/heavy)(full.BalanceKg, err))

	bags := int(math.Floor(rule.HighKg / 0.68))
	allowed, err := l.load(chest(), bags, freezing.Ask{CoreC: -17})
	got := "frozen in a day"
	if err == nil && !allowed.AllFrozen(dayS) {
		got = "not frozen in a day"
	}
	s.add(fmt.Sprintf("%d bags, the high end of the rule, in that chest", bags), "", bulletins, sameWord, word("frozen in a day")(got, err))
}
