package kitchen

import (
	"fmt"
	"slices"
)

// dish is one dish with what its checks look up again and again.
type dish struct {
	id    DishID
	at    spot
	steps []Step
	giver map[OutputID]int // the step that gives an output; the first when two do
}

func (c *checker) dish(id DishID, written Dish) {
	d := dish{id: id, at: entrySpot("dishes", string(id)), steps: written.Steps, giver: map[OutputID]int{}}
	c.id(d.at, string(id))
	c.text(d.at, "name", written.Name)
	c.within(d.at, "hold-back", inPerCent(written.HoldBack), perCent)
	c.within(d.at, "ph", written.PH, acidity)
	if len(d.steps) == 0 {
		c.stop(NoSteps, d.at.key("steps"), "the dish has no steps", "write what is done to the food, step by step, or take the dish out")
		return
	}
	c.dishIDs(d)
	for i, s := range d.steps {
		c.step(d, i, s)
	}
	c.cycles(d)
	c.drawn(d)
	c.unused(d)
}

// step is the place of a step.
func (d dish) step(i int) spot { return d.at.item("steps", i, d.steps[i].ID) }

// output is the place of what a step gives, which is the step itself when it is not written.
func (d dish) output(i, k int) spot {
	if len(d.steps[i].Gives) == 0 {
		return d.step(i)
	}
	return d.step(i).item("gives", k, string(d.steps[i].Gives[k].ID))
}

// outputs lists what a dish gives, in order.
func (d dish) outputs() []string { return names(d.giver) }

// dishIDs checks that steps and outputs can be told apart, and finds out who gives what.
func (c *checker) dishIDs(d dish) {
	stepAt := map[string]int{}
	for i, s := range d.steps {
		at := d.step(i).key("id")
		c.id(at, s.ID)
		if first, taken := stepAt[s.ID]; taken {
			c.stop(DuplicateID, at, fmt.Sprintf("step %d is called %s too", first+1, s.ID), "give one of them another id")
		} else {
			stepAt[s.ID] = i
		}
		for k, o := range s.Outputs() {
			at := d.output(i, k).key("id")
			if len(s.Gives) > 0 {
				c.id(at, string(o.ID))
			}
			if giver, taken := d.giver[o.ID]; taken {
				if len(s.Gives) > 0 || stepAt[s.ID] == i { // otherwise the step's own id was reported
					c.stop(DuplicateID, at, fmt.Sprintf("step %s gives %s too", d.steps[giver].ID, o.ID), "give one of the two outputs another id")
				}
				continue
			}
			d.giver[o.ID] = i
		}
	}
}

// cycles reports steps that wait for each other, each round once.
func (c *checker) cycles(d dish) {
	const (
		unseen = iota
		open
		done
	)
	state := make([]int, len(d.steps))
	var trail []int
	var visit func(i int)
	visit = func(i int) {
		state[i] = open
		trail = append(trail, i)
		for _, u := range d.steps[i].Use {
			giver, ok := d.giver[u.From]
			switch {
			case u.From == "" || !ok:
			case state[giver] == open:
				c.cycle(d, trail[slices.Index(trail, giver):])
			case state[giver] == unseen:
				visit(giver)
			}
		}
		trail = trail[:len(trail)-1]
		state[i] = done
	}
	for i := range d.steps {
		if state[i] == unseen {
			visit(i)
		}
	}
}

// cycle reports one round of steps, each of which needs the next.
func (c *checker) cycle(d dish, round []int) {
	words := d.steps[round[0]].ID
	for k := range round {
		words += " needs " + d.steps[round[(k+1)%len(round)]].ID
	}
	c.stop(StepCycle, d.step(round[0]), words, "a step can only use what is ready before it: take one of these out, or stand in an ingredient")
}

// drawn reports outputs of which the steps take more than all by their shares.
func (c *checker) drawn(d dish) {
	taken := map[OutputID]float64{}
	for i, s := range d.steps {
		for k, u := range s.Use {
			if u.From == "" || !u.Take.Given {
				continue
			}
			before := taken[u.From]
			taken[u.From] += inPerCent(u.Take.Share)
			if before <= 100 && taken[u.From] > 100 {
				at := d.step(i).item("use", k, "").key("take")
				c.stop(OutputOverdrawn, at, fmt.Sprintf("with this, the steps take %s of %s", perCent.say(taken[u.From]), u.From), "let the shares of all steps and packs come to 100 % at most")
			}
		}
	}
}

// unused reports outputs that go nowhere.
func (c *checker) unused(d dish) {
	used, packed := map[OutputID]bool{}, false
	for _, s := range d.steps {
		for _, u := range s.Use {
			used[u.From] = true
		}
	}
	for _, p := range c.book.Packs {
		if p.Dish != d.id {
			continue
		}
		packed = true
		for _, f := range p.Fill {
			used[f.Of] = true
		}
	}
	if !packed {
		c.caution(DishWithoutPack, d.at, "no pack is filled from this dish", "add a pack of it under packs:, or take the dish out")
		return
	}
	for i, s := range d.steps {
		for k, o := range s.Outputs() {
			switch {
			case used[o.ID]:
			case o.ByProduct:
				c.note(ByProductUnused, d.output(i, k), fmt.Sprintf("no step and no pack uses the by-product %s", o.ID), "it is left over: use it in a step, fill it in a pack, or write it as a loss")
			default:
				c.stop(OutputUnused, d.output(i, k), fmt.Sprintf("no step and no pack uses %s", o.ID), "use it in a step with from:, fill it in a pack, or mark it by-product: true")
			}
		}
	}
}
