package plan

import (
	"context"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
)

// Expected is a run in masses and minutes, before anything is rounded and without a timetable: what records of it are held against.
type Expected struct {
	Dishes []ExpectedDish
	Packs  []ExpectedPack
}

// ExpectedDish is one dish.
type ExpectedDish struct {
	ID    string
	Steps []ExpectedStep // each after those that it draws on
}

// ExpectedStep is one step, all its loads together where nothing else is said.
type ExpectedStep struct {
	ID     string
	Index  int    // in the dish as written
	Head   string // the first of the steps that share its vessel: its tasks are called by that
	Tasks  []string
	Loads  int
	Vessel kitchen.EquipmentID
	OpenM2 float64 // surface of one load; 0 when the vessel has none

	InKg  float64
	In    []ExpectedUse // in the order of the dish
	Out   []ExpectedOut // in the order of the dish
	Lost  massflow.Losses
	Short bool // it cannot lose or give all that it should

	EvaporationKgM2H float64 // by the book or the published table; 0 with the lid on
	BoilKgH          float64 // what its burner boils off each load, where that decides
	HotS             float64 // each load is kept hot for so long, reducing included

	HeatMin, WorkMin, HandsMin int // each load: heating up, after that, and of both with somebody standing by
	EachKg                     float64
}

// ExpectedUse is one thing that goes into a step.
type ExpectedUse struct {
	Of   kitchen.IngredientID // or
	From kitchen.OutputID
	Kg   float64
}

// ExpectedOut is one thing that a step gives.
type ExpectedOut struct {
	ID kitchen.OutputID
	Kg float64
}

// ExpectedPack is the filling of one kind of pack.
type ExpectedPack struct {
	ID    kitchen.PackID
	Count int
	Crew  int
	Tasks []string
}

// Expect is what a run should come to. It takes a hundredth of what a plan takes, but for a run that makes as much as it can.
func Expect(ctx context.Context, book kitchen.Book, foods *foodtable.Table, req kitchen.Request) Expected {
	p := newPlanner(ctx, book, foods, req)
	if asksForMost(req) {
		p.req = settled(req, asMany(ctx, book, foods, req))
	}
	p.trial = true
	p.cook()
	p.fill()
	var e Expected
	for _, d := range p.dishes {
		e.Dishes = append(e.Dishes, p.expectedDish(d))
	}
	for _, f := range p.out.Fill {
		pack := p.book.Packs[kitchen.PackID(f.Pack)]
		x := ExpectedPack{ID: kitchen.PackID(f.Pack), Count: f.Count, Crew: max(1, pack.Crew)}
		if f.Count > 0 {
			x.Tasks = loadKeys(f.Pack, "fill", (wholeMinutes(f.Time.S())+fillBatch-1)/fillBatch)
		}
		e.Packs = append(e.Packs, x)
	}
	return e
}

func (p *planner) expectedDish(d *cooked) ExpectedDish {
	x := ExpectedDish{ID: string(d.id)}
	steps := map[int]ExpectedStep{}
	for _, chain := range d.chains() {
		at := p.chosen(d, chain)
		for k, i := range chain {
			steps[i] = p.expectedStep(d, i, chain[0], at, k)
		}
	}
	for _, i := range d.flow.Order {
		if s, cooked := steps[i]; cooked {
			x.Steps = append(x.Steps, s)
		}
	}
	return x
}

// expectedStep is step i, the k-th of a chain whose first is head.
func (p *planner) expectedStep(d *cooked, i, head int, at setting, k int) ExpectedStep {
	s, f := d.dish.Steps[i], d.flow.Steps[i]
	loads := d.loadsOf(head)
	x := ExpectedStep{ID: s.ID, Index: i, Head: d.dish.Steps[head].ID, Tasks: loadKeys(string(d.id), d.dish.Steps[head].ID, loads), Loads: loads, Vessel: d.vesselOf(i),
		InKg: f.InKg, Lost: f.Lost, Short: len(f.Shortages) > 0, EvaporationKgM2H: d.graph.Steps[i].EvaporationKgM2H, HotS: s.Time.S() + f.ReduceS, EachKg: f.Split.EachKg}
	if v := f.Vessel; v >= 0 && v < len(d.graph.Steps[i].Vessels) {
		x.OpenM2, x.BoilKgH = d.graph.Steps[i].Vessels[v].OpenAreaM2, d.graph.Steps[i].Vessels[v].BoilKgH
	}
	for n, u := range s.Use {
		x.In = append(x.In, ExpectedUse{Of: u.Of, From: u.From, Kg: f.In[n].Kg})
	}
	for n, o := range s.Outputs() {
		x.Out = append(x.Out, ExpectedOut{ID: o.ID, Kg: f.Out[n].Kg})
	}
	heat, work, hands := p.stepMinutes(d, i, at.heatS[k], at.reduceS[k])
	x.HeatMin, x.WorkMin = heat, work
	for _, h := range hands {
		x.HandsMin += h.to - h.from
	}
	return x
}
