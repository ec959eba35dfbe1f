package heatshow

import (
	"fmt"
	"strings"

	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/unit"
)

// Properties is a food by temperature as a table. Its figures are metric in both systems, as tables of foods are.
func Properties(p heatcase.Properties, units unit.System) string {
	w := writer{}
	w.hang("", capital(p.Name))
	c := p.Composition
	w.hang("  ", fmt.Sprintf("%.4g %% water, %.3g %% protein, %.3g %% fat, %.3g %% carbohydrate, %.3g %% fibre, %.3g %% ash, %.3g %% alcohol", 100*c.Water, 100*c.Protein, 100*c.Fat, 100*c.Carb, 100*c.Fibre, 100*c.Ash, 100*c.Alcohol))
	w.hang("  ", fmt.Sprintf("begins to freeze at %s (%s); %.3g %% of it is water that can freeze", fineTemp(p.FreezesAtC, units), p.FreezesAtFrom, 100*p.FreezableWater))
	w.text.WriteString("\n")
	w.text.WriteString(propertyRow("", "density", "heat", "apparent", "conducts", "above -40 °C", "ice", "liquid water"))
	w.text.WriteString(propertyRow("", "kg/m³", "kJ/kg·K", "kJ/kg·K", "W/m·K", "kJ/kg", "%", "%"))
	for _, r := range p.Rows {
		row := propertyRow(fineTemp(r.TempC, units), fmt.Sprintf("%.0f", r.DensityKgM3), fmt.Sprintf("%.2f", r.SensibleHeatKJKgK), figure(r.ApparentHeatKJKgK), fmt.Sprintf("%.2f", r.ConductivityWMK),
			fmt.Sprintf("%.1f", r.EnthalpyKJKg), fmt.Sprintf("%.1f", 100*r.IceShare), fmt.Sprintf("%.1f", 100*r.LiquidWater))
		if r.TempC == p.FreezesAtC {
			row = strings.TrimRight(row, "\n") + "  begins to freeze\n"
		}
		w.text.WriteString(row)
	}
	w.heading("know this")
	w.hang("  ", "apparent: with the ice that melts for each kelvin; density: without air in it")
	w.hang("  ", fmt.Sprintf("computed from its composition, known from %.0f to %.0f °C; nothing of it was measured on this food", p.ValidFromC, p.ValidToC))
	for _, f := range p.Findings {
		w.hang("  ", f.Severity.String()+": "+f.Message+sayFix(f.Fix))
	}
	w.heading("from")
	for _, s := range p.Sources {
		w.hang("  ", s)
	}
	return w.text.String()
}

func sayFix(fix string) string {
	if fix == "" {
		return ""
	}
	return "; " + fix
}

// propertyRow lines up a row; figures stand under each other's ends.
func propertyRow(temp string, cells ...string) string {
	var b strings.Builder
	b.WriteString(pad(temp, 9))
	for i, cell := range cells {
		width := []int{8, 9, 9, 9, 13, 7, 13}[i]
		b.WriteString(strings.Repeat(" ", max(0, width-len([]rune(cell)))) + cell)
	}
	return strings.TrimRight(b.String(), " ") + "\n"
}

// fineTemp is a temperature to a whole degree where it is one, and finer where food freezes.
func fineTemp(c float64, units unit.System) string {
	if units == unit.US {
		return trimmed(fmt.Sprintf("%.1f", unit.TempC(c).F())) + " °F"
	}
	return trimmed(fmt.Sprintf("%.2f", c)) + " °C"
}

func trimmed(decimals string) string { return strings.TrimRight(strings.TrimRight(decimals, "0"), ".") }
