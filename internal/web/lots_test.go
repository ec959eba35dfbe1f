package web

import (
	"net/http"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// recordsOf are records on a disk with these bodies in them, a minute apart, as Ada told them; the nth has the id of the number n.
func recordsOf(t testing.TB, bodies ...record.Body) *app.Records {
	t.Helper()
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), someDay)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	for i, b := range bodies {
		if _, err := records.Enter(t.Context(), app.Said{ID: record.ID{byte(i + 1)}, Who: "Ada", Device: "tablet", At: someDay().Add(time.Duration(i) * time.Minute), Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	return records
}

func numbersOf(t testing.TB, text string) record.Numbers {
	t.Helper()
	n, err := record.ParseNumbers(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// soupDiary is invented: carrots into a soup, packed, some packs sold and one of them sold again; a hostile name among them.
func soupDiary(t testing.TB) *app.Records {
	return recordsOf(t,
		record.Received{Lot: "R-carrot", Ingredient: "carrot", Supplier: `<b>farm</b>`, SupplierLot: "77", Mass: 20 * unit.Kilogram, Place: "walk-in", UseBy: "2026-12-09"},
		record.Used{Run: "tue", Dish: "soup", Lot: "R-carrot", Mass: 16 * unit.Kilogram},
		record.Made{Run: "tue", Dish: "soup", Output: "soup", Lot: "M-soup", Mass: 26 * unit.Kilogram},
		record.Packed{Run: "tue", Pack: "soup-650", Lot: "P-soup", Numbers: numbersOf(t, "1-39"), Label: 650 * unit.Gram, Mass: 25_500 * unit.Gram, From: []record.Part{{Lot: "M-soup", Mass: 25_500 * unit.Gram}}, BestBefore: "2027-06-01", Place: "chest-1"},
		record.HandedOver{Customer: "cafe", Lot: "P-soup", Numbers: numbersOf(t, "1-12")},
		record.HandedOver{Customer: "bar", Lot: "P-soup", Numbers: numbersOf(t, "12")},
		record.Held{Lot: "P-soup", Numbers: numbersOf(t, "30-39"), Why: "cooled slowly"},
		record.Counted{Lot: "P-soup", Place: "chest-1", Numbers: numbersOf(t, "13-38")},
	)
}

func TestStockLotsAndRecalls(t *testing.T) {
	h := New(&shelf{now: monthBefore()}, Options{Records: soupDiary(t)})
	for _, c := range []struct {
		target string
		status int
		has    []string
	}{
		{"/stock", 200, []string{"What does not fit", "handed over before", "R-carrot", "walk-in", "2026-12-09", "26 packs", "13-38", "packs 30-38", `href="/lot?lot=P-soup"`, `aria-current="page">Stock`}},
		{"/lot?lot=R-carrot", 200, []string{"goods, carrot, from &lt;b&gt;farm&lt;/b&gt;, their lot 77, use by 2026-12-09", "16\u00a0kg", "Unaccounted", "P-soup", "15.7\u00a0kg", `href="/recall?lot=R-carrot"`}},
		{"/lot?lot=P-soup&units=us", 200, []string{"HELD", "<b>packs 30-39</b>: cooled slowly", "R-carrot", `href="/lot?lot=R-carrot&amp;units=us"`, "handed over before"}},
		{"/lot?lot=+R-none+", 404, []string{"No entry names a lot “R-none”", "Look up a lot"}},
		{"/lot", 404, []string{"Look up a lot"}},
		{"/recall?lot=R-carrot", 200, []string{"97.44 %", "38 of 39 packs", "NOT EVERY PACK IS ACCOUNTED FOR", "no place is known of no. 39", "two places are told of no. 12", "<h3>cafe", "<h3>bar", "doubted", "chest-1", "1-12", "M-soup"}},
		{"/recall?lot=R-none", 404, []string{"No entry names"}},
	} {
		w := get(h, c.target)
		if w.Code != c.status {
			t.Errorf("%s: status %d, want %d", c.target, w.Code, c.status)
		}
		for _, want := range c.has {
			if !strings.Contains(w.Body.String(), want) {
				t.Errorf("%s does not have %q", c.target, want)
			}
		}
	}
	closed := soupDiary(t)
	if err := closed.Close(); err != nil {
		t.Fatal(err)
	}
	for says, records := range map[string]*app.Records{"No records are kept here": nil, "is closed": closed} {
		w := get(New(&shelf{now: monthBefore()}, Options{Records: records}), "/stock")
		if !strings.Contains(w.Body.String(), says) || records != nil && w.Code != http.StatusInternalServerError {
			t.Errorf("status %d, without %q", w.Code, says)
		}
	}
}
