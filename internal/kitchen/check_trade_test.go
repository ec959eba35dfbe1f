package kitchen_test

import (
	"reflect"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

const trading = sound + `
seller: {name: Mill Lane Kitchen, address: [Mill Lane 3, Harrow Creek], tax-number: T-1, invoice-numbers: R-YYYY-0000, credit-numbers: C-YYYY-0000, terms-days: 14}
tax-rates:
  meals: {name: meals tax, rate: 6 %, parts: [{name: state, rate: 5 %}, {name: town, rate: 1 %}], source: invented}
  deposit: {name: deposit tax, rate: 2 %, source: invented}
price-lists:
  shops: {name: shops, off: 3 %, prices: [{pack: dal-lb, each: $5.80}, {pack: dal-lb, each: $5.50, from: 24}]}
`

func TestNothingIsWrongWithASoundTrade(t *testing.T) {
	for _, f := range check(t, trading) {
		t.Errorf("%s %s: %s", f.Code, f.Path, f)
	}
}

func TestSlipsInTrade(t *testing.T) {
	testSlipsIn(t, trading, finding.Stop, []slipCase{
		{slip{"R-YYYY-0000", "R-0-YYYY"}, []found{{kitchen.NumberPattern, "seller.invoice-numbers", "zeros", "R-YYYY-0000"}}},
		{slip{"C-YYYY-0000", "R-YYYY-0000"}, []found{{kitchen.NumberPattern, "seller.credit-numbers", "same numbers", "beginning of their own"}}},
		{slip{"terms-days: 14", "terms-days: 900"}, []found{{kitchen.OutOfRange, "seller.terms-days", "900 days", "check"}}},
		{slip{"rate: 6 %", "rate: 7 %"}, []found{{kitchen.TaxParts, "tax-rates.meals.parts", "come to 6 %, and the rate is 7 %", "correct"}}},
		{slip{"rate: 2 %", "rate: 200 %"}, []found{{kitchen.OutOfRange, "tax-rates.deposit.rate", "200 %", "check"}}},
		{slip{"name: deposit tax", "name: meals tax"}, []found{{kitchen.DuplicateID, "tax-rates.meals.name", "deposit is called", "another name"}}},
		{slip{"name: deposit tax", `name: "tax: deposit"`}, []found{{kitchen.TaxParts, "tax-rates.deposit.name", "colon", "without"}}},
		{slip{"each: $5.80}", "each: $5.805}"}, []found{{kitchen.CentParts, "price-lists.shops.prices[0].each", "5.805", "pay"}}},
		{slip{"from: 24", "from: 1"}, []found{{kitchen.PriceTwice, "price-lists.shops.prices[1]", "another price above", "since"}}},
		{slip{"each: $5.80}", "each: $5.80, since: soon}"}, []found{{kitchen.BadDate, "price-lists.shops.prices[0].since", "soon", "year"}}},
		{slip{"{pack: dal-lb, each: $5.80}", "{pack: dal-pound, each: $5.80}"}, []found{{kitchen.UnknownReference, "price-lists.shops.prices[0].pack", "no pack dal-pound", ""}}},
		{slip{"crew: 2, price: $6.50,", "crew: 2, price: $6.50, tax: food,"}, []found{{kitchen.UnknownReference, "packs.dal-lb.tax", "no tax rate food", "deposit, meals"}}},
	})
	testSlipsIn(t, trading, finding.Caution, []slipCase{
		{slip{"rate: 2 %, source: invented", `rate: 2 %, source: " "`}, []found{{kitchen.TaxByNobody, "tax-rates.deposit.source", "nobody", "authority"}}},
	})
}

func TestPricesOn(t *testing.T) {
	list := kitchen.PriceList{Prices: []kitchen.ListPrice{
		{Pack: "dal", Each: 5 * unit.MoneyUnit},
		{Pack: "dal", Each: 4 * unit.MoneyUnit, From: 24},
		{Pack: "dal", Each: 6 * unit.MoneyUnit, Since: "2026-12-01"}, // and no grades any more
		{Pack: "pea", Each: 3 * unit.MoneyUnit, Since: "2027-01-01"},
	}}
	for day, want := range map[string][]kitchen.ListPrice{
		"2026-11-30": {list.Prices[0], list.Prices[1]},
		"2026-12-01": {list.Prices[2]},
		"2027-01-01": {list.Prices[2], list.Prices[3]},
	} {
		if got := list.PricesOn(day); !reflect.DeepEqual(got, want) {
			t.Errorf("on %s: %v, want %v", day, got, want)
		}
	}
}
