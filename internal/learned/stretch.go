package learned

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

const (
	carries = 0.6  // a figure with so much of what a stretch loses is taken for what its weighing means
	visible = 0.15 // one with less is not seen by it
	// What weighings are good for, as a share of what is weighed, and how far what nobody entered may be from what was planned, as a share of
	// it, each thing by itself. A loss must be three times all of that together to be seen. Conventions of this program.
	weighTo   = 0.001
	plannedTo = 0.02
	seenFrom  = 3
)

// candidate is what a weighing would say of a figure.
type candidate struct {
	seen  Seen
	share float64 // of what the stretch loses
	floor float64 // what a weighing leaves open, in the figure's unit
	with  []place
}

// dishMasses observes the figures of a dish by what was weighed of it.
func (g *gathering) dishMasses(d *day, dish plan.ExpectedDish) {
	w := weighedOf(d, dish)
	m, changed := g.massesOf(d, dish, w)
	if m == nil {
		return
	}
	best, missing := map[place]candidate{}, map[place]string{}
	for i := range m.steps {
		for at, now := range m.lossesOf(i) {
			g.figure(at)
			g.rates[at] = now
			missing[at] = cmp.Or(w.spoilt, changed[m.steps[i].step.ID], m.missingAfter(i, w))
		}
	}
	if w.spoilt == "" {
		for _, o := range slices.Sorted(maps.Keys(w.out)) {
			g.stretch(d, m, w, o, changed, best, missing)
		}
	}
	for at, why := range missing {
		if c, ok := best[at]; ok {
			g.see(at, d.made, c.seen)
			g.also(at, c)
		} else {
			g.exclude(at, d.made, why)
		}
	}
}

// massesOf makes the model of a dish, with why steps of it are not as they were; nil when the dish is gone.
func (g *gathering) massesOf(d *day, dish plan.ExpectedDish, w weighed) (*masses, map[string]string) {
	id := kitchen.DishID(dish.ID)
	m := &masses{dish: id, of: map[kitchen.OutputID]int{}, known: w.out, gone: w.gone, used: map[useOf]float64{}, trim: map[kitchen.IngredientID]float64{}}
	changed := map[string]string{}
	length := map[string]float64{}
	for _, s := range dish.Steps {
		length[s.Head] += float64(s.HeatMin + s.WorkMin)
	}
	for n, s := range dish.Steps {
		step, ok := stepOf(g.book, id, s.ID)
		why := d.made.otherwise(g.book, id, s.ID, Water)
		then, _ := stepOf(d.made.Book, id, s.ID)
		if !ok {
			step = then
		}
		if why != "" {
			changed[s.ID] = why
		}
		x := massStep{step: step, uses: then.Use, plan: s, rate: rateOf(step, s), hotS: s.HotS}
		factor, untimed := d.stretched(s.Tasks, length[s.Head])
		if x.timed, x.untime = untimed == "", untimed; x.timed {
			x.hotS *= factor
		}
		m.steps = append(m.steps, x)
		for _, o := range s.Out {
			m.of[o.ID] = n
		}
		for at, kg := range w.used {
			if at.step == s.Index {
				m.used[useOf{n, at.of}] = kg
				m.trim[at.of] = g.book.Ingredients[at.of].Trim.F()
			}
		}
	}
	if len(m.steps) == 0 {
		return nil, nil
	}
	return m, changed
}

// rateOf is how much evaporates from a step, kg/m²h: by the book of today, or what the plan had from the published table or the burner.
func rateOf(step kitchen.Step, s plan.ExpectedStep) float64 {
	switch {
	case step.Loses.Evaporation > 0:
		return float64(step.Loses.Evaporation)
	case !step.Loses.Open && step.Loses.ReduceTo == 0:
		return 0
	case s.BoilKgH > 0 && s.OpenM2 > 0:
		return s.BoilKgH / s.OpenM2
	}
	return s.EvaporationKgM2H
}

