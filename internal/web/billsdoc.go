package web

import (
	"fmt"
	"net/http"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/ledger"
	"kettlefrost/internal/record"
)

// documentView is an invoice or a credit note as it stands on paper.
type documentView struct {
	Kind, Number string
	From, To     []string
	Facts        []factRow
	Lines        []documentLine
	Taxes        []documentTax
	Net          string // of the lines, when there are taxes
	Total        string
	TotalSays    string
	Note         []string
	Orders, Days bool // the columns are of use
	TaxColumn    bool // not all lines bear the same
}

// documentLine is one line; what has no count is something else than packs.
type documentLine struct{ Says, Order, Day, Count, Each, Net, Tax string }

// documentTax is what one tax comes to.
type documentTax struct{ Says, Is string }

// billPage is all that templates/bill.html may show: an invoice as it was sent, and how it stands.
type billPage struct {
	shell
	Document  documentView
	Issued    bool // just now
	State     stateSign
	Open      string
	Notes     []docMove
	Payments  []docMove
	Account   string
	Customer  string
	CreditURL string // "" when nothing is left to credit
	JSON      string
	Pay       payForm
}

// docMove is a credit note or a payment of an invoice.
type docMove struct{ URL, Day, Says, Amount string }

// payForm enters a payment.
type payForm struct {
	Action, Entry    string
	Amount, Way      field
	By, Day          field
	Wrong            bool
	Symbol, Question string
}

// creditPage is all that templates/credit.html may show: a credit note as it was sent.
type creditPage struct {
	shell
	Document documentView
	Bill     string
	Number   string // of the invoice
	Issued   bool
}

var (
	billTemplate   = parse[billPage]("bill")
	creditTemplate = parse[creditPage]("credit")
)

// showBill answers with an invoice as a page for paper, or as data.
func (s *server) showBill(w http.ResponseWriter, r *http.Request) {
	number, asJSON := strings.CutSuffix(r.PathValue("number"), ".json")
	s.billWith(w, r, number, asJSON, http.StatusOK, nil)
}

// billWith shows an invoice, with a payment that was typed and could not be read.
func (s *server) billWith(w http.ResponseWriter, r *http.Request, number string, asJSON bool, status int, typed *payForm) {
	missing := false
	s.atCounter(w, r, "Invoice "+number, func(x cashDesk) (func(), error) {
		b := x.Bill(number)
		if missing = b == nil; missing {
			return func() {}, nil
		}
		if asJSON {
			v := b.View()
			return func() { writeJSON(w, http.StatusOK, v) }, nil
		}
		v := x.billPage(b)
		v.Issued = r.URL.Query().Has("issued")
		if typed != nil {
			v.Pay.Amount, v.Pay.Way, v.Pay.By, v.Pay.Day, v.Pay.Wrong = typed.Amount, typed.Way, typed.By, typed.Day, true
		}
		return func() { billTemplate.show(w, status, v) }, nil
	})
	if missing {
		s.billsAsked(w, r, number)
	}
}

func (x cashDesk) billPage(b *ledger.Bill) billPage {
	v := billPage{shell: x.sh, Document: x.document("Invoice", b.Invoice, b.From, b.To, b.Lines, b.Taxes), State: x.stateOf(b), Open: b.Open().Show(x.currency), Account: accountURL(b.Customer), Customer: x.Customer(b.Customer).Name, JSON: billURL(b.Invoice) + ".json"}
	v.Document.Facts = []factRow{{Name: "Invoice", Value: b.Invoice}, {Name: "Day", Value: dateText(b.Day)}, {Name: "To be paid by", Value: dateText(b.Due)}, {Name: "Customer", Value: b.Customer}}
	v.Document.Total, v.Document.TotalSays, v.Document.Note = b.Total.Show(x.currency), "Total", textLines(b.Note)
	for _, c := range b.Credits {
		v.Notes = append(v.Notes, docMove{creditURL(c.Credit), string(c.Day), c.Credit + ": " + c.Why, (-c.Total).Show(x.currency)})
	}
	for _, p := range b.Payments {
		says := p.By
		if p.Amount < 0 {
			says = strings.TrimSpace("paid back " + p.By)
		}
		v.Payments = append(v.Payments, docMove{"", string(p.On), says, (-p.Amount).Show(x.currency)})
	}
	if b.Credited() < b.Total {
		v.CreditURL = billURL(b.Invoice) + "/credit"
	}
	v.Pay = x.payForm(b)
	return v
}

