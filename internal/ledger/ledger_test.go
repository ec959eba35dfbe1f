package ledger

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/invoice"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

const (
	usd  = unit.MoneyUnit
	cent = unit.Cent
)

// house is a book with prices, for the tests.
func house() kitchen.Book {
	thirty := 30
	return kitchen.Book{
		Kitchen: kitchen.Kitchen{Name: "Mill Lane Kitchen"},
		Seller:  kitchen.Seller{Address: []string{"Mill Lane 3", "Harrow Creek"}, TaxNumber: "T-1", Invoices: "R-YYYY-0000", Credits: "C-YYYY-0000", Terms: 14, PayTo: []string{"account 1"}},
		TaxRates: map[kitchen.TaxID]kitchen.TaxRate{
			"food":  {Name: "food tax", Rate: 7 * unit.PerCent},
			"meals": {Name: "meals tax", Rate: 6 * unit.PerCent, Parts: []kitchen.TaxPart{{Name: "state", Rate: 5 * unit.PerCent}, {Name: "town", Rate: unit.PerCent}}},
			"full":  {Name: "full tax", Rate: 19 * unit.PerCent},
			"nord":  {Name: "VAT", Rate: 25 * unit.PerCent},
		},
		Packs: map[kitchen.PackID]kitchen.Pack{
			"dal":  {Name: "Dal, 1 lb", Price: 650 * cent, Tax: "food"},
			"pea":  {Name: "Pea soup, 1 lb", Price: 499 * cent, Tax: "meals"},
			"bone": {Name: "Bone broth", Price: 333 * cent},
			"free": {Name: "Not priced"},
		},
		PriceLists: map[kitchen.PriceListID]kitchen.PriceList{
			"shops":  {Name: "shops", Off: 3 * unit.PerCent, OffName: "trade discount", Terms: &thirty, Prices: []kitchen.ListPrice{{Pack: "dal", Each: 580 * cent}, {Pack: "dal", Each: 550 * cent, From: 24}, {Pack: "dal", Each: 600 * cent, Since: "2027-01-01"}}},
			"home":   {Name: "at the door", TaxIn: true, Prices: []kitchen.ListPrice{{Pack: "dal", Each: 100 * usd}, {Pack: "pea", Each: 535 * cent}}},
			"resale": {Name: "for resale", Untaxed: "For resale."},
		},
	}
}

// chain says entries, one a minute from noon of a day on, as a store would seal them.
type chain struct {
	t   rapid.TB
	all []record.Entry
	at  record.Instant
}

func (c *chain) day(day record.Day) *chain {
	c.at = record.Instant(946_728_000_000 + int64(dayNumber(day))*86_400_000) // noon of 2000-01-01, UTC
	return c
}

func (c *chain) say(b record.Body) record.Entry {
	c.t.Helper()
	id := record.ID{1, byte(len(c.all) >> 8), byte(len(c.all))}
	c.at += 60_000
	e, err := record.Say(id, c.at, "Ada", "test", b)
	if err != nil {
		c.t.Fatal(err)
	}
	e.Seq = uint64(len(c.all) + 1)
	c.all = append(c.all, e)
	return e
}

func utcDay(at record.Instant) record.Day {
	return record.Day(kitchen.DaysBefore("2000-01-01", -int((int64(at)-946_684_800_000)/86_400_000)))
}

func (c *chain) ledger() (*State, finding.List) { return Of(utcDay, slices.Values(c.all)) }

func goods(customer, order, pack string, n int64, day record.Day) Delivery {
	return Delivery{Goods: Goods{customer, order, pack}, Count: n, Day: day}
}

// issue makes an invoice of a draft, which must be sound.
func issue(t rapid.TB, book kitchen.Book, number string, c record.Customer, day record.Day, unbilled []Delivery, extra ...Line) record.Invoiced {
	t.Helper()
	d, found := Propose(book, c, day, unbilled, extra...)
	if len(found) > 0 {
		t.Fatalf("the proposal has findings: %v", found)
	}
	inv, err := d.Invoice(number)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := record.Encode(inv); err != nil {
		t.Fatalf("it cannot be recorded: %v", err)
	}
	return inv
}

// text is an invoice as somebody would write it down.
func text(lines []record.InvoiceLine, taxes []record.TaxLine, total unit.Money) string {
	var b strings.Builder
	for _, l := range lines {
		fmt.Fprintf(&b, "%d × %s %s = %s %s\n", l.Count, l.Says, l.Each, l.Net, l.Tax)
	}
	for _, x := range taxes {
		fmt.Fprintf(&b, "%s %s on %s: %s\n", x.Tax, x.Rate, x.On, x.Is)
	}
	return b.String() + "total " + total.String() + "\n"
}

