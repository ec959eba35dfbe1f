package browsertest

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

const (
	bigTime  = `document.querySelector('.big').textContent.replaceAll('\u00a0', ' ')`
	sizeText = `document.querySelector('.size input').value`
)

// heatQuestions are what the page is looked at with.
var heatQuestions = []struct{ name, path string }{
	{"cool", "/heat"}, {"freeze", "/heat?process=freeze&units=metric"}, {"reheat", "/heat?process=reheat&bag=1/2+in"},
	{"pot", "/heat?process=cool&pot=12+in+x+10+in&stir=thick&in=ice-bath-still"}, {"wrong", "/heat?to=soon&food=chickn+soop&pan=2"},
}

// heatTargets finds what can be pressed on the page and is lower or narrower than 48 px. Its own box counts, or its label's.
const heatTargets = `[...document.querySelectorAll('.press, .nudge, .tickbox, select, #slide, .bench input[type=text], .bench button, .bench .button, .bench summary, .unitswitch button')]
	.filter(e => e.getClientRects().length).filter(e => { const b = e.getBoundingClientRect(); return b.height < 47.5 || b.width < 47.5 })
	.slice(0, 5).map(e => e.tagName + '.' + e.className + ' ' + e.textContent.trim().slice(0, 30) + ' ' + e.getBoundingClientRect().height)`

func TestHeatOnScreens(t *testing.T) {
	base := serve(t)
	for _, q := range heatQuestions {
		t.Run(q.name, func(t *testing.T) {
			p := open(t, tablet)
			p.do(chromedp.Navigate(base + q.path))
			if q.name != "wrong" { // the browser itself reports a page that is refused
				p.quiet()
			}
			p.do(chromedp.Evaluate[chromedp.Void](`document.querySelectorAll('details').forEach(d => { d.open = true })`))
			p.onScreens("heat-" + q.name) // the last is a telephone
			if small := eval[[]string](p, heatTargets); len(small) > 0 {
				t.Errorf("less than 48 px to press: %q", small)
			}
		})
	}
}

// On a tablet, and on a telephone without its page head, time, curve and slider are seen together.
func TestHeatIsSeenWithItsSlider(t *testing.T) {
	base := serve(t)
	for _, s := range []screen{tablet, tabletUpright, phone} {
		p := open(t, s)
		p.do(chromedp.Navigate(base + "/heat"))
		span := eval[float64](p, `document.querySelector('#slide').getBoundingClientRect().bottom - document.querySelector('.say').getBoundingClientRect().top`)
		if span > float64(s.height) {
			t.Errorf("%s: %g px from the answer's top to the slider's bottom, on a screen of %d px", s.name, span, s.height)
		}
	}
}

// dragged moves the slider by the mouse, in steps, and lets go.
func dragged(p *tab, share float64) {
	p.t.Helper()
	box := eval[[]float64](p, `(() => { const s = document.querySelector('#slide'); s.scrollIntoView({block: 'center', behavior: 'instant'}); const b = s.getBoundingClientRect();
		const at = b.left + 24 + (b.width - 48) * (s.value - s.min) / (s.max - s.min); return [at, b.top + b.height / 2, b.left + 24, b.width - 48] })()`)
	p.do(chromedp.DragAndDropXY(box[0], box[1], box[2]+box[3]*share, box[1], 30))
}

func TestTheCurveFollowsTheSlider(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(serve(t) + "/heat?pan=2+in"))
	eval[bool](p, `window.stayed = true`)
	before := eval[string](p, bigTime)
	curve := eval[string](p, `document.querySelector('.wide svg').outerHTML`)
	dragged(p, 0.9)
	p.do(until(bigTime+` !== `+fmt.Sprintf("%q", before)), until(sizeText+` !== '2 in'`), until(`!document.querySelector('.htmx-request')`))
	if !eval[bool](p, `window.stayed === true`) {
		t.Error("the page was loaded anew")
	}
	if eval[string](p, `document.querySelector('.wide svg').outerHTML`) == curve {
		t.Error("the curve is the same as before")
	}
	p.do(until(`new URL(location).searchParams.get('pan') === ` + sizeText))
	text, stands := eval[string](p, sizeText), eval[string](p, `document.querySelector('#slide').getAttribute('aria-valuetext')`)
	if !strings.HasSuffix(text, " in") || text != stands || eval[float64](p, `+document.querySelector('#slide').value`) < 40 {
		t.Errorf("the text says %q, the slider %q at %v eighths", text, stands, eval[float64](p, `+document.querySelector('#slide').value`))
	}
	p.quiet()
}

// The text moves the slider as the slider moves the text, in any unit.
func TestTheSliderFollowsTheText(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(serve(t) + "/heat?pan=2+in"))
	dragged(p, 0.5)
	p.do(until(sizeText + ` !== '2 in'`))
	retype(p, "h-pan", "76.2 mm")
	p.do(until(`document.querySelector('#slide').value === '24'`)) // 3 in
	if got := eval[string](p, sizeText); got != "76.2 mm" {
		t.Errorf("the text is %q, want what was typed", got)
	}
	if got := eval[string](p, `document.activeElement.id`); got != "h-pan" {
		t.Errorf("the cursor went to %q", got)
	}
	p.do(chromedp.Click(chromedp.ID("more")), until(sizeText+` === '3 1/8 in'`), until(`document.querySelector('#slide').value === '25'`))
	p.quiet()
}

