package invoice

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Part is what of a line is credited: so many packs that came back, or an amount with its tax taken off the price.
type Part struct {
	Line   int
	Count  int64      // with the sign of the line; 0 if it is an amount
	Amount unit.Money // whole cents, tax included, with the sign of the line; 0 if it is a count
}

// Credit takes back an invoice, or part of it. All its sums have the sign of the invoice, and are to be taken off it.
type Credit struct {
	Lines           []CreditLine
	Taxes           []TaxSum // as the invoice has them; only those that are credited
	Net, Tax, Gross unit.Money
}

// CreditLine is what is taken back of one line of the invoice.
type CreditLine struct {
	Line            int
	Count           int64
	Net, Tax, Gross unit.Money
}

// CreditError says why a part cannot be credited, and what is left to credit of its line.
type CreditError struct {
	Part   int // which part, from 0
	Line   int // of the invoice, from 0
	Reason string
	Count  int64
	Gross  unit.Money
}

func (e *CreditError) Error() string {
	return fmt.Sprintf("invoice: credit of line %d: %s; %d packs and %s are left to credit", e.Line+1, e.Reason, e.Count, e.Gross)
}

// Rest is what is left of each line after credits.
func (inv Invoice) Rest(credits []Credit) []CreditLine {
	rest := make([]CreditLine, len(inv.Lines))
	for i, s := range inv.Lines {
		rest[i] = CreditLine{i, inv.Draft.Lines[i].Count, s.Net, s.Tax, s.Gross}
	}
	for _, c := range credits {
		for _, l := range c.Lines {
			rest[l.Line].less(l)
		}
	}
	return rest
}

func (r *CreditLine) less(l CreditLine) {
	r.Count -= l.Count
	r.Net -= l.Net
	r.Tax -= l.Tax
	r.Gross -= l.Gross
}

// Credit takes parts of an invoice back, after what earlier notes took. Each part is worked out of what is left of its line, so that
// all notes together never take more than the invoice, and the last pack of a line takes its last cent. Errors are *CreditError.
func (inv Invoice) Credit(earlier []Credit, parts []Part) (Credit, error) {
	rest := inv.Rest(earlier)
	before := inv.taxed(rest)
	var c Credit
	for k, p := range parts {
		if p.Line < 0 || p.Line >= len(rest) {
			return Credit{}, &CreditError{k, p.Line, "the invoice has no such line", 0, 0}
		}
		r := &rest[p.Line]
		l, reason := inv.creditPart(*r, p)
		if reason != "" {
			return Credit{}, &CreditError{k, p.Line, reason, r.Count, r.Gross}
		}
		r.less(l)
		c.add(l)
	}
	c.Taxes = difference(before, inv.taxed(rest))
	return c, nil
}

// CreditAll takes back all that is left of an invoice.
func (inv Invoice) CreditAll(earlier []Credit) Credit {
	rest := inv.Rest(earlier)
	before := inv.taxed(rest)
	var c Credit
	for i, r := range rest {
		if r.Count != 0 || r.Net != 0 || r.Tax != 0 {
			c.add(r)
			rest[i] = CreditLine{Line: i}
		}
	}
	c.Taxes = difference(before, inv.taxed(rest))
	return c
}

func (inv Invoice) creditPart(r CreditLine, p Part) (CreditLine, string) {
	l := CreditLine{Line: p.Line, Count: p.Count}
	round := inv.Draft.Rounding
	switch {
	case (p.Count == 0) == (p.Amount == 0):
		return l, "it has neither a count nor an amount, or both"
	case p.Count != 0 && !within(p.Count, r.Count):
		return l, fmt.Sprintf("%d packs are not left", p.Count)
	case p.Amount != 0 && (!within(int64(p.Amount), int64(r.Gross)) || !wholeCents(p.Amount)):
		return l, p.Amount.String() + " is not left, or not whole cents"
	case p.Count != 0:
		l.Net = part(round, r.Net, p.Count, r.Count)
		l.Tax = part(round, r.Tax, p.Count, r.Count)
		l.Gross = l.Net + l.Tax
	default:
		l.Gross = p.Amount
		l.Tax = part(round, r.Tax, int64(p.Amount), int64(r.Gross))
		l.Net = l.Gross - l.Tax
	}
	return l, ""
}

// within is whether n is of the sign of whole and no more.
func within(n, whole int64) bool { return n > 0 && n <= whole || n < 0 && n >= whole }

func part(r Rounding, m unit.Money, n, whole int64) unit.Money {
	if n < 0 {
		n, whole = -n, -whole
	}
	return unit.Money(r.part(int64(m/unit.Cent), n, whole)) * unit.Cent
}

func (c *Credit) add(l CreditLine) {
	c.Lines = append(c.Lines, l)
	c.Net += l.Net
	c.Tax += l.Tax
	c.Gross += l.Gross
}

// taxed adds what is left of the lines up by rate. The parts of a tax are split anew, so that the last credit takes their last cent.
func (inv Invoice) taxed(rest []CreditLine) []TaxSum {
	sums := make([]TaxSum, len(inv.Taxes))
	for k, t := range inv.Taxes {
		s := TaxSum{Rate: t.Rate}
		for i, r := range rest {
			if inv.Draft.Lines[i].Rate == t.Rate {
				s.add(r.Net, r.Tax)
			}
		}
		s.Parts = taxParts(inv.Draft, t.Rate, s.Tax)
		sums[k] = s
	}
	return sums
}

func difference(before, after []TaxSum) []TaxSum {
	var all []TaxSum
	for k, b := range before {
		a := after[k]
		d := TaxSum{Rate: b.Rate, Net: b.Net - a.Net, Tax: b.Tax - a.Tax, Gross: b.Gross - a.Gross}
		for i := range b.Parts {
			d.Parts = append(d.Parts, b.Parts[i]-a.Parts[i])
		}
		if d.Net != 0 || d.Tax != 0 {
			all = append(all, d)
		}
	}
	return all
}
