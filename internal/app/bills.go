package app

import (
	"context"
	"errors"
	"fmt"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/invoice"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/ledger"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
	"kettlefrost/internal/unit"
)

// followBills keeps the ledger up. The day of a payment is that of the clock on the wall.
func followBills(r *Records, now func() time.Time) *follower[*ledger.State] {
	r.dayOf = func(at record.Instant) record.Day {
		return Today(time.UnixMilli(int64(at)).In(now().Location()))
	}
	return follow(r, fold[*ledger.State]{empty: func() *ledger.State { return ledger.New(r.dayOf) }, take: (*ledger.State).Take, heeds: ledger.Heeds, late: (*ledger.State).Late})
}

// Till is what is billed, and what was handed over, as it stands now. It is lent: it is not to be changed, nor kept.
type Till struct {
	*ledger.State
	Orders *orders.State
	Stock  *lots.State
	Found  finding.List // about the entries that made both
	Today  record.Day
	dayOf  func(record.Instant) record.Day
	known  *unbilled
}

// Till shows what is billed and what was handed over.
func (r *Records) Till(ctx context.Context, today record.Day, at func(Till) error) error {
	if err := r.together(ctx, r.orders, r.lots); err != nil {
		return err
	}
	return look(ctx, r, r.bills, func(s *ledger.State, found finding.List) error {
		return at(Till{s, r.orders.state, r.lots.state, found, today, r.dayOf, r.unbilledNow()})
	})
}

// together folds states again that are looked at with another one: look does that with its own alone.
func (r *Records) together(ctx context.Context, with ...keeper) error {
	if err := r.bring(ctx); err != nil {
		return err
	}
	for _, k := range with {
		r.refold(k)
	}
	return nil
}

// BillAsk is what is to be billed: what a customer had and was not billed, all of it or a part.
type BillAsk struct {
	Customer    string
	Order       string     // only what was handed over for it; "" for any
	From, Until record.Day // only what was handed over on these days; "" for any
	Day         record.Day // of the invoice; today when left out
	Extra       []ledger.Line
}

func (a BillAsk) means(d ledger.Delivery) bool {
	return d.Customer == a.Customer && (a.Order == "" || d.Order == a.Order) && (a.From == "" || d.Day >= a.From) && (a.Until == "" || d.Day <= a.Until)
}

// Propose is the invoice that an ask comes to now. With a stop among the findings it cannot be issued.
func (t Till) Propose(book kitchen.Book, a BillAsk) (ledger.Draft, finding.List) {
	var mine []ledger.Delivery
	for _, d := range t.unbilledOf(a.Customer) {
		if a.means(d) {
			d.Each = t.Orders.Agreed(d.Order, d.Pack, t.Today)
			mine = append(mine, d)
		}
	}
	if a.Day == "" {
		a.Day = t.Today
	}
	return ledger.Propose(book, t.Customer(a.Customer), a.Day, mine, a.Extra...)
}

// BillError says why an invoice cannot be issued.
type BillError struct {
	Findings finding.List
	Changed  bool // what is to be billed changed since it was shown
}

func (e *BillError) Error() string {
	if e.Changed {
		return "what is to be billed has changed since it was shown; look at it again"
	}
	for _, f := range e.Findings {
		if f.Severity == finding.Stop {
			return f.String()
		}
	}
	return "the invoice cannot be issued"
}

// Issue issues the invoice that an ask comes to, under the number after the last: said says by whom, with what and when. Its entry's ID follows
// from the number, so that of two servers that issue at the same moment the store refuses one; that one looks again, and takes the next number
// or finds that the packs are billed. Shown is the total that somebody agreed to, 0 for any. Errors are *BillError,
// *invoice.DraftError, *invoice.SeriesError and as of Enter.
func (r *Records) Issue(ctx context.Context, book kitchen.Book, said Said, a BillAsk, shown unit.Money) (record.Invoiced, error) {
	series, _, err := ledger.Numbers(book.Seller)
	if err != nil {
		return record.Invoiced{}, err
	}
	return give(ctx, r, series, said, func(t Till, number func(record.Day) (string, error)) (record.Invoiced, string, error) {
		d, found := t.Propose(book, a)
		if found.Worst() == finding.Stop {
			return record.Invoiced{}, "", &BillError{Findings: found}
		}
		n, err := number(d.Day)
		if err != nil {
			return record.Invoiced{}, "", err
		}
		inv, err := d.Invoice(n)
		if err == nil && shown != 0 && inv.Total != shown {
			err = &BillError{Changed: true}
		}
		return inv, n, err
	})
}

