package formula

import (
	"fmt"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

// cornStarch is what a slurry is of.
const cornStarch = "corn starch"

// thickening is the flour or starch of a sauce, at a thickness. A dish that has none gets a line only where a thickness is asked for.
func (p Pot) thickening(w Want, k float64) ([]Line, error) {
	liquid := unit.MassKg(p.sum(func(x Part) float64 { return cond(runs[x.Component.Role], x.Kg) }) * k)
	role, substance := stability.Flour, "flour"
	if w.Series == dosing.Slurry {
		role, substance = stability.NativeStarch, cornStarch
	}
	now, name := p.in(func(x Part) bool { return x.Component.Role == role })
	if now == 0 && !w.asked || liquid <= 0 {
		return nil, nil
	}
	t, err := dosing.Thicken(dosing.Sauce{Liquid: liquid, PH: p.PH, BoilsMin: p.boils(role), Thickness: w.Thickness, Series: w.Series})
	if err != nil {
		return nil, err
	}
	l := Line{Key: KeyThick, Substance: substance, In: name, Doses: []dosing.Dose{t.Dose}, Now: Amount{Mass: unit.MassKg(now * k)}}
	l.own(w, liquid)
	l.Doses[0].Basis = "of the liquid as it is left"
	l.Now.Share = ratio(l.Now.Mass, liquid)
	l.Target = Amount{Mass: t.Target, Share: ratio(t.Target, liquid)}
	if t.Fat > 0 {
		l.Says = fmt.Sprintf("with as much fat: %s", dosing.Grams(t.Fat))
	}
	if t.BoilS > 0 {
		l.Says = fmt.Sprintf("it has to boil for %d s", t.BoilS)
	}
	l.Verdict, err = p.asThickAs(&l, w, liquid)
	return []Line{l}, err
}

// boils is for how many minutes what thickens is kept hot with the rest.
func (p Pot) boils(role stability.Role) float64 {
	most := 0.0
	for _, x := range p.Parts {
		if x.Component.Role == role {
			most = max(most, x.HotMin)
		}
	}
	return most
}

// asThickAs says between which thicknesses of the series the dish lies. The series are single figures, so a range would be a pretence.
func (p Pot) asThickAs(l *Line, w Want, liquid unit.Mass) (Verdict, error) {
	if l.Now.Mass == 0 {
		return NoneIn, nil
	}
	at := func(t dosing.Thickness) (unit.Share, error) {
		x, err := dosing.Thicken(dosing.Sauce{Liquid: liquid, Thickness: t, Series: w.Series})
		return x.Shares.Target, err
	}
	var below, above dosing.Thickness
	for _, t := range []dosing.Thickness{dosing.Thin, dosing.Medium, dosing.Thick} {
		share, err := at(t)
		if err != nil {
			return "", err
		}
		if l.Now.Share >= share.F() {
			below = t
		} else if above == "" {
			above = t
		}
	}
	switch {
	case below == "":
		return Verdict("thinner than thin"), nil
	case above == "":
		return Verdict("thick or thicker"), nil
	}
	return Verdict(fmt.Sprintf("between %s and %s", below, above)), nil
}
