package plan

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/caution"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/statement"
	"kettlefrost/internal/unit"
)

// label writes what must stand on each pack: the statement from what was put in, the allergens from ingredients and their parts.
func (p *planner) label() {
	for _, f := range p.out.Fill {
		if f.Count > 0 {
			p.labelPack(f)
		}
	}
	p.cautions()
}

func (p *planner) labelPack(f PackFill) {
	pack := p.book.Packs[kitchen.PackID(f.Pack)]
	show := Label{Pack: f.Pack, Name: pack.Identity, Net: f.Net, Cautions: packCautions}
	if show.Name == "" {
		show.Name = pack.Name
	}
	d := p.dishOf(f.Dish)
	show.Inside = d.inside(eachOf(f))
	show.Inside.Net, show.Inside.Filled = f.Net, f.filled()
	c := p.contents(d, f)
	if p.hasFish(c) {
		show.Cautions = append(slices.Clone(packCautions), caution.Of(caution.FishInVacuum).Says)
	}
	s, err := statement.Write(show.Inside.Declared(p.book))
	if err != nil {
		show.Withheld, show.Missing = true, []string{err.Error()}
	} else {
		show.Statement, show.Contains, show.Withheld = s.Ingredients, s.Contains, s.Withheld()
		for _, m := range s.Missing {
			show.Missing = append(show.Missing, m.String())
		}
		for _, t := range s.Close {
			show.NearTies = append(show.NearTies, fmt.Sprintf("%s and %s", t.First, t.Second))
		}
	}
	if show.Withheld {
		p.find(finding.Finding{Code: CodeAllergens, Severity: finding.Stop, Where: "pack " + f.Pack, Message: "its label is withheld: the allergens are not known of " + strings.Join(show.Missing, "; "),
			Source: "21 U.S.C. 343(w): a food that contains a major allergen must say so", Fix: "read the supplier's label and answer allergens for each: none, or their names"})
	}
	p.out.Labels = append(p.out.Labels, show)
}

// eachOf is kilograms of each output in one pack.
func eachOf(f PackFill) map[kitchen.OutputID]float64 {
	each := map[kitchen.OutputID]float64{}
	for _, l := range f.Each {
		each[kitchen.OutputID(l.ID)] += l.Mass.Kg()
	}
	return each
}

// packCautions go with every frozen pack of cooked food.
var packCautions = []string{
	caution.Of(caution.SellingFrozen).Says,
	"Thaw in the refrigerator, never on the counter.",
	"Heat until 165 °F (74 °C) throughout; check with a thermometer in the middle.",
	"Hot steam when opening: cut away from your face.",
}

// Declared is the lines of the ingredient statement: what was put in for a pack, as it is declared. What is less than half a nanogram is not there.
func (in Inside) Declared(book kitchen.Book) []statement.Line {
	var lines []statement.Line
	for _, h := range in.Held {
		if m := mass(h.PutIn); m > 0 {
			lines = append(lines, declare(book.Ingredients[h.Of], m))
		}
	}
	return lines
}

func declare(ing kitchen.Ingredient, m unit.Mass) statement.Line {
	line := statement.Line{Name: cmp.Or(ing.Label, ing.Name), Mass: m, Function: ing.Function, Allergens: ing.Allergens.Names, AllergensKnown: ing.Allergens.Answered}
	for _, sub := range ing.Contains {
		line.Sub = append(line.Sub, statement.Sub{Name: sub.Name, Share: sub.Share, Allergens: sub.Allergens.Names, AllergensKnown: sub.Allergens.Answered})
	}
	return line
}

// cautions are what a person must know who does this run.
func (p *planner) cautions() {
	if len(p.out.Labels) > 0 && p.firstOf(kitchen.Sealer) != "" && p.book.Kitchen.VacuumApproval == "" {
		p.find(finding.Finding{Code: CodeVacuum, Severity: finding.Caution, Where: "sealing", Path: "kitchen.vacuum-approval",
			Message: "cooked food is sealed under vacuum, and the book names no approval: without air Clostridium botulinum can grow where it is not kept cold, and most health codes treat this as a special process",
			Source:  "FDA Food Code 3-502.11 and 3-502.12, as adopted by states; your local code and a licensed professional decide",
			Fix:     "ask the local authority before you sell it; chill before sealing, freeze at once, keep frozen until use, and write the reference of the approval into the book"})
	}
	for _, d := range p.dishes {
		for i := range d.dish.Steps {
			if p.blendsHot(d, i) {
				p.find(finding.Finding{Code: CodeHotBlender, Severity: finding.Caution, Where: d.where + ", step " + d.dish.Steps[i].ID,
					Message: "hot liquid in a blender throws its lid off and scalds", Fix: "fill it half at most, vent the lid under a cloth, start slowly, or let it cool first"})
			}
		}
	}
}
