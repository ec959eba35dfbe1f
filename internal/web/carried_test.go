package web

import (
	"html"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"kettlefrost/internal/people"
)

// hiddenField is one of a form that is sent along.
var hiddenField = regexp.MustCompile(`<input type="hidden" name="([^"]*)" value="([^"]*)">`)

// carriedFields are the hidden fields of the form of a page that goes to an address, as pairs.
func carriedFields(t *testing.T, page, action string) (pairs []string) {
	t.Helper()
	_, form, ok := strings.Cut(page, `action="`+html.EscapeString(action)+`"`)
	if !ok {
		t.Fatalf("no form goes to %s: %s", action, page)
	}
	form, _, _ = strings.Cut(form, "</form>")
	for _, m := range hiddenField.FindAllStringSubmatch(form, -1) {
		pairs = append(pairs, html.UnescapeString(m[1]), html.UnescapeString(m[2]))
	}
	return pairs
}

// sentTo is where a form that nobody may send is found again.
func sentTo(t *testing.T, w *httptest.ResponseRecorder, door string) string {
	t.Helper()
	u, err := url.Parse(w.Header().Get("Location"))
	if back := u.Query().Get("back"); err == nil && w.Code == http.StatusSeeOther && u.Path == door && strings.HasPrefix(back, carriedPath) {
		return back
	}
	t.Fatalf("answered with %d to %q", w.Code, w.Header().Get("Location"))
	return ""
}

// A form that is sent after the session was lost leads to signing in, comes back with all that was typed, and is entered once.
func TestALostSessionDoesNotLoseTheEntry(t *testing.T) {
	records, b := staffedPages(t, Options{})
	const to, why = "/receive?units=metric", `torn "bag" <b>&</b>`
	id := newEntryID()
	back := sentTo(t, b.post(to, "entry", id, "why", why, "empty", "", "draft", "x|y"), "/sign-in")
	if page := b.get("/sign-in?back=" + url.QueryEscape(back)).Body.String(); !strings.Contains(page, "What you sent is kept") {
		t.Error("whoever is to sign in is not told that the form is kept")
	}
	if w := b.get(back); w.Code != http.StatusSeeOther || strings.Contains(w.Body.String(), "torn") {
		t.Errorf("a stranger who knows the address sees %d %s", w.Code, w.Body)
	}
	if w := b.post("/sign-in", "name", "ada", "password", adasPassword, "device", "tablet", "back", back); w.Code != http.StatusSeeOther || w.Header().Get("Location") != back {
		t.Fatalf("signed in, and sent to %q", w.Header().Get("Location"))
	}
	page := b.get(back).Body.String()
	inOrder(t, page, "Nothing of it is entered yet", "<dt>why</dt>", html.EscapeString(why)[:4], "Enter it now")
	if strings.Contains(page, why) || strings.Contains(page, "<dt>entry</dt>") {
		t.Error("what was typed is not escaped, or numbers are shown to people")
	}
	fields := carriedFields(t, page, to)
	sent := url.Values{}
	for i := 0; i < len(fields); i += 2 {
		sent.Add(fields[i], fields[i+1])
	}
	if sent.Get("entry") != id || sent.Get("why") != why || !sent.Has("empty") {
		t.Errorf("sent along: %v", sent)
	}
	if head, err := records.Verify(t.Context()); err != nil || head.Seq == 0 {
		t.Fatal(head, err)
	}
}

