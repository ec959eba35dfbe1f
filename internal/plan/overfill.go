package plan

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"kettlefrost/internal/costing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
	"kettlefrost/internal/netcontents"
	"kettlefrost/internal/unit"
)

// overfill is what a pack is filled beyond its label, for its lot to pass.
type overfill struct {
	each  []unit.Mass // of each part of the pack
	total unit.Mass
	worth unit.Money // of that, as food
}

// aimFills finds what the packs of a dish are filled beyond their labels. A pack that nobody has weighed is filled to its label, unless the
// book states a scatter to fill by.
func (p *planner) aimFills(d *cooked) {
	for _, id := range p.packsOf(d.id) {
		pack := p.book.Packs[id]
		if len(pack.Checks) == 0 && p.book.Kitchen.NetContents.Scatter == 0 {
			continue
		}
		a, err := p.aimFill(d, id, p.lotOf(id), checked(pack))
		if err != nil { // a lot that the rules do not reach, or nothing in it that is weighed in, asks for nothing
			continue
		}
		over := overfill{total: a.target.Over, worth: a.target.Cost}
		for _, part := range a.target.Parts {
			over.each = append(over.each, part.Over)
		}
		p.over[id] = over
	}
}

// checked are the check-weights of all fillings in the book.
func checked(pack kitchen.Pack) [][]unit.Mass {
	var fillings [][]unit.Mass
	for _, w := range pack.Checks {
		fillings = append(fillings, w.Gross)
	}
	return fillings
}

// unsaidLot is how many packs a lot has that nobody has said anything of.
const unsaidLot = 100

// lotOf is how many packs of a kind will be filled at once.
func (p *planner) lotOf(id kitchen.PackID) int {
	wanted, last := 0, 0
	for _, w := range p.req.Want {
		if w.Pack == id {
			wanted += w.Count
		}
	}
	pack := p.book.Packs[id]
	if n := len(pack.Checks); n > 0 {
		last = pack.Checks[n-1].Lot
	}
	return cmp.Or(wanted, last, pack.Batch, unsaidLot)
}

// aimed is how full to fill, and what that rests on.
type aimed struct {
	target  netcontents.Target
	spread  netcontents.Spread
	atPrice bool // the overfill is told at the pack's price, as that of the food is not known
}

// aimFill finds how full to fill a pack, from all its fillings that were weighed. What is filled beyond the label goes onto what costs the
// least, as far as the pack's proportions allow.
func (p *planner) aimFill(d *cooked, id kitchen.PackID, lot int, fillings [][]unit.Mass) (aimed, error) {
	var a aimed
	words := p.book.Kitchen.NetContents
	terms := termsOf(p.book, lot, p.labelMass(d, id))
	prior := netcontents.ByHand
	if words.Scatter > 0 {
		prior.Share, prior.Source = words.Scatter, "the book"
	}
	sure := cmp.Or(words.Confidence, confident)
	var err error
	if a.spread, err = netcontents.Learn(terms.Label, prior, fillings, sure); err != nil {
		return a, err
	}
	parts, known := p.aimParts(d, id, a.spread.UpperG)
	a.atPrice = !known
	aim := netcontents.Aim{Terms: terms, Confidence: sure, Step: cmp.Or(words.Scale, scaleStep), Parts: parts}
	a.target, err = netcontents.TargetOf(aim)
	if room := (*netcontents.RoomError)(nil); errors.As(err, &room) { // then the proportions give way, which is judged where they are
		for i := range parts {
			parts[i].Room, parts[i].Free = 0, p.book.Packs[id].Fill[i].Pieces == 0
		}
		a.target, err = netcontents.TargetOf(aim)
	}
	return a, err
}

// labelMass is what a pack's label says: the sum of what goes in.
func (p *planner) labelMass(d *cooked, id kitchen.PackID) unit.Mass {
	sum := unit.Mass(0)
	for _, f := range p.book.Packs[id].Fill {
		sum += p.fillMass(d, f)
	}
	return sum
}

