package browsertest

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

const (
	pressed     = `document.querySelector('#unitswitch [aria-pressed="true"]').value`
	firstWeight = `document.querySelector('.head dd .fig').closest('dl').querySelector('.fig small').closest('.fig').textContent`
)

// goes does something that leads to another page, and waits for it.
func (p *tab) goes(step chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, step))
}

// The units are switched on a run's page: it stays, with its query; the button for the page before leads back, and shows the units that the
// device has by now.
func TestSwitchingUnitsOnARun(t *testing.T) {
	base := serve(t)
	p := open(t, tablet)
	p.do(chromedp.Navigate(base + "/week"))
	p.do(chromedp.Navigate(base + "/run/small-friday?count.bean-pot-2lb=20"))
	before := eval[string](p, firstWeight)
	if eval[string](p, pressed) != "us" || !strings.Contains(before, "lb (") {
		t.Fatalf("the page begins with %q", before)
	}
	p.goes(chromedp.Click(chromedp.CSS(`#unitswitch [value="metric"]`)))
	if at := eval[string](p, `location.pathname + location.search`); at != "/run/small-friday?count.bean-pot-2lb=20" {
		t.Errorf("the switch leads to %s", at)
	}
	if after := eval[string](p, firstWeight); eval[string](p, pressed) != "metric" || !strings.Contains(after, "kg (") {
		t.Errorf("after the switch it is %q", after)
	}
	p.do(chromedp.Evaluate[chromedp.Void](`setTimeout(() => history.back(), 10)`), chromedp.Sleep(time.Second))
	p.do(until(`document.readyState === 'complete' && ['/week', '/run/small-friday'].includes(location.pathname) && document.querySelector('#unitswitch [aria-pressed="true"]')?.value === 'metric'`))
	p.quiet()
}

// What was typed and not sent is there after the switch; a number alone keeps the unit that stood beside it.
func TestSwitchingUnitsKeepsWhatWasTyped(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(serve(t) + "/cool?of=bean-pot/pot&much=30+gal"))
	retype(p, chromedp.ID("much"), "12 gal")
	p.goes(chromedp.Click(chromedp.CSS(`#unitswitch [value="metric"]`)))
	p.do(until(`document.querySelector('main input[name="much"]').value === '12 gal'`))
	if got := eval[string](p, pressed); got != "metric" {
		t.Errorf("the switch stands at %s", got)
	}
	p.quiet()
}

// High contrast is taken from the device without a choice, and by a choice without the device.
func TestHighContrast(t *testing.T) {
	base := serve(t)
	const ground = `getComputedStyle(document.body).backgroundColor + ' ' + getComputedStyle(document.body).color`
	p := open(t, tabletDark)
	p.do(chromedp.Navigate(base + "/run/small-friday"))
	if got := eval[string](p, ground); got == "rgb(0, 0, 0) rgb(255, 255, 255)" {
		t.Fatal("it is there before it is asked for")
	}
	call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-contrast", Value: "more"}, {Name: "prefers-color-scheme", Value: "dark"}}})
	if got := eval[string](p, ground); got != "rgb(0, 0, 0) rgb(255, 255, 255)" {
		t.Errorf("the device asks for more contrast: %s", got)
	}
	call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-contrast", Value: "no-preference"}, {Name: "prefers-color-scheme", Value: "dark"}}})
	p.do(chromedp.Navigate(base + "/device?back=/run/small-friday"))
	p.do(chromedp.Click(chromedp.CSS(`[name="contrast"][value="high"]`)), chromedp.Click(chromedp.CSS(`[name="scheme"][value="light"]`)))
	p.goes(chromedp.Click(chromedp.CSS(`.devicebox [type="submit"]`)))
	if at := eval[string](p, `location.pathname`); at != "/run/small-friday" {
		t.Errorf("the choice leads to %s", at)
	}
	if got := eval[string](p, ground); got != "rgb(255, 255, 255) rgb(0, 0, 0)" {
		t.Errorf("chosen light and high: %s", got)
	}
	p.quiet()
	p.shoot("high-contrast")
}

