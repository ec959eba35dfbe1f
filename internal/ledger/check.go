package ledger

import (
	"cmp"
	"fmt"
	"maps"
	"math/big"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/invoice"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Audit is what was looked at, and what was found wrong.
type Audit struct {
	Invoices int          `json:"invoices"`
	Credits  int          `json:"credit_notes"`
	Payments int          `json:"payments"`
	Invoiced unit.Money   `json:"invoiced"` // Invoiced - Credited - Paid = Open, or a finding says so
	Credited unit.Money   `json:"credited"`
	Paid     unit.Money   `json:"paid"`
	Open     unit.Money   `json:"open"` // of the ages on the day, added up
	Findings finding.List `json:"findings"`
}

// Audit looks for gaps and doubles in the numbers, sums that do not close, taxes that are not their rate, credit notes beyond their invoice and
// money for invoices that nobody issued. It adds up by ways of its own, not by those that made the invoices. Day is one on or after the
// last of all.
func (s *State) Audit(invoices, credits invoice.Series, day record.Day) Audit {
	var a Audit
	a.numbers(s, invoices, record.Invoiced{}.Kind())
	a.numbers(s, credits, record.Credited{}.Kind())
	for _, number := range slices.Sorted(maps.Keys(s.bills)) {
		a.bill(s.bills[number])
	}
	for _, b := range s.Bills() {
		for _, p := range b.Payments {
			day = max(day, p.On)
		}
		for _, c := range b.Credits {
			day = max(day, c.Day)
		}
		day = max(day, b.Day)
	}
	open, err := s.OpenOn(day, "", invoice.UsualAges[:]...)
	for _, g := range open.Ages {
		a.Open += g.Open
	}
	if want := a.Invoiced - a.Credited - a.Paid; err != nil || a.Open != want {
		a.find(Told{}, "the accounts", CodeSum, finding.Stop, fmt.Sprintf("invoices less credit notes and payments are %s, and by age %s is open", want, a.Open), "keep the records as they are and report this", money("invoices less credits and payments", want), money("open by age", a.Open))
	}
	a.Findings.Sort()
	return a
}

func (a *Audit) find(t Told, where, code string, severity finding.Severity, message, fix string, figures ...finding.Figure) {
	a.Findings = append(a.Findings, about(t.Entry, where, code, severity, message, fix, figures...))
}

// numbers looks at the numbers of invoices, or of credit notes.
func (a *Audit) numbers(s *State, series invoice.Series, kind record.Kind) {
	issued := s.issued(kind)
	slices.SortFunc(issued, func(x, y invoice.Issued) int { return cmp.Compare(x.Number, y.Number) })
	words := "invoice"
	if kind == (record.Credited{}).Kind() {
		words = "credit note"
	}
	for _, f := range series.Check(issued) {
		where := words + " " + issued[f.Issued[0]].Number
		switch f.What {
		case invoice.Gap:
			gap := series.Format(f.Year, f.From)
			if f.To > f.From {
				gap += " to " + series.Format(f.Year, f.To)
			}
			a.find(Told{}, where, CodeGap, finding.Caution, fmt.Sprintf("no %s has the number %s", words, gap), "look for an entry that was taken back, or write down why there is none")
		case invoice.OutOfOrder:
			a.find(Told{}, where, CodeOrder, finding.Caution, fmt.Sprintf("it is dated before %s, which has a lower number", issued[f.Issued[1]].Number), "write down why")
		case invoice.WrongYear:
			a.find(Told{}, where, CodeYear, finding.Caution, "the year in its number is not that of its date", "write down why")
		case invoice.Foreign:
			a.find(Told{}, where, CodeForeign, finding.Note, "its number is not of the series "+series.String(), "check the pattern in the book, or when it was changed")
		}
	}
}

func (a *Audit) bill(b *Bill) {
	where := "invoice " + b.Invoice
	if !b.Issued {
		for _, c := range b.Credits {
			a.find(c.Told, "credit note "+c.Credit, CodeNoInvoice, finding.Stop, "it takes back invoice "+b.Invoice+", which nobody has issued", "correct its invoice")
		}
		for _, p := range b.Payments {
			a.find(p.Told, where, CodeNoInvoice, finding.Caution, fmt.Sprintf("%s was paid for it, and nobody has issued it", p.Amount), "correct the number that the payment names", money("paid", p.Amount))
		}
		return
	}
	for _, t := range b.Twice {
		a.find(t, where, CodeTwice, finding.Stop, fmt.Sprintf("entry %d uses its number again", t.Seq), "take the later entry back, and issue it under the next number")
	}
	a.Invoices++
	a.Credits += len(b.Credits)
	a.Payments += len(b.Payments)
	a.Invoiced += b.Total
	a.Credited += b.Credited()
	a.Paid += b.Paid()
	a.sums(b.Told, where, b.Lines, b.Taxes, b.Total, true)
	for _, c := range b.Credits {
		a.sums(c.Told, "credit note "+c.Credit, c.Lines, c.Taxes, c.Total, false)
	}
	if over := b.Credited() - b.Total; over > 0 && b.Total >= 0 {
		a.find(b.Told, where, CodeOverCredit, finding.Stop, fmt.Sprintf("credit notes take back %s more than it is for", over), "take the wrong credit note back, and issue it anew", money("credited too much", over))
	}
	if open := b.Open(); open < 0 && b.Total >= 0 {
		a.find(b.Told, where, CodeOverpaid, finding.Note, fmt.Sprintf("%s more was paid or credited than it is for", -open), "pay it back, or enter it for another invoice", money("too much", -open))
	}
}

// sums adds lines and taxes up. A tax is its rate of what it is on to the cent; taken out of prices, or worked out line by line, it may be off by
// half a cent for each line.
func (a *Audit) sums(t Told, where string, lines []record.InvoiceLine, taxes []record.TaxLine, total unit.Money, rates bool) {
	names, sums := rateSums(lines, taxes)
	all := unit.Money(0)
	for _, name := range names {
		s := sums[name]
		net := s.lines
		if s.taxIn {
			net -= s.is
		}
		if net != s.on {
			a.find(t, where, CodeSum, finding.Stop, fmt.Sprintf("the lines with %q come to %s, and the tax is on %s", name, net, s.on), "credit it and issue it anew", money("lines", net), money("tax on", s.on))
		}
		all += net + s.is
		if allowed := halfCents(lines, name); rates && name != "" && offBy(s) > allowed {
			a.find(t, where, CodeTax, finding.Caution, fmt.Sprintf("%s on %s is %s, which is not %s of it", name, s.on, s.is, s.rate.Share), "credit it and issue it anew", money("tax", s.is), money("on", s.on))
		}
	}
	if all != total {
		a.find(t, where, CodeSum, finding.Stop, fmt.Sprintf("lines and taxes come to %s, and the total is %s", all, total), "credit it and issue it anew", money("lines and taxes", all), money("total", total))
	}
}

// halfCents is how far a tax may be off by rounding: half a cent, for each line when it was worked out line by line.
func halfCents(lines []record.InvoiceLine, name string) unit.Money {
	n := unit.Money(1)
	for _, l := range lines {
		if l.Tax == name {
			n++
		}
	}
	return n * unit.Cent / 2
}

// offBy is how far a tax is from its rate, without its sign, down to a micro-unit.
func offBy(s *rateSum) unit.Money {
	exact := big.NewInt(int64(s.on))
	exact.Mul(exact, big.NewInt(int64(s.rate.Share)))
	exact.Quo(exact, big.NewInt(int64(unit.Whole)))
	off := s.is - unit.Money(exact.Int64())
	return max(off, -off)
}
