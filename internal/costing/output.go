package costing

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// output is one that may be taken from. Its shares are known once its step is done: one for each take, in order, and the rest.
type output struct {
	Output
	parts  []int64
	shares []Ledger
	taken  int
}

// book notes what is taken of each output.
func (c *carrier) book(takes []Take) error {
	for _, t := range takes {
		o := c.outputs[t.Output]
		switch {
		case o == nil:
			return &RangeError{"takes " + t.Output, "no step has this output", "check the name"}
		case t.Mass <= 0 || t.Mass > o.left():
			return &RangeError{"takes " + t.Output, fmt.Sprintf("%v of it, of which %v is left", t.Mass, o.left()), "take more than nothing, and no more than there is"}
		}
		o.parts = append(o.parts, int64(t.Mass))
	}
	return nil
}

// left is what nobody takes.
func (o *output) left() unit.Mass {
	left := o.Mass
	for _, p := range o.parts {
		left -= unit.Mass(p)
	}
	return left
}

// rest puts what nobody takes behind the takes, as a part that bears its share unless it is thrown away.
func (o *output) rest() {
	rest := o.left()
	if o.Discard && len(o.parts) > 0 {
		rest = 0
	}
	o.parts = append(o.parts, int64(rest))
}

// collect is what comes with the takes.
func (c *carrier) collect(takes []Take) (Ledger, error) {
	var all Ledger
	for _, t := range takes {
		o := c.outputs[t.Output]
		if o.shares == nil {
			return nil, &RangeError{"takes " + t.Output, "it has not been made yet", "put the steps in the order in which they feed each other"}
		}
		all = append(all, o.shares[o.taken]...)
		o.taken++
	}
	return all, nil
}

// leftovers tells what nobody took.
func (c *carrier) leftovers(j Job) {
	for _, s := range j.Steps {
		for _, o := range s.Outputs {
			out := c.outputs[o.Name]
			rest := out.shares[len(out.shares)-1]
			if mass := out.parts[len(out.parts)-1]; mass > 0 {
				c.out.Left = append(c.out.Left, LeftCost{Output: o.Name, Mass: unit.Mass(mass), Ledger: rest, Total: rest.Total(), Missing: rest.Missing()})
			}
		}
	}
}
