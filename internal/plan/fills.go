package plan

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/fill"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// spread is how far the mass of an output may come out from plan, either way: common practice, until the kitchen has weighed its own.
const spread = 0.03

// fill decides how many of each pack the masses of each dish give.
func (p *planner) fill() {
	for _, d := range p.dishes {
		p.fillDish(d)
	}
	p.judgeBags()
}

// judgeBags finds bags that run out; packs of several kinds may share them. A stock that the book does not give is not counted.
func (p *planner) judgeBags() {
	need := map[kitchen.BagID]int{}
	for _, f := range p.out.Fill {
		need[p.book.Packs[kitchen.PackID(f.Pack)].Bag] += f.Count
	}
	for _, id := range slices.Sorted(maps.Keys(need)) {
		stock := p.book.Bags[id].Stock
		if stock == 0 || need[id] <= stock {
			continue
		}
		p.find(finding.Finding{Code: CodeBagsShort, Severity: finding.Caution, Where: "bag " + string(id), Path: "bags." + string(id), Message: fmt.Sprintf("%d are needed and %d are in stock", need[id], stock),
			Figures: []finding.Figure{{Name: "needed", Value: float64(need[id]), Unit: "bags", Text: fmt.Sprint(need[id])}, {Name: "in stock", Value: float64(stock), Unit: "bags", Text: fmt.Sprint(stock)}},
			Fix:     "order bags, or fill fewer"})
	}
}

func (p *planner) fillDish(d *cooked) {
	packs := p.packsOf(d.id)
	if d.counts != nil {
		packs = nil
		for _, id := range p.packsOf(d.id) {
			if d.counts[id] > 0 {
				packs = append(packs, id)
			}
		}
	}
	if len(packs) == 0 {
		p.find(finding.Finding{Code: CodeFewerPacks, Severity: finding.Stop, Where: d.where, Message: "no pack of the book is filled from this dish", Fix: "write a pack for it"})
		return
	}
	best, err := p.counts(d, packs, 1)
	if err != nil {
		p.find(finding.Finding{Code: CodeFewerPacks, Severity: finding.Stop, Where: d.where, Message: "the packs cannot be counted: " + err.Error(), Fix: "check what goes into each pack"})
		return
	}
	low, errLow := p.counts(d, packs, 1-spread)
	high, errHigh := p.counts(d, packs, 1+spread)
	if errors.Join(errLow, errHigh) != nil {
		low, high = best, best
	}
	for i, id := range packs {
		p.out.Fill = append(p.out.Fill, p.packFill(d, id, best, i, min(low.Count[i], best.Count[i]), max(high.Count[i], best.Count[i])))
		if want := d.counts[id]; best.Count[i] < want {
			p.find(finding.Finding{Code: CodeFewerPacks, Severity: finding.Caution, Where: "pack " + string(id), Message: fmt.Sprintf("the masses give %d of %d", best.Count[i], want), Fix: "cook more, or ask for fewer"})
		}
	}
}

// counts is the best plan for the packs when every output comes out at factor times its planned mass.
func (p *planner) counts(d *cooked, packs []kitchen.PackID, factor float64) (fill.Plan, error) {
	problem := fill.Problem{}
	index := map[kitchen.OutputID]int{}
	for _, id := range packs {
		for _, f := range p.book.Packs[id].Fill {
			if _, ok := index[f.Of]; ok {
				continue
			}
			index[f.Of] = len(problem.Stock)
			ref := d.outputs[f.Of]
			// A part in 10⁹ over, so that what was cooked for so many packs is not found to be a grain short of them.
			problem.Stock = append(problem.Stock, mass(d.flow.Steps[ref.Step].Out[ref.Output].LeftKg*factor*(1+1e-9)))
			problem.PieceMass = append(problem.PieceMass, p.output(d, f.Of).Piece)
		}
	}
	if len(d.mix) > 0 {
		return p.mixed(d, packs, index, problem)
	}
	for _, id := range packs {
		pack := fill.Pack{Name: string(id), Needs: p.needs(d, id, index), Value: int64(p.worth(id)), Max: -1}
		if d.counts != nil && factor <= 1 {
			pack.Max = d.counts[id]
		}
		problem.Packs = append(problem.Packs, pack)
	}
	return fill.Solve(problem)
}

func (p *planner) needs(d *cooked, id kitchen.PackID, index map[kitchen.OutputID]int) []fill.Need {
	var needs []fill.Need
	for _, f := range p.book.Packs[id].Fill {
		needs = append(needs, fill.Need{Output: index[f.Of], Mass: f.Mass, Pieces: f.Pieces})
	}
	return needs
}

// mixed counts sets of packs that stand to each other as the request says, then tells them apart again.
func (p *planner) mixed(d *cooked, packs []kitchen.PackID, index map[kitchen.OutputID]int, problem fill.Problem) (fill.Plan, error) {
	set := fill.Pack{Name: "one set", Value: 1, Max: -1}
	merged := map[int]fill.Need{}
	for _, id := range packs {
		times := d.mix[id]
		for _, n := range p.needs(d, id, index) {
			m := merged[n.Output]
			m.Output = n.Output
			m.Mass += n.Mass * unit.Mass(times)
			m.Pieces += n.Pieces * times
			merged[n.Output] = m
		}
	}
	for o := range problem.Stock {
		if n := merged[o]; n.Mass > 0 || n.Pieces > 0 {
			set.Needs = append(set.Needs, n)
		}
	}
	problem.Packs = []fill.Pack{set}
	plan, err := fill.Solve(problem)
	if err != nil {
		return plan, err
	}
	sets := plan.Count[0]
	plan.Count = make([]int, len(packs))
	for i, id := range packs {
		plan.Count[i] = sets * d.mix[id]
	}
	return plan, nil
}

// worth is what one pack brings beyond its packaging: by that packs compete for what there is. Without a price every pack counts as
// one currency unit.
func (p *planner) worth(id kitchen.PackID) unit.Money {
	pack := p.book.Packs[id]
	if pack.Price == 0 {
		return unit.MoneyUnit
	}
	return max(unit.MicroMoney, pack.Price-p.book.Bags[pack.Bag].Price-pack.Label)
}

func (p *planner) packFill(d *cooked, id kitchen.PackID, plan fill.Plan, i, low, high int) PackFill {
	pack := p.book.Packs[id]
	show := PackFill{Pack: string(id), Name: pack.Name, Dish: string(d.id), Count: plan.Count[i], Low: low, High: high, Wanted: d.counts[id], Each: []Line{},
		Bag: p.book.Bags[pack.Bag].Name, Proof: "optimal", Time: pack.Pace * unit.Span(plan.Count[i]) / unit.Span(max(1, pack.Crew))}
	if !plan.Proof.Optimal {
		show.Proof = fmt.Sprintf("within %s of the best", unit.Money(plan.Gap()).Show(p.out.Currency))
	}
	for _, f := range pack.Fill {
		line := p.outLine(d, f.Of, p.fillMass(d, f).Kg())
		line.Pieces = f.Pieces
		show.Each = append(show.Each, line)
		show.Net += line.Mass
	}
	return show
}
