package browsertest

import (
	"net/http/httptest"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen/kitchentest"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/web"
)

// shop is the demo kitchen on December 1, 2026, with customers, packs in two freezers, and orders that are under way.
func shop(t *testing.T) string {
	t.Helper()
	now := func() time.Time { return time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC) }
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	numbers := func(text string) record.Numbers {
		n, err := record.ParseNumbers(text)
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	packed := func(pack string, lot record.Lot, n int64, text string, best record.Day, place record.Place) record.Packed {
		mass := unit.Mass(n) * unit.Pound
		return record.Packed{Run: "run", Pack: pack, Lot: lot, Numbers: numbers(text), Label: unit.Pound, Mass: mass, From: []record.Part{{Lot: "M-" + lot, Mass: mass}}, BestBefore: best, Place: place}
	}
	lines := func(sauce, pot int64) []record.OrderLine {
		return []record.OrderLine{{Pack: "ale-cheddar-lb", Count: sauce}, {Pack: "lentil-squash-lb", Count: pot}}
	}
	for i, b := range []record.Body{
		record.Customer{Customer: "cafe", Name: "Café Örtlich", Address: "1 Mill Lane\nSpringfield", Phone: "555-0100", Note: "closed on Mondays"},
		record.Customer{Customer: "inn", Name: "The Long Inn at the Bridge over the Millstream", Address: "Bridge Road 7", LifeDays: 60},
		packed("ale-cheddar-lb", "P-1117-1", 20, "1-20", "2027-05-17", "chest-1/shelf 10"), packed("ale-cheddar-lb", "P-1103-1", 5, "1-5", "2026-12-20", "chest-1/shelf 2/box A"), packed("lentil-squash-lb", "P-1117-2", 30, "1-30", "2027-05-17", "chest-2/shelf 1"),
		record.Ordered{Order: "O-1", Customer: "cafe", Lines: lines(7, 2), Due: "2026-12-01", Way: record.Deliver, Note: "ring twice"},
		record.Ordered{Order: "O-2", Customer: "inn", Lines: lines(30, 1), Due: "2026-12-01", Way: record.Deliver},
		record.Ordered{Order: "O-3", Customer: "cafe", Lines: lines(1, 3), Due: "2026-12-04", Way: record.Collect, Weeks: 2},
		record.Ordered{Order: "O-4", Customer: "cafe", Lines: lines(1, 1), Due: "2026-12-01", Way: record.Deliver},
		record.Picked{Order: "O-4", Lot: "P-1117-2", Numbers: numbers("30")}, record.Picked{Order: "O-4", Lot: "P-1117-1", Numbers: numbers("20")},
		record.HandedOver{Order: "O-4", Customer: "cafe", Lot: "P-1117-1", Numbers: numbers("20"), TakenBy: "Jo", Address: "1 Mill Lane"}, record.Held{Lot: "P-1117-2", Numbers: numbers("29-30"), Why: "a burst bag"},
	} {
		if _, err := records.Enter(t.Context(), app.Said{Who: "Ada", Device: "tablet", At: now().Add(time.Duration(i-60) * time.Minute), Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	house, err := app.New(kitchentest.Without(demo.Book(), "safety.yaml"), now)
	if err != nil {
		t.Fatal(err)
	}
	house.Follow(records)
	server := httptest.NewServer(web.New(house, web.Options{Records: records}))
	t.Cleanup(server.Close)
	return server.URL
}

// orderPaths are the pages about orders.
var orderPaths = []struct{ name, path string }{
	{"list", "/orders"}, {"new", "/orders/new?customer=cafe"}, {"one", "/order/O-1"}, {"wrong", "/order/O-4"}, {"standing", "/order/O-3"}, {"delivery", "/order/O-3%2F2026-12-18"}, {"change", "/order/O-1/change"}, {"slip", "/order/O-4/slip"},
	{"pick", "/pick/today"}, {"route", "/route/today"}, {"customers", "/customers"}, {"customer", "/customer/cafe"}, {"newcustomer", "/customers/new"},
}

func TestOrderPagesOnScreens(t *testing.T) {
	base := shop(t)
	for _, where := range orderPaths {
		t.Run(where.name, func(t *testing.T) {
			p := open(t, tablet)
			p.do(chromedp.Navigate(base + where.path))
			p.quiet()
			p.do(chromedp.Evaluate[chromedp.Void](`document.querySelectorAll('details').forEach(d => { d.open = true })`))
			p.onScreens("orders-" + where.name)
		})
	}
}

// follow does something and waits for the page that it leads to.
func follow(p *tab, a chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, a))
}

// says fails unless the page says all of it.
func says(p *tab, texts ...string) {
	p.t.Helper()
	got := strings.Join(strings.Fields(value(p, chromedp.Text(chromedp.CSS("main")))), " ")
	for _, want := range texts {
		if !strings.Contains(got, want) {
			p.t.Errorf("the page does not say %q: %s", want, got)
		}
	}
}

// asBo says who it is, if this browser was not told before.
func asBo(p *tab) {
	p.t.Helper()
	if count(p, "#who") == 0 {
		return
	}
	p.do(chromedp.SendKeys(chromedp.ID("who"), "Bo"))
	follow(p, chromedp.Tap(chromedp.CSS("form.targets button")))
}

// From the form to the hand-over on a telephone, by touch.
func TestAnOrderByTouch(t *testing.T) {
	p := open(t, phone)
	p.do(chromedp.Navigate(shop(t) + "/orders"))
	follow(p, chromedp.Tap(chromedp.CSS(`a[href="/orders/new"]`)))
	p.do(chromedp.SetValue(chromedp.ID("f-customer"), "inn"), chromedp.SetValue(chromedp.ID("f-due"), "2026-12-01"), chromedp.SetValue(chromedp.ID("f-way"), "collect"),
		chromedp.SendKeys(chromedp.CSS(".orderline:has([value=lentil-squash-lb]) .howmany"), "4"))
	follow(p, chromedp.Tap(chromedp.CSS(".orderform .links button")))
	asBo(p)
	says(p, "Entered:", "order O-5", "0 of 4 packs", "chest-2/shelf 1")
	follow(p, chromedp.Tap(chromedp.CSS(".packrows button.takeit")))
	says(p, "Entered: picked 4 packs", "all set aside", "4 of 4 packs")
	follow(p, chromedp.Tap(chromedp.CSS(".did button")))
	says(p, "0 of 4 packs")
	follow(p, chromedp.Tap(chromedp.CSS(".packrows button.takeit")))
	p.do(chromedp.SendKeys(chromedp.ID("taken_by"), "the innkeeper"))
	follow(p, chromedp.Tap(chromedp.CSS("#hand button")))
	says(p, "handed over", "4 of 4 packs", "the innkeeper")
}

// A scanner types into nothing, and is understood; a pack scanned twice is told, and everything works without JavaScript, too.
func TestPickingWithAScanner(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(shop(t) + "/pick/today"))
	says(p, "1 of 42 packs") // the sauce of O-4 is gone; its pot is set aside, and held
	for _, key := range "P-1103-1#3" {
		p.do(chromedp.KeyEvent(string(key)))
	}
	if got := value(p, chromedp.Value(chromedp.ID("scan"))); got != "P-1103-1#3" {
		t.Fatalf("the scanner wrote %q", got)
	}
	follow(p, chromedp.KeyEvent(kb.Enter))
	asBo(p)
	says(p, "Entered: picked 1 pack (no. 3) of P-1103-1 for O-1")
	call(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	p.do(chromedp.SendKeys(chromedp.ID("scan"), "P-1103-1#3"))
	follow(p, chromedp.Click(chromedp.CSS(".scanner button")))
	says(p, "Pack 3 of P-1103-1 is set aside for this order already")
	p.shoot("orders-scanned-twice")
	p.do(chromedp.SetAttributeValue(chromedp.ID("scan"), "value", "P-1117-2#29"))
	follow(p, chromedp.Click(chromedp.CSS(".scanner button")))
	says(p, "Pack 29 of P-1117-2 is held: a burst bag")
}

// The stops of a day are moved by touch, and kept.
func TestStopsAreMovedByTouch(t *testing.T) {
	p := open(t, phone)
	p.do(chromedp.Navigate(shop(t) + "/route/today"))
	const stops = `[...document.querySelectorAll('[name=stop]')].map(e => e.value).join(' ') + ' / ' + [...document.querySelectorAll('[name=place]')].map(e => e.value).join(' ')`
	if got := eval[string](p, stops); got != "O-1 O-2 O-4 / 1 2 3" {
		t.Fatalf("the stops are %s", got)
	}
	p.do(chromedp.Tap(chromedp.CSS(".stops li:nth-child(3) .updown button:first-child")))
	p.do(until(stops + ` === 'O-1 O-4 O-2 / 1 2 3'`))
	follow(p, chromedp.Tap(chromedp.CSS("[data-stops] .links button")))
	asBo(p)
	if got := eval[string](p, stops); got != "O-1 O-4 O-2 / 1 2 3" {
		t.Errorf("the stops are kept as %s", got)
	}
}
