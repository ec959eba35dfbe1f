package web

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// delivery is what was typed of a delivery, and what is wrong with it.
type delivery struct {
	supplier typedField
	invoice  field
	lines    []arrival
	problem  string
}

// arrival is one of the goods.
type arrival struct {
	fields   []field
	decide   *field
	blank    bool
	name     string // of the ingredient
	got      record.Received
	against  string // what speaks against taking it in
	decision string
}

// What becomes of goods that may not simply come in.
const (
	refuseIt = "refuse"
	holdIt   = "hold"
)

func sameWords(a, b string) bool {
	return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b))
}

// readDelivery reads a form with so many lines.
func readDelivery(c cold, form url.Values, n int) delivery {
	d := delivery{supplier: typedField{Key: "supplier", Label: "Supplier", Hint: "As on the delivery note.", Value: tidy(form.Get("supplier"))}, invoice: field{Key: "invoice", Label: "Delivery note or invoice", Hint: "Its number, if there is one.", Value: tidy(form.Get("invoice"))}}
	var taken []record.Lot
	for i := range n {
		taken = append(taken, record.Lot(tidy(form.Get(fmt.Sprintf("lot.%d", i)))))
	}
	proposed := coldstore.NextLots(c.state, c.store.Today, n, taken...)
	all := 0
	for i := range n {
		l := lineReader{c: c, form: form, n: i}
		a := l.read(supplierOf(c.book, d.supplier.Value), d.invoice.Value, proposed[i])
		if !a.blank {
			all++
			if slices.Contains(taken[:i], a.got.Lot) {
				a.at("lot").Problem = "Another of these goods has that name: give each its own."
			}
		}
		d.lines = append(d.lines, a)
	}
	switch {
	case all == 0:
		d.problem = "Nothing is written down that came."
	case d.supplier.Value == "":
		d.supplier.Problem = "Write who brought it: a recall begins there."
	}
	return d
}

func (d delivery) wrong() bool {
	return d.problem != "" || d.supplier.Problem != "" || d.invoice.Problem != "" || slices.ContainsFunc(d.lines, func(a arrival) bool { return wrong(a.fields) || a.decide != nil && a.decide.Problem != "" })
}

// forgive takes back what is wrong, as long as somebody is still typing.
func (d *delivery) forgive() {
	d.problem, d.supplier.Problem = "", ""
	for i := range d.lines {
		for k := range d.lines[i].fields {
			d.lines[i].fields[k].Problem = ""
		}
		if d.lines[i].decide != nil {
			d.lines[i].decide.Problem = ""
		}
	}
}

// at is a field of the line.
func (a *arrival) at(key string) *field {
	i := slices.IndexFunc(a.fields, func(f field) bool { return strings.HasPrefix(f.Key, key+".") })
	return &a.fields[i]
}

// lineReader reads one line of the form.
type lineReader struct {
	c    cold
	form url.Values
	n    int
	a    arrival
}

func (l *lineReader) key(name string) string { return fmt.Sprintf("%s.%d", name, l.n) }

func (l *lineReader) typed(name string) string { return tidy(l.form.Get(l.key(name))) }

func (l *lineReader) add(name, label, hint string) *field {
	l.a.fields = append(l.a.fields, field{Key: l.key(name), Label: label, Hint: hint, Value: l.typed(name)})
	return &l.a.fields[len(l.a.fields)-1]
}

// typedKeys are those that somebody must have typed: a line in which all are empty is not there.
var typedKeys = []string{"ingredient", "their", "count", "each", "weighed", "price", "use-by", "best", "frozen", "door"}

