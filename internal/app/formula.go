package app

import (
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/storagelife"
	"kettlefrost/internal/unit"
)

// FormulaTyped is a question about the formula of a dish, as it was typed. What is empty is left to the dish and the kitchen.
type FormulaTyped struct {
	Pack, Dish, Output string
	Mass               string // of finished food; a bare number is pounds or kilograms, as the kitchen counts
	Use                string // soup or sauce
	Thickness, Series  string
	Taste              string
	Store              string            // temperature of the freezer; a bare number is °F or °C
	Warm, WarmFor      string            // how warm it got, and for how long; a bare number is hours
	Own                map[string]string // doses of one's own, by the key of a line
}

// TypedProblem is what is wrong with a field.
type TypedProblem struct{ Field, Problem string }

// The fields of FormulaTyped, as addresses and flags have them. Doses of one's own are FormulaOwn and the key of their line.
const (
	FormulaMass      = "mass"
	FormulaUse       = "use"
	FormulaThickness = "thickness"
	FormulaSeries    = "series"
	FormulaTaste     = "taste"
	FormulaStore     = "store"
	FormulaWarm      = "warm"
	FormulaWarmFor   = "warm-for"
	FormulaOwn       = "own."
)

// Asked reads it for a kitchen's usual units. What cannot be read is left out and told.
func (t FormulaTyped) Asked(units unit.System) (formula.Asked, []TypedProblem) {
	r := formulaReader{units: units}
	a := formula.Asked{Subject: formula.Subject{Dish: kitchen.DishID(t.Dish), Pack: kitchen.PackID(t.Pack), Output: kitchen.OutputID(t.Output)}}
	a.Want.Mass = r.mass(t.Mass)
	a.Want.Use = r.choice(FormulaUse, t.Use, "soup", "sauce")
	a.Want.Thickness = dosing.Thickness(r.choice(FormulaThickness, t.Thickness, string(dosing.Thin), string(dosing.Medium), string(dosing.Thick)))
	a.Want.Series = dosing.Series(r.choice(FormulaSeries, t.Series, string(dosing.Professional), string(dosing.Home), string(dosing.Slurry)))
	a.Want.Taste = dosing.Taste(r.choice(FormulaTaste, t.Taste, string(dosing.Light), string(dosing.Usual), string(dosing.Strong)))
	a.Want.Own = r.own(t.Own)
	a.Store = r.temp(FormulaStore, t.Store)
	a.Excursion = r.excursion(t.Warm, t.WarmFor)
	return a, r.problems
}

// formulaReader keeps what is wrong.
type formulaReader struct {
	units    unit.System
	problems []TypedProblem
}

func (r *formulaReader) problem(field, text string) {
	r.problems = append(r.problems, TypedProblem{field, text})
}

// justNumber is whether a text is a number and nothing else.
func justNumber(text string) bool {
	_, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	return err == nil
}

func (r *formulaReader) unit(text, us, metric string) string {
	if !justNumber(text) {
		return text
	}
	if r.units == unit.US {
		return text + " " + us
	}
	return text + " " + metric
}

func (r *formulaReader) mass(text string) unit.Mass {
	if text == "" {
		return 0
	}
	m, err := unit.ParseMass(r.unit(text, "lb", "kg"))
	switch {
	case err != nil:
		r.problem(FormulaMass, err.Error())
	case m < unit.Gram || m > 100_000*unit.Kilogram:
		r.problem(FormulaMass, "give 1 g to 100,000 kg")
	default:
		return m
	}
	return 0
}

func (r *formulaReader) choice(field, text string, of ...string) string {
	if text == "" || slices.Contains(of, text) {
		return text
	}
	r.problem(field, "choose "+strings.Join(of, ", "))
	return ""
}

func (r *formulaReader) own(typed map[string]string) map[string]formula.Own {
	own := map[string]formula.Own{}
	for key, text := range typed {
		if strings.TrimSpace(text) == "" {
			continue
		}
		o, err := formula.ParseOwn(text)
		if err != nil {
			r.problem(FormulaOwn+key, err.Error())
			continue
		}
		own[key] = o
	}
	return own
}

func (r *formulaReader) temp(field, text string) *float64 {
	if text == "" {
		return nil
	}
	t, err := unit.ParseTemp(r.unit(text, "°F", "°C"))
	switch {
	case err != nil:
		r.problem(field, err.Error())
	case t.C() < -60 || t.C() > 60:
		r.problem(field, "give -60 to 60 °C (-76 to 140 °F)")
	default:
		c := t.C()
		return &c
	}
	return nil
}

// excursion is a time in warmth: both how warm and how long, or neither.
func (r *formulaReader) excursion(warm, long string) *storagelife.Stay {
	c := r.temp(FormulaWarm, warm)
	switch {
	case warm == "" && long == "":
		return nil
	case warm == "":
		r.problem(FormulaWarm, "say how warm it got, such as 20 °F")
		return nil
	case long == "":
		r.problem(FormulaWarmFor, "say for how long, such as 6 h")
		return nil
	}
	if justNumber(long) {
		long += " h"
	}
	span, err := unit.ParseSpan(long)
	switch {
	case err != nil:
		r.problem(FormulaWarmFor, err.Error())
	case span <= 0 || span.S() > 366*24*3600:
		r.problem(FormulaWarmFor, "give more than nothing, up to a year")
	case c != nil:
		return &storagelife.Stay{TempC: *c, Days: span.S() / (24 * 3600)}
	}
	return nil
}
