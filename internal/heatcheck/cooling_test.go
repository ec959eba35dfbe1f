package heatcheck

import (
	"fmt"
	"math"

	"kettlefrost/internal/cooling"
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/series"
	"kettlefrost/internal/unit"
)

// pan is soup so many inches deep, 57.2 °C, hottest point, hours.
type pan struct {
	place, inFile     string
	top, bottom, airC float64
	wet               float64
	inches            float64
	to21, to5         float64
}

var pans = []pan{
	{"walk-in, still, covered", "walk-in 3 C still, covered, h top 10 bottom 8", 10, 8, 3, 0, 2, 4.07222, 11.8556},
	{"walk-in, still, covered", "walk-in 3 C still, covered, h top 10 bottom 8", 10, 8, 3, 0, 2.5, 5.29722, 15.3194},
	{"walk-in, still, covered", "walk-in 3 C still, covered, h top 10 bottom 8", 10, 8, 3, 0, 4, 9.45556, 26.9306},
	{"walk-in, still, open", "walk-in 3 C still, open, h top 10 bottom 8", 10, 8, 3, 1, 2, 3.24444, 10.9861},
	{"walk-in, still, open", "walk-in 3 C still, open, h top 10 bottom 8", 10, 8, 3, 1, 2.5, 4.34167, 14.3278},
	{"walk-in, still, open", "walk-in 3 C still, open, h top 10 bottom 8", 10, 8, 3, 1, 4, 8.21944, 25.675},
	{"walk-in, fan, open", "walk-in 3 C fan, open, h top 20 bottom 15", 20, 15, 3, 1, 2, 2.20833, 6.68611},
	{"walk-in, fan, open", "walk-in 3 C fan, open, h top 20 bottom 15", 20, 15, 3, 1, 2.5, 2.99722, 8.9},
	{"walk-in, fan, open", "walk-in 3 C fan, open, h top 20 bottom 15", 20, 15, 3, 1, 4, 5.88333, 16.8222},
	{"blast chiller −10 °C, covered", "blast -10 C, covered, h top 35 bottom 35", 35, 35, -10, 0, 2, 1.125, 2.025},
	{"blast chiller −10 °C, covered", "blast -10 C, covered, h top 35 bottom 35", 35, 35, -10, 0, 2.5, 1.56389, 2.8},
	{"blast chiller −10 °C, covered", "blast -10 C, covered, h top 35 bottom 35", 35, 35, -10, 0, 4, 3.25278, 5.85833},
}

func (p pan) way(top, bottom medium.Film) cooling.Pans {
	return cooling.Pans{LengthM: 0.5, WidthM: 0.3, DepthM: p.inches * 0.0254, Have: 40, Top: top, Bottom: bottom, AirC: p.airC, Wet: p.wet}
}

// judged is the outcome that two times have against the two limits of FDA Food Code 3-501.14, both from 135 °F.
func judged(to21H, to5H float64) string {
	if to21H <= 2 && to5H <= 6 {
		return coolrule.WithinRule.String()
	}
	return coolrule.TooSlow.String()
}

func (l *lab) cooled() section {
	s := section{title: "Cooling in pans and pots, and the two-stage limit",
		intro: "Soup that is not stirred, from 57.2 °C (135 °F): when its hottest point is at 21.1 °C (70 °F) and at 5 °C (41 °F). FDA Food " +
			"Code 3-501.14 " +
			"allows 2 h for the first and 6 h for both; it was read in the texts of states that adopted it."}
	var verdicts []value
	for _, p := range pans {
		o := follow(potOfSoup, p.way(known(p.top), known(p.bottom)), 21.1, 5)
		body := fmt.Sprintf("pan %g in soup, %s", p.inches, p.inFile)
		bottom, top := face(p.bottom, p.airC), face(p.top, p.airC)
		top.Wet = p.wet
		b := layer(soupHot, 57.2, p.inches*0.0254, bottom, top)
		for _, to := range []struct{ hours, toC float64 }{{p.to21, 21.1}, {p.to5, 5}} { // for the accuracies only
			l.against(to.hours, hourS, b, to.toC)
		}
		s.add(fmt.Sprintf("pan %g in deep, %s", p.inches, p.place), "h", solverFilm, percent(3),
			of(p.to21)(inHours(passed(o, 21.1))).as("to 21.1 °C").at(body, "time hottest point 57.2 -> 21.1 C", 1),
			of(p.to5)(inHours(passed(o, 5))).as("to 5 °C").at(body, "time hottest point 57.2 -> 5 C", 1))
		got, err := outcome(potOfSoup, p.way(known(p.top), known(p.bottom)))
		verdicts = append(verdicts, word(judged(p.to21, p.to5))(got, err).as(fmt.Sprintf("%g in, %s", p.inches, p.place)))
	}
	s.add("verdict on those twelve pans by 3-501.14", "", source{"their derived times against the two limits", derived}, sameWord, verdicts...)
	l.potLeftLines(&s)
	studyLines(&s)
	entreeLine(&s)
	l.measuredPots(&s)
	s.note("By conduction alone a 4 in pan misses two hours even in a blast chiller, while the study implies that it passed: chili in a " +
		"pan also moves, or that chiller was colder or windier. " +
		"The computation is on the slow side there and stays so.")
	s.note("14 gal of stew: the end, 50 °F, is only 5.6 K above the guessed air. Air of 7.2 °C instead of 4.4 °C makes it 55 h, a weaker " +
		"film more. " +
		"Vessel and air of the study are not stated, so this is a warning about guessed surroundings, not a test.")
	return s
}