// aimParts are the parts of a pack that scatters as a whole by so much: the parts' variances add up to it in proportion to their masses.
// Known says that the food in all of them has its price; otherwise the last one that is weighed in takes the overfill, at the pack's price.
func (p *planner) aimParts(d *cooked, id kitchen.PackID, spreadG float64) (parts []netcontents.Part, known bool) {
	pack, label := p.book.Packs[id], p.labelMass(d, id)
	perKg := p.foodPerKg(d)
	known = true
	last := -1
	for i, f := range pack.Fill {
		m := p.fillMass(d, f)
		price, has := perKg[f.Of]
		part := netcontents.Part{Name: string(f.Of), Mass: m, SpreadG: spreadG * math.Sqrt(m.Kg()/label.Kg()), Free: f.Pieces == 0, PricePerKg: price}
		if part.Free {
			last, known = i, known && has
		}
		parts = append(parts, part)
	}
	if !known && last >= 0 {
		for i := range parts {
			parts[i].Free = i == last
		}
		parts[last].PricePerKg = unit.PriceOf(pack.Price, label, unit.Kilogram)
		return parts, false
	}
	proportions(pack, parts)
	return parts, known
}

// proportions keeps the sauce of a pack of two parts within what it may have.
func proportions(pack kitchen.Pack, parts []netcontents.Part) {
	if len(parts) != 2 {
		return
	}
	solids, sauce := &parts[0], &parts[1]
	room := func(part *netcontents.Part, most float64) {
		part.Room = max(0, unit.MassKg(most)-part.Mass)
		part.Free = part.Free && part.Room > 0
	}
	if most := pack.Sauce.Most; most > 0 {
		room(sauce, most*solids.Mass.Kg())
	}
	if least := pack.Sauce.Least; least > 0 {
		room(solids, sauce.Mass.Kg()/least)
	}
}

// foodPerKg is what the food in a kilogram of each packed output costs, cooked as written; those of which a price is missing are left out.
func (p *planner) foodPerKg(d *cooked) map[kitchen.OutputID]unit.Money {
	flow, err := massflow.Uniform(d.graph, 1)
	if err != nil {
		return nil
	}
	written := *d
	written.flow = flow
	j := costJob{p: p, left: map[string]unit.Mass{}}
	for _, i := range flow.Order {
		j.step(&written, i)
	}
	built, err := costing.Carry(j.Job)
	if err != nil {
		return nil
	}
	perKg := map[kitchen.OutputID]unit.Money{}
	for _, l := range built.Left {
		if of, ok := strings.CutPrefix(l.Output, outputKey(d, "")); ok && len(l.Missing) == 0 {
			perKg[kitchen.OutputID(of)] = unit.PriceOf(l.Total, l.Mass, unit.Kilogram)
		}
	}
	return perKg
}

// judgeWeighed finds packs that are filled to their label since nobody knows how they scatter, and says what a first belief would ask for.
func (p *planner) judgeWeighed() {
	f := finding.Finding{Code: CodeNotWeighed, Severity: finding.Note, Where: "the filling table",
		Fix: "weigh some packs of the next filling and write checks: at the pack, or state a scatter: to fill by until then, under net-contents: in the kitchen's file"}
	var names []string
	for _, x := range p.out.Fill {
		id := kitchen.PackID(x.Pack)
		if _, aimed := p.over[id]; aimed || x.Count == 0 || len(p.book.Packs[id].Checks) > 0 || !weighedIn(p.book.Packs[id]) {
			continue
		}
		if a, err := p.aimFill(p.dishOf(x.Dish), id, x.Count, nil); err == nil {
			names = append(names, x.Name)
			f.Figures = append(f.Figures, p.massFigure("more in each "+x.Name, a.target.Over.Kg()))
			f.Source = a.spread.Prior.Source
		}
	}
	if len(names) == 0 {
		return
	}
	f.Message = fmt.Sprintf("nobody has check-weighed %s: filled to the label on average, about half of the packs lie under it, and a lot may fail. If they scattered by %s of the label, a first belief, the figures say how much more each would take to pass",
		strings.Join(names, "; "), netcontents.ByHand.Share.Show(p.out.Units))
	p.find(f)
}

// weighedIn says that something in a pack is filled by weight.
func weighedIn(pack kitchen.Pack) bool {
	return slices.ContainsFunc(pack.Fill, func(f kitchen.Fill) bool { return f.Pieces == 0 })
}
