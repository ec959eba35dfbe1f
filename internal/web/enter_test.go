package web

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// post sends a form as Ada, unless it says who.
func post(h http.Handler, target string, form url.Values) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodPost, target, strings.NewReader(form.Encode()))
	r.Host = "localhost:8090"
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.AddCookie(&http.Cookie{Name: whoCookie, Value: "Ada"})
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func postJSON(h http.Handler, target, body string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodPost, target, strings.NewReader(body))
	r.Host = "localhost:8090"
	r.Header.Set("Content-Type", "application/json")
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

const queueOfThree = `{"entries":[
	{"id":"00000000000000000000000000000001","kind":"noted","happened_ms":1790000000000,"who":"Bo","device":"tablet 2","body":{"text":"the walk-in hums"}},
	{"id":"00000000000000000000000000000002","kind":"weighed","happened_ms":1790000060000,"who":"Bo","device":"tablet 2","body":{"run":"tue","dish":"soup","output":"soup","net_g":"0"}},
	{"id":"00000000000000000000000000000003","kind":"voided","happened_ms":1790000120000,"who":"Bo","device":"tablet 2","corrects":"00000000000000000000000000000001","body":{"why":"it stopped"}}]}`

// Entries that waited on a device are taken in, in order and once; what makes no sense is refused by name and does not keep back the rest.
func TestTheQueueOfADevice(t *testing.T) {
	records := recordsOf(t)
	h := New(&shelf{now: monthBefore()}, Options{Records: records})
	for range 2 {
		w := postJSON(h, "/enter", queueOfThree)
		var answer queueAnswer
		if err := json.Unmarshal(w.Body.Bytes(), &answer); err != nil || w.Code != http.StatusOK {
			t.Fatalf("%d %s (%v)", w.Code, w.Body, err)
		}
		if len(answer.Taken) != 2 || answer.Taken[0].Seq != 1 || answer.Taken[1].Seq != 2 || len(answer.Refused) != 1 || answer.Refused[0].ID[15] != 2 || !strings.Contains(answer.Refused[0].Why, "net_g") {
			t.Errorf("%+v", answer)
		}
	}
	for says, body := range map[string]string{"cannot be read": `{"entries":[{"weight":3}]}`, "id is missing": `{"entries":[{"kind":"noted","happened_ms":1790000000000,"who":"Bo","body":{"text":"x"}}]}`} {
		if w := postJSON(h, "/enter", body); !strings.Contains(w.Body.String(), says) {
			t.Errorf("%s: %d %s", body, w.Code, w.Body)
		}
	}
}

// A form of another site, or one on a kitchen without records, enters nothing; neither does one that comes without its number.
func TestWhatIsNotEntered(t *testing.T) {
	h := New(&shelf{now: monthBefore()}, Options{Records: soupDiary(t)})
	r := httptest.NewRequest(http.MethodPost, "/undo", strings.NewReader("entry=x"))
	r.Host = "localhost:8090"
	r.Header.Set("Origin", "https://elsewhere.example")
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	if w.Code != http.StatusForbidden {
		t.Errorf("from another site: %d", w.Code)
	}
	if w := post(New(&shelf{now: monthBefore()}, Options{}), "/undo", url.Values{"entry": {"x"}}); w.Code != http.StatusConflict || !strings.Contains(w.Body.String(), "No records are kept") {
		t.Errorf("without records: %d", w.Code)
	}
	if w := post(h, "/undo", url.Values{"entry": {"x"}}); w.Code != http.StatusBadRequest {
		t.Errorf("without its number: %d", w.Code)
	}
	if w := post(h, "/undo", url.Values{"entry": {strings.Repeat("f", 32) + "-1"}}); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "Nothing was entered") {
		t.Errorf("what was never entered: %d %s", w.Code, w.Body)
	}
}

// What was entered stands on the next page and can be taken back there, once, by whoever is at the device.
func TestTakingBack(t *testing.T) {
	records := soupDiary(t)
	h := New(&shelf{now: monthBefore()}, Options{Records: records})
	did := record.ID{7}.String() + "-1" // the hold
	page := get(h, "/stock?units=us&did="+did).Body.String()
	inOrder(t, page, `action="/undo"`, "Entered:", "held no. 30-39 of P-soup: cooled slowly", `value="`+did+`"`, `value="/stock?units=us"`)
	for range 2 {
		w := post(h, "/undo", url.Values{"entry": {did}, "back": {"/stock?units=us"}})
		if w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/stock?units=us" {
			t.Errorf("%d to %q: %s", w.Code, w.Header().Get("Location"), w.Body)
		}
	}
	err := records.Lots(t.Context(), func(s *lots.State, _ finding.List) error {
		if s.Lot("P-soup").Held() {
			t.Error("it is still held")
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if page := get(h, "/stock?did="+did).Body.String(); strings.Contains(page, "Entered:") {
		t.Error("what was taken back is told as entered")
	}
	for address, want := range map[string]string{"https://elsewhere.example/": "/", "//elsewhere.example": "/", `/\elsewhere.example`: "/", "/lot?lot=a": "/lot?lot=a"} {
		if got := ours(address); got != want {
			t.Errorf("%q leads to %q, want %q", address, got, want)
		}
	}
}

// Nobody enters anything without a name: it is asked for, nothing typed is lost, and the device keeps it.
func TestWhoActs(t *testing.T) {
	h := New(&shelf{now: monthBefore()}, Options{Records: soupDiary(t)})
	did := record.ID{7}.String() + "-1"
	form := url.Values{"entry": {did}, "back": {"/stock"}}
	send := func(form url.Values, cookies ...*http.Cookie) *httptest.ResponseRecorder {
		r := httptest.NewRequest(http.MethodPost, "/undo", strings.NewReader(form.Encode()))
		r.Host = "localhost:8090"
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		for _, c := range cookies {
			r.AddCookie(c)
		}
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		return w
	}
	w := send(form)
	if w.Code != http.StatusUnprocessableEntity {
		t.Errorf("status %d", w.Code)
	}
	inOrder(t, w.Body.String(), "Who are you?", `action="/undo"`, `name="back" value="/stock"`, `name="entry" value="`+did+`"`, `name="who"`)
	form.Set("who", "Zoë")
	w = send(form)
	if w.Code != http.StatusSeeOther || len(w.Result().Cookies()) != 1 {
		t.Fatalf("status %d, cookies %v", w.Code, w.Result().Cookies())
	}
	if c := w.Result().Cookies()[0]; !c.HttpOnly || c.SameSite != http.SameSiteStrictMode || c.Value != "Zo%C3%AB" {
		t.Errorf("cookie %v", c)
	}
}
