package invoice

import (
	"fmt"
	"math/bits"

	"kettlefrost/internal/unit"
)

// DraftError says what of a draft cannot be, and what to write instead.
type DraftError struct{ Where, Reason, Fix string }

func (e *DraftError) Error() string { return "invoice: " + e.Where + ": " + e.Reason + "; " + e.Fix }

// Bounds within which no sum leaves the range of money: a line of 100 million, 10,000 lines.
const (
	mostLine  = 100_000_000 * unit.MoneyUnit
	mostLines = 10_000
)

func checkDraft(d Draft) error {
	if d.Prices != Exclusive && d.Prices != Inclusive || d.Rounding != HalfUp && d.Rounding != HalfEven || d.Taxed != PerDocument && d.Taxed != PerLine {
		return &DraftError{"draft", "how prices, rounding or tax are meant is not known", "give one of the named values"}
	}
	if len(d.Lines) > mostLines {
		return &DraftError{"draft", "it has more than 10,000 lines", "write several invoices"}
	}
	if !wholeCents(d.Prepaid) || d.Prepaid < 0 || d.Prepaid > mostLine {
		return &DraftError{"prepaid", d.Prepaid.String() + " is below zero, too much or not whole cents", "give what was paid, in whole cents"}
	}
	for i, r := range d.Rates {
		if err := checkRate(fmt.Sprintf("rate %d (%s)", i+1, r.Name), r); err != nil {
			return err
		}
	}
	for i, l := range d.Lines {
		if err := checkLine(fmt.Sprintf("line %d (%s)", i+1, l.Name), l, len(d.Rates)); err != nil {
			return err
		}
	}
	return checkOff("discounts", d.Off)
}

func checkRate(where string, r Rate) error {
	if r.Share < 0 || r.Share > unit.Whole {
		return &DraftError{where, "its share is not from 0 to 100 %", "give the share of the price without tax"}
	}
	left := r.Share
	for _, p := range r.Parts {
		if p.Share < 0 || p.Share > left {
			return &DraftError{where, "its parts come to another rate", "give parts that add up to the rate"}
		}
		left -= p.Share
	}
	if len(r.Parts) > 0 && left != 0 {
		return &DraftError{where, "its parts come to another rate", "give parts that add up to the rate"}
	}
	return nil
}

func checkLine(where string, l Line, rates int) error {
	if l.Kind < Goods || l.Kind > Deposit {
		return &DraftError{where, "what it is for is not known", "make it goods, a charge or a deposit"}
	}
	if l.Rate < NoTax || l.Rate >= rates {
		return &DraftError{where, "its rate is not there", "name one of the rates, or no tax"}
	}
	mag := uint64(l.Count)
	if l.Count < 0 {
		mag = -mag
	}
	if hi, lo := bits.Mul64(mag, uint64(l.Each)); l.Each < 0 || hi != 0 || lo > uint64(mostLine) {
		return &DraftError{where, fmt.Sprintf("%d at %s is a price below zero or more than 100 million", l.Count, l.Each), "give a price of 0 or above; for what comes back, a count below zero"}
	}
	return checkOff(where, l.Off)
}

func checkOff(where string, offs []Off) error {
	var share unit.Share
	var amount unit.Money
	for _, o := range offs {
		if o.Share < 0 || o.Share > unit.Whole || o.Amount < 0 || o.Amount > mostLine || !wholeCents(o.Amount) {
			return &DraftError{where, "the discount " + o.Name + " is below zero, too much or not whole cents", "give a share from 0 to 100 %, or whole cents"}
		}
		if share, amount = share+o.Share, amount+o.Amount; share > unit.Whole || amount > mostLine {
			return &DraftError{where, "its discounts are more than the whole", "take some of them away"}
		}
	}
	return nil
}

func wholeCents(m unit.Money) bool { return m%unit.Cent == 0 }
