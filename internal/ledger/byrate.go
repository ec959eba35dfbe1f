package ledger

import (
	"fmt"
	"strings"

	"kettlefrost/internal/invoice"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// byRate is an invoice that was issued in the terms of package invoice: one line for each of its taxes, and one for what is not taxed, each of
// so many cents. So what credit notes take back is worked out by that package, of what is left, and all of them together never take more.
type byRate struct {
	invoice invoice.Invoice
	names   []string // of the tax of each line; "" for what is not taxed
	taxIn   bool
	cents   []int64 // of each line
}

// RebuildError says that the sums of an invoice cannot be worked out again.
type RebuildError struct{ Invoice, Problem string }

func (e *RebuildError) Error() string {
	return fmt.Sprintf("ledger: invoice %s: %s; only the whole of it can be credited, by hand", e.Invoice, e.Problem)
}

// rateSum is what one tax comes to in an invoice or a credit note, as it is recorded.
type rateSum struct {
	rate   invoice.Rate
	on, is unit.Money
	lines  unit.Money // of the lines that bear it, without those that take it out of the prices
	taxIn  bool
}

// rateSums are the taxes of recorded lines, in the order of the lines; what bears none has no name.
func rateSums(lines []record.InvoiceLine, taxes []record.TaxLine) (names []string, sums map[string]*rateSum) {
	sums = map[string]*rateSum{}
	for _, l := range lines {
		s := sums[l.Tax]
		if s == nil {
			s = &rateSum{rate: invoice.Rate{Name: l.Tax}}
			sums[l.Tax] = s
			names = append(names, l.Tax)
		}
		if l.Tax != "" && l.Says == takenOut(l.Tax) {
			s.taxIn = true
			continue
		}
		s.lines += l.Net
	}
	for _, t := range taxes {
		for name, s := range sums {
			part, isPart := strings.CutPrefix(t.Tax, name+partMark)
			if name == "" || t.Tax != name && !isPart {
				continue
			}
			s.on, s.is = t.On, s.is+t.Is
			s.rate.Share += t.Rate
			if isPart {
				s.rate.Parts = append(s.rate.Parts, invoice.RatePart{Name: part, Share: t.Rate})
			}
		}
	}
	if s := sums[""]; s != nil {
		s.on = s.lines
	}
	return names, sums
}

// rebuild works an invoice out again from what was recorded: by each way of rounding until the sums are those that were sent. Errors are
// *RebuildError and *invoice.DraftError.
func rebuild(inv record.Invoiced) (byRate, error) {
	names, sums := rateSums(inv.Lines, inv.Taxes)
	x := byRate{names: names}
	d := invoice.Draft{}
	for _, name := range names {
		s := sums[name]
		x.taxIn = x.taxIn || s.taxIn
		if s.lines%unit.Cent != 0 {
			return x, &RebuildError{inv.Invoice, fmt.Sprintf("its lines come to %s, which is not whole cents", s.lines)}
		}
		x.cents = append(x.cents, int64(s.lines/unit.Cent))
		line := invoice.Line{Name: name, Count: int64(s.lines / unit.Cent), Each: unit.Cent, Rate: invoice.NoTax}
		if name != "" {
			line.Rate = len(d.Rates)
			d.Rates = append(d.Rates, s.rate)
		}
		d.Lines = append(d.Lines, line)
	}
	if x.taxIn {
		d.Prices = invoice.Inclusive
	}
	for _, round := range []invoice.Rounding{invoice.HalfUp, invoice.HalfEven} {
		d.Rounding = round
		total, err := invoice.Total(d)
		if err != nil {
			return x, err
		}
		if total.Gross == inv.Total && sameTaxes(total, names, sums) {
			x.invoice = total
			return x, nil
		}
	}
	return asRecorded(x, d, names, sums), nil
}

func sameTaxes(total invoice.Invoice, names []string, sums map[string]*rateSum) bool {
	for i, name := range names {
		if total.Lines[i].Tax != sums[name].is || total.Lines[i].Net != sums[name].on {
			return false
		}
	}
	return true
}

// asRecorded takes the taxes as they stand: those that were worked out line by line differ by cents from that of the sum.
func asRecorded(x byRate, d invoice.Draft, names []string, sums map[string]*rateSum) byRate {
	x.invoice = invoice.Invoice{Draft: d}
	for i, name := range names {
		s := sums[name]
		l := invoice.LineSum{Full: s.lines, Amount: s.lines, Net: s.on, Tax: s.is, Gross: s.on + s.is}
		x.invoice.Lines = append(x.invoice.Lines, l)
		x.invoice.Taxes = append(x.invoice.Taxes, invoice.TaxSum{Rate: d.Lines[i].Rate, Net: l.Net, Tax: l.Tax, Gross: l.Gross})
	}
	return x
}

// credits are notes that were issued, in the same terms.
func (x byRate) credits(notes []CreditNote) []invoice.Credit {
	var all []invoice.Credit
	for _, n := range notes {
		_, sums := rateSums(n.Lines, n.Taxes)
		var c invoice.Credit
		for i, name := range x.names {
			if s := sums[name]; s != nil {
				c.Lines = append(c.Lines, invoice.CreditLine{Line: i, Count: int64(s.lines / unit.Cent), Net: s.on, Tax: s.is, Gross: s.on + s.is})
			}
		}
		all = append(all, c)
	}
	return all
}

// credit takes so many cents of each tax back, as the prices are: with the tax in them or not. Errors are *invoice.CreditError.
func (x byRate) credit(notes []CreditNote, amounts map[string]unit.Money) (invoice.Credit, error) {
	var parts []invoice.Part
	for i, name := range x.names {
		cents := int64(amounts[name] / unit.Cent)
		switch {
		case cents == 0:
		case x.taxIn:
			parts = append(parts, invoice.Part{Line: i, Amount: unit.Money(cents) * unit.Cent})
		default:
			parts = append(parts, invoice.Part{Line: i, Count: cents})
		}
	}
	return x.invoice.Credit(x.credits(notes), parts)
}
