package browsertest

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// laptop is what stands in the office.
var laptop = screen{name: "laptop", width: 1440, height: 900}

// The whole way, at a desk and in a hand: a run is planned from the home page and kept, its board opened, a task begun, a temperature entered, and
// the task done. Every page on the way is held to what every page is held to.
func TestFromHomeToATaskThatIsDone(t *testing.T) {
	for _, s := range []screen{laptop, phone} {
		t.Run(s.name, func(t *testing.T) {
			base, _ := shownDemo(t)
			p := open(t, s)
			stop := 0
			look := func(what string) {
				t.Helper()
				stop++
				fits(p, s)
				p.shoot(fmt.Sprintf("way-%s-%d-%s", s.name, stop, what))
			}
			p.do(chromedp.Navigate(base+"/start"), chromedp.SendKeys(chromedp.CSS(`#way-demo ~ form input[name="who"]`), "Ada"))
			p.follow(`#way-demo ~ form button`)
			p.do(chromedp.Navigate(base + "/"))
			p.do(chromedp.Click(chromedp.CSS(`.stepper[data-by="10"] button:last-child`)))
			look("home")
			p.follow(`#planform .go`)
			p.has("This run is not in the book yet")
			look("plan")
			p.follow(`#keep .go`)
			p.has("Kept: this run is in the book")
			run := strings.TrimPrefix(eval[string](p, `location.pathname`), "/run/")
			look("kept")
			if s.mobile {
				p.do(chromedp.Tap(chromedp.CSS(".menu")))
			}
			p.follow(`#pages a[href="/board"]`)
			p.do(chromedp.SetValue(chromedp.CSS(`#open [name="run"]`), run))
			look("boards")
			p.follow(`#open button[type=submit]`)
			p.do(until(`document.querySelector('.board') !== null`))
			p.do(until(`!document.querySelector('[data-stale]')`))
			task := eval[[]string](p, starts)[0]
			job := fmt.Sprintf(`.job[data-task="%s"]`, task)
			p.do(chromedp.Click(chromedp.CSS(job + " .touch.start")))
			p.do(until(showsAs(task, "finish")), until(`kettlefrostWaiting() === 0`))
			look("board")
			p.follow(job + " a.name")
			p.do(chromedp.Click(chromedp.CSS(`details:has(#form-measure) > summary`)))
			p.do(chromedp.SendKeys(chromedp.CSS(`#form-measure [name="temp"]`), "165"))
			look("task")
			p.do(chromedp.Click(chromedp.CSS(`#form-measure button[type=submit]`)))
			arrives(p, `document.querySelector('main').innerText.replaceAll('\u00a0', ' ').includes('165 °F') && kettlefrostWaiting() === 0`)
			look("measured")
			p.do(chromedp.Click(chromedp.CSS(job + " .touch.finish")))
			arrives(p, `kettlefrostWaiting() === 0 && document.querySelector('#went .nothing') !== null && !document.querySelector('`+job+` .touch.finish')`)
			look("done")
			p.quiet()
		})
	}
}
