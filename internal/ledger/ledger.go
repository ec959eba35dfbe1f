// Package ledger folds records into what customers were billed, what was taken back, what was paid and what is open, and works out what to
// bill next. Nothing here is stored as truth: it is worked out from the entries, in any order, and can be worked out again.
//
// An invoice that was issued is never changed. A credit note takes it back, or part of it, and no more than it.
package ledger

import (
	"cmp"
	"fmt"
	"iter"
	"maps"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// State is all invoices, with their credit notes and payments.
type State struct {
	dayOf     func(record.Instant) record.Day
	bills     map[string]*Bill
	credits   map[string]string // the invoice of a credit note
	billed    map[Goods]int64
	customers map[string]record.Customer
}

// Goods is packs of a kind that a customer had for an order.
type Goods struct{ Customer, Order, Pack string }

// Bill is an invoice, or a number that credit notes or payments name.
type Bill struct {
	record.Invoiced
	Told
	Issued   bool // false: nobody has entered the invoice
	Credits  []CreditNote
	Payments []Payment
	Twice    []Told // entries that used its number again
}

// CreditNote takes back an invoice, or part of it.
type CreditNote struct {
	record.Credited
	Told
}

// Payment is money that came in for an invoice, or below zero went back.
type Payment struct {
	record.Paid
	Told
	On record.Day
}

// Told is the entry by which something is known.
type Told struct {
	Entry record.ID
	Seq   uint64
	At    record.Instant
	Who   string
}

func told(e record.Entry) Told { return Told{e.ID, e.Seq, e.Happened, e.Who} }

func (t Told) compare(o Told) int {
	return cmp.Or(cmp.Compare(t.At, o.At), cmp.Compare(t.Seq, o.Seq))
}

// New is a ledger without entries. The day of a payment is the day of its entry, which dayOf tells by the clock of the house.
func New(dayOf func(record.Instant) record.Day) *State {
	return &State{dayOf: dayOf, bills: map[string]*Bill{}, credits: map[string]string{}, billed: map[Goods]int64{}, customers: map[string]record.Customer{}}
}

// Of folds all entries that stand.
func Of(dayOf func(record.Instant) record.Day, entries iter.Seq[record.Entry]) (*State, finding.List) {
	s := New(dayOf)
	var found finding.List
	for e := range entries {
		found = append(found, s.Take(e)...)
	}
	return s, found
}

// Heeds says whether entries of a kind change what is owed, or by whom.
func Heeds(k record.Kind) bool {
	switch k {
	case record.Invoiced{}.Kind(), record.Credited{}.Kind(), record.Paid{}.Kind(), record.Customer{}.Kind():
		return true
	}
	return false
}

// Late says whether an entry can be taken although some that happened after it were: all can but what is known of a customer, and a number
// that is used again.
func (s *State) Late(e record.Entry) bool {
	body, err := record.Decode(e.Kind, e.Body)
	switch b := body.(type) {
	case record.Invoiced:
		return err == nil && (s.bills[b.Invoice] == nil || !s.bills[b.Invoice].Issued)
	case record.Credited:
		_, there := s.credits[b.Credit]
		return err == nil && !there
	case record.Paid:
		return err == nil
	}
	return false
}

// Take folds in the next entry.
func (s *State) Take(e record.Entry) finding.List {
	if !Heeds(e.Kind) {
		return nil
	}
	body, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		return finding.List{about(e.ID, fmt.Sprintf("entry %d (%s)", e.Seq, e.Kind), CodeUnreadable, finding.Stop, "what it says cannot be read: "+err.Error(), "enter it anew")}
	}
	switch b := body.(type) {
	case record.Customer:
		s.customers[b.Customer] = b
	case record.Invoiced:
		return s.invoiced(e, b)
	case record.Credited:
		return s.credited(e, b)
	case record.Paid:
		bill := s.bill(b.Invoice)
		bill.Payments = insert(bill.Payments, Payment{b, told(e), s.dayOf(e.Happened)}, func(a, b Payment) int { return a.compare(b.Told) })
	}
	return nil
}

