package sheet

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// Shopping is the shopping list of a plan to tick off, by supplier or by where things are kept.
func Shopping(p plan.Plan, units unit.System, by plan.By) string {
	w := &writer{plan: p, units: units}
	w.line(p.Kitchen)
	w.line(list(", ", "To buy for "+p.Run, p.Day))
	w.gap()
	w.para(0, p.Note)
	w.heading("buy", w.buyTotal(p.Buy))
	t := table{columns: []column{{}, {head: "packs", right: true}, {head: "of", wraps: true}, {head: "ingredient", wraps: true}, {head: "where", wraps: true}, {head: "price", right: true}}}
	group := "-"
	for _, x := range p.Buy.Items(by) {
		where, name := list(", ", x.Line.Storage, x.Line.Aisle), x.Pack.Supplier
		if by == plan.ByStorage {
			where, name = list(", ", x.Line.Aisle, x.Pack.Supplier), x.Line.Storage
		}
		if name != group {
			group = name
			t.title(w.groupTitle(name, by))
		}
		t.add("[ ]", strconv.Itoa(x.Pack.Count), x.Pack.Name, x.Line.Name, where, w.money(x.Pack.Price.Times(int64(x.Pack.Count), 1)))
	}
	w.table(t)
	w.missing()
	w.fromStock()
	w.instead()
	w.otherLists()
	return w.String()
}

// groupTitle heads the lines of one supplier, or of one place.
func (w *writer) groupTitle(name string, by plan.By) string {
	if by == plan.ByStorage {
		return storageName(name)
	}
	for _, o := range w.plan.Buy.Orders {
		if o.Name != name {
			continue
		}
		order, delivery, free := "", "", ""
		if o.OrderBy != "" {
			order = "order by " + o.OrderBy
		}
		if o.Delivery > 0 {
			delivery = "delivery " + w.money(o.Delivery)
		}
		if o.ToFree > 0 && o.Delivery > 0 {
			free = w.money(o.ToFree) + " more, and it is brought for nothing"
		}
		return list("; ", o.Name, order, w.money(o.Goods), delivery, free)
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

// instead is what may be bought in the place of something.
func (w *writer) instead() {
	var lines []string
	for _, l := range w.plan.Buy.Lines {
		if len(l.Instead) > 0 && l.ToBuy > 0 {
			lines = append(lines, l.Name+": "+strings.Join(l.Instead, ", or "))
		}
	}
	if len(lines) > 0 {
		w.gap()
		w.hang(0, "if there is none: ", strings.Join(lines, "; "))
	}
}

// otherLists are the best lists on other conditions.
func (w *writer) otherLists() {
	var lines []string
	for _, a := range w.plan.Buy.Alternatives {
		lines = append(lines, fmt.Sprintf("%s %s, %s more", a.Is, w.money(a.Total), w.money(a.Extra)))
	}
	w.gap()
	w.para(0, "The list is "+w.plan.Buy.Proof+".")
	if len(lines) > 0 {
		w.hang(0, "otherwise: ", strings.Join(lines, "; "))
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
func ShoppingCSV(p plan.Plan, by plan.By) []byte {
	var buffer bytes.Buffer
	out := csv.NewWriter(&buffer)
	out.UseCRLF = true
	rows := [][]string{{"supplier", "order_by", "ingredient", "storage", "aisle", "pack", "count", "price_each", "price", "need_g", "from_stock_g", "left_over_g"}}
	orderBy := map[string]string{}
	for _, o := range p.Buy.Orders {
		orderBy[o.Supplier] = o.OrderBy
	}
	for _, x := range p.Buy.Items(by) {
		rows = append(rows, []string{harmless(x.Pack.Supplier), orderBy[x.Pack.SupplierID], harmless(x.Line.Name), x.Line.Storage, harmless(x.Line.Aisle), harmless(x.Pack.Name), strconv.Itoa(x.Pack.Count),
			moneyCSV(x.Pack.Price), moneyCSV(x.Pack.Price * unit.Money(x.Pack.Count)), gramsCSV(x.Line.AP), gramsCSV(min(x.Line.Stock, x.Line.AP)), gramsCSV(x.Line.Over)})
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
