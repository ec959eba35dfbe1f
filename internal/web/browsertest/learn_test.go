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
	"kettlefrost/internal/learned/truth"
	"kettlefrost/internal/record"
	"kettlefrost/internal/web"
)

// sixTuesdays serves the demo kitchen, its book in the records, after six Tuesdays on which the meatballs lost more than the book has, and once
// far more.
func sixTuesdays(t *testing.T) string {
	t.Helper()
	clock := func() time.Time { return time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC) }
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	if _, err := records.ImportBook(t.Context(), demo.Book(), app.Author{Who: "Ada", Device: "office", At: clock()}); err != nil {
		t.Fatal(err)
	}
	house, err := app.New(records.Book(), clock)
	if err != nil {
		t.Fatal(err)
	}
	book, _ := house.Book()
	k := truth.New(t.Context(), book, house.Foods(), "tuesday", 1)
	for day, water := range []float64{0.16, 0.161, 0.159, 0.16, 0.162, 0.45} {
		k.True["dishes/turkey-meatballs/steps/bake/loses/water"] = water
		w := k.Work(7*day, record.Hash{})
		req := book.Runs["tuesday"]
		req.Day = string(w.Opened.Day)
		if w.Opened.Plan, err = app.PlanHash(book, req); err != nil {
			t.Fatal(err)
		}
		entries, _, err := w.Tell(uint64(day), 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			body, err := record.Decode(e.Kind, e.Body)
			if err == nil {
				_, err = records.Enter(t.Context(), app.Said{ID: e.ID, Who: e.Who, Device: e.Device, At: time.UnixMilli(int64(e.Happened)), Body: body})
			}
			if err != nil {
				t.Fatal(err)
			}
		}
	}
	server := httptest.NewServer(web.New(house, web.Options{Records: records}))
	t.Cleanup(server.Close)
	return server.URL
}

const lesson = "/workshop/learned/figure?figure="

var bakeWater = url.QueryEscape("dishes/turkey-meatballs/steps/bake/loses/water")

// An odd run is left out and the figure accepted, by touching.
func TestAFigureIsAccepted(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(sixTuesdays(t) + "/workshop/learned"))
	p.has("What runs have shown", "To decide on", "1 run lies far off")
	p.sent(`a.button[aria-label="Look at it: Water lost in cooking, Bake at 400 °F"]`)
	p.has("What happened in tuesday-2026-02-09?")
	p.shoot("lesson")
	p.do(chromedp.SendKeys(chromedp.CSS(".asked input[name=why]"), "a tray fell"))
	p.sent(".asked button[type=submit]")
	p.do(chromedp.SendKeys(chromedp.ID("who"), "Ada"))
	p.sent("form.targets button[type=submit]")
	p.has("Left out: a tray fell")
	p.sent(".decide button.go")
	p.has("Accepted: the book has it now", "Ada accepted: 14.2 % in place of 12 %, from 5 runs")
}

// These pages on every screen, as all pages are.
func TestWhatRunsHaveShownOnScreens(t *testing.T) {
	base := sixTuesdays(t)
	for name, path := range map[string]string{"learned": "/workshop/learned", "lesson": lesson + bakeWater, "lesson-stays": lesson + url.QueryEscape("dishes/ale-cheddar/steps/base/loses/evaporation"), "lesson-nothing": lesson + url.QueryEscape("packs/ale-cheddar-lb/pace")} {
		t.Run(name, func(t *testing.T) {
			p := open(t, tablet)
			p.do(chromedp.Navigate(base + path))
			p.quiet()
			p.do(chromedp.Evaluate[chromedp.Void](`document.querySelectorAll('details').forEach(d => { d.open = true })`))
			p.onScreens(name)
		})
	}
}
