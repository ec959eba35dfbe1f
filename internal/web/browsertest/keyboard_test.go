package browsertest

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// watchTabs keeps which controls a page shows, and looks at each that the Tab key comes to. Of choices of which one holds, one is a stop.
const watchTabs = `window.tabbing = (() => {
	const shown = e => e.checkVisibility({visibilityProperty: true}) && !e.closest('[inert]');
	const named = e => e.tagName.toLowerCase() + (e.id ? '#' + e.id : '') + ' ' + (e.getAttribute('aria-label') || e.name || e.textContent).trim().replace(/\s+/g, ' ').slice(0, 40);
	const one = e => e.type !== 'radio' || !e.name ? e : (e.closest('form') || document).querySelector('input[name="' + CSS.escape(e.name) + '"]:checked') || (e.closest('form') || document).querySelector('input[name="' + CSS.escape(e.name) + '"]');
	const controls = [...new Set([...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex]')].filter(e => shown(e) && !e.disabled && e.tabIndex >= 0).map(one))];
	const reached = new Set();
	const ringed = e => { const s = getComputedStyle(e); return s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 2 && !/, 0\)$|transparent/.test(s.outlineColor) };
	const seen = e => { // some point of it is on the screen, and nothing lies over that point
		const b = e.getBoundingClientRect(), w = innerWidth, h = innerHeight;
		const left = Math.max(b.left, 0), right = Math.min(b.right, w), top = Math.max(b.top, 0), bottom = Math.min(b.bottom, h);
		if (left >= right || top >= bottom) return 'is off the screen';
		for (const x of [0.5, 0.05, 0.95]) for (const y of [0.5, 0.1, 0.9]) {
			const at = document.elementFromPoint(left + x * (right - left), top + y * (bottom - top));
			if (at && (e.contains(at) || at.contains(e) && at.closest('a, button, label, summary') || e.labels && [...e.labels].some(l => l.contains(at)))) return '';
		}
		return 'is covered';
	};
	return {
		controls: controls.length,
		missed: () => controls.filter(e => shown(e) && !reached.has(e)).map(named),
		look: () => {
			const e = document.activeElement;
			if (!e || e === document.body || e.matches('.skip') && reached.size > 1) return 'out';
			if (reached.has(e)) return '';
			reached.add(e);
			const ring = [e, e.nextElementSibling, e.closest('label'), e.parentElement].find(x => x && ringed(x));
			if (!ring) return named(e) + ' has no outline';
			const hidden = seen(ring);
			return hidden && named(e) + ' ' + hidden;
		},
	};
})()`

// headings are the levels of the headings that a page shows, in their order.
const headings = `[...document.querySelectorAll('h1, h2, h3, h4, h5, h6')].filter(e => e.checkVisibility()).map(e => +e.tagName[1])`

// Without a finger or a mouse: the first stop leads to the content, every control is come to and is seen when it is, and the keys lead out again.
func TestByKeysAlone(t *testing.T) {
	d := serveBoard(t, "07:10")
	base := strings.TrimSuffix(d.url, "/board/"+boardRun)
	for _, s := range []screen{tablet, {name: "narrow", width: 390, height: 844}} { // as narrow as a page enlarged on a tablet
		for _, where := range []struct {
			name, path string
		}{{"home", "/"}, {"run", "/run/small-friday"}, {"board", "/board/" + boardRun + "?person="}, {"form", "/book/ingredients/cheddar"}, {"dish", "/dish/bean-pot"}} {
			t.Run(where.name+"-"+s.name, func(t *testing.T) {
				p := signed(t, s, d, "?person=")
				p.do(chromedp.Navigate(base + where.path))
				p.skips()
				p.do(chromedp.Navigate(base + where.path))
				p.tabsThrough()
				p.inOrder()
				p.quiet()
			})
		}
	}
}

// skips wants the first stop to be the link to the content, and the stop after following it to be there.
func (p *tab) skips() {
	p.t.Helper()
	p.do(chromedp.KeyEvent(kb.Tab))
	if !eval[bool](p, `document.activeElement.matches('a.skip') && document.activeElement.getBoundingClientRect().left >= 0`) {
		p.t.Errorf("the first stop is %s", eval[string](p, `document.activeElement.outerHTML.slice(0, 80)`))
		return
	}
	p.do(chromedp.KeyEvent(kb.Enter), chromedp.KeyEvent(kb.Tab))
	if !eval[bool](p, `document.activeElement.closest('main') !== null`) {
		p.t.Errorf("past the link to the content one is at %s", eval[string](p, `document.activeElement.outerHTML.slice(0, 80)`))
	}
}

// tabsThrough presses Tab until it leads out of the page. A field for a day or a time is one control of several stops.
func (p *tab) tabsThrough() {
	p.t.Helper()
	p.do(chromedp.Evaluate[chromedp.Void](watchTabs))
	controls := eval[int](p, `tabbing.controls`)
	stops, most := 0, controls+20
	for ; stops < most; stops++ {
		p.do(chromedp.KeyEvent(kb.Tab))
		wrong := eval[string](p, `tabbing.look()`)
		if wrong == "out" {
			break
		}
		if wrong != "" {
			p.t.Error(wrong)
		}
	}
	if stops == most {
		p.t.Errorf("%d stops and not out of a page of %d controls; one is at %s", stops, controls, eval[string](p, `document.activeElement.outerHTML.slice(0, 80)`))
	}
	if missed := eval[[]string](p, `tabbing.missed()`); len(missed) > 0 {
		p.t.Errorf("not come to: %q", missed)
	}
	p.t.Logf("%d controls in %d stops", controls, stops)
}

// inOrder wants one heading of the first level, and none that skips a level below the one before it.
func (p *tab) inOrder() {
	p.t.Helper()
	levels := eval[[]int](p, headings)
	first := 0
	for i, level := range levels {
		if level == 1 {
			first++
		}
		if i > 0 && level > levels[i-1]+1 {
			p.t.Errorf("a heading of level %d follows one of level %d: %v", level, levels[i-1], levels)
		}
	}
	if first != 1 {
		p.t.Errorf("%d headings of the first level: %v", first, levels)
	}
}
