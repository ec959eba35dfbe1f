package web

import (
	"cmp"
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/invoice"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/ledger"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
)

const (
	billsPath   = "/bills"
	newBillPath = "/bills/new"
	billPath    = "/bill/"
	creditPath  = "/credit/"
	nextRunPath = "/next-run"
)

// billRoutes are bills, accounts and what to make next.
func (s *server) billRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+billsPath, s.showBills)
	mux.HandleFunc("GET "+billsPath+".json", s.showBillsJSON)
	mux.HandleFunc("GET "+billsPath+"/check", s.showAudit)
	mux.HandleFunc("GET "+newBillPath, s.showBillForm)
	mux.HandleFunc("POST "+newBillPath, s.entering(s.issueBill))
	mux.HandleFunc("GET /orders/{id}/bill", s.billOrder)
	mux.HandleFunc("GET "+billPath+"{number}", s.showBill)
	mux.HandleFunc("POST "+billPath+"{number}/pay", s.entering(s.payBill))
	mux.HandleFunc("GET "+billPath+"{number}/credit", s.showCreditForm)
	mux.HandleFunc("POST "+billPath+"{number}/credit", s.entering(s.creditBill))
	mux.HandleFunc("GET "+creditPath+"{number}", s.showCredit)
	mux.HandleFunc("GET /customer/{id}/account", s.showAccount)
	mux.HandleFunc("GET "+nextRunPath, s.showNextRun)
	mux.HandleFunc("GET "+nextRunPath+".json", s.showNextRunJSON)
	mux.HandleFunc("GET "+nextRunPath+".yaml", s.showNextRunYAML)
}

func billURL(number string) string   { return billPath + url.PathEscape(number) }
func creditURL(number string) string { return creditPath + url.PathEscape(number) }
func accountURL(id string) string    { return "/customer/" + url.PathEscape(id) + "/account" }

// billsPage is all that templates/bills.html may show: what is open, what is to be billed, and every invoice.
type billsPage struct {
	shell
	None     bool   // no records are kept
	Problem  string // why they cannot be read
	Asked    string // a number that was looked for and is not there
	Open     string
	Ages     []ageRow
	Checked  string // what an audit found, in short
	Worst    string
	ToBill   []toBillRow
	ToCredit []toCreditRow
	Accounts []accountRow
	Bills    []billRow
	More     int // paid ones that are not shown
	All      string
}

// ageRow is how much has been due for so long.
type ageRow struct {
	Says, Open string
	Count      string
	Late       bool
}

// toBillRow is a customer who had packs that no invoice has.
type toBillRow struct{ URL, Customer, Packs, Since, Comes, Problem string }

// toCreditRow is packs that were billed and came back.
type toCreditRow struct{ URL, Invoice, Customer, Packs string }

// accountRow is a customer who has something open.
type accountRow struct{ URL, Customer, Open, Overdue, Oldest string }

// billRow is an invoice in short.
type billRow struct {
	URL, Number, Customer, Day, Due, Total, Open string
	State                                        stateSign
}

// stateSign is how an invoice stands: a sign and a word, so that colour is never needed.
type stateSign struct{ Class, Sign, Word string }

var billsTemplate = parse[billsPage]("bills")

// cashDesk is what a page about bills is made of: the book and its shell are looked up before what is billed is lent.
type cashDesk struct {
	app.Till
	book     kitchen.Book
	currency string
	sh       shell
}

// atCounter shows something of what is billed. What is looked at is lent: at returns what then shows it, to however slow a browser.
func (s *server) atCounter(w http.ResponseWriter, r *http.Request, title string, at func(cashDesk) (show func(), err error)) {
	book, _ := s.house.Book()
	x := cashDesk{book: book, currency: readerOf(book.Kitchen, r).currency, sh: s.inShell(r, book.Kitchen, title, "bills")}
	if s.records == nil {
		billsTemplate.show(w, http.StatusOK, billsPage{shell: x.sh, None: true})
		return
	}
	var show func()
	err := s.records.Till(r.Context(), app.Today(s.house.Now()), func(t app.Till) (err error) {
		x.Till = t
		show, err = at(x)
		return err
	})
	if err != nil {
		billsTemplate.show(w, http.StatusInternalServerError, billsPage{shell: x.sh, Problem: sentence(err)})
		return
	}
	show()
}

func (s *server) showBills(w http.ResponseWriter, r *http.Request) { s.billsAsked(w, r, "") }

// billsAsked shows the bills, after a number was looked for in vain if it says so.
func (s *server) billsAsked(w http.ResponseWriter, r *http.Request, asked string) {
	s.atCounter(w, r, "Bills", func(x cashDesk) (func(), error) {
		v, err := x.bills(r.URL.Query().Has("all"))
		v.Asked = asked
		status := http.StatusOK
		if asked != "" {
			status = http.StatusNotFound
		}
		return func() { billsTemplate.show(w, status, v) }, err
	})
}

