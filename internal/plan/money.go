package plan

import (
	"cmp"
	"maps"
	"slices"

	"kettlefrost/internal/costing"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// costJob is the run as the cost sheet has it: every step with what it uses up, what it takes from earlier steps and what comes of it, then the
// chilling of what is packed, then the packs.
type costJob struct {
	p    *planner
	left map[string]unit.Mass // of each output: what nobody has taken yet
	costing.Job
}

func (p *planner) job() costing.Job {
	j := costJob{p: p, left: map[string]unit.Mass{}, Job: costing.Job{Overhead: p.overheadBase()}}
	for _, d := range p.dishes {
		for _, i := range d.flow.Order {
			j.step(d, i)
		}
	}
	for _, c := range p.day.chilled {
		j.chilling(c)
	}
	for _, f := range p.out.Fill {
		j.packs(f)
	}
	return j.Job
}

// outputKey names an output of a dish on the cost sheet; what is chilled goes on under another name.
func outputKey(d *cooked, id kitchen.OutputID) string { return string(d.id) + "/" + string(id) }

const chilledSuffix = " chilled"

// take is so much of an output, or what is left of it when that is less by rounding.
func (j *costJob) take(key string, kg unit.Mass) []costing.Take {
	m := min(kg, j.left[key])
	if m <= 0 {
		return nil
	}
	j.left[key] -= m
	return []costing.Take{{Output: key, Mass: m}}
}

func (j *costJob) give(key string, m unit.Mass) costing.Output {
	j.left[key] = m
	return costing.Output{Product: costing.Product{Name: key, Mass: m}}
}

// step adds a step that is cooked. By-products that nobody takes bear nothing.
func (j *costJob) step(d *cooked, i int) {
	f := d.flow.Steps[i]
	if f.InKg <= 0 {
		return
	}
	s := costing.Step{Dish: string(d.id), Name: d.dish.Steps[i].ID, Charges: j.p.stepCharges(d, i)}
	for k, u := range d.graph.Steps[i].Uses {
		if u.Ingredient < 0 {
			from := d.dish.Steps[u.From.Step].Outputs()[u.From.Output].ID
			s.Takes = append(s.Takes, j.take(outputKey(d, from), mass(f.In[k].Kg-f.In[k].StandInKg))...)
		}
	}
	for o, out := range d.dish.Steps[i].Outputs() {
		flow := f.Out[o]
		unused := out.ByProduct && flow.LeftKg > flow.Kg-traceKg && !slices.Contains(j.p.book.PackedOf(d.id), out.ID)
		if m := mass(flow.Kg); m > 0 && !unused {
			s.Outputs = append(s.Outputs, j.give(outputKey(d, out.ID), m))
		}
	}
	if len(s.Outputs) > 0 {
		j.Steps = append(j.Steps, s)
	}
}

// stepCharges is what a step uses up: ingredients, hands and heat of all its loads.
func (p *planner) stepCharges(d *cooked, i int) (c costing.Charges) {
	for k, u := range d.graph.Steps[i].Uses {
		bought, kg := u.StandIn, d.flow.Steps[i].In[k].StandInKg
		if u.Ingredient >= 0 {
			bought, kg = u.Ingredient, d.flow.Steps[i].In[k].Kg
		}
		if bought >= 0 && kg > 0 {
			c.Components = append(c.Components, p.component(d.ingredients[bought], kg))
		}
	}
	hands, joules := 0, map[kitchen.Fuel]float64{}
	for _, t := range p.day.tasks {
		if t.dish != d || t.kind != Cook {
			continue
		}
		for _, s := range t.segs {
			if s.step == i {
				hands += s.handsOn
				if fuel, j := p.loadEnergyJ(t, s); j > 0 {
					joules[fuel] += j
				}
			}
		}
	}
	c.Labour = p.work("hands on", unit.Span(hands)*unit.Minute)
	for _, fuel := range slices.Sorted(maps.Keys(joules)) {
		c.Energy = append(c.Energy, costing.Heat{Name: cmp.Or(string(fuel), "the burners' energy"), EnergyJ: joules[fuel], Price: p.tariff(fuel)})
	}
	return c
}

func (p *planner) component(id kitchen.IngredientID, kg float64) costing.Component {
	ing := p.book.Ingredients[id]
	return costing.Component{Name: ing.Name, Mass: mass(kg), Yield: costing.AtYield(unit.Whole - ing.Trim), Price: p.priceOf(id)}
}

// work is hands at the crew's mean wage; none when there is nothing to do.
func (p *planner) work(name string, time unit.Span) []costing.Work {
	if time == 0 {
		return nil
	}
	return []costing.Work{{Name: name, Time: time, Rate: p.meanWage()}}
}

// chilling adds the hands that chill an output.
func (j *costJob) chilling(c chilled) {
	hands := 0
	for _, t := range j.p.day.tasks {
		if t.kind == Cool && t.dish == c.dish && t.chills == c.output {
			for _, h := range t.hands {
				hands += (h.to - h.from) * h.people
			}
		}
	}
	key := outputKey(c.dish, c.output)
	takes := j.take(key, j.left[key])
	if len(takes) == 0 {
		return
	}
	j.Steps = append(j.Steps, costing.Step{Dish: string(c.dish.id), Name: string(c.output) + " chilling", Takes: takes, Charges: costing.Charges{Labour: j.p.work("chilling", unit.Span(hands)*unit.Minute)},
		Outputs: []costing.Output{j.give(key+chilledSuffix, takes[0].Mass)}})
}

// packs adds the packs of one kind. They share the washing between dishes by mass with all that is packed.
func (j *costJob) packs(f PackFill) {
	p, pack := j.p, j.p.book.Packs[kitchen.PackID(f.Pack)]
	if f.Count == 0 {
		return
	}
	run := costing.PackRun{Name: f.Pack, Count: f.Count, Waste: pack.Waste}
	bag := p.book.Bags[pack.Bag]
	run.Packaging = []costing.Item{{Name: bag.Name, Count: f.Count, Each: bag.Price}, {Name: "label", Count: f.Count, Each: pack.Label}}
	run.Labour = p.work("filling", pack.Pace*unit.Span(f.Count))
	time, materials := p.washingOf(f)
	run.Cleaning = p.work("washing between dishes", time)
	if materials > 0 {
		run.Supplies = []costing.Item{{Name: "cleaning materials", Count: 1, Each: materials}}
	}
	d := p.dishOf(f.Dish)
	for _, e := range f.Each {
		key := outputKey(d, kitchen.OutputID(e.ID))
		if _, cold := j.left[key+chilledSuffix]; cold {
			key += chilledSuffix
		}
		run.Takes = append(run.Takes, j.take(key, e.Mass*unit.Mass(f.Count))...)
	}
	j.Packs = append(j.Packs, run)
}

// washingOf is a pack kind's part, by mass of all that is packed, of the hands and materials for washing between dishes.
func (p *planner) washingOf(f PackFill) (unit.Span, unit.Money) {
	minutes, washes := 0, 0
	for _, t := range p.day.tasks {
		if t.kind == Washing {
			minutes, washes = minutes+t.length, washes+1
		}
	}
	mine := 0
	parts := make([]int64, len(p.out.Fill))
	for i, other := range p.out.Fill {
		parts[i] = int64(other.filled()) / int64(unit.Gram) * int64(other.Count)
		if other.Pack == f.Pack {
			mine = i
		}
	}
	times, err := unit.Money(int64(minutes) * int64(unit.Minute)).Split(parts...)
	if err != nil {
		return 0, 0 // nothing is packed
	}
	materials, err := (p.book.Kitchen.Cleaning * unit.Money(washes)).Split(parts...)
	if err != nil {
		return 0, 0
	}
	return unit.Span(times[mine]), materials[mine]
}

// overheadBase is the kitchen's overhead on its base.
func (p *planner) overheadBase() costing.Spread {
	switch o := p.book.Kitchen.Overhead; {
	case o.PerHour > 0:
		return costing.Spread{Base: costing.PerHour, Rate: o.PerHour}
	case o.PerKg > 0:
		return costing.Spread{Base: costing.PerKg, Rate: o.PerKg}
	case o.PerPack > 0:
		return costing.Spread{Base: costing.PerPack, Rate: o.PerPack}
	case o.OfPrime > 0:
		return costing.Spread{Base: costing.OfPrime, Share: o.OfPrime}
	}
	return costing.Spread{}
}
