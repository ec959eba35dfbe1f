package haccp

import (
	"fmt"
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
	if err := p.check(); err != nil {
		return Plan{}, err
	}
	d := drafter{p: p, plan: Plan{Product: p.Name, Basis: p.basis(), Draft: draftWords, Principle: principles, Before: before, Cautions: cautions(p)}}
	d.flow()
	d.ingredients()
	d.heat()
	d.cooling()
	d.machines()
	d.packing()
	d.label()
	d.cold()
	d.number()
	return d.plan, nil
}

// drafter makes one plan.
type drafter struct {
	p    Product
	plan Plan
}

func (d *drafter) hazard(h Hazard) { d.plan.Hazards = append(d.plan.Hazards, h) }
func (d *drafter) open(o Open)     { d.plan.Open = append(d.plan.Open, o) }

// flow is receiving and storing, the dish's steps, and what comes after them.
func (d *drafter) flow() {
	add := func(id, do string, from ...string) {
		d.plan.Flow = append(d.plan.Flow, FlowStep{ID: id, Do: do, From: from})
	}
	add(Receiving, "Receive the ingredients and look at them")
	add(Storing, "Store them dry, cold or frozen", Receiving)
	used := map[string]bool{}
	for _, s := range d.p.Steps {
		from := slices.Clone(s.From)
		if len(s.Uses) > 0 {
			from = append(from, Storing)
		}
		add(s.ID, s.Do, from...)
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
	add(Cooling, "Cool it", ends...)
	seal := "Fill, weigh and seal"
	if d.p.Vacuum {
		seal += " under vacuum"
	}
	add(Packing, seal, Cooling)
	add(Labelling, "Label", Packing)
	last := Labelling
	if d.p.Frozen {
		add(Freezing, "Freeze", Labelling)
		last = Freezing
	}
	add(Selling, "Keep and sell", last)
}

// ingredients are the hazards that come through the door.
func (d *drafter) ingredients() {
	for _, g := range d.p.Ingredients {
		for _, h := range carried[g.Class] {
			h.Step = Receiving
			h.Why = g.Name + ": " + h.Why
			d.hazard(h)
		}
		if g.Class == Unknown || g.Class == "" {
			d.open(Open{ClassUnknown, true, "ingredient " + g.Name, "nobody has said what it is, so its hazards are not known", "say whether it is raw meat, poultry, fish, eggs, dairy, produce or dry"})
		}
		switch {
		case !g.AllergensKnown:
			d.open(Open{AllergensOpen, true, "ingredient " + g.Name, "nobody has said which allergens are in it", "read its label, and write them down, or that there are none"})
		case len(g.Allergens) > 0:
			d.hazard(Hazard{Step: Receiving, Kind: Chemical, What: "allergen: " + strings.Join(g.Allergens, ", "), Why: g.Name, Significant: true, Control: "stands on the label; kept apart from dishes without it"})
		}
	}
	d.hazard(Hazard{Step: Storing, Kind: Biological, What: "growth in cold goods", Why: "they are kept for days", Significant: false, Control: "41 °F or colder, the oldest first, dated: cold storage programme"})
}

// heat finds where raw ingredients are cooked far enough. Each must be heated by its own limit somewhere on its way.
func (d *drafter) heat() {
	limits := map[string]Limit{} // of the step that does it
	for _, g := range d.p.Ingredients {
		if !g.Class.raw() {
			continue
		}
		limit := cooking[g.Class]
		steps, everywhere := d.cookedIn(g.ID, limit)
		if !everywhere {
			d.open(Open{RawNotCooked, true, "ingredient " + g.Name, fmt.Sprintf("on some way that it takes no step is written to bring all of it to %s", limit.Text), "write heat-to and time into the step that cooks it, or do not use it raw"})
		}
		for _, step := range steps {
			if have, ok := limits[step]; ok {
				limits[step] = stricter(have, limit)
			} else {
				limits[step] = limit
			}
		}
	}
	for _, s := range d.p.Steps {
		if limit, ok := limits[s.ID]; ok {
			d.point(cookingPoint(s, limit))
			d.hazard(Hazard{Step: s.ID, Kind: Biological, What: "survival of Salmonella, Listeria, E. coli and parasites", Why: "raw ingredients go in", Significant: true, Control: "heated through: " + limit.Text})
		}
	}
	d.afterHeat()
}

// cookedIn are the steps that heat an ingredient by its limit, and whether all of it goes through one of them.
func (d *drafter) cookedIn(ingredient string, limit Limit) (steps []string, everywhere bool) {
	raw, taken := map[string]bool{}, map[string]bool{} // of what a step gives
	for _, s := range d.p.Steps {
		here := slices.Contains(s.Uses, ingredient)
		for _, from := range s.From {
			here = here || raw[from]
			taken[from] = true
		}
		if here && s.meets(limit) {
			steps, here = append(steps, s.ID), false
		}
		raw[s.ID] = here
	}
	for step, is := range raw {
		if is && !taken[step] {
			return steps, false
		}
	}
	return steps, true
}

// afterHeat finds what is added and never heated again.
func (d *drafter) afterHeat() {
	heated := map[string]bool{} // by a later step
	for i := len(d.p.Steps) - 1; i >= 0; i-- {
		s := d.p.Steps[i]
		hot := heated[s.ID] || s.HeatToC != nil && *s.HeatToC >= f(165)-1e-9
		for _, from := range s.From {
			heated[from] = heated[from] || hot
		}
		if hot {
			continue
		}
		for _, id := range s.Uses {
			g := d.ingredient(id)
			if g.Class == Dairy || g.Class == Cooked || g.Class == Produce {
				d.hazard(Hazard{Step: s.ID, Kind: Biological, What: "Listeria", Why: g.Name + " is added and nothing after it is written to reach 165 °F", Significant: true, Control: "goods that are ready to eat from a supplier with a certificate; clean hands and tools; the customer heats it to 165 °F"})
				d.open(Open{AddedAfterHeat, false, "step " + s.ID, g.Name + " is added after the last heat", "add it before, or keep to goods that are ready to eat"})
			}
		}
	}
}

func (d *drafter) ingredient(id string) Ingredient {
	i := slices.IndexFunc(d.p.Ingredients, func(g Ingredient) bool { return g.ID == id })
	return d.p.Ingredients[i]
}

// hot says whether anything is cooked at all.
func (p Product) hot() bool {
	return slices.ContainsFunc(p.Steps, func(s Step) bool { return s.HeatToC != nil && *s.HeatToC > f(135) })
}

func (d *drafter) cooling() {
	if !d.p.hot() {
		return
	}
	what := "growth of Clostridium perfringens from spores that no cooking kills"
	if slices.ContainsFunc(d.p.Ingredients, func(g Ingredient) bool { return g.Class == Starch || g.Class == Beans }) {
		what += ", and of Bacillus cereus"
	}
	d.hazard(Hazard{Step: Cooling, Kind: Biological, What: what, Why: "it cools through the temperatures in which they grow", Significant: true, Control: coolingLimit.Text})
	d.point(coolingPoint(d.p))
}

func (d *drafter) machines() {
	for _, s := range d.p.Steps {
		if s.Blend {
			d.hazard(Hazard{Step: s.ID, Kind: Physical, What: "metal or plastic of the blender", Why: "blades and seals wear", Significant: false, Control: "blade and seal looked at before and after each use: tools programme"})
		}
		if s.Cut {
			d.hazard(Hazard{Step: s.ID, Kind: Physical, What: "bone, shell, stones, pieces of tools", Why: "it is cut and sorted", Significant: false, Control: "looked through by hand: sorting programme"})
		}
	}
}

func (d *drafter) packing() {
	if !d.p.Vacuum {
		return
	}
	d.hazard(Hazard{Step: Packing, Kind: Biological, What: "Clostridium botulinum and Listeria, which grow without air and in the cold", Why: "it is sealed under reduced oxygen", Significant: true, Control: "frozen at once and kept so; keep-frozen words on the label"})
	if !d.p.Frozen {
		d.open(Open{NotFrozen, true, "pack", "it is under vacuum and not frozen", "freeze it, or have the authority approve a plan for chilled vacuum packs"})
	}
	if d.p.Approval == "" {
		d.open(Open{NoApproval, false, "pack", "cooked food under vacuum usually needs an approved plan or a variance, and none is written into the book", "ask the authority, and write its reference into the book"})
	}
	if slices.ContainsFunc(d.p.Ingredients, func(g Ingredient) bool { return g.Class == Fish }) {
		d.open(Open{FishInVacuum, false, "label", "fish under vacuum must be taken out of its pack before it thaws (FDA Food Code 3-501.13(E))", "print it on the label: open the pack before thawing"})
	}
}

func (d *drafter) label() {
	var names []string
	for _, g := range d.p.Ingredients {
		for _, a := range g.Allergens {
			if !slices.Contains(names, a) {
				names = append(names, a)
			}
		}
	}
	if len(names) == 0 {
		return
	}
	slices.Sort(names)
	d.hazard(Hazard{Step: Labelling, Kind: Chemical, What: "undeclared allergen: " + strings.Join(names, ", "), Why: "a wrong label goes on, or a supplier changes a recipe", Significant: true, Control: labelLimit.Text})
	d.point(labelPoint(names))
}

func (d *drafter) cold() {
	if d.p.Frozen {
		d.hazard(Hazard{Step: Selling, Kind: Biological, What: "growth when it thaws", Why: "a freezer can fail, and customers thaw packs", Significant: true, Control: keptFrozen.Text})
		d.point(frozenPoint(d.p))
	}
}

func (d *drafter) point(p Point) { d.plan.Points = append(d.plan.Points, p) }

// number puts points in the order of the flow and numbers them, here, in the flow and at the hazards.
func (d *drafter) number() {
	order := map[string]int{}
	for i, s := range d.plan.Flow {
		order[s.ID] = i
	}
	slices.SortStableFunc(d.plan.Points, func(a, b Point) int { return order[a.Step] - order[b.Step] })
	slices.SortStableFunc(d.plan.Hazards, func(a, b Hazard) int { return order[a.Step] - order[b.Step] })
	for i := range d.plan.Points {
		p := &d.plan.Points[i]
		p.Number = fmt.Sprintf("CCP %d", i+1)
		d.plan.Flow[order[p.Step]].Point = p.Number
		for k := range d.plan.Hazards {
			if h := &d.plan.Hazards[k]; h.Step == p.Step && h.Significant {
				h.Point = p.Number
				p.Hazards = append(p.Hazards, h.What)
			}
		}
	}
}
