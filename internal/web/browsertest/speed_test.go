package browsertest

import (
	"flag"
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

var speed = flag.Bool("speed", false, "measure how soon pages are seen and answer a touch, on a processor a quarter as fast; prints, asserts nothing")

// slowdown is how many times slower the processor is made: a tablet of some years ago beside a computer of today.
const slowdown = 4

const (
	largestPaint = `new Promise(seen => new PerformanceObserver(list => seen(list.getEntries().at(-1).startTime)).observe({type: 'largest-contentful-paint', buffered: true}))`
	watchEvents  = `window.slowest = 0; new PerformanceObserver(list => { for (const e of list.getEntries()) if (e.interactionId) slowest = Math.max(slowest, e.duration) }).observe({type: 'event', durationThreshold: 16})`
	slowestEvent = `new Promise(done => setTimeout(() => done(slowest), 600))`
)

// TestHowSoonPagesAreSeen prints the largest contentful paint of the main pages and the slowest event of the main touches, in milliseconds; an
// event under 16 ms is told as 0.
func TestHowSoonPagesAreSeen(t *testing.T) {
	if !*speed {
		t.Skip("a measurement: run with -speed on a machine that does nothing else")
	}
	d := serveBoard(t, "07:10")
	base := strings.TrimSuffix(d.url, "/board/"+boardRun)
	p := signed(t, tablet, d, "?person=")
	call(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: watchEvents})
	call(p, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: slowdown})
	measure := func(expression string) float64 {
		t.Helper()
		return value(p, chromedp.Evaluate[float64](expression, chromedp.EvalAwaitPromise))
	}
	for _, path := range []string{"/", "/run/tuesday", "/run/tuesday/day", "/run/tuesday/cook", "/run/tuesday/money", "/board/" + boardRun, "/stock", "/orders", "/find?q=pot", "/book", "/heat", "/safety"} {
		p.do(chromedp.Navigate(base + path)) // what is worked out once is worked out
		p.do(chromedp.Navigate(base + path))
		t.Logf("largest paint %6.0f ms  %s", measure(largestPaint), path)
	}
	touch := func(what, path string, do func()) {
		t.Helper()
		p.do(chromedp.Navigate(base + path))
		do()
		t.Logf("slowest event %6.0f ms  %s", measure(slowestEvent), what)
	}
	touch("a count is changed", "/run/small-friday", func() {
		p.do(chromedp.Click(chromedp.CSS("#wanted > summary")))
		retype(p, chromedp.ID("f-count-bean-pot-2lb"), "20")
		p.do(until(packs + ` === '44'`))
	})
	touch("start is touched on the board", "/board/"+boardRun+"?person=", func() {
		p.do(until(`!document.querySelector('[data-stale]')`))
		task := eval[[]string](p, starts)[0]
		p.do(chromedp.Click(chromedp.CSS(fmt.Sprintf(`.job[data-task="%s"] .touch`, task))))
	})
	touch("a word is typed to find", "/stock", func() { p.do(chromedp.SendKeys(chromedp.ID("find"), "bean pot")) })
}
