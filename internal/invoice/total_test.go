package invoice

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"kettlefrost/internal/unit"
)

// c is money in cents.
func c(n int64) unit.Money { return unit.Money(n) * unit.Cent }

var (
	vat19 = Rate{Name: "19 %", Share: 19 * unit.PerCent}
	vat7  = Rate{Name: "7 %", Share: 7 * unit.PerCent}
	vat25 = Rate{Name: "25 %", Share: 25 * unit.PerCent}
	vat5  = Rate{Name: "5 %", Share: 5 * unit.PerCent}
	// New York City's combined rate, from memory: state 4 %, city 4.5 %, Metropolitan Commuter Transportation District 0.375 %.
	newYork = Rate{Name: "sales tax", Share: 8_875 * unit.PerCent / 1000, Parts: []RatePart{
		{"state", 4 * unit.PerCent}, {"city", 45 * unit.PerCent / 10}, {"transport district", 375 * unit.PerCent / 1000}}}
)

func TestWhatAnInvoiceComesTo(t *testing.T) {
	for _, x := range []struct {
		name   string
		d      Draft
		taxes  []TaxSum
		totals Totals
	}{
		{
			// The base example of Peppol BIS Billing 3.0, which follows EN 16931, from memory: seven at 400, three at 500 taken back, a
			// charge of 25, 25 % VAT: 1300, 1325, 331.25, 1656.25.
			name: "the published base example of the European standard",
			d: Draft{Rates: []Rate{vat25}, Lines: []Line{{Name: "item", Count: 7, Each: c(400_00)}, {Name: "item taken back", Count: -3, Each: c(500_00)},
				{Kind: Charge, Name: "insurance", Count: 1, Each: c(25_00)}}},
			taxes:  []TaxSum{{Net: c(1325_00), Tax: c(331_25), Gross: c(1656_25)}},
			totals: Totals{Goods: c(1300_00), Charges: c(25_00), Net: c(1325_00), Tax: c(331_25), Gross: c(1656_25), Due: c(1656_25)},
		}, {
			// By hand after BR-CO-10 to BR-CO-17 (from memory): lines 1000.00 - 10 % = 900.00 at 19 % and 333.33 at 7 %, sum 1233.33; 100.00
			// off all, 900/1233.33 of it 72.97 and 27.03; delivery 20.00 at 19 %. Due on 847.03 and 306.30: 160.94 (160.9357) and 21.44
			// (21.441). 1233.33 - 100 + 20 = 1153.33; + 182.38 = 1335.71; 300 paid before.
			name: "two rates, line and document discounts, delivery, paid in part",
			d: Draft{Rates: []Rate{vat19, vat7}, Off: []Off{{Name: "opening", Amount: c(100_00)}}, Prepaid: c(300_00), Lines: []Line{
				{Name: "crockery", Count: 10, Each: c(100_00), Off: []Off{{Name: "trade", Share: 10 * unit.PerCent}}}, {Name: "soup", Count: 1, Each: c(333_33), Rate: 1},
				{Kind: Charge, Name: "delivery", Count: 1, Each: c(20_00)}}},
			taxes:  []TaxSum{{Off: c(72_97), Net: c(847_03), Tax: c(160_94), Gross: c(1007_97)}, {Rate: 1, Off: c(27_03), Net: c(306_30), Tax: c(21_44), Gross: c(327_74)}},
			totals: Totals{Goods: c(1233_33), Off: c(100_00), Charges: c(20_00), Net: c(1153_33), Tax: c(182_38), Gross: c(1335_71), Prepaid: c(300_00), Due: c(1035_71)},
		}, {
			// By hand: 119.00 with 19 % in it is 100.00 + 19.00; 53.50 with 7 % in it is 50.00 + 3.50; a deposit of 6.00 outside the tax.
			name: "prices with the tax in them, and a deposit on crates",
			d: Draft{Prices: Inclusive, Rates: []Rate{vat19, vat7}, Lines: []Line{{Name: "crockery", Count: 1, Each: c(119_00)}, {Name: "soup", Count: 10, Each: c(5_35), Rate: 1},
				{Kind: Deposit, Name: "crate", Count: 4, Each: c(3_00), Rate: NoTax}, {Kind: Deposit, Name: "crate back", Count: -2, Each: c(3_00), Rate: NoTax}}},
			taxes:  []TaxSum{{Net: c(100_00), Tax: c(19_00), Gross: c(119_00)}, {Rate: 1, Net: c(50_00), Tax: c(3_50), Gross: c(53_50)}, {Rate: NoTax, Net: c(6_00), Gross: c(6_00)}},
			totals: Totals{Goods: c(172_50), Deposits: c(6_00), Net: c(156_00), Tax: c(22_50), Gross: c(178_50), Due: c(178_50)},
		}, {
			// By hand: three at 12.99 are 38.97; 8.875 % of it is 3.4586. Of 3.46 the state has 1.5594, the city 1.7544, the district 0.1462:
			// 1.55, 1.75 and 0.14, and the two cents left to the remainders .94 and .62.
			name:   "sales tax shared by three authorities",
			d:      Draft{Rates: []Rate{newYork}, Lines: []Line{{Name: "chili", Count: 3, Each: c(12_99)}}},
			taxes:  []TaxSum{{Net: c(38_97), Tax: c(3_46), Gross: c(42_43), Parts: []unit.Money{c(1_56), c(1_75), c(15)}}},
			totals: Totals{Goods: c(38_97), Net: c(38_97), Tax: c(3_46), Gross: c(42_43), Due: c(42_43)},
		}, {
			name: "half a cent up: 5 % of 2.50 is 0.125", d: Draft{Rates: []Rate{vat5}, Lines: []Line{{Name: "bun", Count: 1, Each: c(2_50)}}},
			taxes: []TaxSum{{Net: c(2_50), Tax: c(13), Gross: c(2_63)}}, totals: Totals{Goods: c(2_50), Net: c(2_50), Tax: c(13), Gross: c(2_63), Due: c(2_63)},
		}, {
			name: "half a cent to the even one: 5 % of 2.50 is 0.12", d: Draft{Rounding: HalfEven, Rates: []Rate{vat5}, Lines: []Line{{Name: "bun", Count: 1, Each: c(2_50)}}},
			taxes: []TaxSum{{Net: c(2_50), Tax: c(12), Gross: c(2_62)}}, totals: Totals{Goods: c(2_50), Net: c(2_50), Tax: c(12), Gross: c(2_62), Due: c(2_62)},
		}, {
			name: "tax of the whole: 5 % of 1.50 is 0.075", d: Draft{Rates: []Rate{vat5}, Lines: []Line{{Count: 1, Each: c(50)}, {Count: 1, Each: c(50)}, {Count: 1, Each: c(50)}}},
			taxes: []TaxSum{{Net: c(1_50), Tax: c(8), Gross: c(1_58)}}, totals: Totals{Goods: c(1_50), Net: c(1_50), Tax: c(8), Gross: c(1_58), Due: c(1_58)},
		}, {
			name: "tax of each line: 5 % of 0.50 is 0.025, three times 0.03", d: Draft{Taxed: PerLine, Rates: []Rate{vat5}, Lines: []Line{{Count: 1, Each: c(50)}, {Count: 1, Each: c(50)}, {Count: 1, Each: c(50)}}},
			taxes: []TaxSum{{Net: c(1_50), Tax: c(9), Gross: c(1_59)}}, totals: Totals{Goods: c(1_50), Net: c(1_50), Tax: c(9), Gross: c(1_59), Due: c(1_59)},
		}, {
			name: "a price to the hundredth of a cent: 1000 at 0.0125", d: Draft{Rates: []Rate{vat19}, Lines: []Line{{Count: 1000, Each: 12_500, Rate: NoTax}}},
			taxes: []TaxSum{{Rate: NoTax, Net: c(12_50), Gross: c(12_50)}}, totals: Totals{Goods: c(12_50), Net: c(12_50), Gross: c(12_50), Due: c(12_50)},
		},
	} {
		t.Run(x.name, func(t *testing.T) {
			inv, err := Total(x.d)
			if err != nil {
				t.Fatal(err)
			}
			if !reflect.DeepEqual(inv.Taxes, x.taxes) {
				t.Errorf("taxes %+v\nwant  %+v", inv.Taxes, x.taxes)
			}
			if inv.Totals != x.totals {
				t.Errorf("totals %+v\nwant   %+v", inv.Totals, x.totals)
			}
		})
	}
}

