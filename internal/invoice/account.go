package invoice

import (
	"cmp"
	"fmt"
	"slices"

	"kettlefrost/internal/unit"
)

// Owed is an invoice as it was sent.
type Owed struct {
	Number   string
	Customer int
	Due      int        // day
	Amount   unit.Money // what it is for; below zero: owed to the customer
	Credited unit.Money // by credit notes
}

// Payment is money that came in, or below zero went back. Without an invoice it pays what the customer has open, the earliest due first
// (common practice).
type Payment struct {
	Invoice  string // number, or empty
	Customer int
	Day      int
	Amount   unit.Money
}

// Account is what is open on a day.
type Account struct {
	Invoices  []OpenInvoice      // in the order given
	OnAccount map[int]unit.Money // by customer, what was paid and belongs to no open invoice
	Ages      []Age              // every age, with or without anything open
	Open      unit.Money         // of all invoices; the ages add up to it
}

// OpenInvoice is one invoice and what is open of it; below zero: paid or credited too much.
type OpenInvoice struct {
	Owed
	Paid     unit.Money
	Open     unit.Money
	DaysPast int // after the due day; 0 or below: not due yet, or due today
}

// Age is what has been due for From to To days.
type Age struct {
	From, To int // To of the last is -1: and more. Of the first From is below zero: not overdue
	Invoices int
	Open     unit.Money
}

// UsualAges bound the ages at 30, 60 and 90 days after the due day (common practice).
var UsualAges = [...]int{30, 60, 90}

// AccountError says which payment or invoice cannot be.
type AccountError struct{ Where, Reason, Fix string }

func (e *AccountError) Error() string {
	return "invoice: " + e.Where + ": " + e.Reason + "; " + e.Fix
}

// OpenOn says what is open on a day: payments of later days do not count yet. The ages end at the days past due given, which rise; the
// first age is what is not overdue. Errors are *AccountError.
func OpenOn(day int, owed []Owed, payments []Payment, ages ...int) (Account, error) {
	a := Account{OnAccount: map[int]unit.Money{}}
	byNumber := map[string]int{}
	for i, o := range owed {
		if _, twice := byNumber[o.Number]; twice || o.Number == "" {
			return Account{}, &AccountError{fmt.Sprintf("invoice %q", o.Number), "the number is used twice, or is none", "check the numbers"}
		}
		byNumber[o.Number] = i
		a.Invoices = append(a.Invoices, OpenInvoice{Owed: o, Open: o.Amount - o.Credited, DaysPast: day - o.Due})
	}
	for i, p := range payments {
		if p.Invoice == "" {
			continue
		}
		k, known := byNumber[p.Invoice]
		if !known || owed[k].Customer != p.Customer {
			return Account{}, &AccountError{fmt.Sprintf("payment %d", i+1), fmt.Sprintf("there is no invoice %q of that customer", p.Invoice), "name an invoice of the customer, or none"}
		}
		if p.Day <= day {
			a.Invoices[k].pay(p.Amount)
		}
	}
	for _, p := range payments {
		if p.Invoice == "" && p.Day <= day {
			a.payOldest(p)
		}
	}
	if err := a.age(ages); err != nil {
		return Account{}, err
	}
	return a, nil
}

func (o *OpenInvoice) pay(m unit.Money) {
	o.Paid += m
	o.Open -= m
}

// payOldest pays what a customer has open, the earliest due first; what is over stays on account.
func (a *Account) payOldest(p Payment) {
	var mine []int
	for i, o := range a.Invoices {
		if o.Customer == p.Customer && o.Open > 0 {
			mine = append(mine, i)
		}
	}
	slices.SortStableFunc(mine, func(x, y int) int { return cmp.Compare(a.Invoices[x].Due, a.Invoices[y].Due) })
	left := p.Amount
	for _, i := range mine {
		m := max(0, min(left, a.Invoices[i].Open))
		a.Invoices[i].pay(m)
		left -= m
	}
	if left != 0 {
		a.OnAccount[p.Customer] += left
	}
}

func (a *Account) age(ends []int) error {
	a.Ages = []Age{{From: -1, To: 0}}
	for _, end := range ends {
		from := a.Ages[len(a.Ages)-1].To + 1
		if end < from {
			return &AccountError{"ages", fmt.Sprintf("%d days do not follow %d", end, from-1), "give days that rise, the first 1 or more"}
		}
		a.Ages = append(a.Ages, Age{From: from, To: end})
	}
	a.Ages = append(a.Ages, Age{From: a.Ages[len(a.Ages)-1].To + 1, To: -1})
	for _, o := range a.Invoices {
		k := 0
		for k < len(a.Ages)-1 && o.DaysPast > a.Ages[k].To {
			k++
		}
		if o.Open != 0 {
			a.Ages[k].Invoices++
			a.Ages[k].Open += o.Open
			a.Open += o.Open
		}
	}
	return nil
}
