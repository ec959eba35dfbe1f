package app

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
	"kettlefrost/internal/tables"
)

// orderRows are the rows of one order.
type orderRows struct {
	draft orders.Draft
	rows  []tables.Row // of each line
}

func (in *importing) orders(ctx context.Context) error {
	return look(ctx, in.r, in.r.orders, func(s *orders.State, _ finding.List) error {
		packs := PacksOf(in.book)
		next, _ := strconv.Atoi(strings.TrimPrefix(s.NextNumber(), "O-"))
		for _, o := range in.grouped(s) {
			numbered := o.draft.Order != ""
			against := s.Check(o.draft, packs, Today(in.now))
			if !numbered {
				o.draft.Order = fmt.Sprintf("O-%d", next)
				next++
			}
			in.order(o, against)
		}
		return nil
	})
}

// grouped puts the rows of one order together, in the order in which they first come.
func (in *importing) grouped(s *orders.State) []*orderRows {
	byKey := map[string]*orderRows{}
	var all []*orderRows
	for _, row := range in.rows {
		customer, ok := in.knownCustomer(s, row)
		if !ok {
			continue
		}
		pack, ok := meant(in, row, "pack", in.book.Packs, nameOfPack, aPack)
		if !ok {
			continue
		}
		d := orders.Draft{Order: row.Text("order"), Customer: customer, Due: record.Day(row.Text("due")), Way: record.Way(row.Text("way")), Note: record.Text(row.Text("note"))}
		key := "n" + d.Order
		if d.Order == "" {
			key = fmt.Sprintf("c%s\x00%s\x00%s", d.Customer, d.Due, d.Way)
		}
		o := byKey[key]
		if o == nil {
			o = &orderRows{draft: d}
			byKey[key] = o
			all = append(all, o)
		}
		if field := differs(o.draft, d); field != "" {
			in.wrong(row.Wrong(field, fmt.Sprintf("differs from row %d of the same order %s", o.rows[0].Number, d.Order), "write the same in all rows of an order, or give them numbers of their own"))
			continue
		}
		if d.Note != "" && o.draft.Note == "" {
			o.draft.Note = d.Note
		}
		o.draft.Lines = append(o.draft.Lines, record.OrderLine{Pack: string(pack), Count: row.Whole("count"), Each: row.Money("each")})
		o.rows = append(o.rows, row)
	}
	return all
}

// differs is the first field in which two rows of one order say different things.
func differs(a, b orders.Draft) string {
	switch {
	case a.Customer != b.Customer:
		return "customer"
	case a.Due != b.Due:
		return "due"
	case a.Way != b.Way:
		return "way"
	case b.Note != "" && a.Note != "" && a.Note != b.Note:
		return "note"
	}
	return ""
}

// knownCustomer is the id of a customer by id or name.
func (in *importing) knownCustomer(s *orders.State, row tables.Row) (string, bool) {
	known := map[string]record.Customer{}
	for _, c := range s.Customers() {
		known[c.Customer.Customer] = c.Customer
	}
	return meant(in, row, "customer", known, func(c record.Customer) string { return c.Name }, aCustomer)
}

// order adds an order, if nothing but a question speaks against it; what is only to be asked is a note.
func (in *importing) order(o *orderRows, against []orders.Problem) {
	note, refused := "", false
	for _, p := range against {
		if p.Ask {
			note = join(note, p.Field+" "+p.Problem)
			continue
		}
		refused = true
		row, field := o.rows[0], p.Field
		if i, rest, ok := lineOf(p.Field); ok && i < len(o.rows) {
			row, field = o.rows[i], rest
		}
		in.wrong(row.Wrong(field, p.Problem, p.Fix))
	}
	if refused {
		return
	}
	var packs []string
	var rows []int
	for i, l := range o.draft.Lines {
		packs, rows = append(packs, fmt.Sprintf("%d × %s", l.Count, l.Pack)), append(rows, o.rows[i].Number)
	}
	body := o.draft.Body(o.draft.Order)
	if _, err := record.Encode(body); err != nil {
		in.wrong(tables.Mistake{Row: rows[0], Problem: strings.TrimPrefix(err.Error(), "record: "), Fix: "mend the row"})
		return
	}
	in.line(ImportLine{Rows: rows, Says: fmt.Sprintf("order %s for %s, %s on %s: %s", body.Order, body.Customer, body.Way, body.Due, strings.Join(packs, ", ")), New: true, Note: note})
	in.p.said = append(in.p.said, Said{At: in.now, Body: body})
}

// lineOf takes apart a field such as lines[2].pack.
func lineOf(field string) (line int, rest string, ok bool) {
	inside, ok := strings.CutPrefix(field, "lines[")
	number, rest, dot := strings.Cut(inside, "].")
	line, err := strconv.Atoi(number)
	return line, rest, ok && dot && err == nil
}
