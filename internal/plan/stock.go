package plan

import (
	"cmp"
	"fmt"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// stockLot is a lot that may still be used on the day of the run.
type stockLot struct {
	lot   string
	until string
	mass  unit.Mass
}

// usableStock is what is on hand of an ingredient and may be used on the day of the run, the lot that goes off first in front; what has no
// date comes last. Lots that are out of date are found and left out.
func (p *planner) usableStock(id kitchen.IngredientID) []stockLot {
	ing := p.book.Ingredients[id]
	var lots []stockLot
	add := func(lot, until string, amount unit.Amount) {
		kg, err := p.weigh(id, amount)
		if err != nil || kg <= 0 {
			return
		}
		if until != "" && p.req.Day != "" && until < p.req.Day {
			p.findOutOfDate(id, lot, until, mass(kg))
			return
		}
		lots = append(lots, stockLot{lot, until, mass(kg)})
	}
	for _, l := range ing.Lots {
		add(l.Lot, l.Until, l.Amount)
	}
	if ing.Stock.Kind != 0 {
		add("", "", ing.Stock)
	}
	slices.SortStableFunc(lots, func(a, b stockLot) int {
		if (a.until == "") != (b.until == "") {
			return cmp.Compare(b.until, a.until)
		}
		return cmp.Compare(a.until, b.until)
	})
	return lots
}

func (p *planner) findOutOfDate(id kitchen.IngredientID, lot, until string, kg unit.Mass) {
	name := p.book.Ingredients[id].Name
	if lot != "" {
		name += ", lot " + lot
	}
	p.find(finding.Finding{Code: CodeOutOfDate, Severity: finding.Caution, Where: "ingredient " + string(id), Path: "ingredients." + string(id),
		Message: fmt.Sprintf("%s of %s may be used until %s, before the run: it is not counted", kg.Show(p.out.Units), name, until),
		Figures: []finding.Figure{p.massFigure("out of date", kg.Kg())}, Fix: "throw it away and take it out of the book, or correct its date"})
}

// takeStock shares a need out over lots, in their order.
func takeStock(lots []stockLot, need unit.Mass) (taken []BuyLot, all unit.Mass) {
	for _, l := range lots {
		if m := min(l.mass, need-all); m > 0 {
			taken, all = append(taken, BuyLot{Lot: l.lot, Until: l.until, Mass: m}), all+m
		}
	}
	return taken, all
}
