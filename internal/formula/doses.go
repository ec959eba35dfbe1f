package formula

import (
	"errors"
	"fmt"
	"slices"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

// Want is what doses are asked for. Its zero value is the dish as it is written, medium thick and as salty as usual.
type Want struct {
	Mass      unit.Mass        // of finished food; 0: as the dish is written
	Use       string           // soup or sauce, for gums; empty: by what the dish is called
	Thickness dosing.Thickness // empty: medium
	Series    dosing.Series    // empty: by what thickens the dish
	Taste     dosing.Taste     // empty: usual
	Own       map[string]Own   // doses of one's own, by the key of a line: of its first basis; of salt, all salt in the food
	asked     bool             // a thickness was asked for
	askedUse  bool             // a gum was asked for
}

// The keys of lines that are no gum.
const (
	KeyCitrate = "citrate"
	KeyThick   = "thickening"
	KeySalt    = "salt"
)

// Line is one thing that is dosed: what is in the dish, what it should be, and how that is weighed.
type Line struct {
	Key       string
	Substance string
	In        string        // what the book calls it, where the dish has it; empty where it has none
	Doses     []dosing.Dose // by each custom that was found; the first is gone by. None: nobody was found who says how much
	Now       Amount        // what the dish has in it
	Target    Amount
	Own       *Amount // one's own
	OwnSays   string  // what was taken for what one did not say
	Verdict   Verdict // of what the dish has
	Says      string  // more of the verdict, in words
	Fine      bool    // it is out of the range that was asked for and yet as food usually is
	Found     finding.List
}

// Verdict is how what is in a dish stands to its range.
type Verdict string

// Verdicts.
const (
	NoneIn   Verdict = "none in it"
	Below    Verdict = "below the range"
	Within   Verdict = "within the range"
	Above    Verdict = "above the range"
	OverMost Verdict = "over the maximum"
	NoRange  Verdict = "no range was found"
)

// Amount is a mass and how it is weighed.
type Amount struct {
	Mass    unit.Mass
	Share   float64          // of the first basis of its line; of salt, all salt in the food with it
	Weighed *dosing.Weighing // nil where there is nothing to weigh
}

// Doses are the doses of a pot, and what they are of.
type Doses struct {
	Mass  unit.Mass // of finished food
	Sauce unit.Mass // of that, without what is in pieces
	Want  Want      // with what was left open filled in
	Lines []Line
}

// Doses works out what the pot takes of what is added by the gram, at any scale. Errors: *dosing.InputError.
func (p Pot) Doses(w Want) (Doses, error) {
	w = p.filledIn(w)
	k := p.times(w.Mass)
	d := Doses{Mass: w.Mass, Sauce: unit.MassKg(p.sauceKg() * k), Want: w}
	var errs []error
	for _, line := range []func(Want, float64) ([]Line, error){p.citrate, p.gums, p.thickening, p.salt} {
		lines, err := line(w, k)
		d.Lines = append(d.Lines, lines...)
		errs = append(errs, err)
	}
	for i := range d.Lines {
		errs = append(errs, p.finish(&d.Lines[i]))
	}
	return d, errors.Join(errs...)
}

// filledIn is what is wanted, with what was left open.
func (p Pot) filledIn(w Want) Want {
	if w.Mass <= 0 {
		w.Mass = p.Mass
	}
	w.askedUse = w.askedUse || w.Use != ""
	if w.Use == "" {
		w.Use = "soup"
		if hasAny(words(p.Name, string(p.Pack), string(p.Dish), string(p.Output)), "sauce|gravy|dip|filling|queso|fondue|glaze|ragu|bechamel") {
			w.Use = "sauce"
		}
	}
	w.asked = w.asked || w.Thickness != ""
	if w.Thickness == "" {
		w.Thickness = dosing.Medium
	}
	if w.Series == "" {
		w.Series = dosing.Professional
		if p.has(stability.NativeStarch) && !p.has(stability.Flour) {
			w.Series = dosing.Slurry
		}
	}
	if w.Taste == "" {
		w.Taste = dosing.Usual
	}
	return w
}

// sum adds something up over the parts that are no pieces.
func (p Pot) sum(of func(Part) float64) float64 {
	kg := 0.0
	for _, x := range p.Parts {
		if !x.inPieces() {
			kg += of(x)
		}
	}
	return kg
}

func (p Pot) sauceKg() float64 { return p.sum(func(x Part) float64 { return x.Kg }) }

// in is what a pot has of something: how much was put in, and what the book calls it.
func (p Pot) in(is func(Part) bool) (kg float64, name string) {
	for _, x := range p.Parts {
		if !x.Component.Inside && is(x) {
			kg += x.PutInKg
			if name != "" && name != x.Name {
				name += ", "
			}
			if name != x.Name {
				name += x.Name
			}
		}
	}
	return kg, name
}

// finish judges a line, weighs its amounts and tells what is wrong with that.
func (p Pot) finish(l *Line) error {
	if own := l.Own; own != nil && own.Mass > 0 {
		if err := p.weigh(own, *l); err != nil {
			return err
		}
	}
	for _, a := range []*Amount{&l.Now, &l.Target} {
		if a.Mass <= 0 {
			continue
		}
		if err := p.weigh(a, *l); err != nil {
			return err
		}
	}
	if len(l.Doses) > 0 { // of the others nobody goes by
		l.Found = append(l.Found, l.Doses[0].Found...)
	}
	if l.Verdict == "" {
		l.Verdict = l.judge(l.Now.Mass)
	}
	if w := l.Target.Weighed; w != nil {
		l.Found = append(l.Found, w.Found...)
	}
	l.Found = once(l.Found)
	return nil
}

func (l Line) judge(m unit.Mass) Verdict {
	switch {
	case m == 0:
		return NoneIn
	case len(l.Doses) == 0:
		return NoRange
	case l.Doses[0].Most > 0 && m > l.Doses[0].Most:
		return OverMost
	case m < l.Doses[0].Low:
		return Below
	case m > l.Doses[0].High:
		return Above
	}
	return Within
}

// Good says that nothing is to be said against what the dish has: it is within its range, or has none and needs none.
func (l Line) Good() bool {
	switch l.Verdict {
	case Below, Above, OverMost:
		if !l.Fine {
			return false
		}
	}
	return l.Found.Worst() < finding.Caution
}

// once leaves out what was told already.
func once(all finding.List) finding.List {
	var out finding.List
	for _, f := range all {
		if !slices.ContainsFunc(out, func(x finding.Finding) bool { return x.Code == f.Code && x.Message == f.Message }) {
			out = append(out, f)
		}
	}
	return out
}

// stockOf is how strong a gum is in a stock that is weighed in its place: 1 % is already thick (21 CFR 172.695).
const stockOf = unit.PerCent

// weigh tells how an amount is weighed: on the fine scale up to what that holds, beyond it on the one at the table.
func (p Pot) weigh(a *Amount, l Line) error {
	d := dosing.Dose{Substance: l.Substance, Range: dosing.Range[unit.Mass]{Target: a.Mass}}
	if len(l.Doses) > 0 {
		d.Most = l.Doses[0].Most
	}
	scale := dosing.Scale{Division: p.Scale, Capacity: p.Holds}
	if p.Holds > 0 && a.Mass > p.Holds && p.Table > p.Scale {
		scale = dosing.Scale{Division: p.Table}
	}
	stock := unit.Share(0)
	if l.Key != KeyCitrate && l.Key != KeyThick && l.Key != KeySalt {
		stock = stockOf
	}
	w, err := dosing.Weigh(d, scale, stock)
	if err != nil {
		return fmt.Errorf("%s: %w", l.Substance, err)
	}
	a.Weighed = &w
	return nil
}

// own is a dose of one's own, where there is one.
func (l *Line) own(w Want, base unit.Mass) {
	if o, ok := w.Own[l.Key]; ok {
		l.Own, l.OwnSays = o.of(base), o.Assumed
	}
}

func ratio(a, b unit.Mass) float64 {
	if b == 0 {
		return 0
	}
	return float64(a) / float64(b)
}
