package conduction

import (
	"fmt"
	"math"
	"testing"

	"kettlefrost/internal/heat"
)

// checkCase is one figure of somebody else with our own beside it. tol is relative.
type checkCase struct {
	name, source string
	want, tol    float64
	got          func() (float64, error)
}

const (
	solverRow   = "derived: independent finite-volume solver in another language (section 5.2 and 7 of the thermal reference)"
	explicitRow = "derived: separate explicit three-dimensional enthalpy solver, refined to 0.3 % (section 2.3 of the thermal reference)"
)

// The tolerance is that of the source or of ours, whichever is wider: Engineering promises 1 %, the rows say 0.5 to 3 %.
func referenceCases() []checkCase {
	var all []checkCase
	for _, group := range [][]checkCase{gelCases(), bagCases(), stackCases(), panCases(), reheatingCases(), severalAxesCases(), potCases(), quotedCases()} {
		all = append(all, group...)
	}
	return all
}

func TestReferenceCases(t *testing.T) {
	worst := 0.0
	for _, c := range referenceCases() {
		got, err := c.got()
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		near(t, c.name+" ("+c.source+")", got, c.want, c.tol)
		worst = max(worst, math.Abs(got/c.want-1))
	}
	t.Logf("%d cases, the worst %.2f %% off", len(referenceCases()), 100*worst)
}

func gelCases() (all []checkCase) {
	add := func(name string, wantS, tol float64, b Body, coreC float64) {
		all = append(all, checkCase{name, solverRow, wantS, tol, coreTime(b, coreC, Engineering)},
			checkCase{name + ", fine", solverRow, wantS, 2e-3, coreTime(b, coreC, Fine)})
	}
	add("gel slab 50 mm, h 25, -30 °C, 10 to -10 °C", 10968.7, 0.01, slabOf(gel, 10, 0.05, in(25, -30)), -10)
	add("gel cylinder 50 mm", 5429.42, 0.01, roundOf(gel, heat.Cylinder, 10, 0.05, in(25, -30)), -10)
	add("gel sphere 50 mm", 3627.6, 0.01, roundOf(gel, heat.Sphere, 10, 0.05, in(25, -30)), -10)
	add("gel slab 24 mm, h 13.9", 9102.41, 0.01, slabOf(gel, 20, 0.024, in(13.9, -30)), -10)
	add("gel slab 100 mm, h 25, -25 °C", 30927.6, 0.01, slabOf(gel, 10, 0.1, in(25, -25)), -10)
	add("gel slab 100 mm, h 100, -35 °C", 11086.5, 0.01, slabOf(gel, 20, 0.1, in(100, -35)), -10)
	add("gel slab 25.4 mm, h 8, -18 °C", 24920.2, 0.01, slabOf(gel, 5, 0.0254, in(8, -18)), -10)
	add("gel slab 25.4 mm, h 300, -20 °C", 1244.19, 0.01, slabOf(gel, 5, 0.0254, in(300, -20)), -10)
	add("food 1050/3600/2000/250e3/-1/0.5/1.6, slab 25 mm, h 10, -30 °C; an explicit solver gives 13288.7", 13288.6, 0.01,
		slabOf(checkFood, 5, 0.025, in(10, -30)), -10)
	plain := mustSolid(1000, 4000, 0.5)
	add("no phase change: slab 50 mm, h 20, 57.2 to 21.1 °C in 0 °C", 7497.12, 0.01, slabOf(plain, 57.2, 0.05, in(20, 0)), 21.1)
	add("no phase change: cylinder", 3758.71, 0.01, roundOf(plain, heat.Cylinder, 57.2, 0.05, in(20, 0)), 21.1)
	add("no phase change: sphere", 2510.39, 0.01, roundOf(plain, heat.Sphere, 57.2, 0.05, in(20, 0)), 21.1)
	return all
}

