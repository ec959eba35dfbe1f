package dispersal

import (
	"cmp"
	"fmt"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

// guess is what an amount that nothing weighs is taken to weigh, and asks for it.
func (w *work) guess(a unit.Amount) unit.Amount {
	const powderKgL = 0.55 // a level teaspoon of xanthan or starch is 2.5 to 3 g: common practice
	id := w.out.Of
	ask := Ask{Code: AskWeight, Path: kitchen.PathTo(kitchen.PathTo("ingredients", string(id)), "measures"),
		Asks: fmt.Sprintf("The dish has %s of %s. What does that weigh? Weigh a level measure of your own three times.", a, w.out.Powder)}
	m := a.Volume.Times(powderKgL)
	if a.Kind != unit.AmountVolume {
		m = 0
	}
	ask.Assumed = fmt.Sprintf("%s: powders weigh about 0.55 kg/L in a spoon (common practice), and can be off by a third", dosing.Grams(m))
	w.out.Asks = append(w.out.Asks, ask)
	return unit.Amount{Kind: unit.AmountMass, Mass: m}
}

// dose is how much of it there is to be, at the scale that the dish is written for.
func (w *work) dose() error {
	a := w.out.Asked
	if w.line >= 0 {
		amount := w.steps[w.step].Use[w.line].Amount
		m, err := plan.Weigh(w.book, w.foods, a.Of, amount)
		if err != nil {
			m = w.guessed(amount)
		}
		w.out.Mass = m
	}
	if a.Dose != (formula.Own{}) {
		m, err := w.ownDose()
		if err != nil {
			return err
		}
		w.out.Mass = m
		if a.Dose.Assumed != "" {
			w.out.Asks = append(w.out.Asks, Ask{Code: AskDose, Asks: "How much is it to be?", Assumed: a.Dose.Assumed})
		}
	}
	switch {
	case w.out.Mass <= 0 && w.line < 0:
		return &InputError{w.out.Powder, "is not in the dish yet", "say how much of it: 22 g, 0.2 % or 0.5 g per cup; the doses of the dish say how much is usual"}
	case w.out.Mass <= 0:
		return &InputError{w.out.Powder, "weighs nothing as it is written", "weigh it: say how many grams it is to be"}
	case w.out.Mass >= w.pot.Mass/4:
		return &InputError{w.out.Powder, fmt.Sprintf("is to be %s of %s", dosing.Grams(w.out.Mass), w.pot.Mass), "look at the figure and its unit"}
	}
	if w.line >= 0 && w.changesDose() {
		w.steps[w.step].Use[w.line].Amount = unit.Amount{Kind: unit.AmountMass, Mass: w.out.Mass}
	}
	return nil
}

// changesDose says that the dish has to say another amount: another was asked for, or the one there cannot be weighed.
func (w *work) changesDose() bool {
	was, err := plan.Weigh(w.book, w.foods, w.out.Of, w.steps[w.step].Use[w.line].Amount)
	return err != nil || was != w.out.Mass
}

// guessed is the mass that guess took.
func (w *work) guessed(a unit.Amount) unit.Mass {
	asks := len(w.out.Asks)
	m := w.guess(a).Mass
	if asks > 0 {
		w.out.Asks = w.out.Asks[:asks] // it was asked when the pot was looked at
	}
	return m
}

// ownDose is a dose as somebody said it, by what doses of such a powder are shares of.
func (w *work) ownDose() (unit.Mass, error) {
	d := w.out.Dose
	if d.Mass > 0 {
		return d.Mass, nil
	}
	key := w.key()
	doses, err := w.pot.Doses(formula.Want{Own: map[string]formula.Own{key: d}})
	if err != nil {
		return 0, err
	}
	for _, l := range doses.Lines {
		if l.Key == key && l.Own != nil {
			return roundedTo(l.Own.Mass, w.division()), nil
		}
	}
	return roundedTo(unit.MassKg(d.Share*w.pot.Mass.Kg()), w.division()), nil
}

// division is the step of the kitchen's fine scale; 0.1 g where none is known.
func (w *work) division() unit.Mass {
	if d := w.book.Kitchen.FineScale.Division; d > 0 {
		return d
	}
	return unit.Gram / 10
}

func roundedTo(m, step unit.Mass) unit.Mass { return (m + step/2) / step * step }

// key is how the doses of a pot call it.
func (w *work) key() string {
	p := w.parts[w.out.Of]
	switch p.Component.Role {
	case stability.EmulsifyingSalt:
		return formula.KeyCitrate
	case stability.Gum:
		if p.GumKind == string(stability.LocustBean) {
			return "locust-bean-gum"
		}
		return cmp.Or(p.GumKind, "gum")
	}
	return formula.KeyThick
}
