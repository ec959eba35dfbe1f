package bookform

import (
	"reflect"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// labels are the words for keys that read badly by themselves; by the type they stand in where one key means several things.
var labels = map[string]string{
	"Kitchen.days-a-week": "Days of work a week", "Kitchen.air": "Air of the kitchen", "Kitchen.altitude": "Customers’ kitchens over the sea, at most",
	"Kitchen.prices-end": "How prices end", "Kitchen.ice": "Ice to be had on a day", "Kitchen.cleaning": "Materials of one washing",
	"Overhead.per-kg": "Per kilogram", "Overhead.of-prime": "Share of the prime cost",
	"Person.can": "Can do", "Shift.from": "Begins", "Shift.to": "Ends", "Break.from": "From", "Break.to": "Until",
	"Supplier.minimum": "Smallest order", "Supplier.free-from": "Brought free from", "Supplier.lead-days": "Days until it is there", "Supplier.delivery": "Cost of a delivery",
	"Ingredient.food": "Number in the composition table", "Ingredient.buy": "How it can be bought", "Ingredient.free": "Comes from the tap", "Ingredient.stock": "On hand",
	"Ingredient.lots": "On hand by lot", "Ingredient.keeps": "Worth of what is left over", "Ingredient.class": "What it is, for hazards", "Ingredient.role": "What it does in a frozen pot",
	"Ingredient.made-from": "Made from", "Ingredient.storage": "Kept", "Ingredient.label": "Name on a label", "Ingredient.figures": "Single figures for the label",
	"Ingredient.contains": "Its own ingredients", "Ingredient.eu-allergens": "Allergens for the European Union", "Ingredient.analysis": "An analysis of your own",
	"Ingredient.measures": "What measures of it weigh", "Ingredient.trim": "Trimmed away",
	"Offer.pack": "One pack holds", "Offer.price": "Price of a pack", "Offer.at-least": "Fewest packs", "Offer.at-most": "Most packs", "Offer.breaks": "Cheaper when more are taken", "Offer.name": "Called",
	"PriceBreak.from": "From so many packs on", "StockLot.until": "Use by",
	"Equipment.working": "May be filled to", "Equipment.needs": "Stands on", "Equipment.places": "Trays at once", "Equipment.wash": "Washing", "Equipment.wash-down": "Washing after an allergen",
	"Chilling.in": "Stands in", "Chilling.medium": "Temperature of the air or bath", "Chilling.cooling": "Power of the cabinet", "Chilling.set-up": "Hands to set it up", "Chilling.tending": "Share of the time somebody stirs",
	"Paddle.from": "Temperature of their freezer", "Freezer.in": "Its air as a medium", "Freezer.air": "Temperature of its air", "Freezer.cooling": "Heat it can take out", "Freezer.lay": "How packs lie",
	"Freezer.high": "Packs on each other", "Freezer.holds": "Frozen stock in it now", "Freezer.room": "Room for packs",
	"Place.stow": "What a litre of it holds", "Shelf.reach": "How far to reach", "Box.reach": "How far to reach",
	"Thermometer.at": "Watches", "Thermometer.check-every": "Days between checks", "Thermometer.warmest": "Warmest its place should be", "Thermometer.accuracy": "May read wrong by",
	"Safety.from": "From this day on", "RuleChange.by": "Decided by", "RuleChange.temp": "Temperature here", "RuleChange.time": "Time here", "RuleChange.days": "Days here",
	"Bag.reheat": "Maker’s letter on heating", "Bag.stock": "On hand", "Bag.price": "Price of one",
	"Dish.ph": "pH", "Dish.about": "What it is", "Dish.hold-back": "Water kept back for ice",
	"Pack.fill": "What goes in", "Pack.pace": "Hands for one", "Pack.crew": "People at the table", "Pack.label-cost": "Cost of a label", "Pack.labels": "Blank labels on hand", "Pack.frozen": "In the freezer now",
	"Pack.keep": "Never fewer than", "Pack.batch": "Made at once", "Pack.sells": "Sells a week, at most", "Pack.waste": "Never sold", "Pack.sauce": "Sauce to solids", "Pack.checks": "Check-weighings",
	"Pack.trials": "Measured heatings", "Pack.reference-amount": "Food of the reference amount", "Pack.cup": "A level cup weighs", "Pack.gtin": "Trade item number (GTIN)", "Pack.statement-of-identity": "What the food is, for the label",
	"Fill.of": "Output", "Keeping.weeks": "Weeks", "Seller.pay-to": "How to pay", "Seller.terms-days": "Days to pay", "Seller.tax-in": "Prices have the tax in them", "Seller.tax-on": "Tax is worked out on",
	"PriceList.off": "Discount", "PriceList.off-name": "The discount is called", "PriceList.terms-days": "Days to pay", "PriceList.tax-in": "Prices have the tax in them", "PriceList.untaxed": "Untaxed, because",
	"ListPrice.from": "From so many on", "ListPrice.since": "From this day on", "Request.want": "What to make", "Request.today": "Day the orders go out", "Request.finish": "Sealed by",
	"Request.sure": "How sure there should be enough", "Request.only-stock": "Buy nothing", "Request.orders": "Promised to customers", "Request.at-least": "At least", "Request.at-most": "At most",
	"Want.as-many": "As many as the kitchen can", "Want.use": "Use up an ingredient", "Want.fill-vessel": "Fill this once", "Want.mix": "How the packs stand to each other",
	"Visit.at": "When", "Visit.for": "How long", "Visit.brings": "Brings", "Visit.takes": "Takes", "Step.do": "What to do", "Step.how": "How to tell it is right", "Step.use": "What goes in",
	"Step.in": "Equipment that will do", "Step.gives": "What comes out", "Step.loses": "What goes missing", "Use.of": "Ingredient", "Use.from": "From an earlier step", "Use.or": "Bought instead when short",
	"Labels.firm-is": "The firm", "Labels.wide": "Width of a label", "Labels.high": "Height of a label", "Labels.qr": "Square code", "Labels.last": "“Contains … or less” from",
	"Business.without-panel": "Leave the panel out where that may be", "Spreads.yields": "Of yields", "Spreads.times": "Of hands-on times", "Spreads.prices": "Of prices",
}

// label is a key in plain words.
func label(key string) string { return sentence(strings.ReplaceAll(key, "-", " ")) }

func labelOf(t reflect.Type, key string) string {
	if own, ok := labels[t.Name()+"."+key]; ok {
		return own
	}
	return label(key)
}

// sentence begins with a capital letter.
func sentence(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	if n == 0 {
		return ""
	}
	return string(unicode.ToUpper(r)) + text[n:]
}

// rows are what one entry of a list is called.
var ones = map[string]string{
	"buy": "way to buy it", "lots": "lot", "contains": "ingredient of it", "measures": "measure", "breaks": "break", "fill": "thing that goes in", "checks": "check-weighing", "trials": "heating",
	"shelves": "shelf", "boxes": "box", "rules": "rule", "parts": "part", "prices": "price", "want": "target", "orders": "order", "at-least": "pack", "at-most": "pack", "mix": "pack",
	"appointments": "appointment", "steps": "step", "use": "line", "gives": "output",
}

func oneOf(key string) string {
	if one, ok := ones[key]; ok {
		return one
	}
	return "entry"
}

// In a table each row has a key and a value, each with its name.
func keyLabel(table string) string {
	switch table {
	case "measures":
		return "Measure"
	case "orders", "at-least", "at-most", "mix":
		return "Pack"
	}
	return "Short name"
}

func valueName(table string) string {
	switch table {
	case "measures":
		return "weighs"
	case "mix":
		return "parts"
	case "orders", "at-least", "at-most":
		return "how-many"
	}
	return table
}

func keySuggest(table string) []string {
	if table == "measures" {
		return []string{"each", "bunch", "clove", "cup", "cup, chopped", "cup, shredded", "tbsp", "stick", "head"}
	}
	return nil
}

// common are the keys of each noun that a cook fills in first; the others stand under More.
var common = map[string][]string{
	"Kitchen":     {"name", "place", "note", "units", "currency", "energy", "food-target", "margin-target"},
	"Ingredient":  {"name", "food", "class", "storage", "allergens", "buy", "density", "measures", "trim", "stock", "aisle"},
	"Equipment":   {"name", "kind", "count", "volume", "working", "diameter", "power", "efficiency", "fuel", "needs"},
	"Chilling":    {"name", "method", "count", "in", "medium", "vessel", "length", "width", "depth", "first", "until", "then"},
	"Pack":        {"name", "dish", "fill", "bag", "pace", "price", "crew", "skill", "keep", "frozen", "serving", "best-before"},
	"Freezer":     {"name", "count", "volume", "air", "cooling", "room", "holds", "lay"},
	"Request":     {"name", "day", "want", "finish", "orders", "days", "appointments"},
	"Labels":      {"regime", "firm", "address", "stock", "barcode"},
	"PriceList":   {"name", "prices", "off", "terms-days", "note"},
	"Dish":        {"name", "about", "hold-back", "ph", "steps"},
	"Step":        {"id", "do", "how", "use", "in", "heat-to", "time", "pace", "hands", "loses", "gives"},
	"Seller":      {"name", "address", "contact", "pay-to", "tax-number", "terms-days", "tax-in"},
	"Thermometer": {"name", "kind", "at", "accuracy", "warmest"},
}

// grouping puts the common fields first.
func grouping(root walked) []FieldGroup {
	first, known := common[plain(root.now.Type()).Name()]
	if !known || root.Kind != Group {
		if root.Kind != Group {
			return []FieldGroup{{Fields: []Field{root.Field}, Open: true}}
		}
		return []FieldGroup{{Fields: root.Fields, Open: true}}
	}
	main, more := FieldGroup{Open: true}, FieldGroup{Title: "More"}
	for _, key := range first {
		for _, f := range root.Fields {
			if f.Name == "."+key {
				main.Fields = append(main.Fields, f)
			}
		}
	}
	for _, f := range root.Fields {
		if !slices.Contains(first, f.Name[1:]) {
			more.Fields = append(more.Fields, f)
			more.Open = more.Open || !allEmpty([]Field{f}) || f.Problem != ""
		}
	}
	if len(more.Fields) == 0 {
		return []FieldGroup{main}
	}
	return []FieldGroup{main, more}
}

// missing says that a field must be filled in, with an example.
func missing(k bookfile.Key, f Field) string {
	text := "This must be filled in"
	if f.Example != "" {
		return text + ", such as " + f.Example + "."
	}
	return text + ": " + k.Desc + "."
}

// example is how values of a type are typed. A bare temperature is read in the kitchen's unit, which is said.
func (w *walker) example(t reflect.Type, kind Kind) string {
	if t.Kind() == reflect.Slice && kind == Lines {
		t = t.Elem()
	}
	switch reflect.Zero(t).Interface().(type) {
	case unit.Money:
		return "$4.50"
	case unit.Wage:
		return "$19.50/h"
	case unit.Tariff:
		return "$0.18/kWh or $1.40/therm"
	case unit.Clock, unit.Moment:
		return "06:30 or 2 pm"
	case kitchen.Take:
		return "all or 60 %"
	case unit.Temp, unit.TempDiff:
		return exampleOf(t) + "; a bare number is in" + w.house.degree()
	}
	switch {
	case kind == Day:
		return "2026-12-05 or 5 Dec 2026"
	case kind == Quantity:
		return exampleOf(t)
	}
	return ""
}

// exampleOf asks the type: it says how it is written when it is given nothing to read.
func exampleOf(t reflect.Type) string {
	err := reflect.New(t).Interface().(interface{ UnmarshalText([]byte) error }).UnmarshalText(nil)
	if wrong, ok := err.(*unit.ParseError); ok {
		return wrong.Example
	}
	return ""
}