func bagCases() (all []checkCase) {
	for _, row := range []struct{ film, air, soup10, soup15, braise10, braise15 float64 }{
		{5, -18, 14.3709, 16.8534, 12.008, 14.837},
		{8, -18, 9.08273, 10.6431, 7.6204, 9.40251},
		{10, -18, 7.31909, 8.57209, 6.15713, 7.59032},
		{30, -18, 2.60863, 3.04232, 2.24859, 2.75201},
		{30, -30, 1.46448, 1.5904, 1.24248, 1.3869},
	} {
		for _, c := range []struct {
			name         string
			m            Material
			coreC, wantH float64
		}{{"soup", soupCold, -10, row.soup10}, {"soup", soupCold, -15, row.soup15}, {"braise", braiseCold, -10, row.braise10}, {"braise", braiseCold, -15, row.braise15}} {
			all = append(all, checkCase{fmt.Sprintf("bag of %s 25.4 mm, h %g, %g °C, 5 to %g °C", c.name, row.film, row.air, c.coreC), solverRow,
				c.wantH * 3600, 0.01, coreTime(slabOf(c.m, 5, 0.0254, in(row.film, row.air)), c.coreC, Engineering)})
		}
	}
	return all
}

func stackCases() (all []checkCase) {
	for _, c := range []struct {
		name            string
		m               Material
		solidH, gappedH float64
	}{{"soup", soupCold, 39.3766, 41.6667}, {"braise", braiseCold, 34.0178, 35.9333}} {
		all = append(all,
			checkCase{"four bags of " + c.name + " as one slab of 101.6 mm", solverRow, c.solidH * 3600, 0.01, coreTime(slabOf(c.m, 5, 0.1016, in(8, -18)), -10, Engineering)},
			checkCase{"four bags of " + c.name + " with 0.02 m²K/W between", solverRow, c.gappedH * 3600, 0.01,
				coreTime(stackOf(c.m, 5, 0.1016, in(8, -18), 4, 0.02), -10, Engineering)})
	}
	return all
}

// Open pans evaporate after vessel.OpenSurfaceEvaporation, whose tail below the table is our own choice; the source's is not known.
func panCases() (all []checkCase) {
	open := func(film, mediumC float64) Face { f := in(film, mediumC); f.Wet = 1; return f }
	for _, row := range []struct {
		name        string
		bottom, top Face
		hours       [3][2]float64 // of 2, 2.5, 4 in: to 21.1 and 5 °C
	}{
		{"walk-in, still, covered", in(8, 3), in(10, 3), [3][2]float64{{4.07222, 11.8556}, {5.29722, 15.3194}, {9.45556, 26.9306}}},
		{"walk-in, still, open", in(8, 3), open(10, 3), [3][2]float64{{3.24444, 10.9861}, {4.34167, 14.3278}, {8.21944, 25.675}}},
		{"walk-in, fan, open", in(15, 3), open(20, 3), [3][2]float64{{2.20833, 6.68611}, {2.99722, 8.9}, {5.88333, 16.8222}}},
		{"blast", in(35, -10), in(35, -10), [3][2]float64{{1.125, 2.025}, {1.56389, 2.8}, {3.25278, 5.85833}}},
	} {
		for i, inches := range []float64{2, 2.5, 4} {
			for j, coreC := range []float64{21.1, 5} {
				all = append(all, checkCase{fmt.Sprintf("pan of soup %g in, %s, 57.2 to %g °C", inches, row.name, coreC), solverRow, row.hours[i][j] * 3600, 0.03,
					coreTime(panOf(soupHot, 57.2, 0.0254*inches, row.bottom, row.top), coreC, Engineering)})
			}
		}
	}
	return all
}

