package plan

import (
	"errors"
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
)

// Temperatures at which ingredients come to the table when the book says no more than where they are kept (common practice).
const (
	chilledC = 4
	frozenC  = -18
)

// outC is the temperature of what step i gives: as the book says, or that of the mixture.
func (p *planner) outC(d *cooked, i int) float64 {
	s := d.dish.Steps[i]
	switch {
	case s.ReadyAt != nil:
		return s.ReadyAt.C()
	case s.HeatTo != nil:
		return s.HeatTo.C()
	default:
		return p.mixC(d, i)
	}
}

// mixC is the temperature of what goes into step i, before it is heated: the mean by mass, which leaves out that watery things carry
// more heat than fat. Frozen things are left out of the mean, their melting too: a plan that heats them is short by that.
func (p *planner) mixC(d *cooked, i int) float64 {
	sum, kg := 0.0, 0.0
	add := func(c, m float64) { sum, kg = sum+c*m, kg+m }
	for k, u := range d.graph.Steps[i].Uses {
		in := d.flow.Steps[i].In[k]
		if u.Ingredient < 0 {
			add(p.outC(d, u.From.Step), in.Kg-in.StandInKg)
		} else {
			add(p.storedC(d.ingredients[u.Ingredient]), in.Kg)
		}
	}
	if kg == 0 {
		return p.air.C()
	}
	return sum / kg
}

func (p *planner) storedC(id kitchen.IngredientID) float64 {
	switch p.book.Ingredients[id].Storage {
	case "chilled":
		return chilledC
	case "frozen":
		return frozenC
	default:
		return p.air.C()
	}
}

// composition is a mixture for the heat formulas: what analyses leave over is shared out.
func composition(f massflow.Fractions) (heat.Composition, error) {
	sum := 0.0
	for c, x := range f {
		if massflow.Component(c) != massflow.Other {
			sum += x
		}
	}
	if sum <= 0 {
		return heat.Composition{}, errors.New("nothing is known of what it is made of")
	}
	return heat.Composition{Water: f[massflow.Water] / sum, Protein: f[massflow.Protein] / sum, Fat: f[massflow.Fat] / sum, Carb: max(0, f[massflow.Carbohydrate]/sum),
		Fibre: f[massflow.Fibre] / sum, Ash: f[massflow.Ash] / sum, Alcohol: f[massflow.Alcohol] / sum}.Normalise()
}

// properties is a mixture's density, heat and conductivity while not frozen.
func properties(f massflow.Fractions, atC float64) (heat.Properties, error) {
	c, err := composition(f)
	if err != nil {
		return heat.Properties{}, err
	}
	return c.At(atC)
}

// heatUpS is how long one load of step i takes to its temperature, in seconds.
func (p *planner) heatUpS(d *cooked, i int) float64 {
	s, f := d.dish.Steps[i], d.flow.Steps[i]
	if s.HeatTo == nil || f.InKg <= 0 {
		return 0
	}
	from, to := p.mixC(d, i), s.HeatTo.C()
	if from >= to-0.5 {
		return 0
	}
	seconds, err := p.heatLoad(d, i, from, min(to, 100))
	if err == nil {
		return seconds
	}
	found := finding.Finding{Code: CodeHeatUp, Severity: finding.Caution, Where: d.where + ", step " + s.ID, Path: fmt.Sprintf("dishes.%s.steps[%d]", d.id, i),
		Message: "the time to heat it is not known and counts as nothing: " + err.Error(), Fix: "give the vessel power, or a burner that it needs, with power and efficiency"}
	var never *heat.NeverError
	if errors.As(err, &never) {
		found.Code, found.Severity = CodeNeverHot, finding.Stop
		found.Message = fmt.Sprintf("the burner cannot bring it to %s: it ends at %.0f °C", s.HeatTo.Show(p.out.Units), never.LimitC)
		found.Fix = "use a stronger burner, a lid, or smaller loads"
	}
	p.find(found)
	return 0
}

// wallWM2K is the loss from the outside of a hot pot to still air, radiation included: 11.4 W/(m²·K), Engineering Toolbox, as read.
const wallWM2K = 11.4

func (p *planner) heatLoad(d *cooked, i int, from, to float64) (float64, error) {
	id := d.vesselOf(d.headOf(i))
	power, err := p.heater(id)
	if err != nil {
		return 0, err
	}
	f := d.flow.Steps[i]
	x, err := properties(fractionsOf(f.Mixture), min(max(from, 0), 100))
	if err != nil {
		return 0, err
	}
	area := 0.0
	if dia := p.book.Equipment[id].Diameter.M(); dia > 0 {
		area = 4*f.Split.EachL/1000/dia + 2*circle(p.book.Equipment[id].Diameter)
	}
	v := heat.Vessel{HeatCapacityJK: f.Split.EachKg * x.SpecificHeatJKgK, LossWK: area * wallWM2K}
	return v.HeatUpTimeS(power, from, p.air.C(), to)
}

func (d *cooked) headOf(i int) int {
	for range d.graph.Steps {
		if d.graph.Steps[i].After < 0 {
			break
		}
		i = d.graph.Steps[i].After
	}
	return i
}

// heater is what heats a vessel: its own element, or the burner it stands on.
func (p *planner) heater(id kitchen.EquipmentID) (heat.Heater, error) {
	e, ok := p.book.Equipment[id]
	if !ok {
		return heat.Heater{}, errors.New("it is heated in nothing")
	}
	if e.Power > 0 {
		return heat.Heater{RatedW: e.Power.W(), Efficiency: efficiency(e)}, nil
	}
	for _, n := range e.Needs {
		if b := p.book.Equipment[n]; b.Power > 0 {
			return heat.Heater{RatedW: b.Power.W(), Efficiency: efficiency(b)}, nil
		}
	}
	return heat.Heater{}, fmt.Errorf("neither %s nor what it stands on has power", e.Name)
}

// efficiency is the share of power that reaches the food, 40 % when the book does not say: the US Department of Energy's figure for
// gas, as quoted on trade pages.
func efficiency(e kitchen.Equipment) float64 {
	if e.Efficiency == 0 {
		return 0.40
	}
	return e.Efficiency.F()
}

// fractionsOf is a stream's composition per kilogram.
func fractionsOf(s massflow.Stream) massflow.Fractions {
	f := s.Composition()
	kg := s.Kg()
	if kg <= 0 {
		return massflow.Fractions{}
	}
	for c := range f {
		f[c] /= kg
	}
	return f
}
