package app

import (
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/find"
	"kettlefrost/internal/ledger"
	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// findKitchen is the demo kitchen with something of everything in its records.
func findKitchen(t testing.TB) (*Finder, *Records) {
	t.Helper()
	now := func() time.Time { return time.Date(2026, 12, 2, 12, 0, 0, 0, time.UTC) }
	r := openRecords(t, filepath.Join(t.TempDir(), "kitchen.records"), now)
	house, err := New(demo.Book(), now)
	if err != nil {
		t.Fatal(err)
	}
	house.Follow(r)
	packs, err := record.ParseNumbers("1-40")
	if err != nil {
		t.Fatal(err)
	}
	for i, b := range []record.Body{
		record.Opened{Run: "kettle-2026-12-01", Request: "kettle", Day: "2026-12-01", Plan: record.Hash{1}},
		record.Received{Lot: "R-1126-2", Ingredient: "great-northern-bean", Supplier: "Hill Farm", SupplierLot: "HF/88-B", Mass: 20 * unit.Kilogram, Place: "dry-store"},
		record.Packed{Run: "kettle-2026-12-01", Pack: "bean-pot-2lb", Lot: "P-1201-3", Numbers: packs, Label: 2 * unit.Pound, Mass: 80 * unit.Pound, From: []record.Part{{Lot: "R-1126-2", Mass: unit.Kilogram}}, BestBefore: "2027-06-01", Place: "chest-1"},
		record.Customer{Customer: "joes-cafe", Name: "Joe's Café", Address: "12 Quay Street\nHarbour"},
		record.Ordered{Order: "O-17", Customer: "joes-cafe", Lines: []record.OrderLine{{Pack: "bean-pot-2lb", Count: 5}}, Due: "2026-12-04", Way: record.Collect, Note: "ring twice"},
		record.Invoiced{Invoice: "2026-0017", Customer: "joes-cafe", Day: "2026-12-02", Due: "2026-12-16", Lines: []record.InvoiceLine{{Says: "goodwill", Count: 1, Each: 10 * unit.MoneyUnit, Net: 10 * unit.MoneyUnit}}, Total: 10 * unit.MoneyUnit},
		record.Person{Person: "ada", Name: "Ada Quill", Role: record.Owner, Since: "2026-01-01"},
	} {
		said := Said{Who: "ada", Device: "test", At: now().Add(time.Duration(i-60) * time.Minute), Body: b}
		if bill, is := b.(record.Invoiced); is {
			said.ID = ledger.EntryID(bill.Kind(), bill.Invoice)
		}
		if _, err := r.Enter(t.Context(), said); err != nil {
			t.Fatal(err)
		}
	}
	return NewFinder(house, r, NewBoards(r, house)), r
}

// codesOf are what was found, by kind.
func codesOf(v FoundSheet) string {
	var all []string
	for _, g := range v.Groups {
		for _, x := range g.Results {
			all = append(all, string(g.Kind)+" "+x.ID)
		}
	}
	return strings.Join(all, ", ")
}

func TestEverythingOfAKitchenIsFound(t *testing.T) {
	f, _ := findKitchen(t)
	for asked, want := range map[string]string{
		"P-1201-3":          "lot P-1201-3",
		"hf88b":             "lot R-1126-2",
		"hil farm":          "lot R-1126-2",
		"joes quay":         "customer joes-cafe",
		"ring twice":        "order O-17",
		"2026-0017":         "invoice 2026-0017",
		"ada quill":         "staff ada",
		"kettle 2026-12-01": "production kettle-2026-12-01",
		"01009":             "food 01009",
	} {
		v, err := f.Find(t.Context(), FindAsk{Words: asked})
		if got := codesOf(v); err != nil || got != want && !strings.HasPrefix(got, want+",") {
			t.Errorf("%q finds %q (%v), not %s first", asked, got, err, want)
		}
	}
}

// Everything in the book is found by its own name and by its code.
func TestTheBookIsFoundByItsNames(t *testing.T) {
	f, _ := findKitchen(t)
	book, _ := f.house.Book()
	for _, e := range append(bookEntries(book, f.files()), foodEntries(f.house.Foods())...) {
		for _, asked := range []string{e.Name, e.ID} {
			if asked == "" {
				continue
			}
			v, err := f.Find(t.Context(), FindAsk{Words: asked, Kind: e.Kind})
			if err != nil || !strings.Contains(codesOf(v)+",", string(e.Kind)+" "+e.ID+",") {
				t.Errorf("%s %s is not found by %q: %v", e.Kind, e.ID, asked, codesOf(v))
			}
		}
	}
}

// What a packer may not see is not found: no invoice, nobody's role.
func TestRolesFindWhatTheySee(t *testing.T) {
	f, _ := findKitchen(t)
	for _, c := range []struct {
		role  record.Role
		asked string
		finds bool
	}{
		{record.Packer, "2026-0017", false}, {record.Inspector, "2026-0017", true}, {record.Cook, "2026-0017", true}, {record.Owner, "2026-0017", true},
		{record.Cook, "quill", false}, {record.Inspector, "quill", false}, {record.Owner, "quill", true},
		{record.Packer, "O-17", true}, {"", "O-17", false}, {"", "cheddar", false},
	} {
		v, err := f.Find(t.Context(), FindAsk{Words: c.asked, Sees: func(a people.Area) bool { return people.MaySee(c.role, a) }})
		if err != nil || (v.Total > 0) != c.finds {
			t.Errorf("%s, %q: %s (%v)", c.role, c.asked, codesOf(v), err)
		}
	}
}

// What a scanner reads, and a pack by its number, is one lot and nothing else.
func TestACodeIsItsLot(t *testing.T) {
	f, _ := findKitchen(t)
	for asked, want := range map[string]string{
		"P-1201-3#17":  "P-1201-3#17",
		"p 1201 3 #17": "P-1201-3#17",
		"P-1201-3":     "", // may also be asked for as words
		"(01)09501101530003(15)270601(10)P-1201-3(21)17": "P-1201-3#17",
		"0109501101530003152706011" + "0P-1201-3":        "P-1201-3",
		"]C110P-1201-3": "P-1201-3",
		"https://id.example.org/01/09501101530003/10/P-1201-3/21/17?15=270601": "P-1201-3#17",
		"https://id.example.org/01/09501101530003/10/P-1201-3/21/A99":          "P-1201-3", // a serial number of somebody else's
		"https://id.example.org/01/09501101530003/10/NOBODYS":                  "",
		"P-1201-3#99": "", // it has no such pack
		"cheddar":     "",
	} {
		v, err := f.Find(t.Context(), FindAsk{Words: asked})
		if err != nil || v.Lot != want {
			t.Errorf("%q is lot %q (%v), not %q", asked, v.Lot, err, want)
		}
	}
}

// What is entered is found at once, what is taken back no more.
func TestWhatIsEnteredIsFoundAtOnce(t *testing.T) {
	f, r := findKitchen(t)
	if v, err := f.Find(t.Context(), FindAsk{Words: "zanzibar"}); err != nil || v.Total != 0 {
		t.Fatal(codesOf(v), err)
	}
	sealed, err := r.Enter(t.Context(), Said{Who: "ada", Device: "test", At: time.Date(2026, 12, 2, 12, 0, 0, 0, time.UTC), Body: record.Customer{Customer: "z", Name: "Zanzibar"}})
	if err != nil {
		t.Fatal(err)
	}
	if v, err := f.Find(t.Context(), FindAsk{Words: "zanzibr"}); err != nil || codesOf(v) != "customer z" || !v.Groups[0].Results[0].Near {
		t.Error(codesOf(v), err)
	}
	if _, err := r.Enter(t.Context(), Said{Who: "ada", Device: "test", At: time.Date(2026, 12, 2, 12, 1, 0, 0, time.UTC), Corrects: sealed[0].ID, Body: record.Voided{Why: "typed wrong"}}); err != nil {
		t.Fatal(err)
	}
	if v, err := f.Find(t.Context(), FindAsk{Words: "zanzibar"}); err != nil || v.Total != 0 {
		t.Error(codesOf(v), err)
	}
}

// A house without records finds its book.
func TestABookAloneIsFound(t *testing.T) {
	house, err := New(demo.Book(), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	v, err := NewFinder(house, nil, nil).Find(t.Context(), FindAsk{Words: "bean pot", Kind: find.Pack})
	if err != nil || codesOf(v) != "pack bean-pot-2lb" {
		t.Error(codesOf(v), err)
	}
}
