package plan

import (
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/fill"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// fill decides how many of each pack the masses of each dish give.
func (p *planner) fill() {
	for _, d := range p.dishes {
		p.fillDish(d)
	}
	p.judgeBags()
	p.judgeWeighed()
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
	t := p.tableOf(d)
	if len(t.packs) == 0 {
		p.find(finding.Finding{Code: CodeFewerPacks, Severity: finding.Stop, Where: d.where, Message: "no pack of the book is filled from this dish", Fix: "write a pack for it"})
		return
	}
	var err error
	if t.plan, err = fill.Solve(t.problem); err != nil {
		p.find(finding.Finding{Code: CodeFewerPacks, Severity: finding.Stop, Where: d.where, Message: "the packs cannot be counted: " + err.Error(), Fix: "check what goes into each pack"})
		return
	}
	p.tables = append(p.tables, t)
	for i, n := range t.counts(t.plan) {
		id := t.packs[i]
		p.out.Fill = append(p.out.Fill, p.packFill(d, id, t.plan, n))
		if want := d.counts[id]; n < want {
			p.find(finding.Finding{Code: CodeFewerPacks, Severity: finding.Caution, Where: "pack " + string(id), Message: fmt.Sprintf("the masses give %d of %d", n, want), Fix: "cook more, or ask for fewer"})
		}
	}
}

// table is one dish at the sealing table.
type table struct {
	dish    *cooked
	packs   []kitchen.PackID
	outputs []kitchen.OutputID // as the problem has them
	problem fill.Problem
	sets    []int // how many of each pack are in the one pack of the problem that stands for a set; nil when each stands for itself
	plan    fill.Plan
}

// counts tells the packs of a plan apart.
func (t table) counts(plan fill.Plan) []int {
	if t.sets == nil {
		return plan.Count
	}
	counts := make([]int, len(t.packs))
	for i, times := range t.sets {
		counts[i] = plan.Count[0] * times
	}
	return counts
}

// tableOf is a dish at the sealing table with what its flow gives. Packs that the request does not ask for are not filled.
func (p *planner) tableOf(d *cooked) table {
	t := table{dish: d}
	index := map[kitchen.OutputID]int{}
	for _, id := range p.packsOf(d.id) {
		if d.counts != nil && d.counts[id] <= 0 {
			continue
		}
		t.packs = append(t.packs, id)
		for _, f := range p.book.Packs[id].Fill {
			if _, ok := index[f.Of]; ok {
				continue
			}
			index[f.Of] = len(t.outputs)
			ref := d.outputs[f.Of]
			t.outputs = append(t.outputs, f.Of)
			// A part in 10⁹ over, so that what was cooked for so many packs is not found to be a grain short of them.
			t.problem.Stock = append(t.problem.Stock, mass(d.flow.Steps[ref.Step].Out[ref.Output].LeftKg*(1+1e-9)))
			t.problem.PieceMass = append(t.problem.PieceMass, p.output(d, f.Of).Piece)
		}
	}
	if len(d.mix) > 0 {
		p.asSets(&t, index)
		return t
	}
	for _, id := range t.packs {
		pack := fill.Pack{Name: string(id), Needs: p.needs(id, index), Value: int64(p.worth(id)), Max: -1}
		if d.counts != nil {
			pack.Max = d.counts[id]
		}
		t.problem.Packs = append(t.problem.Packs, pack)
	}
	return t
}

func (p *planner) needs(id kitchen.PackID, index map[kitchen.OutputID]int) []fill.Need {
	var needs []fill.Need
	for _, f := range p.filled(id) {
		needs = append(needs, fill.Need{Output: index[f.Of], Mass: f.Mass, Pieces: f.Pieces})
	}
	return needs
}

// asSets makes one pack of all that stand to each other as the request says.
func (p *planner) asSets(t *table, index map[kitchen.OutputID]int) {
	set := fill.Pack{Name: "one set", Value: 1, Max: -1}
	merged := map[int]fill.Need{}
	for _, id := range t.packs {
		times := t.dish.mix[id]
		t.sets = append(t.sets, times)
		for _, n := range p.needs(id, index) {
			m := merged[n.Output]
			m.Output = n.Output
			m.Mass += n.Mass * unit.Mass(times)
			m.Pieces += n.Pieces * times
			merged[n.Output] = m
		}
	}
	for o := range t.problem.Stock {
		if n := merged[o]; n.Mass > 0 || n.Pieces > 0 {
			set.Needs = append(set.Needs, n)
		}
	}
	t.problem.Packs = []fill.Pack{set}
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

// filled is what is in a pack on average: the label's mass and what is filled beyond it.
func (f PackFill) filled() unit.Mass { return f.Net + f.Over }

func (p *planner) packFill(d *cooked, id kitchen.PackID, plan fill.Plan, n int) PackFill {
	pack := p.book.Packs[id]
	show := PackFill{Pack: string(id), Name: pack.Name, Dish: string(d.id), Count: n, Low: n, High: n, Wanted: d.counts[id], Each: []Line{},
		Bag: p.book.Bags[pack.Bag].Name, Proof: "optimal", Time: pack.Pace * unit.Span(n) / unit.Span(max(1, pack.Crew))}
	if !plan.Proof.Optimal {
		show.Proof = fmt.Sprintf("within %s of the best", unit.Money(plan.Gap()).Show(p.out.Currency))
	}
	for _, f := range p.filled(id) {
		line := p.outLine(d, f.Of, p.fillMass(d, f).Kg())
		line.Pieces = f.Pieces
		show.Each = append(show.Each, line)
		show.Net += line.Mass
	}
	show.Over = p.over[id].total
	show.Net -= show.Over
	return show
}
