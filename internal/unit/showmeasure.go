package unit

// Show of a mass, metric: three figures, in mg under 0.1 g, in g under 1 kg, else in kg; at most 0.5 % off.
//
// In US units the rounding is never more than 1.3 %, so that a weighed line can be followed with a scale:
//
//	under 1 lb 4 oz     to 1/4 oz, if that is within 1.3 %; if not, or under 1/2 oz, in grams as above
//	1 lb 4 oz - 2 1/2 lb  to 1/2 oz
//	2 1/2 lb - 20 lb      to 1 oz
//	20 lb - 100 lb        to 1/4 lb
//	over 100 lb           to 1 lb
func (m Mass) Show(s System) string {
	if s == US {
		return withSign(m, Mass.showUS)
	}
	return withSign(m, Mass.showMetric)
}

func (m Mass) showMetric() string {
	switch {
	case m == 0:
		return kinds[massKind].zero
	case m < Gram/10:
		return figures(float64(m)/float64(Milligram)) + " mg"
	}
	return showIn(float64(m)/float64(Gram), "g", 1000, "kg")
}

// massSteps are the steps that US masses below a bound are rounded to, in quarter ounces.
var massSteps = []struct {
	below Mass
	step  uint64
}{
	{20 * Ounce, 1},
	{40 * Ounce, 2},
	{20 * Pound, 4},
	{100 * Pound, 16},
	{1<<63 - 1, 64},
}

func (m Mass) showUS() string {
	i := 0
	for m > massSteps[i].below {
		i++
	}
	step := massSteps[i].step
	count, _ := mulDivRound(uint64(m), 4, uint64(Ounce)*step)
	rounded, ok := mulDivRound(count*step, uint64(Ounce), 4)
	if m < Ounce/2 || !ok || !within(rounded, uint64(m), 13) {
		return m.showMetric()
	}
	text, _ := appendChain(nil, rounded, chains[massKind]) // quarter ounces are always exact
	return string(text)
}

// within reports whether got is within perMille of want.
func within(got, want uint64, perMille uint64) bool {
	off := max(got, want) - min(got, want)
	bound, _ := mulDivRound(want, perMille, 1000)
	return off <= bound
}

// Show of a volume, metric: three figures, in ml under 1 L, else in L; at most 0.5 % off.
//
// In US measures it is the plainest of these that is within 1/32 (3.1 %), which is finer than measuring cups are made (±5 %); if
// none is, millilitres:
//
//	from 1 gal     gal; gal and qt; gal, qt and cups
//	from 1 qt      qt; qt and cups, in whole cups, halves, then quarters
//	from 1/4 cup   cups, in whole cups, halves, quarters or thirds; cups and tbsp; tbsp and tsp, down to 1/2 tsp
//	from 1 tbsp    tbsp, or halves; tbsp and tsp, down to 1/4 tsp
//	below          tsp, in halves, quarters, eighths or thirds
func (v Volume) Show(s System) string {
	if s == US {
		return withSign(v, Volume.showUS)
	}
	return withSign(v, Volume.showMetric)
}

func (v Volume) showMetric() string {
	if v == 0 {
		return kinds[volumeKind].zero
	}
	return showIn(float64(v)/float64(Millilitre), "ml", 1000, "L")
}

// grid is a way of measuring: units side by side, the last in 1/den.
type grid struct {
	units []*unitRow
	den   uint64
}

// volumeGrids lists, from a volume up, the ways of measuring it, plainest first.
var volumeGrids = func() []struct {
	from  Volume
	grids []grid
} {
	chain := chains[volumeKind]
	gal, qt, cup, tbsp, tsp := chain[0], chain[1], chain[2], chain[3], chain[4]
	in := func(den uint64, units ...*unitRow) grid { return grid{units, den} }
	return []struct {
		from  Volume
		grids []grid
	}{
		{Gallon, []grid{in(1, gal), in(1, gal, qt), in(1, gal, qt, cup)}},
		{Quart, []grid{in(1, qt), in(1, qt, cup), in(2, qt, cup), in(4, qt, cup)}},
		{Cup / 4, []grid{in(1, cup), in(2, cup), in(4, cup), in(3, cup), in(1, cup, tbsp), in(1, tbsp, tsp), in(2, tbsp, tsp)}},
		{Tablespoon, []grid{in(1, tbsp), in(2, tbsp), in(1, tbsp, tsp), in(2, tbsp, tsp), in(4, tbsp, tsp)}},
		{0, []grid{in(1, tsp), in(2, tsp), in(4, tsp), in(8, tsp), in(3, tsp)}},
	}
}()

func (v Volume) showUS() string {
	i := 0
	for v < volumeGrids[i].from {
		i++
	}
	for _, g := range volumeGrids[i].grids {
		if text, ok := g.show(uint64(v), 31); ok && v > 0 {
			return text
		}
	}
	return v.showMetric()
}

// show rounds mag to the grid and prints that, if it is within perMille.
func (g grid) show(mag, perMille uint64) (string, bool) {
	last := g.units[len(g.units)-1]
	n, ok := steps(mag, last, g.den)
	rounded := stepsBack(n, last, g.den)
	if !ok || n == 0 || !within(rounded, mag, perMille) {
		return "", false
	}
	text, ok := appendChain(nil, rounded, g.units)
	return string(text), ok
}

// Show of a length, metric: three figures, in mm under 10 cm, in cm under 1 m, else in m; at most 0.5 % off.
//
// In US units: under 3 ft in inches, in whole inches, halves, quarters or eighths, whichever comes first within 2 %, or else in
// millimetres; from 3 ft in feet and whole inches, at most 1.4 % off.
func (l Length) Show(s System) string {
	if s == US {
		return withSign(l, Length.showUS)
	}
	return withSign(l, Length.showMetric)
}

func (l Length) showMetric() string {
	mm := float64(l) / float64(Millimetre)
	if l < 10*Centimetre {
		return figures(mm) + " mm"
	}
	return showIn(mm/10, "cm", 100, "m")
}

func (l Length) showUS() string {
	ft, in := chains[lengthKind][0], chains[lengthKind][1]
	if l < 3*Foot {
		for _, den := range []uint64{1, 2, 4, 8} {
			n, _ := steps(uint64(l), in, den)
			if n > 0 && within(stepsBack(n, in, den), uint64(l), 20) {
				return string(appendUnit(appendFraction(nil, n, den), in, n, den))
			}
		}
		return l.showMetric()
	}
	text, ok := grid{[]*unitRow{ft, in}, 1}.show(uint64(l), 20)
	if !ok {
		return l.showMetric()
	}
	return text
}
