package plan

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
	"kettlefrost/internal/unit"
)

// cook compiles and solves every dish that the request names.
func (p *planner) cook() {
	for _, id := range p.wanted() {
		d, err := p.compile(id)
		if err == nil {
			err = p.solve(d)
		}
		if err != nil {
			p.notPlanned(d, err)
			continue
		}
		d.solved = true
		p.dishes = append(p.dishes, d)
		p.judgeFlow(d)
	}
}

// wanted is the dishes of the request, each once, in its order.
func (p *planner) wanted() []kitchen.DishID {
	var ids []kitchen.DishID
	for _, w := range p.req.Want {
		id := w.Dish
		if w.Pack != "" {
			id = p.book.Packs[w.Pack].Dish
		}
		if !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	return ids
}

func (p *planner) notPlanned(d *cooked, err error) {
	f := finding.Finding{Code: CodeNotPlanned, Severity: finding.Stop, Where: d.where, Path: "dishes." + string(d.id),
		Message: "cannot be planned: " + err.Error(), Fix: "mend the dish or the request as it says"}
	switch {
	case errors.Is(err, massflow.ErrDiverges), errors.Is(err, massflow.ErrGivesNothing), errors.Is(err, errUnreachable):
		f.Code, f.Message = CodeUnreachable, "the target cannot be reached: "+p.named(d, err)
		f.Fix = "ask for less, or give the step a larger vessel, a shorter time or a lid"
	case errors.Is(err, errMixedTargets):
		f.Code, f.Message, f.Fix = CodeMixedTargets, err.Error(), "ask for packs of it, or for one other measure, in one run"
	}
	p.find(f)
}

// named puts the step's name where the computing package has its number.
func (p *planner) named(d *cooked, err error) string {
	var step *massflow.StepError
	if errors.As(err, &step) {
		return fmt.Sprintf("step %s: %v", d.dish.Steps[step.Step].ID, step.Err)
	}
	return err.Error()
}

var (
	errUnreachable  = errors.New("no scale gives it")
	errMixedTargets = errors.New("a dish is wanted both by packs and by another measure, or by two other measures")
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
		for _, f := range p.book.Packs[w.Pack].Fill {
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

// fillMass is what one pack takes of an output: the mass as given, or its pieces.
func (p *planner) fillMass(d *cooked, f kitchen.Fill) unit.Mass {
	if f.Pieces == 0 {
		return f.Mass
	}
	return unit.Mass(f.Pieces) * p.output(d, f.Of).Piece
}

// output is the noun behind an output's name; the zero Output when no step gives it.
func (p *planner) output(d *cooked, id kitchen.OutputID) kitchen.Output {
	ref, ok := d.outputs[id]
	if !ok {
		return kitchen.Output{}
	}
	return outputsOf(d.dish.Steps[ref.Step])[ref.Output]
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

// showDishes tells the solved flows in the book's words.
func (p *planner) showDishes() {
	for _, d := range p.dishes {
		show := Dish{ID: string(d.id), Name: d.dish.Name, Target: d.target, Limit: d.limit, Steps: []Step{}, Surplus: []Line{}, BoughtIn: []Line{}, Closure: d.flow.ClosureRel}
		for _, i := range d.flow.Order {
			show.Steps = append(show.Steps, p.showStep(d, i))
			show.Lost += mass(d.flow.Steps[i].Lost.Kg())
		}
		for i, kg := range d.flow.Bought {
			show.In += mass(kg)
			if bought := d.standIns(i); bought > 0 {
				show.BoughtIn = append(show.BoughtIn, Line{ID: string(d.ingredients[i]), Name: p.book.Ingredients[d.ingredients[i]].Name, Mass: mass(bought), Kind: Fresh})
			}
		}
		for _, id := range slices.Sorted(maps.Keys(d.outputs)) {
			left := p.leftOver(d, id)
			show.Out += mass(d.flow.Steps[d.outputs[id].Step].Out[d.outputs[id].Output].LeftKg)
			if left > traceKg {
				line := p.outLine(d, id, left)
				show.Surplus = append(show.Surplus, line)
				p.surplus(d, line)
			}
		}
		p.out.Dishes = append(p.out.Dishes, show)
	}
}

// traceKg is what counts as nothing: a tenth of a gram.
const traceKg = 1e-4

// standIns is how much of an ingredient is bought in for by-products.
func (d *cooked) standIns(ingredient int) float64 {
	kg := 0.0
	for i, s := range d.graph.Steps {
		for k, u := range s.Uses {
			if u.StandIn == ingredient {
				kg += d.flow.Steps[i].In[k].StandInKg
			}
		}
	}
	return kg
}

// leftOver is what neither a step nor a pack takes of an output, kilograms.
func (p *planner) leftOver(d *cooked, id kitchen.OutputID) float64 {
	ref := d.outputs[id]
	kg := d.flow.Steps[ref.Step].Out[ref.Output].LeftKg
	for _, f := range p.out.Fill {
		if f.Dish != string(d.id) {
			continue
		}
		for _, e := range f.Each {
			if e.ID == string(id) {
				kg -= e.Mass.Kg() * float64(f.Count)
			}
		}
	}
	return kg
}

func (p *planner) outLine(d *cooked, id kitchen.OutputID, kg float64) Line {
	o := p.output(d, id)
	line := Line{ID: string(id), Name: o.Name, Mass: mass(kg), Kind: Product}
	if o.ByProduct {
		line.Kind = ByProduct
	}
	if line.Name == "" {
		line.Name = string(id)
	}
	if o.Piece > 0 {
		line.Pieces = int(math.Floor(kg/o.Piece.Kg() + 1e-9))
	}
	return line
}
