package dispersal

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

// hydrate has the powder blended into some of the liquid.
func (w *work) hydrate(spread dosing.Spread) error {
	id, jar, err := w.jar()
	if err != nil {
		return err
	}
	w.out.Jar = id
	spread.Jar = dosing.Jar{Volume: jar.Volume, Fill: jar.Working}
	if jar.Working == 0 {
		w.out.Asks = append(w.out.Asks, Ask{Code: AskJar, Path: kitchen.PathTo(kitchen.PathTo("equipment", string(id)), "working"),
			Asks: fmt.Sprintf("How full may %s be?", jar.Name), Assumed: "two thirds with cold liquid (common practice)"})
	}
	from, err := w.holdBack(spread)
	if err != nil {
		return err
	}
	if err := w.worked(spread, from); err != nil {
		return err
	}
	w.addStep(kitchen.Step{
		ID: "hydrate-" + string(w.out.Of), Do: fmt.Sprintf("Blend the %s into cold %s until no specks show.", w.out.Powder, w.names(from)),
		How: "Motor running first, then rain it into the eye. Look for lumps, they keep their inside dry; blend again.",
		In:  w.blenders(), Time: w.perLoad(), Hands: kitchen.Hands{Throughout: true}, ReadyAt: w.cold(from),
	}, from)
	return nil
}

// blenders are all of the kitchen's, the largest first.
func (w *work) blenders() []kitchen.EquipmentID {
	var all []kitchen.EquipmentID
	for id, e := range w.book.Equipment {
		if e.Kind == kitchen.Blender && e.Volume > 0 {
			all = append(all, id)
		}
	}
	slices.SortFunc(all, func(a, b kitchen.EquipmentID) int {
		return cmp.Or(cmp.Compare(w.book.Equipment[b].Volume, w.book.Equipment[a].Volume), cmp.Compare(a, b))
	})
	return all
}

// slurry has starch stirred up in twice its weight of cold liquid.
func (w *work) slurry(spread dosing.Spread) error {
	from, err := w.holdBack(spread)
	if err != nil {
		return err
	}
	if err := w.worked(spread, from); err != nil {
		return err
	}
	w.addStep(kitchen.Step{
		ID: "slurry-" + string(w.out.Of), Do: fmt.Sprintf("Stir the %s into cold %s until smooth.", w.out.Powder, w.names(from)),
		How:  "Stir it up again right before it goes in: it settles. The pot has to come to a full boil after.",
		Time: 2 * unit.Minute, Hands: kitchen.Hands{Throughout: true}, ReadyAt: w.cold(from),
	}, from)
	return nil
}

// carry has the powder mixed dry, or stirred up in oil, with some of what goes into the same step.
func (w *work) carry(spread dosing.Spread) error {
	oil := spread.Way == dosing.OilSlurry
	s, found := w.carrier(oil)
	if !found {
		what := "sugar, starch, salt or another dry powder"
		if oil {
			what = "oil"
		}
		return &InputError{"step " + w.steps[w.step].ID, "takes no " + what + " to mix it with", "take another way, or a step that does"}
	}
	spread.Liquids = w.pourables(w.liquids())
	spread.Carrier = dosing.Portion{Name: w.nameOf(s), Mass: s.mass}
	if len(spread.Liquids) == 0 {
		spread.Liquids = []dosing.Pourable{{Portion: dosing.Portion{Name: "what is in the pot", Mass: w.pot.Mass}}}
	}
	d, err := dosing.Disperse(spread)
	if err != nil {
		return err
	}
	w.out.Dispersion, w.out.Found = d, append(w.out.Found, d.Found...)
	from := []portioned{w.portion(s, d.Carrier.Mass)}
	w.out.Dispersion.Mix = w.out.Mass + from[0].mass
	w.out.Dispersion.Share = float64(w.out.Mass) / float64(w.out.Dispersion.Mix)
	step := kitchen.Step{ID: "mix-" + string(w.out.Of), Do: fmt.Sprintf("Mix the %s dry with the %s until it is even.", w.out.Powder, w.names(from)),
		How: "Sprinkle it in while the pot is stirred, never in one heap.", Time: unit.Minute, Hands: kitchen.Hands{Throughout: true}}
	if oil {
		step.ID, step.Do = "slurry-"+string(w.out.Of), fmt.Sprintf("Stir the %s into the %s.", w.out.Powder, w.names(from))
		step.How = "At once into the pot, stirring hard: it settles."
	}
	w.addStep(step, from)
	return nil
}

// carrier is the line of the pot's step with most of what the powder can be mixed with.
func (w *work) carrier(oil bool) (best source, found bool) {
	for k, u := range w.steps[w.step].Use {
		p := w.parts[u.Of]
		if u.Of == "" || u.Of == w.out.Of || w.out.With != "" && u.Of != w.out.With || p.Kg == 0 {
			continue
		}
		fits := !oil && w.dry(p) || oil && p.Component.Role == stability.Fat && p.FatKg > 0.95*p.Kg
		if m, err := plan.Weigh(w.book, w.foods, u.Of, u.Amount); fits && err == nil && m > best.mass {
			best, found = source{step: w.step, line: k, has: m, mass: m}, true
		}
	}
	return best, found
}

// dry says that something is a powder: salt, starch, flour, or sugar.
func (w *work) dry(p formula.Part) bool {
	switch p.Component.Role {
	case stability.NativeStarch, stability.WaxyStarch, stability.ModifiedStarch, stability.Flour:
		return true
	}
	return p.Salt || p.SugarsKg > 0.9*p.Kg
}

// holdBack is what package dosing wants held back, in amounts that a cook measures.
func (w *work) holdBack(spread dosing.Spread) ([]portioned, error) {
	all := w.liquids()
	if len(all) == 0 {
		return nil, &InputError{"the dish", "has no cold liquid that could be held back before " + w.steps[w.step].ID, "take another way"}
	}
	spread.Liquids = w.pourables(all)
	d, err := dosing.Disperse(spread)
	if wrong, ok := errors.AsType[*dosing.InputError](err); ok {
		return nil, wrong
	} else if err != nil {
		return nil, err
	}
	var need unit.Mass
	for _, h := range d.HeldBack {
		need += h.Mass
	}
	var from []portioned
	for _, s := range all {
		if need <= 0 {
			break
		}
		one := w.portion(s, min(need, s.mass))
		need -= one.mass
		from = append(from, one)
	}
	return from, nil
}

// worked is the dispersion with what is really held back.
func (w *work) worked(spread dosing.Spread, from []portioned) error {
	var held unit.Mass
	for _, p := range from {
		spread.Liquids = append(spread.Liquids, dosing.Pourable{Portion: dosing.Portion{Name: w.nameOf(p.source), Mass: p.mass}})
		held += p.mass
	}
	spread.Share = max(1, unit.ShareOf(float64(spread.Dose)/float64(spread.Dose+held))-1) // so strong that all of it is held back
	d, err := dosing.Disperse(spread)
	if err != nil {
		return err
	}
	w.out.Dispersion, w.out.Found = d, append(w.out.Found, d.Found...)
	return nil
}

// perLoad is how long a filling of the jar takes: what package dosing says, and a minute to fill and empty it (judgement).
func (w *work) perLoad() unit.Span {
	s := 60
	for _, x := range w.out.Dispersion.Steps {
		if x.Act == dosing.Sprinkle || x.Act == dosing.Blend {
			s += x.Seconds
		}
	}
	return unit.Span((s+59)/60) * unit.Minute
}
