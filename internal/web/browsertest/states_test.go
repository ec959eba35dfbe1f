package browsertest

import (
	"fmt"
	"testing"

	"github.com/chromedp/chromedp"
)

// held are the screens on which a page in a state of its own is held to what every page is held to: on a table and in a hand.
var held = []screen{tablet, phone}

// in loads a page on each screen, brings it into a state, and holds it in that state to what every page is held to.
func in(t *testing.T, name, address string, bring func(*tab)) {
	t.Helper()
	for _, s := range held {
		t.Run(name+"-"+s.name, func(t *testing.T) {
			p := open(t, s)
			p.do(chromedp.Navigate(address))
			bring(p)
			fits(p, s)
			p.shoot(s.name + "-state-" + name)
		})
	}
}

// opened wants something that is open to stand on the screen: within its sides, and of a size to read.
func opened(p *tab, selector string) {
	p.t.Helper()
	p.do(until(fmt.Sprintf(`document.querySelector(%q) !== null`, selector)))
	if box := eval[string](p, fmt.Sprintf(`(() => { const b = document.querySelector(%q).getBoundingClientRect();
		return b.left >= 0 && b.right <= innerWidth && b.top >= 0 && b.bottom <= innerHeight && b.width > 200 && b.height > 100 ? '' : JSON.stringify(b) })()`, selector)); box != "" {
		p.t.Errorf("%s reaches beyond the screen, or is too small: %s", selector, box)
	}
}

// What opens over a page: the list of places on a telephone, what a figure is, and the sheet of keys.
func TestWhatOpensOverAPage(t *testing.T) {
	base := serve(t)
	t.Run("places", func(t *testing.T) { // wide screens have them in sight
		p := open(t, phone)
		p.do(chromedp.Navigate(base+"/week"), chromedp.Tap(chromedp.CSS(".menu")))
		opened(p, "#pages:popover-open")
		fits(p, phone)
	})
	in(t, "figure", base+"/run/small-friday", func(p *tab) {
		p.do(chromedp.Click(chromedp.CSS("#made-h a.explain")))
		opened(p, "dialog.whybox[open]:has(h2)")
	})
	in(t, "keys", base+"/run/small-friday", func(p *tab) {
		p.key("?")
		opened(p, "#keysheet[open]")
	})
}

// A kitchen that has nothing yet: what would be long lists says what to do first.
func TestAKitchenThatHasNothingOnScreens(t *testing.T) {
	base := serveKept(t, true)
	for name, path := range map[string]string{"home": "/", "start": "/start", "book": "/book", "stock": "/stock", "orders": "/orders", "boards": "/board"} {
		in(t, "nothing-"+name, base+path, func(p *tab) {
			p.quiet()
			if eval[int](p, `document.querySelectorAll('main a, main form').length`) == 0 {
				p.t.Error("nothing leads on")
			}
		})
	}
}

// A page that a packer may not see says so, and leads on.
func TestADeniedPageOnScreens(t *testing.T) {
	base, _ := staffed(t)
	p := open(t, tablet)
	p.signIn(base, "Ada Miller", adasPassword)
	p.do(chromedp.Navigate(base+"/person?as=pat"), chromedp.SendKeys(chromedp.ID("pin"), patsPIN))
	p.press(".pin button[type=submit]")
	for _, path := range []string{"/people", "/bills"} {
		for _, s := range held {
			p.turn(s)
			p.do(chromedp.Navigate(base + path))
			p.has("Pat")
			if eval[int](p, `document.querySelectorAll('main .problem ~ p a.button').length`) == 0 {
				t.Errorf("%s leads nowhere from its refusal", path)
			}
			if status := eval[int](p, `performance.getEntriesByType('navigation')[0].responseStatus`); status != 403 {
				t.Errorf("%s answers %d to a packer, want 403", path, status)
			}
			fits(p, s)
		}
	}
	p.turn(tablet)
}

// A form of the book that was sent with mistakes: each is told beside its field, and the field says that it is wrong.
func TestABookFormWithProblemsOnScreens(t *testing.T) {
	base, _ := bureau(t)
	in(t, "problems", base+"/book/ingredients/cheddar", func(p *tab) {
		retype(p, "f_trim", "a lot")
		retype(p, "f_buy_0__pack", "5")
		save(p)
		named(p, ".again.stop[role=alert]")
		p.do(until(`document.querySelectorAll('[aria-invalid=true]').length >= 2`))
		if lost := eval[[]string](p, `[...document.querySelectorAll('[aria-invalid=true]')].filter(e => !(e.getAttribute('aria-describedby') || '').split(' ').some(id => document.getElementById(id)?.textContent.trim())).map(e => e.id)`); len(lost) > 0 {
			p.t.Errorf("fields that are wrong and do not say why: %q", lost)
		}
	})
}
