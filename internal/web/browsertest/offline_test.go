package browsertest

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/web"
)

// worked waits until a worker stands between the tab and the network.
func (p *tab) worked() {
	p.t.Helper()
	p.do(until(`navigator.serviceWorker.ready.then(() => new Promise(done => navigator.serviceWorker.controller ? done(true) : navigator.serviceWorker.addEventListener('controllerchange', () => done(true))))`))
}

// The sign as a picture looks as the browser draws its file.
func TestTheSignLooksAsItsFile(t *testing.T) {
	base := serve(t)
	p := open(t, tablet)
	p.do(chromedp.Navigate(base + "/offline"))
	p.do(chromedp.Evaluate[chromedp.Void](`(async () => {
		const pixels = async src => { const i = new Image(); i.src = src; await i.decode(); const c = document.createElement('canvas'); c.width = c.height = 192;
			const x = c.getContext('2d'); x.drawImage(i, 0, 0, 192, 192); return x.getImageData(0, 0, 192, 192).data; };
		const [a, b] = [await pixels('/static/icon.svg'), await pixels('/static/icon/any-192.png')];
		let far = 0; for (let i = 0; i < a.length; i += 4) if (Math.max(...[0, 1, 2, 3].map(k => Math.abs(a[i + k] - b[i + k]))) > 64) far++;
		window.far_ = far; window.dark_ = [...a].filter((v, i) => i % 4 === 3 && v > 128).length; })()`))
	p.do(until(`window.far_ !== undefined`))
	if far, all := eval[int](p, `window.far_`), eval[int](p, `window.dark_`); far > 192*192/200 || all < 30000 {
		t.Errorf("%d of %d pixels differ from the file's by more than a quarter; %d are drawn", far, 192*192, all)
	}
}

// After a first visit the pages that a cook reads open without a network and say from when they are; others lead to what is kept.
func TestPagesWithoutANetwork(t *testing.T) {
	d := serveBoard(t, "07:10")
	base := strings.TrimSuffix(d.url, "/board/"+boardRun)
	p := signed(t, tabletUpright, d, "?person=")
	p.worked()
	for _, path := range []string{"/run/tuesday/cook", "/run/tuesday/cards", "/run/tuesday/money", "/board/" + boardRun} {
		p.do(chromedp.Navigate(base + path))
		if n := eval[int](p, `document.querySelectorAll('#asof').length`); n != 0 {
			t.Errorf("%s is marked as kept though it has just come", path)
		}
	}
	p.do(until(`caches.open('kettlefrost-kept-1').then(c => c.keys()).then(all => all.some(r => r.url.endsWith('/run/tuesday/cards')) && all.some(r => r.url.endsWith('/board/` + boardRun + `')))`))
	p.do(until(`caches.open('kettlefrost-kept-1').then(c => c.keys()).then(all => { window.keeps = all.map(r => r.url).join(' '); return true; })`))
	if kept := eval[string](p, `window.keeps`); strings.Contains(kept, "money") {
		t.Errorf("a page about money is kept on the device: %s", kept)
	}
	d.network(p, true)
	defer d.network(p, false)
	for path, has := range map[string]string{"/run/tuesday/cook": "step-A1", "/run/tuesday/cards": "DO NOT PRINT YET", "/board/" + boardRun: "Do now"} {
		p.do(chromedp.Navigate(base + path))
		p.do(until(`document.querySelector('#asof') !== null`))
		text := eval[string](p, `document.getElementById('asof').innerText`)
		if !strings.Contains(text, "No network. This is how it was at "+time.Now().Format("15:0")[:3]) {
			t.Errorf("%s says %q", path, text)
		}
		if !eval[bool](p, fmt.Sprintf(`document.documentElement.outerHTML.includes(%q)`, has)) {
			t.Errorf("%s has no %q", path, has)
		}
		if styled := eval[string](p, `getComputedStyle(document.getElementById('asof')).borderBottomStyle`); styled != "solid" {
			t.Errorf("%s: the styles did not come from the device", path)
		}
	}
	p.shoot("kept-board")
	for _, path := range []string{"/run/tuesday/money", "/orders", "/people"} {
		p.do(chromedp.Navigate(base + path))
		p.do(until(`document.querySelectorAll('#kept-pages li').length >= 3`))
		if h := eval[string](p, `document.querySelector('h1').textContent`); h != "Without a network" {
			t.Errorf("%s shows %q without a network", path, h)
		}
	}
	p.shoot("without-a-network")
	p.press("#last-board")
	p.do(until(`document.getElementById('board') !== null && document.getElementById('asof') !== null`))
	d.network(p, false)
	p.do(until(`document.getElementById('asof') === null`)) // it is live again by itself
}

