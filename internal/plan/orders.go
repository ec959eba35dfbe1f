package plan

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// orders puts together what is bought from each supplier, on the terms of the book.
func (p *planner) orders() {
	goods := map[kitchen.SupplierID]unit.Money{}
	for _, l := range p.out.Buy.Lines {
		for _, x := range l.Packs {
			goods[kitchen.SupplierID(x.SupplierID)] += x.Price * unit.Money(x.Count)
		}
	}
	b := &p.out.Buy
	b.Orders = []BuyOrder{}
	for _, id := range slices.Sorted(maps.Keys(goods)) {
		o := p.order(id, goods[id])
		b.Orders = append(b.Orders, o)
		b.Goods, b.Delivery = b.Goods+o.Goods, b.Delivery+o.Delivery
		p.judgeOrder(o)
	}
	b.Total = b.Goods + b.Delivery
}

func (p *planner) order(id kitchen.SupplierID, goods unit.Money) BuyOrder {
	s := p.book.Suppliers[id]
	o := BuyOrder{Supplier: string(id), Name: cmp.Or(s.Name, string(id)), Note: s.Note, Goods: goods, Delivery: s.Delivery, Minimum: s.Minimum, Short: max(0, s.Minimum-goods)}
	if s.FreeFrom > 0 && goods >= s.FreeFrom {
		o.Delivery = 0
	}
	if p.req.Day != "" && id != "" {
		o.OrderBy = kitchen.DaysBefore(p.req.Day, s.Lead)
	}
	return o
}

func (p *planner) judgeOrder(o BuyOrder) {
	if o.Short == 0 {
		return
	}
	money := func(name string, m unit.Money) finding.Figure {
		return finding.Figure{Name: name, Value: m.Units(), Unit: p.out.Currency, Text: m.Show(p.out.Currency)}
	}
	p.find(finding.Finding{Code: CodeUnderMinimum, Severity: finding.Caution, Where: "supplier " + o.Supplier, Path: "suppliers." + o.Supplier,
		Message: fmt.Sprintf("the order comes to %s and %s takes none below %s", o.Goods.Show(p.out.Currency), o.Name, o.Minimum.Show(p.out.Currency)),
		Figures: []finding.Figure{money("order", o.Goods), money("minimum", o.Minimum), money("short", o.Short)}, Fix: "order what another run needs with it, buy it elsewhere, or ask them"})
}
