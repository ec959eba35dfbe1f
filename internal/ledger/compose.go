package ledger

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/invoice"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Invoice adds a draft up and writes it as it is issued: discounts are lines of their own, and so is the tax that is taken out of prices
// which have it in them, so that each line is its count times its price and the lines and the taxes make the total. Errors are
// *invoice.DraftError.
func (d Draft) Invoice(number string) (record.Invoiced, error) {
	out := record.Invoiced{Invoice: number, Customer: d.Customer.Customer, Day: d.Day, Due: d.Due, Order: onlyOrder(d.Lines), To: addressee(d.Customer), From: sender(d.Terms.book), Note: d.note()}
	lines, err := d.withDiscounts()
	if err != nil {
		return out, err
	}
	x := d.exact(lines)
	total, err := invoice.Total(x.Draft)
	if err != nil {
		return out, err
	}
	for _, l := range lines {
		out.Lines = append(out.Lines, record.InvoiceLine{Says: l.Says, Count: l.Count, Each: l.Each, Net: unit.Money(l.Count) * l.Each, Tax: d.Terms.taxName(l.Tax), Pack: l.Pack, Order: l.Order, Day: l.Day})
	}
	taken, taxes := written(total, d.Terms.TaxIn)
	out.Lines = append(out.Lines, taken...)
	out.Taxes, out.Total = taxes, total.Gross
	return out, nil
}

// exact is a draft in the terms of package invoice. Lines below zero count below zero.
type exact struct{ invoice.Draft }

func (d Draft) exact(lines []Line) exact {
	x := exact{invoice.Draft{Taxed: d.Terms.Taxed, Rounding: d.Terms.Round}}
	if d.Terms.TaxIn {
		x.Prices = invoice.Inclusive
	}
	rates := map[string]int{}
	for _, l := range lines {
		line := invoice.Line{Name: l.Says, Count: l.Count, Each: l.Each, Rate: invoice.NoTax, Kind: invoice.Goods}
		if l.Pack == "" {
			line.Kind = invoice.Charge
		}
		if name := d.Terms.taxName(l.Tax); name != "" {
			if _, there := rates[name]; !there {
				rates[name] = len(x.Rates)
				x.Rates = append(x.Rates, rateOf(d.Terms.book.TaxRates[l.Tax]))
			}
			line.Rate = rates[name]
		}
		x.Lines = append(x.Lines, positive(line))
	}
	return x
}

// positive has a price below zero count below zero instead.
func positive(l invoice.Line) invoice.Line {
	if l.Each < 0 {
		l.Count, l.Each = -l.Count, -l.Each
	}
	return l
}

func rateOf(t kitchen.TaxRate) invoice.Rate {
	r := invoice.Rate{Name: t.Name, Share: t.Rate}
	for _, p := range t.Parts {
		r.Parts = append(r.Parts, invoice.RatePart{Name: p.Name, Share: p.Rate})
	}
	return r
}

// withDiscounts adds the discount on all goods to the lines, one for each tax.
func (d Draft) withDiscounts() ([]Line, error) {
	lines := slices.Clone(d.Lines)
	if d.Terms.Off == 0 {
		return lines, nil
	}
	x := d.exact(lines)
	x.Off = []invoice.Off{{Name: d.Terms.OffName, Share: d.Terms.Off}}
	total, err := invoice.Total(x.Draft)
	if err != nil {
		return nil, err
	}
	for _, t := range total.Taxes {
		if t.Off == 0 {
			continue
		}
		off := Line{Says: d.Terms.OffName + " " + d.Terms.Off.String(), Count: 1, Each: -t.Off}
		for _, l := range d.Lines {
			if t.Rate != invoice.NoTax && d.Terms.taxName(l.Tax) == x.Rates[t.Rate].Name {
				off.Tax = l.Tax
			}
		}
		lines = append(lines, off)
	}
	return lines, nil
}

// taxName is what a tax is called on an invoice; "" if none is put on.
func (t Terms) taxName(id kitchen.TaxID) string {
	if id == "" || t.Untaxed != "" {
		return ""
	}
	return cmp.Or(t.book.TaxRates[id].Name, string(id))
}

// partMark stands between the name of a tax and that of its part.
const partMark = ": "

// takenOut is what the line says by which a tax is taken out of prices that have it in them.
func takenOut(tax string) string { return "in the prices above: " + tax }

// written is the taxes of an invoice as they are recorded, and the lines that take them out of prices that have them in.
func written(total invoice.Invoice, taxIn bool) (taken []record.InvoiceLine, taxes []record.TaxLine) {
	for _, t := range total.Taxes {
		if t.Rate == invoice.NoTax {
			continue
		}
		r := total.Draft.Rates[t.Rate]
		if taxIn && t.Tax != 0 {
			taken = append(taken, record.InvoiceLine{Says: takenOut(r.Name), Count: 1, Each: -t.Tax, Net: -t.Tax, Tax: r.Name})
		}
		if len(r.Parts) == 0 {
			taxes = append(taxes, record.TaxLine{Tax: r.Name, Rate: r.Share, On: t.Net, Is: t.Tax})
		}
		for i, p := range r.Parts {
			taxes = append(taxes, record.TaxLine{Tax: r.Name + partMark + p.Name, Rate: p.Share, On: t.Net, Is: t.Parts[i]})
		}
	}
	return taken, taxes
}

// onlyOrder is the order that all packs are for; "" when there are several, or none.
func onlyOrder(lines []Line) string {
	orders := map[string]bool{}
	only := ""
	for _, l := range lines {
		if l.Pack != "" {
			orders[l.Order], only = true, l.Order
		}
	}
	if len(orders) > 1 {
		return ""
	}
	return only
}

func addressee(c record.Customer) record.Text {
	return record.Text(strings.TrimSpace(c.Name + "\n" + string(c.Address)))
}

func sender(book kitchen.Book) record.Text {
	s := book.Seller
	lines := append([]string{cmp.Or(s.Name, book.Kitchen.Name)}, s.Address...)
	lines = append(lines, s.Contact...)
	if s.TaxNumber != "" {
		lines = append(lines, "Tax number "+s.TaxNumber)
	}
	return record.Text(strings.TrimSpace(strings.Join(lines, "\n")))
}

func (d Draft) note() record.Text {
	lines := []string{}
	if d.Terms.Untaxed != "" {
		lines = append(lines, d.Terms.Untaxed)
	}
	if pay := d.Terms.book.Seller.PayTo; len(pay) > 0 {
		lines = append(lines, fmt.Sprintf("To be paid by %s: %s", d.Due, strings.Join(pay, ", ")))
	}
	if n := d.Terms.book.Seller.Note; n != "" {
		lines = append(lines, n)
	}
	return record.Text(strings.Join(lines, "\n"))
}