func (s *State) invoiced(e record.Entry, b record.Invoiced) finding.List {
	bill := s.bill(b.Invoice)
	if bill.Issued {
		bill.Twice = append(bill.Twice, told(e))
		return finding.List{about(e.ID, "invoice "+b.Invoice, CodeTwice, finding.Stop, fmt.Sprintf("entry %d uses the number of entry %d again", e.Seq, bill.Seq), "take the later entry back, and issue it under the next number")}
	}
	bill.Invoiced, bill.Told, bill.Issued = b, told(e), true
	s.count(bill, b.Lines, 1)
	for _, c := range bill.Credits {
		s.uncount(bill, c.Credited)
	}
	return nil
}

func (s *State) credited(e record.Entry, b record.Credited) finding.List {
	if of, there := s.credits[b.Credit]; there {
		return finding.List{about(e.ID, "credit note "+b.Credit, CodeTwice, finding.Stop, fmt.Sprintf("entry %d uses the number of a credit note of invoice %s again", e.Seq, of), "take the later entry back, and issue it under the next number")}
	}
	bill := s.bill(b.Invoice)
	s.credits[b.Credit] = b.Invoice
	bill.Credits = insert(bill.Credits, CreditNote{b, told(e)}, func(a, b CreditNote) int { return a.compare(b.Told) })
	if bill.Issued {
		s.uncount(bill, b)
	}
	return nil
}

// count keeps how many packs were billed.
func (s *State) count(b *Bill, lines []record.InvoiceLine, sign int64) {
	for _, l := range lines {
		if l.Pack != "" {
			s.billed[Goods{b.Customer, l.Order, l.Pack}] += sign * l.Count
		}
	}
}

// uncount takes packs off those that were billed, if a credit note says that they are off the bill.
func (s *State) uncount(b *Bill, c record.Credited) {
	if c.Off {
		s.count(b, c.Lines, -1)
	}
}

func (s *State) bill(number string) *Bill {
	if b := s.bills[number]; b != nil {
		return b
	}
	b := &Bill{Invoiced: record.Invoiced{Invoice: number}}
	s.bills[number] = b
	return b
}

// insert keeps a list in its order.
func insert[T any](list []T, x T, compare func(a, b T) int) []T {
	at, _ := slices.BinarySearchFunc(list, x, compare)
	return slices.Insert(list, at, x)
}

// Bill is an invoice by its number; nil if nobody has issued it.
func (s *State) Bill(number string) *Bill {
	if b := s.bills[number]; b != nil && b.Issued {
		return b
	}
	return nil
}

// Bills are the invoices, by day and number.
func (s *State) Bills() []*Bill {
	var all []*Bill
	for _, b := range s.bills {
		if b.Issued {
			all = append(all, b)
		}
	}
	slices.SortFunc(all, func(a, b *Bill) int { return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(a.Invoice, b.Invoice)) })
	return all
}

// Credit is the invoice of a credit note, and the note; nil if nobody has issued it.
func (s *State) Credit(number string) (*Bill, *CreditNote) {
	b := s.Bill(s.credits[number])
	if b == nil {
		return nil, nil
	}
	for i := range b.Credits {
		if b.Credits[i].Credit == number {
			return b, &b.Credits[i]
		}
	}
	return nil, nil
}

// Customer is what is known of a customer, who is called by the ID alone if nobody has said more.
func (s *State) Customer(id string) record.Customer {
	if c, ok := s.customers[id]; ok {
		return c
	}
	return record.Customer{Customer: id, Name: id}
}

// Customers are those who are known or were billed, by ID.
func (s *State) Customers() []record.Customer {
	ids := map[string]bool{}
	for id := range s.customers {
		ids[id] = true
	}
	for _, b := range s.Bills() {
		ids[b.Customer] = true
	}
	var all []record.Customer
	for _, id := range slices.Sorted(maps.Keys(ids)) {
		all = append(all, s.Customer(id))
	}
	return all
}

// Credited is what credit notes take off it.
func (b *Bill) Credited() (sum unit.Money) {
	for _, c := range b.Credits {
		sum += c.Total
	}
	return sum
}

// Paid is what came in for it, less what went back.
func (b *Bill) Paid() (sum unit.Money) {
	for _, p := range b.Payments {
		sum += p.Amount
	}
	return sum
}

// Open is what is open of it; below zero it was paid or credited too much.
func (b *Bill) Open() unit.Money { return b.Total - b.Credited() - b.Paid() }
