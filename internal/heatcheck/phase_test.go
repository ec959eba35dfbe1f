package heatcheck

import (
	"fmt"
	"math"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/freezing"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
)

func (l *lab) phaseChange() section {
	s := section{title: "Freezing and thawing",
		intro: "First against exact mathematics for ice, which freezes at one temperature; then food, which freezes over a range, against " +
			"programs that share nothing with this one."}
	l.halfSpaceLines(&s)
	l.plankLimit(&s)
	l.gelLines(&s)
	l.bagLines(&s)
	l.blockLines(&s)
	s.note("λ is found from the heat that the simulation says has left; read off the temperatures beside it, the front is good to half a " +
		"cell. An hour is computed; neither depends on the time. The layer is twice as deep as the front comes, and its far face is kept as " +
		"the exact solution says.")
	s.note("The measured slab times on methyl-cellulose gel (Cleland and Earle 1977 to 1979; D. J. Cleland 1985) could not be read. No " +
		"row of them is used or claimed.")
	return s
}

// halfSpace is ice or water that starts at one temperature and whose face is brought to another: Stefan's and Neumann's problems.
type halfSpace struct {
	name, inFile  string
	lambdaRow     string
	rho           float64
	startC, wallC float64
	lambda        float64
	frontMm       float64 // after an hour
}

const neumannFile = "Neumann freezing ks 2.2 kl 0.56 cs 2050 cl 4200 rho 1000 L 333.6 kJ/kg "

var halfSpaces = []halfSpace{
	{"water of 0 °C, wall −5 °C", "Stefan ice wall -5 C", "Stefan ice k 2.2 cs 2050 rho 917 L 333.6 kJ/kg wall -5 C", 917, 0, -5, 0.123319, 16.0089},
	{"water of 0 °C, wall −10 °C", "Stefan ice wall -10 C", "Stefan ice k 2.2 cs 2050 rho 917 L 333.6 kJ/kg wall -10 C", 917, 0, -10, 0.173532, 22.5274},
	{"water of 0 °C, wall −20 °C", "Stefan ice wall -20 C", "Stefan ice k 2.2 cs 2050 rho 917 L 333.6 kJ/kg wall -20 C", 917, 0, -20, 0.243041, 31.5508},
	{"water of 0 °C, wall −30 °C", "Stefan ice wall -30 C", "Stefan ice k 2.2 cs 2050 rho 917 L 333.6 kJ/kg wall -30 C", 917, 0, -30, 0.294882, 38.2807},
	{"water of 10 °C, wall −20 °C", neumannFile + "Ti 10 wall -20", "", 1000, 10, -20, 0.222292, 27.6338},
	{"water of 20 °C, wall −30 °C", neumannFile + "Ti 20 wall -30", "", 1000, 20, -30, 0.252843, 31.4316},
	{"water of 5 °C, wall −18 °C", neumannFile + "Ti 5 wall -18", "", 1000, 5, -18, 0.220411, 27.3999},
	{"ice of −18 °C, wall 20 °C", "Neumann melting, same material, Ti -18 wall 20", "", 1000, -18, 20, 0.262349, 11.4955},
	{"ice of −18 °C, wall 95 °C", "Neumann melting, same material, Ti -18 wall 95", "", 1000, -18, 95, 0.586412, 25.6953},
}

func (h halfSpace) ice() conduction.Pure {
	return conduction.Pure{Solid: heat.Solid{DensityKgM3: h.rho, SpecificHeatJKgK: 2050, ConductivityWMK: 2.2},
		Liquid: heat.Solid{DensityKgM3: h.rho, SpecificHeatJKgK: 4200, ConductivityWMK: 0.56}, FusionJKg: 333.6e3}
}

// phases are the one that grows from the wall and the one it grows into.
func (h halfSpace) phases() (grows, before heat.Solid) {
	if m := h.ice(); h.wallC < 0 {
		return m.Solid, m.Liquid
	}
	return h.ice().Liquid, h.ice().Solid
}

func diffusivity(s heat.Solid) float64 {
	return s.ConductivityWMK / (s.DensityKgM3 * s.SpecificHeatJKgK)
}

// tempC is the exact temperature beyond the front (Neumann): what a layer of it meets at its far face.
func (h halfSpace) tempC(x, timeS float64) float64 {
	if timeS <= 0 || h.startC == 0 {
		return h.startC
	}
	g, o := h.phases()
	return h.startC * (1 - math.Erfc(x/(2*math.Sqrt(diffusivity(o)*timeS)))/math.Erfc(h.lambda*math.Sqrt(diffusivity(g)/diffusivity(o))))
}

func (h halfSpace) depthM() float64 { return 2 * h.frontMm / 1000 }

