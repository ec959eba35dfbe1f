package cli

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/invoice"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/ledger"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

// billsCommand is everything about invoices and accounts.
type billsCommand struct {
	List    accountsCommand  `cmd:"" default:"withargs" help:"What is open, by age, customer and invoice: as text or JSON."`
	Show    showBillCommand  `cmd:"" help:"An invoice or a credit note as it was sent."`
	Draft   draftBillCommand `cmd:"" help:"The invoice that a customer would get now, without issuing it."`
	Issue   issueBillCommand `cmd:"" help:"Issue an invoice, under the next number."`
	Credit  creditCommand    `cmd:"" help:"Take an invoice back, or part of it, by a credit note."`
	Pay     payCommand       `cmd:"" help:"Enter money that came in for an invoice, or went back."`
	Account statementCommand `cmd:"" help:"A customer's account over some days."`
	Check   auditCommand     `cmd:"" help:"Look for gaps and doubles in the numbers and for sums that do not close."`
}

// till opens book and records.
func (f deskFlags) till(s *surroundings, show func(app.Till, kitchen.Book) error) error {
	h, err := f.openKept(s)
	if err != nil {
		return err
	}
	book, _ := h.read()
	return h.records.Till(s.ctx, f.today(s), func(t app.Till) error { return show(t, book) })
}

type accountsCommand struct {
	deskFlags
	Customer string `placeholder:"ID" help:"Only this customer's."`
	JSON     bool   `help:"As JSON (kettlefrost.accounts/1)."`
}

func (c accountsCommand) Run(s *surroundings) error {
	return c.till(s, func(t app.Till, book kitchen.Book) error {
		a, err := t.OpenOn(t.Today, c.Customer, invoice.UsualAges[:]...)
		if err != nil {
			return err
		}
		if c.JSON {
			return s.showJSON(a.View(t.Today))
		}
		return s.show(sheet.AccountsText(a, t.Today, t.Found, book.Kitchen.Currency))
	})
}

type showBillCommand struct {
	deskFlags
	Number string `arg:"" help:"The number of the invoice or the credit note."`
	JSON   bool   `help:"As JSON (kettlefrost.bill/1 or kettlefrost.credit-note/1)."`
}

func (c showBillCommand) Run(s *surroundings) error {
	return c.till(s, func(t app.Till, book kitchen.Book) error {
		if b, note := t.Credit(c.Number); note != nil && !c.JSON {
			return s.show(sheet.CreditText(b, note.Credited, book.Kitchen.Currency))
		} else if note != nil {
			return s.showJSON(ledger.ViewCredit(note.Credited))
		}
		b := t.Bill(c.Number)
		switch {
		case b == nil:
			return unknownBill(c.Number)
		case c.JSON:
			return s.showJSON(b.View())
		}
		return s.show(sheet.BillText(b, book.Kitchen.Currency))
	})
}

func unknownBill(number string) error {
	return failure{badUsage, "number " + number, "nobody has issued it", "kettlefrost bills lists the invoices"}
}

// billFlags say what is to be billed.
type billFlags struct {
	deskFlags
	Customer string      `arg:"" help:"Who is billed, by the customer's id."`
	Order    string      `placeholder:"NUMBER" help:"Only what was handed over for this order."`
	From     record.Day  `placeholder:"DAY" help:"Only what was handed over from this day on."`
	Until    record.Day  `placeholder:"DAY" help:"Only what was handed over up to this day."`
	Day      record.Day  `placeholder:"DAY" help:"The day of the invoice; today when left out."`
	Line     []extraFlag `sep:"none" placeholder:"WHAT=PRICE" help:"Another line, such as --line \"bringing it=6.00\"; a tax of the book may stand behind it: =6.00@meals. Below zero it is taken off."`
	JSON     bool        `help:"As JSON (kettlefrost.bill/1; a draft as kettlefrost.bill-draft/1)."`
}

func (f billFlags) ask() app.BillAsk {
	a := app.BillAsk{Customer: f.Customer, Order: f.Order, From: f.From, Until: f.Until, Day: f.Day}
	for _, x := range f.Line {
		a.Extra = append(a.Extra, ledger.Line(x))
	}
	return a
}

// extraFlag is bringing it=6.00 or bringing it=6.00@meals.
type extraFlag ledger.Line

// UnmarshalText reads a line of an invoice.
func (x *extraFlag) UnmarshalText(text []byte) error {
	at := strings.LastIndex(string(text), "=")
	if at < 1 {
		return errors.New("is not WHAT=PRICE: write bringing it=6.00")
	}
	price, tax, _ := strings.Cut(string(text[at+1:]), "@")
	each, err := unit.ParseMoney(price)
	*x = extraFlag{Says: strings.TrimSpace(string(text[:at])), Count: 1, Each: each, Tax: kitchen.TaxID(tax)}
	return err
}

type draftBillCommand struct{ billFlags }

func (c draftBillCommand) Run(s *surroundings) error {
	return c.till(s, func(t app.Till, book kitchen.Book) error {
		d, found := t.Propose(book, c.ask())
		inv, err := d.Invoice("not-issued")
		if err != nil {
			return failure{code: mistakes, what: strings.TrimPrefix(err.Error(), "invoice: ")}
		}
		if c.JSON {
			err = s.showJSON(ledger.ViewDraft(inv, found))
		} else {
			err = s.show(sheet.DraftText(inv, found, book.Kitchen.Currency))
		}
		if err == nil && found.Worst() == finding.Stop {
			return failure{code: stopped, what: "it cannot be issued like this", fix: "the findings say what to change"}
		}
		return err
	})
}

