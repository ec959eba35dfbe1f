package kitchen

import "kettlefrost/internal/unit"

// IDs, as those of book.go.
type (
	PriceListID string
	TaxID       string
)

// Seller is who writes the invoices, and on what terms.
type Seller struct {
	Name      string    `yaml:"name,omitempty" desc:"as it stands on invoices; the kitchen's when left out"`
	Address   []string  `yaml:"address,omitempty" desc:"its lines, as on a letter"`
	TaxNumber string    `yaml:"tax-number,omitempty" desc:"the number under which it is known to the tax office"`
	Contact   []string  `yaml:"contact,omitempty" desc:"telephone, mail: lines below the address"`
	PayTo     []string  `yaml:"pay-to,omitempty" desc:"how to pay, in lines: bank and account, or cheque to whom"`
	Invoices  string    `yaml:"invoice-numbers,omitempty" desc:"pattern of invoice numbers, such as R-YYYY-0000: begun anew each year with YYYY-, as many digits as zeros; YYYY-0000 when left out"`
	Credits   string    `yaml:"credit-numbers,omitempty" desc:"pattern of the numbers of credit notes; C-YYYY-0000 when left out"`
	Terms     int       `yaml:"terms-days,omitempty" desc:"days from the day of an invoice until it is to be paid; at once when left out"`
	TaxIn     bool      `yaml:"tax-in,omitempty" desc:"the prices of the packs have the tax in them"`
	TaxOn     TaxOn     `yaml:"tax-on,omitempty" desc:"what a tax is worked out on and rounded to the cent: invoice (all that bears it) or line; invoice when left out" enum:"invoice,line"`
	HalfCents HalfCents `yaml:"half-cents,omitempty" desc:"where half a cent goes: up or to the even cent; up when left out" enum:"up,even"`
	Note      string    `yaml:"note,omitempty" desc:"what else stands on every invoice"`
}

// TaxOn is what a tax is worked out on.
type TaxOn string

const (
	TaxOnInvoice TaxOn = "invoice"
	TaxOnLine    TaxOn = "line"
)

// HalfCents is where half a cent goes.
type HalfCents string

const (
	HalfCentsUp   HalfCents = "up"
	HalfCentsEven HalfCents = "even"
)

// TaxRate is a tax on what is sold. Which rate holds for what is for the kitchen to find out and to write here with its source.
type TaxRate struct {
	Name   string     `yaml:"name" desc:"as it stands on invoices, such as meals tax"`
	Rate   unit.Share `yaml:"rate" desc:"share of the price without tax"`
	Parts  []TaxPart  `yaml:"parts,omitempty" desc:"the taxes it is made of, where several authorities share it: they add up to the rate"`
	Source string     `yaml:"source" desc:"who says that it holds: authority, notice and date"`
}

// TaxPart is what one authority has of a tax.
type TaxPart struct {
	Name string     `yaml:"name" desc:"such as state or county"`
	Rate unit.Share `yaml:"rate" desc:"its share of the price without tax"`
}

// PriceList is what one kind of customer pays. A pack that is not in it costs what the pack itself says.
type PriceList struct {
	Name    string      `yaml:"name" desc:"which customers it is for, such as shops"`
	TaxIn   bool        `yaml:"tax-in,omitempty" desc:"its prices have the tax in them"`
	Untaxed string      `yaml:"untaxed,omitempty" desc:"no tax is put on for these customers, and this is why, as it stands on the invoice"`
	Off     unit.Share  `yaml:"off,omitempty" desc:"discount on all goods, a line of its own"`
	OffName string      `yaml:"off-name,omitempty" desc:"what the discount is called on the invoice; discount when left out"`
	Terms   *int        `yaml:"terms-days,omitempty" desc:"days until these customers pay; the seller's when left out"`
	Prices  []ListPrice `yaml:"prices,omitempty" desc:"what packs cost"`
	Source  string      `yaml:"source,omitempty" desc:"who set it, and when"`
	Note    string      `yaml:"note,omitempty" desc:"anything a reader of the book should know"`
}

// ListPrice is what each pack of a kind costs, from a day on and from so many on.
type ListPrice struct {
	Pack  PackID     `yaml:"pack" desc:"which pack"`
	Each  unit.Money `yaml:"each" desc:"price of one"`
	From  int        `yaml:"from,omitempty" desc:"when so many of it are on one order; any number when left out"`
	Since string     `yaml:"since,omitempty" desc:"from this day of handing over on, such as 2026-12-01: all that an earlier day says of the pack then no longer holds"`
}
