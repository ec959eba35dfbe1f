package browsertest

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

// another opens a tab of another browser: nothing is shared with the others, cookies least of all.
func another(t *testing.T, s screen) *tab {
	t.Helper()
	return openIn(t, s, chromedp.WithNewBrowserContext())
}

// Two devices on one board: a touch on both at once starts the task once, is told on both, and what one finishes the other sees finished.
func TestTwoDevicesOnOneBoard(t *testing.T) {
	d := serveBoard(t, "07:10")
	var tabs []*tab
	for i, who := range []string{"Nora", "Sam"} {
		p := another(t, []screen{tablet, phone}[i])
		call(p, network.SetCookie, network.SetCookieParams{Name: "kettlefrost-who", Value: who, URL: d.url})
		p.do(chromedp.Navigate(d.url + "?person="))
		p.do(until(`!document.querySelector('[data-stale]')`))
		p.do(until(`document.getElementById('line').textContent.includes('all sent')`))
		tabs = append(tabs, p)
	}
	task := eval[[]string](tabs[0], starts)[0]
	var both sync.WaitGroup
	for _, p := range tabs {
		both.Go(func() {
			if err := chromedp.Do(p.ctx, until(press(task)+` || true`)); err != nil {
				t.Error(err)
			}
		})
	}
	both.Wait()
	for _, p := range tabs {
		p.do(until(`kettlefrostWaiting() === 0`), until(showsAs(task, "finish")))
	}
	for _, p := range tabs { // both entries are kept, as both said so; the task is under way once, and whoever looks is told
		p.do(until(`document.body.textContent.includes('had started')`))
		if n := eval[int](p, fmt.Sprintf(`document.querySelectorAll('.job[data-task="%s"] .touch.finish').length`, task)); n != 1 {
			t.Errorf("%s is shown under way %d times", task, n)
		}
	}
	if got := d.tasks(t, "started"); !slices.Equal(got, []string{task, task}) {
		t.Errorf("started on both at once: %q, want %q by each", got, task)
	}
	tabs[1].do(until(press(task) + ` || true`))
	tabs[0].do(until(fmt.Sprintf(`document.querySelector('.job[data-task="%s"]') === null`, task)))
}

// slow is a line as at the back of a cold store: 400 ms there and back, 50 kB a second.
func (p *tab) slow() {
	p.t.Helper()
	call(p, network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{
		MatchedNetworkConditions: []*network.Conditions{{Latency: 400, DownloadThroughput: 50_000, UploadThroughput: 50_000}}})
}

// On a slow line a form can be filled in, and a finger that presses twice because nothing seems to happen enters one customer.
func TestASlowLine(t *testing.T) {
	d := serveBoard(t, "07:10")
	base := strings.TrimSuffix(d.url, "/board/"+boardRun)
	p := another(t, phone)
	call(p, network.SetCookie, network.SetCookieParams{Name: "kettlefrost-who", Value: "Nora", URL: base})
	p.slow()
	p.do(chromedp.Navigate(base + "/customers/new"))
	p.do(chromedp.SendKeys(chromedp.CSS(`main input[name=name]`), "Corner Deli"))
	p.do(chromedp.Evaluate[chromedp.Void](`for (const ms of [20, 120]) setTimeout(() => document.querySelector('main form[method=post] button[type=submit]').click(), ms)`))
	for strings.HasSuffix(value(p, chromedp.Location()), "/customers/new") {
		p.do(chromedp.Sleep(50 * time.Millisecond))
	}
	p.do(chromedp.WaitReady(chromedp.CSS("main")))
	p.has("Corner Deli")
	if kind := eval[string](p, `location.pathname`); !strings.HasPrefix(kind, "/customer") {
		t.Errorf("the form led to %s", kind)
	}
	p.do(chromedp.Navigate(base + "/customers"))
	if n := eval[int](p, `[...document.querySelectorAll('main a')].filter(a => a.textContent.includes('Corner Deli')).length`); n != 1 {
		t.Errorf("%d customers of that name, want one: %s", n, eval[string](p, `document.querySelector('main').innerText`))
	}
}
