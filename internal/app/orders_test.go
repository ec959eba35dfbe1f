package app_test

import (
	"fmt"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// counter is a shop on December 1, 2026 with one customer and 20 soups.
func counter(t *testing.T) *app.Records {
	t.Helper()
	now := time.Date(2026, 12, 1, 6, 0, 0, 0, time.UTC)
	r, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), func() time.Time { return now })
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Close() })
	enter := func(b record.Body) {
		t.Helper()
		if _, err := r.Enter(t.Context(), app.Said{Who: "Ada", Device: "test", At: now, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	enter(record.Customer{Customer: "cafe", Name: "Cafe", Address: "1 Mill Lane"})
	enter(record.Packed{Run: "run", Pack: "soup", Lot: "S-1", Numbers: numbers(t, "1-20"), Label: 650 * unit.Gram, Mass: 13 * unit.Kilogram, From: []record.Part{{Lot: "M", Mass: 13 * unit.Kilogram}}, BestBefore: "2027-06-01", Place: "chest-1"})
	return r
}

func soups(n int64) orders.Draft {
	return orders.Draft{Customer: "cafe", Lines: []record.OrderLine{{Pack: "soup", Count: n}}, Due: "2026-12-04"}
}

func said(id byte) app.Said {
	return app.Said{ID: record.ID{id}, Who: "Ada", Device: "test", At: time.Date(2026, 12, 1, 7, 0, int(id), 0, time.UTC)}
}

// What is sent twice is one order, also when something else was ordered in between; what something speaks against is none.
func TestAnOrderThatIsSentTwiceIsOne(t *testing.T) {
	r := counter(t)
	packs := []string{"soup"}
	for i, c := range []struct {
		id      byte
		draft   orders.Draft
		sure    bool
		number  string
		against int
	}{
		{1, soups(5), false, "O-1", 0}, {2, soups(6), false, "O-2", 0}, {1, soups(5), false, "O-1", 0}, {3, soups(5), false, "", 1}, {3, soups(5), true, "O-3", 0}, {4, soups(0), true, "", 1},
		{5, orders.Draft{Changes: "O-2", Customer: "cafe", Lines: soups(4).Lines, Due: "2026-12-05"}, false, "O-2", 0},
	} {
		number, against, err := r.Order(t.Context(), said(c.id), c.draft, packs, c.sure)
		if err != nil || number != c.number || len(against) != c.against {
			t.Errorf("%d: %q %v %v", i+1, number, against, err)
		}
	}
	err := r.Desk(t.Context(), "2026-12-01", func(d app.Desk) error {
		all := d.Dated("2026-12-01", "2026-12-31")
		if len(all) != 3 || all[2].ID != "O-2" || all[2].Lines[0].Count != 4 || len(d.Found) > 0 {
			t.Errorf("%+v %v", all, d.Found)
		}
		a, err := d.Allot("2026-12-31")
		if err != nil || a.Check() != nil || a.Free["soup"] != 20-5-5-4 {
			t.Errorf("%+v %v", a, err)
		}
		return nil
	})
	if err != nil {
		t.Error(err)
	}
}

// Orders that come in at once get numbers of their own.
func TestNoTwoOrdersGetOneNumber(t *testing.T) {
	r := counter(t)
	var wait sync.WaitGroup
	numbers := make([]string, 12)
	for i := range numbers {
		wait.Go(func() {
			number, against, err := r.Order(t.Context(), said(byte(i+1)), soups(int64(i+1)), []string{"soup"}, false)
			if err != nil || against != nil {
				t.Error(against, err)
			}
			numbers[i] = number
		})
	}
	wait.Wait()
	seen := map[string]bool{}
	for _, n := range numbers {
		seen[n] = true
	}
	for i := range numbers {
		if !seen[fmt.Sprintf("O-%d", i+1)] {
			t.Errorf("%v", numbers)
		}
	}
}

// What was set aside on another device a little earlier is seen, and the state is what it would be had it come in time.
func TestTwoTabletsPickAtOnce(t *testing.T) {
	r := counter(t)
	if _, _, err := r.Order(t.Context(), said(1), soups(5), []string{"soup"}, false); err != nil {
		t.Fatal(err)
	}
	status := func() (s orders.Status) {
		t.Helper()
		if err := r.Desk(t.Context(), "2026-12-01", func(d app.Desk) error {
			o, _ := d.Order("O-1", d.Today)
			s = o.Status
			return nil
		}); err != nil {
			t.Fatal(err)
		}
		return s
	}
	if s := status(); s != orders.Open {
		t.Error(s)
	}
	late := said(7)
	late.Body = record.Picked{Order: "O-1", Lot: "S-1", Numbers: numbers(t, "1-3")}
	if _, err := r.Enter(t.Context(), late); err != nil {
		t.Fatal(err)
	}
	if s := status(); s != orders.Picking {
		t.Error(s)
	}
	early := said(5)
	early.Body = record.Picked{Order: "O-1", Lot: "S-1", Numbers: numbers(t, "4-5")}
	if _, err := r.Enter(t.Context(), early); err != nil {
		t.Fatal(err)
	}
	if s := status(); s != orders.Ready {
		t.Error(s)
	}
}
