package dispersal

import (
	"fmt"
	"slices"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

// dissolve has an emulsifying salt in the liquid before the cheese comes.
func (w *work) dissolve(spread dosing.Spread) error {
	cheese := w.cheese()
	if late := w.cheeseBefore(); late != "" {
		return &InputError{w.out.Powder, fmt.Sprintf("goes into %s after the cheese has gone in at %s", w.steps[w.step].ID, late), "put it into a step before that one, with the liquid"}
	}
	for i := range w.before(w.step) {
		for _, u := range w.steps[w.before(w.step)[i]].Use {
			if p, ok := w.parts[u.Of]; ok && u.Of != "" && slices.Contains(append(thin, stability.Acid), p.Component.Role) {
				spread.Liquids = append(spread.Liquids, dosing.Pourable{Portion: dosing.Portion{Name: p.Name, Mass: unit.MassKg(p.PutInKg)}})
			}
		}
	}
	if len(spread.Liquids) == 0 {
		return &InputError{"step " + w.steps[w.step].ID, "has no liquid to dissolve it in", "put it into the step with the milk or the water"}
	}
	d, err := dosing.Disperse(spread)
	if err != nil {
		return err
	}
	w.out.Dispersion, w.out.Found = d, append(w.out.Found, d.Found...)
	if len(cheese) > 0 {
		w.splitForCheese(cheese)
		return nil
	}
	w.out.Step = w.steps[w.step].ID
	if w.line < 0 {
		w.steps[w.step].Use = append(w.steps[w.step].Use, kitchen.Use{Of: w.out.Of, Amount: w.powderAmount()})
		return nil
	}
	w.out.State = w.same()
	w.out.Found = append(w.out.Found, finding.Finding{Code: CodeInBeforeCheese, Severity: finding.Note, Where: "step " + w.out.Step,
		Message: fmt.Sprintf("%s is in the liquid before any cheese is", w.out.Powder), Source: "common practice", Fix: "nothing needs changing: stir until it is clear at the bottom"})
	return nil
}

// same is Fine when the dish stays as it is but for nothing, or Mended when its dose was changed.
func (w *work) same() State {
	if w.line >= 0 && w.steps[w.step].Use[w.line].Amount == w.out.Before.Steps[w.step].Use[w.line].Amount {
		return Fine
	}
	return Mended
}

var cheeses = []stability.Role{stability.HardCheese, stability.ProcessCheese, stability.SoftCheese}

// brings says whether a line brings cheese, itself or in what an earlier step gives.
func (w *work) brings(u kitchen.Use) bool {
	if u.Of != "" {
		return slices.Contains(cheeses, w.parts[u.Of].Component.Role)
	}
	i, ok := w.gives[u.From]
	return ok && slices.ContainsFunc(w.steps[i].Use, w.brings)
}

// cheese are the lines of the powder's step that bring cheese which is not in the pot yet.
func (w *work) cheese() []int {
	var all []int
	for k, u := range w.steps[w.step].Use {
		if w.brings(u) && !w.isPot(u) {
			all = append(all, k)
		}
	}
	return all
}

// isPot says that a line is the pot itself: what was in the vessel.
func (w *work) isPot(u kitchen.Use) bool {
	s := w.steps[w.step]
	first := slices.IndexFunc(s.Use, func(x kitchen.Use) bool { return x.From != "" })
	return s.Stays && first >= 0 && s.Use[first].From == u.From
}

// cheeseBefore is the step at which cheese has gone into the pot already; empty when none has.
func (w *work) cheeseBefore() string {
	for _, u := range w.steps[w.step].Use {
		if w.isPot(u) && w.brings(u) {
			return w.steps[w.gives[u.From]].ID
		}
	}
	return ""
}

// splitForCheese makes two steps of one that takes emulsifying salt and cheese at once: the salt with the liquid, then the cheese.
func (w *work) splitForCheese(cheese []int) {
	at := w.step
	whole := w.steps[at]
	first := kitchen.Step{ID: w.freeID("dissolve-" + string(w.out.Of)), Do: fmt.Sprintf("Stir the %s into the liquid until it is clear at the bottom.", w.out.Powder),
		In: whole.In, Stays: whole.Stays, HeatTo: whole.HeatTo, Time: unit.Minute, Hands: kitchen.Hands{Throughout: true}, MakeUp: whole.MakeUp}
	then := whole
	then.Use = []kitchen.Use{{From: kitchen.OutputID(first.ID), Take: kitchen.Take{Given: true, Share: unit.Whole}}}
	then.In, then.Stays, then.MakeUp = nil, true, ""
	for k, u := range whole.Use {
		if slices.Contains(cheese, k) {
			then.Use = append(then.Use, u)
		} else {
			first.Use = append(first.Use, u)
		}
	}
	if w.line < 0 {
		first.Use = append(first.Use, kitchen.Use{Of: w.out.Of, Amount: w.powderAmount()})
	}
	w.steps[at] = then
	w.steps = slices.Insert(w.steps, at, first)
	w.out.Step = first.ID
}
