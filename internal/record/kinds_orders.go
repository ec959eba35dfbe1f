package record

import (
	"fmt"
	"math/big"

	"kettlefrost/internal/unit"
)

// Customer is somebody who buys, as known from here on: a later entry with the same ID takes its place.
type Customer struct {
	Customer string `json:"customer"` // short and for good: joes-cafe
	Name     string `json:"name"`
	Address  Text   `json:"address,omitzero"`
	Phone    string `json:"phone,omitzero"`
	Mail     string `json:"mail,omitzero"`
	Prices   string `json:"prices,omitzero"` // which price list
	Note     Text   `json:"note,omitzero"`
	LifeDays int64  `json:"life_days,omitzero"` // days that packs must still be good on the day they are due
	MostLots int64  `json:"most_lots,omitzero"` // most lots that packs of a kind may come from; any number when left out
}

// OrderLine is so many packs of a kind.
type OrderLine struct {
	Pack  string     `json:"pack"`
	Count int64      `json:"count"`
	Each  unit.Money `json:"each,omitzero"` // agreed; the price list's when left out
}

// Ordered is what a customer wants by a day. When the customer thinks again, an Ordered that corrects it says all of it anew; what was said
// before stays in the chain.
//
// A standing order (with Weeks) is due again and again. An Ordered of the same number that corrects nothing and is due later has its terms
// change from that day on. Each of its deliveries has a number of its own, the order's with the day by the rule: O-7/2026-12-04. An Ordered of
// that number takes the place of the one delivery, which may then be of other packs or due on another day; a Cancelled of it leaves it out.
type Ordered struct {
	Order    string      `json:"order"`
	Customer string      `json:"customer"`
	Lines    []OrderLine `json:"lines"`
	Due      Day         `json:"due"`
	Way      Way         `json:"way"`
	Weeks    int64       `json:"every_weeks,omitzero"` // of a standing order: again after so many weeks
	Until    Day         `json:"until,omitzero"`       // its last day
	Note     Text        `json:"note,omitzero"`
	Whole    bool        `json:"whole,omitzero"` // all of it or nothing
}

// Way is how packs get to a customer.
type Way string

const (
	Collect Way = "collect"
	Deliver Way = "deliver"
)

func (Way) choices() []string { return []string{string(Collect), string(Deliver)} }

// Cancelled is an order that will not be met, or what of it has not been handed over. Packs that were set aside for it are free again.
type Cancelled struct {
	Order string `json:"order"`
	Why   string `json:"why"`
}

// Picked is packs that were set aside for an order.
type Picked struct {
	Order   string  `json:"order"`
	Lot     Lot     `json:"lot"`
	Numbers Numbers `json:"numbers"`
}

// HandedOver is packs that left the house.
type HandedOver struct {
	Order    string  `json:"order,omitzero"`
	Customer string  `json:"customer"`
	Lot      Lot     `json:"lot"`
	Numbers  Numbers `json:"numbers"`
	Address  Text    `json:"address,omitzero"`  // where to: what is known of the customer may change later
	TakenBy  string  `json:"taken_by,omitzero"` // who took them
}

// Returned is packs that came back, and whether they may ever be sold again.
type Returned struct {
	Customer string  `json:"customer"`
	Lot      Lot     `json:"lot"`
	Numbers  Numbers `json:"numbers"`
	Why      string  `json:"why"`
	Sound    bool    `json:"sound,omitzero"` // never out of the cold: it goes back to the stock
	Place    Place   `json:"place,omitzero"`
}

// Routed is the order in which the deliveries of a day are driven, as meant from here on.
type Routed struct {
	Day    Day      `json:"day"`
	Orders []string `json:"orders"`
}

// InvoiceLine is one line of an invoice.
type InvoiceLine struct {
	Says  string     `json:"says"`
	Count int64      `json:"count"`
	Each  unit.Money `json:"each"`
	Net   unit.Money `json:"net"`
	Tax   string     `json:"tax,omitzero"`   // the name of its rate
	Pack  string     `json:"pack,omitzero"`  // when it is packs that were handed over: which,
	Order string     `json:"order,omitzero"` // for which order,
	Day   Day        `json:"day,omitzero"`   // and when, or when the last of them
}

