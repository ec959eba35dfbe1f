package web

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

func TestPapersAreShownEmptyAndFull(t *testing.T) { rendered(t, "papers", papersTemplate) }

// Each sheet comes as PDF in the language asked for, or in the one the browser asks for; what there is not is told.
func TestSheetsToPrint(t *testing.T) {
	house := demoKitchen(t)
	for _, c := range []struct {
		target, accepts string
		status          int
		has             []string
	}{
		{"/run/tuesday/papers", "", 200, []string{"Weigh-up sheet", `href="/run/tuesday/papers/method.pdf?language=en-US&amp;paper=letter"`, `<option value="en-US" selected>`}},
		{"/run/tuesday/papers?paper=a4", "fr-CA,fr;q=0.9", 200, []string{`href="/run/tuesday/papers/method.pdf?language=fr-CA&amp;paper=a4"`}},
		{"/run/tuesday/papers/cooling.pdf?language=es-US", "", 200, []string{"%PDF-", "(es-US)"}},
		{"/run/tuesday/papers/weigh-up.pdf?paper=a4&units=metric", "", 200, []string{"%PDF-", "595.28 841.89"}},
		{"/run/tuesday/papers/menu.pdf", "", 404, []string{"There is no sheet of that name"}},
		{"/run/tuesday/papers/method.doc", "", 404, []string{"There is no sheet of that name"}},
		{"/run/nobody/papers", "", 404, []string{"There is no run of that name"}},
	} {
		r := httptest.NewRequest(http.MethodGet, c.target, nil)
		r.Host = "localhost:8090"
		r.Header.Set("Accept-Language", c.accepts)
		w := httptest.NewRecorder()
		house.ServeHTTP(w, r)
		if w.Code != c.status {
			t.Errorf("%s: %d, want %d", c.target, w.Code, c.status)
		}
		for _, want := range c.has {
			if !strings.Contains(w.Body.String(), want) {
				t.Errorf("%s lacks %q", c.target, want)
			}
		}
	}
}
