package web

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"net/url"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
)

const (
	adasPassword = "plum shelf ninety tractor"
	inasPassword = "quiet lamp over seven"
	patsPIN      = "4071"
	adasPIN      = "8302"
)

// staffedNoon is when the tests of people take place; their clock moves only when it is told to.
var staffedNoon = time.Date(2026, 11, 26, 12, 0, 0, 0, time.UTC)

// staffed is records with an owner, a packer and an inspector.
func staffed(t testing.TB, now func() time.Time) *app.Records {
	t.Helper()
	r, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Close() })
	addStaff(t, r)
	return r
}

func addStaff(t testing.TB, r *app.Records) {
	t.Helper()
	p := r.People()
	for _, x := range []people.Person{{Person: "ada", Name: "Ada", Role: record.Owner}, {Person: "pat", Name: "Pat", Role: record.Packer}, {Person: "ina", Name: `Ina "<b>"`, Role: record.Inspector}} {
		x.Since = "2026-01-01"
		if err := p.Put(t.Context(), "ada", "office", x); err != nil {
			t.Fatal(err)
		}
	}
	for _, err := range []error{p.KeepPassword(t.Context(), "ada", adasPassword), p.KeepPassword(t.Context(), "ina", inasPassword), p.KeepPIN(t.Context(), "pat", patsPIN), p.KeepPIN(t.Context(), "ada", adasPIN)} {
		if err != nil {
			t.Fatal(err)
		}
	}
}

// browser keeps cookies, as a browser does.
type browser struct {
	t       testing.TB
	h       http.Handler
	cookies map[string]string
	header  http.Header // of each request
	remote  string
}

func newBrowser(t testing.TB, h http.Handler) *browser {
	return &browser{t: t, h: h, cookies: map[string]string{}, header: http.Header{}, remote: "127.0.0.1:4000"}
}

func (b *browser) do(r *http.Request) *httptest.ResponseRecorder {
	b.t.Helper()
	r.Host, r.RemoteAddr = "localhost:8090", b.remote
	for name, values := range b.header {
		r.Header[name] = values
	}
	for name, value := range b.cookies {
		r.AddCookie(&http.Cookie{Name: name, Value: value})
	}
	w := httptest.NewRecorder()
	b.h.ServeHTTP(w, r)
	for _, c := range w.Result().Cookies() {
		if b.cookies[c.Name] = c.Value; c.MaxAge < 0 {
			delete(b.cookies, c.Name)
		}
	}
	return w
}

func (b *browser) get(target string) *httptest.ResponseRecorder {
	return b.do(httptest.NewRequest(http.MethodGet, target, nil))
}

func (b *browser) post(target string, pairs ...string) *httptest.ResponseRecorder {
	form := url.Values{}
	for i := 0; i < len(pairs); i += 2 {
		form.Set(pairs[i], pairs[i+1])
	}
	r := httptest.NewRequest(http.MethodPost, target, strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	return b.do(r)
}

func (b *browser) send(entries ...queued) (queueAnswer, int) {
	b.t.Helper()
	text, err := json.Marshal(map[string]any{"entries": entries})
	if err != nil {
		b.t.Fatal(err)
	}
	r := httptest.NewRequest(http.MethodPost, "/enter", strings.NewReader(string(text)))
	r.Header.Set("Content-Type", "application/json")
	w := b.do(r)
	var answer queueAnswer
	if err := json.Unmarshal(w.Body.Bytes(), &answer); err != nil {
		b.t.Fatalf("%d %s", w.Code, w.Body)
	}
	return answer, w.Code
}

func (b *browser) signIn(name, password, device string) {
	b.t.Helper()
	if w := b.post("/sign-in", "name", name, "password", password, "device", device, "back", "/stock"); w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/stock" {
		b.t.Fatalf("%s is not let in: %d %s", name, w.Code, w.Body)
	}
}

func noteOf(n byte, who string) queued {
	return queued{ID: record.ID{n, 1}, Kind: "noted", Happened: record.Instant(staffedNoon.UnixMilli()), Who: who, Device: "somewhere", Body: []byte(`{"text":"the walk-in hums"}`)}
}

func staffedPages(t testing.TB, o Options) (*app.Records, *browser) {
	t.Helper()
	o.Records = staffed(t, func() time.Time { return staffedNoon })
	return o.Records, newBrowser(t, New(&shelf{now: staffedNoon}, o))
}