// outcome judges a way by 3-501.14(A) with the usual coefficients.
func outcome(f cooling.Food, w cooling.Way) (string, error) {
	o := cooling.Compare(f, []cooling.Plan{{Stages: []cooling.Stage{{Way: w}}}}, coolrule.FoodCodeCooked())[0]
	return o.UsualRule.Outcome.String(), o.Err
}

func (l *lab) potLeftLines(s *section) {
	product := source{"product of the exact series, worked out apart from this code", assumed}
	for _, c := range []struct {
		film         string
		h, airC      float64
		to21, mean2h float64
		name         string
	}{{"10", 10, 3, 47.0935, 50.3369, "walk-in, still"}, {"25", 25, 3, 39.3199, 45.9332, "walk-in, fan"}, {"1e+06", 1e6, 0, 31.971, 37.7769, "a perfect bath of 0 °C"}} {
		left := cooling.PotLeft{DiameterM: potM, FillM3: 0.2, Have: 1, Side: known(c.h), Top: known(c.h), Bottom: known(c.h), AirC: c.airC}
		body := fmt.Sprintf("40 gal pot unstirred thick (conduction only) h %s all round, medium %g C", c.film, c.airC)
		s.add("40 gal of thick food left alone, "+c.name+": centre to 21.1 °C", "h", product, percent(1),
			of(c.to21)(inHours(passed(follow(potOfSoup, left, 21.1), 21.1))).at(body, "time centre 57.2 -> 21.1 C", 1))
		s.add("the same by the simulation", "h", product, percent(1),
			l.against(c.to21, hourS, can(soupHot, 57.2, potM, potDepthM, face(c.h, c.airC)), 21.1))
		mean, err := series.Can(soupSolid, potM, potDepthM, c.h).TempC(series.Mean, 57.2, c.airC, 7200)
		centre, err2 := series.Can(soupSolid, potM, potDepthM, c.h).TempC(series.Centre, 57.2, c.airC, 7200)
		s.add("the same, centre after 2 h", "°C", product, absolute(0.05), of(57.2)(centre, err2).at(body, "centre after 2 h", 1))
		s.add("the same, mean temperature after 2 h", "°C", product, absolute(0.3), of(c.mean2h)(mean, err).at(body, "volume mean after 2 h", 1))
	}
}

// studyLines: Olds and Sneed's chili, with the coefficients that the kitchen's own media have. What met the limit there is given in words.
func studyLines(s *section) {
	src := source{"Olds and Sneed 2005, Journal of Child Nutrition & Management 29(1), abstract", read}
	still, err := filmOf("still-air")
	blast, err2 := filmOf("blast-chiller")
	if err == nil {
		err = err2
	}
	chili := cooling.Food{MassKg: 11, Props: soupHot, StartC: 75}
	try := func(w cooling.Way) (string, error) {
		if err != nil {
			return "", err
		}
		return outcome(chili, w)
	}
	for _, inches := range []float64{2.5, 4} {
		p := pan{inches: inches, airC: 3}
		s.add(fmt.Sprintf("chili in a %g in pan in a walk-in", inches), "", src, sameWord, word(coolrule.TooSlow.String())(try(p.way(still, still))))
	}
	pot := cooling.PotLeft{DiameterM: 0.25, FillM3: 0.0115, Have: 1, Side: still, Top: still, Bottom: still, AirC: 3}
	s.add("chili in a 3 gal pot in a walk-in", "", src, sameWord, word(coolrule.TooSlow.String())(try(pot)))
	for _, c := range []struct {
		inches float64
		tol    tolerance
	}{{2.5, sameWord}, {4, shownOnly("conduction alone is too slow here, see below")}} {
		p := pan{inches: c.inches, airC: -10}
		o := cooling.Compare(chili, []cooling.Plan{{Stages: []cooling.Stage{{Way: p.way(blast, blast)}}}}, coolrule.FoodCodeCooked())[0]
		first, failed := "", o.Err
		hours := 0.0
		if failed == nil {
			first, hours = o.UsualRule.Stages[0].Outcome.String(), o.UsualRule.Stages[0].TookS/hourS
		}
		if c.tol.words {
			s.add(fmt.Sprintf("chili in a %g in pan in a blast chiller, 135 to 70 °F in 2 h", c.inches), "", src, c.tol,
				word(coolrule.WithinRule.String())(first, failed))
			continue
		}
		s.add(fmt.Sprintf("chili in a %g in pan in a blast chiller, 135 to 70 °F; the study has 2 h at most", c.inches), "h", src, c.tol,
			of(2)(hours, failed))
	}
}

