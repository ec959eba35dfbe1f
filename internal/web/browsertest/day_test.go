package browsertest

import (
	"net/http/httptest"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/web"
)

// Without JavaScript the form of the day leads to the day timed again, at an address that can be kept.
func TestTheDayHasChanged(t *testing.T) {
	p := open(t, tablet)
	call(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	p.do(chromedp.Navigate(serve(t) + "/run/small-friday/day"))
	p.do(chromedp.Click(chromedp.CSS("details.change summary")))
	p.do(chromedp.SetAttributeValue(chromedp.CSS(".change [name=now]"), "value", "09:00"))
	p.do(chromedp.SetAttributeValue(chromedp.CSS(".change [name=gone] option[value=sam]"), "selected", ""))
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Click(chromedp.CSS(".change button"))))
	if got := value(p, chromedp.Text(chromedp.CSS("#moved-h"))); !strings.HasPrefix(got, "Changed at 09:00") {
		t.Errorf("the page says %q", got)
	}
	if got := value(p, chromedp.Text(chromedp.CSS("#now .outlook h3 small"))); got != "from 09:00 on" {
		t.Errorf("what comes next is told %q", got)
	}
	p.quiet()
}

// While a run is on, what comes next follows the clock without the rest of the page being loaded again.
func TestNextFollowsTheClock(t *testing.T) {
	var minute atomic.Int64
	house, err := app.New(demo.Book(), func() time.Time { return time.Date(2026, 12, 1, 11, int(minute.Load()), 0, 0, time.UTC) })
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(web.New(house, web.Options{}))
	t.Cleanup(server.Close)
	p := open(t, tablet)
	p.do(chromedp.Navigate(server.URL + "/run/tuesday"))
	const told = `document.querySelector('#next .outlook h3 small').textContent`
	if got := eval[string](p, told); got != "from 11:00 on" {
		t.Fatalf("the page starts %q", got)
	}
	minute.Store(7)
	p.do(chromedp.Evaluate[chromedp.Void](`{ const old = document.getElementById('next'), hurried = old.cloneNode(true); hurried.setAttribute('hx-trigger', 'every 1s'); old.replaceWith(hurried); htmx.process(hurried) }`)) // a minute is long for a test
	p.do(until(told + ` === 'from 11:07 on'`))
	p.quiet()
}
