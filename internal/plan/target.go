package plan

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
	"kettlefrost/internal/unit"
)

// solve finds the flow that meets what the request wants of a dish.
func (p *planner) solve(d *cooked) error {
	var wants []kitchen.Want
	for _, w := range p.req.Want {
		if w.Dish == d.id || w.Pack != "" && p.book.Packs[w.Pack].Dish == d.id {
			wants = append(wants, w)
		}
	}
	if wants[0].Pack == "" {
		if len(wants) > 1 {
			return errMixedTargets
		}
		return p.solveScale(d, wants[0])
	}
	d.counts = map[kitchen.PackID]int{}
	need := map[massflow.Ref]float64{}
	var told []string
	for _, w := range wants {
		if w.Pack == "" {
			return errMixedTargets
		}
		d.counts[w.Pack] += w.Count
		told = append(told, fmt.Sprintf("%d × %s", w.Count, p.book.Packs[w.Pack].Name))
		for _, f := range p.filled(w.Pack) {
			ref, ok := d.outputs[f.Of]
			if !ok {
				return fmt.Errorf("pack %s is filled with %q, which no step gives", w.Pack, f.Of)
			}
			need[ref] += p.fillMass(d, f).Kg() * float64(w.Count)
		}
	}
	d.target = strings.Join(told, ", ")
	flow, err := massflow.Demand(d.graph, need)
	d.flow = flow
	return err
}

// filled is what goes into a pack, with what it is filled beyond the label.
func (p *planner) filled(id kitchen.PackID) []kitchen.Fill {
	parts, over := p.book.Packs[id].Fill, p.over[id]
	if over.total == 0 {
		return parts
	}
	parts = slices.Clone(parts)
	for i, m := range over.each {
		if m > 0 { // the mass of pieces stays in their number
			parts[i].Mass += m
		}
	}
	return parts
}

// fillMass is what one pack takes of an output: the mass as given, or its pieces.
func (p *planner) fillMass(d *cooked, f kitchen.Fill) unit.Mass {
	if f.Pieces == 0 {
		return f.Mass
	}
	return unit.Mass(f.Pieces) * p.output(d, f.Of).Piece
}

// solveScale cooks the whole dish at the one scale that uses up an ingredient or fills a vessel.
func (p *planner) solveScale(d *cooked, w kitchen.Want) error {
	d.mix = w.Mix
	var measure func(massflow.Flow) float64
	var goal float64
	switch {
	case w.Use != nil:
		kg, err := p.weigh(w.Use.Of, w.Use.Amount)
		if err != nil {
			return err
		}
		goal = kg * (1 - p.book.Ingredients[w.Use.Of].Trim.F())
		i := slices.Index(d.ingredients, w.Use.Of)
		if i < 0 {
			return fmt.Errorf("it does not use %s", w.Use.Of)
		}
		measure = func(f massflow.Flow) float64 { return f.Bought[i] }
		d.target = fmt.Sprintf("use %s of %s", w.Use.Amount.Show(p.out.Units), p.book.Ingredients[w.Use.Of].Name)
	case w.Vessel != "":
		steps := d.stepsIn(w.Vessel)
		if len(steps) == 0 {
			return fmt.Errorf("no step of it can be done in %s", w.Vessel)
		}
		e := p.book.Equipment[w.Vessel]
		goal = workingL(e) * (1 - 1e-10)
		measure = func(f massflow.Flow) float64 {
			l := 0.0
			for _, i := range steps {
				l = max(l, f.Steps[i].VolumeL)
			}
			return l
		}
		d.target = fmt.Sprintf("fill %s once", e.Name)
	default:
		return errors.New("nothing says how much of it: give packs, use, fill-vessel or as-many")
	}
	flow, err := scaleTo(d.graph, goal, measure)
	d.flow = flow
	return err
}

// stepsIn is the steps that are done in one vessel.
func (d *cooked) stepsIn(v kitchen.EquipmentID) []int {
	var steps []int
	for i := range d.vessels {
		if len(d.vessels[i]) == 1 && d.vessels[i][0] == v {
			steps = append(steps, i)
		}
	}
	return steps
}

// scaleTo is the flow at the largest scale at which a measure of it, which grows with the scale, does not pass the goal. The measure may
// jump (one filling more): then the flow just below the jump is it. Steps of false position and of halving take turns, so that the
// bracket closes whatever the measure does.
func scaleTo(g massflow.Graph, goal float64, measure func(massflow.Flow) float64) (massflow.Flow, error) {
	one, err := massflow.Uniform(g, 1)
	if err != nil {
		return one, err
	}
	if !(measure(one) > 0) {
		return one, errUnreachable
	}
	low, high := point{}, point{scale: goal / measure(one)}
	for range 60 {
		if high, err = at(g, high.scale, measure); err != nil {
			return high.flow, err
		}
		if high.is > goal {
			break
		}
		low, high.scale = high, high.scale*max(1+1e-9, goal/high.is)
		if goal-low.is <= 1e-9*goal {
			return low.flow, nil
		}
	}
	for i := 0; i < 200 && high.scale-low.scale > 1e-14*high.scale && goal-low.is > 1e-12*goal; i++ {
		x := (low.scale + high.scale) / 2
		if i%2 == 0 {
			x = low.scale + (high.scale-low.scale)*(goal-low.is)/(high.is-low.is)
		}
		mid, err := at(g, x, measure)
		if err != nil {
			return mid.flow, err
		}
		if mid.is > goal {
			high = mid
		} else {
			low = mid
		}
	}
	if low.scale == 0 {
		return low.flow, errUnreachable
	}
	return low.flow, nil
}

// point is one trial of a scale.
type point struct {
	scale, is float64
	flow      massflow.Flow
}

func at(g massflow.Graph, scale float64, measure func(massflow.Flow) float64) (point, error) {
	f, err := massflow.Uniform(g, scale)
	if err != nil {
		return point{flow: f}, err
	}
	return point{scale, measure(f), f}, nil
}
