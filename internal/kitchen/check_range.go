package kitchen

import (
	"fmt"
	"strconv"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// limits is what a figure may be, ends included; the figures are in the unit that messages show. They are wide: what lies outside
// is a slip of the pen, not an unusual kitchen (common practice).
type limits struct {
	low, high float64
	unit      string
	below     bool // the high end itself is too much
}

var (
	roomAir       = limits{low: -10, high: 50, unit: "°C"}
	heatTo        = limits{low: -40, high: 130, unit: "°C"} // a pressure kettle at 1 bar over the air's is at 121 °C
	chillMedium   = limits{low: -60, high: 10, unit: "°C"}  // warmer air or water does not chill
	trialStart    = limits{low: -40, high: 30, unit: "°C"}
	trialSpot     = limits{low: -40, high: 150, unit: "°C"}
	stageEnd      = limits{low: 0, high: 100, unit: "°C"}
	paddleStart   = limits{low: -40, high: 0, unit: "°C"}
	paddleWater   = limits{high: 50, unit: "kg"}
	misreading    = limits{high: 5, unit: "°C"} // what is further off is broken
	storeAir      = limits{low: -60, high: 25, unit: "°C"}
	altitude      = limits{high: 5000, unit: "m"} // nobody cooks for sale higher
	energyPrice   = limits{high: 100, unit: "a kWh"}
	freezerAir    = limits{low: -90, high: -5, unit: "°C"} // warmer air does not freeze food through
	vesselVolume  = limits{high: 5000, unit: "L"}
	freezerVolume = limits{high: 200_000, unit: "L"} // a room to walk into
	stowing       = limits{high: 3, unit: "kg/L"}    // salt pressed hard
	reaches       = limits{high: 20}
	vesselWidth   = limits{high: 3, unit: "m"}
	panSide       = limits{high: 2, unit: "m"}
	foodDepth     = limits{high: 0.6, unit: "m"}
	bagSide       = limits{high: 2, unit: "m"}
	bagThickness  = limits{high: 0.3, unit: "m"}
	power         = limits{high: 500, unit: "kW"}
	film          = limits{high: 5000, unit: "W/m2K"}
	week          = limits{high: 7 * 24, unit: "h"}
	halfDay       = limits{high: 12, unit: "h"}
	overPrime     = limits{high: 1000, unit: "%"}
	spreads       = limits{high: 50, unit: "%"}
	endings       = limits{high: 1, below: true}
	sureness      = limits{high: 99.9, unit: "%"}
	scaleSteps    = limits{high: 0.1, unit: "kg"}
	scatters      = limits{high: 10, unit: "%"} // of a pack's weight; a ladle alone does better
	leadDays      = limits{high: 60, unit: "days"}
	termDays      = limits{high: 365, unit: "days"}
	sauceParts    = limits{high: 100}
	lateBy        = limits{low: -12, high: 12, unit: "h"} // what is later than that is another day's work
	runDays       = limits{high: mostDays}
	perCent       = limits{high: 100, unit: "%"}
	notAll        = limits{high: 100, unit: "%", below: true}
	trimmed       = limits{high: 95, unit: "%", below: true} // more is a slip, or another ingredient
	density       = limits{low: 0.05, high: 3, unit: "kg/L"} // dried leaves to salt pressed hard
	panLoad       = limits{high: 500, unit: "kg/m2"}         // half a metre of food
	evaporation   = limits{high: 100, unit: "kg/m2h"}        // a hard boil takes some 20
	handPace      = limits{high: 120, unit: "min/kg"}
	money         = limits{high: 1_000_000}
	hourlyWage    = limits{high: 1000, unit: "an hour"}
	loadMass      = limits{high: 5000, unit: "kg"}
	packMass      = limits{high: 50, unit: "kg"} // more is not sealed in one bag
	pieceMass     = limits{high: 10, unit: "kg"}
	residueMass   = limits{high: 20, unit: "kg"}
	storedMass    = limits{high: 1_000_000, unit: "kg"}
	number        = limits{high: 100_000}
	per100g       = limits{high: 100, unit: "g"}
	sodiumMg      = limits{high: 40_000, unit: "mg"} // pure salt is 39,340: the mass of sodium in sodium chloride
	traceMg       = limits{high: 55_000, unit: "mg"} // the most is potassium chloride: 52,440 of potassium
	vitaminD      = limits{high: 1_000_000, unit: "µg"}
	cupMass       = limits{high: 0.5, unit: "kg"} // honey weighs 0.34
	twoPerCent    = limits{high: 2, unit: "%"}
	labelSide     = limits{high: 0.5, unit: "m"}
	weeksFrozen   = limits{high: 520}
	acidity       = limits{high: 14}
)

// say is a figure with its unit, as short as it can be read.
func (l limits) say(value float64) string {
	text := strconv.FormatFloat(value, 'g', 6, 64)
	if value > -1e15 && value < 1e15 {
		text = strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(value, 'f', 3, 64), "0"), ".")
	}
	switch l.unit {
	case "":
		return text
	default:
		return text + " " + l.unit
	}
}

func (l limits) hold(value float64) bool {
	return value >= l.low && value <= l.high && !(l.below && value == l.high)
}

// within reports the figure of a key of at that lies outside its limits.
func (c *checker) within(at spot, key string, value float64, l limits) {
	c.limit(at.key(key), key, value, l)
}

// limit reports the figure at a place that lies outside its limits.
func (c *checker) limit(at spot, key string, value float64, l limits) {
	if l.hold(value) {
		return
	}
	name, limit, words := "at most", l.high, "at most "
	switch {
	case value < l.low:
		name, limit, words = "at least", l.low, "at least "
	case l.below:
		name, words = "below", "below "
	}
	c.report(finding.Stop, OutOfRange, at,
		fmt.Sprintf("%s is %s, but should be %s", key, l.say(value), words+l.say(limit)), "check the figure and its unit",
		finding.Figure{Name: key, Value: value, Unit: l.unit, Text: l.say(value)},
		finding.Figure{Name: name, Value: limit, Unit: l.unit, Text: l.say(limit)})
}

// size reports a figure that must be given and above nothing, or that lies outside its limits.
func (c *checker) size(at spot, key string, value float64, l limits, why string) {
	if value == 0 {
		c.stop(SizeMissing, at.key(key), fmt.Sprintf("%s is nothing: %s", key, why), "measure it and write it after "+key+":")
		return
	}
	c.within(at, key, value, l)
}

// atLeastOne reports a number of things of which there are none.
func (c *checker) atLeastOne(at spot, key string, n int) {
	if n < 1 {
		c.stop(CountTooSmall, at.key(key), fmt.Sprintf("%s is %d, but should be at least 1", key, n), "write how many there are, or take the entry out")
		return
	}
	c.within(at, key, float64(n), number)
}

func inPerCent(s unit.Share) float64 { return 100 * s.F() }
func inHours(d unit.Span) float64    { return d.S() / 3600 }
