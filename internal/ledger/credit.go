package ledger

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"math/big"
	"slices"

	"kettlefrost/internal/invoice"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Back is so many packs of a line of an invoice that are taken back.
type Back struct {
	Line  int // of the invoice, from 0
	Count int64
}

// Allowance is an amount that is taken off, as the prices are: with the tax in it or not.
type Allowance struct {
	Says   string
	Amount unit.Money // above zero
	Tax    string     // the name of its tax on the invoice; "" for what is not taxed
}

// BackError says why something cannot be credited.
type BackError struct {
	Invoice string
	Where   string // "line 2", "allowance 1"
	Problem string
	Fix     string
}

func (e *BackError) Error() string {
	return fmt.Sprintf("ledger: invoice %s: %s: %s; %s", e.Invoice, e.Where, e.Problem, e.Fix)
}

// Left is what of a line of an invoice no credit note has taken back.
type Left struct {
	Line  int
	Count int64      // of packs
	Net   unit.Money // as the prices are
}

// lineKey tells which line of an invoice a line of a credit note is about.
type lineKey struct {
	says, pack, order, tax string
	day                    record.Day
	each                   unit.Money
}

func keyOf(l record.InvoiceLine) lineKey {
	k := lineKey{says: l.Says, pack: l.Pack, order: l.Order, tax: l.Tax, day: l.Day}
	if l.Pack != "" {
		k.each = l.Each
	}
	return k
}

// Left is what is left of each line that can be credited, in the order of the invoice: without the lines that take the tax out of prices.
func (b *Bill) Left() []Left {
	gone := map[lineKey]record.InvoiceLine{}
	for _, c := range b.Credits {
		for _, l := range c.Lines {
			x := gone[keyOf(l)]
			x.Count, x.Net = x.Count+l.Count, x.Net+l.Net
			gone[keyOf(l)] = x
		}
	}
	var left []Left
	for i, l := range b.Lines {
		if l.Tax != "" && l.Says == takenOut(l.Tax) {
			continue
		}
		x := gone[keyOf(l)]
		rest := Left{Line: i, Net: l.Net - x.Net}
		if l.Pack != "" {
			rest.Count = max(0, l.Count-x.Count)
			rest.Net = unit.Money(rest.Count) * l.Each
			x.Count -= l.Count - rest.Count // two lines alike: the first is taken first
			gone[keyOf(l)] = x
		} else {
			gone[keyOf(l)] = record.InvoiceLine{}
		}
		left = append(left, rest)
	}
	return left
}

// CreditNote takes packs and amounts of an invoice back. Packs take their part of the discounts with them: lines below zero that bear the same
// tax, in proportion to the packs that are left. Errors are *BackError and *RebuildError.
func (b *Bill) CreditNote(number string, day record.Day, why string, back []Back, off []Allowance) (record.Credited, error) {
	left := b.Left()
	var lines []record.InvoiceLine
	taken := map[string]unit.Money{} // of packs, by tax
	for _, x := range back {
		i := slices.IndexFunc(left, func(l Left) bool { return l.Line == x.Line && b.Lines[l.Line].Pack != "" })
		switch {
		case i < 0:
			return record.Credited{}, &BackError{b.Invoice, fmt.Sprintf("line %d", x.Line+1), "it is not packs", "take an amount off instead"}
		case x.Count < 1 || x.Count > left[i].Count:
			return record.Credited{}, &BackError{b.Invoice, fmt.Sprintf("line %d", x.Line+1), fmt.Sprintf("%d packs cannot be taken back: %d are left", x.Count, left[i].Count), "take back no more than are left"}
		}
		l := b.Lines[x.Line]
		l.Count, l.Net = x.Count, unit.Money(x.Count)*l.Each
		left[i].Count -= x.Count
		taken[l.Tax] += l.Net
		lines = append(lines, l)
	}
	lines = append(lines, b.discountsBack(taken)...)
	for i, a := range off {
		if a.Amount <= 0 || a.Amount%unit.Cent != 0 {
			return record.Credited{}, &BackError{b.Invoice, fmt.Sprintf("allowance %d", i+1), a.Amount.String() + " is not above zero in whole cents", "write what is taken off"}
		}
		lines = append(lines, record.InvoiceLine{Says: a.Says, Count: 1, Each: a.Amount, Net: a.Amount, Tax: a.Tax})
	}
	return b.note(number, day, why, lines)
}

