package browsertest

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// A supplier rings: their lot is looked up, a drill is begun, all that is on hand is held with one button, and the clock runs until it is ended.
func TestARecallFromTheTelephone(t *testing.T) {
	p := open(t, tablet)
	base := serve(t)
	p.do(chromedp.Navigate(base + "/recall/drills"))
	retype(p, chromedp.ID("f-supplier"), "FARM")
	retype(p, chromedp.ID("f-supplier-lot"), "7-7")
	p.press(".lotask button")
	p.do(chromedp.SendKeys(chromedp.ID("who"), "Ada")) // nobody has said so far
	p.press("main button")
	p.do(until(`document.querySelector('[data-began]')?.textContent.includes(' s')`))
	if got := eval[string](p, `document.querySelector('h1').textContent`); !strings.Contains(got, "supplier FARM, their lot 7-7") {
		t.Errorf("the page is of %q", got)
	}
	if got := eval[string](p, `document.querySelector('.head dd .fig').textContent`); got != "100.00 %" {
		t.Errorf("%q is accounted for", got)
	}
	if got := eval[int64](p, `document.querySelectorAll('article.tell').length`); got != 2 {
		t.Errorf("%d customers to tell, want the café and the bar, who are both told to have got no. 12", got)
	}
	p.do(until(`document.querySelector('.tracing img').naturalWidth > 500`))
	p.shoot("recall-running")
	p.press(".hold button")
	if got := eval[bool](p, `document.querySelector('.hold') === null && document.body.textContent.includes('All that is on hand is held')`); !got {
		t.Error("not everything on hand is held")
	}
	if got := eval[string](p, `document.querySelector('.did').textContent`); !strings.Contains(got, "held all of R-carrot: recall: supplier FARM") {
		t.Errorf("what was entered reads %q", got)
	}
	p.do(chromedp.SendKeys(chromedp.ID("note"), "the bar was told twice"))
	p.press(".drill button")
	p.do(chromedp.Navigate(base + "/recall/drills"))
	row := eval[string](p, `document.querySelector('tbody tr').textContent`)
	for _, want := range []string{"FAILED", "39 of 39", "102.56 %", "the bar was told twice", "practice", "Ada"} {
		if !strings.Contains(row, want) {
			t.Errorf("the list does not say %q: %s", want, row)
		}
	}
	p.shoot("drills-done")
}

// On paper every customer has a page, and there is nothing to press.
func TestTheRecallOnPaper(t *testing.T) {
	p := open(t, screen{name: "paper", width: 720, height: 1000})
	p.do(chromedp.Navigate(serve(t) + "/recall/report?lot=R-carrot"))
	call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	for _, gone := range []string{".top", ".links"} {
		if got := eval[string](p, fmt.Sprintf(`getComputedStyle(document.querySelector(%q)).display`, gone)); got != "none" {
			t.Errorf("%s is printed (display %s)", gone, got)
		}
	}
	if got := eval[string](p, `[...document.querySelectorAll('.customer')].map(e => getComputedStyle(e).breakBefore).join(' ')`); got != "page page" {
		t.Errorf("the customers' pages begin with %q", got)
	}
	if wide := eval[int64](p, `document.documentElement.scrollWidth`); wide > 720 {
		t.Errorf("the print is %d px wide on paper of 720 px: %s", wide, eval[string](p, tooWide))
	}
	p.shoot("recall-paper")
}