// What is carried past signing in is entered once, however often it is sent, and what it says is as it was typed.
func TestACarriedEntryIsMadeOnce(t *testing.T) {
	records, b := staffedPages(t, Options{})
	before, err := records.Verify(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	const to = "/customers/new"
	back := sentTo(t, b.post(to, "entry", newEntryID(), "name", "Corner Deli", "back", "https://elsewhere.example/"), "/sign-in")
	b.post("/sign-in", "name", "ada", "password", adasPassword, "device", "tablet", "back", back)
	fields := carriedFields(t, b.get(back).Body.String(), to)
	for range 2 {
		w := b.post(to, fields...)
		if w.Code != http.StatusSeeOther || strings.Contains(w.Header().Get("Location"), "elsewhere") {
			t.Fatalf("%d to %q: %s", w.Code, w.Header().Get("Location"), w.Body)
		}
	}
	after, err := records.Verify(t.Context())
	if err != nil || after.Seq != before.Seq+1 {
		t.Errorf("%d entries came of it, want 1 (%v)", after.Seq-before.Seq, err)
	}
}

// An inspector's entry is refused with a way to change over, and is not lost on it.
func TestADeniedEntryIsKeptForWhoMay(t *testing.T) {
	_, b := staffedPages(t, Options{})
	b.signIn(`Ina "<b>"`, inasPassword, "tablet")
	w := b.post("/customers/new", "entry", newEntryID(), "name", "Corner Deli")
	if w.Code != http.StatusForbidden || !strings.Contains(w.Body.String(), "What you sent is kept") {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	m := regexp.MustCompile(`href="/person\?back=([^"]+)"`).FindStringSubmatch(w.Body.String())
	for i := 0; m != nil && !strings.Contains(m[1], "carried") && i < 1; i++ {
		_, rest, _ := strings.Cut(w.Body.String(), "What you sent is kept")
		m = regexp.MustCompile(`href="/person\?back=([^"]+)"`).FindStringSubmatch(rest)
	}
	if m == nil {
		t.Fatalf("no way to change over: %s", w.Body)
	}
	back, _ := url.QueryUnescape(html.UnescapeString(m[1]))
	if w := b.post("/person", "as", "pat", "pin", patsPIN, "back", back); w.Header().Get("Location") != back {
		t.Fatalf("changed over, and sent to %q: %d", w.Header().Get("Location"), w.Code)
	}
	if page := b.get(back).Body.String(); !strings.Contains(page, "Corner Deli") {
		t.Errorf("the packer does not find the form: %s", page)
	}
}

// What is about money is not shown to a packer who signs in next.
func TestACarriedFormOfMoneyIsNotForEverybody(t *testing.T) {
	_, b := staffedPages(t, Options{})
	back := sentTo(t, b.post("/bills/new", "entry", newEntryID(), "note", "four hundred"), "/sign-in")
	b.signIn("ada", adasPassword, "tablet")
	b.post("/person", "as", "pat", "pin", patsPIN, "back", "/stock")
	if w := b.get(back); w.Code != http.StatusForbidden || strings.Contains(w.Body.String(), "four hundred") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}

func TestWhatIsNotCarried(t *testing.T) {
	_, b := staffedPages(t, Options{})
	for name, send := range map[string]func() *httptest.ResponseRecorder{
		"a PIN":            func() *httptest.ResponseRecorder { return b.post("/person/secrets", "pin", "4071") },
		"people":           func() *httptest.ResponseRecorder { return b.post("/people", "name", "Zoë") },
		"what is too long": func() *httptest.ResponseRecorder { return b.post("/receive", "note", strings.Repeat("x", mostCarried)) },
		"nothing":          func() *httptest.ResponseRecorder { return b.post("/receive") },
		"a file": func() *httptest.ResponseRecorder {
			r := httptest.NewRequest(http.MethodPost, "/logs/import", strings.NewReader("--x--"))
			r.Header.Set("Content-Type", "multipart/form-data; boundary=x")
			return b.do(r)
		},
	} {
		if w := send(); w.Code != http.StatusUnauthorized || strings.Contains(w.Body.String(), "carried") {
			t.Errorf("%s: %d to %q", name, w.Code, w.Header().Get("Location"))
		}
	}
}

func TestCarriedFormsAreFew(t *testing.T) {
	var c carried
	at := staffedNoon
	first := c.add("/a", url.Values{"x": {strings.Repeat("x", mostCarried-10)}}, at)
	for range mostCarriedAll / mostCarried {
		c.add("/b", url.Values{"x": {strings.Repeat("x", mostCarried-10)}}, at)
	}
	if _, there := c.find(first, at); there {
		t.Error("the oldest is still there though there are too many")
	}
	last := c.add("/c", url.Values{"x": {"y"}}, at)
	if f, there := c.find(last, at.Add(longestCarried)); !there || f.action != "/c" {
		t.Error("the last is gone")
	}
	if _, there := c.find(last, at.Add(longestCarried+time.Second)); there {
		t.Error("it is there after its time")
	}
	if _, there := c.find("", at); there {
		t.Error("no number finds a form")
	}
}

// The answer to a form that was taken names its draft, and to one that was refused it does not.
func TestADraftIsForgottenWhenItIsSent(t *testing.T) {
	_, b := staffedPages(t, Options{})
	b.signIn("ada", adasPassword, "tablet")
	sent := func(w *httptest.ResponseRecorder) string {
		for _, c := range w.Result().Cookies() {
			if c.Name == sentCookie {
				return c.Value
			}
		}
		return ""
	}
	for name, c := range map[string]struct {
		draft, customer string
		status          int
		want            string
	}{
		"taken":    {"/customers/new|a=b", "Corner Deli", http.StatusSeeOther, "%2Fcustomers%2Fnew%7Ca%3Db"},
		"refused":  {"/customers/new|a=b", "", http.StatusUnprocessableEntity, ""},
		"without":  {"", "Corner Shop", http.StatusSeeOther, ""},
		"too long": {strings.Repeat("x", longestDraft+1), "Corner Bar", http.StatusSeeOther, ""},
	} {
		w := b.post("/customers/new", "entry", newEntryID(), "name", c.customer, "draft", c.draft)
		if got := sent(w); w.Code != c.status || got != c.want {
			t.Errorf("%s: %d, the cookie says %q; want %d and %q", name, w.Code, got, c.status, c.want)
		}
	}
}

func TestWhoMayLookAtACarriedForm(t *testing.T) {
	r := httptest.NewRequest(http.MethodGet, "/", nil)
	if !mayLookAt(r, "/bills/new") {
		t.Error("where nobody signs in everybody sees all")
	}
	if packer := on(r, &visitor{person: people.Person{Role: "packer"}}); mayLookAt(packer, "/bills/new") || !mayLookAt(packer, "/receive") {
		t.Error("a packer sees money, or does not see what comes in")
	}
}
