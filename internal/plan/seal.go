package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"kettlefrost/internal/fill"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
	"kettlefrost/internal/unit"
)

// Seal decides what to fill from what was weighed; what nobody has weighed counts as planned. Open orders come first, then what the freezer
// should never fall below, then what brings the most, then the least left over. Every pack of a dish that is cooked may be filled, wanted or
// not, as far as bags and labels go.
func (r Run) Seal(weighed []kitchen.Weighed) Sealing {
	p := *r.planner
	p.out.Findings = finding.List{}
	s := Sealing{Schema: SealSchema, Kitchen: r.plan.Kitchen, Note: r.plan.Note, Units: r.plan.Units, Currency: r.plan.Currency, Run: r.plan.Run, Day: r.plan.Day,
		Goals: []string{"open orders", "what the freezer should never fall below", "what brings the most", "the least left over"}, Outputs: []SealOutput{}, Packs: []SealPack{}, Proof: "optimal"}
	for _, d := range p.dishes {
		t := p.sealTable(d, weighed)
		if len(t.packs) == 0 {
			continue
		}
		p.decide(&s, t)
	}
	p.out.Findings.Sort()
	s.Findings = p.out.Findings
	return s
}

// sealTable is one dish at the table: every pack of it in three parts, for orders, for the freezer and beyond, each worth more than all that
// comes after it. Bags and labels are outputs of pieces that weigh next to nothing.
type sealTable struct {
	dish     *cooked
	packs    []kitchen.PackID
	outputs  []SealOutput
	problem  fill.Problem
	supplies []string // names of the outputs beyond the dish's
	targets  map[kitchen.PackID][]SealPart
}

// The parts of a pack.
const (
	forOrders = iota
	forFreezer
	beyond
	sealParts
)

func (p *planner) sealTable(d *cooked, weighed []kitchen.Weighed) sealTable {
	t := sealTable{dish: d, packs: p.packsOf(d.id), targets: map[kitchen.PackID][]SealPart{}}
	for _, id := range p.book.PackedOf(d.id) {
		o := p.sealOutput(d, id, weighed)
		t.outputs = append(t.outputs, o)
		t.problem.Stock = append(t.problem.Stock, o.There)
		t.problem.PieceMass = append(t.problem.PieceMass, p.output(d, id).Piece)
	}
	most := 0
	for _, id := range t.packs {
		t.targets[id] = p.sealParts(d, id)
		most = max(most, t.couldMake(id))
	}
	above := p.worths(t.packs, most)
	for _, id := range t.packs {
		pack := p.book.Packs[id]
		ordered := max(0, p.req.Orders[id]-pack.Frozen)
		keep := max(0, pack.Keep-max(0, pack.Frozen-p.req.Orders[id]))
		needs := t.needs(id)
		needs = append(needs, t.supply(p.book.Bags[pack.Bag].Name, p.book.Bags[pack.Bag].Stock)...)
		needs = append(needs, t.supply("labels of "+pack.Name, pack.Labels)...)
		for part, limit := range [sealParts]int{ordered, keep, -1} {
			t.problem.Packs = append(t.problem.Packs, fill.Pack{Name: pack.Name, Needs: needs, Max: limit, Value: int64(p.worth(id))/cents + above[part]})
		}
	}
	return t
}

// cents is the grain in which worths are compared, so that orders can stand above all of them within a whole number.
const cents = int64(unit.Cent)

// worths is what a pack for an order, for the freezer, and beyond is worth more, in cents: more than everything after it together.
func (p *planner) worths(packs []kitchen.PackID, most int) [sealParts]int64 {
	all := int64(1)
	for _, id := range packs {
		all += int64(p.worth(id)) / cents * int64(most)
	}
	count := int64(most*len(packs) + 1)
	return [sealParts]int64{forOrders: all * count * 2, forFreezer: all, beyond: 0}
}

