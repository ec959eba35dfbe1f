package heatcase

import (
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/heat"
)

// PropertiesSchema is the name of Properties as JSON.
const PropertiesSchema = "kettlefrost.properties/1"

// Properties is what is known of a food from frozen to hot. Figures are metric with the unit at the end of their JSON name.
type Properties struct {
	Schema           string       `json:"schema"`
	Name             string       `json:"name"`
	Source           string       `json:"source"`
	Composition      Fractions    `json:"composition"`
	FreezesAtC       float64      `json:"freezes_at_c"`
	FreezesAtFrom    string       `json:"freezes_at_from"`
	FreezesAtAssumed bool         `json:"freezes_at_assumed"`
	FreezableWater   float64      `json:"freezable_water"` // part of the whole: water that protein does not bind
	ValidFromC       float64      `json:"valid_from_c"`
	ValidToC         float64      `json:"valid_to_c"`
	Rows             []PropertyAt `json:"rows"` // coldest first, one of them where it begins to freeze
	Findings         finding.List `json:"findings"`
	Sources          []string     `json:"sources"`
}

// PropertyAt is the food at one temperature, per kilogram of the whole.
type PropertyAt struct {
	TempC             float64 `json:"temp_c"`
	DensityKgM3       float64 `json:"density_kg_m3"` // without air
	SensibleHeatKJKgK float64 `json:"sensible_heat_kj_kg_k"`
	ApparentHeatKJKgK float64 `json:"apparent_heat_kj_kg_k"` // with the ice that melts per kelvin
	ConductivityWMK   float64 `json:"conductivity_w_m_k"`
	EnthalpyKJKg      float64 `json:"enthalpy_kj_kg"` // above the same food at -40 °C
	IceShare          float64 `json:"ice_share"`
	LiquidWater       float64 `json:"liquid_water"` // part of the whole, bound water included
}

// propertyTemps is the temperatures of the rows, beside the freezing point: freezers, what happens below freezing, the cold room, a
// kitchen and hot food.
var propertyTemps = []float64{-30, -18, -10, -5, -2, 0, 5, 20, 40, 60, 80, 95}

const propertySource = "density, heat and conductivity of the components: Choi and Okos (1986), as tabulated in ASHRAE Handbook Refrigeration; ice by the ideal solution with bound water, " +
	"apparent heat as Schwartzberg has it, conductivity of frozen food by Levy (1981)"

// Properties is the food by temperature. Errors: *CaseError when it is not said what food it is, or when it makes no sense.
func (f Food) Properties() (Properties, error) {
	k := checker{c: Case{Food: f}}
	r, ok := k.resolved()
	if !ok {
		return Properties{}, &CaseError{k.found}
	}
	p := Properties{Schema: PropertiesSchema, Name: r.name, Source: r.source, Composition: Fractions(r.composition), FreezesAtC: r.freezesC, FreezesAtFrom: r.freezesFrom,
		FreezesAtAssumed: r.assumed, FreezableWater: r.composition.FreezableWater(), ValidFromC: heat.LowestPropertyC, ValidToC: heat.HighestPropertyC,
		Findings: r.told(), Sources: []string{r.source, propertySource}}
	temps := append(slices.Clone(propertyTemps), r.freezesC)
	slices.Sort(temps)
	for _, t := range slices.Compact(temps) {
		s, err := r.composition.State(t, r.freezesC)
		if err != nil {
			return Properties{}, err
		}
		p.Rows = append(p.Rows, PropertyAt{TempC: t, DensityKgM3: s.DensityKgM3, SensibleHeatKJKgK: s.SensibleHeatJKgK / 1000, ApparentHeatKJKgK: s.ApparentHeatJKgK / 1000,
			ConductivityWMK: s.ConductivityWMK, EnthalpyKJKg: s.EnthalpyJKg / 1000, IceShare: s.IceShare, LiquidWater: s.LiquidWater})
	}
	return p, nil
}