// On the page of what is kept it stands what waits to be sent.
func TestWhatWaitsIsListed(t *testing.T) {
	d := serveBoard(t, "07:10")
	base := strings.TrimSuffix(d.url, "/board/"+boardRun)
	p := signed(t, phone, d, "?person=")
	p.worked()
	p.do(chromedp.Navigate(d.url + "?person="))
	p.do(until(`!document.querySelector('[data-stale]')`))
	d.network(p, true)
	task := eval[[]string](p, starts)[0]
	p.do(until(press(task) + ` || true`))
	p.do(until(`document.getElementById('line').textContent.startsWith('1 waits to be sent')`))
	p.do(chromedp.Navigate(base + "/orders"))
	p.do(until(`document.querySelectorAll('#queued li').length === 1`))
	p.shoot("waits")
	d.network(p, false)
	p.do(chromedp.Navigate(d.url + "?person="))
	p.do(until(`kettlefrostWaiting() === 0`))
	if got := d.tasks(t, "started"); !slices.Equal(got, []string{task}) {
		t.Errorf("arrived: %q, want %q", got, task)
	}
}

// staffedBoard is the board of a kitchen with people, whose clock goes on from a time.
func staffedBoard(t *testing.T) *boardDay {
	d := serveBoard(t, "07:10")
	addPeople(t, d.records)
	return d
}

// TestAQueueAfterALostSession: what is touched while nobody is signed in any more stays, says why, and is sent after signing in again.
func TestAQueueAfterALostSession(t *testing.T) {
	d := staffedBoard(t)
	base := strings.TrimSuffix(d.url, "/board/"+boardRun)
	p := open(t, tablet)
	p.signIn(base, "Ada Miller", adasPassword)
	p.do(chromedp.Navigate(d.url + "?person="))
	p.do(until(`!document.querySelector('[data-stale]') && document.querySelectorAll('.jobs .touch.start').length > 1`))
	task := eval[[]string](p, starts)[0]
	call(p, network.ClearBrowserCookies, cdp.Empty{})
	p.do(until(press(task) + ` || true`))
	p.do(until(`document.querySelector('#wait a[href^="/sign-in"]') !== null`))
	p.shoot("queue-signed-out")
	if got := d.tasks(t, "started"); len(got) != 0 {
		t.Fatalf("arrived in nobody's name: %q", got)
	}
	p.press(`#wait a[href^="/sign-in"]`)
	p.do(chromedp.SendKeys(chromedp.ID("name"), "ada"), chromedp.SendKeys(chromedp.ID("password"), adasPassword), chromedp.SetValue(chromedp.ID("device"), "tablet by the stove"))
	p.press(".door button[type=submit]")
	p.do(until(`kettlefrostWaiting() === 0`))
	if got := d.tasks(t, "started"); !slices.Equal(got, []string{task}) {
		t.Errorf("arrived: %q, want %q once", got, task)
	}
}

// TestASleptBoardCatchesUp: the clock jumps and the stream of news was cut; when the tablet wakes the board is as it is now.
func TestASleptBoardCatchesUp(t *testing.T) {
	d := serveBoard(t, "07:10")
	p := signed(t, tablet, d, "?person=")
	p.do(until(`!document.querySelector('[data-stale]')`))
	task := eval[[]string](p, starts)[0]
	p.do(chromedp.Evaluate[chromedp.Void](`{ const real = Date.now.bind(Date); window.jump_ = 0; Date.now = () => real() + window.jump_; }`))
	d.away.Store(true)
	d.server.CloseClientConnections() // asleep: without an event
	d.say(t, d.now(), "Sam", record.Started{Run: boardRun, Task: task})
	time.Sleep(1500 * time.Millisecond)
	d.away.Store(false)
	began := time.Now()
	p.do(chromedp.Evaluate[chromedp.Void](`window.jump_ = 20 * 60 * 1000`))
	p.do(until(showsAs(task, "finish")))
	t.Logf("caught up %v after waking", time.Since(began))
	if eval[string](p, `document.querySelector('.job[data-task="`+task+`"] .count').textContent`) == "" {
		t.Error("no time is left or over")
	}
	p.do(until(`document.getElementById('net') === null`))
}

