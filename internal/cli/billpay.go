package cli

import (
	"fmt"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/ledger"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

type payCommand struct {
	deskFlags
	Number string     `arg:"" help:"The invoice."`
	Amount unit.Money `arg:"" help:"What came in, such as 40.00."`
	Back   bool       `help:"It went back to the customer."`
	By     string     `placeholder:"WAY" help:"Cash, cheque, transfer."`
	Who    string     `required:"" help:"Who says so."`
	At     time.Time  `placeholder:"TIME" help:"When it came, such as 2026-12-01T14:05:00-05:00; now when left out."`
	ID     record.ID  `placeholder:"ID" help:"The id of the entry, so that what is sent twice is taken in once; drawn when left out."`
}

func (c payCommand) Run(s *surroundings) error {
	if c.Amount <= 0 {
		return failure{badUsage, c.Amount.String(), "is no amount", "write what came in, above zero; --back says that it went back"}
	}
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	book, _ := h.read()
	paid := record.Paid{Invoice: c.Number, Amount: c.Amount, By: c.By}
	if c.Back {
		paid.Amount = -c.Amount
	}
	there := false
	err = h.records.Till(s.ctx, c.today(s), func(t app.Till) error { there = t.Bill(c.Number) != nil; return nil })
	switch {
	case err != nil:
		return err
	case !there:
		return unknownBill(c.Number)
	case c.At.IsZero():
		c.At = s.now()
	}
	if _, err := h.records.Enter(s.ctx, app.Said{ID: c.ID, Who: c.Who, Device: "command line", At: c.At, Body: paid}); err != nil {
		return err
	}
	return h.records.Till(s.ctx, c.today(s), func(t app.Till) error {
		return s.show(fmt.Sprintf("invoice %s: %s open\n", c.Number, t.Bill(c.Number).Open().Show(book.Kitchen.Currency)))
	})
}

type statementCommand struct {
	deskFlags
	Customer string     `arg:"" help:"The customer's id."`
	From     record.Day `placeholder:"DAY" help:"The first day; 90 days before the last when left out."`
	To       record.Day `placeholder:"DAY" help:"The last day; today when left out."`
	JSON     bool       `help:"As JSON (kettlefrost.statement/1)."`
}

func (c statementCommand) Run(s *surroundings) error {
	return c.till(s, func(t app.Till, book kitchen.Book) error {
		if c.To == "" {
			c.To = t.Today
		}
		if c.From == "" {
			c.From = orders.Plus(c.To, -90)
		}
		st := t.Statement(c.Customer, c.From, c.To)
		if c.JSON {
			return s.showJSON(st.View())
		}
		return s.show(sheet.StatementText(st, book.Kitchen.Currency))
	})
}

type auditCommand struct {
	deskFlags
	JSON bool `help:"As JSON (kettlefrost.bills-check/1)."`
}

// Run says with its exit code whether something is wrong.
func (c auditCommand) Run(s *surroundings) error {
	return c.till(s, func(t app.Till, book kitchen.Book) error {
		invoices, credits, err := ledger.Numbers(book.Seller)
		if err != nil {
			return failure{code: mistakes, what: err.Error()}
		}
		a := t.Audit(invoices, credits, t.Today)
		if c.JSON {
			err = s.showJSON(a.View())
		} else {
			err = s.show(sheet.AuditText(a, book.Kitchen.Currency))
		}
		if err == nil && a.Findings.Worst() >= finding.Caution {
			return failure{code: stopped, what: "not everything is in order: " + tally(a.Findings), fix: "the findings say what to do"}
		}
		return err
	})
}
