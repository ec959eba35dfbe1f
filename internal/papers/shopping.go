package papers

import (
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/plan"
)

// shopping is what to buy, by supplier or by where it is kept, each with a box to tick, and what is taken from stock.
func (w *writer) shopping() {
	b := w.plan.Buy
	for _, group := range w.groups(b.Items(w.By)) {
		w.add(pdf.Heading{Level: 2, Text: group.name})
		if group.says != "" {
			w.add(pdf.Paragraph{Text: group.says})
		}
		t := pdf.Table{Columns: w.columns("✓", "what", "pack", "#how many", "#price", "#in all"), Ruled: true}
		for _, i := range group.items {
			t.Rows = append(t.Rows, pdf.Row{Cells: []string{"", i.Line.Name, i.Pack.Name, w.count(i.Pack.Count), w.money(i.Pack.Price), w.money(i.Pack.Price.Times(int64(i.Pack.Count), 1))}})
		}
		w.add(t)
	}
	w.notBought(b)
	w.add(pdf.Facts{{Name: w.In.Say("goods"), Is: w.money(b.Goods)}, {Name: w.In.Say("delivery"), Is: w.money(b.Delivery)}, {Name: w.In.Say("in all"), Is: w.money(b.Total)}})
	w.fromStock(b)
}

// bought is some of the list under one head.
type bought struct {
	name, says string
	items      []plan.BuyItem
}

func (w *writer) groups(items []plan.BuyItem) (all []bought) {
	was := ""
	for _, i := range items {
		key, group := i.Line.Storage, bought{name: w.storage(i.Line.Storage)}
		if w.By == plan.BySupplier {
			key, group = i.Pack.SupplierID, w.supplier(i.Pack)
		}
		if len(all) == 0 || key != was {
			all = append(all, group)
			was = key
		}
		last := &all[len(all)-1]
		last.items = append(last.items, i)
	}
	return all
}

// supplier is who brings it, and until when it must be ordered.
func (w *writer) supplier(p plan.BuyPack) bought {
	g := bought{name: p.Supplier}
	if g.name == "" {
		g.name = w.In.Say("nobody named")
	}
	for _, o := range w.plan.Buy.Orders {
		if o.Supplier != p.SupplierID {
			continue
		}
		order := ""
		if o.OrderBy != "" {
			order = w.In.Say("order by %s", w.In.Day(o.OrderBy))
		}
		g.says = joined("; ", order, o.Note)
	}
	return g
}

// storage is where something is kept, in words.
func (w *writer) storage(s string) string {
	switch s {
	case "dry":
		return w.In.Say("dry store")
	case "chilled":
		return w.In.Say("refrigerator")
	case "frozen":
		return w.In.Say("freezer")
	}
	return w.In.Say("nobody has said where it is kept")
}

// notBought is what is needed and nobody can be found to sell.
func (w *writer) notBought(b plan.Buy) {
	for _, l := range b.Lines {
		if l.Missing != "" {
			w.loud("%s: %s is needed and cannot be put on the list: %s", l.Name, w.shown(l.ToBuy), l.Missing)
		}
		if l.Late != nil {
			w.loud("%s: nobody brings enough of it in time.", l.Name)
		}
	}
}

// fromStock is what is there already: what must be looked for on the shelf.
func (w *writer) fromStock(b plan.Buy) {
	t := pdf.Table{Name: w.In.Say("From stock"), Columns: w.columns("✓", "what", "#how much", "lot", "use by"), Ruled: true}
	for _, l := range b.Lines {
		lots := l.FromStock
		if len(lots) == 0 && l.Stock > 0 {
			lots = []plan.BuyLot{{Mass: min(l.Stock, l.AP)}}
		}
		for _, lot := range lots {
			t.Rows = append(t.Rows, pdf.Row{Cells: []string{"", l.Name, w.shown(lot.Mass), lot.Lot, w.In.Day(lot.Until)}})
		}
	}
	w.add(t)
}
