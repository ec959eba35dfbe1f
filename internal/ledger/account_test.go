package ledger

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/invoice"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// december is a month, worked by hand:
//
//	Ann      3 dal at 6.50 is 19.50, 7 % of it 1.365, so 1.37: 20.87, paid.
//	shop     30 dal at 5.50 less 3 % is 160.05, 7 % of it 11.20: 171.25. 10 come back: 53.35 and 3.73, 57.08. 100.00 paid: 14.17 open.
//	canteen  12 pea at 4.99, for resale: 59.88. 70.00 paid, and 10.12 paid back.
//
// Invoices of 252.00, credit notes of 57.08, 180.75 paid: 14.17 open.
func december(t rapid.TB) *chain {
	c := &chain{t: t}
	ann, shop, canteen := record.Customer{Customer: "ann", Name: "Ann"}, record.Customer{Customer: "shop", Name: "The Shop", Prices: "shops"}, record.Customer{Customer: "canteen", Name: "Canteen", Prices: "resale"}
	for _, x := range []record.Customer{ann, shop, canteen} {
		c.day("2026-11-30").say(x)
	}
	c.day("2026-12-01").say(issue(t, house(), "R-2026-0001", ann, "2026-12-01", []Delivery{goods("ann", "", "dal", 3, "2026-12-01")}))
	c.day("2026-12-03").say(issue(t, house(), "R-2026-0002", shop, "2026-12-03", []Delivery{goods("shop", "O-1", "dal", 30, "2026-12-03")}))
	c.day("2026-12-10").say(issue(t, house(), "R-2026-0003", canteen, "2026-12-10", []Delivery{goods("canteen", "O-2", "pea", 12, "2026-12-09")}))
	c.day("2026-12-12").say(record.Paid{Invoice: "R-2026-0001", Amount: 2087 * cent, By: "cash"})
	s, _ := c.ledger()
	note, err := s.Bill("R-2026-0002").CreditNote("C-2026-0001", "2026-12-14", "thawed on the way", []Back{{0, 10}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	c.day("2026-12-14").say(note)
	c.day("2026-12-20").say(record.Paid{Invoice: "R-2026-0002", Amount: 100 * usd, By: "transfer"})
	c.day("2026-12-28").say(record.Paid{Invoice: "R-2026-0003", Amount: 70 * usd, By: "cheque"})
	c.day("2026-12-30").say(record.Paid{Invoice: "R-2026-0003", Amount: -1012 * cent, By: "cash"})
	return c
}

func TestAWholeMonth(t *testing.T) {
	s, found := december(t).ledger()
	if len(found) > 0 {
		t.Fatal(found)
	}
	for number, want := range map[string][3]unit.Money{"R-2026-0001": {2087, 0, 0}, "R-2026-0002": {17125, 5708, 1417}, "R-2026-0003": {5988, 0, 0}} {
		b := s.Bill(number)
		if got := [3]unit.Money{b.Total / cent, b.Credited() / cent, b.Open() / cent}; got != want {
			t.Errorf("%s: total, credited and open are %v cents, want %v", number, got, want)
		}
	}
	for _, x := range []struct {
		day  record.Day
		open string // by age: not overdue, 1-30, 31-60, 61-90, 91 and more
	}{
		{"2026-11-30", "0.00 0.00 0.00 0.00 0.00"},
		{"2026-12-11", "252.00 0.00 0.00 0.00 0.00"},
		{"2026-12-25", "14.17 59.88 0.00 0.00 0.00"}, // the canteen's was due on the 24th
		{"2026-12-29", "14.17 -10.12 0.00 0.00 0.00"},
		{"2026-12-31", "14.17 0.00 0.00 0.00 0.00"},
		{"2027-02-15", "0.00 0.00 14.17 0.00 0.00"}, // 44 days past 2 January
	} {
		a, err := s.OpenOn(x.day, "", invoice.UsualAges[:]...)
		if err != nil {
			t.Fatal(err)
		}
		var ages []string
		for _, g := range a.Ages {
			ages = append(ages, g.Open.String())
		}
		if got := strings.Join(ages, " "); got != x.open {
			t.Errorf("on %s: %s, want %s", x.day, got, x.open)
		}
	}
	st := s.Statement("shop", "2026-12-10", "2026-12-31")
	var moves []string
	for _, m := range st.Moves {
		moves = append(moves, fmt.Sprintf("%s %s %s %s %s", m.Day, m.What, m.Number, m.Amount, m.Balance))
	}
	if want := []string{"2026-12-14 credit note C-2026-0001 -57.08 114.17", "2026-12-20 payment R-2026-0002 -100.00 14.17"}; !slices.Equal(moves, want) || st.Before != 17125*cent || st.Open != 1417*cent {
		t.Errorf("from %s to %s: %q", st.Before, st.Open, moves)
	}
	if st := s.Statement("canteen", "2026-12-01", "2026-12-31"); !st.NoOpening || st.Invoiced != 5988*cent || st.Paid != 5988*cent || st.Open != 0 || st.Moves[2].What != MoveRefund {
		t.Errorf("the canteen: %+v", st)
	}
}

func TestASoundMonthHasNoFindings(t *testing.T) {
	s, _ := december(t).ledger()
	invoices, credits, _ := Numbers(house().Seller)
	a := s.Audit(invoices, credits, "2026-12-31")
	if len(a.Findings) > 0 || a.Invoices != 3 || a.Credits != 1 || a.Payments != 4 || a.Invoiced != 252*usd || a.Open != 1417*cent || a.Invoiced-a.Credited-a.Paid != a.Open {
		t.Errorf("%+v", a)
	}
}

// What an audit finds: each slip in a month that is sound otherwise.
func TestAuditFinds(t *testing.T) {
	line := []record.InvoiceLine{{Says: "dal", Count: 1, Each: 10 * usd, Net: 10 * usd, Tax: "food tax"}}
	inv := func(number string, day record.Day, is unit.Money) record.Invoiced {
		return record.Invoiced{Invoice: number, Customer: "ann", Day: day, Due: day, Lines: line, Taxes: []record.TaxLine{{Tax: "food tax", Rate: 7 * unit.PerCent, On: 10 * usd, Is: is}}, Total: 10*usd + is}
	}
	onOther := inv("R-2026-0004", "2026-12-15", 70*cent)
	onOther.Taxes = []record.TaxLine{{Tax: "food tax", Rate: 7 * unit.PerCent, On: 9 * usd, Is: 70 * cent}}
	for _, x := range []struct {
		name, code string
		severity   finding.Severity
		body       record.Body
	}{
		{"a number left out", CodeGap, finding.Caution, inv("R-2026-0005", "2026-12-15", 70*cent)},
		{"a number used again", CodeTwice, finding.Stop, inv("R-2026-0001", "2026-12-15", 70*cent)},
		{"a day before a lower number", CodeOrder, finding.Caution, inv("R-2026-0004", "2026-12-02", 70*cent)},
		{"another year", CodeYear, finding.Caution, inv("R-2027-0001", "2026-12-15", 70*cent)},
		{"another series", CodeForeign, finding.Note, inv("77", "2026-12-15", 70*cent)},
		{"a tax that is not its rate", CodeTax, finding.Caution, inv("R-2026-0004", "2026-12-15", 80*cent)},
		{"a tax on something else", CodeSum, finding.Stop, onOther},
		{"a payment for nothing", CodeNoInvoice, finding.Caution, record.Paid{Invoice: "R-2026-0009", Amount: usd}},
		{"a credit note for nothing", CodeNoInvoice, finding.Stop, record.Credited{Credit: "C-2026-0002", Invoice: "R-2026-0009", Day: "2026-12-31", Why: "why", Lines: []record.InvoiceLine{{Says: "x", Count: 1, Each: usd, Net: usd}}, Total: usd}},
		{"a credit note beyond its invoice", CodeOverCredit, finding.Stop, record.Credited{Credit: "C-2026-0002", Invoice: "R-2026-0001", Day: "2026-12-31", Why: "why", Lines: []record.InvoiceLine{{Says: "x", Count: 1, Each: 30 * usd, Net: 30 * usd}}, Total: 30 * usd}},
		{"paid twice", CodeOverpaid, finding.Note, record.Paid{Invoice: "R-2026-0001", Amount: 2087 * cent}},
	} {
		t.Run(x.name, func(t *testing.T) {
			c := december(t)
			c.day("2026-12-31").say(x.body)
			s, _ := c.ledger()
			invoices, credits, _ := Numbers(house().Seller)
			a := s.Audit(invoices, credits, "2026-12-31")
			i := slices.IndexFunc(a.Findings, func(f finding.Finding) bool { return f.Code == x.code })
			if i < 0 || a.Findings[i].Severity != x.severity || a.Findings[i].Fix == "" || a.Findings[i].Where == "" {
				t.Errorf("found %v", a.Findings)
			}
			for _, f := range a.Findings {
				if f.Code == CodeSum && x.code != CodeSum {
					t.Errorf("%s", f)
				}
			}
		})
	}
}

// In whatever order entries come, the same is owed; and those that are said to be able to come late can.
func TestEntriesInAnyOrder(t *testing.T) {
	c := december(t)
	want, _ := c.ledger()
	rapid.Check(t, func(t *rapid.T) {
		all := slices.Clone(c.all)
		rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0)).Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
		got := New(utcDay)
		for _, e := range all {
			if e.Kind != (record.Customer{}).Kind() && !got.Late(e) {
				t.Errorf("entry %d is said not to be able to come late", e.Seq)
			}
			got.Take(e)
		}
		for _, id := range []string{"ann", "shop", "canteen"} {
			a, b := got.Statement(id, "2026-12-01", "2026-12-31"), want.Statement(id, "2026-12-01", "2026-12-31")
			if fmt.Sprint(a) != fmt.Sprint(b) {
				t.Errorf("%s: %v, want %v", id, a, b)
			}
		}
	})
}