// TestNobodyGetsInWithoutSigningIn asks for every place that the pages have.
func TestNobodyGetsInWithoutSigningIn(t *testing.T) {
	_, b := staffedPages(t, Options{})
	for _, target := range []string{"/", "/stock", "/run/tuesday", "/run/tuesday/day.svg", "/book", "/people", "/people/ada", "/person", "/person/secrets", "/lot?id=x", "/schema/plan.v1.json", "/nothing"} {
		w := b.get(target)
		if json := strings.HasSuffix(target, ".json"); json && w.Code != http.StatusUnauthorized || !json && (w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/sign-in?"+url.Values{"back": {target}}.Encode()) {
			t.Errorf("%s: %d to %q", target, w.Code, w.Header().Get("Location"))
		}
	}
	for _, target := range []string{"/people", "/people/ada", "/person", "/devices", "/keys"} {
		if w := b.post(target, "name", "x"); w.Code != http.StatusUnauthorized {
			t.Errorf("post to %s: %d", target, w.Code)
		}
	}
	for _, target := range []string{"/undo", "/nothing"} {
		if w := b.post(target, "name", "x"); w.Code != http.StatusSeeOther || !strings.HasPrefix(w.Header().Get("Location"), "/sign-in?back=%2Fcarried%2F") {
			t.Errorf("post to %s: %d to %q", target, w.Code, w.Header().Get("Location"))
		}
	}
	if answer, code := b.send(noteOf(1, "ada")); code != http.StatusUnauthorized || answer.Trouble == "" {
		t.Errorf("a queue: %d %+v", code, answer)
	}
	for _, target := range []string{"/sign-in", "/worker.js", "/manifest.webmanifest", "/offline", "/static/icon/any-192.png", "/static/style.css", "/static/people.css", "/static/pin.js", "/static/signin.js"} {
		if w := b.get(target); w.Code != http.StatusOK {
			t.Errorf("%s: %d", target, w.Code)
		}
	}
	if page := b.get("/sign-in").Body.String(); strings.Contains(page, "Ada") || strings.Contains(page, "Pat") {
		t.Error("a stranger is told who works here")
	}
}

func TestASessionCookie(t *testing.T) {
	for name, x := range map[string]struct {
		header map[string]string
		remote string
		cookie string
	}{
		"on this computer":                     {nil, "127.0.0.1:4000", "kettlefrost-session"},
		"behind a proxy":                       {map[string]string{"X-Forwarded-Proto": "https", "X-Forwarded-For": "203.0.113.5"}, "10.0.0.2:4000", "__Host-kettlefrost-session"},
		"somebody who only says so":            {map[string]string{"X-Forwarded-Proto": "https"}, "127.0.0.1:4000", "kettlefrost-session"},
		"a proxy that added itself to a chain": {map[string]string{"X-Forwarded-Proto": "http, https", "X-Forwarded-For": "1.2.3.4, 203.0.113.5"}, "10.0.0.2:4000", "__Host-kettlefrost-session"},
	} {
		_, b := staffedPages(t, Options{Proxies: []netip.Prefix{netip.MustParsePrefix("10.0.0.2/32")}})
		b.remote = x.remote
		for k, v := range x.header {
			b.header.Set(k, v)
		}
		w := b.post("/sign-in", "name", "ada", "password", adasPassword, "device", "office")
		i := slices.IndexFunc(w.Result().Cookies(), func(c *http.Cookie) bool { return strings.HasSuffix(c.Name, sessionCookie) })
		if i < 0 {
			t.Errorf("%s: no cookie (%d)", name, w.Code)
			continue
		}
		c := w.Result().Cookies()[i]
		if c.Name != x.cookie || c.Secure != strings.HasPrefix(c.Name, "__Host-") || !c.HttpOnly || c.SameSite != http.SameSiteStrictMode || c.Path != "/" || c.Domain != "" || len(c.Value) != 43 {
			t.Errorf("%s: %+v", name, c)
		}
	}
}

// Around the proxy, or to it without encryption, nobody gets in, whatever they say of themselves.
func TestAroundTheProxy(t *testing.T) {
	_, b := staffedPages(t, Options{Proxies: []netip.Prefix{netip.MustParsePrefix("10.0.0.2/32")}})
	for name, x := range map[string]struct {
		remote, proto, forwarded string
		want                     int
	}{
		"by the proxy": {"10.0.0.2:1", "https", "203.0.113.5", 200}, "by the proxy without encryption": {"10.0.0.2:1", "http", "203.0.113.5", 403}, "by a proxy that says nothing": {"10.0.0.2:1", "", "", 403},
		"around it": {"192.168.1.9:1", "", "", 403}, "around it, with its words": {"192.168.1.9:1", "https", "203.0.113.5", 403}, "this computer": {"127.0.0.1:1", "", "", 200},
	} {
		b.remote, b.header = x.remote, http.Header{}
		if x.proto != "" {
			b.header.Set("X-Forwarded-Proto", x.proto)
		}
		if x.forwarded != "" {
			b.header.Set("X-Forwarded-For", x.forwarded)
		}
		if w := b.get("/sign-in"); w.Code != x.want {
			t.Errorf("%s: %d, want %d", name, w.Code, x.want)
		}
	}
}

