package heatcheck

import (
	"fmt"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/reheating"
)

// inWater are bags from -18 and 4 °C to 73.9 °C in the middle, minutes.
var inWater = []struct {
	name           string
	food           heat.FreezingFood
	mm, film       float64
	waterC         float64
	frozen, thawed float64
}{
	{"soup", soupHot, 25.4, 200, 95, 28.0764, 18.3831},
	{"soup", soupHot, 25.4, 435, 95, 23.1111, 15.1662},
	{"soup", soupHot, 25.4, 1000, 95, 20.7645, 13.6368},
	{"soup", soupHot, 25.4, 435, 85, 28.7008, 19.8769},
	{"soup", soupHot, 50.8, 435, 95, 84.1315, 55.2479},
	{"braise", braiseHot, 25.4, 200, 95, 27.1057, 18.6518},
	{"braise", braiseHot, 25.4, 435, 95, 22.6671, 15.6246},
	{"braise", braiseHot, 25.4, 1000, 95, 20.5669, 14.1848},
	{"braise", braiseHot, 25.4, 435, 85, 28.2878, 20.4729},
	{"braise", braiseHot, 50.8, 435, 95, 83.2279, 57.3988},
}

// reached is a run that got there.
func reached(r reheating.Run, err error) (float64, error) {
	if err == nil && !r.Reached {
		err = fmt.Errorf("not reached in %g s", r.TimeS)
	}
	return r.TimeS, err
}

func (l *lab) reheated() section {
	s := section{title: "Reheating and thawing",
		intro: "Flat bags of 0.68 kg in simmering water until the coldest point is at 73.9 °C (165 °F). No published time for vacuum bags in " +
			"simmering water was found."}
	for _, r := range inWater {
		bag := reheating.Bag{Food: r.food, MassKg: 0.68, ThicknessM: r.mm / 1000}
		card, err := reheating.Make(bag, reheating.Water{TempC: r.waterC, Film: known(r.film)}, reheating.Options{})
		body := fmt.Sprintf("reheat %s %g mm h %g water %g C", r.name, r.mm, r.film, r.waterC)
		s.add(fmt.Sprintf("bag of %s %g mm, h %g, water %g °C", r.name, r.mm, r.film, r.waterC), "min", solverFilm, percent(1),
			of(r.frozen)(inMinutes(reached(card.Frozen.Nominal, err))).as("from −18 °C").at(body+" from -18 C", "time centre 73.9 C", 1),
			of(r.thawed)(inMinutes(reached(card.Thawed.Nominal, err))).as("from 4 °C").at(body+" from 4 C", "time centre 73.9 C", 1))
		for _, c := range []struct{ startC, minutes float64 }{{-18, r.frozen}, {4, r.thawed}} { // for the accuracies only
			l.against(c.minutes, minuteS, slab(r.food, c.startC, r.mm/1000, face(r.film, r.waterC)), 73.9)
		}
	}
	l.dipLines(&s)
	l.thawLines(&s)
	l.quotedLines(&s)
	habitLines(&s)
	return s
}

func (l *lab) dipLines(s *section) {
	bag := reheating.Bag{Food: soupHot, MassKg: 0.68, ThicknessM: 0.0254}
	card, err := reheating.Make(bag, reheating.Water{TempC: 95, Film: known(435), LitresPerBag: 2.5, Bags: 4, NetPowerW: 2500}, reheating.Options{})
	body := "4 bags soup 0.68 kg in 10 L water 95 C, 2.5 kW net, h 435"
	s.add("four frozen bags in 10 L on a weak burner, until done", "min", solverFilm, percent(1),
		of(23.2667)(inMinutes(reached(card.Frozen.Nominal, err))).at(body, "time centre 73.9 C", 1))
	s.add("the same, lowest temperature of the water", "°C", solverFilm, absolute(0.5),
		of(91.2884)(card.Frozen.Nominal.LowestWaterC, err).at(body, "lowest water temperature", 1))
}

