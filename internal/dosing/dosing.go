// Package dosing says how much of something that is added by the gram a batch takes: emulsifying salt for cheese, gums, starch and roux,
// salt. A dose is a range with a target and, where there is one, a maximum; each says what it is a share of, because the shares that are
// published for one substance are of different things. Then: what a scale can weigh of it, and how it is got into the pot without lumps.
//
// What is known of ingredients comes in as facts (composition, calcium, sodium), never as names. Masses are exact. What a figure is worth is
// said with it: its source, and what of it is from memory; figures from memory never stop anybody.
package dosing

import (
	"fmt"
	"strconv"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// Basis is what a dose is a share of.
type Basis string

// The bases in use. They are not interchangeable.
const (
	OfCheese   Basis = "of the cheese"
	OfLiquid   Basis = "of the added liquid"
	OfBoth     Basis = "of cheese and liquid together"
	OfFinished Basis = "of the finished food"
	OfMilk     Basis = "of the milk"
	OfWater    Basis = "of the water"
)

// Range is three shares of a basis, or three masses, Low ≤ Target ≤ High.
type Range[T unit.Share | unit.Mass] struct{ Low, Target, High T }

// Dose is how much to add. Low ≤ Target ≤ High, and none of them is above Most, where there is one.
type Dose struct {
	Substance string
	Basis     Basis
	Base      unit.Mass // what the shares are of
	Shares    Range[unit.Share]
	Range[unit.Mass]
	Most    unit.Mass // 0: no maximum is known
	MostIs  string    // where the maximum comes from, and whether it is law
	Source  string
	Confirm string // what of it is from memory or common practice
	Found   finding.List
}

// Level is a dose of a substance in a use as a share of a basis.
type Level struct {
	Substance, Use string
	Basis          Basis
	Range[unit.Share]
	Warn, Err unit.Share // above these a dose is told as too much; 0: none
	Source    string
	Confirm   string
}

// of is a dose by a level.
func (l Level) of(base unit.Mass) Dose {
	return Dose{Substance: l.Substance, Basis: l.Basis, Base: base, Shares: l.Range,
		Range:  Range[unit.Mass]{l.Low.Of(base), l.Target.Of(base), l.High.Of(base)},
		Source: l.Source, Confirm: l.Confirm}
}

// cap keeps a dose at or under a maximum. What had to be lowered is told.
func (d *Dose) cap(most unit.Mass, is string) {
	d.Most, d.MostIs = most, is
	if d.High <= most {
		return
	}
	d.Found = append(d.Found, finding.Finding{
		Code: "dose-capped", Severity: finding.Caution, Where: d.Substance,
		Message: fmt.Sprintf("the range ends at %s, over the maximum of %s, and is cut there", Grams(d.High), Grams(most)),
		Figures: []finding.Figure{massFigure("dose", d.High), massFigure("maximum", most)}, Source: is,
	})
	d.Low, d.Target, d.High = min(d.Low, most), min(d.Target, most), most
}

// InputError says which figure makes no sense, and what would do.
type InputError struct{ What, Reason, Fix string }

// Error is one line.
func (e *InputError) Error() string { return fmt.Sprintf("dosing: %s %s; %s", e.What, e.Reason, e.Fix) }

// mostMass keeps every product of a share and a mass within what a Mass holds.
const mostMass = 100_000 * unit.Kilogram

func positive(what string, m unit.Mass) error {
	if m <= 0 || m > mostMass {
		return &InputError{what, fmt.Sprintf("weighs %g kg", m.Kg()), "give more than 0, up to 100,000 kg"}
	}
	return nil
}

// Grams is a dose as it is weighed: to 0.1 g, and below 10 g to 0.01 g, where a tenth would be more than one part in a hundred.
func Grams(m unit.Mass) string {
	if m > -10*unit.Gram && m < 10*unit.Gram {
		return strconv.FormatFloat(m.Kg()*1000, 'f', 2, 64) + " g"
	}
	return m.Fine()
}

func massFigure(name string, m unit.Mass) finding.Figure {
	return finding.Figure{Name: name, Value: m.Kg(), Unit: "kg", Text: Grams(m)}
}

// percent is a share as a figure; value 0 to 1, shown as a percentage.
func percent(name string, share float64) finding.Figure {
	return finding.Figure{Name: name, Value: share, Unit: "1", Text: strconv.FormatFloat(100*share, 'f', 2, 64) + " %"}
}

func plain(name string, x float64) finding.Figure {
	return finding.Figure{Name: name, Value: x, Text: strconv.FormatFloat(x, 'g', 3, 64)}
}

// ratio is a/b, and 0 without b.
func ratio(a, b unit.Mass) float64 {
	if b == 0 {
		return 0
	}
	return float64(a) / float64(b)
}
