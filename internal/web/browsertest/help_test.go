package browsertest

import (
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// What a figure is opens over the page by the keyboard, is read, and Escape leads back to where one was; so does "Close".
func TestAFigureIsExplainedInPlace(t *testing.T) {
	p := open(t, screens[0])
	p.do(chromedp.Navigate(serve(t) + "/run/small-friday"))
	const link = `#made-h a.explain`
	for _, close := range []string{kb.Escape, kb.Enter} { // the cursor is on "Close"
		p.do(chromedp.Focus(chromedp.CSS(link)), chromedp.KeyEvent(kb.Enter))
		p.do(until(`document.querySelector('dialog.whybox[open] h2') !== null`))
		if title := eval[string](p, `document.querySelector('dialog.whybox h2').textContent`); title != "How packs are counted" {
			t.Errorf("it explains %q", title)
		}
		if formula := eval[string](p, `document.querySelector('dialog.whybox .formula').textContent`); formula != "N = floor(M / m)" {
			t.Errorf("the formula is %q", formula)
		}
		p.do(chromedp.KeyEvent(close), until(`document.querySelector('dialog.whybox[open]') === null`))
		if back := eval[bool](p, `document.activeElement === document.querySelector('#made-h a.explain')`); !back {
			t.Error("the cursor did not go back to where it was")
		}
	}
	if at := eval[string](p, `location.pathname`); at != "/run/small-friday" {
		t.Errorf("the page went to %s", at)
	}
	if width, height := eval[float64](p, `document.querySelector('#made-h a.explain').getBoundingClientRect().width`), eval[float64](p, `document.querySelector('#made-h a.explain').getBoundingClientRect().height`); width < 48 || height < 48 {
		t.Errorf("it is %g by %g px to press", width, height)
	}
	p.quiet()
}

// On a telephone it fits, and everything of it can be reached.
func TestAFigureIsExplainedOnATelephone(t *testing.T) {
	p := open(t, screen{name: "phone", width: 390, height: 700})
	p.do(chromedp.Navigate(serve(t) + "/run/small-friday/chill"))
	p.do(chromedp.Click(chromedp.CSS(".whys a.explain")), until(`document.querySelector('dialog.whybox[open] h2') !== null`))
	if fits := eval[bool](p, `(() => { const b = document.querySelector('dialog.whybox').getBoundingClientRect(); return b.left >= 0 && b.right <= innerWidth && b.top >= 0 && b.bottom <= innerHeight })()`); !fits {
		t.Error("it reaches beyond the screen")
	}
	if wide := eval[bool](p, `document.querySelector('dialog.whybox').scrollWidth > document.querySelector('dialog.whybox').clientWidth + 1`); wide {
		t.Error("it is wider than its box")
	}
	p.shoot("help-phone")
	p.do(chromedp.Click(chromedp.CSS("dialog.whybox .whyclose button")), until(`document.querySelector('dialog.whybox[open]') === null`))
	p.quiet()
}

// Without JavaScript the sign leads to the page of the help.
func TestAFigureIsExplainedWithoutJavaScript(t *testing.T) {
	p := open(t, tablet)
	call(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	p.do(chromedp.Navigate(serve(t) + "/run/small-friday"))
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Click(chromedp.CSS("#made-h a.explain"))))
	if title := value(p, chromedp.Text(chromedp.CSS("h1"))); title != "How packs are counted" {
		t.Errorf("it leads to %q", title)
	}
	p.quiet()
}

// The first three tasks of the tutorial tick themselves off, done as the page says.
func TestTheTutorialTicksItselfOff(t *testing.T) {
	base := serve(t)
	p := open(t, tablet)
	p.do(chromedp.Navigate(base + "/tutorial"))
	const done = `document.querySelectorAll('.tour li.done').length`
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Click(chromedp.CSS(`.tourdo button`))))
	before := eval[int](p, done) // what these records already tell of
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Click(chromedp.CSS(`.tour li.now a.button`))))
	p.do(chromedp.Click(chromedp.CSS("#wanted > summary")))
	retype(p, chromedp.ID("f-count-ale-cheddar-lb"), "120")
	p.do(until(`new URL(location).searchParams.get('count.ale-cheddar-lb') === '120'`))
	p.do(chromedp.Navigate(base + "/tutorial"))
	if got := eval[int](p, done); got != before+2 {
		t.Errorf("%d tasks are done after two, not %d", got, before+2)
	}
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Click(chromedp.CSS(`.tour li.now a.button`))))
	if at := eval[string](p, `location.pathname`); at != "/run/tuesday/buy" {
		t.Errorf("the third task leads to %s", at)
	}
	p.do(chromedp.Navigate(base + "/tutorial"))
	if got := eval[int](p, done); got != before+3 {
		t.Errorf("%d tasks are done after three, not %d", got, before+3)
	}
	p.shoot("tutorial")
	p.quiet()
}
