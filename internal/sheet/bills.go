package sheet

import (
	"cmp"
	"fmt"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/ledger"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// BillText is an invoice as it was sent, with what was credited and paid since. Currency is the sign before money.
func BillText(b *ledger.Bill, currency string) string {
	w := listWriter("Invoice "+b.Invoice, nil, unit.Metric)
	w.document(b.From, b.To, b.Day, "to be paid by "+string(b.Due))
	w.billLines(b.Lines, b.Taxes, b.Total, currency)
	w.paragraphs(b.Note)
	for _, c := range b.Credits {
		w.para(0, fmt.Sprintf("%s  credit note %s: %s (%s)", c.Day, c.Credit, (-c.Total).Show(currency), c.Why))
	}
	for _, p := range b.Payments {
		w.para(0, fmt.Sprintf("%s  %s %s", p.On, paidWords(p.Paid, currency), cmp.Or(p.By, "")))
	}
	w.gap()
	w.line("open " + b.Open().Show(currency))
	return w.String()
}

// CreditText is a credit note as it was sent.
func CreditText(b *ledger.Bill, c record.Credited, currency string) string {
	w := listWriter("Credit note "+c.Credit+" on invoice "+c.Invoice, nil, unit.Metric)
	w.document(b.From, b.To, c.Day, c.Why)
	w.billLines(c.Lines, c.Taxes, c.Total, currency)
	return w.String()
}

// DraftText is an invoice that is not issued yet, with what stands in its way.
func DraftText(inv record.Invoiced, found finding.List, currency string) string {
	w := listWriter("Invoice, not issued yet", found, unit.Metric)
	if len(inv.Lines) == 0 {
		return w.String()
	}
	w.document(inv.From, inv.To, inv.Day, "to be paid by "+string(inv.Due))
	w.billLines(inv.Lines, inv.Taxes, inv.Total, currency)
	w.paragraphs(inv.Note)
	return w.String()
}

func (w *writer) document(from, to record.Text, day record.Day, says string) {
	w.paragraphs(from)
	w.para(0, "To:")
	w.paragraphs(to)
	w.line(string(day) + ", " + says)
	w.gap()
}

// paragraphs writes lines as they are, and a gap.
func (w *writer) paragraphs(text record.Text) {
	if text == "" {
		return
	}
	for line := range strings.Lines(string(text)) {
		w.para(2, strings.TrimSpace(line))
	}
	w.gap()
}

func (w *writer) billLines(lines []record.InvoiceLine, taxes []record.TaxLine, total unit.Money, currency string) {
	t := table{columns: []column{{head: "what", wraps: true}, {head: "order"}, {head: "had on"}, {head: "packs", right: true}, {head: "each", right: true}, {head: "comes to", right: true}, {head: "tax"}}}
	for _, l := range lines {
		count, each := "", ""
		if l.Pack != "" || l.Count != 1 {
			count, each = fmt.Sprint(l.Count), l.Each.Show(currency)
		}
		t.add(l.Says, l.Order, string(l.Day), count, each, l.Net.Show(currency), l.Tax)
	}
	t.title("")
	for _, x := range taxes {
		t.add(fmt.Sprintf("%s, %s of %s", x.Tax, x.Rate, x.On.Show(currency)), "", "", "", "", x.Is.Show(currency))
	}
	t.add("total", "", "", "", "", total.Show(currency))
	w.table(t)
	w.gap()
}

func paidWords(p record.Paid, currency string) string {
	if p.Amount < 0 {
		return "paid back " + (-p.Amount).Show(currency)
	}
	return "paid " + p.Amount.Show(currency)
}

// AgeWords is how long something has been due.
func AgeWords(from, to int) string {
	switch {
	case from < 0:
		return "not overdue"
	case to < 0:
		return fmt.Sprintf("%d days and more", from)
	}
	return fmt.Sprintf("%d to %d days", from, to)
}

// AccountsText is what is open on a day, by age, by customer and by invoice.
func AccountsText(a ledger.Account, day record.Day, found finding.List, currency string) string {
	w := listWriter("Open on "+string(day)+": "+a.Open.Show(currency), found, unit.Metric)
	ages := table{columns: []column{{head: "past due"}, {head: "invoices", right: true}, {head: "open", right: true}}}
	for _, g := range a.Ages {
		ages.add(AgeWords(g.From, g.To), fmt.Sprint(g.Invoices), g.Open.Show(currency))
	}
	w.table(ages)
	w.gap()
	of := table{columns: []column{{head: "customer", wraps: true}, {head: "open", right: true}, {head: "overdue", right: true}, {head: "oldest", right: true}}}
	for _, c := range a.Of {
		oldest := ""
		if c.Oldest > 0 {
			oldest = times(int64(c.Oldest), "day")
		}
		of.add(c.Customer.Name, c.Open.Show(currency), c.Overdue.Show(currency), oldest)
	}
	w.table(of)
	w.gap()
	t := table{columns: []column{{head: "invoice"}, {head: "customer", wraps: true}, {head: "day"}, {head: "due"}, {head: "total", right: true}, {head: "credited", right: true}, {head: "paid", right: true}, {head: "open", right: true}}}
	for i, b := range a.Bills {
		o := a.Invoices[i]
		t.add(b.Invoice, a.Name(b.Customer), string(b.Day), string(b.Due), o.Amount.Show(currency), o.Credited.Show(currency), o.Paid.Show(currency), o.Open.Show(currency))
	}
	w.table(t)
	if len(t.rows) == 0 {
		w.para(0, "No invoice was issued.")
	}
	return w.String()
}

// StatementText is a customer's account over some days.
func StatementText(s ledger.Statement, currency string) string {
	w := listWriter(fmt.Sprintf("Account of %s from %s to %s", s.Customer.Name, s.From, s.To), nil, unit.Metric)
	t := table{columns: []column{{head: "day"}, {head: "what"}, {head: "number"}, {head: "by", wraps: true}, {head: "amount", right: true}, {head: "open", right: true}}}
	t.add(string(s.From), "open before", "", "", "", s.Before.Show(currency))
	for _, m := range s.Moves {
		t.add(string(m.Day), string(m.What), m.Number, m.By, m.Amount.Show(currency), m.Balance.Show(currency))
	}
	w.table(t)
	w.gap()
	w.para(0, fmt.Sprintf("open before %s + invoiced %s - credited %s - paid %s = open %s", s.Before.Show(currency), s.Invoiced.Show(currency), s.Credited.Show(currency), s.Paid.Show(currency), s.Open.Show(currency)))
	return w.String()
}

// AuditText is what was looked at in the accounts, and what was found.
func AuditText(a ledger.Audit, currency string) string {
	w := listWriter("Invoices, credit notes and payments", a.Findings, unit.Metric)
	t := table{columns: []column{{head: "what"}, {head: "number", right: true}, {head: "sum", right: true}}}
	t.add("invoices", fmt.Sprint(a.Invoices), a.Invoiced.Show(currency))
	t.add("credit notes", fmt.Sprint(a.Credits), a.Credited.Show(currency))
	t.add("payments", fmt.Sprint(a.Payments), a.Paid.Show(currency))
	t.add("open, by age", "", a.Open.Show(currency))
	w.table(t)
	w.gap()
	if len(a.Findings) == 0 {
		w.para(0, "No gap or double in the numbers, every sum closes, every tax is its rate to the cent, nothing is credited beyond its invoice.")
	}
	return w.String()
}
