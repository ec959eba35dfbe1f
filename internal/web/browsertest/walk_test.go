package browsertest

import (
	"fmt"
	"net/url"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// The way from part to part: each page marks itself and nothing else, its last link leads to the next, what was asked goes along, and the
// way back leads where one came from. Without JavaScript.
func TestWalkThroughTheParts(t *testing.T) {
	for _, s := range []screen{laptop, phone} {
		t.Run(s.name, func(t *testing.T) {
			p := open(t, s)
			call(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
			p.do(chromedp.Navigate(serve(t) + "/run/small-friday?count.bean-pot-2lb=20&today=2026-12-01&units=metric"))
			var walked []string
			for {
				here := strings.TrimSpace(value(p, chromedp.Text(chromedp.CSS("nav.parts [aria-current=page]"))))
				walked = append(walked, here)
				p.shoot(fmt.Sprintf("parts-%s-%02d", s.name, len(walked)))
				if marked := count(p, "nav.parts [aria-current]"); marked != 1 {
					t.Errorf("%s: %d parts are marked", here, marked)
				}
				if places := count(p, "#pages [aria-current]"); places != 1 {
					t.Errorf("%s: %d places are marked as the one that it is in", here, places)
				}
				asked := query(t, p)
				if asked.Get("count.bean-pot-2lb") != "20" || asked.Get("units") != "metric" || asked.Get("today") != "2026-12-01" {
					t.Errorf("%s: what was asked became %v", here, asked)
				}
				if count(p, ".beside .after") == 0 {
					break
				}
				value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Click(chromedp.CSS(".beside .after"))))
			}
			if want := "Glance, Findings, Buy, Day, Now, Cook, Chill, Seal, Freeze, Cards, Labels, Money, Print"; strings.Join(walked, ", ") != want {
				t.Errorf("the way led through %v, want %s", walked, want)
			}
			if at := goBack(p); !strings.Contains(at, "/run/small-friday/money?") {
				t.Errorf("the way back led to %s", at)
			}
			p.quiet()
		})
	}
}

// A form on one part keeps what another asked: weights stay when the day changes, and the day when something is weighed.
func TestFormsKeepWhatOthersAsked(t *testing.T) {
	p := open(t, tablet)
	call(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	p.do(chromedp.Navigate(serve(t) + "/run/small-friday/seal?units=metric&now=09:00&gone=sam"))
	press := func(form, name, text string) {
		t.Helper()
		p.do(chromedp.SetAttributeValue(chromedp.CSS(form+" [name='"+name+"']"), "value", text))
		value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Click(chromedp.CSS(form+" button"))))
	}
	press("#targets", "w.bean-pot.pot", "20 lb")
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Click(chromedp.CSS("nav.parts a:nth-child(3)"))))
	p.do(chromedp.Click(chromedp.CSS(".wanted > summary")))
	press("#today", "today", "2026-12-01")
	want := url.Values{"units": {"metric"}, "now": {"09:00"}, "gone": {"sam"}, "w.bean-pot.pot": {"20 lb"}, "today": {"2026-12-01"}}
	asked := query(t, p)
	for key := range want {
		if asked.Get(key) != want.Get(key) {
			t.Errorf("%s is %q, want %q", key, asked.Get(key), want.Get(key))
		}
	}
	p.quiet()
}

// On a telephone a button opens the list of pages, without JavaScript, and each can be pressed.
func TestThePagesOnATelephone(t *testing.T) {
	p := open(t, phone)
	call(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	p.do(chromedp.Navigate(serve(t) + "/week"))
	shown := func() bool {
		box := value(p, chromedp.ComputedStyle(chromedp.CSS("#pages")))
		for _, x := range box {
			if x.Name == "display" {
				return x.Value != "none"
			}
		}
		return false
	}
	if shown() {
		t.Error("the list is open before anybody asked for it")
	}
	p.do(chromedp.Tap(chromedp.CSS(".menu")))
	if !shown() {
		t.Fatal("the list does not open")
	}
	p.shoot("phone-pages")
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Tap(chromedp.CSS(`#pages a[href="/stock"]`))))
	if at := value(p, chromedp.Location()); !strings.HasSuffix(at, "/stock") {
		t.Errorf("the list led to %s", at)
	}
	p.quiet()
}

// goBack presses the browser's own button and says where it led. The page may come from the browser's memory, and then loads nothing that
// could be waited for.
func goBack(p *tab) string {
	p.t.Helper()
	from, history := value(p, chromedp.Location()), value(p, chromedp.NavigationEntries())
	call(p, page.NavigateToHistoryEntry, page.NavigateToHistoryEntryParams{EntryID: history.Entries[history.CurrentIndex-1].ID})
	for {
		if at := value(p, chromedp.Location()); at != from {
			return at
		}
	}
}

// query is what the address of the page asks.
func query(t *testing.T, p *tab) url.Values {
	t.Helper()
	at, err := url.Parse(value(p, chromedp.Location()))
	if err != nil {
		t.Fatal(err)
	}
	return at.Query()
}

// count is how many of something a page has, without JavaScript of the page's own.
func count(p *tab, selector string) int {
	return len(value(p, chromedp.Nodes(chromedp.CSS(selector), chromedp.AtLeast(0))))
}