func sameText(t *testing.T, got, want string) {
	t.Helper()
	want = strings.TrimLeft(strings.ReplaceAll(want, "\n\t", "\n"), "\n\t")
	var a, b []string
	for _, l := range strings.Split(got, "\n") {
		a = append(a, strings.TrimRight(l, " "))
	}
	for _, l := range strings.Split(want, "\n") {
		b = append(b, strings.TrimRight(l, " \t"))
	}
	if strings.TrimSpace(strings.Join(a, "\n")) != strings.TrimSpace(strings.Join(b, "\n")) {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// The base example of the Peppol BIS Billing 3.0 guide to EN 16931 (from memory): 7 at 400, 3 at 500 taken back and a charge of 25, all at 25 %:
// taxable 1,325.00, tax 331.25, to be paid 1,656.25.
func TestEN16931BaseExample(t *testing.T) {
	book := house()
	book.Packs["item"] = kitchen.Pack{Name: "Item", Price: 400 * usd, Tax: "nord"}
	inv := issue(t, book, "R-2026-0001", record.Customer{Customer: "buyer", Name: "Buyer"}, "2026-12-05", []Delivery{goods("buyer", "O-1", "item", 7, "2026-12-04")},
		Line{Says: "taken back", Count: 3, Each: -500 * usd, Tax: "nord"}, Line{Says: "insurance", Count: 1, Each: 25 * usd, Tax: "nord"})
	if x := inv.Taxes[0]; x.On != 1325*usd || x.Is != 331*usd+25*cent || inv.Total != 1656*usd+25*cent {
		t.Errorf("got\n%s", text(inv.Lines, inv.Taxes, inv.Total))
	}
}

// Taxes taken out of a price that has them in, from the tables of any textbook (from memory): of 100.00, 6.54 at 7 %.
func TestTaxInThePrice(t *testing.T) {
	book := house()
	inv := issue(t, book, "R-2026-0001", record.Customer{Customer: "ann", Name: "Ann", Prices: "home"}, "2026-12-05", []Delivery{goods("ann", "", "dal", 1, "2026-12-04")})
	sameText(t, text(inv.Lines, inv.Taxes, inv.Total), `
	1 × Dal, 1 lb 100.00 = 100.00 food tax
	1 × in the prices above: food tax -6.54 = -6.54 food tax
	food tax 7 % on 93.46: 6.54
	total 100.00`)
}

// By hand: 30 dal at the price from 24 on, 5.50, is 165.00, and 10 pea at the pack's own price, 4.99, is 49.90. 3 % of 214.90 is 6.447, so 6.45,
// in proportion 4.95 and 1.50. Tax of 7 % on 160.05 is 11.2035, so 11.20; of 6 % on 48.40 is 2.904, so 2.90, shared 5 to 1: 2.42 and 0.48.
func TestTwoTaxesAndADiscount(t *testing.T) {
	shop := record.Customer{Customer: "shop", Name: "The Shop", Address: "Main Street 1", Prices: "shops"}
	inv := issue(t, house(), "R-2026-0001", shop, "2026-12-05", []Delivery{goods("shop", "O-1", "dal", 30, "2026-12-04"), goods("shop", "O-1", "pea", 10, "2026-12-03")})
	sameText(t, text(inv.Lines, inv.Taxes, inv.Total), `
	30 × Dal, 1 lb 5.50 = 165.00 food tax
	10 × Pea soup, 1 lb 4.99 = 49.90 meals tax
	1 × trade discount 3 % -4.95 = -4.95 food tax
	1 × trade discount 3 % -1.50 = -1.50 meals tax
	food tax 7 % on 160.05: 11.20
	meals tax: state 5 % on 48.40: 2.42
	meals tax: town 1 % on 48.40: 0.48
	total 222.55`)
	if inv.Due != "2027-01-04" || inv.Order != "O-1" || inv.To != "The Shop\nMain Street 1" || !strings.Contains(string(inv.From), "Mill Lane Kitchen\nMill Lane 3") || !strings.Contains(string(inv.From), "T-1") {
		t.Errorf("due %s, order %q, to %q, from %q", inv.Due, inv.Order, inv.To, inv.From)
	}
}

func TestPricesOfACustomer(t *testing.T) {
	for _, x := range []struct {
		name, list, pack string
		n                int64
		day              record.Day
		want             unit.Money
		code             string
	}{
		{"the pack's own", "", "dal", 100, "2026-12-01", 650 * cent, ""},
		{"of the list", "shops", "dal", 23, "2026-12-01", 580 * cent, ""},
		{"of many", "shops", "dal", 24, "2026-12-01", 550 * cent, ""},
		{"from a day on, without its grades", "shops", "dal", 24, "2027-01-01", 600 * cent, ""},
		{"not in the list", "shops", "pea", 1, "2026-12-01", 499 * cent, ""},
		{"with the tax in, and not in the list", "home", "bone", 1, "2026-12-01", 0, CodePriceTax},
		{"no price at all", "", "free", 1, "2026-12-01", 0, CodeNoPrice},
		{"no such pack", "", "stew", 1, "2026-12-01", 0, CodeNoPack},
	} {
		t.Run(x.name, func(t *testing.T) {
			terms, found := TermsOf(house(), record.Customer{Customer: "c", Prices: x.list})
			got, wrong := terms.Price(kitchen.PackID(x.pack), x.n, x.day)
			code := ""
			if wrong != nil {
				code = wrong.Code
			}
			if got != x.want || code != x.code || len(found) > 0 {
				t.Errorf("%s, %q (%v), want %s, %q", got, code, found, x.want, x.code)
			}
		})
	}
	if _, found := TermsOf(house(), record.Customer{Customer: "c", Prices: "friends"}); len(found) != 1 || found[0].Code != CodeNoList {
		t.Errorf("a list that is not there: %v", found)
	}
	d, _ := Propose(house(), record.Customer{Customer: "r", Name: "R", Prices: "resale"}, "2026-12-05", []Delivery{goods("r", "", "dal", 2, "2026-12-05")})
	if inv, err := d.Invoice("1"); err != nil || len(inv.Taxes) != 0 || inv.Total != 13*usd || !strings.Contains(string(inv.Note), "For resale.") {
		t.Errorf("untaxed: %+v, %v", inv, err)
	}
	agreed := goods("c", "O-1", "dal", 2, "2026-12-05")
	agreed.Each = 5 * usd
	if d, found := Propose(house(), record.Customer{Customer: "c", Name: "C"}, "2026-12-05", []Delivery{agreed}); len(found) > 0 || d.Lines[0].Each != 5*usd {
		t.Errorf("an agreed price: %+v %v", d.Lines, found)
	}
	agreed.Each += 5
	if _, found := Propose(house(), record.Customer{Customer: "c", Name: "C"}, "2026-12-05", []Delivery{agreed}); len(found) != 1 || found[0].Code != CodeAgreedCents {
		t.Errorf("an agreed price of parts of a cent: %v", found)
	}
	by := Line{Says: "bringing it", Count: 1, Each: 6 * usd, Tax: "meal"}
	if _, found := Propose(house(), record.Customer{Customer: "c", Name: "C"}, "2026-12-05", []Delivery{{Goods: Goods{Pack: "dal"}, Count: 1}}, by); len(found) != 1 || found[0].Code != CodeNoSuchTax || !strings.Contains(found[0].Fix, "meals") {
		t.Errorf("a tax that there is not: %v", found)
	}
	if _, found := Propose(house(), record.Customer{Customer: "c", Name: "C"}, "2026-12-05", nil); len(found) != 1 || found[0].Code != CodeNothing {
		t.Errorf("nothing to bill: %v", found)
	}
}

// What is sold over the counter is a line for each day, what goes out for one order on several days is one.
func TestLinesOfSeveralDays(t *testing.T) {
	inv := issue(t, house(), "R-2026-0001", record.Customer{Customer: "ann", Name: "Ann"}, "2026-12-05", []Delivery{goods("ann", "", "dal", 2, "2026-12-01"), goods("ann", "", "dal", 1, "2026-12-03"), goods("ann", "O-1", "dal", 2, "2026-12-01"), goods("ann", "O-1", "dal", 3, "2026-12-04")})
	var lines []string
	for _, l := range inv.Lines {
		lines = append(lines, fmt.Sprint(l.Count, " ", l.Order, " ", l.Day))
	}
	if got := strings.Join(lines, ", "); got != "2  2026-12-01, 1  2026-12-03, 5 O-1 2026-12-04" || inv.Order != "" {
		t.Errorf("%s, for order %q", got, inv.Order)
	}
}

func TestWhatIsBilledIsNotBilledTwice(t *testing.T) {
	c := &chain{t: t}
	all := []Delivery{goods("shop", "O-1", "dal", 10, "2026-12-03"), goods("shop", "O-1", "dal", 5, "2026-12-08"), goods("shop", "O-2", "dal", 4, "2026-12-09"), goods("ann", "", "dal", 1, "2026-12-09")}
	s, _ := c.ledger()
	if open, over := s.Unbilled(all); len(open) != 4 || len(over) != 0 {
		t.Fatalf("before any invoice: %v, %v", open, over)
	}
	shop := record.Customer{Customer: "shop", Name: "Shop"}
	inv := issue(t, house(), "R-2026-0001", shop, "2026-12-05", all[:1])
	c.day("2026-12-05").say(inv)
	s, _ = c.ledger()
	open, over := s.Unbilled(all)
	if !slices.Equal(open, all[1:]) || len(over) != 0 {
		t.Errorf("after the first: %v, %v", open, over)
	}
	came := slices.Clone(all)
	came[0].Count, came[1].Count = 6, 0 // nine of the fifteen came back: of the ten that were billed, four are too many
	if open, over = s.Unbilled(came); len(open) != 2 || len(over) != 1 || over[0] != goods("shop", "O-1", "dal", 4, "") {
		t.Errorf("after nine came back: %v, %v", open, over)
	}
	b := s.Bill("R-2026-0001")
	note, err := b.CreditNote("C-2026-0001", "2026-12-10", "came back", []Back{{0, 4}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	note.Off = true
	c.day("2026-12-10").say(note)
	s, _ = c.ledger()
	if open, over = s.Unbilled(came); len(open) != 2 || len(over) != 0 {
		t.Errorf("after the credit note: %v, %v", open, over)
	}
	came = append(came, goods("shop", "O-1", "dal", 3, "2026-12-11"))
	if open, _ = s.Unbilled(came); len(open) != 3 || open[2] != came[4] {
		t.Errorf("after three more: %v", open)
	}
	if note, err = s.Bill("R-2026-0001").CreditNote("C-2026-0002", "2026-12-12", "thawed on the way, thrown away", []Back{{0, 2}}, nil); err != nil {
		t.Fatal(err)
	}
	c.day("2026-12-12").say(note)
	s, _ = c.ledger()
	if open, over = s.Unbilled(came); len(open) != 3 || len(over) != 0 {
		t.Errorf("what was credited and stayed is billed again: %v, %v", open, over)
	}
	if note, err = s.Bill("R-2026-0001").CreditAll("C-2026-0003", "2026-12-13", "the wrong price"); err != nil {
		t.Fatal(err)
	}
	note.Off = true
	c.day("2026-12-13").say(note)
	s, _ = c.ledger()
	if open, _ = s.Unbilled(came); len(open) != 4 || open[0].Count != 4 {
		t.Errorf("the last four are to be billed anew beside the three: %v", open)
	}
}

func TestNumbers(t *testing.T) {
	invoices, credits, err := Numbers(kitchen.Seller{})
	if err != nil || invoices.String() != "YYYY-0000" || credits.String() != "C-YYYY-0000" {
		t.Errorf("%s, %s, %v", invoices, credits, err)
	}
	c := &chain{t: t}
	series := invoice.Series{Before: "R-", Yearly: true, Digits: 4}
	next := func(day record.Day) string {
		s, _ := c.ledger()
		n, err := s.Next(record.Invoiced{}.Kind(), series, day)
		if err != nil {
			return err.Error()
		}
		return n
	}
	ann := record.Customer{Customer: "ann", Name: "Ann"}
	for _, x := range []struct {
		day  record.Day
		want string
	}{{"2026-12-30", "R-2026-0001"}, {"2026-12-31", "R-2026-0002"}, {"2027-01-02", "R-2027-0001"}, {"2027-01-02", "R-2027-0002"}} {
		got := next(x.day)
		if got != x.want {
			t.Errorf("on %s: %s, want %s", x.day, got, x.want)
		}
		c.day(x.day).say(issue(t, house(), got, ann, x.day, []Delivery{goods("ann", "", "dal", 1, x.day)}))
	}
	if got := next("2027-01-01"); !strings.Contains(got, "R-2027-0001") || !strings.Contains(got, "dated after") {
		t.Errorf("before one that was issued: %s", got)
	}
	if a, b := EntryID("invoiced", "R-2026-0001"), EntryID("credited", "R-2026-0001"); a == b || a == (record.ID{}) || a != EntryID("invoiced", "R-2026-0001") {
		t.Errorf("entry IDs %s and %s", a, b)
	}
}
