package plan

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/loads"
	"kettlefrost/internal/massflow"
	"kettlefrost/internal/unit"
)

// cooked is one dish on its way through the computation, with the way back from numbers to the book's names.
type cooked struct {
	id          kitchen.DishID
	dish        kitchen.Dish
	where       string
	graph       massflow.Graph
	ingredients []kitchen.IngredientID
	outputs     map[kitchen.OutputID]massflow.Ref
	vessels     [][]kitchen.EquipmentID // of each step, in the order of its massflow vessels
	target      string
	limit       string
	counts      map[kitchen.PackID]int // when packs were asked for
	mix         map[kitchen.PackID]int // when the packs should stand to each other so
	flow        massflow.Flow
	solved      bool
}

// compile turns a dish into a graph of numbers. What is missing is found and replaced by something stated; what cannot be replaced
// is an error.
func (p *planner) compile(id kitchen.DishID) (*cooked, error) {
	d := &cooked{id: id, dish: p.book.Dishes[id], where: "dish " + string(id), outputs: map[kitchen.OutputID]massflow.Ref{}}
	d.graph.DensityKgL = componentDensities()
	for i, s := range d.dish.Steps {
		for o, out := range s.Outputs() {
			d.outputs[out.ID] = massflow.Ref{Step: i, Output: o}
		}
	}
	var errs []error
	for i := range d.dish.Steps {
		step, vessels, err := p.compileStep(d, i)
		if err != nil {
			errs = append(errs, fmt.Errorf("step %s: %w", d.dish.Steps[i].ID, err))
		}
		d.graph.Steps = append(d.graph.Steps, step)
		d.vessels = append(d.vessels, vessels)
	}
	return d, errors.Join(errs...)
}

func (p *planner) compileStep(d *cooked, i int) (massflow.Step, []kitchen.EquipmentID, error) {
	s := d.dish.Steps[i]
	m := massflow.Step{Name: s.ID, MakeUp: -1, After: -1, BulkKgL: float64(s.Bulk), TimeS: s.Time.S(), ReduceTo: s.Loses.ReduceTo.F(),
		WaterLoss: s.Loses.Water.F(), FatLoss: s.Loses.Fat.F(), Drain: s.Loses.Drain.F(), ResidueKg: s.Loses.Residue.Kg()}
	var errs []error
	for _, u := range s.Use {
		use, err := p.compileUse(d, u)
		if err != nil {
			errs = append(errs, err)
		}
		if u.Of != "" && u.Of == s.MakeUp {
			m.MakeUp = len(m.Uses)
		}
		if u.From != "" && s.Stays && m.After < 0 {
			m.After = use.From.Step
		}
		m.Uses = append(m.Uses, use)
	}
	for _, o := range s.Outputs() {
		m.Outputs = append(m.Outputs, massflow.Output{Name: string(o.ID), Main: o.Takes == 0, Takes: o.Takes.F(), Part: parts[o.Part], ByProduct: o.ByProduct})
	}
	head := d.head(i, m.After)
	vessels := d.dish.Steps[head].In
	if pinned := p.pinned(d.id, vessels); pinned != "" {
		vessels = []kitchen.EquipmentID{pinned}
	}
	for _, v := range vessels {
		m.Vessels = append(m.Vessels, p.vessel(s, v))
	}
	rate, err := p.evaporation(d, i)
	m.EvaporationKgM2H = rate
	if d.boils(i) {
		for v := range vessels {
			m.Vessels[v].BoilKgH = p.boilOffKgH(vessels[v])
		}
	}
	return m, vessels, errors.Join(append(errs, err)...)
}

var parts = map[kitchen.Part]massflow.Part{"": massflow.Mixed, kitchen.Mixed: massflow.Mixed, kitchen.Fat: massflow.FromFat, kitchen.Water: massflow.FromWater}

// head is the step whose vessel step i goes on in: the first of a chain of steps that stay.
func (d *cooked) head(i, after int) int {
	for range d.dish.Steps {
		if after < 0 {
			return i
		}
		i, after = after, -1
		if i < len(d.graph.Steps) {
			after = d.graph.Steps[i].After
		}
	}
	return i
}

// pinned is the vessel that the request wants to fill with this dish, if it is among those that would do.
func (p *planner) pinned(dish kitchen.DishID, vessels []kitchen.EquipmentID) kitchen.EquipmentID {
	for _, w := range p.req.Want {
		if w.Dish == dish && w.Vessel != "" && slices.Contains(vessels, w.Vessel) {
			return w.Vessel
		}
	}
	return ""
}

func (p *planner) compileUse(d *cooked, u kitchen.Use) (massflow.Use, error) {
	use := massflow.Use{Ingredient: -1, StandIn: -1}
	if u.Of != "" {
		use.Ingredient = p.ingredient(d, u.Of)
		kg, err := p.weigh(u.Of, u.Amount)
		use.Kg = kg
		return use, err
	}
	ref, ok := d.outputs[u.From]
	if !ok {
		return use, fmt.Errorf("uses %q, which no step gives", u.From)
	}
	use.From = ref
	if u.Or != "" {
		use.StandIn = p.ingredient(d, u.Or)
	}
	if u.Take.Given {
		use.Share = u.Take.Share.F()
		return use, nil
	}
	if u.Amount.Kind != unit.AmountMass {
		return use, fmt.Errorf("takes %s of %s: an output is taken by mass or share", u.Amount.Show(p.out.Units), u.From)
	}
	use.Kg = u.Amount.Mass.Kg()
	return use, nil
}

// ingredient is the index of an ingredient in the dish's graph; it is added at its first use.
func (p *planner) ingredient(d *cooked, id kitchen.IngredientID) int {
	if i := slices.Index(d.ingredients, id); i >= 0 {
		return i
	}
	fractions, known := p.fractions(id)
	if !known {
		p.find(finding.Finding{Code: CodeNoComposition, Severity: finding.Caution, Where: "ingredient " + string(id), Path: "ingredients." + string(id),
			Message: fmt.Sprintf("nothing says what %s is made of: it is counted as something that neither evaporates nor renders, with the density of water", p.book.Ingredients[id].Name),
			Fix:     "give it the number of a food of the composition table (food), or an analysis of its own"})
	}
	d.ingredients = append(d.ingredients, id)
	d.graph.Ingredients = append(d.graph.Ingredients, fractions)
	return len(d.ingredients) - 1
}

// vessel is what one filling of a piece of equipment may hold in a step, and its open surface.
func (p *planner) vessel(s kitchen.Step, id kitchen.EquipmentID) massflow.Vessel {
	e := p.book.Equipment[id]
	area := circle(e.Diameter)
	v := massflow.Vessel{OpenAreaM2: area, Limit: loads.Limit{VolumeL: workingL(e), MassKg: s.Load.AtMost.Kg()}}
	if s.Load.Surface > 0 && area > 0 {
		if bySurface := float64(s.Load.Surface) * area; v.Limit.MassKg == 0 || bySurface < v.Limit.MassKg {
			v.Limit.MassKg = bySurface
		}
	}
	return v
}

// workingL is the volume that may be filled, all of it when the book does not say.
func workingL(e kitchen.Equipment) float64 {
	if e.Working == 0 {
		return e.Volume.L()
	}
	return e.Volume.L() * e.Working.F()
}

func circle(diameter unit.Length) float64 { return math.Pi / 4 * diameter.M() * diameter.M() }