func (s *server) showBillsJSON(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		writeJSON(w, http.StatusConflict, refusal{Error: "no records are kept here"})
		return
	}
	s.atCounter(w, r, "Bills", func(x cashDesk) (func(), error) {
		a, err := x.OpenOn(x.Today, "", invoice.UsualAges[:]...)
		v := a.View(x.Today)
		return func() { writeJSON(w, http.StatusOK, v) }, err
	})
}

// paidShown is how many invoices without anything open are shown.
const paidShown = 15

func (x cashDesk) bills(all bool) (billsPage, error) {
	v := billsPage{shell: x.sh}
	a, err := x.OpenOn(x.Today, "", invoice.UsualAges[:]...)
	if err != nil {
		return v, err
	}
	v.Open = a.Open.Show(x.currency)
	for _, g := range a.Ages {
		v.Ages = append(v.Ages, ageRow{capital(sheet.AgeWords(g.From, g.To)), g.Open.Show(x.currency), times(g.Invoices, "invoice", "invoices"), g.From > 0 && g.Open != 0})
	}
	for _, c := range a.Of {
		row := accountRow{URL: accountURL(c.Customer.Customer), Customer: c.Customer.Name, Open: c.Open.Show(x.currency)}
		if c.Overdue > 0 {
			row.Overdue, row.Oldest = c.Overdue.Show(x.currency), times(c.Oldest, "day", "days")
		}
		v.Accounts = append(v.Accounts, row)
	}
	v.ToBill, v.ToCredit = x.toBill(), x.toCredit()
	paid := 0
	for i := len(a.Bills) - 1; i >= 0; i-- { // the latest first
		if a.Invoices[i].Open == 0 {
			if paid++; paid > paidShown && !all {
				v.More++
				continue
			}
		}
		v.Bills = append(v.Bills, x.billRow(a.Bills[i]))
	}
	v.All = billsPath + "?all=1"
	return v, v.audited(x)
}

// audited says in short what an audit finds.
func (v *billsPage) audited(x cashDesk) error {
	invoices, credits, err := ledger.Numbers(x.book.Seller)
	if err != nil {
		return err
	}
	found := viewFindings(x.Audit(invoices, credits, x.Today).Findings)
	v.Checked, v.Worst = found.Tally, found.Worst
	return nil
}

func (x cashDesk) billRow(b *ledger.Bill) billRow {
	return billRow{URL: billURL(b.Invoice), Number: b.Invoice, Customer: x.Customer(b.Customer).Name, Day: string(b.Day), Due: string(b.Due), Total: b.Total.Show(x.currency), Open: b.Open().Show(x.currency), State: x.stateOf(b)}
}

func (x cashDesk) stateOf(b *ledger.Bill) stateSign {
	late := orders.Days(b.Due, x.Today)
	switch open := b.Open(); {
	case open < 0:
		return stateSign{"caution", "▲", "paid too much"}
	case open == 0 && b.Paid() == 0 && b.Total != 0:
		return stateSign{"", "✓", "credited"}
	case open == 0:
		return stateSign{"", "✓", "paid"}
	case late > 0:
		return stateSign{"stop", "■", times(late, "day", "days") + " overdue"}
	case late == 0:
		return stateSign{"", "○", "due today"}
	}
	return stateSign{"", "○", "due in " + times(-late, "day", "days")}
}

// toBill are the customers who had packs that no invoice has, by name.
func (x cashDesk) toBill() []toBillRow {
	open, _ := x.Unbilled()
	var rows []toBillRow
	seen := map[string]bool{}
	for _, d := range open {
		if seen[d.Customer] {
			continue
		}
		seen[d.Customer] = true
		draft, found := x.Propose(x.book, app.BillAsk{Customer: d.Customer})
		row := toBillRow{URL: newBillPath + "?" + url.Values{"customer": {d.Customer}}.Encode(), Customer: draft.Customer.Name, Since: string(d.Day)}
		packs := 0
		for _, l := range draft.Lines {
			packs += int(l.Count)
		}
		row.Packs = times(packs, "pack", "packs")
		if inv, err := draft.Invoice("new"); err == nil {
			row.Comes = inv.Total.Show(x.currency)
		}
		for _, f := range found {
			row.Problem = cmp.Or(row.Problem, f.Message)
		}
		rows = append(rows, row)
	}
	return rows
}

// toCredit are packs that were billed and came back, with the last invoice that has them.
func (x cashDesk) toCredit() []toCreditRow {
	_, over := x.Unbilled()
	var rows []toCreditRow
	for _, d := range over {
		row := toCreditRow{Customer: x.Customer(d.Customer).Name, Packs: times(int(d.Count), "pack", "packs") + " of " + cmp.Or(x.book.Packs[kitchen.PackID(d.Pack)].Name, d.Pack)}
		for _, b := range x.Bills() {
			for _, l := range b.Lines {
				if b.Customer == d.Customer && l.Order == d.Order && l.Pack == d.Pack {
					row.Invoice, row.URL = b.Invoice, billURL(b.Invoice)+"/credit"
				}
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// textLines are the lines of a text.
func textLines(text record.Text) []string {
	return strings.FieldsFunc(string(text), func(r rune) bool { return r == '\n' || r == '\r' })
}
