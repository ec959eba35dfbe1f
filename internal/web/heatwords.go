package web

import (
	"strings"

	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/unit"
)

// heatLabels are short names of what Help says at length.
var heatLabels = map[string]string{
	"food": "Food", "carbohydrate": "Carbohydrate, fibre included", "freezes-at": "Begins to freeze at", "name": "Your name for it",
	"in": "It stands in", "at": "Which is at", "package": "Around the food", "stir": "Stirring", "open": "No lid", "from": "From", "to": "To, at the core",
	"stack": "Bags on each other", "touching": "They touch, no air between", "piece": "One piece holds", "film": "Surface coefficient",
	"below": "Under it", "below-at": "Temperature under it", "below-film": "Coefficient under it",
	"above": "Over it", "above-at": "Temperature over it", "above-film": "Coefficient over it", "u": "Overall coefficient of the pot",
}

var optionNames = map[string]string{
	"none": "nothing", "film": "plastic film, as of a bag", "carton": "cardboard, 1 mm", "air": "trapped air, 1 mm",
	"thin": "all the time, thin food", "thick": "all the time, thick food, wall scraped", heatcase.Closed: "nothing passes there",
}

func (q heatQuestion) optionWords(key, choice string) string {
	if key == "stir" && choice == string(heatcase.Unstirred) {
		return "left alone"
	}
	if m, ok := medium.Find(choice); ok && key != "in" {
		return m.Name
	} else if ok {
		return m.Name + " – " + unit.TempC(m.TempC).Show(q.units) + ", " + filmRange(m.Film)
	}
	if word := optionNames[choice]; word != "" {
		return word
	}
	return choice
}

func filmRange(f medium.Film) string {
	return strings.TrimSuffix(filmWords(f.LowWM2K), " W/m²·K") + " to " + filmWords(f.HighWM2K)
}

// filmWords is metric for every cook: nobody in a kitchen thinks in either, and the tables are metric.
func filmWords(wm2k float64) string { return unit.Film(wm2k).Show(unit.Metric) }