// The largest type on the narrowest screen: nothing lies beside it.
func TestLargestTypeOnAPhone(t *testing.T) {
	base := serve(t)
	p := open(t, phone)
	p.do(chromedp.Navigate(base+"/device"), chromedp.Click(chromedp.CSS(`[name="type"][value="largest"]`)))
	p.goes(chromedp.Click(chromedp.CSS(`.devicebox [type="submit"]`)))
	for _, path := range []string{"/", "/run/tuesday", "/run/tuesday/cook", "/board", "/stock", "/orders", "/find", "/device", "/device/keys", "/look"} {
		p.do(chromedp.Navigate(base + path))
		if size := eval[float64](p, `parseFloat(getComputedStyle(document.querySelector('main')).fontSize)`); size < 26 {
			t.Errorf("%s: the type is %.1f px", path, size)
		}
		if wide := eval[int64](p, `document.documentElement.scrollWidth`); wide > phone.width {
			t.Errorf("%s is %d px wide on a screen of %d px: %s", path, wide, phone.width, eval[string](p, strings.ReplaceAll(tooWide, "innerWidth", fmt.Sprint(phone.width))))
		}
		p.shoot("largest" + strings.ReplaceAll(path, "/", "-"))
	}
}

// key presses a key on the page, and waits until no scanner can be meant.
func (p *tab) key(k string) {
	p.t.Helper()
	p.do(chromedp.Evaluate[chromedp.Void](fmt.Sprintf(`document.activeElement.dispatchEvent(new KeyboardEvent('keydown', {key: %q, bubbles: true, cancelable: true}))`, k)), chromedp.Sleep(150*time.Millisecond))
}

func TestKeys(t *testing.T) {
	base := serve(t)
	p := open(t, tablet)
	at := func() string { return eval[string](p, `location.pathname`) }
	p.do(chromedp.Navigate(base + "/run/small-friday"))
	p.key("?")
	p.do(until(`document.getElementById('keysheet').open`))
	p.key("n") // the sheet is open: nothing happens behind it
	if at() != "/run/small-friday" {
		t.Errorf("a key behind the sheet leads to %s", at())
	}
	p.do(chromedp.Click(chromedp.CSS(`#keysheet form button`)))
	p.do(until(`!document.getElementById('keysheet').open`))
	p.do(chromedp.Evaluate[chromedp.Void](`document.getElementById('find').focus()`))
	p.key("g")
	p.key("b")
	if at() != "/run/small-friday" {
		t.Errorf("keys that are typed lead to %s", at())
	}
	p.do(chromedp.Evaluate[chromedp.Void](`document.activeElement.blur()`))
	p.do(chromedp.Evaluate[chromedp.Void](`for (const key of ['g', 'b']) document.body.dispatchEvent(new KeyboardEvent('keydown', {key, bubbles: true}))`), chromedp.Sleep(200*time.Millisecond))
	if at() != "/run/small-friday" {
		t.Errorf("what a scanner types leads to %s", at())
	}
	p.key("n")
	p.do(until(`location.pathname === '/run/small-friday/findings' && document.readyState === 'complete'`))
	p.key("g")
	p.key("s")
	p.do(until(`location.pathname === '/stock' && document.readyState === 'complete'`))
	p.quiet()
	p.do(chromedp.Navigate(base + "/device?back=/week"))
	p.do(chromedp.Click(chromedp.CSS(`[name="keys"][value="off"]`)))
	p.goes(chromedp.Click(chromedp.CSS(`.devicebox [type="submit"]`)))
	for _, k := range []string{"g", "b", "/", "?"} {
		p.key(k)
	}
	if at() != "/week" || eval[string](p, `document.activeElement.id`) == "find" {
		t.Error("keys that are turned off do something")
	}
}

// What was looked at last stands on the home page and where nothing is looked for yet; it can be forgotten.
func TestRecents(t *testing.T) {
	base := serve(t)
	p := open(t, tablet)
	p.do(chromedp.Navigate(base+"/find"), chromedp.Evaluate[chromedp.Void](`localStorage.clear()`), chromedp.Navigate(base+"/find"))
	if eval[bool](p, `document.getElementById('recents').getClientRects().length > 0`) {
		t.Error("there is a list before anything was looked at")
	}
	for _, path := range []string{"/run/small-friday/cook", "/lot?lot=P-soup", "/run/no-such-run", "/stock", "/run/small-friday"} {
		p.do(chromedp.Navigate(base + path))
	}
	const list = `[...document.querySelectorAll('#recents a')].map(a => a.querySelector('small').textContent + ' ' + a.getAttribute('href'))`
	for _, path := range []string{"/", "/find"} {
		p.do(chromedp.Navigate(base + path))
		p.do(until(`document.querySelectorAll('#recents a').length > 0`))
		if got := eval[[]string](p, list); fmt.Sprint(got) != "[Run /run/small-friday Lot /lot?lot=P-soup]" {
			t.Errorf("%s lists %q", path, got)
		}
	}
	p.do(chromedp.Click(chromedp.CSS(`#recents [data-forget]`)), chromedp.Navigate(base+"/"))
	if n := eval[int64](p, `document.querySelectorAll('#recents a').length`); n != 0 {
		t.Errorf("%d are left after they were forgotten", n)
	}
}
