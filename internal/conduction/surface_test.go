package conduction

import (
	"math"
	"testing"

	"kettlefrost/internal/vessel"
)

// The samples give back what package heat says, between them too, for any air; the slope is its slope.
func TestEvaporation(t *testing.T) {
	for _, airC := range []float64{-10, 3, 15.6, 21, 30, 50} {
		for tempC := 10.05; tempC < 99; tempC += 0.43 {
			rate, err := vessel.OpenSurfaceEvaporation(tempC, airC)
			if err != nil {
				t.Fatal(err)
			}
			want := rate.KgM2H / 3600 * vessel.VaporLatentJKg(tempC)
			got, slope := evaporation(tempC, airC)
			within(t, "loss", got, want, 1e-3*want+0.3)
			if more, _ := evaporation(tempC+1e-6, airC); math.Abs((more-got)/1e-6-slope) > 1e-3*(1+slope) && math.Abs(math.Mod((tempC*1.8+32)*2, 1)) > 1e-4 {
				t.Errorf("slope %g at %g °C, differences say %g", slope, tempC, (more-got)/1e-6)
			}
		}
	}
	// Read in the table of heat loss from open tanks (section 4 of the thermal reference), W/m².
	for tempF, want := range map[float64]float64{100: 505, 120: 1136, 140: 2082, 160: 3470, 180: 5489, 200: 8454, 210: 10221} {
		got, _ := evaporation((tempF-32)/1.8, 3)
		near(t, "table", got, want, 1e-3)
	}
}

// A surface balances: what comes from within goes off through film and evaporation, and its answers are its derivatives.
func TestSurfaceBalance(t *testing.T) {
	for _, c := range []struct {
		m              Material
		f              Face
		tempC, mediumC float64
	}{
		{soupHot, Face{FilmWM2K: 10, Wet: 1}, 57, 3}, {soupHot, Face{FilmWM2K: 10, Wet: 0.3}, 95, 21}, {soupHot, Face{FilmWM2K: 25, Wet: 1}, 34, 50},
		{soupCold, Face{FilmWM2K: 300}, -0.9, -30}, {soupCold, Face{FilmWM2K: 300}, 5, -30}, {soupHot, Face{FilmWM2K: 435}, -18, 95}, {gel, Face{FilmWM2K: 1e7}, -0.6, -30},
	} {
		const halfM = 0.5e-3
		potential, _ := c.m.Potential(c.tempC)
		got := surface(c.m, &c.f, c.tempC, potential, halfM, c.mediumC)
		at, _ := c.m.Potential(got.surfaceC)
		loss, _ := evaporation(got.surfaceC, c.mediumC)
		within(t, "conduction", got.fluxWM2, (potential-at)/halfM, 1e-4*(1+math.Abs(got.fluxWM2)))
		if c.f.FilmWM2K < 1e5 {
			near(t, "film and evaporation", got.fluxWM2, c.f.FilmWM2K*(got.surfaceC-c.mediumC)+c.f.Wet*loss, 1e-5)
		}
		more := surface(c.m, &c.f, c.tempC, potential+1e-4, halfM, c.mediumC)
		near(t, "answer to the potential", got.perPotential, (more.fluxWM2-got.fluxWM2)/1e-4, 1e-3)
		if c.f.Wet == 0 { // with evaporation the medium's part in its onset is left out of the slope
			warmer := surface(c.m, &c.f, c.tempC, potential, halfM, c.mediumC+1e-3)
			near(t, "answer to the medium", got.perMediumWM2K, (got.fluxWM2-warmer.fluxWM2)/1e-3, 1e-3)
		}
	}
}

func TestGapBalance(t *testing.T) {
	const halfM, r = 1e-3, 0.02
	for _, c := range [][2]float64{{5, 4}, {5, -18}, {-0.8, -20}, {-18, 95}, {3, 3}} {
		p0, _ := soupCold.Potential(c[0])
		p1, _ := soupCold.Potential(c[1])
		got := gap(soupCold, c[0], p0, c[1], p1, halfM, r)
		ps, _ := soupCold.Potential(got.surfaceC)
		pb, _ := soupCold.Potential(got.beyondC)
		within(t, "to the gap", got.fluxWM2, (p0-ps)/halfM, 1e-3)
		within(t, "across", got.fluxWM2, (got.surfaceC-got.beyondC)/r, 1e-3)
		within(t, "from the gap", got.fluxWM2, (pb-p1)/halfM, 1e-3)
		if c[0] == c[1] {
			continue
		}
		more := gap(soupCold, c[0], p0+1e-4, c[1], p1, halfM, r)
		near(t, "answer to this side", got.perPotential, (more.fluxWM2-got.fluxWM2)/1e-4, 0.01)
		beyond := gap(soupCold, c[0], p0, c[1], p1+1e-4, halfM, r)
		near(t, "answer to the other side", got.perPotentialBeyond, (got.fluxWM2-beyond.fluxWM2)/1e-4, 0.01)
	}
}

// Enthalpy and temperature are each other's inverse, slopes and potentials are what they say.
func TestMaterials(t *testing.T) {
	for name, m := range map[string]Material{"soup": soupCold, "braise": braiseHot, "solid": mustSolid(1030, 3850, 0.5), "ice": ice(917, 2050, 4200), "dry": mustFood(600, 2000, 1800, 0, -5, 0.2, 0.3)} {
		for tempC := -59.37; tempC < 150; tempC += 0.731 {
			h := m.EnthalpyJKg(tempC)
			back, slope, k := m.At(h)
			within(t, name+": temperature", back, tempC, 1e-8)
			p, kp := m.Potential(tempC)
			near(t, name+": conductivity", kp, k, 1e-9)
			const d = 1e-4
			near(t, name+": slope", slope, 2*d/(m.EnthalpyJKg(tempC+d)-m.EnthalpyJKg(tempC-d)), 1e-4)
			above, _ := m.Potential(tempC + d)
			near(t, name+": potential", (above-p)/d, k, 1e-3)
		}
	}
	if f, err := soupCold.(food).FreezingFood.EnthalpyJKg(-12); err != nil || math.Abs(f-soupCold.EnthalpyJKg(-12)) > 1e-6 {
		t.Errorf("not the enthalpy of package heat: %g, %v", f, err)
	}
	if tempC, slope, _ := ice(917, 2050, 4200).At(-100e3); tempC != 0 || slope != 0 {
		t.Errorf("melting ice at %g °C, slope %g", tempC, slope)
	}
}
