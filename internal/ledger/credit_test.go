package ledger

import (
	"errors"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// The invoice of TestTwoTaxesAndADiscount, by hand: 10 of 30 dal back are 55.00 and a third of the discount, 1.65: 53.35. Of the tax on
// 160.05, 11.20, that takes 11.20 × 53.35/160.05 = 3.7333, so 3.73. All 10 pea back take the rest of their discount and of their tax.
func TestPacksComeBack(t *testing.T) {
	c := &chain{t: t}
	shop := record.Customer{Customer: "shop", Name: "The Shop", Prices: "shops"}
	c.day("2026-12-05").say(issue(t, house(), "R-2026-0001", shop, "2026-12-05", []Delivery{goods("shop", "O-1", "dal", 30, "2026-12-04"), goods("shop", "O-1", "pea", 10, "2026-12-03")}))
	s, _ := c.ledger()
	note, err := s.Bill("R-2026-0001").CreditNote("C-2026-0001", "2026-12-08", "thawed", []Back{{0, 10}, {1, 10}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	sameText(t, text(note.Lines, note.Taxes, note.Total), `
	10 × Dal, 1 lb 5.50 = 55.00 food tax
	10 × Pea soup, 1 lb 4.99 = 49.90 meals tax
	1 × trade discount 3 % -1.65 = -1.65 food tax
	1 × trade discount 3 % -1.50 = -1.50 meals tax
	food tax 7 % on 53.35: 3.73
	meals tax: state 5 % on 48.40: 2.42
	meals tax: town 1 % on 48.40: 0.48
	total 108.38`)
	c.day("2026-12-08").say(note)
	s, _ = c.ledger()
	rest, err := s.Bill("R-2026-0001").CreditAll("C-2026-0002", "2026-12-09", "all of it")
	if err != nil {
		t.Fatal(err)
	}
	sameText(t, text(rest.Lines, rest.Taxes, rest.Total), `
	20 × Dal, 1 lb 5.50 = 110.00 food tax
	1 × trade discount 3 % -3.30 = -3.30 food tax
	food tax 7 % on 106.70: 7.47
	total 114.17`)
	if s.Bill("R-2026-0001").Total != note.Total+rest.Total {
		t.Errorf("%s less %s and %s is not nothing", s.Bill("R-2026-0001").Total, note.Total, rest.Total)
	}
}

func TestWhatCannotBeCredited(t *testing.T) {
	c := &chain{t: t}
	c.day("2026-12-05").say(issue(t, house(), "R-2026-0001", record.Customer{Customer: "ann", Name: "Ann"}, "2026-12-05", []Delivery{goods("ann", "", "dal", 3, "2026-12-04")}, Line{Says: "bringing it", Count: 1, Each: 4 * usd}))
	s, _ := c.ledger()
	b := s.Bill("R-2026-0001")
	for _, x := range []struct {
		name string
		back []Back
		off  []Allowance
	}{
		{"more packs than there were", []Back{{0, 4}}, nil},
		{"the same packs twice", []Back{{0, 2}, {0, 2}}, nil},
		{"no packs", []Back{{0, 0}}, nil},
		{"no line", []Back{{7, 1}}, nil},
		{"what is not packs", []Back{{1, 1}}, nil},
		{"nothing", nil, nil},
		{"more than the lines come to", nil, []Allowance{{"torn", 20 * usd, "food tax"}}},
		{"parts of a cent", nil, []Allowance{{"torn", 5, "food tax"}}},
		{"less than nothing", nil, []Allowance{{"torn", -usd, "food tax"}}},
		{"a tax that is not on it", nil, []Allowance{{"torn", usd, "meals tax"}}},
	} {
		if note, err := b.CreditNote("C-2026-0001", "2026-12-08", "why", x.back, x.off); err == nil {
			t.Errorf("%s is credited: %+v", x.name, note)
		}
	}
	_, err := b.CreditNote("C-2026-0001", "2026-12-08", "why", []Back{{0, 4}}, nil)
	if wrong := (*BackError)(nil); !errors.As(err, &wrong) || wrong.Fix == "" {
		t.Errorf("error %v", err)
	}
	note, err := b.CreditNote("C-2026-0001", "2026-12-08", "late", nil, []Allowance{{"came a day late", 4 * usd, ""}})
	if err != nil || note.Total != 4*usd || len(note.Taxes) != 0 {
		t.Errorf("an amount without tax: %+v, %v", note, err)
	}
}

// Whatever is billed on whatever terms, and however it is credited in pieces: every document adds up, no more is taken back than was billed, the
// rest can always be taken back, and then nothing is left, to the cent, of any tax.
func TestCreditedInPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		book := house()
		book.Seller.TaxIn = rapid.Bool().Draw(t, "tax in")
		book.Seller.TaxOn = rapid.SampledFrom([]kitchen.TaxOn{"", kitchen.TaxOnLine}).Draw(t, "tax on")
		book.Seller.HalfCents = rapid.SampledFrom([]kitchen.HalfCents{"", kitchen.HalfCentsEven}).Draw(t, "half cents")
		book.PriceLists["any"] = kitchen.PriceList{Name: "any", TaxIn: book.Seller.TaxIn, Off: unit.Share(rapid.Int64Range(0, 40).Draw(t, "off")) * unit.PerCent / 2}
		for id, p := range book.Packs {
			p.Price = unit.Money(rapid.Int64Range(1, 9999).Draw(t, "price")) * cent
			p.Tax = rapid.SampledFrom([]kitchen.TaxID{"", "food", "meals", "full"}).Draw(t, "tax")
			book.Packs[id] = p
		}
		var unbilled []Delivery
		for _, pack := range []string{"dal", "pea", "bone", "free"} {
			if n := rapid.Int64Range(0, 60).Draw(t, pack); n > 0 || pack == "dal" {
				unbilled = append(unbilled, goods("c", "O-1", pack, n+1, "2026-12-04"))
			}
		}
		c := &chain{t: t}
		d, found := Propose(book, record.Customer{Customer: "c", Name: "C", Prices: "any"}, "2026-12-05", unbilled)
		if len(found) > 0 {
			t.Fatal(found)
		}
		inv, err := d.Invoice("R-2026-0001")
		if err != nil {
			t.Fatal(err)
		}
		c.day("2026-12-05").say(inv)
		for n := range rapid.IntRange(0, 4).Draw(t, "notes") {
			s, _ := c.ledger()
			b := s.Bill("R-2026-0001")
			var back []Back
			for _, l := range b.Left() {
				if l.Count > 0 && rapid.Bool().Draw(t, "some of it") {
					back = append(back, Back{l.Line, rapid.Int64Range(1, l.Count).Draw(t, "back")})
				}
			}
			var off []Allowance
			if rapid.Bool().Draw(t, "an amount") {
				off = append(off, Allowance{"allowance", unit.Money(rapid.Int64Range(1, 300).Draw(t, "amount")) * cent, inv.Lines[0].Tax})
			}
			note, err := b.CreditNote("C-2026-000"+string(rune('1'+n)), "2026-12-08", "why", back, off)
			if err == nil {
				c.day("2026-12-08").say(note)
			}
		}
		s, _ := c.ledger()
		if last, err := s.Bill("R-2026-0001").CreditAll("C-2026-0009", "2026-12-09", "the rest"); err == nil {
			c.day("2026-12-09").say(last)
		} else if nothing := (*BackError)(nil); !errors.As(err, &nothing) {
			t.Fatal(err)
		}
		s, _ = c.ledger()
		b := s.Bill("R-2026-0001")
		if b.Open() != 0 {
			t.Errorf("%s is left of %s", b.Open(), b.Total)
		}
		left := map[string]unit.Money{}
		for _, x := range inv.Taxes {
			left[x.Tax] += x.Is
		}
		for _, n := range b.Credits {
			for _, x := range n.Taxes {
				left[x.Tax] -= x.Is
			}
		}
		for tax, m := range left {
			if m != 0 {
				t.Errorf("%s of %s is left", m, tax)
			}
		}
		invoices, credits, _ := Numbers(book.Seller)
		for _, f := range s.Audit(invoices, credits, "2026-12-31").Findings {
			if f.Code != CodeGap {
				t.Errorf("%s", f)
			}
		}
	})
}
