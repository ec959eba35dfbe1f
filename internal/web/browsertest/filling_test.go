package browsertest

import (
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// fillingSays is what stands in the big figures of a page of check-weights.
const fillingSays = `[...document.querySelectorAll('.head dd .fig')].map(e => e.textContent.trim()).join(' | ')`

// From the kitchen's page to a pack that nobody has weighed; weights are pasted, and read without JavaScript. The nets are 460 but for the
// last, of 430, which is short of the pound by more than the 20.0 g that count.
func TestCheckWeightsWithoutJavaScript(t *testing.T) {
	p := open(t, phone)
	call(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	p.do(chromedp.Navigate(serve(t) + "/week"))
	follow := func(selector string) {
		t.Helper()
		value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Click(chromedp.CSS(selector))))
	}
	follow(`nav a[href="/filling"]`)
	follow(`a[href="/filling/tomato-fennel-lb"]`)
	if text := value(p, chromedp.Text(chromedp.CSS("main"))); !strings.Contains(text, "first belief") || count(p, ".chart svg") != 0 {
		t.Error("a pack that nobody has weighed has a chart, or does not say that its figures are a belief")
	}
	p.do(chromedp.Click(chromedp.CSS("#weighed > summary")))
	p.do(chromedp.SendKeys(chromedp.ID("tare"), "11 11"), chromedp.SendKeys(chromedp.ID("gross"), "471, 471, 471 g; 471\n471\n471 471 471 471 471 471 441"), chromedp.SendKeys(chromedp.ID("f-lot"), "150"))
	follow("#targets button")
	text := value(p, chromedp.Text(chromedp.CSS("main")))
	for _, want := range []string{"■ fails", "too many packs are short", "nothing is stored", "packs 12", "Fill next time to"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if typed := value(p, chromedp.Value(chromedp.ID("gross"))); !strings.HasPrefix(typed, "471, 471, 471 g; 471\n471") {
		t.Errorf("the weights became %q", typed)
	}
	p.quiet()
	if at := goBack(p); !strings.HasSuffix(at, "/filling/tomato-fennel-lb") {
		t.Errorf("the way back led to %s", at)
	}
}

// With it, the answer follows as soon as a field is left; a slip is told beside its field and everything typed stays.
func TestCheckWeightsFollow(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(serve(t) + "/filling/ale-cheddar-lb?lot=150"))
	before := eval[string](p, fillingSays)
	p.do(chromedp.Focus(chromedp.ID("tare")), chromedp.SendKeys(chromedp.ID("tare"), "11, 11"), chromedp.SendKeys(chromedp.ID("gross"), "471 471 471 471 471 471 471 471 471 471 471 471"), chromedp.KeyEvent(kb.Tab))
	p.do(until(fillingSays + ` !== ` + "`" + before + "`" + ` && document.querySelectorAll('.chart svg').length === 2`))
	if got := eval[string](p, fillingSays); !strings.HasPrefix(got, "● passes") {
		t.Errorf("the answer is %q", got)
	}
	if got := eval[string](p, `new URL(location).searchParams.get('tare')`); got != "11, 11" {
		t.Errorf("the address says %q: a reload would lose the weights", got)
	}
	p.quiet()
	p.do(chromedp.SendKeys(chromedp.ID("gross"), " heavy"), chromedp.KeyEvent(kb.Tab))
	p.do(chromedp.WaitVisible(chromedp.ID("gross-problem")))
	if got := value(p, chromedp.Value(chromedp.ID("gross"))); !strings.HasSuffix(got, " heavy") {
		t.Errorf("the field holds %q, want what was typed", got)
	}
}