// couldMake is how many of a pack alone there is enough for.
func (t sealTable) couldMake(id kitchen.PackID) int {
	least := math.MaxInt32
	for _, n := range t.needs(id) {
		each := n.Mass
		if n.Pieces > 0 {
			each = unit.Mass(n.Pieces) * t.problem.PieceMass[n.Output]
		}
		if each > 0 {
			least = min(least, int(t.problem.Stock[n.Output]/each))
		}
	}
	return least
}

func (t sealTable) needs(id kitchen.PackID) []fill.Need {
	var needs []fill.Need
	for _, part := range t.targets[id] {
		n := fill.Need{Output: t.index(part.Output), Mass: part.Target}
		if part.Pieces > 0 {
			n.Mass, n.Pieces = 0, part.Pieces
		}
		needs = append(needs, n)
	}
	return needs
}

func (t sealTable) index(output string) int {
	return slices.IndexFunc(t.outputs, func(o SealOutput) bool { return o.ID == output })
}

// supply is one piece of something of which there are so many; nothing when they are not counted. Packs share it by its name.
func (t *sealTable) supply(name string, stock int) []fill.Need {
	if stock == 0 {
		return nil
	}
	at := slices.Index(t.supplies, name)
	if at < 0 {
		at, t.supplies = len(t.supplies), append(t.supplies, name)
		t.problem.Stock, t.problem.PieceMass = append(t.problem.Stock, unit.Mass(stock)), append(t.problem.PieceMass, 1)
	}
	return []fill.Need{{Output: len(t.outputs) + at, Pieces: 1}}
}

// sealParts is what goes into a pack.
func (p *planner) sealParts(d *cooked, id kitchen.PackID) []SealPart {
	var parts []SealPart
	for _, f := range p.book.Packs[id].Fill {
		m := p.fillMass(d, f)
		parts = append(parts, SealPart{Output: string(f.Of), Name: p.outLine(d, f.Of, 0).Name, Label: m, Target: m, Pieces: f.Pieces})
	}
	return parts
}

// sealOutput is what there is of an output.
func (p *planner) sealOutput(d *cooked, id kitchen.OutputID, weighed []kitchen.Weighed) SealOutput {
	ref := d.outputs[id]
	flow := d.flow.Steps[ref.Step].Out[ref.Output]
	planned := mass(flow.LeftKg * (1 + 1e-9)) // as at the plan's own table
	o := SealOutput{Dish: string(d.id), DishName: d.dish.Name, ID: string(id), Name: p.outLine(d, id, 0).Name, Planned: planned, There: planned}
	litresPerKg := litresPerKg(d, ref)
	piece := p.output(d, id).Piece
	for _, w := range weighed {
		if w.Dish != d.id || w.Output != id {
			continue
		}
		o.Weighed = true
		switch w.Amount.Kind {
		case unit.AmountMass:
			o.There = w.Amount.Mass
		case unit.AmountVolume:
			o.There = mass(w.Amount.Volume.L() / max(litresPerKg, 1e-9))
		case unit.AmountCount:
			if piece > 0 {
				o.There = mass(piece.Kg() * float64(w.Amount.Count) / float64(unit.One))
				break
			}
			o.Weighed = false
			p.find(finding.Finding{Code: CodeNotCounted, Severity: finding.Stop, Where: d.where + ", " + o.Name, Message: "it was counted, but nothing says what a piece of it weighs", Fix: "weigh it, or write piece: at the output in the book"})
		}
	}
	o.Volume = unit.VolumeL(o.There.Kg() * litresPerKg)
	if piece > 0 {
		o.Pieces = int(o.There / piece)
	}
	if o.Weighed {
		p.doubt(d, o)
	}
	return o
}

// litresPerKg is the volume of a kilogram of an output, by its composition.
func litresPerKg(d *cooked, ref massflow.Ref) float64 {
	flow := d.flow.Steps[ref.Step].Out[ref.Output]
	sum := 0.0
	for part, share := range fractionsOf(flow.Stream) {
		if rho := d.graph.DensityKgL[part]; rho > 0 {
			sum += share / rho
		}
	}
	return cmp.Or(sum, 1)
}

