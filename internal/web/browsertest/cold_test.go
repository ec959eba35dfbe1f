package browsertest

import (
	"fmt"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/web"
)

// scanned types into the field that has the cursor, as a scanner does, with Enter behind it, and waits for the page that comes.
func (p *tab) scanned(text string) {
	p.t.Helper()
	p.do(until(`document.activeElement?.matches('.scan input')`))
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.KeyEvent(text+kb.Enter)))
}

// sent presses something and waits for the page that comes.
func (p *tab) sent(selector string) {
	p.t.Helper()
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Click(chromedp.CSS(selector))))
}

func (p *tab) chosen(id, option string) {
	p.t.Helper()
	p.do(chromedp.SetValue(chromedp.ID(id), option))
}

func (p *tab) has(texts ...string) {
	p.t.Helper()
	all := strings.ReplaceAll(eval[string](p, `document.body.innerText`), "\u00a0", " ")
	for _, text := range texts {
		if !strings.Contains(all, text) {
			p.t.Errorf("the page does not say %q; it says %.1500s", text, all)
		}
	}
}

// Goods come, packs are moved one scan after the other, and stock is taken by scanning, with a bad scan and a reload between.
func TestReceiveMoveTakeStock(t *testing.T) {
	house, err := app.New(demo.Book(), func() time.Time { return time.Date(2026, 12, 2, 9, 0, 0, 0, time.UTC) })
	if err != nil {
		t.Fatal(err)
	}
	records := diary(t)
	server := httptest.NewServer(web.New(house, web.Options{Records: records}))
	t.Cleanup(server.Close)
	p := open(t, tablet)

	p.do(chromedp.Navigate(server.URL + "/receive"))
	retype(p, "f-supplier", "hillside")
	p.chosen("f-ingredient-0", "carrot")
	retype(p, "f-count-0", "2")
	retype(p, "f-each-0", "25")
	retype(p, "f-door-0", "48")
	p.chosen("f-place-0", "walk-in/left")
	lot := value(p, chromedp.Value(chromedp.ID("f-lot-0")))
	p.sent(".receive button[type=submit]") // too warm
	p.has("It came at 48 °F, and the limit at the door for chilled food is 41 °F")
	if got := value(p, chromedp.Value(chromedp.ID("f-each-0"))); got != "25" {
		t.Errorf("what was typed is now %q", got)
	}
	p.shoot("cold-too-warm")
	p.chosen("f-decide-0", "hold")
	p.sent(".receive button[type=submit]")
	retype(p, "who", "Ada") // nobody said yet who acts here
	p.sent("form.targets button[type=submit]")
	p.has("Entered", lot, "HELD")
	p.shoot("cold-tub-labels")

	p.do(chromedp.Navigate(server.URL + "/stock"))
	p.scanned(lot)
	p.has(lot, "HELD", "walk-in")
	p.do(chromedp.Navigate(server.URL + "/stock/handle?do=move&to=upright%2Fshelf-1"))
	p.scanned("P-soup#13")
	p.has("moved 1 pack (no. 13) of P-soup to upright/shelf-1")
	p.scanned("p-soup #14-15")
	p.has("moved 2 packs (no. 14-15) of P-soup to upright/shelf-1")
	p.scanned("P-soup#14") // a second time
	p.has("There already: pack 14")
	p.scanned("P-soup#99")
	p.has("Lot P-soup has no pack 99")

	p.do(chromedp.Navigate(server.URL + "/stock/count?place=upright%2Fshelf-1"))
	p.scanned("P-soup#13")
	p.scanned("P-soup#15")
	p.has("2 packs found, the records say 3", "1 pack missing")
	p.scanned("P-soup#15")
	p.has("Pack 15 of lot P-soup found before", "2 packs found, the records say 3")
	p.do(chromedp.Navigate(server.URL + "/stock/count"))
	p.do(until(`document.querySelector('[data-go-on] a')?.href.includes('P-soup')`)) // the device kept it
	p.sent("[data-go-on] a")
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Reload()))
	p.has("2 packs found, the records say 3")
	p.shoot("cold-count")
	p.sent("main form[method=post] button[type=submit]")
	p.has("Stock taken", "1 pack missing", "missing no. 14")
	err = records.Lots(t.Context(), func(s *lots.State, _ finding.List) error {
		soup := s.Lot("P-soup")
		if got := fmt.Sprint(soup.Here["upright/shelf-1"].Numbers, " ", soup.Missing); got != "13, 15 14" {
			t.Errorf("there and missing: %s", got)
		}
		if !s.Lot(record.Lot(lot)).Held() {
			t.Error("the warm carrots are not held")
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