func (l *lab) thawLines(s *section) {
	bag := reheating.Bag{Food: soupHot, MassKg: 0.68, ThicknessM: 0.0254}
	air, err := reheating.ThawIn(bag, reheating.ThawPlace{TempC: 4, Film: known(8), ToC: -0.5})
	s.add("thawing an inch of soup in air of 4 °C, h 8, to −0.5 °C", "h", solverRow, percent(2), of(22.8198)(air.Usual.TimeS/hourS, err).
		at("thaw bag soup 25.4 mm in 4 C air h 8 from -18", "time centre to -0.5 C", 1))
	water, err := reheating.ThawIn(bag, reheating.ThawPlace{Water: true, TempC: 15, Film: known(200)})
	s.add("thawing it in running water of 15 °C, h 200, to 0 °C", "min", solverRow, percent(1), of(51.1989)(water.Usual.TimeS/minuteS, err).
		at("thaw bag soup 25.4 mm in 15 C running water h 200 from -18", "time centre to 0 C", 1))
	l.against(51.1989, minuteS, slab(soupHot, -18, 0.0254, face(200, 15)), 0)
}

// quotedLines: what a hobby page quotes and measured with pouches of meat. The constants of that meat are not printed; here it is the
// braise with the conductivity of cold food.
func (l *lab) quotedLines(s *section) {
	derivedRow := source{"second finite-volume program, meat-like constants that are not printed", derived}
	table := source{"hobby page quoting Baldwin's tables", read}
	measured := source{"measured by the same hobby page", read}
	for _, c := range []struct {
		startC                    float64
		derived, quoted, measured float64
		measuredTol               tolerance
		measuredFrom, inFile      string
	}{
		{5, 69.4842, 69, 67, percent(10), "", "meat-like slab 30 mm in 55 C water h 300 from 5 C"},
		{-18, 88.7036, 84, 98, shownOnly("it started at −10 °C and took longer"), " (from −10 °C)", "meat-like slab 30 mm in 55 C water h 300 from -18 C"},
	} {
		got, err := inMinutes(l.coreS(slab(braiseCold, c.startC, 0.030, face(300, 55)), 54.5))
		what := fmt.Sprintf("30 mm of meat in 55 °C water, %s to 54.5 °C", number(c.startC))
		s.add(what, "min", derivedRow, percent(2), of(c.derived)(got, err).at(c.inFile, "time centre 54.5 C", 1))
		s.add(what+", quoted table", "min", table, percent(7), of(c.quoted)(got, err))
		s.add(what+", measured"+c.measuredFrom, "min", measured, c.measuredTol, of(c.measured)(got, err))
	}
}

// habitLines: a quarter of an hour for a flat bag. No source gives a thickness, so what is held is the way back: the thickness for the
// derived times.
func habitLines(s *section) {
	bag := reheating.Bag{Food: soupHot, MassKg: 0.68, ThicknessM: 0.0254}
	var back []value
	for _, c := range []struct {
		minutes, film, waterC, mm float64
		from                      reheating.Start
	}{{23.1111, 435, 95, 25.4, reheating.Frozen}, {15.1662, 435, 95, 25.4, reheating.Thawed}, {28.0764, 200, 95, 25.4, reheating.Frozen}, {84.1315, 435, 95, 50.8, reheating.Frozen}} {
		got, err := reheating.ThicknessFor(c.minutes, c.from, bag, reheating.Water{TempC: c.waterC, Film: known(c.film)})
		back = append(back, of(c.mm)(1000*got.UsualFilmM, err).as(fmt.Sprintf("%v, %s min, h %g", c.from, number(c.minutes), c.film)))
	}
	s.add("thickness for a derived time, back again", "mm", solverFilm, percent(1), back...)

	habit := source{"the trade's quarter of an hour for a flat bag of one meal, without a thickness", practice}
	for _, start := range []reheating.Start{reheating.Frozen, reheating.Thawed} {
		got, err := reheating.ThicknessFor(15, start, bag, reheating.Water{})
		for _, c := range []struct {
			film   string
			thickM float64
		}{{"200, the low end", got.LowFilmM}, {"435, usual", got.UsualFilmM}, {"1000, the high end", got.HighFilmM}} {
			s.add(fmt.Sprintf("15 min does for soup %v, h %s, up to a thickness of", start, c.film), "mm", habit,
				shownOnly("nothing to hold it to; no margin is in it"),
				from(1000*c.thickM, err))
		}
	}
	s.note("An inch (25.4 mm) of soup: the quarter of an hour just does when it is thawed and the water moves freely round it, and does " +
		"not when it is frozen.")
}