// TaxLine is what one rate comes to.
type TaxLine struct {
	Tax  string     `json:"tax"`
	Rate unit.Share `json:"rate"`
	On   unit.Money `json:"on"`
	Is   unit.Money `json:"is"`
}

// Invoiced is an invoice as it was sent.
type Invoiced struct {
	Invoice  string        `json:"invoice"`
	Order    string        `json:"order,omitzero"`
	Customer string        `json:"customer"`
	Day      Day           `json:"day"`
	Due      Day           `json:"due"`
	Lines    []InvoiceLine `json:"lines"`
	Taxes    []TaxLine     `json:"taxes,omitzero"`
	Total    unit.Money    `json:"total"`
	To       Text          `json:"to,omitzero"`   // name and address, as sent: what is known of the customer may change later
	From     Text          `json:"from,omitzero"` // who sent it
	Note     Text          `json:"note,omitzero"` // how to pay, and what else was on it
}

// Credited takes back an invoice, or part of it.
type Credited struct {
	Credit  string        `json:"credit"`
	Invoice string        `json:"invoice"`
	Day     Day           `json:"day"`
	Lines   []InvoiceLine `json:"lines"`
	Taxes   []TaxLine     `json:"taxes,omitzero"`
	Total   unit.Money    `json:"total"`
	Why     string        `json:"why"`
	Off     bool          `json:"packs_off,omitzero"` // its packs are off the bill: they came back, or are to be billed anew; else they stay where they are
}

// Paid is money that came in for an invoice, or went back.
type Paid struct {
	Invoice string     `json:"invoice"`
	Amount  unit.Money `json:"amount"`
	By      string     `json:"by,omitzero"`
}

func (Customer) Kind() Kind   { return "customer" }
func (Ordered) Kind() Kind    { return "ordered" }
func (Cancelled) Kind() Kind  { return "cancelled" }
func (Picked) Kind() Kind     { return "picked" }
func (HandedOver) Kind() Kind { return "handed-over" }
func (Returned) Kind() Kind   { return "returned" }
func (Routed) Kind() Kind     { return "routed" }
func (Invoiced) Kind() Kind   { return "invoiced" }
func (Credited) Kind() Kind   { return "credited" }
func (Paid) Kind() Kind       { return "paid" }

func (o Ordered) agree(c *checker) {
	c.needs(given{"until", o.Until != ""}, given{"every_weeks", o.Weeks != 0})
}

func (i Invoiced) agree(c *checker) { sumsUp(c, i.Lines, i.Taxes, i.Total) }
func (x Credited) agree(c *checker) { sumsUp(c, x.Lines, x.Taxes, x.Total) }

// sumsUp checks that each line is its count times its price, and that the lines and what is put on them make the total.
func sumsUp(c *checker, lines []InvoiceLine, taxes []TaxLine, total unit.Money) {
	sum := new(big.Int) // what is typed can be anything: it must not wrap around
	for i, l := range lines {
		sum.Add(sum, big.NewInt(int64(l.Net)))
		product := new(big.Int).Mul(big.NewInt(l.Count), big.NewInt(int64(l.Each)))
		if product.Cmp(big.NewInt(int64(l.Net))) != 0 {
			c.enter("lines", 0)
			c.enter("", i)
			c.at("net", fmt.Sprintf("is %s for %d at %s", l.Net, l.Count, l.Each), "multiply again; write a discount as a line of its own, below zero")
			c.leave()
			c.leave()
		}
	}
	for _, t := range taxes {
		sum.Add(sum, big.NewInt(int64(t.Is)))
	}
	if sum.Cmp(big.NewInt(int64(total))) != 0 {
		c.at("total", "is "+total.String()+", which is not what lines and taxes come to", "add up again")
	}
}