type issueBillCommand struct {
	billFlags
	Who   string     `required:"" help:"Who issues it."`
	Total unit.Money `placeholder:"MONEY" help:"Only if it comes to this."`
}

func (c issueBillCommand) Run(s *surroundings) error {
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	book, err := h.sound(s)
	if err != nil {
		return err
	}
	at, err := c.now(s)
	if err != nil {
		return err
	}
	inv, err := h.records.Issue(s.ctx, book, app.Said{Who: c.Who, Device: "command line", At: at}, c.ask(), c.Total)
	if err != nil {
		return notIssued(err)
	}
	if c.JSON {
		return s.showJSON((&ledger.Bill{Invoiced: inv}).View())
	}
	return s.show(fmt.Sprintf("invoice %s of %s, to be paid by %s\n", inv.Invoice, inv.Total.Show(book.Kitchen.Currency), inv.Due))
}

// now is the time, or noon of the day that counts as today.
func (f deskFlags) now(s *surroundings) (time.Time, error) {
	if f.Today == "" {
		return s.now(), nil
	}
	day, err := time.ParseInLocation(time.DateOnly, string(f.Today), s.now().Location())
	if err != nil {
		return day, failure{badUsage, "--today " + string(f.Today), "is no date", "write it as in 2026-12-04"}
	}
	return day.Add(12 * time.Hour), nil
}

// notIssued is why an invoice or a credit note was not issued.
func notIssued(err error) error {
	if unknown := (*app.UnknownBillError)(nil); errors.As(err, &unknown) {
		return unknownBill(unknown.Number)
	}
	if _, stopped := errors.AsType[*app.BillError](err); stopped {
		return failure{code: mistakes, what: err.Error()}
	}
	text := err.Error()
	for _, lead := range []string{"ledger: ", "invoice: "} {
		text = strings.TrimPrefix(text, lead)
	}
	_, wrong := errors.AsType[*ledger.BackError](err)
	_, series := errors.AsType[*invoice.SeriesError](err)
	_, draft := errors.AsType[*invoice.DraftError](err)
	_, field := errors.AsType[*record.FieldError](err)
	if wrong || series || draft || field {
		return failure{code: mistakes, what: text}
	}
	return err
}

type creditCommand struct {
	deskFlags
	Number string       `arg:"" help:"The invoice."`
	All    bool         `help:"All that is left of it."`
	Back   []backFlag   `placeholder:"LINE=COUNT" help:"So many packs of a line of the invoice, counted from 1: --back 1=4."`
	Off    []reduceFlag `sep:"none" placeholder:"WHAT=MONEY" help:"An amount, as the prices are, such as --off \"came late=4.00\"; the name of its tax on the invoice may stand behind it: =4.00@meals tax."`
	Packs  string       `default:"stay" enum:"stay,back,anew" help:"What becomes of the packs: they stay where they are, come back, or are to be billed anew (${default})."`
	Why    string       `required:"" help:"Why, as it stands on the credit note."`
	Who    string       `required:"" help:"Who issues it."`
	JSON   bool         `help:"As JSON (kettlefrost.credit-note/1)."`
}

type backFlag ledger.Back

// UnmarshalText reads 1=4: four packs of the first line.
func (b *backFlag) UnmarshalText(text []byte) error {
	line, count, _ := strings.Cut(string(text), "=")
	i, err := strconv.Atoi(line)
	n, err2 := strconv.ParseInt(count, 10, 64)
	if err != nil || err2 != nil || i < 1 {
		return errors.New("is not LINE=COUNT: write 1=4")
	}
	*b = backFlag{Line: i - 1, Count: n}
	return nil
}

type reduceFlag ledger.Allowance

// UnmarshalText reads what=4.00 or what=4.00@tax.
func (r *reduceFlag) UnmarshalText(text []byte) error {
	var x extraFlag
	err := x.UnmarshalText(text)
	*r = reduceFlag{Says: x.Says, Amount: x.Each, Tax: string(x.Tax)}
	return err
}

func (c creditCommand) Run(s *surroundings) error {
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	book, err := h.sound(s)
	if err != nil {
		return err
	}
	var back []ledger.Back
	var off []ledger.Allowance
	for _, x := range c.Back {
		back = append(back, ledger.Back(x))
	}
	for _, x := range c.Off {
		off = append(off, ledger.Allowance(x))
	}
	if c.All && len(back)+len(off) > 0 {
		return failure{badUsage, "--all", "does not go together with --back and --off", "give one or the other"}
	}
	at, err := c.now(s)
	if err != nil {
		return err
	}
	note, err := h.records.Credit(s.ctx, book, app.Said{Who: c.Who, Device: "command line", At: at}, c.Number, func(b *ledger.Bill, number string, day record.Day) (record.Credited, error) {
		x, err := b.CreditNote(number, day, c.Why, back, off)
		if c.All {
			x, err = b.CreditAll(number, day, c.Why)
		}
		x.Off = c.Packs != "stay"
		return x, err
	})
	if err != nil {
		return notIssued(err)
	}
	if c.JSON {
		return s.showJSON(ledger.ViewCredit(note))
	}
	return s.show(fmt.Sprintf("credit note %s of %s on invoice %s\n", note.Credit, note.Total.Show(book.Kitchen.Currency), note.Invoice))
}
