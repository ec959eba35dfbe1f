package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"kettlefrost/internal/costing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/purchase"
	"kettlefrost/internal/unit"
)

// buy turns what the dishes use into a shopping list: edible portion back to as purchased, the reserve on top, stock off, and whole
// purchase packs at the least cost.
func (p *planner) buy() {
	if p.was != nil && p.bought != nil { // it is bought by the time that the day is under way
		p.out.Buy = *p.bought
		for _, l := range p.out.Buy.Lines {
			p.judgeBuy(l)
		}
		return
	}
	defer func() { bought := p.out.Buy; p.bought = &bought }()
	need := map[kitchen.IngredientID]float64{}
	for _, d := range p.dishes {
		for i, kg := range d.flow.Bought {
			need[d.ingredients[i]] += kg
		}
	}
	for id, kg := range need {
		if kg > 0 {
			line := p.buyLine(id, mass(kg))
			p.out.Buy.Lines = append(p.out.Buy.Lines, line)
		}
	}
	slices.SortFunc(p.out.Buy.Lines, func(a, b BuyLine) int {
		return cmp.Or(cmp.Compare(a.Storage, b.Storage), cmp.Compare(a.Name, b.Name), cmp.Compare(a.ID, b.ID))
	})
	p.out.Buy.Orders = []BuyOrder{}
	p.shop()
	for _, l := range p.out.Buy.Lines {
		p.judgeBuy(l)
	}
}

func (p *planner) buyLine(id kitchen.IngredientID, need unit.Mass) BuyLine {
	ing := p.book.Ingredients[id]
	line := BuyLine{ID: string(id), Name: ing.Name, Storage: cmp.Or(ing.Storage, "dry"), Aisle: ing.Aisle, Instead: p.instead(id), Need: need, Free: ing.Free, Packs: []BuyPack{}}
	ap, err := costing.AtYield(unit.Whole - ing.Trim).APNeeded(need)
	if err != nil {
		line.Missing = err.Error()
		return line
	}
	line.Trim = ap - need
	line.AP = ap
	if !ing.Free {
		line.AP += p.reserve().Of(ap)
	}
	lots := p.usableStock(id)
	for _, l := range lots {
		line.Stock += l.mass
	}
	line.FromStock, _ = takeStock(lots, line.AP)
	line.ToBuy = max(0, line.AP-line.Stock)
	switch {
	case line.ToBuy == 0 || ing.Free:
		line.ToBuy = 0
	case p.req.OnlyHave:
		line.Missing = "only stock is to be used"
	case len(ing.Buy) == 0:
		line.Missing = (&purchase.NoOfferError{Need: line.ToBuy}).Error()
	}
	return line
}

// reserve is what is bought beyond the need: as asked for, or so much that in the share of runs asked for the yields are not short of it, when
// they scatter normally.
func (p *planner) reserve() unit.Share {
	if p.req.Sure <= unit.Whole/2 {
		return p.req.Reserve
	}
	z := math.Sqrt2 * math.Erfinv(2*p.req.Sure.F()-1)
	return max(p.req.Reserve, unit.ShareOf(z*cmp.Or(p.book.Kitchen.Spreads.Yields, usualYields).F()))
}

// instead are the ingredients that a dish of the run lets take the place of one.
func (p *planner) instead(id kitchen.IngredientID) []string {
	var names []string
	for _, d := range p.dishes {
		for _, s := range d.dish.Steps {
			for _, u := range s.Use {
				for _, other := range u.Instead {
					name := p.book.Ingredients[other].Name + " in " + d.dish.Name
					if u.Of == id && !slices.Contains(names, name) {
						names = append(names, name)
					}
				}
			}
		}
	}
	return names
}

// offerName is what a pack of an offer is called.
func (p *planner) offerName(o kitchen.Offer) string {
	name := o.Pack.Show(p.out.Units)
	if o.Name != "" {
		name += " " + o.Name
	}
	return name
}

func (p *planner) judgeBuy(l BuyLine) {
	if l.Missing == "" {
		return
	}
	f := finding.Finding{Code: CodeCannotBuy, Severity: finding.Caution, Where: "ingredient " + l.ID, Path: "ingredients." + l.ID, Message: fmt.Sprintf("%s of %s cannot be put on the list: %s", l.ToBuy.Show(p.out.Units), l.Name, l.Missing),
		Figures: []finding.Figure{p.massFigure("needed", l.AP.Kg()), p.massFigure("in stock", l.Stock.Kg()), p.massFigure("short", l.ToBuy.Kg())},
		Fix:     "give it an offer: what a pack holds, who sells it, at what price"}
	if len(l.Instead) > 0 {
		f.Fix += "; or take " + strings.Join(l.Instead, ", or ")
	}
	if l.Late != nil {
		f.Code, f.Severity, f.Figures = CodeNotInTime, finding.Stop, append(f.Figures, l.Late.figures()...)
		f.Fix = "start on " + kitchen.DaysBefore(p.req.Today, -l.Late.Lead) + " or later, find somebody who brings it sooner"
		if len(l.Instead) > 0 {
			f.Fix += ", or take " + strings.Join(l.Instead, ", or ")
		}
	}
	if p.req.OnlyHave {
		f.Code, f.Severity, f.Message = CodeStockShort, finding.Stop, fmt.Sprintf("there is not enough %s: %s short", l.Name, l.ToBuy.Show(p.out.Units))
		f.Fix = "buy it, or ask for less"
	}
	p.find(f)
}

// priceOf is what an ingredient costs as purchased: what this run pays for it, or the cheapest offer when nothing has to be bought.
func (p *planner) priceOf(id kitchen.IngredientID) costing.Price {
	if p.book.Ingredients[id].Free {
		return costing.Price{Free: true}
	}
	for _, l := range p.out.Buy.Lines {
		if l.ID == string(id) && l.Total > 0 {
			return costing.Price{Money: l.Total, Per: l.ToBuy + l.Over}
		}
	}
	var best costing.Price
	for _, o := range p.book.Ingredients[id].Buy {
		kg, err := p.weigh(id, o.Pack)
		if err != nil || o.Price <= 0 || kg <= 0 {
			continue
		}
		if !best.Known() || unit.PriceOf(o.Price, mass(kg), unit.Kilogram) < unit.PriceOf(best.Money, best.Per, unit.Kilogram) {
			best = costing.Price{Money: o.Price, Per: mass(kg)}
		}
	}
	return best
}