// An address that somebody only claims to come from does not give more tries.
func TestTriesAreCountedByTheTrueAddress(t *testing.T) {
	_, b := staffedPages(t, Options{})
	waited := false
	for i := range 4 {
		b.header.Set("X-Forwarded-For", "203.0.113."+string(rune('1'+i)))
		w := b.post("/sign-in", "name", "ada", "password", "wrong wrong wrong", "device", "x")
		waited = waited || w.Code == http.StatusTooManyRequests && w.Header().Get("Retry-After") != ""
		if strings.Contains(w.Body.String(), "wrong wrong") {
			t.Error("the page holds the password that was typed")
		}
	}
	if !waited {
		t.Error("four wrong tries from one address, each with another header, and no wait")
	}
}

func TestSigningInAndOut(t *testing.T) {
	_, b := staffedPages(t, Options{})
	b.signIn("Ada", adasPassword, "office")
	page := b.get("/stock").Body.String()
	if !strings.Contains(page, "Who acts: Ada owner, on office") {
		t.Error("the head of the page does not say who acts")
	}
	old := b.cookies[sessionCookie]
	if w := b.post("/sign-out"); w.Code != http.StatusSeeOther || b.cookies[sessionCookie] != "" {
		t.Errorf("signing out: %d, cookie %q", w.Code, b.cookies[sessionCookie])
	}
	b.cookies[sessionCookie] = old // somebody kept it
	if w := b.get("/stock"); w.Code != http.StatusSeeOther {
		t.Errorf("a token that was signed out opens: %d", w.Code)
	}
	if w := b.post("/sign-in", "name", "ada", "password", adasPassword, "back", "//evil.example/x"); w.Header().Get("Location") != "/" {
		t.Errorf("after signing in the browser is sent to %q", w.Header().Get("Location"))
	}
}

// TestEntriesAreWhoseTheyAre: on a shared tablet each entry carries who acts; what waited for one is sent while another acts, and stays the first one's.
func TestEntriesAreWhoseTheyAre(t *testing.T) {
	records, b := staffedPages(t, Options{})
	b.signIn("ada", adasPassword, "tablet by the stove")
	if w := b.post("/person", "as", "pat", "pin", "9999"); w.Code != http.StatusForbidden || strings.Contains(w.Body.String(), "9999") {
		t.Fatalf("a wrong PIN: %d, or it stands on the page", w.Code)
	}
	if w := b.post("/person", "as", "pat", "pin", patsPIN, "back", "/stock"); w.Code != http.StatusSeeOther {
		t.Fatalf("Pat's PIN: %d %s", w.Code, w.Body)
	}
	answer, code := b.send(noteOf(1, ""), noteOf(2, "ada"), noteOf(3, "ina"), noteOf(4, "eve"))
	if code != http.StatusOK || len(answer.Taken) != 2 || len(answer.Refused) != 2 {
		t.Fatalf("%d %+v", code, answer)
	}
	for i, why := range []string{"did not sign in on this device", "nobody who works here"} {
		if !strings.Contains(answer.Refused[i].Why, why) {
			t.Errorf("refused: %s, want %s", answer.Refused[i].Why, why)
		}
	}
	for n, who := range map[byte]string{1: "pat", 2: "ada"} {
		e, there, err := records.Entry(t.Context(), record.ID{n, 1})
		if err != nil || !there || e.Who != who || e.Device != "tablet by the stove" {
			t.Errorf("entry %d is by %q on %q (%v)", n, e.Who, e.Device, err)
		}
	}
	// A packer's own name in the form, or somebody else's, changes nothing: the session says who it is.
	if w := b.post("/undo", "entry", record.ID{2, 1}.String()+"-1", "who", "ada"); w.Code == http.StatusSeeOther {
		t.Error("Pat takes Ada's entry back by saying that she is Ada")
	}
	if w := b.post("/undo", "entry", record.ID{1, 1}.String()+"-1"); w.Code != http.StatusSeeOther {
		t.Errorf("Pat cannot take her own entry back: %d %s", w.Code, w.Body)
	}
}

