package app_test

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/ledger"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

func billNoon() time.Time { return time.Date(2026, 12, 7, 12, 0, 0, 0, time.UTC) }

// sellingBook has one pack at 6.50 and a tax of 7 %.
func sellingBook() kitchen.Book {
	return kitchen.Book{
		Kitchen:  kitchen.Kitchen{Name: "Mill Lane"},
		Seller:   kitchen.Seller{Invoices: "R-YYYY-0000", Credits: "C-YYYY-0000", Terms: 14},
		TaxRates: map[kitchen.TaxID]kitchen.TaxRate{"food": {Name: "food tax", Rate: 7 * unit.PerCent, Source: "invented"}},
		Packs:    map[kitchen.PackID]kitchen.Pack{"dal": {Name: "Dal", Price: 650 * unit.Cent, Tax: "food", Keep: 10}},
	}
}

func billing(t *testing.T, path string) *app.Records {
	t.Helper()
	r, err := app.OpenRecords(t.Context(), path, billNoon)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Close() })
	return r
}

func say(t *testing.T, r *app.Records, at time.Time, bodies ...record.Body) []record.Entry {
	t.Helper()
	var said []app.Said
	for _, b := range bodies {
		said = append(said, app.Said{Who: "Ada", Device: "test", At: at, Body: b})
	}
	sealed, err := r.Enter(t.Context(), said...)
	if err != nil {
		t.Fatal(err)
	}
	return sealed
}

