package heatshow

import (
	"fmt"

	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/unit"
)

// Kettle is how long a pot takes on its burner, as text.
func Kettle(a heatcase.KettleAnswer, units unit.System) string {
	w := writer{}
	w.hang("", fmt.Sprintf("%s, %s, from %s to %s", capital(a.Food), unit.MassKg(a.MassKg).Show(units), unit.TempC(a.FromC).Show(units), unit.TempC(a.ToC).Show(units)))
	w.hang("", "lid on   "+kettleWay(a.LidOn, units))
	w.hang("", "lid off  "+kettleWay(a.LidOff, units))
	w.heading("know this")
	w.hang("  ", fmt.Sprintf("%.3g kW reach the food, %.0f %% of what the burner is rated; stirred, or it burns before it boils", a.NetW/1000, 100*a.Efficiency))
	if a.DepthMM > 0 {
		w.hang("  ", "it stands "+unit.LengthM(a.DepthMM/1000).Show(units)+" deep")
	}
	for _, f := range a.Findings {
		w.hang("  ", f.Severity.String()+": "+f.Message+sayFix(f.Fix))
	}
	w.heading("from")
	for _, s := range a.Sources {
		w.hang("  ", s)
	}
	return w.text.String()
}

func kettleWay(k heatcase.KettleWay, units unit.System) string {
	if !k.Reached {
		return fmt.Sprintf("never: it stays at %s, because %s", unit.TempC(k.EndsC).Show(units), k.EndsWhy)
	}
	text := fmt.Sprintf("%s, %.3g kWh", heatcase.CookTime(k.TimeS).Show(units), k.EnergyKWh)
	if k.WaterKg > 0 {
		text += ", " + unit.MassKg(k.WaterKg).Show(units) + " of water gone"
	}
	return text
}
