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
		return slices.ContainsFunc(p.Parts, func(x Part) bool { return x.Name == name && (x.Guessed != byNothing || x.Kg < 0.01*p.Mass.Kg()) })
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
	stability.Remedy           // its shares are those of this pot
	Base             unit.Mass // what its dose is a share of
	Low, High        unit.Mass // more than is in it already; both 0 where it has no dose
}

// Dosed is a remedy with its dose in a pot of a mass: the same as the line of the doses says, less what is in it.
func (p Pot) Dosed(r stability.Remedy, mass unit.Mass) Remedied {
	out := Remedied{Remedy: r}
	line := map[string]func(Want, float64) ([]Line, error){"citrate": p.citrate, "xanthan": p.xanthan}[r.ID]
	if line == nil {
		return out
	}
	w := p.filledIn(Want{Mass: mass})
	lines, err := line(w, p.times(w.Mass))
	if err != nil || len(lines) == 0 || len(lines[0].Doses) == 0 {
		return out
	}
	l := lines[0]
	d := l.Doses[len(l.Doses)-1] // of xanthan that of the trials in frozen pastes, where starch is in it
	if r.ID == "citrate" {
		d = l.Doses[0]
	}
	out.Base, out.Low, out.High = d.Base, max(0, d.Low-l.Now.Mass), max(0, d.High-l.Now.Mass)
	out.Remedy.Low, out.Remedy.High, out.Remedy.Basis = d.Shares.Low.F(), d.Shares.High.F(), string(d.Basis)
	out.Remedy.Source, out.Remedy.Confirm = d.Source, d.Confirm
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
