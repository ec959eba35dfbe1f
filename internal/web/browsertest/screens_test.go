package browsertest

import (
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// complains are the pages of which the browser itself says something: one that is not found, one that refuses what was asked.
var complains = map[string]bool{"missing": true, "weights": true}

// Every page on every screen: no complaint in the console (a style or script that the content security policy refuses would be
// one), nothing to the side of the screen, type of 16 px or more, things to press that a finger meets, nothing that the checker of
// accessibility finds, no more over the line than a page may weigh, and nothing from elsewhere.
func TestPagesOnScreens(t *testing.T) {
	base := serve(t)
	for _, where := range paths {
		t.Run(where.name, func(t *testing.T) {
			p := open(t, tablet)
			x := p.listen()
			p.do(chromedp.Navigate(base + where.path))
			if !complains[where.name] {
				p.quiet()
			}
			weight := p.light(x, base)
			t.Logf("%.0f kB", weight/1000)
			p.onScreens(where.name)
			if !complains[where.name] {
				p.quiet()
			}
		})
	}
}

// onScreens looks at the page that is open on one screen after the other, as if the device were turned and the lamp put out: it is loaded once.
func (p *tab) onScreens(name string) {
	p.t.Helper()
	for _, s := range screens {
		p.turn(s)
		p.legible(s, s.name)
		switch s.name {
		case tablet.name:
			p.accessible(s.name, allChecks)
		case tabletDark.name:
			p.accessible(s.name, colourChecks)
		case phone.name:
			p.accessible(s.name, narrowChecks)
		}
		p.shoot(s.name + "-" + name)
	}
}

// legible fails if something is wider than the screen, too small to read or too small to press.
func (p *tab) legible(s screen, where string) {
	p.t.Helper()
	if wide := eval[int64](p, `document.documentElement.scrollWidth`); wide > s.width {
		p.t.Errorf("%s: the page is %d px wide on a screen of %d px; wider than it: %s", where, wide, s.width, eval[string](p, tooWide))
	}
	if small := eval[[]string](p, smallType); len(small) > 0 {
		p.t.Errorf("%s: type below 16 px: %q", where, small)
	}
	if small := eval[[]string](p, smallTargets); len(small) > 0 {
		p.t.Errorf("%s: less than 48 px to press: %q", where, small)
	}
}

// turn makes the tab another screen without loading the page again.
func (p *tab) turn(s screen) {
	p.t.Helper()
	p.do(emulate(s))
	scheme := "light"
	if s.dark {
		scheme = "dark"
	}
	call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}, {Name: "prefers-reduced-motion", Value: "reduce"}}})
}
