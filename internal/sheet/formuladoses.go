package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/unit"
)

func (w *writer) formulaDoses(d formula.DosesShown) {
	w.heading("Doses", "for "+d.Mass.Show(w.units)+" of finished food")
	if d.Sauce < d.Mass {
		w.para(0, fmt.Sprintf("Of that, %s is not in pieces; gums are dosed by it.", d.Sauce.Show(w.units)))
	}
	for _, l := range d.Lines {
		w.gap()
		name := l.Substance
		if l.In != "" && l.In != l.Substance {
			name += " (" + l.In + ")"
		}
		w.hang(0, "", fmt.Sprintf("%s: %s in it, %s", strings.ToUpper(name), dosing.Grams(l.Now.Mass), l.Verdict))
		w.para(2, l.Says)
		for _, x := range l.Doses {
			w.hang(2, "", doseSays(x))
			w.para(4, "source: "+withConfirm(x.Source, x.Confirm))
		}
		if len(l.Doses) > 0 && l.Doses[0].MostIs != "" {
			w.para(2, "maximum: "+MostSays(l.Doses[0]))
		}
		w.dosed("in it", l.Now)
		w.dosed("target", l.Target)
		if l.Own != nil {
			w.dosed("your own", *l.Own)
			w.para(4, l.OwnSays)
		}
		for _, f := range l.Found {
			w.hang(2, f.Severity.String()+": ", strings.TrimSuffix(f.Message+"; "+f.Fix, "; "))
		}
	}
}

func doseSays(x formula.DoseShown) string {
	share := func(s unit.Share) string { return PerCent(s.F()) }
	if x.Low == x.High {
		return fmt.Sprintf("%s: %s %s", dosing.Grams(x.TargetG), share(x.Target), x.Basis)
	}
	return fmt.Sprintf("%s to %s, target %s: %s to %s, %s %s", dosing.Grams(x.LowG), dosing.Grams(x.HighG), dosing.Grams(x.TargetG), share(x.Low), share(x.High), share(x.Target), x.Basis)
}

// MostSays is a maximum and where it comes from.
func MostSays(x formula.DoseShown) string {
	if x.MostG == 0 {
		return "no number: " + x.MostIs
	}
	return dosing.Grams(x.MostG) + ", " + x.MostIs
}

// dosed is how something is weighed.
func (w *writer) dosed(what string, a formula.AmountShown) {
	if a.Weighed == nil {
		return
	}
	w.hang(2, "", fmt.Sprintf("%s: weigh %s %s", what, OnScale(a.Weighed.Show, a.Weighed.Step), WeighSays(*a.Weighed)))
}

// OnScale is a mass as a scale with such steps shows it.
func OnScale(m, step unit.Mass) string {
	digits := 0
	for s := step; s > 0 && s%unit.Gram != 0 && digits < 3; s *= 10 {
		digits++
	}
	return strconv.FormatFloat(m.Kg()*1000, 'f', digits, 64) + " g"
}

// offBy is how far off something is, to a tenth of a percent.
func offBy(share float64) string {
	if math.Abs(share) < 0.0005 {
		return "exact to 0.05 %"
	}
	if share < 0 {
		return fmt.Sprintf("%.1f %% low", -100*share)
	}
	return fmt.Sprintf("%.1f %% high", 100*share)
}

// WeighSays is what an amount on a scale is worth.
func WeighSays(x formula.WeighedShown) string {
	text := fmt.Sprintf("on a scale with steps of %s", OnScale(x.Step, x.Step))
	if x.Parts > 1 {
		text += fmt.Sprintf(", in %d weighings", x.Parts)
	}
	text += ": " + offBy(x.Error)
	switch {
	case x.Doubt == nil:
	case *x.Doubt < 0.0005:
		text += ", and half a step is under 0.05 %"
	default:
		text += fmt.Sprintf(", and half a step is %.1f %%", 100**x.Doubt)
	}
	if x.Within && x.Doubt != nil && *x.Doubt > dosing.Tolerance.F() {
		text += fmt.Sprintf("; steps of %s would be surer", dosing.Grams(x.Finer))
	}
	if !x.Within {
		text += fmt.Sprintf("; that is too coarse: steps of %s would do", dosing.Grams(x.Finer))
	}
	if s := x.Stock; s != nil {
		text += fmt.Sprintf(", or a stock of %s in %s, of which %s", dosing.Grams(s.Holds), dosing.Grams(s.Make), dosing.Grams(s.Take))
	}
	return text
}
