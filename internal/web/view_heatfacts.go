package web

import (
	"fmt"
	"math"
	"strings"

	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/unit"
)

func foodFacts(a heatcase.Answer, rd reader) []heatFact {
	f, c := a.Food, a.Food.Composition
	var parts []string
	for _, p := range []struct {
		name  string
		share float64
	}{{"water", c.Water}, {"protein", c.Protein}, {"fat", c.Fat}, {"carbohydrate", c.Carb}, {"fibre", c.Fibre}, {"ash", c.Ash}, {"alcohol", c.Alcohol}} {
		if p.share > 0 {
			parts = append(parts, fmt.Sprintf("%.3g %% %s", 100*p.share, p.name))
		}
	}
	freezes := rd.exactTemp(f.FreezesAtC)
	facts := []heatFact{
		{"Food", f.Name + ", " + f.Source}, {"Made of", strings.Join(parts, ", ")}, {"Density", fmt.Sprintf("%.0f kg/m³", f.DensityKgM3)},
		{"Unfrozen", fmt.Sprintf("%.2f kJ/kg·K, %.2f W/m·K", f.UnfrozenHeatKJKgK, f.UnfrozenConductivityWMK)}}
	if min(a.FromC, a.ToC) < f.FreezesAtC {
		facts = append(facts,
			heatFact{"Frozen", fmt.Sprintf("%.2f kJ/kg·K, %.2f W/m·K, and %.0f kJ/kg to freeze all that can", f.FrozenHeatKJKgK, f.FrozenConductivityWMK, f.FreezableKJKg)},
			heatFact{"Begins to freeze", freezes.First + " (" + freezes.Second + "): " + f.FreezesAtFrom},
			heatFact{"Ice at the coldest", fmt.Sprintf("%.0f %% of its weight", 100*f.IceShare)})
	}
	return append(facts, heatFact{"Properties known", fmt.Sprintf("from %.0f to %.0f °C", f.ValidFromC, f.ValidToC)})
}

func heatFacts(h heatcase.Heat, rd reader) []heatFact {
	name := "Heat to take out"
	if h.KJKg < 0 {
		name = "Heat to put in"
	}
	facts := []heatFact{{name, fmt.Sprintf("%.3g kJ/kg", math.Abs(h.KJKg))}}
	if h.PieceKg > 0 {
		facts = append(facts, heatFact{"One piece", rd.fig(unit.MassKg(h.PieceKg)).First + fmt.Sprintf(": %.3g kJ, %.2g W on the average", math.Abs(h.PieceKJ), math.Abs(h.MeanW))})
	}
	if h.IceKg > 0 {
		facts = append(facts, heatFact{"Ice that melts", rd.fig(unit.MassKg(h.IceKg)).First + ", and the room melts more"})
	}
	return facts
}

func heatSides(a heatcase.Answer, rd reader) []heatSide {
	var all []heatSide
	for _, s := range a.Sides {
		side := heatSide{Name: capital(s.Name), Words: s.Words, Temp: "–", Film: "–", Note: s.Note, Source: s.Source}
		if s.Medium != heatcase.Closed {
			side.Temp = rd.temp(s.TempC)
			side.Film = filmWords(s.UsualW) + ", range " + filmRange(medium.Film{LowWM2K: s.LowW, HighWM2K: s.HighW})
		}
		all = append(all, side)
	}
	return all
}
