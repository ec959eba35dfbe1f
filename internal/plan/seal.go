package plan

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

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
		Goals: []string{"open orders", "what the freezer should never fall below", "what brings the most", "the least left over"}, Outputs: []SealOutput{}, Packs: []SealPack{}, Uses: []SealUse{}, Rejected: []string{}, Proof: "optimal"}
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

// sealTable is one dish at the table. Bags and labels that are counted are supplies.
type sealTable struct {
	dish    *cooked
	packs   []kitchen.PackID
	outputs []SealOutput
	problem fill.Problem
	targets map[kitchen.PackID][]SealPart
}

func (p *planner) sealTable(d *cooked, weighed []kitchen.Weighed) sealTable {
	t := sealTable{dish: d, packs: p.packsOf(d.id), targets: map[kitchen.PackID][]SealPart{}}
	t.problem.Soften = true // what there is decides; a limit that cannot be met is found
	for _, id := range p.book.PackedOf(d.id) {
		o := p.sealOutput(d, id, weighed)
		t.outputs = append(t.outputs, o)
		t.problem.Stock = append(t.problem.Stock, o.There)
		t.problem.PieceMass = append(t.problem.PieceMass, p.output(d, id).Piece)
	}
	for _, id := range t.packs {
		t.targets[id] = p.sealParts(d, id)
		pack := p.book.Packs[id]
		bag := p.book.Bags[pack.Bag]
		t.problem.Packs = append(t.problem.Packs, fill.Pack{Name: pack.Name, Needs: t.needs(id), Uses: append(t.supply(bag.Name, bag.Stock), t.supply("labels of "+pack.Name, pack.Labels)...), Value: int64(p.worth(id)), Min: p.req.AtLeast[id], Max: p.atMost(id),
			Ordered: max(0, p.req.Orders[id]-pack.Frozen), Keep: max(0, pack.Keep-max(0, pack.Frozen-p.req.Orders[id]))})
	}
	return t
}

// atMost is how many of a pack may be filled; below 0 is as many as there are.
func (p *planner) atMost(id kitchen.PackID) int {
	if most, limited := p.req.AtMost[id]; limited {
		return most
	}
	return -1
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
func (t *sealTable) supply(name string, stock int) []fill.Use {
	if stock == 0 {
		return nil
	}
	at := slices.IndexFunc(t.problem.Supplies, func(s fill.Supply) bool { return s.Name == name })
	if at < 0 {
		at, t.problem.Supplies = len(t.problem.Supplies), append(t.problem.Supplies, fill.Supply{Name: name, Have: stock})
	}
	return []fill.Use{{Supply: at, Pieces: 1}}
}

// sealParts is what goes into a pack.
func (p *planner) sealParts(d *cooked, id kitchen.PackID) []SealPart {
	var parts []SealPart
	for i, f := range p.filled(id) {
		label := p.fillMass(d, p.book.Packs[id].Fill[i])
		parts = append(parts, SealPart{Output: string(f.Of), Name: p.outLine(d, f.Of, 0).Name, Label: label, Target: p.fillMass(d, f), Pieces: f.Pieces})
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
	if why := p.whyNot(t, answer); why != "" {
		s.Rejected = append(s.Rejected, why)
	}
	for i := range t.outputs {
		o := &t.outputs[i]
		o.Left = answer.Left[i]
		o.Used = o.There - o.Left
		if o.Left <= mass(traceKg) {
			o.Left = 0
		} else {
			o.Becomes = string(p.leftUse(t, *o))
		}
		s.Outputs = append(s.Outputs, *o)
	}
	s.Uses = append(s.Uses, p.sealUses(t, answer)...)
	for i, id := range t.packs {
		x := p.sealPack(t, id, answer, i)
		p.portion(t, &x)
		s.Worth += x.Worth * unit.Money(x.Count)
		s.Packs = append(s.Packs, x)
		p.judgeSeal(x)
	}
}

func (p *planner) sealPack(t sealTable, id kitchen.PackID, answer fill.Plan, at int) SealPack {
	pack := p.book.Packs[id]
	x := SealPack{Pack: string(id), Name: pack.Name, Dish: string(t.dish.id), Ordered: p.req.Orders[id], Frozen: pack.Frozen, Keep: pack.Keep, Worth: p.worth(id), Bag: p.book.Bags[pack.Bag].Name, Each: t.targets[id],
		Stops: p.stops(t, answer.Why.Stops[at]), Count: answer.Count[at]}
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
	x.GivenAt = p.over[id].worth
	return x
}

// stops says what stops one more of a pack.
func (p *planner) stops(t sealTable, stop fill.Stop) string {
	switch {
	case stop.AtMax:
		return "no more of them are wanted"
	case stop.Supply >= 0:
		return "no " + t.problem.Supplies[stop.Supply].Name + " left"
	case stop.Output >= 0:
		return fmt.Sprintf("%s short of %s", stop.Short.Show(p.out.Units), t.outputs[stop.Output].Name)
	}
	return "one more would bring nothing"
}

// whyNot names the best counts that were turned down, and the rule that did it.
func (p *planner) whyNot(t sealTable, answer fill.Plan) string {
	other := answer.Why.Rejected
	if other == nil || answer.Why.Decided < fill.ByValue { // nobody wonders why orders are met
		return ""
	}
	var counts []string
	for i, n := range other.Count {
		counts = append(counts, fmt.Sprintf("%d × %s", n, p.book.Packs[t.packs[i]].Name))
	}
	why := "by the " + answer.Why.Decided.String()
	switch answer.Why.Decided {
	case fill.ByValue:
		why += ": it brings " + unit.Money(other.Worse).Show(p.out.Currency) + " less"
	case fill.ByLeft:
		why += ": it leaves " + unit.Mass(other.Worse).Show(p.out.Units) + " more"
	}
	return "not " + strings.Join(counts, ", ") + ", " + why
}

// judgeSeal finds orders that cannot be met, and a freezer that falls too low.
func (p *planner) judgeSeal(x SealPack) {
	count := func(name string, n int) finding.Figure {
		return finding.Figure{Name: name, Value: float64(n), Unit: "packs", Text: fmt.Sprint(n)}
	}
	if x.Short > 0 {
		p.find(finding.Finding{Code: CodeOrderShort, Severity: finding.Stop, Where: "pack " + x.Pack, Message: fmt.Sprintf("%d of %d that are ordered cannot be filled: %s", x.Short, x.Ordered, x.Stops),
			Figures: []finding.Figure{count("ordered", x.Ordered), count("in the freezer", x.Frozen), count("to fill", x.Count), count("short", x.Short)}, Fix: "tell the customers now, or offer them another pack"})
	}
	if least := p.req.AtLeast[kitchen.PackID(x.Pack)]; x.Count < least {
		p.find(finding.Finding{Code: CodeFewerPacks, Severity: finding.Caution, Where: "pack " + x.Pack, Path: "at-least." + x.Pack, Message: fmt.Sprintf("%d are filled, and at least %d are wanted: %s", x.Count, least, x.Stops),
			Figures: []finding.Figure{count("to fill", x.Count), count("wanted at least", least)}, Fix: "cook more of it, or ask for fewer"})
	}
	if x.Short == 0 && x.After < x.Keep {
		p.find(finding.Finding{Code: CodeFreezerLow, Severity: finding.Note, Where: "pack " + x.Pack, Message: fmt.Sprintf("%d will be in the freezer, and it should never be fewer than %d", x.After, x.Keep),
			Figures: []finding.Figure{count("in the freezer", x.After), count("to keep", x.Keep)}, Fix: "cook it again soon"})
	}
}