func reheatingCases() (all []checkCase) {
	for _, row := range []struct{ sizeM, film, water, soup18, soup4, braise18, braise4 float64 }{
		{0.0254, 200, 95, 28.0764, 18.3831, 27.1057, 18.6518},
		{0.0254, 435, 95, 23.1111, 15.1662, 22.6671, 15.6246},
		{0.0254, 1000, 95, 20.7645, 13.6368, 20.5669, 14.1848},
		{0.0254, 435, 85, 28.7008, 19.8769, 28.2878, 20.4729},
		{0.0508, 435, 95, 84.1315, 55.2479, 83.2279, 57.3988},
	} {
		for _, c := range []struct {
			name           string
			m              Material
			startC, wantMn float64
		}{{"soup", soupHot, -18, row.soup18}, {"soup", soupHot, 4, row.soup4}, {"braise", braiseHot, -18, row.braise18}, {"braise", braiseHot, 4, row.braise4}} {
			all = append(all, checkCase{fmt.Sprintf("bag of %s %g mm, h %g, water %g °C, %g to 73.9 °C", c.name, 1000*row.sizeM, row.film, row.water, c.startC),
				solverRow, c.wantMn * 60, 0.01, coreTime(slabOf(c.m, c.startC, row.sizeM, in(row.film, row.water)), 73.9, Engineering)})
		}
	}
	return append(all,
		checkCase{"thawing a bag of soup in air of 4 °C, h 8, to -0.5 °C", solverRow, 22.8198 * 3600, 0.02, coreTime(slabOf(soupHot, -18, 0.0254, in(8, 4)), -0.5, Engineering)},
		checkCase{"thawing a bag of soup in water of 15 °C, h 200, to 0 °C", solverRow, 51.1989 * 60, 0.01, coreTime(slabOf(soupHot, -18, 0.0254, in(200, 15)), 0, Engineering)})
}

func severalAxesCases() []checkCase {
	return []checkCase{
		{"soup brick 25.4 x 160 x 165 mm, h 8, -18 °C", explicitRow, 27083, 0.013, coreTime(brickOf(soupCold, 5, in(8, -18), 0.0254, 0.16, 0.165), -10, Engineering)},
		{"soup brick 101.6 x 160 x 165 mm", explicitRow, 67970, 0.013, coreTime(brickOf(soupCold, 5, in(8, -18), 0.1016, 0.16, 0.165), -10, Engineering)},
		{"gel brick 40 x 120 x 160 mm, h 40, -30 °C", explicitRow, 5010, 0.013, coreTime(brickOf(gel, 10, in(40, -30), 0.04, 0.12, 0.16), -10, Engineering)},
		{"gel cube 40 mm, h 8, -18 °C", explicitRow, 13469, 0.013, coreTime(brickOf(gel, 5, in(8, -18), 0.04, 0.04, 0.04), -10, Engineering)},
	}
}

func potCases() (all []checkCase) {
	for _, row := range []struct{ film, mediumC, hours float64 }{{10, 3, 47.0935}, {25, 3, 39.3199}, {1e6, 0, 31.971}} {
		pot := Body{soupHot, []Axis{{Shape: heat.Cylinder, SizeM: 0.57, High: in(row.film, row.mediumC)}, Both(0.593381, in(row.film, row.mediumC))}, 57.2}
		all = append(all, checkCase{fmt.Sprintf("pot of 40 gal, unstirred, h %g, %g °C, 57.2 to 21.1 °C", row.film, row.mediumC),
			"derived: product of the exact series (section 7.1 of the thermal reference)", row.hours * 3600, 0.01, coreTime(pot, 21.1, Engineering)})
	}
	return all
}

// What people measure in a water bath. Their food is only "meat-like": the constants are round ones for lean meat, ours.
func quotedCases() []checkCase {
	meat := mustFood(1060, 3500, 2000, 230e3, -1, 0.48, 1.4)
	return []checkCase{
		{"slab of 30 mm in 55 °C water, h 300, 5 to 54.5 °C", "read: hobby wiki quoting Baldwin's table, 69 min (67 measured)", 69 * 60, 0.04,
			coreTime(slabOf(meat, 5, 0.03, in(300, 55)), 54.5, Engineering)},
		{"the same from -18 °C", "read: hobby wiki quoting Baldwin's table, 84 min (98 measured, from -10 °C)", 84 * 60, 0.1,
			coreTime(slabOf(meat, -18, 0.03, in(300, 55)), 54.5, Engineering)},
	}
}
