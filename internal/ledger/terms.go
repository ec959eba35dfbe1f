package ledger

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/invoice"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Terms are on what terms a customer buys, by the book.
type Terms struct {
	List    kitchen.PriceListID // "": the packs' own prices
	TaxIn   bool                // prices have the tax in them
	Untaxed string              // why no tax is put on; "": it is
	Off     unit.Share          // discount on all goods
	OffName string
	Days    int // until it is to be paid
	Taxed   invoice.Taxed
	Round   invoice.Rounding

	book kitchen.Book
}

// TermsOf are a customer's terms. A customer of a list that the book has not is a finding.
func TermsOf(book kitchen.Book, c record.Customer) (Terms, finding.List) {
	s := book.Seller
	t := Terms{TaxIn: s.TaxIn, Days: s.Terms, book: book}
	if s.TaxOn == kitchen.TaxOnLine {
		t.Taxed = invoice.PerLine
	}
	if s.HalfCents == kitchen.HalfCentsEven {
		t.Round = invoice.HalfEven
	}
	if c.Prices == "" {
		return t, nil
	}
	t.List = kitchen.PriceListID(c.Prices)
	l, there := book.PriceLists[t.List]
	if !there {
		return t, finding.List{about(record.ID{}, "customer "+c.Customer, CodeNoList, finding.Stop, fmt.Sprintf("their prices are those of the list %q, and the book has %v", c.Prices, slices.Sorted(maps.Keys(book.PriceLists))), "add the list to the book, or correct the customer")}
	}
	t.TaxIn, t.Untaxed, t.Off, t.OffName = l.TaxIn, l.Untaxed, l.Off, cmp.Or(l.OffName, "discount")
	if l.Terms != nil {
		t.Days = *l.Terms
	}
	return t, nil
}

// Price is what each of so many packs costs on a day: by the customer's list, or what the pack itself says. It is a finding when nothing says
// it.
func (t Terms) Price(pack kitchen.PackID, packs int64, day record.Day) (unit.Money, *finding.Finding) {
	where := "pack " + string(pack)
	p, known := t.book.Packs[pack]
	if !known {
		return 0, ptr(about(record.ID{}, where, CodeNoPack, finding.Stop, "the book has no such pack", "add it to the book, or correct the entry that names it"))
	}
	own := invoice.PriceList{Kind: string(t.List)}
	for _, x := range t.book.PriceLists[t.List].PricesOn(string(day)) {
		if x.Pack == pack {
			own.Prices = append(own.Prices, invoice.Price{From: int64(x.From), Each: x.Each})
		}
	}
	if each, err := invoice.PriceFor([]invoice.PriceList{own}, string(t.List), 0, packs); t.List != "" && err == nil {
		return each, nil
	}
	switch {
	case p.Price == 0:
		return 0, ptr(about(record.ID{}, where, CodeNoPrice, finding.Stop, fmt.Sprintf("nothing says what %d of it cost on %s", packs, day), "write price: at the pack, or add it to the price list"))
	case t.TaxIn != t.book.Seller.TaxIn:
		return 0, ptr(about(record.ID{}, where, CodePriceTax, finding.Stop, fmt.Sprintf("the list %s has no price for it, and the pack's own price has the tax in it where the list's have not, or the other way round", t.List), "add it to the list"))
	}
	return p.Price, nil
}

func ptr[T any](x T) *T { return &x }