// From key to key without a mouse: each control is reached, and arrows on the slider move the answer.
func TestHeatByKeyboard(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(serve(t) + "/heat?pan=2+in"))
	var reached []string
	for range 40 {
		p.do(chromedp.KeyEvent(kb.Tab))
		reached = append(reached, eval[string](p, `document.activeElement.id || document.activeElement.textContent.trim()`))
	}
	all := strings.Join(reached, "|")
	for _, want := range []string{"h-pan", "less", "slide", "more", "process-cool", "shape-pan", "h-from", "h-to", "h-in-cool-pan", "h-at", "h-food", "Work it out"} {
		if !strings.Contains("|"+all+"|", "|"+want+"|") {
			t.Errorf("%s is not reached by the tab key: %s", want, all)
		}
	}
	before := eval[string](p, bigTime)
	p.do(chromedp.Focus(chromedp.ID("slide")), chromedp.KeyEvent(kb.ArrowRight), chromedp.KeyEvent(kb.ArrowRight))
	p.do(until(sizeText+` === '2 1/4 in'`), until(bigTime+` !== `+fmt.Sprintf("%q", before)))
	p.do(chromedp.Focus(chromedp.ID("process-cool")), chromedp.KeyEvent(kb.ArrowRight))
	p.do(until(`document.querySelector('#h-to').value === '1.4 °F'`)) // -17 °C, a degree above the freezer's usual air
	if got := eval[string](p, `document.activeElement.id`); got != "process-freeze" {
		t.Errorf("the focus went to %q", got)
	}
	p.quiet()
}

// What no longer fits another process is set back, in lists as in texts, also after they were touched.
func TestAnotherProcess(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(serve(t) + "/heat?pan=2+in"))
	choose := func(id, value string) {
		p.do(chromedp.Evaluate[chromedp.Void](fmt.Sprintf(`(() => { const s = document.getElementById(%q); s.value = %q; s.dispatchEvent(new Event('change', {bubbles: true})) })()`, id, value)))
	}
	choose("h-in-cool-pan", "ice-bath-still")
	p.do(until(`new URL(location).searchParams.get('in') === 'ice-bath-still'`))
	retype(p, "h-at", "36 °F")
	p.do(until(`new URL(location).searchParams.get('at') === '36 °F'`))
	p.do(chromedp.Click(chromedp.CSS(`label:has(#process-freeze)`)))
	p.do(until(`document.querySelector('#h-in-freeze-pan')?.value === 'freezer-air'`))
	if got := eval[string](p, `document.querySelector('#h-at').value`); got != "" {
		t.Errorf("the ice bath's temperature %q stays for the freezer", got)
	}
	if got := eval[string](p, sizeText); got != "2 in" {
		t.Errorf("the pan is %q now", got)
	}
	p.quiet()
}

func TestABadHeatTextStaysAsTyped(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(serve(t) + "/heat?pan=2+in"))
	retype(p, "h-from", "boiling")
	p.do(chromedp.WaitVisible(chromedp.ID("h-from-problem")))
	if got := value(p, chromedp.Value(chromedp.ID("h-from"))); got != "boiling" {
		t.Errorf("the field holds %q, want what was typed", got)
	}
	retype(p, "h-from", "180 °F")
	p.do(until(`!document.querySelector('.problem') && !!document.querySelector('.big')`))
}

// Without JavaScript the button does the same.
func TestHeatWithoutJavaScript(t *testing.T) {
	p := open(t, tablet)
	call(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	p.do(chromedp.Navigate(serve(t) + "/heat?pan=2+in"))
	before := value(p, chromedp.Text(chromedp.CSS(".big")))
	p.do(chromedp.SetAttributeValue(chromedp.ID("slide"), "value", "32"))
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Click(chromedp.CSS(".ask button"))))
	if got := value(p, chromedp.Text(chromedp.CSS(".big"))); got == before {
		t.Errorf("the time is still %q", got)
	}
	if got := value(p, chromedp.Value(chromedp.ID("h-pan"))); got != "4 in" {
		t.Errorf("the text says %q, want 4 in", got)
	}
	p.quiet()
}

func TestHeatPrint(t *testing.T) {
	p := open(t, screen{name: "paper", width: 720, height: 1000, dark: true})
	p.do(chromedp.Navigate(serve(t) + "/heat"))
	call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	for _, gone := range []string{".top", ".dial", ".ask", ".links"} {
		if got := eval[string](p, fmt.Sprintf(`getComputedStyle(document.querySelector(%q)).display`, gone)); got != "none" {
			t.Errorf("%s is printed (display %s)", gone, got)
		}
	}
	if wide := eval[int64](p, `document.documentElement.scrollWidth`); wide > 720 {
		t.Errorf("the print is %d px wide on paper of 720 px: %s", wide, eval[string](p, tooWide))
	}
	p.shoot("heat-print")
}