// What waited on the board is whose it was when it was touched, by the name that stood on the page.
func TestWhatWaitedOnTheBoard(t *testing.T) {
	d := openedDay(t)
	task := d.first(t).Task
	addStaff(t, d.records)
	b := newBrowser(t, d)
	b.signIn("ada", adasPassword, "tablet")
	if w := b.post("/person", "as", "pat", "pin", patsPIN); w.Code != http.StatusSeeOther {
		t.Fatal(w.Code)
	}
	b.header.Set("Accept", "application/json")
	for _, x := range []struct {
		by   string
		code int
		who  string
	}{{"Ada", http.StatusOK, "ada"}, {`Ina "<b>"`, http.StatusUnprocessableEntity, ""}, {"Eve", http.StatusUnprocessableEntity, ""}, {"", http.StatusOK, "pat"}} {
		before := len(d.entries(t))
		w := b.post("/board/"+boardRun, "what", "start", "task", task, "entry", newEntryID(), "by", x.by, "touched_ms", "1000", "sent_ms", "2000", "sure", "1")
		all := d.entries(t)
		if w.Code != x.code || (x.who == "") != (len(all) == before) || x.who != "" && (all[len(all)-1].Who != x.who || all[len(all)-1].Device != "tablet") {
			t.Errorf("by %q: %d %s, %d entries more, the last by %q", x.by, w.Code, w.Body, len(all)-before, all[len(all)-1].Who)
		}
	}
	delete(b.cookies, sessionCookie)
	if w := b.post("/board/"+boardRun, "what", "start", "task", task, "entry", newEntryID()); w.Code != http.StatusUnauthorized || !strings.Contains(w.Body.String(), `"trouble"`) {
		t.Errorf("a queue of a device that is not signed in any more: %d %s", w.Code, w.Body)
	}
}

func TestAnInspectorSeesAndEntersNothing(t *testing.T) {
	_, b := staffedPages(t, Options{})
	b.signIn("ina", inasPassword, "visitor")
	for _, target := range []string{"/", "/stock", "/book", "/person"} {
		w := b.get(target)
		if w.Code != http.StatusOK {
			t.Errorf("%s: %d", target, w.Code)
		}
		if strings.Contains(w.Body.String(), `"<b>"`) {
			t.Errorf("%s: a name is markup", target)
		}
	}
	for _, target := range []string{"/undo", "/people", "/people/ada", "/devices", "/keys", "/run/tuesday", "/anything"} {
		if w := b.post(target, "entry", "x"); w.Code != http.StatusForbidden {
			t.Errorf("post to %s: %d", target, w.Code)
		}
	}
	if answer, code := b.send(noteOf(1, "ina")); code != http.StatusForbidden || len(answer.Taken) != 0 {
		t.Errorf("a queue: %d %+v", code, answer)
	}
	if w := b.get("/people"); w.Code != http.StatusForbidden || strings.Contains(w.Body.String(), "Pat") {
		t.Errorf("the people page: %d", w.Code)
	}
}

func TestAKeyMayOnlyMeasure(t *testing.T) {
	records, b := staffedPages(t, Options{})
	key, err := records.People().AddKey(t.Context(), "ada", "office", "probe 1")
	if err != nil {
		t.Fatal(err)
	}
	b.header.Set("Authorization", "Bearer "+people.RevealKey(key))
	cold := queued{ID: record.ID{1, 1}, Kind: "measured", Happened: record.Instant(staffedNoon.UnixMilli()), Body: []byte(`{"place":"walk-in","temp_c":"3.5"}`)}
	answer, code := b.send(cold, noteOf(2, ""), noteOf(3, "ada"))
	if code != http.StatusOK || len(answer.Taken) != 1 || len(answer.Refused) != 2 {
		t.Errorf("%d %+v", code, answer)
	}
	if e, there, err := records.Entry(t.Context(), record.ID{1, 1}); !there || err != nil || e.Who != "" || e.Device != "probe 1" {
		t.Errorf("%+v (%v)", e, err)
	}
	for _, target := range []string{"/", "/stock", "/people"} {
		if w := b.get(target); w.Code != http.StatusForbidden {
			t.Errorf("%s with a key: %d", target, w.Code)
		}
	}
	for _, bad := range []string{"Bearer kettlefrost-key-" + (people.Token{}).Reveal(), "Bearer x", "bearer", "Basic YTpi"} {
		b.header.Set("Authorization", bad)
		if _, code := b.send(cold); code != http.StatusUnauthorized {
			t.Errorf("%s: %d", bad, code)
		}
	}
}

