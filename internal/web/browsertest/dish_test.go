package browsertest

import (
	"net/http/httptest"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/chromedp/chromedp"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/web"
)

// serveKept serves a kitchen whose book is in the records, so that it can be changed: the invented one, or one that has nothing but a name.
func serveKept(t *testing.T, empty bool) string {
	t.Helper()
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	by := app.Author{Who: "Ada", Device: "tablet", At: time.Now()}
	if empty {
		_, err = records.ImportBook(t.Context(), fstest.MapFS{"kitchen.yaml": {Data: []byte("kitchen: {name: Test, units: us}\n")}}, by)
	} else {
		_, err = records.ImportBook(t.Context(), demo.Book(), by)
	}
	if err != nil {
		t.Fatal(err)
	}
	house, err := app.New(records.Book(), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	house.Follow(records)
	server := httptest.NewServer(web.New(house, web.Options{Records: records}))
	t.Cleanup(server.Close)
	return server.URL
}

// arrives waits for an expression to become true, across pages that are left.
func arrives(p *tab, expression string) {
	p.t.Helper()
	for deadline := time.Now().Add(patience / 2); time.Now().Before(deadline); time.Sleep(50 * time.Millisecond) {
		if yes, err := chromedp.Run(p.ctx, chromedp.Evaluate[bool](`document.readyState === 'complete' && !!(`+expression+`)`)); err == nil && yes {
			return
		}
	}
	p.t.Fatalf("never came: %s", expression)
}

// A dish of three steps from nothing, by touch and keys: the flow follows each change, the dish is saved, and a plan of it stands there.
func TestADishIsBuiltFromNothing(t *testing.T) {
	for _, s := range []screen{tablet, phone} {
		t.Run(s.name, func(t *testing.T) {
			p := open(t, s)
			base := serveKept(t, false)
			p.do(chromedp.Navigate(base + "/dish/new"))
			p.do(chromedp.SendKeys(chromedp.ID("name"), "Onion soup"), chromedp.Click(chromedp.CSS(`form[action="/dish/new"] button`)))
			arrives(p, `document.querySelector('h1').textContent === 'Onion soup'`)
			for i, step := range []struct{ does, where, of, amount string }{
				{"Peel the onions.", "", "yellow onion", "5 lb"}, {"Simmer them soft.", "after.peel-the-onions", "whole milk", "1 gal"}, {"Blend it.", "after.simmer-them-soft", "cayenne", "1 oz"}} {
				p.do(chromedp.SendKeys(chromedp.ID("does"), step.does))
				eval[bool](p, `(document.getElementById('where').value = '`+step.where+`') !== null`)
				p.do(chromedp.Click(chromedp.CSS(`#add button[type=submit]`)))
				arrives(p, `document.querySelectorAll('.river > li:not(.mouth)').length === `+string(rune('1'+i))+` && !!document.getElementById('of')`)
				p.do(chromedp.SendKeys(chromedp.ID("of"), step.of), chromedp.SendKeys(chromedp.ID("amount"), step.amount), chromedp.Click(chromedp.CSS(`form:has(#of) button`)))
				arrives(p, `document.querySelector('.goes').textContent.includes('`+step.of+`')`)
			}
			if got := eval[int](p, `document.querySelectorAll('.river svg').length`); got != 4 { // three steps and the end
				t.Errorf("%d drawings in the flow, want 4", got)
			}
			p.do(chromedp.Click(chromedp.CSS(`.river > li:first-child h3 a`)))
			arrives(p, `document.querySelector('#open h2')?.textContent.includes('Peel')`)
			before := eval[string](p, `document.querySelector('.river svg polygon').getAttribute('points')`)
			retype(p, "f_use_0__amount", "10 lb")
			typed := time.Now()
			arrives(p, `document.querySelector('.flowsum dd').textContent.replaceAll('\u00a0', ' ').includes('18 lb')`) // 10 lb, 8 lb 10 oz of milk and an ounce
			t.Logf("%s: the flow followed %d ms after the last key, of which 500 ms are waited", s.name, time.Since(typed).Milliseconds())
			if eval[string](p, `document.querySelector('.river svg polygon').getAttribute('points')`) == before {
				t.Error("the drawing did not follow")
			}
			if got := value(p, chromedp.Value(chromedp.ID("f_use_0__amount"))); got != "10 lb" {
				t.Errorf("the field holds %q", got)
			}
			if eval[string](p, `document.activeElement.id`) != "f_use_0__amount" {
				t.Error("the cursor went elsewhere")
			}
			p.do(chromedp.Reload())
			arrives(p, `document.querySelector('.flowsum dd')?.textContent.replaceAll('\u00a0', ' ').includes('18 lb')`) // the address keeps it
			arrives(p, `document.querySelector('#planned .head') !== null`)
			if wide := eval[int64](p, `document.documentElement.scrollWidth`); wide > s.width {
				t.Errorf("the page is %d px wide; wider than the screen: %s", wide, eval[string](p, tooWide))
			}
			p.shoot(s.name + "-dish-built")
			p.quiet()
			p.do(chromedp.Click(chromedp.CSS(`#unsaved form button[type=submit]`)))
			arrives(p, `document.getElementById('who') || location.search.includes('did=')`)
			named(p, ".river")
			arrives(p, `!document.getElementById('unsaved') && document.querySelector('#planned .head')?.textContent.includes('Hands-on')`)
		})
	}
}

// The way to a first dish in a kitchen that has nothing: what is typed stays when one goes back, and at the end there is a run with its plan.
func TestAFirstDishInAnEmptyKitchen(t *testing.T) {
	p := open(t, phone)
	p.do(chromedp.Navigate(serveKept(t, true) + "/dish/first"))
	next := func(fields ...string) {
		t.Helper()
		for i := 0; i+1 < len(fields); i += 2 {
			p.do(chromedp.SendKeys(chromedp.ID("f-"+fields[i]), fields[i+1]))
		}
		was := eval[string](p, `document.querySelector('.firstform h2').textContent`)
		p.do(chromedp.Click(chromedp.CSS(`.firstform button[name=at]`)))
		arrives(p, `document.querySelector('main h2').textContent !== '`+was+`'`)
	}
	next("name", "Lentil soup")
	next("lines", "5 lb lentils\n3 gal water\n2 lb carrots")
	p.do(chromedp.Click(chromedp.CSS(`.firstform button.quiet`)))
	arrives(p, `document.getElementById('f-lines')?.value.includes('3 gal water')`)
	if got := eval[string](p, `document.querySelector('.firstform tbody').textContent`); !strings.Contains(got, "lentils") {
		t.Errorf("how the lines are understood: %q", got)
	}
	next()
	next("holds", "60 qt", "across", "16 in", "power", "30,000 Btu/h")
	next("time", "45 min")
	next()
	next("fill", "1 lb")
	next("who", "Ada", "count", "30")
	arrives(p, `document.querySelector('.head')?.textContent.includes('Packs')`)
	p.shoot("phone-first-dish")
	p.do(chromedp.Click(chromedp.CSS(`form[method=post][action="/dish/first"] button`)))
	named(p, ".head")
	arrives(p, `location.pathname.startsWith('/run/') && document.querySelector('.head')?.textContent.includes('30')`)
	p.quiet()
}