func (x cashDesk) payForm(b *ledger.Bill) payForm {
	open := b.Open()
	f := payForm{Action: billURL(b.Invoice) + "/pay", Entry: newEntryID(), Symbol: x.currency, Question: "Money came in"}
	way := []option{{Value: "in", Says: "came in", Here: open >= 0}, {Value: "back", Says: "went back to the customer", Here: open < 0}}
	f.Amount = field{Key: "amount", Label: "How much", Hint: "such as 40.00; less than is open is a part payment", Value: max(open, -open).String()}
	f.Way = field{Key: "way", Label: "Which way", Options: way}
	f.By = field{Key: "by", Label: "How", Hint: "cash, cheque, transfer, card"}
	f.Day = field{Key: "day", Label: "On which day", Value: string(x.Today), Date: true}
	return f
}

// document is what an invoice and a credit note have in common.
func (x cashDesk) document(kind, number string, from, to record.Text, lines []record.InvoiceLine, taxes []record.TaxLine) documentView {
	v := documentView{Kind: kind, Number: number, From: textLines(from), To: textLines(to)}
	net := unitSum{}
	for _, l := range lines {
		d := documentLine{Says: l.Says, Order: l.Order, Day: shortDate(l.Day), Net: l.Net.Show(x.currency), Tax: l.Tax}
		if l.Pack != "" || l.Count != 1 {
			d.Count, d.Each = fmt.Sprint(l.Count), l.Each.Show(x.currency)
		}
		v.TaxColumn = v.TaxColumn || l.Tax != lines[0].Tax
		v.Orders, v.Days = v.Orders || l.Order != "", v.Days || l.Day != ""
		v.Lines = append(v.Lines, d)
		net.add(l.Net)
	}
	for _, t := range taxes {
		v.Taxes = append(v.Taxes, documentTax{fmt.Sprintf("%s, %s of %s", t.Tax, t.Rate, t.On.Show(x.currency)), t.Is.Show(x.currency)})
	}
	if len(taxes) > 0 {
		v.Net = net.Show(x.currency)
	}
	return v
}

func (s *server) showCredit(w http.ResponseWriter, r *http.Request) {
	missing := false
	number := r.PathValue("number")
	s.atCounter(w, r, "Credit note "+number, func(x cashDesk) (func(), error) {
		b, note := x.Credit(number)
		if missing = note == nil; missing {
			return func() {}, nil
		}
		v := creditPage{shell: x.sh, Document: x.document("Credit note", number, b.From, b.To, note.Lines, note.Taxes), Bill: billURL(b.Invoice), Number: b.Invoice, Issued: r.URL.Query().Has("issued")}
		v.Document.Facts = []factRow{{Name: "Credit note", Value: number}, {Name: "On invoice", Value: b.Invoice + " of " + dateText(b.Day)}, {Name: "Day", Value: dateText(note.Day)}, {Name: "Why", Value: note.Why}}
		v.Document.Total, v.Document.TotalSays = note.Total.Show(x.currency), "Taken off"
		return func() { creditTemplate.show(w, http.StatusOK, v) }, nil
	})
	if missing {
		s.billsAsked(w, r, number)
	}
}

// payBill enters a payment.
func (s *server) payBill(w http.ResponseWriter, r *http.Request) {
	number := r.PathValue("number")
	today := app.Today(s.house.Now())
	there := false
	var f payForm
	s.atCounterOf(r, func(x cashDesk) {
		if b := x.Bill(number); b != nil {
			there, f = true, x.payForm(b)
		}
	})
	if !there {
		s.billsAsked(w, r, number)
		return
	}
	paid, at, ok := f.read(r, number, today, s.house.Now())
	if !ok {
		s.billWith(w, r, number, false, http.StatusUnprocessableEntity, &f)
		return
	}
	said, ok := s.sender(w, r)
	if !ok {
		return
	}
	said.Body, said.At = paid, at
	if _, err := s.records.Enter(r.Context(), said); err != nil {
		status, text := trouble(err)
		s.refuse(w, r, status, text)
		return
	}
	http.Redirect(w, r, withDid(billURL(number), said.ID.String()+"-1"), http.StatusSeeOther)
}