// follow is an hour of it, in a layer twice as deep as the front comes. Beyond it goes on as the exact solution says.
func (h halfSpace) follow(l *lab) (conduction.Result, error) {
	depthM := h.depthM()
	far := conduction.Face{FilmWM2K: heat.LargestFilmWM2K, Medium: func(timeS float64) float64 { return h.tempC(depthM, timeS) }}
	return l.run(layer(h.ice(), h.startC, depthM, face(heat.LargestFilmWM2K, h.wallC), far),
		conduction.Ask{CoreC: 0.95 * h.wallC, WithinS: hourS, Accuracy: conduction.Fine})
}

// frontMmOf is where the line through the last two places of the new phase arrives at 0 °C.
func (h halfSpace) frontMmOf(r conduction.Result) (float64, error) {
	places := h.newPhase(r)
	if len(places) < 5 {
		return 0, fmt.Errorf("only %d places in the new phase", len(places))
	}
	a, b := places[len(places)-2], places[len(places)-1]
	return 1000 * (b.DepthM - b.TempC*(b.DepthM-a.DepthM)/(b.TempC-a.TempC)), nil
}

// newPhase is the places from the wall to the front.
func (h halfSpace) newPhase(r conduction.Result) []conduction.Place {
	places := r.Profiles[len(r.Profiles)-1].Places
	n := 0
	for n < len(places) && places[n].TempC*h.wallC > 1e-9 {
		n++
	}
	return places[:n]
}

// heatJ is what a layer with a growing phase of this λ gives off (takes up, when it melts) in a time: through the wall, less what comes to
// it through its far face. Neumann's temperatures, differentiated there and integrated over the time.
func (h halfSpace) heatJ(lambda, timeS float64) float64 {
	g, o := h.phases()
	depthM, alpha := h.depthM(), diffusivity(o)
	wall := 2 * g.ConductivityWMK * math.Abs(h.wallC) * math.Sqrt(timeS/(math.Pi*diffusivity(g))) / math.Erf(lambda)
	far := 2*math.Sqrt(timeS/(math.Pi*alpha))*math.Exp(-depthM*depthM/(4*alpha*timeS)) - depthM/alpha*math.Erfc(depthM/(2*math.Sqrt(alpha*timeS)))
	return wall - o.ConductivityWMK*math.Abs(h.startC)*far/math.Erfc(lambda*math.Sqrt(diffusivity(g)/alpha))
}

