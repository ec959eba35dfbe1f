package plan

import (
	"context"
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
	"kettlefrost/internal/unit"
)

// CoolNow compares all ways of a kitchen to cool so much of what a dish gives, in one load, as hot as it is now. It is a plan of the cooling
// alone: its findings, the ways and their curves. The food is what the dish gives at the scale it is written for. Errors: a dish or an
// output that is not there or cannot be solved, no mass, food that is not hot.
func CoolNow(book kitchen.Book, foods *foodtable.Table, dish kitchen.DishID, output kitchen.OutputID, much unit.Mass, from unit.Temp) (Plan, error) {
	p, d, out, err := coolNow(book, foods, dish, output, much, from)
	if err != nil {
		return p.out, err
	}
	p.out.Findings = finding.List{} // what a run would find about the dish is not asked
	p.chillMass(d, output, out, much.Kg(), from.C(), 1)
	p.judgeIce()
	p.out.Findings.Sort()
	return p.out, nil
}

// coolNow is what a dish gives at the scale it is written for, if so much of it can be cooled from a temperature.
func coolNow(book kitchen.Book, foods *foodtable.Table, dish kitchen.DishID, output kitchen.OutputID, much unit.Mass, from unit.Temp) (*planner, *cooked, massflow.OutFlow, error) {
	none := massflow.OutFlow{}
	p := newPlanner(context.Background(), book, foods, kitchen.Request{Name: "to be cooled now"})
	if _, there := book.Dishes[dish]; !there {
		return p, nil, none, fmt.Errorf("there is no dish %q", dish)
	}
	d, err := p.compile(dish)
	if err != nil {
		return p, nil, none, fmt.Errorf("dish %s: %w", dish, err)
	}
	if d.flow, err = massflow.Uniform(d.graph, 1); err != nil {
		return p, nil, none, fmt.Errorf("dish %s: %w", dish, err)
	}
	ref, there := d.outputs[output]
	switch {
	case !there:
		return p, nil, none, fmt.Errorf("dish %s gives no %q", dish, output)
	case much <= 0:
		return p, nil, none, fmt.Errorf("%s is nothing to cool", much)
	case from <= target41:
		return p, nil, none, fmt.Errorf("at %s it is cold already", from.Show(book.Kitchen.Units))
	}
	return p, d, d.flow.Steps[ref.Step].Out[ref.Output], nil
}
