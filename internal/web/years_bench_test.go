package web_test

import (
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/history"
	"kettlefrost/internal/kitchen/kitchentest"
	"kettlefrost/internal/web"
)

// BenchmarkPagesOfYears asks a server of the demo book with three years of records for its pages, by HTTP over a connection that is kept, each time
// about another lot. An opened production is among them.
func BenchmarkPagesOfYears(b *testing.B) {
	h, err := history.Make(history.ThreeYears, 1)
	if err != nil {
		b.Fatal(err)
	}
	now := func() time.Time { return time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC) }
	records, err := app.OpenRecords(b.Context(), filepath.Join(b.TempDir(), "kitchen.records"), now)
	if err != nil {
		b.Fatal(err)
	}
	defer records.Close()
	lines, err := h.Lines()
	if err != nil {
		b.Fatal(err)
	}
	if _, err := records.Import(b.Context(), bytes.NewReader(lines)); err != nil {
		b.Fatal(err)
	}
	house, err := app.New(kitchentest.Without(demo.Book(), "safety.yaml"), now)
	if err != nil {
		b.Fatal(err)
	}
	house.Follow(records)
	opened, err := app.NewBoards(records, house).Opening(b.Context(), "tuesday", "2026-12-01", "tuesday")
	if err != nil {
		b.Fatal(err)
	}
	if _, err := records.Enter(b.Context(), app.Said{Who: "nora", Device: "tablet", At: now(), Body: opened}); err != nil {
		b.Fatal(err)
	}
	server := httptest.NewServer(web.New(house, web.Options{Records: records}))
	defer server.Close()
	random := rand.New(rand.NewPCG(1, 1))
	for _, page := range []struct {
		name string
		path func() string
	}{
		{"board", func() string { return "/board/tuesday" }},
		{"stock", func() string { return "/stock" }},
		{"place", func() string { return "/stock/place?place=" + url.QueryEscape("chest-1/shelf 2") }},
		{"lot-of-packs", func() string { return "/lot?lot=" + lot(h.Packs[random.IntN(len(h.Packs))].Lot) }},
		{"lot-of-goods", func() string { return "/lot?lot=" + lot(h.Bulk[random.IntN(len(h.Bulk))].Lot) }},
		{"recall", func() string { return "/recall?lot=" + lot(h.Bulk[random.IntN(len(h.Bulk))].Lot) }},
		{"orders", func() string { return "/orders" }},
		{"pick", func() string { return "/pick/2026-12-01" }},
		{"customer", func() string { return fmt.Sprintf("/customer/customer-%02d", random.IntN(60)) }},
		{"bills", func() string { return "/bills" }},
		{"run", func() string { return "/run/tuesday" }},
	} {
		b.Run(page.name, func(b *testing.B) {
			var times []time.Duration
			size := 0
			ask(b, server.URL+page.path()) // what is worked out once is worked out
			for b.Loop() {
				path := page.path()
				begin := time.Now()
				size = max(size, ask(b, server.URL+path))
				times = append(times, time.Since(begin))
			}
			slices.Sort(times)
			for _, p := range []int{50, 95} {
				b.ReportMetric(float64(times[min(len(times)-1, len(times)*p/100)])/float64(time.Millisecond), fmt.Sprintf("p%d-ms", p))
			}
			b.ReportMetric(float64(size)/1000, "kB-at-most")
		})
	}
}

func lot[T ~string](id T) string { return url.QueryEscape(string(id)) }

// ask gets a page, and tells how long it is.
func ask(b *testing.B, address string) int {
	b.Helper()
	r, err := http.Get(address)
	if err != nil {
		b.Fatal(err)
	}
	defer r.Body.Close()
	n, err := io.Copy(io.Discard, r.Body)
	if err != nil || r.StatusCode != http.StatusOK {
		b.Fatalf("%s: %s, %v", address, r.Status, err)
	}
	return int(n)
}
