package browsertest

import (
	"context"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/web"
)

// slowKitchen is the demo kitchen whose plans are not made before they are let through.
type slowKitchen struct {
	*app.App
	through chan bool
}

func (k *slowKitchen) Plan(ctx context.Context, book kitchen.Book, req kitchen.Request) plan.Plan {
	select {
	case <-k.through:
	case <-ctx.Done():
	}
	return k.App.Plan(ctx, book, req)
}

func serveSlow(t *testing.T) (*slowKitchen, string) {
	t.Helper()
	house, err := app.New(demo.Book(), func() time.Time { return time.Date(2026, 12, 1, 5, 0, 0, 0, time.UTC) })
	if err != nil {
		t.Fatal(err)
	}
	k := &slowKitchen{house, make(chan bool)}
	server := httptest.NewServer(web.New(k, web.Options{Records: diary(t), Patience: 2 * time.Second}))
	t.Cleanup(server.Close)
	return k, server.URL
}

// TestLongWorkIsStoppedAndFinished: a plan that takes long shows how far it is; it is stopped by its button, begun again, and leads to its page by
// itself; the way back leads to where the cook came from.
func TestLongWorkIsStoppedAndFinished(t *testing.T) {
	for _, scripts := range []bool{true, false} {
		t.Run(map[bool]string{true: "with scripts", false: "without"}[scripts], func(t *testing.T) {
			k, base := serveSlow(t)
			p := open(t, tablet)
			call(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: !scripts})
			p.do(chromedp.Navigate(base + "/foods"))
			p.do(chromedp.Navigate(base + "/run/small-friday/cook"))
			p.do(chromedp.WaitVisible(chromedp.CSS(`form[action$="/stop"] button`)))
			if scripts {
				p.do(until(`document.getElementById('job-since').textContent !== '2 seconds'`))
				fits(p, tablet)
			}
			p.shoot("job")
			p.press(`form[action$="/stop"] button`)
			if text := value(p, chromedp.Text(chromedp.CSS("main"))); !strings.Contains(text, "It was stopped") {
				t.Fatalf("stopped: %q", text)
			}
			p.shoot("job-stopped")
			p.do(chromedp.Click(chromedp.CSS(`main a.button[href="/run/small-friday/cook"]`)))
			p.do(chromedp.WaitVisible(chromedp.CSS(`form[action$="/stop"] button`)))
			close(k.through)
			p.do(chromedp.WaitVisible(chromedp.ID("step-A1")))
			if scripts {
				if got := eval[string](p, `location.pathname`); got != "/run/small-friday/cook" {
					t.Errorf("the result stands at %s", got)
				}
				p.quiet()
			}
		})
	}
}

// TestTheWayBack: what htmx changes in the address is there after going away and back, and a reload enters nothing again.
func TestTheWayBack(t *testing.T) {
	base, records := bureau(t)
	p := open(t, tablet)
	p.do(chromedp.Navigate(base + "/run/small-friday"))
	p.do(chromedp.Click(chromedp.CSS("#wanted > summary")))
	retype(p, chromedp.ID("f-count-bean-pot-2lb"), "20")
	p.do(until(`document.querySelector('.head dd .fig').textContent.trim() === '44'`))
	changed := eval[string](p, `location.pathname + location.search`)
	p.do(chromedp.Navigate(base + "/find?q=bean+pot"))
	p.do(chromedp.Navigate(base + "/find?q=raw&kind=food"))
	p.back("/find?q=bean+pot")
	if got := eval[string](p, `document.querySelector('main input[name=q]').value + location.search`); got != "bean pot?q=bean+pot" {
		t.Errorf("back at what was looked for: %q", got)
	}
	p.back(changed)
	p.do(until(`document.querySelector('.head dd .fig')?.textContent.trim() === '44'`))
	if got := eval[string](p, `new URL(location).searchParams.get('count.bean-pot-2lb')`); got != "20" {
		t.Errorf("back at the plan the address has %q", got)
	}
	p.do(chromedp.Navigate(base + "/customers/new"))
	p.do(chromedp.SendKeys(chromedp.CSS(`main input[name=name]`), "Corner Deli"))
	p.press(`main form[method=post] button[type=submit]`)
	named(p, ".did")
	before, err := records.Verify(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	p.do(chromedp.Reload())
	p.do(chromedp.WaitVisible(chromedp.CSS(".did")))
	if after, err := records.Verify(t.Context()); err != nil || after != before {
		t.Errorf("loading it again entered something (%v)", err)
	}
}

// back goes back to the page before, whether the browser kept it as it was or asks for it again, until it is as it is to be.
func (p *tab) back(to string) {
	p.t.Helper()
	p.do(chromedp.Evaluate[chromedp.Void](`setTimeout(() => history.back())`))
	for range 100 {
		if here, err := chromedp.Run(p.ctx, chromedp.Evaluate[bool](`document.readyState === 'complete' && location.pathname + location.search === '`+to+`'`)); err == nil && here {
			return
		}
		time.Sleep(100 * time.Millisecond)
	}
	p.t.Fatalf("back is not %s but %s", to, eval[string](p, `location.href`))
}
