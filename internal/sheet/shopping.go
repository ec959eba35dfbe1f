package sheet

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// By says how a shopping list is put together.
type By string

const (
	BySupplier By = "supplier"
	ByStorage  By = "storage" // where it is kept, and within that where it stands in the shop
)

// item is what a shopping list has a line for: some packs of one offer.
type item struct {
	line plan.BuyLine
	pack plan.BuyPack
}

func items(b plan.Buy, by By) []item {
	var all []item
	for _, l := range b.Lines {
		for _, p := range l.Packs {
			all = append(all, item{l, p})
		}
	}
	slices.SortStableFunc(all, func(x, y item) int {
		if by == BySupplier {
			return cmp.Or(cmp.Compare(x.pack.Supplier, y.pack.Supplier), cmp.Compare(x.line.Aisle, y.line.Aisle), cmp.Compare(x.line.Name, y.line.Name))
		}
		return cmp.Or(cmp.Compare(x.line.Storage, y.line.Storage), cmp.Compare(x.line.Aisle, y.line.Aisle), cmp.Compare(x.line.Name, y.line.Name))
	})
	return all
}

// Shopping is the shopping list of a plan to tick off, by supplier or by where things are kept.
func Shopping(p plan.Plan, units unit.System, by By) string {
	w := &writer{plan: p, units: units}
	w.line(p.Kitchen)
	w.line(list(", ", "To buy for "+p.Run, p.Day))
	w.gap()
	w.para(0, p.Note)
	w.heading("buy", w.buyTotal(p.Buy))
	t := table{columns: []column{{}, {head: "packs", right: true}, {head: "of", wraps: true}, {head: "ingredient", wraps: true}, {head: "where", wraps: true}, {head: "price", right: true}}}
	group := "-"
	for _, x := range items(p.Buy, by) {
		where, name := list(", ", x.line.Storage, x.line.Aisle), x.pack.Supplier
		if by == ByStorage {
			where, name = list(", ", x.line.Aisle, x.pack.Supplier), x.line.Storage
		}
		if name != group {
			group = name
			t.title(w.groupTitle(name, by))
		}
		t.add("[ ]", strconv.Itoa(x.pack.Count), x.pack.Name, x.line.Name, where, w.money(x.pack.Price.Times(int64(x.pack.Count), 1)))
	}
	w.table(t)
	w.missing()
	w.fromStock()
	return w.String()
}

// groupTitle heads the lines of one supplier, or of one place.
func (w *writer) groupTitle(name string, by By) string {
	if by == ByStorage {
		return storageName(name)
	}
	for _, o := range w.plan.Buy.Orders {
		if o.Name != name {
			continue
		}
		order, delivery, short := "", "", ""
		if o.OrderBy != "" {
			order = "order by " + o.OrderBy
		}
		if o.Delivery > 0 {
			delivery = "delivery " + w.money(o.Delivery)
		}
		if o.Short > 0 {
			short = w.money(o.Short) + " short of the least order"
		}
		return list("; ", o.Name, order, w.money(o.Goods), delivery, short)
	}
	return "supplier not said"
}

// missing is what cannot be put on the list.
func (w *writer) missing() {
	var lines []string
	for _, l := range w.plan.Buy.Lines {
		if l.Missing != "" {
			lines = append(lines, fmt.Sprintf("%s, %s: %s", l.Name, l.ToBuy.Show(w.units), l.Missing))
		}
	}
	if len(lines) > 0 {
		w.gap()
		w.hang(0, "MISSING: ", strings.Join(lines, "; "))
	}
}

// fromStock is what is taken from the shelf, the lot that goes off first in front.
func (w *writer) fromStock() {
	var lines []string
	for _, l := range w.plan.Buy.Lines {
		for _, lot := range l.FromStock {
			lines = append(lines, list(" ", lot.Mass.Show(w.units), l.Name, lotWords(lot)))
		}
	}
	if len(lines) > 0 {
		w.gap()
		w.hang(0, "from stock: ", strings.Join(lines, "; "))
	}
}

func lotWords(l plan.BuyLot) string {
	lot, until := "", ""
	if l.Lot != "" {
		lot = "lot " + l.Lot
	}
	if l.Until != "" {
		until = "until " + l.Until
	}
	if words := list(", ", lot, until); words != "" {
		return "(" + words + ")"
	}
	return ""
}

// ShoppingCSV is the shopping list as comma-separated values (RFC 4180) with a line of heads: masses in grams, money in units with a point.
func ShoppingCSV(p plan.Plan, by By) []byte {
	var buffer bytes.Buffer
	out := csv.NewWriter(&buffer)
	out.UseCRLF = true
	rows := [][]string{{"supplier", "order_by", "ingredient", "storage", "aisle", "pack", "count", "price_each", "price", "need_g", "from_stock_g", "left_over_g"}}
	orderBy := map[string]string{}
	for _, o := range p.Buy.Orders {
		orderBy[o.Supplier] = o.OrderBy
	}
	for _, x := range items(p.Buy, by) {
		rows = append(rows, []string{harmless(x.pack.Supplier), orderBy[x.pack.SupplierID], harmless(x.line.Name), x.line.Storage, harmless(x.line.Aisle), harmless(x.pack.Name), strconv.Itoa(x.pack.Count),
			moneyCSV(x.pack.Price), moneyCSV(x.pack.Price * unit.Money(x.pack.Count)), gramsCSV(x.line.AP), gramsCSV(min(x.line.Stock, x.line.AP)), gramsCSV(x.line.Over)})
	}
	if err := out.WriteAll(rows); err != nil {
		panic(err) // a buffer takes everything
	}
	return buffer.Bytes()
}

// harmless keeps a spreadsheet from taking a name for a formula.
func harmless(text string) string {
	if text != "" && strings.ContainsRune("=+-@\t\r", rune(text[0])) {
		return "'" + text
	}
	return text
}

func moneyCSV(m unit.Money) string { return strconv.FormatFloat(m.Units(), 'f', 2, 64) }

func gramsCSV(m unit.Mass) string { return strconv.FormatFloat(m.Kg()*1000, 'f', 0, 64) }
