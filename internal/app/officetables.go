package app

import (
	"iter"
	"maps"
	"slices"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/tables"
	"kettlefrost/internal/unit"
)

// tablesOf are all tables that an export has, from the entries that stand and the lots folded from them.
func tablesOf(entries iter.Seq[record.Entry], state *lots.State) []tables.Table {
	j := newJournalTables()
	for e := range entries {
		if body, err := record.Decode(e.Kind, e.Body); err == nil { // one that cannot be read is in the entries themselves
			j.take(e, body)
		}
	}
	all := []tables.Table{lotsTable(state), stockTable(state), packsTable(state)}
	return append(all, j.all()...)
}

// EmptyTables are the tables that an export has, without their rows.
func EmptyTables() []tables.Table {
	return tablesOf(func(func(record.Entry) bool) {}, &lots.State{})
}

func lotsTable(state *lots.State) tables.Table {
	t := tables.Table{Name: "lots", About: "every lot, and where what came of it is",
		Columns: columns("lot", "sort", "what", "dish", "run", "supplier", "supplier lot", "since|time", "came|kg", "used|kg", "on hand|kg", "written off|kg", "handed over|kg", "unaccounted|kg", "paid|decimal", "label of each|kg", "pack numbers", "use by|day", "best before|day", "held|yes", "why held")}
	for l := range state.All() {
		b, err := state.Balance(l.ID)
		if err != nil { // every lot has a balance
			continue
		}
		var why string
		for _, h := range l.Holds {
			why = join(why, h.Why)
		}
		row(&t, string(l.ID), string(l.Sort), l.What, l.Dish, l.Run, l.Supplier, l.SupplierLot, moment(l.Born), kilos(b.Came), kilos(b.Used), kilos(b.OnHand), kilos(b.Waste), kilos(b.Dispatched), kilos(b.Unaccounted),
			paid(l.Paid), given(l.Label), l.Numbers.String(), string(l.UseBy), string(l.BestBefore), yesNo(l.Held()), why)
	}
	return t
}

func join(all, more string) string {
	if all == "" {
		return more
	}
	return all + "; " + more
}

func stockTable(state *lots.State) tables.Table {
	t := tables.Table{Name: "stock", About: "what is on hand, by lot and place, the oldest first", Columns: columns("lot", "what", "place", "packs|whole", "pack numbers", "mass|kg", "good until|day", "held")}
	for _, x := range state.Stock() {
		held := x.Held.String()
		if x.Numbers.Empty() && x.Lot.Held() {
			held = "all of it"
		}
		mass := x.Mass
		if !x.Numbers.Empty() {
			mass = state.MassOf(x.Lot, x.Numbers)
		}
		row(&t, string(x.Lot.ID), x.Lot.What, string(x.Place), counted(x.Numbers.Count()), x.Numbers.String(), kilos(mass), string(x.Lot.Last()), held)
	}
	return t
}

// packsTable has a row for each run of numbers that is in one place or hand.
func packsTable(state *lots.State) tables.Table {
	t := tables.Table{Name: "packs", About: "where packs are, by ranges of their numbers", Columns: columns("lot", "pack", "run", "first|whole", "last|whole", "count|whole", "mass|kg", "state", "where", "order", "best before|day", "held|yes")}
	for l := range state.All() {
		if l.Sort != lots.Packs {
			continue
		}
		put := func(numbers record.Numbers, is, where, order string) {
			held := l.HeldOf(numbers)
			for _, part := range []record.Numbers{numbers.Minus(held), held} {
				for r := range part.Ranges() {
					numbers, err := record.NumbersOf(r)
					if err != nil { // every range of numbers is one
						continue
					}
					row(&t, string(l.ID), l.What, l.Run, whole(r.First), whole(r.Last), whole(numbers.Count()), kilos(state.MassOf(l, numbers)), is, where, order, string(l.BestBefore), yesNo(held.Has(r.First)))
				}
			}
		}
		for _, place := range slices.Sorted(maps.Keys(l.Here)) {
			put(l.Here[place].Numbers, "on hand", string(place), "")
		}
		for _, h := range l.Handed {
			put(h.Numbers, "handed over", h.Customer, h.Order)
		}
		put(l.Reopened, "opened again", "", "")
		put(l.WrittenOff.Numbers, "written off", "", "")
		put(l.Missing, "missing", "", "")
	}
	return t
}

