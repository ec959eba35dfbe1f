package plan

import (
	"context"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
)

// Handled is one step of a dish, or one output being chilled, with the loads in which a run does it: what records of it are kept for.
type Handled struct {
	Kind   TaskKind // Cook or Cool
	Dish   string
	Step   string   // that is done, or that gives what is chilled
	Output string   // that is chilled
	Gives  []string // outputs of a step that is cooked
	Label  string   // what is done, short
	Loads  []string // the task of each, by its key; chilling in stages has more tasks, whose keys begin with this one and a slash
	From   []string // of what is chilled: the task that each load was cooked by
}

// Handles is every heated step and everything that is chilled in a run, without a timetable: it takes a hundredth of what a plan takes, but for
// a run that makes as much as it can.
func Handles(ctx context.Context, book kitchen.Book, foods *foodtable.Table, req kitchen.Request) []Handled {
	p := newPlanner(ctx, book, foods, req)
	if asksForMost(req) {
		p.req = settled(req, asMany(ctx, book, foods, req))
	}
	p.trial = true
	p.cook()
	p.fill()
	var all []Handled
	for _, d := range p.dishes {
		for _, chain := range d.chains() {
			all = append(all, p.heatedIn(d, chain)...)
		}
		for _, id := range p.drawn(d) {
			step := d.outputs[id].Step
			if p.outC(d, step) > target41.C() {
				h := Handled{Kind: Cool, Dish: string(d.id), Step: d.dish.Steps[step].ID, Output: string(id), Label: "Chill the " + p.outLine(d, id, 0).Name}
				h.Loads = loadKeys(string(d.id), string(id)+"-chill", d.loadsOf(step))
				h.From = loadKeys(string(d.id), d.dish.Steps[d.headOf(step)].ID, d.loadsOf(step))
				all = append(all, h)
			}
		}
	}
	return all
}

// heatedIn are the steps of a chain that heat: all of them are one task, called by the first step of the chain.
func (p *planner) heatedIn(d *cooked, chain []int) []Handled {
	var all []Handled
	for _, i := range chain {
		s := d.dish.Steps[i]
		if s.HeatTo == nil {
			continue
		}
		h := Handled{Kind: Cook, Dish: string(d.id), Step: s.ID, Label: s.Do, Loads: loadKeys(string(d.id), d.dish.Steps[chain[0]].ID, d.loadsOf(chain[0]))}
		for _, o := range s.Outputs() {
			h.Gives = append(h.Gives, string(o.ID))
		}
		all = append(all, h)
	}
	return all
}

func (d *cooked) loadsOf(step int) int { return max(1, d.flow.Steps[step].Split.N) }

func loadKeys(of, what string, loads int) []string {
	var keys []string
	for i := range loads {
		keys = append(keys, taskKey(of, what, i))
	}
	return keys
}
