package app

import (
	"slices"

	"kettlefrost/internal/tables"
)

// ImportKind is something that can be entered from a sheet.
type ImportKind struct {
	Key   string // for addresses and the command line
	Name  string // for people
	About string
	Form  tables.Form
	Books bool // it changes the book, and enters nothing else
}

// ImportKinds are all of them.
func ImportKinds() []ImportKind { return slices.Clone(importKinds) }

// ImportKindOf finds one by its key.
func ImportKindOf(key string) (ImportKind, bool) {
	i := slices.IndexFunc(importKinds, func(k ImportKind) bool { return k.Key == key })
	if i < 0 {
		return ImportKind{}, false
	}
	return importKinds[i], true
}

var noteField = tables.Field{Key: "note", Name: "note", Also: []string{"notes", "comment", "comments", "remark", "remarks"}, Kind: tables.Lines, Hint: "anything worth keeping"}

var importKinds = []ImportKind{
	{Key: "customers", Name: "customers", About: "A row for each customer. One that is known already, by its id, is changed to what the row says.", Form: tables.Form{Name: "customer", Fields: []tables.Field{
		{Key: "id", Name: "customer id", Also: []string{"customer", "id", "code", "customer no", "customer number", "short name"}, Hint: "short and for good; made from the name when left out"},
		{Key: "name", Name: "name", Also: []string{"customer name", "company", "company name", "business", "full name"}, Required: true},
		{Key: "address", Name: "address", Also: []string{"postal address", "delivery address"}, Kind: tables.Lines},
		{Key: "street", Name: "street", Also: []string{"street address", "address line 1", "address 1"}},
		{Key: "street2", Name: "address line 2", Also: []string{"address 2", "suite"}},
		{Key: "city", Name: "city", Also: []string{"town", "place"}},
		{Key: "state", Name: "state", Also: []string{"province", "county", "region"}},
		{Key: "zip", Name: "zip", Also: []string{"zip code", "postal code", "postcode"}},
		{Key: "country", Name: "country"},
		{Key: "phone", Name: "phone", Also: []string{"telephone", "tel", "phone number", "mobile", "cell"}},
		{Key: "mail", Name: "mail", Also: []string{"email", "e mail", "email address"}},
		{Key: "prices", Name: "prices", Also: []string{"price list", "pricelist"}, Hint: "a price list of the book"},
		{Key: "life-days", Name: "life days", Also: []string{"shelf life days"}, Kind: tables.Number, Hint: "days that packs must still be good"},
		{Key: "most-lots", Name: "most lots", Kind: tables.Number},
		noteField,
	}}},
	{Key: "orders", Name: "orders", About: "A row for each pack of an order. Rows of one order number, or without numbers of one customer and day, are one order.", Form: tables.Form{Name: "line of an order", Fields: []tables.Field{
		{Key: "order", Name: "order", Also: []string{"order number", "order no", "order id", "po", "po number"}, Hint: "its number; the next that are free when left out"},
		{Key: "customer", Name: "customer", Also: []string{"customer id", "customer name", "company", "for"}, Required: true, Hint: "by id or name"},
		{Key: "pack", Name: "pack", Also: []string{"product", "item", "sku", "article"}, Required: true, Hint: "by its id or name in the book"},
		{Key: "count", Name: "count", Also: []string{"quantity", "qty", "packs", "number of packs"}, Kind: tables.Number, Required: true},
		{Key: "each", Name: "each", Also: []string{"price", "unit price", "price each"}, Kind: tables.Money, Hint: "agreed; the price list's when left out"},
		{Key: "due", Name: "due", Also: []string{"due day", "due date", "date", "day", "delivery date", "needed by"}, Kind: tables.Date, Required: true},
		{Key: "way", Name: "way", Also: []string{"collect or deliver", "delivery method", "how"}, Kind: tables.OneOf, Words: []tables.WordOf{{Word: "collect", Also: []string{"pick up", "pickup", "collection"}}, {Word: "deliver", Also: []string{"delivery", "delivered", "ship"}}}, Hint: "collect or deliver; deliver when left out"},
		noteField,
	}}},
	{Key: "goods", Name: "goods received", About: "A row for each lot that came through the door.", Form: tables.Form{Name: "delivery", Fields: []tables.Field{
		{Key: "received", Name: "received", Also: []string{"received on", "date", "day", "delivered", "delivery date", "date received"}, Kind: tables.Date, Required: true},
		{Key: "lot", Name: "lot", Also: []string{"our lot", "lot id"}, Hint: "as on the tub; R-, the day and a number when left out"},
		{Key: "ingredient", Name: "ingredient", Also: []string{"item", "product", "goods", "article", "description"}, Required: true, Hint: "by its id or name in the book"},
		{Key: "supplier", Name: "supplier", Also: []string{"vendor", "from", "seller"}, Required: true},
		{Key: "supplier-lot", Name: "supplier lot", Also: []string{"their lot", "lot number", "lot no", "batch", "batch number"}},
		{Key: "invoice", Name: "invoice", Also: []string{"invoice number", "invoice no", "delivery note"}},
		{Key: "pack", Name: "pack", Also: []string{"packaging", "pack size", "as it came"}, Hint: "such as 25 lb sack"},
		{Key: "count", Name: "count", Also: []string{"number of packs", "packs", "pieces", "cases"}, Kind: tables.Number},
		{Key: "mass", Name: "mass", Also: []string{"weight", "net weight", "net mass", "amount"}, Kind: tables.Mass, Required: true},
		{Key: "paid", Name: "paid", Also: []string{"price", "cost", "total", "total price"}, Kind: tables.Money, Hint: "for all of it"},
		{Key: "use-by", Name: "use by", Also: []string{"expiry", "expires", "expiry date", "expiration date", "use by date"}, Kind: tables.Date},
		{Key: "best-before", Name: "best before", Also: []string{"best by", "best before date", "bbd"}, Kind: tables.Date},
		{Key: "made-on", Name: "made on", Also: []string{"production date", "packed on"}, Kind: tables.Date},
		{Key: "frozen-on", Name: "frozen on", Kind: tables.Date},
		{Key: "door", Name: "temperature at the door", Also: []string{"door", "temperature", "temp", "door temperature"}, Kind: tables.Temp},
		{Key: "place", Name: "place", Also: []string{"location", "storage", "where"}},
		noteField,
	}}},
	{Key: "stock", Name: "opening stock", About: "A row for each lot that is on hand when the records begin: goods by their mass, packs by their count or numbers.", Form: tables.Form{Name: "lot", Fields: []tables.Field{
		{Key: "lot", Name: "lot", Also: []string{"lot id", "our lot"}, Required: true, Hint: "as on the tub or the bag"},
		{Key: "what", Name: "what", Also: []string{"item", "ingredient", "pack", "product", "description"}, Required: true, Hint: "an ingredient or a pack of the book, by id or name"},
		{Key: "mass", Name: "mass", Also: []string{"weight", "net weight", "amount"}, Kind: tables.Mass, Hint: "of goods"},
		{Key: "count", Name: "count", Also: []string{"quantity", "qty", "packs", "number of packs"}, Kind: tables.Number, Hint: "of packs: they are numbered from 1"},
		{Key: "numbers", Name: "pack numbers", Also: []string{"numbers"}, Hint: "of packs, such as 1-40, 52"},
		{Key: "place", Name: "place", Also: []string{"location", "storage", "where"}},
		{Key: "use-by", Name: "use by", Also: []string{"expiry", "expires", "expiry date"}, Kind: tables.Date},
		{Key: "best-before", Name: "best before", Also: []string{"best by", "bbd"}, Kind: tables.Date, Hint: "packs must have one"},
		{Key: "supplier", Name: "supplier", Also: []string{"vendor", "from"}, Hint: "of goods; opening stock when left out"},
		{Key: "supplier-lot", Name: "supplier lot", Also: []string{"their lot", "batch"}},
		{Key: "paid", Name: "paid", Also: []string{"price", "cost", "value"}, Kind: tables.Money},
		noteField,
	}}},
	{Key: "prices", Name: "price list", About: "A row for each price. Without a list it is the pack's own price; with one, that of a price list of the book. This changes the book.", Books: true, Form: tables.Form{Name: "price", Fields: []tables.Field{
		{Key: "pack", Name: "pack", Also: []string{"product", "item", "sku", "article"}, Required: true, Hint: "by its id or name in the book"},
		{Key: "each", Name: "each", Also: []string{"price", "unit price", "price each"}, Kind: tables.Money, Required: true},
		{Key: "list", Name: "list", Also: []string{"price list", "prices"}, Hint: "a price list of the book, or a new one"},
		{Key: "from", Name: "from", Also: []string{"from count", "minimum", "at least", "from quantity"}, Kind: tables.Number, Hint: "when so many are on one order"},
		{Key: "since", Name: "since", Also: []string{"from day", "valid from", "since day"}, Kind: tables.Date},
	}}},
}

// HeaderCSV is a file with nothing but a header, to start from.
func (k ImportKind) HeaderCSV() ([]byte, error) {
	var t tables.Table
	for _, head := range k.Form.Header("kg", "°C") {
		t.Columns = append(t.Columns, tables.Column{Name: head})
	}
	return t.CSV()
}
