package invoice

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Total adds a draft up.
//
//   - A line is its count times its price less its discounts, rounded to the cent once. A discount is rounded to the cent by itself.
//   - Discounts on all goods are spread over the rates in proportion to the goods, then over the lines of each rate, by largest
//     remainder; goods that come back have no part in it.
//   - The tax of a rate is worked out on its sum, or on each line, and rounded to the cent; of inclusive prices it is taken out of them.
//     Worked out on the sum it is given back to the lines by largest remainder.
//
// Errors are *DraftError.
func Total(d Draft) (Invoice, error) {
	if err := checkDraft(d); err != nil {
		return Invoice{}, err
	}
	inv := Invoice{Draft: d, Lines: make([]LineSum, len(d.Lines))}
	for i, l := range d.Lines {
		s, err := lineSum(d.Rounding, l)
		if err != nil {
			return Invoice{}, &DraftError{fmt.Sprintf("line %d (%s)", i+1, l.Name), err.Error(), "take some of the discount away"}
		}
		inv.Lines[i] = s
		inv.Totals.add(l.Kind, s.Amount)
	}
	if err := inv.spreadOff(); err != nil {
		return Invoice{}, err
	}
	for rate := range d.Rates {
		inv.tax(rate, d.Rates[rate].Share)
	}
	inv.tax(NoTax, 0)
	inv.Prepaid = d.Prepaid
	inv.Due = inv.Gross - inv.Prepaid
	return inv, nil
}

func (t *Totals) add(k Kind, amount unit.Money) {
	switch k {
	case Goods:
		t.Goods += amount
	case Charge:
		t.Charges += amount
	case Deposit:
		t.Deposits += amount
	}
}

func lineSum(r Rounding, l Line) (LineSum, error) {
	full := unit.Money(l.Count) * l.Each
	var s LineSum
	for _, o := range l.Off {
		amount := o.Amount
		if l.Count < 0 { // what comes back is credited less the discount
			amount = -amount
		}
		s.Off += r.cents(full, int64(o.Share), int64(unit.Whole)) + amount
	}
	s.Amount = r.cents(full-s.Off, 1, 1)
	s.Full = s.Amount + s.Off
	if l.Count >= 0 && s.Amount < 0 || l.Count < 0 && s.Amount > 0 {
		return s, fmt.Errorf("its discounts come to %s and are more than the line, %s", s.Off, s.Full)
	}
	return s, nil
}

// spreadOff shares the discounts on all goods out.
func (inv *Invoice) spreadOff() error {
	d := inv.Draft
	base := make([]unit.Money, len(d.Lines)) // what of each line a discount is on
	byRate := make([]unit.Money, len(d.Rates)+1)
	for i, l := range d.Lines {
		if l.Kind == Goods && inv.Lines[i].Amount > 0 {
			base[i] = inv.Lines[i].Amount
			byRate[l.Rate+1] += base[i]
		}
	}
	for _, o := range d.Off {
		off := d.Rounding.cents(sum(base), int64(o.Share), int64(unit.Whole)) + o.Amount
		inv.Offs = append(inv.Offs, off)
		inv.Off += off
	}
	if inv.Off > sum(base) {
		return &DraftError{"discounts", fmt.Sprintf("%s is more than the goods, %s", inv.Off, sum(base)), "take some of them away"}
	}
	for r, off := range inProportion(inv.Off, byRate) {
		ofRate := make([]unit.Money, len(base))
		for i, l := range d.Lines {
			if l.Rate+1 == r {
				ofRate[i] = base[i]
			}
		}
		for i, part := range inProportion(off, ofRate) {
			inv.Lines[i].Shared += part
		}
	}
	return nil
}

// tax works out one rate.
func (inv *Invoice) tax(rate int, share unit.Share) {
	d := inv.Draft
	num, den := int64(share), int64(unit.Whole)
	if d.Prices == Inclusive {
		den += num
	}
	var lines []int
	var amounts []unit.Money
	t := TaxSum{Rate: rate}
	for i, l := range d.Lines {
		if l.Rate == rate {
			lines = append(lines, i)
			amounts = append(amounts, inv.Lines[i].Amount-inv.Lines[i].Shared)
			t.Off += inv.Lines[i].Shared
		}
	}
	if len(lines) == 0 {
		return
	}
	taxes := make([]unit.Money, len(lines))
	if d.Taxed == PerLine {
		for k, a := range amounts {
			taxes[k] = d.Rounding.cents(a, num, den)
		}
	} else {
		taxes = spread(d.Rounding.cents(sum(amounts), num, den), amounts, num, den)
	}
	for k, i := range lines {
		s := &inv.Lines[i]
		s.Net, s.Tax, s.Gross = amounts[k], taxes[k], amounts[k]+taxes[k]
		if d.Prices == Inclusive {
			s.Net, s.Gross = amounts[k]-taxes[k], amounts[k]
		}
		t.add(s.Net, s.Tax)
	}
	t.Parts = taxParts(d, rate, t.Tax)
	inv.Taxes = append(inv.Taxes, t)
	inv.Net += t.Net
	inv.Tax += t.Tax
	inv.Gross += t.Gross
}

func (t *TaxSum) add(net, tax unit.Money) {
	t.Net += net
	t.Tax += tax
	t.Gross += net + tax
}

// taxParts splits the tax of a rate over the authorities that share it.
func taxParts(d Draft, rate int, tax unit.Money) []unit.Money {
	if rate == NoTax || len(d.Rates[rate].Parts) == 0 {
		return nil
	}
	var shares []unit.Money
	for _, p := range d.Rates[rate].Parts {
		shares = append(shares, unit.Money(p.Share))
	}
	return inProportion(tax, shares)
}
