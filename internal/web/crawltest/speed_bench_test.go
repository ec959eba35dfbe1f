package crawltest

import (
	"bytes"
	"fmt"
	"maps"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"text/tabwriter"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/history"
	"kettlefrost/internal/web"
)

// BenchmarkEveryPage asks for every page of the demo kitchen, and of one with three invented years of records, and prints how long the server
// takes: half of the answers and nineteen of twenty are faster. Nothing is asserted: a machine that does much else is slower.
func BenchmarkEveryPage(b *testing.B) {
	now := time.Date(2026, 12, 1, 9, 30, 0, 0, time.UTC)
	for _, kitchen := range []struct {
		name string
		tell func(*testing.B, *app.Records)
	}{{"demo", func(*testing.B, *app.Records) {}}, {"three years", tellYears}} {
		b.Run(kitchen.name, func(b *testing.B) {
			clock := func() time.Time { return now }
			records, err := app.OpenRecords(b.Context(), filepath.Join(b.TempDir(), "kitchen.records"), clock)
			if err != nil {
				b.Fatal(err)
			}
			defer records.Close()
			kitchen.tell(b, records)
			house, err := app.New(demo.Book(), clock)
			if err != nil {
				b.Fatal(err)
			}
			house.Follow(records)
			pages := web.New(house, web.Options{Records: records})
			for b.Loop() {
				table(b, pages)
			}
		})
	}
}

func tellYears(b *testing.B, records *app.Records) {
	h, err := history.Make(history.ThreeYears, 1)
	if err != nil {
		b.Fatal(err)
	}
	lines, err := h.Lines()
	if err != nil {
		b.Fatal(err)
	}
	if _, err := records.Import(b.Context(), bytes.NewReader(lines)); err != nil {
		b.Fatal(err)
	}
}

// pagesAsked are the pages that every kitchen has, besides those that are looked at in a browser.
var pagesAsked = []string{"/orders", "/pick/today", "/customers", "/bills", "/next-run", "/safety", "/cooling", "/freezers/watch", "/thermometers", "/office", "/book/files", "/workshop/trials", "/workshop/learned", "/people", "/heat"}

func table(b *testing.B, pages http.Handler) {
	const asked = 20
	paths := slices.Clone(pagesAsked)
	for _, text := range textsIn(variable(b, parsed(b, "../browsertest/*_test.go"), "paths")) {
		if strings.HasPrefix(text, "/") {
			paths = append(paths, text)
		}
	}
	took := map[string][]time.Duration{} // the first answer of each, and the sorted others
	for _, p := range paths {
		for range asked + 1 {
			r := httptest.NewRequest(http.MethodGet, p, nil)
			r.Host = "localhost:8090"
			began := time.Now()
			pages.ServeHTTP(httptest.NewRecorder(), r)
			took[p] = append(took[p], time.Since(began))
			if len(took[p]) > 3 && took[p][0] > 5*time.Second {
				break
			}
		}
		slices.Sort(took[p][1:])
	}
	at := func(p string, percent int) time.Duration {
		later := took[p][1:]
		return later[min(len(later)-1, len(later)*percent/100)]
	}
	w := tabwriter.NewWriter(os.Stderr, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(w, "page\tfirst\tp50\tp95\t")
	for _, p := range slices.SortedFunc(maps.Keys(took), func(x, y string) int { return int(at(y, 95) - at(x, 95)) }) {
		fmt.Fprintf(w, "%s\t%v\t%v\t%v\t\n", p, took[p][0].Round(time.Millisecond/10), at(p, 50).Round(time.Millisecond/10), at(p, 95).Round(time.Millisecond/10))
	}
	w.Flush()
}
