package browsertest

import (
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/web"
)

// serveJudged starts the demo kitchen with a run that was packed and of whose cooling nothing was written down.
func serveJudged(t *testing.T) string {
	t.Helper()
	now := func() time.Time { return time.Date(2026, 12, 1, 18, 0, 0, 0, time.UTC) }
	house, err := app.New(demo.Book(), now)
	if err != nil {
		t.Fatal(err)
	}
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	house.Follow(records)
	numbers, err := record.ParseNumbers("1-40")
	if err != nil {
		t.Fatal(err)
	}
	for _, body := range []record.Body{record.Opened{Run: "lentils", Request: "kettle", Day: "2026-12-01", Plan: record.Hash{1}},
		record.Packed{Run: "lentils", Pack: "lentil-squash-lb", Lot: "P-1", Numbers: numbers, Label: unit.Pound, Mass: 40 * unit.Pound, From: []record.Part{{Lot: "B-1", Mass: 40 * unit.Pound}}, BestBefore: "2027-06-01", Place: "chest-1"}} {
		if _, err := records.Enter(t.Context(), app.Said{Who: "Nora", Device: "tablet", At: now(), Body: body}); err != nil {
			t.Fatal(err)
		}
	}
	server := httptest.NewServer(web.New(house, web.Options{Records: records}))
	t.Cleanup(server.Close)
	return server.URL
}

// The pages of critical records fit every screen, and their buttons meet a finger.
func TestCriticalRecordsOnScreens(t *testing.T) {
	base := serveJudged(t)
	for name, path := range map[string]string{"safety": "/safety", "safety-run": "/safety/run?run=lentils", "safety-stage": "/safety/stage?point=" + url.QueryEscape("lentils/lentil-squash/soup-chill/1/cooling")} {
		t.Run(name, func(t *testing.T) {
			p := open(t, tablet)
			p.do(chromedp.Navigate(base + path))
			p.quiet()
			p.onScreens(name)
		})
	}
}