func packs(t *testing.T, text string) record.Numbers {
	t.Helper()
	n, err := record.ParseNumbers(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// sold has a lot of 40 packs, of which customers got ten each.
func sold(t *testing.T, r *app.Records, customers ...string) {
	t.Helper()
	at := billNoon().Add(-72 * time.Hour)
	say(t, r, at, record.Packed{Run: "tue", Pack: "dal", Lot: "P-1", Numbers: packs(t, "1-999"), Label: unit.Pound, Mass: 999 * unit.Pound, From: []record.Part{{Lot: "T-1", Mass: unit.Kilogram}}, BestBefore: "2027-06-01", Place: "chest"})
	for i, c := range customers {
		say(t, r, at.Add(time.Hour), record.Customer{Customer: c, Name: "The " + c},
			record.Ordered{Order: "O-" + c, Customer: c, Lines: []record.OrderLine{{Pack: "dal", Count: 10}}, Due: "2026-12-04", Way: record.Collect},
			record.HandedOver{Order: "O-" + c, Customer: c, Lot: "P-1", Numbers: packs(t, fmt.Sprintf("%d-%d", 10*i+1, 10*i+10))})
	}
}

func TestIssueCreditAndPay(t *testing.T) {
	r := billing(t, filepath.Join(t.TempDir(), "r.db"))
	sold(t, r, "shop")
	who := app.Said{Who: "Ada", Device: "test", At: billNoon()}
	inv, err := r.Issue(t.Context(), sellingBook(), who, app.BillAsk{Customer: "shop", Order: "O-shop"}, 0)
	if err != nil {
		t.Fatal(err)
	}
	// 10 at 6.50 is 65.00, 7 % of it 4.55
	if inv.Invoice != "R-2026-0001" || inv.Total != 6955*unit.Cent || inv.Day != "2026-12-07" || inv.Due != "2026-12-21" || inv.Lines[0].Day != "2026-12-04" || inv.To != "The shop" {
		t.Errorf("%+v", inv)
	}
	var nothing *app.BillError
	if again, err := r.Issue(t.Context(), sellingBook(), who, app.BillAsk{Customer: "shop"}, 0); !errors.As(err, &nothing) || nothing.Findings[0].Code != ledger.CodeNothing {
		t.Errorf("billed twice: %+v, %v", again, err)
	}
	note, err := r.Credit(t.Context(), sellingBook(), who, inv.Invoice, func(b *ledger.Bill, number string, day record.Day) (record.Credited, error) {
		return b.CreditNote(number, day, "thawed", []ledger.Back{{Line: 0, Count: 4}}, nil)
	})
	if err != nil || note.Credit != "C-2026-0001" || note.Total != 2782*unit.Cent {
		t.Errorf("%+v, %v", note, err)
	}
	say(t, r, billNoon(), record.Paid{Invoice: inv.Invoice, Amount: 40 * unit.MoneyUnit, By: "cash"})
	err = r.Till(t.Context(), "2026-12-07", func(till app.Till) error {
		if open := till.Bill(inv.Invoice).Open(); open != 173*unit.Cent {
			t.Errorf("%s open, want 1.73", open)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := r.Credit(t.Context(), sellingBook(), who, "R-2026-0009", nil); !errors.As(err, ptr((*app.UnknownBillError)(nil))) {
		t.Errorf("a note for nothing: %v", err)
	}
}

func ptr[T any](x T) *T { return &x }

func TestTheTotalThatWasShown(t *testing.T) {
	r := billing(t, filepath.Join(t.TempDir(), "r.db"))
	sold(t, r, "shop")
	who := app.Said{Who: "Ada", Device: "test", At: billNoon()}
	var changed *app.BillError
	if _, err := r.Issue(t.Context(), sellingBook(), who, app.BillAsk{Customer: "shop"}, 70*unit.MoneyUnit); !errors.As(err, &changed) || !changed.Changed {
		t.Errorf("another total than was shown: %v", err)
	}
	if _, err := r.Issue(t.Context(), sellingBook(), who, app.BillAsk{Customer: "shop"}, 6955*unit.Cent); err != nil {
		t.Error(err)
	}
}

// What was issued stays: nobody enters an invoice by hand, corrects one or takes one back.
func TestWhatWasIssuedStays(t *testing.T) {
	r := billing(t, filepath.Join(t.TempDir(), "r.db"))
	sold(t, r, "shop")
	who := app.Said{Who: "Ada", Device: "test", At: billNoon()}
	inv, err := r.Issue(t.Context(), sellingBook(), who, app.BillAsk{Customer: "shop"}, 0)
	if err != nil {
		t.Fatal(err)
	}
	id := ledger.EntryID("invoiced", inv.Invoice)
	second := inv
	second.Invoice = "R-2026-0002"
	for name, said := range map[string]app.Said{
		"by hand":    {Who: "Ada", Device: "test", At: billNoon(), Body: second},
		"corrected":  {Who: "Ada", Device: "test", At: billNoon(), Corrects: id, Body: inv},
		"taken back": {Who: "Ada", Device: "test", At: billNoon(), Corrects: id, Body: record.Voided{Why: "a slip"}},
	} {
		if _, err := r.Enter(t.Context(), said); !errors.As(err, ptr((*app.IssuedError)(nil))) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Two servers on one file, and two cashiers at each, issue invoices for forty customers at the same moment: no number is given twice, none is left
// out, and nobody is billed twice, although every customer is asked for twice.
func TestNumbersWithoutGapsByTwoServers(t *testing.T) {
	path := filepath.Join(t.TempDir(), "r.db")
	servers := []*app.Records{billing(t, path), billing(t, path)}
	var customers []string
	for i := range 40 {
		customers = append(customers, fmt.Sprintf("c%02d", i))
	}
	sold(t, servers[0], customers...)
	var issued sync.Map
	var group sync.WaitGroup
	for cashier := range 4 {
		group.Go(func() {
			for i := range customers {
				c := customers[(i*7+cashier/2*20)%len(customers)] // cashiers 0 and 1 ask for the same, one at each server, and so do 2 and 3
				inv, err := servers[cashier%2].Issue(t.Context(), sellingBook(), app.Said{Who: "Ada", Device: fmt.Sprint(cashier), At: billNoon()}, app.BillAsk{Customer: c}, 0)
				var nothing *app.BillError
				switch {
				case errors.As(err, &nothing):
				case err != nil:
					t.Error(err)
				default:
					if other, twice := issued.LoadOrStore(inv.Invoice, inv.Customer); twice {
						t.Errorf("%s for %s and for %v", inv.Invoice, inv.Customer, other)
					}
				}
			}
		})
	}
	group.Wait()
	err := servers[0].Till(t.Context(), "2026-12-07", func(till app.Till) error {
		var numbers, billed []string
		for _, b := range till.Bills() {
			numbers, billed = append(numbers, b.Invoice), append(billed, b.Customer)
		}
		slices.Sort(billed)
		if !slices.Equal(billed, customers) || numbers[0] != "R-2026-0001" || numbers[39] != "R-2026-0040" {
			t.Errorf("%d invoices, from %s to %s, for %v", len(numbers), numbers[0], numbers[len(numbers)-1], billed)
		}
		invoices, credits, _ := ledger.Numbers(sellingBook().Seller)
		if a := till.Audit(invoices, credits, "2026-12-07"); len(a.Findings) > 0 {
			t.Errorf("%v", a.Findings)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

func TestWhatNobodyKnowsIsNotLost(t *testing.T) {
	r := billing(t, filepath.Join(t.TempDir(), "r.db"))
	say(t, r, billNoon(), record.HandedOver{Customer: "ann", Lot: "P-9", Numbers: packs(t, "1-3")})
	err := r.Till(t.Context(), "2026-12-07", func(till app.Till) error {
		_, found := till.Propose(sellingBook(), app.BillAsk{Customer: "ann"})
		if found.Worst() != finding.Stop || found[0].Code != ledger.CodeNoPack {
			t.Errorf("packs that nobody packed: %v", found)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// What is to be billed, and what an audit finds, is that of now, whatever was looked at before.
func TestWhatIsUnbilledFollows(t *testing.T) {
	r := billing(t, filepath.Join(t.TempDir(), "r.db"))
	sold(t, r, "shop")
	for _, step := range []struct {
		name       string
		does       func()
		open, over int64
		comes      int64 // packs on the bill that is proposed
		invoices   int   // that an audit looks at
	}{
		{"ten handed over", func() {}, 10, 0, 10, 0},
		{"three more", func() {
			say(t, r, billNoon(), record.HandedOver{Customer: "shop", Lot: "P-1", Numbers: packs(t, "900-902")})
		}, 13, 0, 13, 0},
		{"a pack moved", func() {
			say(t, r, billNoon(), record.Moved{Lot: "P-1", Numbers: packs(t, "950"), To: "other chest"})
		}, 13, 0, 13, 0},
		{"the order billed", func() {
			if _, err := r.Issue(t.Context(), sellingBook(), app.Said{Who: "Ada", Device: "test", At: billNoon()}, app.BillAsk{Customer: "shop", Order: "O-shop"}, 0); err != nil {
				t.Fatal(err)
			}
		}, 3, 0, 3, 1},
		{"two billed ones back", func() {
			say(t, r, billNoon(), record.Returned{Customer: "shop", Lot: "P-1", Numbers: packs(t, "1-2"), Why: "too many", Sound: true})
		}, 3, 2, 3, 1},
	} {
		step.does()
		err := r.Till(t.Context(), "2026-12-07", func(till app.Till) error {
			open, over := till.Unbilled()
			draft, _ := till.Propose(sellingBook(), app.BillAsk{Customer: "shop"})
			lines := int64(0)
			for _, l := range draft.Lines {
				lines += l.Count
			}
			if counted(open) != step.open || counted(over) != step.over || lines != step.comes {
				t.Errorf("%s: to bill %v, over %v, proposed %v", step.name, open, over, draft.Lines)
			}
			invoices, credits, err := ledger.Numbers(sellingBook().Seller)
			if n := till.Audit(invoices, credits, "2026-12-07").Invoices; n != step.invoices {
				t.Errorf("%s: an audit of %d invoices", step.name, n)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

func counted(all []ledger.Delivery) (n int64) {
	for _, d := range all {
		n += d.Count
	}
	return n
}