// lambdaOf is the λ that belongs to the heat of the simulation, by bisection.
func (h halfSpace) lambdaOf(r conduction.Result) float64 {
	low, high := 1e-3, 2.0
	for range 100 {
		if mid := (low + high) / 2; h.heatJ(mid, r.TimeS) > math.Abs(r.GivenOffJ) {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

func (l *lab) halfSpaceLines(s *section) {
	var beside, fronts []value
	for _, h := range halfSpaces {
		r, err := h.follow(l)
		lambdaRow, quantity, kind := h.lambdaRow, "lambda", "Stefan"
		if lambdaRow == "" {
			lambdaRow, kind = h.inFile, "Neumann"
		}
		if h.wallC > 0 {
			quantity = "lambda (liquid side)"
		}
		src := source{kind + "'s solution (Carslaw and Jaeger)", exact}
		if err != nil {
			s.add(h.name, "", src, percent(1), from(0, err))
			continue
		}
		g, _ := h.phases()
		lambda := h.lambdaOf(r)
		s.add(h.name+": λ", "", src, percent(0.05).noise(), of(h.lambda)(lambda, nil).at(lambdaRow, quantity, 1))
		s.add(h.name+": front after an hour, from that λ", "mm", src, percent(0.05).noise(),
			of(h.frontMm)(2000*lambda*math.Sqrt(diffusivity(g)*hourS), nil).at(h.inFile, "front at 3600 s", 1000))
		fronts = append(fronts, of(h.frontMm)(h.frontMmOf(r)).as(h.name))
		if h.startC == 10 {
			beside = h.temperatures(r)
		}
	}
	neumann := source{"Stefan's and Neumann's solutions (Carslaw and Jaeger)", exact}
	s.add("the same fronts, read off the temperatures", "mm", neumann, percent(1.2).noise(), fronts...)
	s.add("temperatures at 10, 20 and 40 mm, water of 10 °C, wall −20 °C: −12.66, −5.412 and 4.719 °C", "°C", neumann, absolute(0.1).noise(), beside...)
	if len(beside) != 3 {
		s.add("temperatures on both sides of the front", "°C", neumann, absolute(0.1), from(0, fmt.Errorf("%d places found, want 3", len(beside))))
	}
}

func (h halfSpace) temperatures(r conduction.Result) (all []value) {
	places := r.Profiles[len(r.Profiles)-1].Places
	for _, c := range []struct{ mm, tempC float64 }{{10, -12.6589}, {20, -5.41211}, {40, 4.71874}} {
		for i := 1; i < len(places); i++ {
			a, b := places[i-1], places[i]
			if x := c.mm / 1000; a.DepthM <= x && x < b.DepthM {
				got := a.TempC + (b.TempC-a.TempC)*(x-a.DepthM)/(b.DepthM-a.DepthM)
				all = append(all, of(c.tempC)(got, nil).as(fmt.Sprintf("at %g mm", c.mm)).at(h.inFile, fmt.Sprintf("T at x=%g m, 3600 s", x), 1))
			}
		}
	}
	return all
}

// plankLimit: Plank's formula is exact when the solid stores nothing. The simulation takes 100 J/(kg·K) at least, which costs 0.16 %.
func (l *lab) plankLimit(s *section) {
	plank := freezing.Plank{Shape: heat.Slab, SizeM: 0.05, LatentJM3: 250e6, FrozenConductivityWMK: 1.6, FilmWM2K: 25, FreezingPointC: 0, AirC: -30}
	limit := "Plank limit: slab 0.05 m rho 1000 L 250 kJ/kg ks 1.6 h 25 air -30 Ti = tf = 0"
	s.add("Plank's formula, slab of 50 mm that freezes at one temperature", "s", apart, percent(0.01),
		of(9960.94)(plank.TimeS()).at(limit, "Plank time", 1))
	ratio := func(solidJKgK float64) (float64, error) {
		m := conduction.Pure{Solid: heat.Solid{DensityKgM3: 1000, SpecificHeatJKgK: solidJKgK, ConductivityWMK: 1.6},
			Liquid: heat.Solid{DensityKgM3: 1000, SpecificHeatJKgK: 4000, ConductivityWMK: 0.5}, FusionJKg: 250e3}
		r, err := l.run(slab(m, 0, 0.05, face(25, -30)), conduction.Ask{CoreC: -1e-3, Accuracy: conduction.Fine})
		return r.TimeS / 9960.94, err
	}
	s.add("simulation over Plank when the ice stores next to nothing (100 J/(kg·K))", "", source{"Plank's formula is the limit", exact}, percent(0.4),
		of(1)(ratio(100)))
	s.add("simulation over Plank when the ice stores 2000 J/(kg·K)", "", solverRow, absolute(0.002),
		of(1.03103)(ratio(2000)).at("same with solid cp 2000", "last liquid gone / Plank time", 1))
}

func (l *lab) gelLines(s *section) {
	for _, c := range []struct {
		name, inFile string
		wantS        float64
		body         conduction.Body
	}{
		{"gel slab 50 mm, h 25, air −30 °C, 10 to −10 °C", "gel slab D 0.05 h 25 air -30 Ti 10 Tc -10", 10968.7, slab(gel, 10, 0.05, face(25, -30))},
		{"gel cylinder 50 mm, the same air", "gel cylinder D 0.05 h 25 air -30 Ti 10 Tc -10", 5429.42, round(gel, heat.Cylinder, 10, 0.05, face(25, -30))},
		{"gel sphere 50 mm, the same air", "gel sphere D 0.05 h 25 air -30 Ti 10 Tc -10", 3627.6, round(gel, heat.Sphere, 10, 0.05, face(25, -30))},
		{"gel slab 24 mm, h 13.9, air −30 °C, 20 to −10 °C", "gel slab 0.024 m h 13.9 air -30 Ti 20 Tc -10", 9102.41, slab(gel, 20, 0.024, face(13.9, -30))},
		{"gel slab 100 mm, h 25, air −25 °C, 10 to −10 °C", "gel slab 0.1 m h 25 air -25 Ti 10 Tc -10", 30927.6, slab(gel, 10, 0.1, face(25, -25))},
		{"gel slab 100 mm, h 100, air −35 °C, 20 to −10 °C", "gel slab 0.1 m h 100 air -35 Ti 20 Tc -10", 11086.5, slab(gel, 20, 0.1, face(100, -35))},
		{"gel slab 25.4 mm, h 8, air −18 °C, 5 to −10 °C", "gel slab 0.0254 m h 8 air -18 Ti 5 Tc -10", 24920.2, slab(gel, 5, 0.0254, face(8, -18))},
		{"gel slab 25.4 mm, h 300, brine −20 °C, 5 to −10 °C", "gel slab 0.0254 m h 300 air -20 Ti 5 Tc -10", 1244.19, slab(gel, 5, 0.0254, face(300, -20))},
	} {
		s.add(c.name, "s", solverRow, percent(1), l.against(c.wantS, 1, c.body, -10).at(c.inFile, "FV freezing time", 1))
	}
	s.add("a food slab 25 mm, h 10, air −30 °C, 5 to −10 °C", "s", source{"two programs: implicit 13,288.6 s, explicit in another language 13,288.7 s", derived}, percent(1),
		l.against(13288.6, 1, slab(crossFood, 5, 0.025, face(10, -30)), -10).
			at("cross-check food 1050/3600/2000/250e3/-1/0.5/1.6 slab 0.025 m h 10 air -30 Ti 5 Tc -10", "FV freezing time", 1))
}

// bags are flat bags an inch thick, 5 to -10 and -15 °C, hours.
var bags = []struct{ film, airC, soup10, soup15, braise10, braise15 float64 }{
	{5, -18, 14.3709, 16.8534, 12.008, 14.837},
	{8, -18, 9.08273, 10.6431, 7.6204, 9.40251},
	{10, -18, 7.31909, 8.57209, 6.15713, 7.59032},
	{30, -18, 2.60863, 3.04232, 2.24859, 2.75201},
	{30, -30, 1.46448, 1.5904, 1.24248, 1.3869},
}

func (l *lab) bagLines(s *section) {
	for _, r := range bags {
		for _, f := range []struct {
			name       string
			food       heat.FreezingFood
			to10, to15 float64
		}{{"soup", soupCold, r.soup10, r.soup15}, {"braise", braiseCold, r.braise10, r.braise15}} {
			inFile := fmt.Sprintf("bag %s 25.4 mm both faces h %g air %g", f.name, r.film, r.airC)
			body := slab(f.food, 5, 0.0254, face(r.film, r.airC))
			s.add(fmt.Sprintf("bag of %s, 1 in, h %g, air %s °C, 5 to −10 and −15 °C", f.name, r.film, number(r.airC)), "h", solverFilm, percent(1),
				l.against(f.to10, hourS, body, -10).as("to −10 °C").at(inFile, "time centre 5 -> -10 C", 1),
				l.against(f.to15, hourS, body, -15).as("to −15 °C").at(inFile, "time centre 5 -> -15 C", 1))
		}
	}
	shelf := layer(soupCold, 5, 0.0254, face(60, -18), face(8, -18))
	s.add("bag of soup on a shelf of −18 °C, contact 60, 5 to −10 °C; theirs has two figures", "h", solverFilm, percent(2),
		of(2.7)(inHours(l.coreS(shelf, -10))))
	for _, c := range []struct {
		name          string
		food          heat.FreezingFood
		solid, gapped float64
	}{{"soup", soupCold, 39.3766, 41.6667}, {"braise", braiseCold, 34.0178, 35.9333}} {
		s.add("four bags of "+c.name+" stacked, touching", "h", solverRow, percent(1),
			l.against(c.solid, hourS, slab(c.food, 5, 0.1016, face(8, -18)), -10).
				at("stack of 4 bags "+c.name+" 101.6 mm solid, h 8 air -18", "time centre 5 -> -10 C", 1))
		s.add("four bags of "+c.name+" stacked, half a millimetre of air between", "h", solverRow, percent(1),
			l.against(c.gapped, hourS, stack(c.food, 5, 0.1016, face(8, -18), 4, medium.AirGapM2KW), -10).
				at("stack of 4 bags "+c.name+", 0.02 m2K/W between bags, h 8 air -18", "time centre 5 -> -10 C", 1))
	}
}

// blockLines: 1 % is the tolerance of the source, whose own grid is good to 0.3 %.
func (l *lab) blockLines(s *section) {
	for _, c := range []struct {
		name, inFile string
		wantS        float64
		body         conduction.Body
	}{
		{"bag of soup with its edges free, 25.4 by 160 by 165 mm", "soup brick 25.4x160x165 mm h 8 air -18 Ti 5 Tc -10", 27083, brick(soupCold, 5, face(8, -18), 0.0254, 0.16, 0.165)},
		{"stack of four alone, 101.6 by 160 by 165 mm", "soup brick 101.6x160x165 mm h 8 air -18 Ti 5 Tc -10", 67970, brick(soupCold, 5, face(8, -18), 0.1016, 0.16, 0.165)},
		{"gel block 40 by 120 by 160 mm, h 40, −30 °C", "gel brick 40x120x160 mm h 40 air -30 Ti 10 Tc -10", 5010, brick(gel, 10, face(40, -30), 0.04, 0.12, 0.16)},
		{"gel cube 40 mm, h 8, −18 °C", "gel cube 40 mm h 8 air -18 Ti 5 Tc -10", 13469, brick(gel, 5, face(8, -18), 0.04, 0.04, 0.04)},
	} {
		s.add(c.name+", to −10 °C", "s", explicitRow, percent(1), l.against(c.wantS, 1, c.body, -10).at(c.inFile, "freezing time", 1))
	}
}