func TestTheOwnerLooksAfterPeople(t *testing.T) {
	records, b := staffedPages(t, Options{})
	b.signIn("ada", adasPassword, "office")
	if w := b.post("/people", "name", "Bo  Reed", "role", "cook"); w.Header().Get("Location") != "/people/bo-reed" {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	for name, x := range map[string]struct {
		form []string
		code int
		says string
	}{
		"a PIN typed twice otherwise": {[]string{"pin", "4071", "pin-again", "4072"}, 422, "another the second time"}, "a weak PIN": {[]string{"pin", "1234", "pin-again", "1234"}, 422, "counts up or down"},
		"a PIN": {[]string{"pin", "5519", "pin-again", "5519"}, 200, "The PIN is set"}, "a role": {[]string{"do", "change", "name", "Bo Reed", "role", "packer"}, 200, "is here as packer"}, "no role": {[]string{"do", "change", "name", "Bo Reed", "role", "chef"}, 422, "role"},
	} {
		w := b.post("/people/bo-reed", x.form...)
		if w.Code != x.code || !strings.Contains(w.Body.String(), x.says) {
			t.Errorf("%s: %d, want %d and %q", name, w.Code, x.code, x.says)
		}
	}
	w := b.post("/keys", "name", "scale 1")
	key := regexp.MustCompile(`kettlefrost-key-[A-Za-z0-9_-]{43}`).FindString(w.Body.String())
	if key == "" || strings.Contains(b.get("/people").Body.String(), key) || w.Header().Get("Cache-Control") != "no-store" {
		t.Errorf("the key is not shown once: %d", w.Code)
	}
	page := b.get("/people").Body.String()
	for _, want := range []string{"Bo Reed", "scale 1", "office", "Ina &#34;&lt;b&gt;&#34;"} {
		if !strings.Contains(page, want) {
			t.Errorf("%q is not on the page", want)
		}
	}
	// By PIN an owner may everything but this.
	if w := b.post("/person", "as", "ada", "pin", adasPIN); w.Code != http.StatusSeeOther {
		t.Fatal(w.Code)
	}
	for _, target := range []string{"/people", "/people/pat", "/keys", "/devices"} {
		if w := b.post(target, "name", "Eve", "role", "owner", "pin", "5518", "pin-again", "5518"); w.Code != http.StatusForbidden {
			t.Errorf("by PIN, post to %s: %d", target, w.Code)
		}
	}
	if _, known, err := records.People().Person(t.Context(), "eve"); known || err != nil {
		t.Error("Eve was added")
	}
	if w := b.post("/person", "as", "pat", "pin", patsPIN); w.Code != http.StatusSeeOther {
		t.Fatal(w.Code)
	}
	if w := b.get("/people/ada"); w.Code != http.StatusForbidden {
		t.Errorf("a packer sees the people: %d", w.Code)
	}
}

// TestASecretOfOnesOwn: everybody sets the own PIN, and nobody somebody else's.
func TestASecretOfOnesOwn(t *testing.T) {
	_, b := staffedPages(t, Options{})
	b.signIn("ina", inasPassword, "visitor")
	if w := b.post("/person/secrets", "pin", "5519", "pin-again", "5519"); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "The PIN is set") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
	if w := b.post("/people/pat", "pin", "5519", "pin-again", "5519"); w.Code != http.StatusForbidden {
		t.Errorf("Ina sets Pat's PIN: %d", w.Code)
	}
	if w := b.post("/person", "as", "ina", "pin", "5519"); w.Code != http.StatusSeeOther {
		t.Fatal(w.Code)
	}
	if w := b.post("/person/secrets", "password", "a new password of mine", "password-again", "a new password of mine"); w.Code != http.StatusForbidden {
		t.Errorf("by PIN a password is set: %d", w.Code)
	}
}

func TestSomebodySignedOutEverywhere(t *testing.T) {
	records, b := staffedPages(t, Options{})
	b.signIn("ada", adasPassword, "tablet")
	b.post("/person", "as", "pat", "pin", patsPIN)
	if _, err := records.People().EndSessionsOf(t.Context(), "pat"); err != nil {
		t.Fatal(err)
	}
	if w := b.get("/stock"); w.Code != http.StatusSeeOther || !strings.HasPrefix(w.Header().Get("Location"), "/person?") {
		t.Errorf("nobody acts, and %d to %q", w.Code, w.Header().Get("Location"))
	}
	if answer, code := b.send(noteOf(1, "ada")); code != http.StatusUnauthorized {
		t.Errorf("nobody acts, and a queue is taken: %d %+v", code, answer)
	}
	if w := b.get("/person"); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "nobody acts") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}