func TestWhatCannotBeReadIsFound(t *testing.T) {
	e := record.Entry{ID: record.ID{7}, Seq: 9, Kind: record.Invoiced{}.Kind(), Body: []byte(`{"invoice":"1"}`)}
	s := New(utcDay)
	if found := s.Take(e); len(found) != 1 || found[0].Code != CodeUnreadable || found[0].Severity != finding.Stop || s.Late(e) {
		t.Errorf("%v", found)
	}
}

func FuzzTake(f *testing.F) {
	for _, e := range december(f).all {
		f.Add(string(e.Kind), []byte(e.Body))
	}
	f.Fuzz(func(t *testing.T, kind string, body []byte) {
		s, _ := december(t).ledger()
		s.Take(record.Entry{ID: record.ID{7}, Seq: 99, Kind: record.Kind(kind), Happened: 1_800_000_000_000, Body: body})
		invoices, credits, _ := Numbers(house().Seller)
		a := s.Audit(invoices, credits, "2026-12-31")
		if a.Invoiced-a.Credited-a.Paid != a.Open && a.Findings.Worst() < finding.Stop {
			t.Errorf("%+v", a)
		}
		for _, b := range s.Bills() {
			if note, err := b.CreditAll("C-2026-0005", "2026-12-31", "why"); err == nil {
				if _, err := record.Encode(note); err != nil {
					t.Errorf("%s: %v", b.Invoice, err)
				}
			}
		}
	})
}
