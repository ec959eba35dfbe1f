package dosing

import (
	"fmt"
	"math"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// Scale is what a dose is weighed on.
type Scale struct {
	Division unit.Mass // its smallest step
	Capacity unit.Mass // what it holds, bowl and all; 0: not known
}

// Tolerance is how far off a dose of what is added in small amounts may be: 2 %, common practice for gums, citrate and salt.
const Tolerance = 2 * unit.PerCent

// Weighing is a dose as a scale can show it.
type Weighing struct {
	Scale  Scale
	Want   unit.Mass
	Show   unit.Mass // what the scale has to show: a whole number of its steps, never above the dose's maximum
	ErrPct float64   // of Show against Want: -9.3 is 9.3 % low
	// DoubtPct is what half a step more or less is of Show: a scale knows no better, and is often worse near its lower end.
	DoubtPct float64
	Parts    int       // weighings that the scale's capacity makes of it
	Within   bool      // the error is within the tolerance
	Finer    unit.Mass // the coarsest usual step that is within it whatever the dose's last figures are
	Stock    *Stock    // another way, where this one is not within it
	Found    finding.List
}

// Stock is a solution or a dry mix in which a dose is easier to weigh.
type Stock struct {
	Share unit.Share // of the substance in it
	Make  unit.Mass  // at least so much of it, so that the substance in it can be weighed on this scale
	Holds unit.Mass  // the substance in Make
	Take  unit.Mass  // for the dose, in whole steps
	// ErrPct is that of what is taken; that of making it, up to the tolerance, is not in it.
	ErrPct float64
}

// usualSteps of scales, coarsest first.
var usualSteps = []unit.Mass{10 * unit.Gram, 5 * unit.Gram, 2 * unit.Gram, unit.Gram, 500 * unit.Milligram, 200 * unit.Milligram, 100 * unit.Milligram, 50 * unit.Milligram,
	20 * unit.Milligram, 10 * unit.Milligram, unit.Milligram}

// Weigh is the target of a dose on a scale. stock is the share that the substance may have in a solution or a dry mix: 1 % for xanthan in
// water; 0 where there is no such way. Errors: *InputError.
func Weigh(d Dose, s Scale, stock unit.Share) (Weighing, error) {
	switch {
	case s.Division <= 0 || s.Division > unit.Kilogram:
		return Weighing{}, &InputError{"the scale", fmt.Sprintf("has steps of %s", Grams(s.Division)), "give its smallest step, up to 1 kg"}
	case d.Target <= 0:
		return Weighing{}, &InputError{d.Substance, "is none", "there is nothing to weigh"}
	case s.Capacity < 0 || s.Capacity > 0 && s.Capacity < s.Division:
		return Weighing{}, &InputError{"the scale", fmt.Sprintf("holds %s in steps of %s", Grams(s.Capacity), Grams(s.Division)), "give what it holds, or 0 if it is not known"}
	case stock < 0 || stock >= unit.Whole:
		return Weighing{}, &InputError{"the stock", fmt.Sprintf("is %g %% strong", 100*stock.F()), "give a share below 100 %"}
	}
	w := Weighing{Scale: s, Want: d.Target, Show: steps(d.Target, s.Division)}
	if d.Most > 0 && w.Show > d.Most {
		w.Show -= s.Division
	}
	w.Parts = 1
	if s.Capacity > 0 {
		w.Parts = max(1, int((w.Show+s.Capacity-1)/s.Capacity))
	}
	w.ErrPct = offPct(w.Show, w.Want)
	w.DoubtPct = math.Inf(1)
	if w.Show > 0 {
		w.DoubtPct = 50 * ratio(s.Division, w.Show)
	}
	w.Within = math.Abs(w.ErrPct) <= 100*Tolerance.F()
	w.Finer = finer(w.Want)
	if !w.Within && stock > 0 {
		w.Stock = stockFor(w.Want, s.Division, stock)
	}
	w.Found = w.findings(d.Substance)
	return w, nil
}

// steps is the whole number of steps that is nearest.
func steps(m, step unit.Mass) unit.Mass { return (m + step/2) / step * step }

func offPct(have, want unit.Mass) float64 { return 100 * (ratio(have, want) - 1) }

// finer is the coarsest usual step of which half is within the tolerance.
func finer(m unit.Mass) unit.Mass {
	for _, s := range usualSteps {
		if s/2 <= Tolerance.Of(m) {
			return s
		}
	}
	return usualSteps[len(usualSteps)-1]
}

// stockFor makes as much stock as lets the substance be weighed within the tolerance on the same scale, and no less than the dose needs. It is
// nil where what is taken of it could not be weighed well enough either.
func stockFor(want, step unit.Mass, share unit.Share) *Stock {
	take := unit.MassKg(want.Kg() / share.F())
	s := &Stock{Share: share, Take: steps(take, step)}
	if s.ErrPct = offPct(s.Take, take); math.Abs(s.ErrPct) > 100*Tolerance.F() {
		return nil
	}
	least := unit.MassKg(step.Kg() / 2 / Tolerance.F())
	s.Holds = (max(least, want) + step - 1) / step * step
	s.Make = unit.MassKg(s.Holds.Kg() / share.F())
	return s
}

func (w Weighing) findings(substance string) finding.List {
	if w.Within {
		return nil
	}
	side := "high"
	if w.ErrPct < 0 {
		side = "low"
	}
	fix := fmt.Sprintf("use a scale with steps of %s", Grams(w.Finer))
	if w.Stock != nil {
		fix += fmt.Sprintf(", or make a stock: %s of it in %s in all, and weigh %s of that", Grams(w.Stock.Holds), Grams(w.Stock.Make), Grams(w.Stock.Take))
	}
	return finding.List{{Code: "scale-too-coarse", Severity: finding.Caution, Where: substance,
		Message: fmt.Sprintf("%s on a scale with steps of %s is %s, %.1f %% %s", Grams(w.Want), Grams(w.Scale.Division), Grams(w.Show), math.Abs(w.ErrPct), side),
		Figures: []finding.Figure{massFigure("dose", w.Want), massFigure("shown", w.Show), percent("error", w.ErrPct/100), percent("tolerance", Tolerance.F())},
		Source:  "2 % for what is added in small amounts is common practice", Fix: fix}}
}