func filmOf(id string) (medium.Film, error) {
	m, ok := medium.Find(id)
	if !ok {
		return medium.Film{}, fmt.Errorf("no medium %q", id)
	}
	return m.Film, nil
}

// entreeLine: the depth of the food is not stated in the abstract; 2 in is the shallowest of common pans.
func entreeLine(s *section) {
	p := pan{inches: 2, airC: 3}
	still, err := filmOf("still-air")
	hours := 0.0
	if err == nil {
		hours, err = inHours(passed(follow(potOfSoup, p.way(still, still), unit.TempF(45).C()), unit.TempF(45).C()))
	}
	s.add("entrees in a walk-in to 45 °F; depth not stated, 2 in taken", "h", source{"cook/chill temperature histories, Journal of Food Protection 40(11):782, abstract", read},
		between(4, 240).reading("more than 4"), from(hours, err).beside("not in 4", ""))
}

// measuredPots are held to the model as it was worked out apart from this code; what was measured is held where the model could be it.
func (l *lab) measuredPots(s *section) {
	abstract := source{"“Cooling rates of foods”, Journal of Food Protection's predecessor, abstract; vessel and air not stated", read}
	model := source{"product of the exact series, height and width alike, h 8, air 4.4 °C", assumed}
	for _, c := range []struct {
		what                string
		gallons, fromF, toF float64
		modelH, measuredH   float64
		inFile, quantity    string
		tol                 tolerance
	}{
		{"8 gal of white sauce, 105 to 57 °F", 8, 105, 57, 24.1508, 25, "8 gal container as cylinder H=D, h 8, air 4.4 C", "time centre 105 -> 57 F", percent(10)},
		{"14 gal of beef stew, 115 to 50 °F", 14, 115, 50, 44.1582, 84, "14 gal container as cylinder H=D, h 8, air 4.4 C", "time centre 115 -> 50 F",
			shownOnly("surroundings guessed, see below")},
	} {
		sizeM := math.Cbrt(c.gallons * 3.785411784e-3 * 4 / math.Pi)
		got, err := inHours(series.Can(soupSolid, sizeM, sizeM, 8).CentreTimeS(unit.TempF(c.fromF).C(), 4.4, unit.TempF(c.toF).C()))
		s.add(c.what+", the model", "h", model, percent(1), of(c.modelH)(got, err).at(c.inFile, c.quantity, 1))
		s.add(c.what+", measured", "h", abstract, c.tol, of(c.measuredH)(got, err))
	}
	warm, err := inHours(series.Can(soupSolid, 0.4074, 0.4074, 8).CentreTimeS(unit.TempF(115).C(), 7.2, unit.TempF(50).C()))
	s.add("14 gal of beef stew in air of 7.2 °C, the model", "h", model, percent(2), of(55)(warm, err))

	// Pots of 600 g of soup: the size is assumed, 95 by 82 mm; the study's air speeds are not coefficients.
	james := source{"James et al. 2010, abstract: 197, 228 and 272 min at 6, 3 and 1 m/s; size assumed 95 by 82 mm", read}
	for _, c := range []struct{ film, modelMin, measuredMin float64 }{{35, 192, 197}, {20, 258, 272}} {
		got, err := inMinutes(l.coreS(can(soupHot, 70, 0.095, 0.082, face(c.film, 0)), 3))
		s.add(fmt.Sprintf("600 g pot of soup, 70 to 3 °C in 0 °C air, h %g, the model", c.film), "min",
			source{"series, worked out apart from this code", assumed}, percent(1.5),
			of(c.modelMin)(got, err))
		s.add(fmt.Sprintf("the same, measured at %s m/s", map[float64]string{35: "6", 20: "1"}[c.film]), "min", james,
			shownOnly("air speed and coefficient are not tied"),
			of(c.measuredMin)(got, err))
	}
}
