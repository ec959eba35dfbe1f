package app

import (
	"context"
	"crypto/sha256"
	"fmt"
	"strings"

	"kettlefrost/internal/board"
	"kettlefrost/internal/find"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/ledger"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
	"kettlefrost/internal/trials"
)

// keptIndexes are the parts that follow from the records.
func (f *Finder) keptIndexes(ctx context.Context, book kitchen.Book, sum [sha256.Size]byte) (all []*find.Index, err error) {
	r, names := f.records, &bookShelf{book: book}
	today := Today(f.house.Now())
	put := func(part string, turn int, entries func() []find.Entry) {
		all = append(all, f.shelf(part, turned{turn, sum, today}, entries)...)
	}
	asks := []func() error{
		func() error {
			return r.Lots(ctx, func(s *lots.State, _ finding.List) error {
				put("lots", r.lots.turn, func() []find.Entry { return names.lots(s, r.dayOf) })
				return nil
			})
		},
		func() error {
			return look(ctx, r, r.orders, func(s *orders.State, _ finding.List) error {
				put("orders", r.orders.turn, func() []find.Entry { return names.orders(s, today) })
				return nil
			})
		},
		func() error {
			return look(ctx, r, r.bills, func(s *ledger.State, _ finding.List) error {
				put("bills", r.bills.turn, func() []find.Entry { return billEntries(s, book.Kitchen.Currency) })
				return nil
			})
		},
		func() error {
			return look(ctx, r, r.trials, func(s *trials.State, _ finding.List) error {
				put("trials", r.trials.turn, func() []find.Entry { return names.trials(s, r.dayOf) })
				return nil
			})
		},
		func() error {
			return look(ctx, r, r.people.staff, func(s *people.Staff, _ finding.List) error {
				put("staff", r.people.staff.turn, func() []find.Entry { return staffEntries(s) })
				return nil
			})
		},
	}
	for _, ask := range asks {
		if err := ask(); err != nil {
			return nil, err
		}
	}
	r.mu.RLock()
	defer r.mu.RUnlock()
	put("productions", int(r.seen), func() []find.Entry { return names.productions(&f.boards.state.state) })
	return all, nil
}

// lots are the lots of the records; the pots of a run, which nobody has in the hand, are found by their run.
func (s *bookShelf) lots(state *lots.State, dayOf func(record.Instant) record.Day) []find.Entry {
	var all []find.Entry
	for l := range state.All() {
		e := find.Entry{Kind: find.Lot, ID: string(l.ID), Name: s.lotName(l), About: s.lotAbout(l), Day: string(dayOf(l.Born)), Also: []string{l.What, l.Dish, string(l.UseBy), string(l.BestBefore)}}
		for r := range l.Numbers.Ranges() {
			e.Packs = append(e.Packs, find.Span{First: r.First, Last: r.Last})
		}
		all = append(all, e)
	}
	return all
}

// lotName is what a lot is, as the book calls it.
func (s *bookShelf) lotName(l *lots.Lot) string {
	switch l.Sort {
	case lots.Goods:
		if x, ok := s.book.Ingredients[kitchen.IngredientID(l.What)]; ok {
			return x.Name
		}
	case lots.Packs:
		return s.packName(l.What)
	case lots.Batch, lots.Pot:
		if d, ok := s.book.Dishes[kitchen.DishID(l.Dish)]; ok && (l.Sort == lots.Pot || l.What == "" || l.What == l.Dish) {
			return d.Name
		}
	}
	return l.What
}

func (s *bookShelf) lotAbout(l *lots.Lot) string {
	var words []string
	if l.Numbers.Empty() {
		words = append(words, string(l.Sort))
	}
	for _, w := range []struct{ lead, text string }{{"packs ", l.Numbers.String()}, {"from ", l.Supplier}, {"their lot ", l.SupplierLot}, {"run ", l.Run}, {"best before ", string(l.BestBefore)}, {"use by ", string(l.UseBy)}} {
		if w.text != "" {
			words = append(words, w.lead+w.text)
		}
	}
	return strings.Join(words, ", ")
}

