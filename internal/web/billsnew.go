package web

import (
	"errors"
	"maps"
	"net/http"
	"net/url"
	"slices"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/ledger"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// newBillPage is all that templates/billnew.html may show: an invoice before it is issued.
type newBillPage struct {
	shell
	Customer string
	Choose   []toBillRow // when no customer is named
	Changed  bool        // it is not what was shown before
	Findings findingsView
	Document documentView
	Fields   []field
	Extras   []extraRow
	Kept     []kept // of the form that shows it again
	Entry    string
	Total    string
	Send     []kept // of the form that issues it
	CanIssue bool
}

// extraRow is a line that somebody adds.
type extraRow struct{ Says, Each, Tax field }

var newBillTemplate = parse[newBillPage]("billnew")

// asking is what is to be billed as a form says it.
type asking struct {
	app.BillAsk
	fields []field
	extras []extraRow
	wrong  bool
}

// extraLines is how many lines can be added.
const extraLines = 2

// readAsking reads what is to be billed.
func (x cashDesk) readAsking(q url.Values) asking {
	a := asking{BillAsk: app.BillAsk{Customer: tidy(q.Get("customer")), Order: tidy(q.Get("order"))}}
	for _, d := range []struct {
		key, label, hint string
		day              *record.Day
	}{{"from", "Had from", "empty: from the beginning", &a.From}, {"until", "Had until", "such as the last day of a month; empty: until now", &a.Until}, {"day", "Day of the invoice", "", &a.Day}} {
		f := field{Key: d.key, Label: d.label, Hint: d.hint, Value: tidy(q.Get(d.key)), Date: true}
		if d.key == "day" && f.Value == "" {
			f.Value = string(x.Today)
		}
		if _, ok := kitchen.DaysUntil(f.Value, f.Value); ok {
			*d.day = record.Day(f.Value)
		} else if f.Value != "" {
			f.Problem, a.wrong = "Write a day, such as "+string(x.Today)+".", true
		}
		a.fields = append(a.fields, f)
	}
	for i := range extraLines {
		a.extra(x, nthText(q["says"], i), nthText(q["each"], i), nthText(q["tax"], i), i)
	}
	return a
}

// nthText is one of the texts that came under one key; "" when there are fewer.
func nthText(texts []string, i int) string {
	if i >= len(texts) {
		return ""
	}
	return texts[i]
}

func (a *asking) extra(x cashDesk, says, each, tax string, i int) {
	row := extraRow{field{Key: "says", Label: "Another line", Hint: "such as bringing it", Value: tidy(says), before: i}, field{Key: "each", Label: "Its price", Hint: "below zero it is taken off", Value: tidy(each), before: i}, field{Key: "tax", Label: "Its tax", Options: []option{{Says: "none"}}, before: i}}
	line := ledger.Line{Says: row.Says.Value, Count: 1}
	for _, id := range slices.Sorted(maps.Keys(x.book.TaxRates)) {
		row.Tax.Options = append(row.Tax.Options, option{Value: string(id), Says: x.book.TaxRates[id].Name, Here: string(id) == tax})
		if string(id) == tax {
			line.Tax = id
		}
	}
	price, err := unit.ParseMoney(row.Each.Value)
	switch {
	case row.Says.Value == "" && row.Each.Value == "":
		a.extras = append(a.extras, row)
		return
	case row.Says.Value == "":
		row.Says.Problem = "Write what it is for."
	case err != nil || price == 0 || price%unit.Cent != 0:
		row.Each.Problem = "Write a price in whole cents, such as 6.00."
	}
	if row.Says.Problem+row.Each.Problem != "" {
		a.wrong = true
	} else {
		line.Each = price
		a.Extra = append(a.Extra, line)
	}
	a.extras = append(a.extras, row)
}

// billOrder leads from an order to its invoice.
func (s *server) billOrder(w http.ResponseWriter, r *http.Request) {
	id := r.PathValue("id")
	customer := ""
	if s.records != nil {
		s.atCounterOf(r, func(x cashDesk) {
			if o, ok := x.Orders.Order(id, x.Today); ok {
				customer = o.Customer
			}
		})
	}
	http.Redirect(w, r, newBillPath+"?"+url.Values{"customer": {customer}, "order": {id}}.Encode(), http.StatusSeeOther)
}

func (s *server) showBillForm(w http.ResponseWriter, r *http.Request) {
	s.billForm(w, r, r.URL.Query(), http.StatusOK, false)
}

// billForm shows an invoice before it is issued; after it turned out to be another than was shown if it says so.
func (s *server) billForm(w http.ResponseWriter, r *http.Request, q url.Values, status int, changed bool) {
	s.atCounter(w, r, "New invoice", func(x cashDesk) (func(), error) {
		a := x.readAsking(q)
		v := newBillPage{shell: x.sh, Changed: changed, Fields: a.fields, Extras: a.extras, Entry: newEntryID()}
		if a.Customer == "" {
			v.Choose = x.toBill()
			return func() { newBillTemplate.show(w, status, v) }, nil
		}
		draft, found := x.Propose(x.book, a.BillAsk)
		v.Customer, v.Findings = draft.Customer.Name, viewFindings(found)
		v.Kept = []kept{{"customer", a.Customer}}
		if a.Order != "" {
			v.Kept = append(v.Kept, kept{"order", a.Order})
		}
		inv, err := draft.Invoice("new")
		if err != nil {
			return func() {}, err
		}
		if found.Worst() < finding.Stop || len(inv.Lines) > 0 {
			v.Document = x.document("Invoice", "", inv.From, inv.To, inv.Lines, inv.Taxes)
			v.Document.Facts = []factRow{{Name: "Invoice", Value: "number comes as it is issued"}, {Name: "Day", Value: dateText(inv.Day)}, {Name: "To be paid by", Value: dateText(inv.Due)}}
			v.Document.Total, v.Document.TotalSays, v.Document.Note = inv.Total.Show(x.currency), "Total", textLines(inv.Note)
		}
		v.Total, v.CanIssue = v.Document.Total, found.Worst() < finding.Stop && !a.wrong
		v.Send = append(keep(q, entryField, "total", whoField), kept{"total", inv.Total.String()})
		if a.wrong {
			status = http.StatusUnprocessableEntity
		}
		return func() { newBillTemplate.show(w, status, v) }, nil
	})
}

// issueBill issues an invoice, if it is what was shown.
func (s *server) issueBill(w http.ResponseWriter, r *http.Request) {
	said, ok := s.sender(w, r)
	if !ok {
		return
	}
	q := r.PostForm
	var a asking
	s.atCounterOf(r, func(x cashDesk) { a = x.readAsking(q) })
	shown, err := unit.ParseMoney(q.Get("total"))
	if a.wrong || err != nil || a.Customer == "" {
		s.billForm(w, r, q, http.StatusUnprocessableEntity, false)
		return
	}
	book, _ := s.house.Book()
	inv, err := s.records.Issue(r.Context(), book, said, a.BillAsk, shown)
	if wrong := (*app.BillError)(nil); errors.As(err, &wrong) {
		s.billForm(w, r, q, http.StatusConflict, wrong.Changed)
		return
	}
	if err != nil {
		status, text := trouble(err)
		s.refuse(w, r, status, text)
		return
	}
	http.Redirect(w, r, billURL(inv.Invoice)+"?issued=1", http.StatusSeeOther)
}