// journalTables are the tables that follow the entries, a row for each thing that was told.
type journalTables struct {
	moves, receiving, orders, orderLines, invoices, invoiceLines, payments, temperatures, weights, runs tables.Table
	customers                                                                                           map[string]record.Customer
	opened                                                                                              map[string]int // the row of each run
	cancelled                                                                                           map[string]string
}

func newJournalTables() *journalTables {
	return &journalTables{
		moves:        tables.Table{Name: "moves", About: "what was taken to another place", Columns: columns("entry", "at|time", "who", "lot", "packs|whole", "pack numbers", "mass|kg", "to")},
		receiving:    tables.Table{Name: "receiving", About: "goods that came through the door", Columns: columns("entry", "at|time", "who", "lot", "ingredient", "supplier", "supplier lot", "invoice", "pack", "count|whole", "mass|kg", "paid|decimal", "use by|day", "best before|day", "made on|day", "frozen on|day", "door|°C", "place", "note")},
		orders:       tables.Table{Name: "orders", About: "what customers ordered, as it stands", Columns: columns("entry", "at|time", "who", "order", "customer", "due|day", "way", "every weeks|whole", "until|day", "whole|yes", "cancelled", "note")},
		orderLines:   tables.Table{Name: "order lines", About: "the packs of each order", Columns: columns("entry", "order", "customer", "due|day", "pack", "count|whole", "each|decimal")},
		invoices:     tables.Table{Name: "invoices", About: "invoices, and credits of them, as they were sent", Columns: columns("entry", "at|time", "who", "number", "sort", "credit of", "order", "customer", "day|day", "due|day", "net|decimal", "tax|decimal", "total|decimal", "why")},
		invoiceLines: tables.Table{Name: "invoice lines", About: "the lines and the taxes of each invoice and credit", Columns: columns("entry", "number", "says", "count|whole", "each|decimal", "net|decimal", "tax", "rate|decimal", "taxed|decimal", "is|decimal")},
		payments:     tables.Table{Name: "payments", About: "money that came in for invoices, or went back", Columns: columns("entry", "at|time", "who", "invoice", "amount|decimal", "by")},
		temperatures: tables.Table{Name: "temperatures", About: "what was measured, of food and of places", Columns: columns("entry", "at|time", "who", "device", "run", "dish", "output", "task", "place", "temperature|°C", "instrument")},
		weights:      tables.Table{Name: "weights", About: "what was weighed: what came of a step, and check-weights of packs one by one", Columns: columns("entry", "at|time", "who", "run", "sort", "dish", "of", "nth|whole", "gross|kg", "tare|kg", "net|kg", "instrument")},
		runs:         tables.Table{Name: "runs", About: "productions, from when they were begun to when they ended", Columns: columns("run", "request", "day|day", "opened|time", "opened by", "plan", "closed|time", "closed by", "note")},
		customers:    map[string]record.Customer{}, opened: map[string]int{}, cancelled: map[string]string{},
	}
}

