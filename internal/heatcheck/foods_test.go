package heatcheck

import "kettlefrost/internal/heat"

// printed is a row of ASHRAE Handbook Refrigeration, "Thermal properties of foods", table 3 (% by mass; carbohydrate includes fibre): its
// specific heat above and below freezing, kJ/(kg·K), and latent heat, kJ/kg; and what was worked out for that composition apart from this
// code, at 20 and -20 °C. 0 where there is none.
type printed struct {
	name, inFile                          string
	readThere                             bool // else from memory in part or whole
	water, protein, fat, carb, fibre, ash float64
	freezesC                              float64
	above, below, latent                  float64
	rho20, cp20, k20                      float64
	ice, tchigeov, levy                   float64
	chen20, chen10                        float64 // kJ/kg above -40 °C, at -20 and 10 °C
}

var foods = []printed{
	{"carrot", "carrot", true, 87.79, 1.03, 0.19, 10.14, 3.00, 0.87, -1.4, 3.92, 2.00, 293, 1038.67, 3.87082, 0.571567, 0.812615, 0.782392, 1.88351, 44.2792, 391.611},
	{"potato", "potato", false, 78.96, 2.07, 0.10, 17.98, 1.60, 0.89, -0.6, 3.67, 1.93, 264, 1076.96, 3.64176, 0.548477, 0.75788, 0.705509, 1.72999, 40.2118, 367.476},
	{"asparagus", "asparagus", true, 92.40, 2.28, 0.20, 4.54, 2.10, 0.57, -0.6, 4.03, 1.79, 309, 1019.07, 3.99412, 0.58265, 0.887434, 0.825595, 2.06597, 37.4933, 408.027},
	{"kale", "kale", true, 84.46, 3.30, 0.70, 10.01, 2.00, 1.53, -0.5, 3.82, 1.86, 282, 1049.54, 3.79056, 0.561793, 0.810615, 0.754885, 1.85963, 38.383, 383.065},
	{"garlic", "garlic", true, 58.58, 6.36, 0.50, 33.07, 2.10, 1.50, -0.8, 3.17, 2.19, 196, 1164.68, 3.13343, 0.483962, 0.537946, 0.523085, 1.17939, 45.1766, 298.897},
	{"lean beef sirloin", "beef sirloin lean", false, 71.70, 21.24, 4.40, 0, 0, 1.08, -1.7, 3.53, 2.11, 239, 1054.35, 3.52688, 0.51113, 0.578317, 0.638353, 1.27415, 47.0927, 316.15},
	{"beef carcass", "beef carcass choice", false, 57.26, 17.32, 24.05, 0, 0, 0.81, -2.2, 3.24, 2.31, 191, 1023.19, 3.23639, 0.432893, 0.447955, 0.508907, 0.881807, 51.0054, 276.146},
	{"whole milk", "milk whole", false, 87.69, 3.28, 3.66, 4.65, 0, 0.72, -0.6, 3.89, 1.81, 293, 1022.93, 3.88457, 0.563957, 0.837867, 0.783511, 1.89263, 38.4245, 392.416},
	{"cheddar", "cheddar", false, 36.75, 24.90, 33.14, 1.28, 0, 3.93, -12.9, 2.77, 3.07, 123, 1060.04, 2.77218, 0.351651, 0, 0, 0, 0, 0},
	{"butter", "butter", false, 17.94, 0.85, 81.11, 0.06, 0, 0.04, 0, 2.40, 0, 60, 933.327, 2.39968, 0.247385, 0, 0, 0, 0, 0},
}

func parts(water, protein, fat, carb, fibre, ash float64) heat.Composition {
	return heat.Composition{Water: water / 100, Protein: protein / 100, Fat: fat / 100, Carb: carb / 100, Fibre: fibre / 100, Ash: ash / 100}
}

func (p printed) composition() heat.Composition {
	return parts(p.water, p.protein, p.fat, p.carb-p.fibre, p.fibre, p.ash)
}

// aboveKJKgK is the specific heat as the printed table has it: fibre counted a second time, as part of the carbohydrate.
func (p printed) aboveKJKgK() (float64, error) {
	once, err := p.composition().At(20)
	if err != nil {
		return 0, err
	}
	carb, err := heat.Composition{Carb: 1}.At(20)
	return (once.SpecificHeatJKgK + p.fibre/100*carb.SpecificHeatJKgK) / 1000, err
}

// belowKJKgK is Chen's at -40 °C, with the listed solids added up, fibre twice.
func (p printed) belowKJKgK() (float64, error) {
	solids := (p.protein + p.fat + p.carb + p.fibre + p.ash) / 100
	j, err := heat.ChenFood{Water: p.water / 100, Protein: p.protein / 100, Solids: solids, FreezingPointC: p.freezesC}.HeatJKgK(-40)
	return j / 1000, err
}

func (p printed) chenKJKg(tempC float64) (float64, error) {
	chen, err := p.composition().Chen(p.freezesC)
	if err != nil {
		return 0, err
	}
	j, err := chen.EnthalpyJKg(tempC)
	return j / 1000, err
}
