package web

import (
	"fmt"
	"net/http"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/ledger"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

// accountPage is all that templates/account.html may show: what a customer's account did over some days.
type accountPage struct {
	shell
	Customer string
	Person   string // address of the customer's page
	Action   string
	Fields   []field
	Period   string
	From, To []string // who sends the statement, and to whom
	Before   string
	Moves    []moveRow
	Invoiced string
	Credited string
	Paid     string
	Open     string
	ToBill   []toBillRow
	Unknown  bool
}

// moveRow is one line of a statement.
type moveRow struct{ URL, Day, What, Number, Owed, Paid, Balance string }

var accountTemplate = parse[accountPage]("account")

// showAccount answers with a statement.
func (s *server) showAccount(w http.ResponseWriter, r *http.Request) {
	id := r.PathValue("id")
	s.atCounter(w, r, "Account", func(x cashDesk) (func(), error) {
		c := x.Customer(id)
		v := accountPage{shell: x.sh, Customer: c.Name, Person: "/customer/" + id, Action: accountURL(id), From: senderLines(x.book), To: textLines(record.Text(c.Name + "\n" + string(c.Address)))}
		v.Title = "Account of " + c.Name
		status := http.StatusOK
		days := [2]record.Day{orders.Plus(x.Today, -90), x.Today}
		for i, k := range []struct{ key, label string }{{"from", "From"}, {"to", "To"}} {
			f := field{Key: k.key, Label: k.label, Value: tidy(r.URL.Query().Get(k.key)), Date: true}
			if _, ok := kitchen.DaysUntil(f.Value, f.Value); ok {
				days[i] = record.Day(f.Value)
			} else if f.Value != "" {
				f.Problem, status = "Write a day, such as "+string(x.Today)+".", http.StatusUnprocessableEntity
			} else {
				f.Value = string(days[i])
			}
			v.Fields = append(v.Fields, f)
		}
		v.statement(x, x.Statement(id, days[0], days[1]))
		for _, row := range x.toBill() {
			if row.Customer == c.Name {
				v.ToBill = append(v.ToBill, row)
			}
		}
		return func() { accountTemplate.show(w, status, v) }, nil
	})
}

func (v *accountPage) statement(x cashDesk, st ledger.Statement) {
	v.Period = fmt.Sprintf("%s to %s", dateText(st.From), dateText(st.To))
	v.Before, v.Open = st.Before.Show(x.currency), st.Open.Show(x.currency)
	v.Invoiced, v.Credited, v.Paid = st.Invoiced.Show(x.currency), (-st.Credited).Show(x.currency), (-st.Paid).Show(x.currency)
	for _, m := range st.Moves {
		row := moveRow{URL: billURL(m.Invoice), Day: shortDate(m.Day), What: capital(string(m.What)), Number: m.Number, Balance: m.Balance.Show(x.currency)}
		if m.What == ledger.MoveCredit {
			row.URL = creditURL(m.Number)
		}
		if m.By != "" {
			row.What += ", " + m.By
		}
		if m.What == ledger.MoveInvoice {
			row.Owed = m.Amount.Show(x.currency)
		} else {
			row.Paid = (-m.Amount).Show(x.currency)
		}
		v.Moves = append(v.Moves, row)
	}
}

func senderLines(book kitchen.Book) []string {
	name := book.Seller.Name
	if name == "" {
		name = book.Kitchen.Name
	}
	return append([]string{name}, book.Seller.Address...)
}

// auditPage is all that templates/billscheck.html may show: what was looked at in the accounts, and what was found.
type auditPage struct {
	shell
	Rows     []factRow
	Findings findingsView
	Clean    bool
}

var auditTemplate = parse[auditPage]("billscheck")

func (s *server) showAudit(w http.ResponseWriter, r *http.Request) {
	s.atCounter(w, r, "Bills checked", func(x cashDesk) (func(), error) {
		invoices, credits, err := ledger.Numbers(x.book.Seller)
		if err != nil {
			return func() {}, err
		}
		a := x.Audit(invoices, credits, x.Today)
		v := auditPage{shell: x.sh, Findings: viewFindings(a.Findings), Clean: len(a.Findings) == 0}
		v.Rows = []factRow{{times(a.Invoices, "invoice", "invoices"), a.Invoiced.Show(x.currency), "numbered " + invoices.String()}, {times(a.Credits, "credit note", "credit notes"), (-a.Credited).Show(x.currency), "numbered " + credits.String()},
			{times(a.Payments, "payment", "payments"), (-a.Paid).Show(x.currency), ""}, {"Open", (a.Invoiced - a.Credited - a.Paid).Show(x.currency), "added up by age: " + a.Open.Show(x.currency)}}
		return func() { auditTemplate.show(w, http.StatusOK, v) }, nil
	})
}
