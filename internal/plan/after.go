package plan

import (
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/costing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// AfterSchema names the shape of an After's JSON.
const AfterSchema = "kettlefrost.after/1"

// After is why a run cost more or less than what it made should have cost. Above 0 is more.
type After struct {
	Schema     string       `json:"schema"`
	Kitchen    string       `json:"kitchen"`
	Note       string       `json:"note,omitempty"`
	Units      unit.System  `json:"units"`
	Currency   string       `json:"currency"`
	Run        string       `json:"run"`
	Day        string       `json:"day,omitempty"`
	Findings   finding.List `json:"findings"`
	Packs      []AfterPack  `json:"packs"`
	Foods      []AfterFood  `json:"foods"`
	Hands      []AfterHands `json:"hands"`
	Price      unit.Money   `json:"price"`      // ingredients that were dearer
	Mix        unit.Money   `json:"mix"`        // dearer ingredients in place of cheaper ones
	Yield      unit.Money   `json:"yield"`      // more ingredients for what was made
	Rate       unit.Money   `json:"rate"`       // hands that were dearer
	Efficiency unit.Money   `json:"efficiency"` // more time for what was made
	Total      unit.Money   `json:"total"`      // of these five, exactly
}

// AfterPack is how many of a pack there are.
type AfterPack struct {
	Pack    string `json:"pack"`
	Name    string `json:"name"`
	Planned int    `json:"planned"`
	Made    int    `json:"made"`
}

// AfterFood is one ingredient, as purchased.
type AfterFood struct {
	Name     string     `json:"name"`
	Standard unit.Mass  `json:"standard_g"` // for what was made
	Used     unit.Mass  `json:"used_g"`
	Should   unit.Money `json:"should"`
	Cost     unit.Money `json:"cost"`
	Price    unit.Money `json:"price"`
	Usage    unit.Money `json:"usage"` // mix and yield together
	Why      string     `json:"why,omitempty"`
}

// AfterHands is the hands of one dish.
type AfterHands struct {
	Dish       string     `json:"dish"`
	Name       string     `json:"name"`
	Standard   unit.Span  `json:"standard_s"` // for what was made
	Took       unit.Span  `json:"took_s"`
	Should     unit.Money `json:"should"`
	Cost       unit.Money `json:"cost"`
	Rate       unit.Money `json:"rate"`
	Efficiency unit.Money `json:"efficiency"`
}

// After compares what a run really made and used with what it should have used for that: the standard of each dish is scaled to the mass that was
// packed of it. What is not said counts as planned.
func (r Run) After(a kitchen.Actual) After {
	p := *r.planner
	p.out = r.plan
	out := After{Schema: AfterSchema, Kitchen: r.plan.Kitchen, Note: r.plan.Note, Units: r.plan.Units, Currency: r.plan.Currency, Run: r.plan.Run, Day: r.plan.Day, Findings: finding.List{}, Packs: []AfterPack{}, Foods: []AfterFood{}, Hands: []AfterHands{}}
	made := p.packedOf(a, &out)
	run := costing.Run{Planned: 1, Made: 1, Inputs: p.foodsAfter(a, made), Hands: p.handsAfter(a, made)}
	v, err := costing.Compare(run)
	if err != nil {
		out.Findings = append(out.Findings, finding.Finding{Code: CodePriceMissing, Severity: finding.Stop, Where: "what really happened", Message: "it cannot be compared: " + err.Error(), Fix: "check masses, times and prices"})
		return out
	}
	for i, x := range v.Inputs {
		out.Foods = append(out.Foods, AfterFood{Name: x.Name, Standard: run.Inputs[i].Standard.Mass, Used: run.Inputs[i].Actual.Mass, Should: x.Standard, Cost: x.Actual, Price: x.Price.Amount, Usage: x.Usage.Amount, Why: x.Usage.Why})
	}
	for i, x := range v.Hands {
		h := run.Hands[i]
		out.Hands = append(out.Hands, AfterHands{Dish: string(p.dishes[i].id), Name: x.Name, Standard: h.StandardTime, Took: h.ActualTime, Should: x.Standard, Cost: x.Actual, Rate: x.Rate.Amount, Efficiency: x.Efficiency.Amount})
	}
	out.Price, out.Mix, out.Yield, out.Rate, out.Efficiency, out.Total = v.Price, v.Mix, v.Yield, v.Rate, v.Efficiency, v.Total
	for _, why := range v.Untold {
		out.Findings = append(out.Findings, finding.Finding{Code: CodePriceMissing, Severity: finding.Caution, Where: "what really happened", Message: "cannot be told apart: " + why, Fix: "give its price, planned and paid"})
	}
	return out
}

// ratio is what was made of what was planned.
type ratio struct{ made, planned int64 }

func (r ratio) of(n int64) int64 {
	if r.planned == 0 {
		return 0
	}
	return int64(unit.Money(n).Times(r.made, r.planned))
}

// packedOf is, of each dish, the mass that was packed of the mass planned, in grams.
func (p *planner) packedOf(a kitchen.Actual, out *After) []ratio {
	made := make([]ratio, len(p.dishes))
	for i, d := range p.dishes {
		for _, f := range p.out.Fill {
			if f.Dish != string(d.id) {
				continue
			}
			n, said := a.Made[kitchen.PackID(f.Pack)]
			if !said {
				n = f.Count
			}
			made[i].made += int64(f.filled()) / int64(unit.Gram) * int64(n)
			made[i].planned += int64(f.filled()) / int64(unit.Gram) * int64(f.Count)
			out.Packs = append(out.Packs, AfterPack{Pack: f.Pack, Name: f.Name, Planned: f.Count, Made: n})
		}
	}
	for _, id := range slices.Sorted(maps.Keys(a.Made)) {
		if !slices.ContainsFunc(out.Packs, func(x AfterPack) bool { return x.Pack == string(id) }) {
			out.Findings = append(out.Findings, finding.Finding{Code: CodeLeftOut, Severity: finding.Caution, Where: "pack " + string(id), Message: fmt.Sprintf("%d of them were not planned: what they took is not in the standard", a.Made[id]), Fix: "plan the run with them"})
		}
	}
	return made
}

// foodsAfter is each ingredient as purchased, by the standard for what was made and as it was.
func (p *planner) foodsAfter(a kitchen.Actual, made []ratio) []costing.Input {
	standard := map[kitchen.IngredientID]unit.Mass{}
	for i, d := range p.dishes {
		for k, kg := range d.flow.Bought {
			id := d.ingredients[k]
			if ap, err := costing.AtYield(unit.Whole - p.book.Ingredients[id].Trim).APNeeded(mass(kg)); err == nil && ap > 0 {
				standard[id] += unit.Mass(made[i].of(int64(ap)))
			}
		}
	}
	for _, u := range a.Used {
		standard[u.Of] += 0 // what was not planned has a standard of nothing
	}
	var inputs []costing.Input
	for _, id := range slices.Sorted(maps.Keys(standard)) {
		in := costing.Input{Name: p.book.Ingredients[id].Name, Standard: costing.Usage{Mass: standard[id], Price: p.priceOf(id)}}
		in.Actual = in.Standard
		for _, u := range a.Used {
			if kg, err := p.weigh(id, u.Amount); u.Of == id && err == nil {
				in.Actual.Mass = mass(kg)
				if u.Paid > 0 {
					in.Actual.Price = costing.Price{Money: u.Paid, Per: mass(kg)}
				}
			}
		}
		inputs = append(inputs, in)
	}
	return inputs
}

// handsAfter is the hands of each dish, from the first cut to the last seal.
func (p *planner) handsAfter(a kitchen.Actual, made []ratio) []costing.Hands {
	var all []costing.Hands
	for i, d := range p.dishes {
		minutes := 0
		for _, t := range p.day.tasks {
			for _, h := range t.hands {
				if t.dish == d {
					minutes += (h.to - h.from) * h.people
				}
			}
		}
		h := costing.Hands{Name: d.dish.Name, StandardTime: unit.Span(made[i].of(int64(minutes) * int64(unit.Minute))), StandardRate: p.meanWage()}
		h.ActualTime, h.ActualRate = h.StandardTime, h.StandardRate
		for _, x := range a.Hands {
			if x.Dish == d.id {
				h.ActualTime = x.Time
				if x.Wage > 0 {
					h.ActualRate = x.Wage
				}
			}
		}
		all = append(all, h)
	}
	return all
}
