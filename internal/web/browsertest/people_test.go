package browsertest

import (
	"fmt"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
	"kettlefrost/internal/web"
)

const (
	adasPassword = "plum shelf ninety tractor"
	patsPIN      = "4071"
)

// staffed is the demo kitchen with people: everybody signs in.
func staffed(t *testing.T) (string, *app.Records) {
	t.Helper()
	house, err := app.New(demo.Book(), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	records := diary(t)
	addPeople(t, records)
	if _, err := records.People().AddKey(t.Context(), "ada", "office", "probe walk-in"); err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(web.New(house, web.Options{Records: records}))
	t.Cleanup(server.Close)
	return server.URL, records
}

// addPeople has everybody sign in from now on.
func addPeople(t *testing.T, records *app.Records) {
	t.Helper()
	p := records.People()
	for _, x := range []people.Person{{Person: "ada", Name: "Ada Miller", Role: record.Owner}, {Person: "cleo", Name: "Cleo", Role: record.Cook}, {Person: "pat", Name: "Pat", Role: record.Packer}, {Person: "ina", Name: "Ina Quill", Role: record.Inspector}, {Person: "old", Name: "Olga", Role: record.Cook, Left: "2026-03-01"}} {
		x.Since = "2026-01-01"
		if err := p.Put(t.Context(), "ada", "office", x); err != nil {
			t.Fatal(err)
		}
	}
	for _, err := range []error{p.KeepPassword(t.Context(), "ada", adasPassword), p.KeepPassword(t.Context(), "ina", "quiet lamp over seven"), p.KeepPIN(t.Context(), "cleo", "5519"), p.KeepPIN(t.Context(), "pat", patsPIN)} {
		if err != nil {
			t.Fatal(err)
		}
	}
}

// press presses something and waits for the page that comes.
func (p *tab) press(selector string) {
	p.t.Helper()
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Click(chromedp.CSS(selector))))
}

// signIn signs the tab's browser in by its forms.
func (p *tab) signIn(base, name, password string) {
	p.t.Helper()
	p.do(chromedp.Navigate(base + "/stock"))
	p.do(chromedp.SendKeys(chromedp.ID("name"), name), chromedp.SendKeys(chromedp.ID("password"), password), chromedp.SetValue(chromedp.ID("device"), "tablet by the stove"))
	p.press(".door button[type=submit]")
	if got := eval[string](p, `location.pathname`); got != "/stock" {
		p.t.Fatalf("after signing in the page is %s: %s", got, eval[string](p, `document.querySelector('main').innerText`))
	}
	p.t.Cleanup(func() {
		p.do(chromedp.Navigate(base+"/person"), chromedp.Click(chromedp.CSS("form[action='/sign-out'] button")))
	}) // tabs share their cookies
}

func TestPagesOfPeopleOnScreens(t *testing.T) {
	base, _ := staffed(t)
	p := open(t, tablet)
	look := func(name, path string) {
		t.Helper()
		p.turn(tablet)
		p.do(chromedp.Navigate(base + path))
		p.quiet()
		p.onScreens("people-" + name)
	}
	look("sign-in", "/people")
	p.turn(tablet)
	p.signIn(base, "ada", adasPassword)
	for name, path := range map[string]string{"head": "/stock", "list": "/people", "one": "/people/pat", "who": "/person", "secrets": "/person/secrets"} {
		look(name, path)
	}
	look("pad", "/person?as=pat") // now on a telephone
	if small := eval[[]string](p, `[...document.querySelectorAll('.pin button, .pin input:not([type=hidden]), .face')].filter(e => e.getClientRects().length && Math.min(e.getBoundingClientRect().height, e.getBoundingClientRect().width) < 64).map(e => e.textContent + ' ' + e.getBoundingClientRect().height)`); len(small) > 0 {
		t.Errorf("less than 64 px to press with wet hands: %q", small)
	}
	p.turn(tablet)
}

