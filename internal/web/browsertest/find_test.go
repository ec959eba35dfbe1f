package browsertest

import (
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// The key / puts the cursor into the box, where / is then a letter like others; what a scanner types while no field has the cursor leads to
// the lot.
func TestFindingByTheKeyboard(t *testing.T) {
	base := serve(t)
	p := open(t, screens[0])
	p.do(chromedp.Navigate(base + "/book"))
	// the remote control sends a key and the letter it makes apart from each other; only a key pressed on the page takes its letter back
	if left := eval[bool](p, `document.body.dispatchEvent(new KeyboardEvent('keydown', {key: '/', bubbles: true, cancelable: true}))`); left {
		t.Error("the / is typed as well")
	}
	if at := eval[string](p, `document.activeElement.id`); at != "find" {
		t.Fatalf("the cursor is in %q", at)
	}
	p.do(chromedp.KeyEvent("chedar/"))
	if typed := eval[string](p, `document.getElementById('find').value`); typed != "chedar/" {
		t.Errorf("%q was typed", typed)
	}
	p.do(chromedp.KeyEvent(kb.Enter), chromedp.WaitVisible(`.foundtally`))
	if first := eval[string](p, `document.querySelector('.foundrows b').textContent`); !strings.Contains(strings.ToLower(first), "cheddar") {
		t.Errorf("the first is %q", first)
	}
	p.do(chromedp.Navigate(base + "/book"))
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.KeyEvent("(10)P-soup(21)13"+kb.Enter)))
	if at := eval[string](p, `location.pathname + location.search`); at != "/lot?lot=P-soup%2313" {
		t.Errorf("a scan leads to %s", at)
	}
	p.quiet()
}
