package plan

import (
	"maps"
	"slices"

	"kettlefrost/internal/cooling"
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/vessel"
)

// chilled is one output being chilled: what the timetable needs of it.
type chilled struct {
	dish   *cooked
	output kitchen.OutputID
	step   int
	stages []chilledStage // of one load; none when no way is in time
}

// chilledStage is one stage of the way that was chosen.
type chilledStage struct {
	by      kitchen.ChillingID // empty while ice melts in the pot that it was cooked in
	name    string
	vessels int
	set     unit.Span // hands to set up all of them
	tend    unit.Share
	timeS   float64
}

var (
	target41 = unit.TempF(41)
	target70 = unit.TempF(70)
	clock135 = unit.TempF(135)
)

// chill compares the kitchen's ways to cool each hot output that packs are filled from.
func (p *planner) chill() {
	for _, d := range p.dishes {
		for _, id := range p.drawn(d) {
			step := d.outputs[id].Step
			if p.outC(d, step) > target41.C() {
				p.chillOutput(d, id, step)
			}
		}
	}
	p.judgeIce()
}

// drawn is the outputs of a dish that the packs of this run are filled from, in the order of their names.
func (p *planner) drawn(d *cooked) []kitchen.OutputID {
	set := map[kitchen.OutputID]bool{}
	for _, f := range p.out.Fill {
		if f.Dish == string(d.id) && f.Count > 0 {
			for _, e := range f.Each {
				set[kitchen.OutputID(e.ID)] = true
			}
		}
	}
	return slices.Sorted(maps.Keys(set))
}

func (p *planner) chillOutput(d *cooked, id kitchen.OutputID, step int) {
	ref := d.outputs[id]
	out := d.flow.Steps[ref.Step].Out[ref.Output]
	cool := chilled{dish: d, output: id, step: step}
	cool.stages = p.chillMass(d, id, out, out.LeftKg, p.outC(d, step), max(1, d.flow.Steps[step].Split.N))
	p.day.chilled = append(p.day.chilled, cool)
}

// chillMass compares the ways to cool so much of an output, in equal loads, and returns the stages of the one that is chosen.
func (p *planner) chillMass(d *cooked, id kitchen.OutputID, out massflow.OutFlow, kg, fromC float64, loads int) []chilledStage {
	rule := coolrule.FoodCodeCooked()
	show := Chill{Dish: string(d.id), Output: string(id), Name: p.outLine(d, id, 0).Name, Mass: mass(kg), From: unit.TempC(fromC), Options: []ChillOption{}, Chosen: -1,
		Rule: rule.Title, Source: rule.Source}
	food, err := p.hotFood(d, out, fromC, kg/float64(loads))
	food.Pieces = p.output(d, id).Piece > 0
	var ways []chillWay
	if err == nil {
		ways = p.chillWays(d, food, loads)
	}
	compare := cooling.Compare
	if p.trial {
		compare = cooling.Judge
	}
	options := compare(food, plansOf(ways), rule)
	for i, o := range options {
		show.Options = append(show.Options, p.showOption(ways[i], o, loads))
	}
	show.Chosen = cooling.Recommend(options)
	p.judgeChill(d, show, options, err)
	p.out.Chill = append(p.out.Chill, show)
	if show.Chosen < 0 {
		return nil
	}
	return stagesOf(ways[show.Chosen], options[show.Chosen])
}

// hotFood is one load of something hot.
func (p *planner) hotFood(d *cooked, out massflow.OutFlow, fromC, kg float64) (cooling.Food, error) {
	c := contentsOf(d, out, kg)
	x, err := composition(c.fractions)
	if err != nil {
		return cooling.Food{}, err
	}
	props, err := x.FreezingFood(p.freezingPointC(c), (fromC+target41.C())/2)
	if err != nil {
		return cooling.Food{}, err
	}
	return cooling.Food{MassKg: kg, Props: props, StartC: fromC, AddedWaterKg: min(p.tapWaterKg(c), maxAdded(kg, props))}, nil
}

// tapWaterKg is how much of what was put in came from the tap and is still there.
func (p *planner) tapWaterKg(c contents) float64 {
	kg := 0.0
	for id, in := range c.putIn {
		if p.book.Ingredients[id].Free {
			kg += in
		}
	}
	return min(kg, c.kg*c.fractions[massflow.Water])
}

// maxAdded is the water that stores as much heat as the whole load: evaporation may have left less than was put in.
func maxAdded(kg float64, props heat.FreezingFood) float64 {
	return 0.99 * kg * min(1, props.UnfrozenHeatJKgK/vessel.WaterHeatJKgK)
}

// stagesOf is the chosen way as the timetable needs it. Stages that were not needed are left out.
func stagesOf(w chillWay, o cooling.Option) []chilledStage {
	var stages []chilledStage
	for i, s := range o.Stages {
		if s.Formula == cooling.NotComputed {
			continue
		}
		stage := w.stages[i]
		stage.vessels, stage.timeS = s.Need, s.TimeS
		stage.set *= unit.Span(max(1, s.Need))
		stages = append(stages, stage)
	}
	return stages
}
