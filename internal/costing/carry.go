package costing

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Job is all that is cooked and packed together. Cost is carried from step to step with what comes of them, down to the packs.
type Job struct {
	Steps    []Step // each takes only from steps before it
	Packs    []PackRun
	Pools    []Pool
	Overhead Spread
}

// Pool is packs of one pot that share the cost of what they take by another rule than by mass.
type Pool struct {
	Rule  Rule
	Packs []Product // by their names; all of one kind together
}

// Step is one piece of work on a dish.
type Step struct {
	Dish, Name string
	Charges
	Takes   []Take
	Outputs []Output // at least one; several share the cost by the rule
	Rule    Rule
}

// Take is what a step or all packs of a kind take of an output.
type Take struct {
	Output string
	Mass   unit.Mass
}

// Output is what comes of a step and can be used.
type Output struct {
	Product
	// Discard says that what nobody takes is thrown away, so that those who take some bear all of it. Otherwise it stays over and
	// bears its own share.
	Discard bool
}

// PackRun is packs of one kind.
type PackRun struct {
	Name  string
	Count int // how many are made
	Charges
	Takes []Take     // for all of them
	Waste unit.Share // of the packs that are made, how many are expected to be lost; the others bear their cost
}

// Buildup is what everything costs, and what the cost is made of.
type Buildup struct {
	Spent Ledger // every charge, where it was spent
	Steps []StepCost
	Packs []PackCost
	Left  []LeftCost // Spent adds up to what Packs and Left bear, to the millionth
}

// StepCost is what came into a step with what it took, and what was spent there.
type StepCost struct {
	Dish, Name string
	Carried    unit.Money
	Own        unit.Money
	Joint      Allocation // between its outputs
}

// PackCost is what packs of a kind cost.
type PackCost struct {
	Name    string
	Ledger  Ledger
	Count   int
	Total   unit.Money
	PerPack unit.Money    // of a pack that is not lost, up to the millionth
	Each    []Group[Kind] // what PerPack is made of: it adds up
	Missing Ledger        // when there is any, Total and PerPack are lower bounds, but for the millionths that sharing out moves
}

// LeftCost is what an output bears that nobody took.
type LeftCost struct {
	Output  string
	Mass    unit.Mass
	Ledger  Ledger
	Total   unit.Money
	Missing Ledger
}

// Carry works out what every output and pack costs. A price that is missing is no error: whatever bears part of it says so and is a lower
// bound. Errors are *RangeError and name the step or the pack.
func Carry(j Job) (Buildup, error) {
	c := carrier{overhead: j.Overhead, outputs: map[string]*output{}}
	if err := c.overhead.check(); err != nil {
		return Buildup{}, err
	}
	if err := c.announce(j); err != nil {
		return Buildup{}, err
	}
	for _, s := range j.Steps {
		if err := c.step(s); err != nil {
			return Buildup{}, at(s.place(), err)
		}
	}
	taken, err := c.taken(j)
	if err != nil {
		return Buildup{}, err
	}
	for i, p := range j.Packs {
		if err := c.pack(p, taken[i]); err != nil {
			return Buildup{}, at("pack "+p.Name, err)
		}
	}
	c.leftovers(j)
	return c.out, nil
}

func (s Step) place() string { return fmt.Sprintf("dish %s, step %s", s.Dish, s.Name) }

type carrier struct {
	overhead Spread
	outputs  map[string]*output
	out      Buildup
	spent    unit.Money // without regard to sign, so that no sum of it leaves the range
}

// announce finds who takes what.
func (c *carrier) announce(j Job) error {
	for _, s := range j.Steps {
		if len(s.Outputs) == 0 {
			return at(s.place(), &RangeError{"outputs", "nothing comes of it, and its cost would be lost", "name what comes of it"})
		}
		for _, o := range s.Outputs {
			if c.outputs[o.Name] != nil || o.Mass <= 0 {
				return at(s.place(), &RangeError{"output " + o.Name, "comes twice, or weighs nothing", "give it a name of its own and a mass above 0"})
			}
			c.outputs[o.Name] = &output{Output: o}
		}
	}
	for _, s := range j.Steps {
		if err := c.book(s.Takes); err != nil {
			return at(s.place(), err)
		}
	}
	for _, p := range j.Packs {
		if err := c.book(p.Takes); err != nil {
			return at("pack "+p.Name, err)
		}
	}
	for _, o := range c.outputs {
		o.rest()
	}
	return nil
}

// spend works out charges and what overhead comes with their hours.
func (c *carrier) spend(dish, step string, ch Charges) (Ledger, error) {
	lines, err := ch.lines()
	if err != nil {
		return nil, err
	}
	over, err := c.overhead.onHours(ch)
	if err != nil {
		return nil, err
	}
	var own Ledger
	for _, l := range append(lines, over...) {
		own = append(own, Charge{dish, step, l})
	}
	return own, c.enter(own)
}

// enter writes charges into what was spent.
func (c *carrier) enter(own Ledger) error {
	for _, l := range own {
		sum, err := Sum(c.spent, max(l.Cost, -l.Cost))
		if err != nil {
			return at(l.Name, err)
		}
		c.spent = sum
	}
	c.out.Spent = append(c.out.Spent, own...)
	return nil
}

func (c *carrier) step(s Step) error {
	carried, err := c.collect(s.Takes)
	if err != nil {
		return err
	}
	own, err := c.spend(s.Dish, s.Name, s.Charges)
	if err != nil {
		return err
	}
	all := append(carried, own...)
	products := make([]Product, len(s.Outputs))
	for i, o := range s.Outputs {
		products[i] = o.Product
	}
	joint, err := Allocate(all.Total(), s.Rule, products)
	if err != nil {
		return err
	}
	bases := make([]int64, len(joint.Parts))
	for i, p := range joint.Parts {
		bases[i] = p.Base
	}
	shares, err := all.split("joint cost", bases)
	if err != nil {
		return err
	}
	for i, o := range s.Outputs {
		out := c.outputs[o.Name]
		if out.shares, err = shares[i].split("output "+o.Name, out.parts); err != nil {
			return err
		}
	}
	c.out.Steps = append(c.out.Steps, StepCost{Dish: s.Dish, Name: s.Name, Carried: carried.Total(), Own: own.Total(), Joint: joint})
	return nil
}
