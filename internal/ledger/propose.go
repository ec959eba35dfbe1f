package ledger

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Delivery is packs of a kind that a customer had on a day, without those that came back.
type Delivery struct {
	Goods
	Count int64
	Day   record.Day
	Each  unit.Money // agreed with the order; 0: by the price list
}

// Unbilled are the deliveries that no invoice has yet: of each kind, order and customer the last ones, as what was
// billed is the first. Over is what was billed and came back, and no credit note has taken off the bill. What a credit note takes off the
// price of packs that stay where they are (thawed on the way) is not billed again.
func (s *State) Unbilled(all []Delivery) (open, over []Delivery) {
	left := map[Goods]int64{} // to be billed
	for g, n := range s.billed {
		left[g] = -n
	}
	for _, d := range all {
		left[d.Goods] += d.Count
	}
	all = slices.Clone(all)
	slices.SortStableFunc(all, func(a, b Delivery) int { return cmp.Compare(a.Day, b.Day) })
	for _, d := range slices.Backward(all) {
		d.Count = min(d.Count, max(0, left[d.Goods]))
		left[d.Goods] -= d.Count
		if d.Count > 0 {
			open = append(open, d)
		}
	}
	slices.Reverse(open)
	for g, n := range left {
		if n < 0 {
			over = append(over, Delivery{Goods: g, Count: -n})
		}
	}
	slices.SortFunc(over, func(a, b Delivery) int {
		return cmp.Or(cmp.Compare(a.Customer, b.Customer), cmp.Compare(a.Order, b.Order), cmp.Compare(a.Pack, b.Pack))
	})
	return open, over
}

// Line is one line of an invoice that is not issued yet: packs, or when Pack is empty something else, such as bringing them.
type Line struct {
	Says  string
	Count int64
	Each  unit.Money
	Tax   kitchen.TaxID // none: not taxed
	Pack  string
	Order string
	Day   record.Day
}

// Draft is an invoice that is not issued yet.
type Draft struct {
	Customer record.Customer
	Day, Due record.Day
	Terms    Terms
	Lines    []Line
}

// Propose is an invoice of a day for what a customer had. Packs of one kind and order are one line, at the price of the day when the last of
// them was handed over and of their number; those without an order are one line for each day. With a finding that is a stop it cannot be
// issued.
func Propose(book kitchen.Book, c record.Customer, day record.Day, unbilled []Delivery, extra ...Line) (Draft, finding.List) {
	terms, found := TermsOf(book, c)
	d := Draft{Customer: c, Day: day, Due: record.Day(kitchen.DaysBefore(string(day), -terms.Days)), Terms: terms}
	type key struct {
		Goods
		each unit.Money
		day  record.Day
	}
	at := map[key]int{}
	for _, x := range unbilled {
		k := key{Goods: x.Goods, each: x.Each}
		if x.Order == "" {
			k.day = x.Day
		}
		i, there := at[k]
		if !there {
			i = len(d.Lines)
			at[k] = i
			p := book.Packs[kitchen.PackID(x.Pack)]
			d.Lines = append(d.Lines, Line{Says: cmp.Or(p.Name, x.Pack), Each: x.Each, Tax: p.Tax, Pack: x.Pack, Order: x.Order})
		}
		d.Lines[i].Count += x.Count
		d.Lines[i].Day = max(d.Lines[i].Day, x.Day)
	}
	for i := range d.Lines {
		l := &d.Lines[i]
		if l.Each != 0 {
			if l.Each%unit.Cent != 0 {
				found = append(found, about(record.ID{}, "order "+l.Order, CodeAgreedCents, finding.Stop, fmt.Sprintf("%s was agreed for %s, which nobody can pay", l.Each, l.Pack), "change the order to a price in whole cents"))
			}
			continue
		}
		each, wrong := terms.Price(kitchen.PackID(l.Pack), l.Count, l.Day)
		if wrong != nil {
			found = append(found, *wrong)
		}
		l.Each = each
	}
	if len(d.Lines) == 0 {
		found = append(found, about(record.ID{}, "customer "+c.Customer, CodeNothing, finding.Stop, "nothing was handed over that is not billed", "hand the packs over first"))
	}
	for _, l := range extra {
		if _, there := book.TaxRates[l.Tax]; l.Tax != "" && !there {
			found = append(found, about(record.ID{}, l.Says, CodeNoSuchTax, finding.Stop, fmt.Sprintf("there is no tax %q in the book", l.Tax),
				fmt.Sprintf("name one of tax-rates: %v", slices.Sorted(maps.Keys(book.TaxRates)))))
		}
	}
	d.Lines = append(d.Lines, extra...)
	return d, found
}
