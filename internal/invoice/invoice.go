// Package invoice works out what an invoice comes to, to the cent, and accounts for every cent of it: prices by kind of customer,
// discounts, deposits, taxes of any number of rates, credit notes, what is open, and numbers without gaps.
//
// Which rates hold where, and what they hold for, is data: nothing here knows the law of any country. Where the calculation is that
// of the European standard for invoices, EN 16931, its business terms (BT) and rules (BR) are named, from memory.
package invoice

import "kettlefrost/internal/unit"

// Draft is an invoice before it is added up.
type Draft struct {
	Prices   Prices
	Rounding Rounding
	Taxed    Taxed
	Rates    []Rate
	Lines    []Line
	Off      []Off      // discounts on all goods, spread over the rates in proportion to the goods
	Prepaid  unit.Money // whole cents
}

// Prices says whether prices have the tax in them.
type Prices int

const (
	Exclusive Prices = iota // the tax comes on top
	Inclusive               // the tax is in the price
)

// Rounding says where half a cent goes.
type Rounding int

const (
	HalfUp   Rounding = iota // away from zero
	HalfEven                 // to the even cent
)

// Taxed says what tax is worked out on and rounded.
type Taxed int

const (
	PerDocument Taxed = iota // what a rate is due on in all (EN 16931, BR-CO-17)
	PerLine                  // each line
)

// Rate is a tax. Parts are the taxes it is made of, where several authorities share it: the tax is worked out with their sum and split
// over them to the cent.
type Rate struct {
	Name  string
	Share unit.Share // 0 to 100 %
	Parts []RatePart // none, or their shares add up to Share
}

// RatePart is what one authority has of a rate.
type RatePart struct {
	Name  string
	Share unit.Share
}

// NoTax in place of a rate is what no tax is charged on.
const NoTax = -1

// Kind says what a line is for.
type Kind int

const (
	Goods   Kind = iota
	Charge       // delivery, packing: no discount on all goods reduces it
	Deposit      // on crates and jars; below zero when they come back
)

// Line is one line of an invoice.
type Line struct {
	Kind  Kind
	Name  string
	Count int64      // packs; below zero: taken back
	Each  unit.Money // to the millionth, 0 or above
	Off   []Off
	Rate  int // which of Draft.Rates, or NoTax
}

// Off is a discount: a share of what it is on, an amount in whole cents, or both. Shares are each of the full amount, not one of what
// another leaves.
type Off struct {
	Name   string
	Share  unit.Share
	Amount unit.Money
}

// Invoice is a draft with all its sums. They are whole cents.
type Invoice struct {
	Draft Draft
	Lines []LineSum
	Offs  []unit.Money // of each of Draft.Off
	Taxes []TaxSum     // of each of Draft.Rates that is used, in their order; what is not taxed is the last, with rate NoTax
	Totals
}

// LineSum is what a line comes to. Amount is Full less Off, with the tax in it or not as the prices are; Net, Tax and Gross are after
// its part of the discounts on all goods. Those of all lines add up to those of the invoice.
type LineSum struct {
	Full, Off, Amount unit.Money // EN 16931: Amount is BT-131
	Shared            unit.Money // its part of the discounts on all goods
	Net, Tax, Gross   unit.Money
}

// TaxSum is what one rate comes to.
type TaxSum struct {
	Rate            int
	Off             unit.Money   // its part of the discounts on all goods
	Net, Tax, Gross unit.Money   // EN 16931: BT-116 and BT-117
	Parts           []unit.Money // of the tax, as Rate.Parts
}

// Totals is what an invoice comes to. Goods less Off plus Charges and Deposits is Net with exclusive prices, Gross with inclusive ones.
type Totals struct {
	Goods    unit.Money // EN 16931: BT-106
	Off      unit.Money // BT-107
	Charges  unit.Money // BT-108
	Deposits unit.Money // BT-108 too
	Net      unit.Money // BT-109
	Tax      unit.Money // BT-110
	Gross    unit.Money // BT-112
	Prepaid  unit.Money // BT-113
	Due      unit.Money // BT-115; below zero: to be paid back
}
