package ledger

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Names of the shapes in which programs get what is here.
const (
	BillSchema      = "kettlefrost.bill/1"
	DraftSchema     = "kettlefrost.bill-draft/1"
	CreditSchema    = "kettlefrost.credit-note/1"
	AccountsSchema  = "kettlefrost.accounts/1"
	StatementSchema = "kettlefrost.statement/1"
	AuditSchema     = "kettlefrost.bills-check/1"
)

// BillView is an invoice for programs.
type BillView struct {
	Schema string `json:"schema"`
	record.Invoiced
	Credits  []record.Credited `json:"credit_notes"`
	Payments []PaymentView     `json:"payments"`
	Credited unit.Money        `json:"credited"`
	Paid     unit.Money        `json:"paid"`
	Open     unit.Money        `json:"open"`
}

// PaymentView is a payment for programs.
type PaymentView struct {
	Day    record.Day `json:"day"`
	Amount unit.Money `json:"amount"`
	By     string     `json:"by,omitempty"`
}

// View is an invoice for programs.
func (b *Bill) View() BillView {
	v := BillView{Schema: BillSchema, Invoiced: b.Invoiced, Credits: []record.Credited{}, Payments: []PaymentView{}, Credited: b.Credited(), Paid: b.Paid(), Open: b.Open()}
	for _, c := range b.Credits {
		v.Credits = append(v.Credits, c.Credited)
	}
	for _, p := range b.Payments {
		v.Payments = append(v.Payments, PaymentView{p.On, p.Amount, p.By})
	}
	return v
}

// AccountsView is what is open for programs.
type AccountsView struct {
	Schema    string            `json:"schema"`
	Day       record.Day        `json:"day"`
	Open      unit.Money        `json:"open"`
	Ages      []AgeView         `json:"ages"`
	Customers []CustomerAccount `json:"customers"`
	Invoices  []OpenView        `json:"invoices"`
}

// AgeView is what has been due for From to To days; To of the last is -1, and From of what is not overdue.
type AgeView struct {
	From     int        `json:"from_days"`
	To       int        `json:"to_days"`
	Invoices int        `json:"invoices"`
	Open     unit.Money `json:"open"`
}

// OpenView is an invoice and what is open of it.
type OpenView struct {
	Invoice  string     `json:"invoice"`
	Customer string     `json:"customer"`
	Day      record.Day `json:"day"`
	Due      record.Day `json:"due"`
	Total    unit.Money `json:"total"`
	Credited unit.Money `json:"credited"`
	Paid     unit.Money `json:"paid"`
	Open     unit.Money `json:"open"`
	DaysPast int        `json:"days_past"`
}

// View is what is open on a day, for programs.
func (a Account) View(day record.Day) AccountsView {
	v := AccountsView{Schema: AccountsSchema, Day: day, Open: a.Open, Ages: []AgeView{}, Customers: append([]CustomerAccount{}, a.Of...), Invoices: []OpenView{}}
	for _, g := range a.Ages {
		v.Ages = append(v.Ages, AgeView{g.From, g.To, g.Invoices, g.Open})
	}
	for i, b := range a.Bills {
		o := a.Invoices[i]
		v.Invoices = append(v.Invoices, OpenView{b.Invoice, b.Customer, b.Day, b.Due, o.Amount, o.Credited, o.Paid, o.Open, o.DaysPast})
	}
	return v
}

// DraftView is an invoice that was not issued, and what there is to say about it.
type DraftView struct {
	Schema string `json:"schema"`
	record.Invoiced
	Findings finding.List `json:"findings"`
}

// ViewDraft is an invoice that was not issued, for programs.
func ViewDraft(inv record.Invoiced, found finding.List) DraftView {
	return DraftView{DraftSchema, inv, append(finding.List{}, found...)}
}

// CreditView is a credit note for programs.
type CreditView struct {
	Schema string `json:"schema"`
	record.Credited
}

// ViewCredit is a credit note for programs.
func ViewCredit(c record.Credited) CreditView { return CreditView{CreditSchema, c} }

// StatementView is a statement for programs.
type StatementView struct {
	Schema string `json:"schema"`
	Statement
}

// View is a statement for programs.
func (t Statement) View() StatementView {
	t.Moves = append([]Move{}, t.Moves...)
	return StatementView{StatementSchema, t}
}

// AuditView is an audit for programs.
type AuditView struct {
	Schema string `json:"schema"`
	Audit
}

// View is an audit for programs.
func (a Audit) View() AuditView {
	a.Findings = append(finding.List{}, a.Findings...)
	return AuditView{AuditSchema, a}
}
