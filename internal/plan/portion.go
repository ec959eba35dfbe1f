package plan

import (
	"fmt"
	"slices"

	"kettlefrost/internal/fill"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// ratioParts is what a ratio in the book is counted in.
const ratioParts = 1000

// portion shares solids and sauce out over the packs of one kind, so that their ratio stays within what the book allows. Pieces are as many as
// the pack says; solids that are weighed may be more than on the label when there are more, as the sauce then gives way.
func (p *planner) portion(t sealTable, x *SealPack) {
	limits := p.book.Packs[kitchen.PackID(x.Pack)].Sauce
	if limits == (kitchen.SauceRange{}) || x.Count == 0 || len(x.Each) != 2 {
		return
	}
	solids, sauce := x.Each[0], x.Each[1]
	if solids.Pieces > 0 {
		p.judgeRatio(*x, limits, solids.Target, sauce.Target)
		x.Portions = []SealPortion{{Count: x.Count, Pieces: solids.Pieces, Solids: solids.Target, Sauce: sauce.Target}}
		return
	}
	left := func(output string) unit.Mass { // what no other pack could take
		for id, each := range t.targets {
			if string(id) != x.Pack && slices.ContainsFunc(each, func(e SealPart) bool { return e.Output == output }) {
				return 0
			}
		}
		return t.outputs[t.index(output)].Left
	}
	ask := fill.Portions{Solids: solids.Target*unit.Mass(x.Count) + left(solids.Output), Sauce: sauce.Target*unit.Mass(x.Count) + left(sauce.Output), Grain: p.grain(),
		Thinnest: ratioOf(limits.Most), Thickest: ratioOf(limits.Least), Packs: []fill.PortionPack{{Name: x.Name, Count: x.Count, Net: x.Target}}}
	if limits.Most == 0 {
		ask.Thinnest = fill.Ratio{Solids: 0, Sauce: 1}
	}
	if limits.Least == 0 {
		ask.Thickest = fill.Ratio{Solids: 1, Sauce: 0}
	}
	answer, err := fill.Portion(ask)
	if err != nil {
		p.findRatio(*x, "solids and sauce cannot be shared out: "+err.Error())
		return
	}
	for _, f := range answer.Fills {
		x.Portions = append(x.Portions, SealPortion{Count: f.Count, Pieces: f.Pieces, Solids: f.Solids, Sauce: f.Sauce})
	}
}

// ratioOf is one part of solids to so many of sauce.
func ratioOf(sauce float64) fill.Ratio {
	return fill.Ratio{Solids: ratioParts, Sauce: int64(sauce * ratioParts)}
}

// grain is the step in which the scale at the table is read.
func (p *planner) grain() unit.Mass {
	if p.out.Units == unit.US {
		return unit.Ounce / 10
	}
	return unit.Gram
}

func (p *planner) judgeRatio(x SealPack, limits kitchen.SauceRange, solids, sauce unit.Mass) {
	ratio := sauce.Kg() / solids.Kg()
	if ratio < limits.Least || limits.Most > 0 && ratio > limits.Most {
		p.findRatio(x, fmt.Sprintf("%.2f parts of sauce go with one of solids, where %g to %g are allowed", ratio, limits.Least, limits.Most))
	}
}

func (p *planner) findRatio(x SealPack, message string) {
	p.find(finding.Finding{Code: CodeSauceRatio, Severity: finding.Caution, Where: "pack " + x.Pack, Path: "packs." + x.Pack, Message: message, Fix: "fill fewer of these packs, change what goes into them, or what sauce: allows"})
}