// A packer sees the kitchen, not what it earns, nor all of it to take away; however the address is spelt.
func TestWhatAPackerSees(t *testing.T) {
	_, b := staffedPages(t, Options{})
	b.signIn("ada", adasPassword, "tablet")
	for role, pin := range map[string]string{"ada": adasPIN, "pat": patsPIN} {
		if w := b.post("/person", "as", role, "pin", pin); w.Code != http.StatusSeeOther {
			t.Fatal(w.Code)
		}
		for target, hidden := range map[string]bool{"/": false, "/stock": false, "/person": false, "/week": true, "/bills": true, "/bills/": true, "/bills.json": true, "/bill/2026-001": true, "/office": true, "/office/everything.zip": true, "//office//everything.zip": true, "/people": true} {
			w := b.get(target)
			if denied := w.Code == http.StatusForbidden; denied != (hidden && role == "pat") {
				t.Errorf("%s for %s: %d", target, role, w.Code)
			}
		}
	}
}

// Without anybody set up the pages are as they were, and say how people are added.
func TestWithoutPeople(t *testing.T) {
	r, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	for _, o := range []Options{{}, {Records: r}} {
		b := newBrowser(t, New(&shelf{now: staffedNoon}, o))
		if w := b.get("/stock"); w.Code != http.StatusOK || strings.Contains(w.Body.String(), "Who acts") {
			t.Errorf("%d", w.Code)
		}
		for _, target := range []string{"/people", "/people/x", "/sign-in", "/person", "/person/secrets"} {
			if w := b.get(target); w.Code >= 500 {
				t.Errorf("%s: %d %s", target, w.Code, w.Body)
			}
		}
		if page := b.get("/people").Body.String(); !strings.Contains(page, "kettlefrost people add") {
			t.Error("it is not said how people are added")
		}
		for _, target := range []string{"/people", "/people/x", "/sign-in", "/sign-out", "/person", "/person/secrets", "/devices", "/keys"} {
			if w := b.post(target, "name", "x", "password", "y"); w.Code >= 500 {
				t.Errorf("post to %s: %d", target, w.Code)
			}
		}
	}
}

// FuzzSessionCookie: whatever stands in the cookies and the header of a key, nobody is let in and nothing breaks.
func FuzzSessionCookie(f *testing.F) {
	f.Add("", "")
	f.Add((people.Token{}).Reveal(), "Bearer "+people.RevealKey(people.Token{}))
	f.Add(strings.Repeat("A", 43), "Bearer")
	f.Add("a=b; c", "Basic x")
	_, b := staffedPages(f, Options{})
	f.Fuzz(func(t *testing.T, cookie, authorization string) {
		r := httptest.NewRequest(http.MethodGet, "/stock", nil)
		r.Host, r.RemoteAddr = "localhost", "127.0.0.1:1"
		r.Header.Set("Cookie", sessionCookie+"="+cookie+"; "+secureSessionCookie+"="+cookie)
		if authorization != "" {
			r.Header.Set("Authorization", authorization)
		}
		w := httptest.NewRecorder()
		b.h.ServeHTTP(w, r)
		if w.Code == http.StatusOK || w.Code >= 500 {
			t.Errorf("%q and %q: %d", cookie, authorization, w.Code)
		}
	})
}

func TestPagesOfPeopleEmptyAndFull(t *testing.T) {
	rendered(t, "denied", deniedTemplate)
	rendered(t, "signin", signInTemplate, func(p *signInPage) { p.On = "" }, func(p *signInPage) { p.SetUp = false })
	rendered(t, "person", personTemplate, func(p *personPage) { p.As = nil }, func(p *personPage) { p.As, p.Now = nil, "" })
	rendered(t, "secrets", secretsTemplate, func(p *secretsPage) { p.Sure = false })
	rendered(t, "people", peopleTemplate, func(p *peoplePage) { p.NotSetUp = false }, func(p *peoplePage) { p.NotSetUp, p.SignIn = false, "" })
	rendered(t, "someone", oneTemplate, func(p *onePage) { p.SignIn = "" }, func(p *onePage) { p.SignIn, p.Person.Left = "", "" })
}