// discountsBack are the discounts that go with packs.
func (b *Bill) discountsBack(taken map[string]unit.Money) []record.InvoiceLine {
	goods := map[string]unit.Money{} // that are left
	left := b.Left()
	for _, l := range left {
		if x := b.Lines[l.Line]; x.Pack != "" {
			goods[x.Tax] += l.Net
		}
	}
	var lines []record.InvoiceLine
	for _, l := range left {
		x := b.Lines[l.Line]
		if x.Pack != "" || l.Net >= 0 || taken[x.Tax] == 0 {
			continue
		}
		if part := inCents(l.Net, taken[x.Tax], goods[x.Tax]); part != 0 {
			x.Count, x.Each, x.Net = 1, part, part
			lines = append(lines, x)
		}
	}
	return lines
}

// inCents is m*num/den in whole cents, half a cent away from zero.
func inCents(m, num, den unit.Money) unit.Money {
	twice := big.NewInt(int64(m / unit.Cent))
	twice.Mul(twice, big.NewInt(int64(num)*2))
	half := big.NewInt(int64(den))
	if twice.Sign() < 0 {
		half.Neg(half)
	}
	twice.Add(twice, half)
	return unit.Money(twice.Quo(twice, big.NewInt(int64(den)*2)).Int64()) * unit.Cent
}

// CreditAll takes back all that is left of an invoice.
func (b *Bill) CreditAll(number string, day record.Day, why string) (record.Credited, error) {
	x, err := rebuild(b.Invoiced)
	if err != nil {
		return record.Credited{}, err
	}
	var lines []record.InvoiceLine
	sums := map[string]unit.Money{}
	for _, l := range b.Left() {
		line := b.Lines[l.Line]
		if line.Pack != "" {
			line.Count, line.Net = l.Count, l.Net
		} else {
			line.Count, line.Each, line.Net = 1, l.Net, l.Net
		}
		if line.Net != 0 {
			lines = append(lines, line)
			sums[line.Tax] += line.Net
		}
	}
	for i, r := range x.invoice.Rest(x.credits(b.Credits)) { // what amounts took off before
		name := x.names[i]
		if diff := unit.Money(r.Count)*unit.Cent - sums[name]; diff != 0 {
			lines = append(lines, record.InvoiceLine{Says: "less what was taken off before", Count: 1, Each: diff, Net: diff, Tax: name})
		}
	}
	return b.note(number, day, why, lines)
}

// note works out the taxes of a credit note and writes it.
func (b *Bill) note(number string, day record.Day, why string, lines []record.InvoiceLine) (record.Credited, error) {
	out := record.Credited{Credit: number, Invoice: b.Invoice, Day: day, Lines: lines, Why: why}
	if len(lines) == 0 {
		return out, &BackError{b.Invoice, "credit note", "it takes nothing back", "say which packs, or how much is taken off"}
	}
	x, err := rebuild(b.Invoiced)
	if err != nil {
		return out, err
	}
	amounts := map[string]unit.Money{}
	for _, l := range lines {
		amounts[l.Tax] += l.Net
	}
	for _, name := range slices.Sorted(maps.Keys(amounts)) {
		if !slices.Contains(x.names, name) {
			return out, &BackError{b.Invoice, "credit note", fmt.Sprintf("the invoice has no tax %q", name), "name one that it has"}
		}
	}
	credit, err := x.credit(b.Credits, amounts)
	if wrong := (*invoice.CreditError)(nil); errors.As(err, &wrong) {
		left := unit.Money(x.invoice.Rest(x.credits(b.Credits))[wrong.Line].Count) * unit.Cent
		return out, &BackError{b.Invoice, "credit note", fmt.Sprintf("it takes back %s, and %s is left of what bears %s", amounts[x.names[wrong.Line]], left, cmp.Or(x.names[wrong.Line], "no tax")), "take back no more than is left"}
	}
	if err != nil {
		return out, err
	}
	total := invoice.Invoice{Draft: x.invoice.Draft, Taxes: credit.Taxes}
	taken, taxes := written(total, x.taxIn)
	out.Lines = append(out.Lines, taken...)
	out.Taxes, out.Total = taxes, credit.Gross
	return out, nil
}