// TestAPersonIsChangedByPIN: on a tablet that Ada signed in, Pat types her PIN on the pad, and what is entered then is Pat's.
func TestAPersonIsChangedByPIN(t *testing.T) {
	base, records := staffed(t)
	p := open(t, tablet)
	p.signIn(base, "Ada Miller", adasPassword)
	p.press("a.who")
	p.press(`a.face[href*="as=pat"]`)
	for _, digit := range "4701" { // one digit is wrong, and put right
		p.do(chromedp.Click(chromedp.CSS(fmt.Sprintf(`.pad button[data-digit="%c"]`, digit))))
	}
	p.do(chromedp.Click(chromedp.CSS(`.pad button[data-digit="clear"]`)))
	for _, digit := range "40719" {
		p.do(chromedp.Click(chromedp.CSS(fmt.Sprintf(`.pad button[data-digit="%c"]`, digit))))
	}
	p.do(chromedp.Click(chromedp.CSS(`.pad button[data-digit="back"]`)))
	p.press(".pin button[type=submit]")
	if got := eval[string](p, `location.pathname + ' ' + document.querySelector('.who strong').textContent`); got != "/stock Pat" {
		t.Fatalf("after the PIN it is %q, want to be back at the stock as Pat", got)
	}
	id := strings.Repeat("7", 32)
	p.do(chromedp.Evaluate[chromedp.Void](fmt.Sprintf(`fetch('/enter', {method: 'POST', headers: {'Content-Type': 'application/json'}, body: JSON.stringify({entries: [{id: %q, kind: 'noted', happened_ms: %d, who: '', device: '', body: {text: 'the sealer hums'}}]})}).then(r => r.json()).then(a => { window.answer = a })`, id, time.Now().UnixMilli())))
	p.do(until(`window.answer !== undefined`))
	if got := eval[int](p, `window.answer.taken.length`); got != 1 {
		t.Fatalf("not taken: %s", eval[string](p, `JSON.stringify(window.answer)`))
	}
	entry, err := record.ParseID(id)
	if err != nil {
		t.Fatal(err)
	}
	if e, there, err := records.Entry(t.Context(), entry); err != nil || !there || e.Who != "pat" || e.Device != "tablet by the stove" {
		t.Errorf("the note is by %q on %q (%v)", e.Who, e.Device, err)
	}
}

// Without JavaScript the field takes the PIN, by the keyboard.
func TestAPINWithoutJavaScript(t *testing.T) {
	base, _ := staffed(t)
	p := open(t, tablet)
	call(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	p.do(chromedp.Navigate(base + "/person?as=pat"))
	p.do(chromedp.SendKeys(chromedp.ID("name"), "ada"), chromedp.SetAttributeValue(chromedp.ID("device"), "value", "tablet"), chromedp.SendKeys(chromedp.ID("password"), adasPassword))
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.KeyEvent(kb.Enter)))
	p.do(chromedp.SendKeys(chromedp.ID("pin"), patsPIN))
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.KeyEvent(kb.Enter)))
	if got := value(p, chromedp.Text(chromedp.CSS(".who strong"))); got != "Pat" {
		t.Errorf("%q acts, want Pat", got)
	}
	p.quiet()
}

// An inspector sees the stock, and what an inspector sends is not entered.
func TestAnInspectorCannotEnter(t *testing.T) {
	base, _ := staffed(t)
	p := open(t, tablet)
	p.signIn(base, "Ina Quill", "quiet lamp over seven")
	p.do(chromedp.Evaluate[chromedp.Void](`fetch('/undo', {method: 'POST', headers: {'Content-Type': 'application/x-www-form-urlencoded'}, body: 'entry=x'}).then(r => { window.status_ = r.status })`))
	p.do(until(`window.status_ !== undefined`))
	if got := eval[int](p, `window.status_`); got != 403 {
		t.Errorf("status %d, want 403", got)
	}
}

// The board as it was last seen stays on a device for when there is no network, but not for the next who signs in. What else is kept stays.
func TestSigningInForgetsTheBoard(t *testing.T) {
	base, _ := staffed(t)
	p := open(t, tablet)
	p.do(chromedp.Navigate(base + "/sign-in"))
	for _, name := range []string{"kettlefrost-kept-1", "another"} {
		p.do(until(fmt.Sprintf(`caches.open(%q).then(c => c.put('/board', new Response('seen'))).then(() => true)`, name)))
	}
	p.do(chromedp.Navigate(base + "/sign-in"))
	p.do(until(`caches.keys().then(names => names.includes('another') && !names.includes('kettlefrost-kept-1'))`))
	p.do(until(`caches.delete('another')`))
	p.quiet()
}
