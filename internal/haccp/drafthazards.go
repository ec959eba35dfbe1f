package haccp

import (
	"fmt"
	"slices"
	"strings"
)

// ingredients are the hazards that come through the door: those of a class told once for all of it, and so is each allergen.
func (d *drafter) ingredients() {
	var classes []Class
	of := map[Class][]Ingredient{}
	for _, g := range d.p.Ingredients {
		if _, there := of[g.Class]; !there {
			classes = append(classes, g.Class)
		}
		of[g.Class] = append(of[g.Class], g)
		d.classOf(g)
		if !g.AllergensKnown {
			d.open(Open{AllergensOpen, true, "ingredient " + g.Name, "nobody has said which allergens are in it", "read its label, and write them down, or that there are none"})
		}
	}
	for _, class := range classes {
		for _, c := range carried[class] {
			h := c.Hazard
			h.Step, h.Why = Receiving, called(of[class])+": "+h.Why
			if c.cooks {
				for _, g := range of[class] {
					h.cooks = append(h.cooks, g.ID)
				}
			}
			d.hazard(string(class)+"/"+c.name, h)
		}
	}
	for _, name := range d.p.allergens() {
		var with []Ingredient
		for _, g := range d.p.Ingredients {
			if slices.Contains(g.Allergens, name) {
				with = append(with, g)
			}
		}
		d.hazard(name+"/allergen", Hazard{Step: Receiving, Kind: Chemical, What: "allergen: " + name, Why: called(with), Significant: true, Control: "stands on the label; kept apart from dishes without it", later: LabellingStage})
	}
	d.hazard("growth", Hazard{Step: Storing, Kind: Biological, What: "growth in cold goods", Why: "they are kept for days", Control: "41 °F or colder, the oldest first, dated", Programme: "Cold stores"})
}

// allergens are those of all ingredients, in the order of the alphabet.
func (p Product) allergens() []string {
	var names []string
	for _, g := range p.Ingredients {
		for _, a := range g.Allergens {
			if !slices.Contains(names, a) {
				names = append(names, a)
			}
		}
	}
	slices.Sort(names)
	return names
}

func called(all []Ingredient) string {
	names := make([]string, len(all))
	for i, g := range all {
		names[i] = g.called()
	}
	return strings.Join(names, ", ")
}

// called is an ingredient with what it stands in for.
func (g Ingredient) called() string {
	if g.StandsIn != "" {
		return g.Name + " (may stand in for " + g.StandsIn + ")"
	}
	return g.Name
}

// classOf asks for the class of an ingredient where nobody has said it. A guess is drafted with, and told: of animal food it stops.
func (d *drafter) classOf(g Ingredient) {
	const fix = "write its class into the book: intact-meat, ground-meat, poultry, fish, eggs, cooked-meat, dairy, produce, beans, starch, dry or water"
	switch {
	case g.Class == Unknown || g.Class == "":
		d.open(Open{ClassUnknown, true, "ingredient " + g.Name, "nobody has said what it is, so its hazards are not known", fix})
	case g.Guess != "":
		d.open(Open{ClassGuessed, g.Class.Animal(), "ingredient " + g.Name, fmt.Sprintf("nobody has said what it is; the plan is drafted as if it were %s, because %s", g.Class, g.Guess), fix})
	}
}

// heat finds where raw ingredients are cooked far enough. Each must be heated by its own limit somewhere on its way.
func (d *drafter) heat() {
	limits, who := map[string]Limit{}, map[string][]string{} // of the step that does it
	for _, g := range d.p.Ingredients {
		limit, raw := d.p.cooking(g.Class)
		if !raw {
			continue
		}
		steps, everywhere := d.cookedIn(g.ID, limit)
		if !everywhere {
			d.open(notCooked(g, limit))
		}
		d.cooked[g.ID] = steps
		for _, step := range steps {
			who[step] = append(who[step], g.Name)
			if have, ok := limits[step]; ok {
				limit = stricter(have, limit)
			}
			limits[step] = limit
		}
	}
	for _, s := range d.p.Steps {
		limit, ok := limits[s.ID]
		if !ok {
			continue
		}
		d.point(cookingPoint(s, limit, who[s.ID]))
		d.hazard("survival", Hazard{Step: s.ID, Kind: Biological, What: "survival of what was raw", Why: "raw goes in: " + strings.Join(who[s.ID], ", "), Significant: true, Control: "heated through: " + limit.Text, later: CookingStage})
		if s.HeatSaid != "" {
			d.open(Open{HeatGuessed, false, "step " + s.ID, "it has no temperature to heat to; " + s.HeatSaid + " was taken as what its coldest place reaches", "write heat-to, and measure the middle of the largest piece"})
		}
	}
	d.afterHeat()
}

// notCooked stops a dish whose limit was read in a published text, and asks about one from memory.
func notCooked(g Ingredient, limit Limit) Open {
	if g.Class == Beans {
		return Open{BeansNotBoiled, limit.Gate(), "ingredient " + g.Name, "no step is written that boils them by what is said of raw beans: " + limit.Text + " (from memory: confirm with the authority)", "boil them so, or write down why these need it not, such as lentils"}
	}
	return Open{RawNotCooked, limit.Gate(), "ingredient " + g.Name, fmt.Sprintf("on some way that it takes no step is written to bring all of it to %s", limit.Text), "write heat-to and time into the step that cooks it, or do not use it raw"}
}

