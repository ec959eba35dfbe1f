package plan

import (
	"cmp"
	"fmt"
	"slices"

	"kettlefrost/internal/costing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/purchase"
	"kettlefrost/internal/unit"
)

// buy turns what the dishes use into a shopping list: edible portion back to as purchased, the reserve on top, stock off, and whole
// purchase packs at the least cost.
func (p *planner) buy() {
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
	for _, l := range p.out.Buy.Lines {
		p.judgeBuy(l)
	}
	p.orders()
}

func (p *planner) buyLine(id kitchen.IngredientID, need unit.Mass) BuyLine {
	ing := p.book.Ingredients[id]
	line := BuyLine{ID: string(id), Name: ing.Name, Storage: cmp.Or(ing.Storage, "dry"), Aisle: ing.Aisle, Need: need, Free: ing.Free, Packs: []BuyPack{}}
	ap, err := costing.AtYield(unit.Whole - ing.Trim).APNeeded(need)
	if err != nil {
		line.Missing = err.Error()
		return line
	}
	line.Trim = ap - need
	line.AP = ap
	if !ing.Free {
		line.AP += p.req.Reserve.Of(ap)
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
	default:
		p.choosePacks(id, &line)
	}
	return line
}

func (p *planner) choosePacks(id kitchen.IngredientID, line *BuyLine) {
	offers, err := p.offers(id)
	if err != nil {
		line.Missing = err.Error()
		return
	}
	choice, err := purchase.Cover(line.ToBuy, offers)
	if err != nil {
		line.Missing = err.Error()
		return
	}
	for i, n := range choice.Counts {
		if n > 0 {
			line.Packs = append(line.Packs, BuyPack{Supplier: offers[i].Supplier, SupplierID: string(p.book.Ingredients[id].Buy[i].Supplier), Name: offers[i].Name, Count: n, Price: offers[i].Price})
		}
	}
	line.Total, line.Over = choice.Total, choice.Over
}

// offers is the ingredient's offers in numbers.
func (p *planner) offers(id kitchen.IngredientID) ([]purchase.Offer, error) {
	var offers []purchase.Offer
	for _, o := range p.book.Ingredients[id].Buy {
		kg, err := p.weigh(id, o.Pack)
		if err != nil {
			return nil, err
		}
		name := o.Pack.Show(p.out.Units)
		if o.Name != "" {
			name += " " + o.Name
		}
		supplier := string(o.Supplier)
		if s, ok := p.book.Suppliers[o.Supplier]; ok {
			supplier = s.Name
		}
		offers = append(offers, purchase.Offer{Name: name, Supplier: supplier, Pack: mass(kg), Price: o.Price, Max: -1})
	}
	return offers, nil
}

func (p *planner) judgeBuy(l BuyLine) {
	if l.Missing == "" {
		return
	}
	f := finding.Finding{Code: CodeCannotBuy, Severity: finding.Caution, Where: "ingredient " + l.ID, Path: "ingredients." + l.ID, Message: fmt.Sprintf("%s of %s cannot be put on the list: %s", l.ToBuy.Show(p.out.Units), l.Name, l.Missing),
		Figures: []finding.Figure{p.massFigure("needed", l.AP.Kg()), p.massFigure("in stock", l.Stock.Kg()), p.massFigure("short", l.ToBuy.Kg())},
		Fix:     "give it an offer: what a pack holds, who sells it, at what price"}
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
	offers, err := p.offers(id)
	if err != nil {
		return best
	}
	for _, o := range offers {
		if o.Pack > 0 && o.Price > 0 && (!best.Known() || unit.PriceOf(o.Price, o.Pack, unit.Kilogram) < unit.PriceOf(best.Money, best.Per, unit.Kilogram)) {
			best = costing.Price{Money: o.Price, Per: o.Pack}
		}
	}
	return best
}