// TestADraftOutlivesAReload: what is typed and not sent is offered when the form is shown again, put back, and forgotten once it is sent.
func TestADraftOutlivesAReload(t *testing.T) {
	base, _ := bureau(t)
	p := open(t, tablet)
	call(p, network.SetCookie, network.SetCookieParams{Name: "kettlefrost-who", Value: "Nora", URL: base})
	p.do(chromedp.Navigate(base + "/customers/new"))
	p.do(chromedp.SendKeys(chromedp.CSS(`main input[name=name]`), "Corner Deli"))
	p.do(until(`Object.keys(localStorage).some(k => k.startsWith('kettlefrost-draft-') && localStorage[k].includes('Corner Deli'))`))
	p.do(chromedp.Navigate(base + "/customers/new"))
	p.do(chromedp.WaitVisible(chromedp.CSS(".draftoffer .putback")))
	if got := eval[string](p, `document.querySelector('main input[name=name]').value`); got != "" {
		t.Errorf("it was put back without being asked: %q", got)
	}
	p.shoot("draft")
	p.do(chromedp.Click(chromedp.CSS(".draftoffer .putback")))
	if got := eval[string](p, `document.querySelector('main input[name=name]').value`); got != "Corner Deli" {
		t.Errorf("put back: %q", got)
	}
	p.press(`main form[method=post] button[type=submit]`)
	p.do(until(`!Object.keys(localStorage).some(k => k.startsWith('kettlefrost-draft-'))`))
	p.do(chromedp.Navigate(base + "/customers/new"))
	if n := eval[int](p, `document.querySelectorAll('.draftoffer').length`); n != 0 {
		t.Error("what was sent is offered again")
	}
	p.quiet()
}

// TestADraftOutlivesALostSession: a form that is sent after the session was lost comes back after signing in, and is entered once.
func TestADraftOutlivesALostSession(t *testing.T) {
	for _, scripts := range []bool{true, false} {
		t.Run(map[bool]string{true: "with scripts", false: "without"}[scripts], func(t *testing.T) {
			base, records := staffed(t)
			p := open(t, tablet)
			p.signIn(base, "Ada Miller", adasPassword)
			before, err := records.Verify(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			call(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: !scripts})
			p.do(chromedp.Navigate(base + "/customers/new"))
			p.do(chromedp.SendKeys(chromedp.CSS(`main input[name=name]`), "Corner Deli"))
			call(p, network.ClearBrowserCookies, cdp.Empty{})
			p.press(`main form[method=post] button[type=submit]`)
			p.do(chromedp.SendKeys(chromedp.ID("name"), "ada"), chromedp.SendKeys(chromedp.ID("password"), adasPassword), chromedp.SetAttributeValue(chromedp.ID("device"), "value", "tablet"))
			p.press(".door button[type=submit]")
			if text := value(p, chromedp.Text(chromedp.CSS("main"))); !strings.Contains(text, "Corner Deli") || !strings.Contains(text, "Nothing of it is entered yet") {
				t.Fatalf("after signing in: %q", text)
			}
			p.shoot("carried")
			p.press(`main form button[type=submit]`)
			if text := value(p, chromedp.Text(chromedp.CSS("main"))); !strings.Contains(text, "Corner Deli") {
				t.Errorf("after it was entered: %q", text)
			}
			call(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: false})
			if after, err := records.Verify(t.Context()); err != nil || after.Seq != before.Seq+1 {
				t.Errorf("%d entries came of it, want 1 (%v)", after.Seq-before.Seq, err)
			}
		})
	}
}

// TestPressingTwice: a form is sent once however often it is pressed, and its button says that it is being sent.
func TestPressingTwice(t *testing.T) {
	now := func() time.Time { return time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC) }
	house, err := app.New(demo.Book(), now)
	if err != nil {
		t.Fatal(err)
	}
	records := diary(t)
	pages := web.New(house, web.Options{Records: records})
	came := make(chan bool, 10)
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method == http.MethodPost {
			came <- true
			time.Sleep(700 * time.Millisecond) // a slow kitchen
		}
		pages.ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	p := open(t, tablet)
	call(p, network.SetCookie, network.SetCookieParams{Name: "kettlefrost-who", Value: "Nora", URL: server.URL})
	p.do(chromedp.Navigate(server.URL + "/customers/new"))
	p.do(chromedp.SendKeys(chromedp.CSS(`main input[name=name]`), "Corner Deli"))
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Evaluate[chromedp.Void](`{ const b = document.querySelector('main form[method=post] button[type=submit]'); b.click(); window.name = b.getAttribute('aria-busy'); b.click(); b.click(); }`)))
	if got := eval[string](p, `window.name`); got != "true" {
		t.Errorf("the button says aria-busy %q while it is sent", got)
	}
	if n := len(came); n != 1 {
		t.Errorf("sent %d times, want once", n)
	}
	p.do(chromedp.Evaluate[chromedp.Void](`window.name = ''`))
}
