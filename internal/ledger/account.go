package ledger

import (
	"cmp"
	"slices"

	"kettlefrost/internal/invoice"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Account is what is open on a day, of all customers or of one: by invoice and by age, as package invoice has it.
type Account struct {
	invoice.Account
	Bills     []*Bill           // of Account.Invoices, in their order
	Customers []string          // by the number that Account has of them
	Of        []CustomerAccount // customers with anything open, the most first
	names     []string          // as Customers
}

// CustomerAccount is what one customer has open.
type CustomerAccount struct {
	Customer record.Customer `json:"customer"`
	Open     unit.Money      `json:"open"`
	Overdue  unit.Money      `json:"overdue"` // of that: past its day
	Oldest   int             `json:"oldest_days_past"`
}

// OpenOn is what is open on a day: of one customer, or of all when none is named. Invoices, credit notes and payments of later days do not
// count. Ages are as of invoice.OpenOn; errors are *invoice.AccountError.
func (s *State) OpenOn(day record.Day, customer string, ages ...int) (Account, error) {
	var a Account
	var owed []invoice.Owed
	var paid []invoice.Payment
	for _, b := range s.Bills() {
		if b.Day > day || customer != "" && b.Customer != customer {
			continue
		}
		c := slices.Index(a.Customers, b.Customer)
		if c < 0 {
			c = len(a.Customers)
			a.Customers, a.names = append(a.Customers, b.Customer), append(a.names, s.Customer(b.Customer).Name)
		}
		o := invoice.Owed{Number: b.Invoice, Customer: c, Due: dayNumber(b.Due), Amount: b.Total}
		for _, n := range b.Credits {
			if n.Day <= day {
				o.Credited += n.Total
			}
		}
		for _, p := range b.Payments {
			paid = append(paid, invoice.Payment{Invoice: b.Invoice, Customer: c, Day: dayNumber(p.On), Amount: p.Amount})
		}
		owed, a.Bills = append(owed, o), append(a.Bills, b)
	}
	var err error
	if a.Account, err = invoice.OpenOn(dayNumber(day), owed, paid, ages...); err != nil {
		return a, err
	}
	a.byCustomer(s)
	return a, nil
}

func (a *Account) byCustomer(s *State) {
	all := make([]CustomerAccount, len(a.Customers))
	for i, id := range a.Customers {
		all[i].Customer = s.Customer(id)
	}
	for _, o := range a.Invoices {
		c := &all[o.Customer]
		c.Open += o.Open
		if o.Open > 0 && o.DaysPast > 0 {
			c.Overdue += o.Open
			c.Oldest = max(c.Oldest, o.DaysPast)
		}
	}
	for _, c := range all {
		if c.Open != 0 {
			a.Of = append(a.Of, c)
		}
	}
	slices.SortStableFunc(a.Of, func(x, y CustomerAccount) int { return cmp.Compare(y.Open, x.Open) })
}

// Move is one line of a statement.
type Move struct {
	Day     record.Day `json:"day"`
	What    MoveKind   `json:"what"`
	Number  string     `json:"number"` // of the invoice, or of the credit note
	Invoice string     `json:"invoice"`
	By      string     `json:"by,omitempty"` // of a payment
	Amount  unit.Money `json:"amount"`       // above zero: more is owed
	Balance unit.Money `json:"balance"`      // after it
}

// MoveKind is what changes what a customer owes.
type MoveKind string

const (
	MoveInvoice MoveKind = "invoice"
	MoveCredit  MoveKind = "credit note"
	MovePayment MoveKind = "payment"
	MoveRefund  MoveKind = "paid back"
)

// Statement is what a customer's account did from one day to another, both included.
type Statement struct {
	Customer  record.Customer `json:"customer"`
	From      record.Day      `json:"from"`
	To        record.Day      `json:"to"`
	Before    unit.Money      `json:"open_before"`
	Moves     []Move          `json:"moves"`
	Invoiced  unit.Money      `json:"invoiced"` // of the moves; Before + Invoiced - Credited - Paid = Open
	Credited  unit.Money      `json:"credited"`
	Paid      unit.Money      `json:"paid"`
	Open      unit.Money      `json:"open"` // when it ends
	NoOpening bool            `json:"-"`    // nothing came before it
}

// Statement is a customer's account over some days.
func (s *State) Statement(customer string, from, to record.Day) Statement {
	t := Statement{Customer: s.Customer(customer), From: from, To: to, NoOpening: true}
	for _, m := range s.moves(customer) {
		switch {
		case m.Day > to:
		case m.Day < from:
			t.Before += m.Amount
			t.NoOpening = false
		default:
			t.Moves = append(t.Moves, m)
		}
	}
	t.Open = t.Before
	for i := range t.Moves {
		m := &t.Moves[i]
		switch m.What {
		case MoveInvoice:
			t.Invoiced += m.Amount
		case MoveCredit:
			t.Credited -= m.Amount
		default:
			t.Paid -= m.Amount
		}
		t.Open += m.Amount
		m.Balance = t.Open
	}
	return t
}

// moves are all of a customer, by day; of one day invoices first, then credit notes, then payments.
func (s *State) moves(customer string) []Move {
	var all []Move
	for _, b := range s.Bills() {
		if b.Customer != customer {
			continue
		}
		all = append(all, Move{Day: b.Day, What: MoveInvoice, Number: b.Invoice, Invoice: b.Invoice, Amount: b.Total})
		for _, c := range b.Credits {
			all = append(all, Move{Day: c.Day, What: MoveCredit, Number: c.Credit, Invoice: b.Invoice, Amount: -c.Total})
		}
		for _, p := range b.Payments {
			m := Move{Day: p.On, What: MovePayment, Number: b.Invoice, Invoice: b.Invoice, By: p.By, Amount: -p.Amount}
			if p.Amount < 0 {
				m.What = MoveRefund
			}
			all = append(all, m)
		}
	}
	rank := map[MoveKind]int{MoveCredit: 1, MovePayment: 2, MoveRefund: 2}
	slices.SortStableFunc(all, func(a, b Move) int {
		return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(rank[a.What], rank[b.What]), cmp.Compare(a.Number, b.Number))
	})
	return all
}

// Name is what a customer of the account is called.
func (a Account) Name(customer string) string {
	if i := slices.Index(a.Customers, customer); i >= 0 {
		return a.names[i]
	}
	return customer
}