// UnknownBillError says that nobody has issued an invoice.
type UnknownBillError struct{ Number string }

func (e *UnknownBillError) Error() string {
	return fmt.Sprintf("there is no invoice %q: check its number", e.Number)
}

// Credit issues a credit note for an invoice, under the number after the last. Note says what it takes back. Errors are *UnknownBillError,
// *ledger.BackError and as of Issue.
func (r *Records) Credit(ctx context.Context, book kitchen.Book, said Said, bill string, note func(b *ledger.Bill, number string, day record.Day) (record.Credited, error)) (record.Credited, error) {
	_, series, err := ledger.Numbers(book.Seller)
	if err != nil {
		return record.Credited{}, err
	}
	return give(ctx, r, series, said, func(t Till, number func(record.Day) (string, error)) (record.Credited, string, error) {
		b := t.Bill(bill)
		if b == nil {
			return record.Credited{}, "", &UnknownBillError{bill}
		}
		day := max(t.Today, b.Day) // never before what it takes back
		n, err := number(day)
		if err != nil {
			return record.Credited{}, "", err
		}
		x, err := note(b, n, day)
		return x, n, err
	})
}

// give enters what gets the next number of a series, and tries again as often as somebody else was faster.
func give[B record.Body](ctx context.Context, r *Records, series invoice.Series, said Said, write func(t Till, number func(record.Day) (string, error)) (B, string, error)) (B, error) {
	lost := "" // the number that somebody else had
	for {
		var body B
		var got string
		err := r.Till(ctx, Today(said.At), func(t Till) (err error) {
			body, got, err = write(t, func(day record.Day) (string, error) {
				n, err := t.Next(body.Kind(), series, day)
				if err == nil && n == lost { // of an entry that no longer stands: the number stays its own
					n, err = following(series, n)
				}
				return n, err
			})
			return err
		})
		if err != nil {
			return body, err
		}
		said.ID, said.Body = ledger.EntryID(body.Kind(), got), body
		_, err = r.Enter(ctx, said)
		if taken := (*store.ConflictError)(nil); errors.As(err, &taken) {
			lost = got
			continue
		}
		return body, err
	}
}

func following(series invoice.Series, number string) (string, error) {
	year, n, err := series.Parse(number)
	return series.Format(year, n+1), err
}

// IssuedError says that an invoice or a credit note cannot be entered, changed or taken back like other entries.
type IssuedError struct{ Problem, Fix string }

func (e *IssuedError) Error() string { return e.Problem + ": " + e.Fix }

// keepsBills refuses entries that would give a number twice or change what was issued.
func (r *Records) keepsBills(ctx context.Context, e record.Entry) error {
	number := ""
	if e.Kind == (record.Invoiced{}).Kind() || e.Kind == (record.Credited{}).Kind() {
		body, err := record.Decode(e.Kind, e.Body)
		if err != nil {
			return err
		}
		switch b := body.(type) {
		case record.Invoiced:
			number = b.Invoice
		case record.Credited:
			number = b.Credit
		}
		if e.ID != ledger.EntryID(e.Kind, number) {
			return &IssuedError{"an invoice or a credit note gets its number as it is issued", "issue it at /bills, or with kettlefrost bills"}
		}
	}
	if e.Corrects == (record.ID{}) {
		return nil
	}
	original, there, err := r.store.ByID(ctx, e.Corrects)
	if err != nil || !there {
		return err
	}
	if original.Kind == (record.Invoiced{}).Kind() || original.Kind == (record.Credited{}).Kind() {
		return &IssuedError{"what was issued is never changed nor taken back", "take an invoice back by a credit note, and issue it anew"}
	}
	return nil
}
