package heat

import (
	"testing"

	"kettlefrost/internal/heat/heattest"
)

// Two assumed recipes and their seven constants as the reference rounds them (derived): density, heats and conductivities within
// 1 %. Its conductivity is given cold, for freezing, and hot, for reheating.
var recipes = []struct {
	name                     string
	of                       Composition
	freezesC                 float64
	rho, cu, cf, a           float64
	kuCold, kuHot, kf        float64
	from5to15, from18to73_9K float64 // kJ/kg, of the rounded constants
}{
	{"soup", percent(86, 3.5, 3, 5.5, 1, 1), -0.8, 1030, 3850, 2040, 282e3, 0.54, 0.59, 1.89, 318.258, 592.15},
	{"braise", percent(72, 16, 7, 3.5, 0.5, 1), -1.2, 1050, 3560, 2200, 219e3, 0.49, 0.53, 1.36, 253.912, 508.716},
}

func TestSevenConstants(t *testing.T) {
	for _, r := range recipes {
		t.Run(r.name, func(t *testing.T) {
			cold := heattest.Must(r.of.FreezingFood(r.freezesC, 5))(t)
			hot := heattest.Must(r.of.FreezingFood(r.freezesC, 40))(t)
			heattest.Near(t, "density", cold.DensityKgM3, r.rho, 0.01)
			heattest.Near(t, "unfrozen heat", cold.UnfrozenHeatJKgK, r.cu, 0.01)
			heattest.Near(t, "frozen heat", cold.FrozenHeatJKgK, r.cf, 0.01)
			heattest.Near(t, "freezable heat", cold.FreezableJKg, r.a, 0.01)
			heattest.Near(t, "conductivity, cold", cold.UnfrozenConductivityWMK, r.kuCold, 0.01)
			heattest.Near(t, "conductivity, hot", hot.UnfrozenConductivityWMK, r.kuHot, 0.01)
			heattest.Near(t, "conductivity, frozen", cold.FrozenConductivityWMK, r.kf, 0.01)
			// What the constants were matched to.
			measured := heattest.Must(r.of.FrozenAt(-20, r.freezesC))(t)
			heattest.Near(t, "conductivity at -20 °C", heattest.Must(cold.ConductivityWMK(-20))(t), measured.ConductivityWMK, 1e-12)
		})
	}
}

// rounded is a recipe with the reference's constants.
func rounded(name string) FreezingFood {
	for _, r := range recipes {
		if r.name == name {
			return FreezingFood{r.rho, r.cu, r.cf, r.a, r.freezesC, r.kuCold, r.kf}
		}
	}
	return FreezingFood{}
}

// Derived, 0.2 %.
func TestEnthalpy(t *testing.T) {
	for _, r := range recipes {
		f := rounded(r.name)
		heattest.Near(t, r.name+" 5 to -15 °C", heattest.Must(f.HeatJKg(5, -15))(t), r.from5to15*1000, 2e-3)
		heattest.Near(t, r.name+" -18 to 73.9 °C", heattest.Must(f.HeatJKg(73.9, -18))(t), r.from18to73_9K*1000, 2e-3)
	}
}

// Chen's (1985) enthalpy, as ASHRAE uses it, is another model with the same physics: beef 58.21 % water, 17.48 % protein, freezing at
// -1.7 °C gives off 231.6 kJ/kg from 10 to -20 °C (example from memory, derived). Fat taken as the rest less 0.8 % ash. The two
// agree within 5 %.
func TestEnthalpyAgainstChen(t *testing.T) {
	f := heattest.Must(percent(58.21, 17.48, 23.5, 0, 0, 0.81).FreezingFood(-1.7, 5))(t)
	heattest.Near(t, "beef 10 to -20 °C", heattest.Must(f.HeatJKg(10, -20))(t), 231.582e3, 0.05)
	for _, r := range []struct { // Chen at 10 °C less Chen at -20 °C, derived
		name string
		want float64
	}{{"carrot", 391.611 - 44.2792}, {"potato", 367.476 - 40.2118}, {"lean beef sirloin", 316.15 - 47.0927}} {
		for _, row := range foods {
			if row.name != r.name {
				continue
			}
			c := heattest.Must(percent(row.water, row.protein, row.fat, row.carb-row.fibre, row.fibre, row.ash).Normalise())(t)
			f := heattest.Must(c.FreezingFood(row.freezesC, 5))(t)
			heattest.Near(t, r.name+" 10 to -20 °C", heattest.Must(f.HeatJKg(10, -20))(t), r.want*1000, 0.05)
		}
	}
}

func TestEnthalpyGoesBackToTemperature(t *testing.T) {
	f := rounded("soup")
	for _, at := range []float64{-60, -40, -18, -1, -0.81, -0.8, -0.5, 0, 5, 57.2, 150} {
		heattest.Within(t, "temperature", heattest.Must(f.TempC(heattest.Must(f.EnthalpyJKg(at))(t)))(t), at, 1e-9)
	}
}
