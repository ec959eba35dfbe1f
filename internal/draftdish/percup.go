package draftdish

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"kettlefrost/internal/unit"
)

// perRe is a dose by volume: 1 g per cup, 2 grams to the quart, 5 g/L.
var perRe = regexp.MustCompile(`(?i)(\d+(?:\.\d+)?)\s*(g|grams?|mg)\s*(?:per|to the|to a|a|/)\s*(cup|pint|quart|qt|gallon|l|liter|litre)s?\b`)

// perVolumes are what a dose may be said for.
var perVolumes = map[string]unit.Volume{"cup": unit.Cup, "pint": unit.Pint, "quart": unit.Quart, "qt": unit.Quart, "gallon": unit.Gallon, "l": unit.Litre, "liter": unit.Litre, "litre": unit.Litre}

// perCup gives a line that is dosed by the cup its mass, from all the liquid of the recipe.
func (d *drafter) perCup(l *Line) {
	m := perRe.FindStringSubmatch(l.Text)
	if m == nil || l.Mass > 0 || d.asks.given[fmt.Sprintf("much-%d", l.Number)] != "" {
		return
	}
	n, err := strconv.ParseFloat(m[1], 64)
	litres := d.liquidL()
	if err != nil || n <= 0 || n > 1000 || litres <= 0 {
		return
	}
	if strings.EqualFold(m[2], "mg") {
		n /= 1000
	}
	times := litres / perVolumes[strings.ToLower(m[3])].L()
	l.Mass = roundGrams(unit.MassKg(n * times / 1000))
	l.Amount, l.Assumed, l.Out = unit.Amount{Kind: unit.AmountMass, Mass: l.Mass}, true, false
	for i := range d.asks.all {
		if q := &d.asks.all[i]; q.Key == fmt.Sprintf("much-%d", l.Number) {
			q.Question = fmt.Sprintf("%s: of which liquid, and how much is that in all? A gum is weighed.", m[0])
			q.Assumed = fmt.Sprintf("of all liquid, %.1f times: %s", times, l.Mass.Show(unit.Metric))
			q.Source, q.Grave = "the liquids of the recipe together", false
		}
	}
}

// liquidL is how many litres of liquid the recipe has: what is mostly water and was measured by volume.
func (d *drafter) liquidL() float64 {
	litres := 0.0
	for _, l := range d.lines {
		if l.read.Best.Kind == unit.AmountVolume && l.Mass > 0 && d.waterOf(l) >= 0.5 && !d.isA(l, "produce") {
			litres += l.read.Best.Volume.L()
		}
	}
	return litres
}
