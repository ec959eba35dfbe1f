package ledger

import (
	"cmp"
	"crypto/sha256"
	"strconv"

	"kettlefrost/internal/invoice"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// Patterns of numbers for who has written none.
const (
	usualInvoices = "YYYY-0000"
	usualCredits  = "C-YYYY-0000"
)

// Numbers are how invoices and credit notes are numbered. Errors are *invoice.SeriesError.
func Numbers(s kitchen.Seller) (invoices, credits invoice.Series, err error) {
	invoices, err = invoice.ParseSeries(cmp.Or(s.Invoices, usualInvoices))
	if err != nil {
		return invoices, credits, err
	}
	credits, err = invoice.ParseSeries(cmp.Or(s.Credits, usualCredits))
	return invoices, credits, err
}

// EntryID is the ID under which an invoice or a credit note is entered: it follows from the kind and the number alone. A store takes in an ID
// once, so that of two who issue at the same moment one is refused and takes the next number: no number is given twice, and as only the number
// after the last that is there is ever tried, none is left out.
func EntryID(kind record.Kind, number string) record.ID {
	sum := sha256.Sum256([]byte("kettlefrost " + string(kind) + "\x00" + number))
	return record.ID(sum[:len(record.ID{})])
}

// Next is the number after the last of a series for an invoice or a credit note of a day. Errors are *invoice.SeriesError.
func (s *State) Next(kind record.Kind, series invoice.Series, day record.Day) (string, error) {
	return series.Next(s.issued(kind), dayNumber(day), year(day))
}

// issued are the numbers that were given.
func (s *State) issued(kind record.Kind) []invoice.Issued {
	var all []invoice.Issued
	for _, b := range s.bills {
		if b.Issued && kind == (record.Invoiced{}).Kind() {
			all = append(all, invoice.Issued{Number: b.Invoice, Day: dayNumber(b.Day), Year: year(b.Day)})
		}
		for _, c := range b.Credits {
			if kind == (record.Credited{}).Kind() {
				all = append(all, invoice.Issued{Number: c.Credit, Day: dayNumber(c.Day), Year: year(c.Day)})
			}
		}
	}
	return all
}

// dayNumber counts days; year is the year of a date. A record holds no day that is none.
func dayNumber(d record.Day) int {
	n, _ := kitchen.DaysUntil("2000-01-01", string(d))
	return n
}

func year(d record.Day) int {
	y, _ := strconv.Atoi(string(d[:min(4, len(d))]))
	return y
}
