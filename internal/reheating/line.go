package reheating

import (
	"math"
	"strconv"
	"strings"

	"kettlefrost/internal/unit"
)

// Section is where on the card a line stands.
type Section string

// The sections. Kitchen lines are for those who make the card and are not printed on it.
const (
	Steps   Section = "steps"
	Check   Section = "check"
	Caution Section = "caution"
	Kitchen Section = "kitchen"
)

// Code names one line, for programs and translations. Codes do not change.
type Code string

// Line is one sentence of a card as data.
type Line struct {
	Code    Code
	Section Section
	Figures []Figure
}

// Figure is one number in a line; the name tells the unit.
type Figure struct {
	Name  FigureName
	Value float64
}

// FigureName is what a number is and in which unit.
type FigureName string

// The names.
const (
	FigStart      FigureName = "start" // 0 frozen, 1 thawed
	FigTempC      FigureName = "tempC"
	FigMinutes    FigureName = "minutes"
	FigHours      FigureName = "hours"
	FigStandMin   FigureName = "standMin"
	FigLitresEach FigureName = "litresPerBag"
	FigBags       FigureName = "bags"
	FigDays       FigureName = "days"
	FigPowerW     FigureName = "powerW"
	FigMassKg     FigureName = "massKg"
	FigThickM     FigureName = "thicknessM"
	FigRuns       FigureName = "runs"
	FigShare      FigureName = "share"
	FigTimes      FigureName = "times"
)

// English is the sentence in plain English: US units with metric behind them, or the other way round.
func (l Line) English(s unit.System) string {
	text := sentences[l.Code]
	for _, f := range l.Figures {
		text = strings.ReplaceAll(text, "{"+string(f.Name)+"}", f.text(s))
	}
	return text
}

func (f Figure) text(s unit.System) string {
	switch f.Name {
	case FigStart:
		return Start(f.Value).String()
	case FigTempC:
		return bothWays(s, unit.TempC(f.Value).Show)
	case FigThickM:
		return bothWays(s, unit.LengthM(f.Value).Show)
	case FigMassKg:
		return bothWays(s, unit.MassKg(f.Value).Show)
	case FigLitresEach:
		return bothWays(s, func(s unit.System) string { return water(f.Value, s) })
	case FigMinutes, FigStandMin:
		return counted(math.Ceil(f.Value), "minute")
	case FigHours:
		return counted(math.Ceil(f.Value), "hour")
	case FigBags:
		return counted(f.Value, "bag")
	case FigDays:
		return counted(f.Value, "day")
	case FigRuns:
		return counted(f.Value, "run")
	case FigPowerW:
		return unit.PowerW(f.Value).Show(unit.Metric)
	case FigShare:
		return unit.ShareOf(f.Value).Show(s)
	default:
		return strconv.FormatFloat(f.Value, 'f', 1, 64)
	}
}

func bothWays(first unit.System, show func(unit.System) string) string {
	second := unit.US
	if first == unit.US {
		second = unit.Metric
	}
	if show(first) == show(second) {
		return show(first)
	}
	return show(first) + " (" + show(second) + ")"
}

// water is a volume as one fills a pot: up to the next half quart or half litre.
func water(litres float64, s unit.System) string {
	size, word := 1.0, " L"
	if s == unit.US {
		size, word = unit.Quart.L(), " qt"
	}
	return strconv.FormatFloat(math.Ceil(2*litres/size-1e-6)/2, 'f', -1, 64) + word
}

func counted(n float64, word string) string {
	if n != 1 {
		word += "s"
	}
	return strconv.FormatFloat(n, 'f', -1, 64) + " " + word
}