// cookedIn are the steps that heat an ingredient by its limit, and whether all of it goes through one of them.
func (d *drafter) cookedIn(ingredient string, limit Limit) (steps []string, everywhere bool) {
	kills := func(s Step) bool { return s.meets(limit) }
	for _, s := range d.p.Steps {
		if d.p.still(ingredient, kills)[s.ID] && kills(s) {
			steps = append(steps, s.ID)
		}
	}
	return steps, d.p.everywhere(ingredient, kills)
}

// everywhere says whether all of an ingredient goes through some step that kills.
func (p Product) everywhere(ingredient string, kills func(Step) bool) bool {
	still, taken := p.still(ingredient, kills), map[string]bool{}
	for _, s := range p.Steps {
		for _, from := range s.From {
			taken[from] = true
		}
	}
	return !slices.ContainsFunc(p.Steps, func(s Step) bool { return still[s.ID] && !kills(s) && !taken[s.ID] })
}

// unwatched stops a plan in which people took out points so that some raw ingredient is heated far enough, and nobody watches it.
func (d *drafter) unwatched() {
	for _, g := range d.p.Ingredients {
		limit, raw := d.p.cooking(g.Class)
		watched := func(s Step) bool { return s.meets(limit) && d.plan.pointAt(s.ID+"/"+string(CookingStage)) >= 0 }
		if raw && d.p.everywhere(g.ID, func(s Step) bool { return s.meets(limit) }) && !d.p.everywhere(g.ID, watched) {
			d.open(Open{HazardNoPoint, limit.Gate(), "ingredient " + g.Name, "on some way that it takes the control point of its cooking was taken out", "keep a control point where all of it is cooked"})
		}
	}
}

// afterHeat finds what is added and never heated again.
func (d *drafter) afterHeat() {
	again := d.p.limit("fda-3-403.11-a")
	hotC, _, _ := again.Hot()
	heated := map[string]bool{} // by a later step
	for i := len(d.p.Steps) - 1; i >= 0; i-- {
		s := d.p.Steps[i]
		hot := heated[s.ID] || s.HeatToC != nil && *s.HeatToC >= hotC-1e-9
		for _, from := range s.From {
			heated[from] = heated[from] || hot
		}
		if hot {
			continue
		}
		for _, id := range s.Uses {
			g := d.ingredient(id)
			if g.Class == Dairy || g.Class == Cooked || g.Class == Produce {
				d.hazard(g.ID+"/added", Hazard{Step: s.ID, Kind: Biological, What: "Listeria", Why: g.called() + " is added and nothing after it is written to reach 165 °F", Significant: true, Control: "goods that are ready to eat from a supplier with a certificate; clean hands and tools; the customer heats it to 165 °F", Programme: "Suppliers and the door"})
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
	d.hazard("spores", Hazard{Step: Cooling, Kind: Biological, What: what, Why: "it cools through the temperatures in which they grow", Significant: true, Control: d.p.Cooling.Text, later: CoolingStage})
	d.point(coolingPoint(d.p.Cooling))
}

func (d *drafter) machines() {
	for _, s := range d.p.Steps {
		if s.Blend {
			d.hazard("blades", Hazard{Step: s.ID, Kind: Physical, What: "metal or plastic of the blender", Why: "blades and seals wear", Control: "blade and seal looked at before and after each use", Programme: "Tools"})
		}
		if !s.Cut {
			continue
		}
		d.hazard("pieces", Hazard{Step: s.ID, Kind: Physical, What: "bone, shell, stones, pieces of tools", Why: "it is worked by hand", Control: "looked through by hand", Programme: "Tools"})
		if raw := d.rawAt(s.ID); len(raw) > 0 {
			d.hazard("spread", Hazard{Step: s.ID, Kind: Biological, What: "what is raw, spread by hands, tables and knives", Why: "raw is worked by hand: " + called(raw), Control: "a table and tools of its own, washed and disinfected before anything else is done there", Programme: "Cleaning"})
		}
	}
}

// rawAt are the raw foods of animals that are still raw as they come to a step.
func (d *drafter) rawAt(step string) (all []Ingredient) {
	for _, g := range d.p.Ingredients {
		limit, _ := d.p.cooking(g.Class)
		if g.Class.Animal() && d.p.still(g.ID, func(s Step) bool { return s.meets(limit) })[step] {
			all = append(all, g)
		}
	}
	return all
}

// still says at which steps an ingredient arrives without having gone through one that kills.
func (p Product) still(ingredient string, kills func(Step) bool) map[string]bool {
	at, leaves := map[string]bool{}, map[string]bool{}
	for _, s := range p.Steps {
		here := slices.Contains(s.Uses, ingredient)
		for _, from := range s.From {
			here = here || leaves[from]
		}
		at[s.ID], leaves[s.ID] = here, here && !kills(s)
	}
	return at
}
