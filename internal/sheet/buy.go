package sheet

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/plan"
)

// buy is the shopping list: a key of the suppliers, then by place of storage one line an ingredient to tick off.
func (w *writer) buy() {
	b := w.plan.Buy
	w.heading("buy", w.buyTotal(b))
	if len(b.Lines) == 0 {
		w.para(0, "Nothing.")
		return
	}
	suppliers := w.suppliers(b)
	t := table{columns: []column{
		{}, {head: "ingredient", wraps: true}, {head: "as purchased", right: true}, {head: "packs to buy", wraps: true}, {head: "price", right: true},
	}}
	var free []string
	storage := ""
	for i, l := range b.Lines {
		if l.Free {
			free = append(free, l.Name+" "+l.AP.Show(w.units))
			continue
		}
		if i == 0 || l.Storage != storage {
			storage = l.Storage
			t.title(storageName(storage))
		}
		price := ""
		if len(l.Packs) > 0 {
			price = w.money(l.Total)
		}
		t.add("[ ]", l.Name, w.mass(l.AP), w.toBuy(l, suppliers), price)
		t.under(tickWidth, w.aside(l))
	}
	w.table(t)
	w.gap()
	w.hang(0, "not bought: ", list("; ", free...))
}

// tickWidth is the place that a tick box takes.
const tickWidth = 3 + gutter

func storageName(storage string) string {
	if storage == "" {
		return "storage not said"
	}
	return storage
}

// buyTotal is what the list costs; it is a lower bound when something on it has no price or no seller.
func (w *writer) buyTotal(b plan.Buy) string {
	missing := 0
	for _, l := range b.Lines {
		if l.Missing != "" {
			missing++
		}
	}
	if missing == 0 && b.LeftOver > 0 {
		return fmt.Sprintf("%s; of that %s is still there for later runs", w.money(b.Total), w.money(b.LeftOver))
	}
	if missing == 0 {
		return w.money(b.Total)
	}
	return fmt.Sprintf("at least %s: %s missing", w.money(b.Total), many(missing, "ingredient is", "ingredients are"))
}

// suppliers writes the key of those that are bought from, by name, with what each order comes to, what bringing it costs and by when it is
// placed. It returns the names in the order of the key.
func (w *writer) suppliers(b plan.Buy) []string {
	orders := slices.SortedFunc(slices.Values(b.Orders), func(x, y plan.BuyOrder) int { return strings.Compare(x.Name, y.Name) })
	var names []string
	t := table{columns: []column{{}, {wraps: true}, {head: "order by"}, {head: "goods", right: true}, {head: "delivery", right: true}}}
	for i, o := range orders {
		names = append(names, o.Name)
		said, delivery := o.Name, ""
		if said == "" {
			said = "supplier not said"
		}
		if o.Delivery > 0 {
			delivery = w.money(o.Delivery)
		}
		t.add(letter(i), said, o.OrderBy, w.money(o.Goods), delivery)
		if o.ToFree > 0 && o.Delivery > 0 {
			t.under(tickWidth, w.money(o.ToFree)+" more, and it is brought for nothing")
		}
	}
	w.table(t)
	w.gap()
	return names
}

// letter is the key of supplier i: A to Z, then AA to ZZ and so on.
func letter(i int) string { return strings.Repeat(string(rune('A'+i%26)), 1+i/26) }

// toBuy names the packs of a line, each supplier's behind its key, or says why there are none.
func (w *writer) toBuy(l plan.BuyLine, suppliers []string) string {
	switch {
	case l.Missing != "":
		return "MISSING: " + l.Missing
	case len(l.Packs) == 0:
		return "none: " + l.Stock.Show(w.units) + " in stock"
	}
	var orders []string
	for i, name := range suppliers {
		var packs []string
		for _, p := range l.Packs {
			if p.Supplier == name {
				packs = append(packs, fmt.Sprintf("%d × %s", p.Count, p.Name))
			}
		}
		if len(packs) > 0 {
			orders = append(orders, letter(i)+": "+strings.Join(packs, ", "))
		}
	}
	return strings.Join(orders, "; ")
}

// aside is what stands below a line: what the purchased amount holds besides food, what stock gives and what is left over.
func (w *writer) aside(l plan.BuyLine) string {
	trim, stock, over := "", "", ""
	if l.Trim > 0 {
		trim = fmt.Sprintf("%s of it is trim", l.Trim.Show(w.units))
	}
	if l.Stock > 0 && l.ToBuy > 0 {
		stock = fmt.Sprintf("%s in stock, so %s to buy", l.Stock.Show(w.units), l.ToBuy.Show(w.units))
	}
	if l.Over > 0 {
		over = fmt.Sprintf("%s left over", l.Over.Show(w.units))
	}
	return list("; ", trim, stock, over)
}