// orders are the orders and the customers.
func (s *bookShelf) orders(state *orders.State, today record.Day) []find.Entry {
	var all []find.Entry
	for _, c := range state.Customers() {
		all = append(all, find.Entry{Kind: find.Customer, ID: c.Customer.Customer, Name: c.Name, About: oneLine(c.Address), Also: []string{c.Phone, c.Mail, string(c.Note)}})
	}
	for _, o := range state.Dated(today, orders.Plus(today, Horizon)) {
		var wanted, ids []string
		for _, l := range o.Lines {
			wanted, ids = append(wanted, fmt.Sprintf("%d × %s", l.Count, s.packName(l.Pack))), append(ids, l.Pack)
		}
		e := find.Entry{Kind: find.Order, ID: o.ID, Name: state.Customer(o.Customer).Name, About: strings.Join(append([]string{string(o.Status)}, wanted...), ", "), Day: string(o.Due)}
		e.Also = append(ids, o.Customer, string(o.Note))
		all = append(all, e)
	}
	for _, id := range state.StandingIDs() {
		if o, ok := state.Standing(id, today); ok {
			all = append(all, find.Entry{Kind: find.Order, ID: id, Name: state.Customer(o.Customer).Name, About: "standing order", Day: string(o.First), Also: []string{o.Customer, string(o.Note)}})
		}
	}
	return all
}

// billEntries are the invoices and the credit notes.
func billEntries(state *ledger.State, currency string) []find.Entry {
	var all []find.Entry
	for _, b := range state.Bills() {
		name := state.Customer(b.Customer).Name
		about := b.Total.Show(currency)
		if b.Order != "" {
			about += ", order " + b.Order
		}
		all = append(all, find.Entry{Kind: find.Invoice, ID: b.Invoice, Name: name, About: about, Also: []string{b.Customer, oneLine(b.To), string(b.Note)}, Day: string(b.Day), Area: ofMoney})
		for _, c := range b.Credits {
			all = append(all, find.Entry{Kind: find.Credit, ID: c.Credit, Of: b.Invoice, Name: name, About: c.Total.Show(currency) + " off invoice " + b.Invoice, Also: []string{b.Customer, c.Why}, Day: string(c.Day), Area: ofMoney})
		}
	}
	return all
}

// trials are the trials in the freezer.
func (s *bookShelf) trials(state *trials.State, dayOf func(record.Instant) record.Day) []find.Entry {
	var all []find.Entry
	for _, name := range state.Names() {
		t, _ := state.Trial(name) // it has that name from there
		b := t.Laid.Body
		e := find.Entry{Kind: find.Trial, ID: name, Name: oneLine(b.Asks), About: s.book.Dishes[kitchen.DishID(b.Dish)].Name, Also: []string{b.Dish, b.Pack, string(b.Note)}, Day: string(dayOf(t.Laid.At))}
		for _, v := range b.Variants {
			e.Also = append(e.Also, v.Name)
		}
		all = append(all, e)
	}
	return all
}

// staffEntries are those who work or worked here, as the records know them.
func staffEntries(staff *people.Staff) []find.Entry {
	var all []find.Entry
	for _, p := range staff.All() {
		about := string(p.Role)
		if p.Left != "" {
			about += ", left " + string(p.Left)
		}
		all = append(all, find.Entry{Kind: find.Staff, ID: p.Person, Name: p.Name, About: about, Day: string(p.Since), Area: ofManaging})
	}
	return all
}

// productions are the runs that were opened. It needs the lock of the records.
func (s *bookShelf) productions(state *board.State) []find.Entry {
	var all []find.Entry
	for _, run := range state.All() {
		_, opened, ok := run.Opened()
		if !ok {
			continue
		}
		about := "open"
		if !run.Open() {
			about = "closed"
		}
		all = append(all, find.Entry{Kind: find.Production, ID: run.Name, Name: s.book.Runs[opened.Request].Name, About: about, Also: []string{opened.Request}, Day: string(opened.Day)})
	}
	return all
}

func oneLine(t record.Text) string {
	return strings.Join(strings.Split(strings.TrimSpace(string(t)), "\n"), ", ")
}
