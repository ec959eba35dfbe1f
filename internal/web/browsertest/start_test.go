package browsertest

import (
	"net/http/httptest"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/web"
)

// shownDemo serves the demo over fresh records, as the program does at its first start.
func shownDemo(t *testing.T) (string, *app.App) {
	t.Helper()
	clock := func() time.Time { return time.Date(2026, 11, 26, 12, 0, 0, 0, time.UTC) }
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	house, err := app.New(demo.Book(), clock)
	if err != nil {
		t.Fatal(err)
	}
	house.Follow(records)
	house.UntilOwn()
	server := httptest.NewServer(web.New(house, web.Options{Records: records}))
	t.Cleanup(server.Close)
	return server.URL, house
}

// From the first start on the demo to a run that is planned, kept and retired, by what a finger does; the actions are counted.
func TestFromHomeToAKeptRun(t *testing.T) {
	base, house := shownDemo(t)
	p := open(t, tablet)
	p.do(chromedp.Navigate(base+"/start"), chromedp.SendKeys(chromedp.CSS(`#way-demo ~ form input[name="who"]`), "Ada"))
	p.follow(`#way-demo ~ form button`)
	if !house.InRecords() || !house.Demo() {
		t.Fatal("the demo is not in the records")
	}
	p.do(chromedp.Navigate(base + "/"))
	began := time.Now()
	actions := 0
	tap := func(selector string) {
		actions++
		p.do(chromedp.Click(chromedp.CSS(selector)))
	}
	send := func(selector string) {
		actions++
		p.follow(selector)
	}
	const more = `.stepper[data-by="10"] button:last-child`
	tap(more)
	tap(more)
	send(`#planform .go`)
	p.has("This run is not in the book yet", "What will be made")
	t.Logf("from home to a plan: %d taps, %.1f s with the planning", actions, time.Since(began).Seconds())
	if actions > 4 {
		t.Errorf("%d taps to a plan", actions)
	}
	send(`#keep .go`)
	p.has("Kept: this run is in the book")
	book, _ := house.Book()
	runs := len(book.Runs)
	tap(`details#keep > summary`)
	tap(`#keep .keeprun details > summary`)
	send(`#keep .keeprun details form button`)
	p.has("is out of the book")
	if book, _ := house.Book(); len(book.Runs) != runs-1 {
		t.Errorf("%d runs after retiring one of %d", len(book.Runs), runs)
	}
}

// An empty kitchen begins without the program being started anew, and leads to the first dish.
func TestAnEmptyKitchenBeginsInTheBrowser(t *testing.T) {
	base, house := shownDemo(t)
	p := open(t, tablet)
	p.do(chromedp.Navigate(base + "/"))
	p.follow(`a[href="/start#way-own"]`)
	p.do(chromedp.SendKeys(chromedp.CSS(`#way-own ~ form input[name="who"]`), "Ada"), chromedp.SendKeys(chromedp.ID("f-kitchen"), "Leek & Co <b>"))
	p.follow(`#way-own ~ form .go`)
	p.do(chromedp.Navigate(base + "/"))
	p.has("Leek & Co <b>", "No dishes yet")
	if book, _ := house.Book(); book.Kitchen.Name != "Leek & Co <b>" {
		t.Errorf("%q is in use", book.Kitchen.Name)
	}
}