func TestADraftThatCannotBe(t *testing.T) {
	line := Line{Name: "soup", Count: 2, Each: c(5_00), Rate: NoTax}
	with := func(change func(*Line)) Draft {
		l := line
		change(&l)
		return Draft{Lines: []Line{l}}
	}
	for _, x := range []struct {
		d    Draft
		want string
	}{
		{with(func(l *Line) { l.Rate = 0 }), "line 1 (soup): its rate is not there"},
		{with(func(l *Line) { l.Each = -1 }), "a price below zero"},
		{with(func(l *Line) { l.Count = 1 << 62 }), "more than 100 million"},
		{with(func(l *Line) { l.Count = -1 << 63 }), "more than 100 million"},
		{with(func(l *Line) { l.Kind = 9 }), "what it is for is not known"},
		{with(func(l *Line) { l.Off = []Off{{Amount: c(10_01)}} }), "its discounts come to 10.01 and are more than the line, 10.00"},
		{with(func(l *Line) { l.Off = []Off{{Amount: 1}} }), "not whole cents"},
		{with(func(l *Line) { l.Off = []Off{{Share: 60 * unit.PerCent}, {Share: 60 * unit.PerCent}} }), "more than the whole"},
		{Draft{Lines: []Line{line}, Off: []Off{{Amount: c(11_00)}}}, "11.00 is more than the goods, 10.00"},
		{Draft{Prepaid: -c(1)}, "prepaid: -0.01 is below zero"},
		{Draft{Rates: []Rate{{Name: "tax", Share: -1}}}, "rate 1 (tax): its share is not from 0 to 100 %"},
		{Draft{Rates: []Rate{{Share: 5, Parts: []RatePart{{Share: 4}}}}}, "its parts come to another rate"},
		{Draft{Rates: []Rate{{Share: 5, Parts: []RatePart{{Share: 6}}}}}, "its parts come to another rate"},
		{Draft{Taxed: 7}, "is not known"},
		{Draft{Lines: make([]Line, 10_001)}, "more than 10,000 lines"},
	} {
		_, err := Total(x.d)
		var e *DraftError
		if !errors.As(err, &e) || !strings.Contains(err.Error(), x.want) || e.Fix == "" {
			t.Errorf("got %v, want %s", err, x.want)
		}
	}
}

func TestWhatACustomerPaysForAPack(t *testing.T) {
	lists := []PriceList{
		{"", []Price{{0, 1, c(9_00)}, {0, 10, c(8_00)}, {1, 1, c(4_00)}}},
		{"café", []Price{{0, 20, c(6_50)}, {0, 5, c(7_00)}}},
	}
	for _, x := range []struct {
		kind    string
		product int
		packs   int64
		want    unit.Money
	}{{"", 0, 9, c(9_00)}, {"", 0, 10, c(8_00)}, {"café", 0, 4, c(9_00)}, {"café", 0, 5, c(7_00)}, {"café", 0, 20, c(6_50)}, {"café", 1, 1, c(4_00)}, {"school", 0, 30, c(8_00)}} {
		if got, err := PriceFor(lists, x.kind, x.product, x.packs); got != x.want || err != nil {
			t.Errorf("%s, product %d, %d packs: %s (%v), want %s", x.kind, x.product, x.packs, got, err, x.want)
		}
	}
	var e *PriceError
	if _, err := PriceFor(lists, "café", 2, 1); !errors.As(err, &e) {
		t.Errorf("a product with no price: %v", err)
	}
}
