package formula

import (
	"slices"

	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

// Review is what goes wrong with a pot in the freezer, and what would help.
type Review struct {
	stability.Review
	// Slow is the worst that is found if the pack freezes as slowly as its doubt allows; the same as Worst where that changes nothing.
	Slow stability.Severity
}

// Review reviews the pot. Errors: *stability.InputError.
func (p Pot) Review() (Review, error) {
	q := p.Stability()
	r, err := stability.Of(q)
	if err != nil {
		return Review{}, err
	}
	r.Unknown = slices.DeleteFunc(r.Unknown, func(name string) bool {
		return slices.ContainsFunc(p.Parts, func(x Part) bool { return x.Name == name && (x.Guessed == "" || x.Kg < 0.01*p.Mass.Kg()) })
	})
	out := Review{Review: r, Slow: r.Worst()}
	if p.Front.SlowMMH > 0 && p.Front.SlowMMH < p.Front.UsualMMH {
		q.FrontMMH = p.Front.SlowMMH
		if slow, err := stability.Of(q); err == nil {
			out.Slow = max(out.Slow, slow.Worst())
		}
	}
	return out, nil
}

// Remedied is a remedy with its dose in this pot.
type Remedied struct {
	stability.Remedy
	Base      unit.Mass // what its dose is a share of
	Low, High unit.Mass // more than is in it already; both 0 where it has no dose
}

// Dosed is a remedy with its dose in a pot of a mass.
func (p Pot) Dosed(r stability.Remedy, mass unit.Mass) Remedied {
	out := Remedied{Remedy: r}
	if r.High == 0 {
		return out
	}
	base, have := 0.0, 0.0
	for _, x := range p.Parts {
		switch {
		case x.Component.Inside:
		case r.ID == "citrate":
			base += cond(x.Component.Role == stability.HardCheese, x.PutInKg)
			have += cond(x.Component.Role == stability.EmulsifyingSalt, x.PutInKg)
		case r.ID == "xanthan":
			base += cond(!x.inPieces(), x.Kg)
			have += cond(x.Component.Gum == stability.Xanthan && x.Component.Role == stability.Gum, x.PutInKg)
		}
	}
	k := p.times(mass)
	out.Base = unit.MassKg(base * k)
	out.Low, out.High = unit.MassKg(max(0, r.Low*base-have)*k), unit.MassKg(max(0, r.High*base-have)*k)
	return out
}

func cond(yes bool, x float64) float64 {
	if yes {
		return x
	}
	return 0
}

// times is how many times the written pot a mass is; 0 stands for the written pot itself.
func (p Pot) times(mass unit.Mass) float64 {
	if mass <= 0 || p.Mass <= 0 {
		return 1
	}
	return mass.Kg() / p.Mass.Kg()
}

// inPieces says whether a part is none of the sauce.
func (x Part) inPieces() bool { return x.Component.InPieces() }
