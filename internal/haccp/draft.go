package haccp

import (
	"slices"
	"strings"
)

// Boxes of the flow beside the dish's own steps.
const (
	Receiving = "receiving"
	Storing   = "storing"
	Cooling   = "cooling"
	Packing   = "packing"
	Freezing  = "freezing"
	Labelling = "labelling"
	Selling   = "storing and selling"
)

// Draft drafts the plan of a product. Errors are *ProductError.
func Draft(p Product) (Plan, error) {
	plan, _, err := With(p, nil)
	return plan, err
}

// drafted is the draft before points are numbered. Errors are *ProductError.
func drafted(p Product) (drafter, error) {
	if err := p.check(); err != nil {
		return drafter{}, err
	}
	if p.Cooling.Text == "" {
		p.Cooling = foodCodeCooling()
	}
	d := drafter{p: p, cooked: map[string][]string{}, plan: Plan{Product: p.Name, Packed: p.Packed, Draft: draftWords, Programmes: programmes(p), Training: training(p), Cautions: cautions(p)}}
	d.described()
	d.flow()
	d.ingredients()
	d.heat()
	d.cooling()
	d.machines()
	d.packing()
	d.label()
	d.cold()
	d.plan.Basis = basis(p, d.plan.Points)
	return d, nil
}

// drafter makes one plan.
type drafter struct {
	p      Product
	plan   Plan
	cooked map[string][]string // steps that cook an ingredient
}

func (d *drafter) hazard(name string, h Hazard) {
	h.Key = h.Step + "/" + name
	d.plan.Hazards = append(d.plan.Hazards, h)
}
func (d *drafter) open(o Open)   { d.plan.Open = append(d.plan.Open, o) }
func (d *drafter) point(p Point) { d.plan.Points = append(d.plan.Points, p) }

// described is what kind of food it is and for whom (Codex's steps before the seven principles).
func (d *drafter) described() {
	how := []string{"not cooked"}
	if d.p.hot() {
		how = []string{"cooked and cooled"}
	}
	if d.p.Vacuum {
		how = append(how, "packed under reduced oxygen")
	}
	use := "To be kept cold and eaten by everybody, the young, the old and the sick among them."
	if d.p.Frozen {
		how = append(how, "frozen")
		use = "To be kept frozen, and heated to 165 °F by the customer; for everybody, the young, the old and the sick among them."
	}
	d.plan.Category, d.plan.Intended = strings.Join(how, ", "), use
}

// flow is receiving and storing, the dish's steps, and what comes after them.
func (d *drafter) flow() {
	add := func(f FlowStep) { d.plan.Flow = append(d.plan.Flow, f) }
	add(FlowStep{ID: Receiving, Do: "Receive the ingredients and look at them"})
	add(FlowStep{ID: Storing, Do: "Store them dry, cold or frozen", From: []string{Receiving}})
	used := map[string]bool{}
	for _, s := range d.p.Steps {
		from := slices.Clone(s.From)
		if len(s.Uses) > 0 {
			from = append(from, Storing)
		}
		add(FlowStep{ID: s.ID, Do: s.Do, How: s.How, From: from, In: s.Amounts, Equipment: s.Equipment})
		for _, f := range s.From {
			used[f] = true
		}
	}
	var ends []string
	for _, s := range d.p.Steps {
		if !used[s.ID] {
			ends = append(ends, s.ID)
		}
	}
	last := Cooling
	add(FlowStep{ID: Cooling, Do: "Cool it", From: ends})
	seal := FlowStep{ID: Packing, Do: "Fill, weigh and seal", From: []string{last}}
	if d.p.Vacuum {
		seal.Do += " under vacuum"
	}
	if d.p.Packed != "" {
		seal.In = []string{d.p.Packed}
	}
	add(seal)
	add(FlowStep{ID: Labelling, Do: "Label", From: []string{Packing}})
	last = Labelling
	if d.p.Frozen {
		add(FlowStep{ID: Freezing, Do: "Freeze", From: []string{last}})
		last = Freezing
	}
	add(FlowStep{ID: Selling, Do: "Keep and sell", From: []string{last}})
}
