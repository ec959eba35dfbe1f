package learned

import (
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
)

// masses is one dish of one run as it would come out by the book's figures of today, from what really went in. It is a chain of straight
// lines, so that a figure follows from a weighing by two trials.
type masses struct {
	dish  kitchen.DishID
	steps []massStep
	of    map[kitchen.OutputID]int     // the step that gives it
	known map[kitchen.OutputID]float64 // what was weighed of each output
	gone  map[kitchen.OutputID]float64 // of each, thrown away afterwards
	used  map[useOf]float64            // kg as purchased, of what was entered
	trim  map[kitchen.IngredientID]float64
}

// useOf is an ingredient in a step.
type useOf struct {
	step int
	of   kitchen.IngredientID
}

// massStep is a step with the figures of today and the loads, the surface and the times of the run.
type massStep struct {
	step   kitchen.Step
	uses   []kitchen.Use // as they were
	plan   plan.ExpectedStep
	rate   float64 // kg/m²h
	hotS   float64 // as it really was, or as planned
	timed  bool    // it is as it was
	untime string  // why not
}

// neutral is the value of a figure at which nothing is lost by it.
func (k Kind) neutral() float64 {
	if k == ReduceTo {
		return 1
	}
	return 0
}

// trial is a figure with another value.
type trial struct {
	at    place
	value float64
}

func (t trial) or(p place, x float64) float64 {
	if t.at == p {
		return t.value
	}
	return x
}

// lossesOf are the figures of step i that lessen its main product, each with its value.
func (m *masses) lossesOf(i int) map[place]float64 {
	s := m.steps[i]
	at := func(k Kind, part string) place { return place{k, m.dish, s.step.ID, part} }
	all := map[place]float64{}
	for k, x := range map[Kind]float64{Water: s.step.Loses.Water.F(), Fat: s.step.Loses.Fat.F(), Drain: s.step.Loses.Drain.F(), ReduceTo: s.step.Loses.ReduceTo.F(), Residue: s.step.Loses.Residue.Kg()} {
		if x > 0 {
			all[at(k, "")] = x
		}
	}
	if s.step.Loses.ReduceTo == 0 && s.rate > 0 && s.plan.OpenM2 > 0 && s.hotS > 0 {
		all[at(Evaporation, "")] = s.rate
	}
	for _, o := range s.step.Outputs() {
		if o.Takes > 0 {
			all[at(Takes, string(o.ID))] = o.Takes.F()
		}
	}
	for n, u := range s.plan.In {
		if _, entered := m.used[useOf{i, u.Of}]; entered && m.trim[u.Of] > 0 && u.Of == s.uses[n].Of {
			all[place{kind: Trim, part: string(u.Of)}] = m.trim[u.Of]
		}
	}
	return all
}

// cooking is one trial of the whole dish.
type cooking struct {
	*masses
	t       trial
	target  kitchen.OutputID // whose weighing does not count
	done    map[kitchen.OutputID]float64
	touched []int // steps that were worked out
}

// gives is what an output would weigh if a figure had another value, in kg, and which steps it follows from, back to what was weighed.
func (m *masses) gives(o kitchen.OutputID, t trial) (kg float64, steps []int) {
	c := &cooking{masses: m, t: t, target: o, done: map[kitchen.OutputID]float64{}}
	kg = c.output(o)
	slices.Sort(c.touched)
	return kg, slices.Compact(c.touched)
}

func (c *cooking) output(o kitchen.OutputID) float64 {
	if kg, weighed := c.known[o]; weighed && o != c.target {
		return kg
	}
	if kg, done := c.done[o]; done {
		return kg
	}
	i, ok := c.of[o]
	if !ok {
		return 0
	}
	c.touched = append(c.touched, i)
	c.cook(i)
	return c.done[o]
}

// cook works out what step i gives.
func (c *cooking) cook(i int) {
	s := c.steps[i]
	at := func(k Kind, part string, x float64) float64 { return c.t.or(place{k, c.dish, s.step.ID, part}, x) }
	in := 0.0
	for n := range s.plan.In {
		in += c.input(i, n)
	}
	left, loads := in, float64(s.plan.Loads)
	left -= in * (at(Water, "", s.step.Loses.Water.F()) + at(Fat, "", s.step.Loses.Fat.F()))
	if s.step.Loses.ReduceTo > 0 {
		left = min(left, in*at(ReduceTo, "", s.step.Loses.ReduceTo.F()))
	} else if s.plan.OpenM2 > 0 {
		left -= at(Evaporation, "", s.rate) * s.plan.OpenM2 * loads * s.hotS / 3600
	}
	main := kitchen.OutputID("")
	for _, o := range s.step.Outputs() {
		if o.Takes == 0 {
			main = o.ID
			continue
		}
		takes, weighed := c.known[o.ID]
		if !weighed || o.ID == c.target {
			takes = in * at(Takes, string(o.ID), o.Takes.F())
		}
		c.done[o.ID] = takes
		left -= takes
	}
	left -= in*at(Drain, "", s.step.Loses.Drain.F()) + loads*at(Residue, "", s.step.Loses.Residue.Kg())
	c.done[main] = left
}

// input is what use n of step i was: as entered, as planned, or in the proportion in which what it is drawn from came out.
func (c *cooking) input(i, n int) float64 {
	u := c.steps[i].plan.In[n]
	if u.From == "" {
		if ap, entered := c.used[useOf{i, u.Of}]; entered {
			return ap * (1 - c.t.or(place{kind: Trim, part: string(u.Of)}, c.trim[u.Of]))
		}
		return u.Kg
	}
	if c.steps[i].uses[n].Or != "" { // what is missing stands in
		return u.Kg
	}
	from, ok := c.of[u.From]
	if !ok {
		return u.Kg
	}
	for _, o := range c.steps[from].plan.Out {
		if o.ID == u.From && o.Kg > 0 {
			return u.Kg * max(0, c.output(u.From)-c.gone[u.From]) / o.Kg
		}
	}
	return u.Kg
}

// explains is the value of a figure at which an output would weigh what it weighed; false when the figure has nothing to do with it.
func (m *masses) explains(o kitchen.OutputID, kg float64, at place, now float64) (value, slope float64, ok bool) {
	by, _ := m.gives(o, trial{at, now})
	other := now * 1.1
	if at.kind == ReduceTo {
		other = now * 0.9
	}
	then, _ := m.gives(o, trial{at, other})
	slope = (then - by) / (other - now)
	if slope > -1e-12 && slope < 1e-12 {
		return 0, 0, false
	}
	return now + (kg-by)/slope, slope, true
}

// weight is how many kg a figure takes from an output.
func (m *masses) weight(o kitchen.OutputID, at place, now float64) float64 {
	by, _ := m.gives(o, trial{at, now})
	without, _ := m.gives(o, trial{at, at.kind.neutral()})
	return max(by-without, without-by)
}
