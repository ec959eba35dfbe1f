package reheating

import (
	"math"
	"strconv"

	"kettlefrost/internal/language"
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
func (l Line) English(units unit.System) string { return l.In(language.Speaker{}, units) }

// In is the sentence in a language.
func (l Line) In(s language.Speaker, units unit.System) string {
	figures := make(map[string]string, len(l.Figures))
	for _, f := range l.Figures {
		figures[string(f.Name)] = f.text(s, units)
	}
	return s.Fill(sentences[l.Code], figures)
}

func (f Figure) text(s language.Speaker, units unit.System) string {
	counted := func(n float64, one, more string) string { return s.Plural(int64(n), one, more) }
	switch f.Name {
	case FigStart:
		return s.Say(Start(f.Value).String())
	case FigTempC:
		return s.Measure(bothWays(units, unit.TempC(f.Value).Show))
	case FigThickM:
		return s.Measure(bothWays(units, unit.LengthM(f.Value).Show))
	case FigMassKg:
		return s.Measure(bothWays(units, unit.MassKg(f.Value).Show))
	case FigLitresEach:
		return s.Measure(bothWays(units, func(u unit.System) string { return water(f.Value, u) }))
	case FigMinutes, FigStandMin:
		return counted(math.Ceil(f.Value), "%s minute", "%s minutes")
	case FigHours:
		return counted(math.Ceil(f.Value), "%s hour", "%s hours")
	case FigBags:
		return counted(f.Value, "%s bag", "%s bags")
	case FigDays:
		return counted(f.Value, "%s day", "%s days")
	case FigRuns:
		return counted(f.Value, "%s run", "%s runs")
	case FigPowerW:
		return s.Measure(unit.PowerW(f.Value).Show(unit.Metric))
	case FigShare:
		return s.Measure(unit.ShareOf(f.Value).Show(units))
	default:
		return s.Measure(strconv.FormatFloat(f.Value, 'f', 1, 64))
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