func (l *lineReader) read(supplier, invoice string, proposed record.Lot) arrival {
	l.a.blank = !slices.ContainsFunc(typedKeys, func(k string) bool { return l.typed(k) != "" })
	usual := map[unit.System]string{unit.US: "pounds", unit.Metric: "kilograms"}[l.c.rd.units]
	l.add("ingredient", "What", "An ingredient of the book.").Options = l.ingredients()
	l.add("count", "How many packs", "Sacks, boxes, tins: as it came.").Number = true
	l.add("each", "One of them weighs", "Such as 25 lb. A number alone is "+usual+".")
	l.add("weighed", "All of it weighed", "If you put it on the scale; otherwise leave it empty.")
	l.add("price", "Price of one", "As on the invoice, such as 12.50.")
	l.add("their", "Their lot", "As on the box: a recall names it.")
	l.add("use-by", "Use by", "The last day it may be used.").Date = true
	l.add("best", "Best before", "").Date = true
	l.add("frozen", "Frozen on", "If it says so.").Date = true
	l.add("door", "Measured at the door", "Between two packs, or in the food. A number alone is "+map[unit.System]string{unit.US: "°F", unit.Metric: "°C"}[l.c.rd.units]+".")
	place := l.add("place", "Where to", "What still fits is behind the name.")
	place.Options = l.c.placeOptions(place.Value, "", true)
	place.Options[0].Says = "decide later"
	lot := l.add("lot", "Our lot", "This goes on the tub. Change it if you must.")
	lot.Value = cmp.Or(lot.Value, string(proposed))
	if l.a.blank {
		return l.a
	}
	l.a.got = record.Received{Supplier: supplier, Invoice: invoice, SupplierLot: l.typed("their"), Lot: record.Lot(lot.Value), Place: record.Place(place.Value)}
	l.goods()
	l.amount()
	l.days()
	l.lot()
	l.door()
	l.decide()
	return l.a
}

func (l *lineReader) ingredients() []option {
	value := l.typed("ingredient")
	options := []option{{"", "choose", value == ""}}
	ids := slices.SortedFunc(maps.Keys(l.c.book.Ingredients), func(a, b kitchen.IngredientID) int {
		return cmp.Or(cmp.Compare(l.c.book.Ingredients[a].Name, l.c.book.Ingredients[b].Name), cmp.Compare(a, b))
	})
	for _, id := range ids {
		if !l.c.book.Ingredients[id].Free {
			options = append(options, option{string(id), ingredientName(l.c.book, id), string(id) == value})
		}
	}
	return options
}

func (l *lineReader) goods() {
	id := kitchen.IngredientID(l.typed("ingredient"))
	if _, there := l.c.book.Ingredients[id]; !there {
		l.a.at("ingredient").Problem = "Choose what it is. What the book does not have is written into the book first."
		return
	}
	l.a.got.Ingredient, l.a.name = string(id), ingredientName(l.c.book, id)
}

// farOffScale is how many times what the packs should weigh the scale may show, or the other way round, before it is taken for a slip.
const farOffScale = 2

func (l *lineReader) amount() {
	n, err := strconv.ParseInt(strings.ReplaceAll(l.typed("count"), ",", ""), 10, 64)
	if err != nil || n < 1 || n > mostPacks {
		l.a.at("count").Problem = "Write how many came, such as 4."
		n = 0
	}
	each, weighed := l.mass("each"), l.mass("weighed")
	if l.typed("each") == "" && l.typed("weighed") == "" {
		l.a.at("each").Problem = "Write what one weighs, or what all of it weighed."
	}
	sum := unit.MassKg(each.Kg() * float64(n))
	if sum < 1_000_000*unit.Kilogram {
		sum = each * unit.Mass(n) // exact
	}
	if weighed > 0 && sum > 0 && (weighed > farOffScale*sum || sum > farOffScale*weighed) {
		l.a.at("weighed").Problem = fmt.Sprintf("%s is nowhere near %s: look at the figures and their units.", l.c.rd.fig(weighed).First, l.c.rd.fig(sum).First)
	}
	l.a.got.Count, l.a.got.Mass = n, cmp.Or(weighed, sum)
	if each > 0 {
		l.a.got.Pack = each.String()
	}
	if text := l.typed("price"); text != "" {
		price, err := unit.ParseMoney(text)
		switch {
		case err != nil:
			l.a.at("price").Problem = sentence(err)
		case price < 0 || price > 1_000_000_000_000:
			l.a.at("price").Problem = "Write what one of them cost, such as 12.50."
		default:
			l.a.got.Paid = price * unit.Money(n)
		}
	}
}

// mass reads a mass; a number alone is in the kitchen's usual unit.
func (l *lineReader) mass(key string) unit.Mass {
	text := l.typed(key)
	if text == "" {
		return 0
	}
	if strings.Trim(text, "0123456789.") == "" {
		text += map[unit.System]string{unit.US: " lb", unit.Metric: " kg"}[l.c.rd.units]
	}
	m, err := unit.ParseMass(text)
	switch {
	case err != nil:
		l.a.at(key).Problem = sentence(err)
		return 0
	case m <= 0 || m > 100_000*unit.Kilogram:
		l.a.at(key).Problem = "Write what it weighs, such as 25 lb or 10 kg."
		return 0
	}
	return m
}