// decide asks the engine and tells its answer.
func (p *planner) decide(s *Sealing, t sealTable) {
	answer, err := fill.Solve(t.problem)
	if err != nil {
		p.find(finding.Finding{Code: CodeFewerPacks, Severity: finding.Stop, Where: t.dish.where, Message: "the packs cannot be counted: " + err.Error(), Fix: "check what goes into each pack"})
		return
	}
	if !answer.Proof.Optimal {
		s.Proof = "not proved to be the best"
	}
	for i := range t.outputs {
		o := &t.outputs[i]
		o.Left = answer.Left[i]
		o.Used = o.There - o.Left
		if o.Left <= mass(traceKg) {
			o.Left = 0
		} else {
			o.Becomes = string(cmp.Or(p.output(t.dish, kitchen.OutputID(o.ID)).Left, kitchen.Crew))
		}
		s.Outputs = append(s.Outputs, *o)
	}
	for i, id := range t.packs {
		x := p.sealPack(t, id, answer, i*sealParts)
		s.Worth += x.Worth * unit.Money(x.Count)
		s.Packs = append(s.Packs, x)
		p.judgeSeal(x)
	}
}

func (p *planner) sealPack(t sealTable, id kitchen.PackID, answer fill.Plan, at int) SealPack {
	pack := p.book.Packs[id]
	x := SealPack{Pack: string(id), Name: pack.Name, Dish: string(t.dish.id), Ordered: p.req.Orders[id], Frozen: pack.Frozen, Keep: pack.Keep, Worth: p.worth(id), Bag: p.book.Bags[pack.Bag].Name, Each: t.targets[id],
		Stops: p.stops(t, answer.Why.Stops[at+beyond])}
	for part := range sealParts {
		x.Count += answer.Count[at+part]
	}
	for _, f := range p.out.Fill {
		if f.Pack == string(id) {
			x.Planned = f.Count
		}
	}
	x.After = x.Frozen + x.Count - x.Ordered
	x.Short = max(0, -x.After)
	x.After = max(0, x.After)
	for _, part := range x.Each {
		x.Label, x.Target = x.Label+part.Label, x.Target+part.Target
	}
	x.Given = x.Target - x.Label
	return x
}

// stops says what stops one more of a pack.
func (p *planner) stops(t sealTable, stop fill.Stop) string {
	switch {
	case stop.Output < 0:
		return "one more would bring nothing"
	case stop.Output >= len(t.outputs):
		return "no " + t.supplies[stop.Output-len(t.outputs)] + " left"
	}
	return fmt.Sprintf("%s short of %s", stop.Short.Show(p.out.Units), t.outputs[stop.Output].Name)
}

// judgeSeal finds orders that cannot be met, and a freezer that falls too low.
func (p *planner) judgeSeal(x SealPack) {
	count := func(name string, n int) finding.Figure {
		return finding.Figure{Name: name, Value: float64(n), Unit: "packs", Text: fmt.Sprint(n)}
	}
	if x.Short > 0 {
		p.find(finding.Finding{Code: CodeOrderShort, Severity: finding.Stop, Where: "pack " + x.Pack, Message: fmt.Sprintf("%d of %d that are ordered cannot be filled: %s", x.Short, x.Ordered, x.Stops),
			Figures: []finding.Figure{count("ordered", x.Ordered), count("in the freezer", x.Frozen), count("to fill", x.Count), count("short", x.Short)}, Fix: "tell the customers now, or offer them another pack"})
	} else if x.After < x.Keep {
		p.find(finding.Finding{Code: CodeFreezerLow, Severity: finding.Note, Where: "pack " + x.Pack, Message: fmt.Sprintf("%d will be in the freezer, and it should never be fewer than %d", x.After, x.Keep),
			Figures: []finding.Figure{count("in the freezer", x.After), count("to keep", x.Keep)}, Fix: "cook it again soon"})
	}
}
