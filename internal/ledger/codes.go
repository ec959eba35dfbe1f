package ledger

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// The codes of what is wrong. They are stable, for programs.
const (
	CodeUnreadable  = "entry-unreadable"    // a body that cannot be read
	CodeTwice       = "number-twice"        // a number that was given twice
	CodeGap         = "number-gap"          // numbers that nothing has
	CodeOrder       = "number-out-of-order" // a number dated before a lower one
	CodeYear        = "number-wrong-year"   // the year in a number is not that of its date
	CodeForeign     = "number-foreign"      // not a number of the series
	CodeSum         = "sum-not-closed"      // sums that do not add up
	CodeTax         = "tax-not-its-rate"    // a tax that is not its rate of what it is on
	CodeOverCredit  = "credited-too-much"   // credit notes that take back more than the invoice
	CodeNoInvoice   = "invoice-unknown"     // a credit note or a payment for an invoice that nobody issued
	CodeNoPrice     = "price-missing"       // packs that have no price for a customer
	CodePriceTax    = "price-tax-unclear"   // a price of another list, which has the tax in it or not
	CodeNoList      = "price-list-unknown"  // a customer of a price list that the book has not
	CodeNoPack      = "pack-unknown"        // packs that the book does not know
	CodeNoSuchTax   = "no-such-tax"         // a line by hand with a tax that the book does not have
	CodeNothing     = "nothing-to-bill"     // nothing was handed over that is not billed
	CodeGivenBack   = "billed-and-back"     // packs that were billed and came back
	CodeOverpaid    = "paid-too-much"       // an invoice that was paid or credited beyond what it is for
	CodeAgreedCents = "agreed-price-cents"  // an agreed price of parts of a cent
)

// about is a finding about an entry.
func about(id record.ID, where, code string, severity finding.Severity, message, fix string, figures ...finding.Figure) finding.Finding {
	f := finding.Finding{Code: code, Severity: severity, Where: where, Message: message, Fix: fix, Figures: figures}
	if id != (record.ID{}) {
		f.Path = "entries." + id.String()
	}
	return f
}

func money(name string, m unit.Money) finding.Figure {
	return finding.Figure{Name: name, Value: m.Units(), Unit: "money", Text: m.String()}
}