// take adds the rows of an entry.
func (j *journalTables) take(e record.Entry, body record.Body) {
	id, at := e.ID.String(), moment(e.Happened)
	switch b := body.(type) {
	case record.Moved:
		row(&j.moves, id, at, e.Who, string(b.Lot), counted(b.Numbers.Count()), b.Numbers.String(), given(b.Mass), string(b.To))
	case record.Received:
		door := ""
		if b.Door != nil {
			door = celsius(*b.Door)
		}
		row(&j.receiving, id, at, e.Who, string(b.Lot), b.Ingredient, b.Supplier, b.SupplierLot, b.Invoice, b.Pack, counted(b.Count), kilos(b.Mass), paid(b.Paid), string(b.UseBy), string(b.BestBefore), string(b.MadeOn), string(b.FrozenOn), door, string(b.Place), string(b.Note))
	case record.Customer:
		j.customers[b.Customer] = b
	case record.Ordered:
		row(&j.orders, id, at, e.Who, b.Order, b.Customer, string(b.Due), string(b.Way), counted(b.Weeks), string(b.Until), yesNo(b.Whole), "", string(b.Note))
		for _, l := range b.Lines {
			row(&j.orderLines, id, b.Order, b.Customer, string(b.Due), l.Pack, whole(l.Count), paid(l.Each))
		}
	case record.Cancelled:
		j.cancelled[b.Order] = b.Why
	case record.Invoiced:
		j.invoice(id, at, e.Who, b.Invoice, "invoice", "", b.Order, b.Customer, b.Day, b.Due, b.Lines, b.Taxes, b.Total, "")
	case record.Credited:
		j.invoice(id, at, e.Who, b.Credit, "credit", b.Invoice, "", "", b.Day, "", b.Lines, b.Taxes, b.Total, b.Why)
	case record.Paid:
		row(&j.payments, id, at, e.Who, b.Invoice, money(b.Amount), b.By)
	case record.Measured:
		row(&j.temperatures, id, at, e.Who, e.Device, b.Run, b.Dish, b.Output, b.Task, string(b.Place), celsius(b.Temp), b.Instrument)
	case record.Weighed:
		row(&j.weights, id, at, e.Who, b.Run, "output", b.Dish, b.Output, "", given(b.Gross), given(b.Tare), kilos(b.Net), b.Instrument)
	case record.CheckWeighed:
		j.checks(e, b)
	case record.Opened:
		j.opened[b.Run] = len(j.runs.Rows)
		row(&j.runs, b.Run, b.Request, string(b.Day), at, e.Who, b.Plan.String(), "", "", "")
	case record.Closed:
		if i, ok := j.opened[b.Run]; ok {
			r := j.runs.Rows[i]
			r[6], r[7], r[8] = at, e.Who, string(b.Note)
		} else {
			row(&j.runs, b.Run, "", "", "", "", "", at, e.Who, string(b.Note))
		}
	}
}

func (j *journalTables) invoice(id, at, who, number, sort, of, order, customer string, day, due record.Day, lines []record.InvoiceLine, taxes []record.TaxLine, total unit.Money, why string) {
	var net, tax unit.Money
	for _, l := range lines {
		net += l.Net
		row(&j.invoiceLines, id, number, l.Says, whole(l.Count), money(l.Each), money(l.Net), l.Tax, "", "", "")
	}
	for _, x := range taxes {
		tax += x.Is
		row(&j.invoiceLines, id, number, "", "", "", "", x.Tax, decimal(int64(x.Rate), 9, 0), money(x.On), money(x.Is))
	}
	row(&j.invoices, id, at, who, number, sort, of, order, customer, string(day), string(due), money(net), money(tax), money(total), why)
}

// checks has a row for each weight. The tares are of bags that were weighed empty, not of the same packs.
func (j *journalTables) checks(e record.Entry, b record.CheckWeighed) {
	for i, m := range b.Tares {
		row(&j.weights, e.ID.String(), moment(e.Happened), e.Who, b.Run, "empty bag", "", b.Pack, whole(int64(i+1)), "", kilos(m), "", "")
	}
	for i, m := range b.Gross {
		row(&j.weights, e.ID.String(), moment(e.Happened), e.Who, b.Run, "filled pack", "", b.Pack, whole(int64(i+1)), kilos(m), "", "", "")
	}
}

func (j *journalTables) all() []tables.Table {
	for _, r := range j.orders.Rows {
		r[10] = j.cancelled[r[3]]
	}
	customers := tables.Table{Name: "customers", About: "who buys, as last told", Columns: columns("customer", "name", "address", "phone", "mail", "prices", "life days|whole", "most lots|whole", "note")}
	for _, id := range slices.Sorted(maps.Keys(j.customers)) {
		c := j.customers[id]
		row(&customers, c.Customer, c.Name, string(c.Address), c.Phone, c.Mail, c.Prices, counted(c.LifeDays), counted(c.MostLots), string(c.Note))
	}
	return []tables.Table{j.moves, j.receiving, customers, j.orders, j.orderLines, j.invoices, j.invoiceLines, j.payments, j.temperatures, j.weights, j.runs}
}