// missingAfter is why nothing is known of step i: the first of its outputs that cannot be used.
func (m *masses) missingAfter(i int, w weighed) string {
	for _, o := range m.steps[i].plan.Out {
		if w.why[o.ID] != "" {
			return w.why[o.ID] + ", nor is anything that follows from it alone"
		}
	}
	return "what was weighed after it says nothing of it"
}

// stretch observes what the weighing of one output may mean.
func (g *gathering) stretch(d *day, m *masses, w weighed, o kitchen.OutputID, changed map[string]string, best map[place]candidate, missing map[place]string) {
	expected, steps := m.gives(o, trial{})
	losses, why := map[place]float64{}, ""
	for _, i := range steps {
		why = cmp.Or(why, changed[m.steps[i].step.ID])
		maps.Copy(losses, m.lossesOf(i))
	}
	if m.steps[m.of[o]].plan.Short {
		why = cmp.Or(why, "the plan could not make it lose all that it should")
	}
	weights, total := map[place]float64{}, 0.0
	for at, now := range losses {
		weights[at] = m.weight(o, at, now)
		total += weights[at]
	}
	if why == "" && expected > 0 {
		g.turnsOut(d, m, o, w.out[o]/expected, expected)
	}
	good := math.Hypot(weighTo*w.out[o], m.asPlanned(steps))
	for at, now := range losses {
		share := weights[at] / total
		switch c, seen := best[at]; {
		case why != "":
			missing[at] = why
		case total <= 0 || share < visible:
			if !seen {
				missing[at] = fmt.Sprintf("it is %.0f %% of what is lost up to %s: too little to be seen in that weighing", 100*share, o)
			}
		case weights[at] < seenFrom*good:
			if !seen {
				missing[at] = g.tooSmall(m, steps, weights[at], good)
			}
		case !seen || share > c.share:
			if value, slope, ok := m.explains(o, w.out[o], at, now); ok {
				x := candidate{share: share, floor: good / max(slope, -slope), seen: Seen{Run: d.made.Run.Name, Day: d.made.Day, Value: value, Of: g.weighedWords(m, o, w.out[o], expected)}}
				x.seen.Notes = slices.Concat(w.notes[o], m.takenForGranted(steps, at), w.assumed)
				if share < carries {
					for other, kg := range weights {
						if other != at && kg/total >= visible {
							x.with = append(x.with, other)
						}
					}
				}
				best[at] = x
			}
		}
	}
}

func (g *gathering) weighedWords(m *masses, o kitchen.OutputID, kg, expected float64) string {
	units := g.book.Kitchen.Units
	return fmt.Sprintf("%s of %s came out, %s by the book", unit.MassKg(kg).Show(units), o, unit.MassKg(expected).Show(units))
}

// asPlanned is how far what went into some steps may be from the plan, of what nobody entered, kg: each thing by itself.
func (m *masses) asPlanned(steps []int) float64 {
	squares := 0.0
	for _, i := range steps {
		for _, u := range m.steps[i].plan.In {
			if _, entered := m.used[useOf{i, u.Of}]; u.Of != "" && !entered {
				squares += plannedTo * plannedTo * u.Kg * u.Kg
			}
		}
	}
	return math.Sqrt(squares)
}

// tooSmall is why a loss is not seen in a weighing, and what would show it.
func (g *gathering) tooSmall(m *masses, steps []int, kg, good float64) string {
	units := g.book.Kitchen.Units
	why := fmt.Sprintf("%s of it are lost, and what was weighed shows no less than %s", unit.MassKg(kg).Show(units), unit.MassKg(seenFrom*good).Show(units))
	if m.asPlanned(steps) > good/2 {
		why += ": enter what goes in, and it shows less"
	}
	return why
}

// takenForGranted is what the value of a figure rests on besides the weighing.
func (m *masses) takenForGranted(steps []int, at place) []string {
	var notes []string
	for _, i := range steps {
		if at.kind == Evaporation && m.steps[i].step.ID == at.step && !m.steps[i].timed {
			notes = append(notes, "its time is as planned: "+m.steps[i].untime)
		}
	}
	if m.asPlanned(steps) > 0 {
		notes = append(notes, "what went in was not entered: as planned")
	}
	return notes
}
