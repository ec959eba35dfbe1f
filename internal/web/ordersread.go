package web

import (
	"net/http"
	"strconv"
	"strings"

	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// typedOrder is an order as somebody typed it, before it is read.
type typedOrder struct {
	changes                                string
	customer, due, way, weeks, until, note string
	whole                                  bool
	packs, counts, prices                  []string
	problems                               []orders.Problem // found while reading
}

// typed is what a form says.
func typed(r *http.Request) typedOrder {
	f := r.PostForm
	return typedOrder{changes: r.PathValue("id"), customer: tidy(f.Get("customer")), due: tidy(f.Get("due")), way: f.Get("way"), weeks: tidy(f.Get("weeks")), until: tidy(f.Get("until")), note: tidyLines(f.Get("note")), whole: f.Get("whole") != "",
		packs: f["pack"], counts: f["count"], prices: f["each"]}
}

// draft reads what was typed. What cannot be read is a problem, and left out of the draft.
func (t *typedOrder) draft() orders.Draft {
	d := orders.Draft{Changes: t.changes, Customer: t.customer, Due: record.Day(t.due), Way: record.Way(t.way), Until: record.Day(t.until), Whole: t.whole, Note: record.Text(t.note)}
	d.Weeks = t.number("every_weeks", t.weeks)
	for i, pack := range t.packs {
		count := nth(t.counts, i)
		if count == "" {
			continue
		}
		field := "lines[" + strconv.Itoa(len(d.Lines)) + "]."
		l := record.OrderLine{Pack: pack, Count: t.number(field+"count", count)}
		if price := nth(t.prices, i); price != "" {
			each, err := unit.ParseMoney(strings.TrimLeft(price, "$€£ "))
			if err != nil {
				t.problems = append(t.problems, orders.Problem{Field: field + "each", Problem: "cannot be read", Fix: err.Error()})
			}
			l.Each = each
		}
		d.Lines = append(d.Lines, l)
	}
	return d
}

func nth(texts []string, i int) string {
	if i >= len(texts) {
		return ""
	}
	return tidy(texts[i])
}

// number reads a whole number; nothing typed is zero.
func (t *typedOrder) number(field, text string) int64 {
	if text == "" {
		return 0
	}
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil {
		t.problems = append(t.problems, orders.Problem{Field: field, Problem: "is “" + text + "”", Fix: "write a whole number"})
	}
	return n
}

// rows maps the lines of the draft back to the rows of the form: rows without a count have no line.
func (t typedOrder) rows() []int {
	var rows []int
	for i := range t.packs {
		if nth(t.counts, i) != "" {
			rows = append(rows, i)
		}
	}
	return rows
}

// typedOf is an order as its form shows it first.
func typedOf(o record.Ordered) typedOrder {
	t := typedOrder{changes: o.Order, customer: o.Customer, due: string(o.Due), way: string(o.Way), until: string(o.Until), note: string(o.Note), whole: o.Whole}
	if o.Weeks > 0 {
		t.weeks = strconv.FormatInt(o.Weeks, 10)
	}
	for _, l := range o.Lines {
		price := ""
		if l.Each != 0 {
			price = l.Each.String()
		}
		t.packs, t.counts, t.prices = append(t.packs, l.Pack), append(t.counts, strconv.FormatInt(l.Count, 10)), append(t.prices, price)
	}
	return t
}
