package plan

import (
	"fmt"

	"kettlefrost/internal/cooling"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// Chiller is one way of cooling that a kitchen has, as internal/cooling follows it.
type Chiller struct {
	ID     string
	Name   string
	Method kitchen.Method // of its first stage; empty when ice is stirred into the food where it was cooked
	Stages []ChillerStage
	Plan   cooling.Plan
}

// ChillerStage is one stage of a way.
type ChillerStage struct {
	By   kitchen.ChillingID // empty while ice is stirred in
	Name string
	Set  unit.Span // hands to set up one vessel
}

// Chillers is one load of what a dish gives, as hot as it is, and every way of the kitchen to cool it, those of the book first, in the order of their
// ids: what CoolNow compares, for who follows them otherwise. Beside them there is what can be done with food where it stands: pans half as deep,
// whose id ends in "/half", and a pot that is stirred, in "/stirred". Errors are those of CoolNow.
func Chillers(book kitchen.Book, foods *foodtable.Table, dish kitchen.DishID, output kitchen.OutputID, much unit.Mass, from unit.Temp) (cooling.Food, []Chiller, error) {
	p, d, out, err := coolNow(book, foods, dish, output, much, from)
	if err != nil {
		return cooling.Food{}, nil, err
	}
	food, err := p.hotFood(d, out, from.C(), much.Kg())
	if err != nil {
		return cooling.Food{}, nil, fmt.Errorf("dish %s: %w", dish, err)
	}
	food.Pieces = p.output(d, output).Piece > 0
	var all []Chiller
	for _, w := range p.chillWays(d, food, 1) {
		if w.plan.Stages[0].Way == nil {
			continue // the book is wrong about it, and says so
		}
		c := Chiller{ID: w.id, Name: w.name, Plan: w.plan}
		for _, s := range w.stages {
			set := unit.Span(0)
			if s.by != "" {
				set = book.Chilling[s.by].Set
			}
			c.Stages = append(c.Stages, ChillerStage{s.by, s.name, set})
		}
		if by := c.Stages[0].By; by != "" {
			c.Method = book.Chilling[by].Method
		}
		all = append(all, c)
	}
	for _, c := range all {
		if x, ok := p.whereItStands(c); ok && !(food.Pieces && x.Method != kitchen.ShallowPans) {
			all = append(all, x)
		}
	}
	return food, all, nil
}

// whereItStands is what can be done with food that is being cooled in a way; false for nothing.
func (p *planner) whereItStands(c Chiller) (Chiller, bool) {
	if len(c.Plan.Stages) != 1 {
		return Chiller{}, false
	}
	x := c
	switch way := c.Plan.Stages[0].Way.(type) {
	case cooling.Pans:
		way.DepthM /= 2
		x.ID, x.Name, x.Plan = c.ID+"/half", "half as deep, "+p.atMostDeep(way.DepthM).Show(p.out.Units)+": "+c.Name, cooling.Plan{Stages: []cooling.Stage{{Way: way}}}
		return x, true
	case cooling.PotLeft:
		wall, err := overall(p.film("stirred-thick"), way.Side)
		if err != nil {
			return Chiller{}, false
		}
		pot := cooling.Pot{Work: way.Work, DiameterM: way.DiameterM, FillM3: way.FillM3, Have: way.Have, Wall: wall, Bath: cooling.Bath{TempC: way.AirC, AmbientC: way.AirC}, Top: way.Top, AirC: way.AirC}
		pot.Tend = 1
		x.ID, x.Name, x.Plan = c.ID+"/stirred", "stirred all the time: "+c.Name, cooling.Plan{Stages: []cooling.Stage{{Way: pot}}}
		return x, true
	}
	return Chiller{}, false
}