func (l *lineReader) days() {
	l.a.got.UseBy, l.a.got.BestBefore, l.a.got.FrozenOn = l.day("use-by"), l.day("best"), l.day("frozen")
	if l.a.got.FrozenOn > l.c.store.Today {
		l.a.at("frozen").Problem = "That day is still to come."
	}
	for _, d := range []struct {
		day  record.Day
		says string
	}{{l.a.got.UseBy, "the day by which it must be used, %s, is over"}, {l.a.got.BestBefore, "its best-before day, %s, is over"}} {
		if d.day != "" && d.day < l.c.store.Today {
			l.speaks(fmt.Sprintf(d.says, d.day))
		}
	}
}

func (l *lineReader) day(key string) record.Day {
	text := l.typed(key)
	if text == "" {
		return ""
	}
	day, err := time.Parse(time.DateOnly, text)
	if err != nil || day.Year() < 2000 || day.Year() > 2199 {
		l.a.at(key).Problem = "Write the day as 2026-12-05."
		return ""
	}
	return record.Day(text)
}

func (l *lineReader) lot() {
	id := l.a.got.Lot
	switch old := l.c.state.Lot(id); {
	case strings.Contains(string(id), "#"):
		l.a.at("lot").Problem = "Leave out the #: behind it stands the number of a pack."
	case old != nil:
		l.a.at("lot").Problem = "A lot of this name is there already: give this one another."
	}
}

// speaks notes what speaks against taking the goods in.
func (l *lineReader) speaks(why string) {
	if l.a.against != "" {
		l.a.against += "; "
	}
	l.a.against += why
}

func (l *lineReader) door() {
	kind := coldstore.Kind(l.c.book.Ingredients[kitchen.IngredientID(l.a.got.Ingredient)].Storage)
	limit, limited := coldstore.DoorLimitOf(kind)
	text := l.typed("door")
	if text == "" {
		if limited {
			l.speaks(fmt.Sprintf("it must be kept %s, and nobody measured it at the door (at most %s: %s)", kind, l.c.rd.fig(limit.AtMost).First, limit.Source))
		}
		return
	}
	if strings.Trim(text, "-−0123456789.") == "" {
		text = strings.ReplaceAll(text, "−", "-") + map[unit.System]string{unit.US: " °F", unit.Metric: " °C"}[l.c.rd.units]
	}
	t, err := unit.ParseTemp(text)
	switch {
	case err != nil:
		l.a.at("door").Problem = sentence(err)
		return
	case t < unit.TempC(-90) || t > unit.TempC(120):
		l.a.at("door").Problem = "No food is that cold or hot: look at the figure and its unit."
		return
	}
	l.a.got.Door = &t
	if limited && limit.Over(t) {
		l.speaks(fmt.Sprintf("it came at %s, and the limit at the door for %s food is %s (%s)", exactTemp(t, l.c.rd.units), kind, l.c.rd.fig(limit.AtMost).First, limit.Source))
	}
}

// exactTemp is a temperature as it was measured: whole degrees could read as the limit itself.
func exactTemp(t unit.Temp, units unit.System) string {
	degrees, sign := t.C(), " °C"
	if units == unit.US {
		degrees, sign = t.F(), " °F"
	}
	return strconv.FormatFloat(math.Round(10*degrees)/10, 'f', -1, 64) + sign
}

// decide asks what becomes of goods that something speaks against. They are never taken in without an answer.
func (l *lineReader) decide() {
	if l.a.against == "" {
		return
	}
	l.a.decision = l.typed("decide")
	f := field{Key: l.key("decide"), Label: "What becomes of it", Hint: "Nothing of the delivery is entered before that is said.", Value: l.a.decision, Options: []option{{"", "choose", l.a.decision == ""},
		{refuseIt, "refused: it goes back", l.a.decision == refuseIt}, {holdIt, "taken in and held, until a named person decides", l.a.decision == holdIt}}}
	if l.a.decision != refuseIt && l.a.decision != holdIt {
		l.a.decision = ""
		f.Problem = "Refuse it, or take it in and hold it."
	}
	l.a.decide = &f
}
