package web

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
)

// answering sends a form to a handler that counts, and says where it was led.
func answering(a *answered, form url.Values, next http.HandlerFunc) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodPost, "/stock", strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	if err := r.ParseForm(); err != nil {
		panic(err)
	}
	w := httptest.NewRecorder()
	a.once(w, r, next)
	return w
}

// Of a form that is sent several times at once one sending is taken in, and all lead to the same page.
func TestAFormSentAtOnce(t *testing.T) {
	var a answered
	var taken atomic.Int64
	wait := make(chan struct{})
	enter := func(w http.ResponseWriter, r *http.Request) {
		<-wait
		http.Redirect(w, r, fmt.Sprint("/done/", taken.Add(1)), http.StatusSeeOther)
	}
	var all sync.WaitGroup
	for range 5 {
		all.Go(func() {
			if w := answering(&a, url.Values{"entry": {"1"}, "mass": {"2 lb"}}, enter); w.Header().Get("Location") != "/done/1" {
				t.Errorf("%d leads to %q", w.Code, w.Header().Get("Location"))
			}
		})
	}
	close(wait)
	all.Wait()
	if taken.Load() != 1 {
		t.Errorf("taken in %d times", taken.Load())
	}
}

// What was refused is looked at anew, as is a form with something else in it or without a number; and what is remembered is bounded.
func TestWhatIsNotTheSameForm(t *testing.T) {
	var a answered
	n := 0
	answer := func(status int) http.HandlerFunc {
		return func(w http.ResponseWriter, r *http.Request) {
			n++
			w.Header().Set("Location", fmt.Sprint("/done/", n))
			w.WriteHeader(status)
		}
	}
	for i, c := range []struct {
		form   url.Values
		status int
		want   string
	}{
		{url.Values{"entry": {"1"}}, http.StatusUnprocessableEntity, "/done/1"},
		{url.Values{"entry": {"1"}}, http.StatusSeeOther, "/done/2"},
		{url.Values{"entry": {"1"}}, http.StatusSeeOther, "/done/2"},
		{url.Values{"entry": {"1"}, "mass": {"3 lb"}}, http.StatusSeeOther, "/done/3"},
		{url.Values{"mass": {"3 lb"}}, http.StatusSeeOther, "/done/4"},
		{url.Values{"mass": {"3 lb"}}, http.StatusSeeOther, "/done/5"},
	} {
		if w := answering(&a, c.form, answer(c.status)); w.Header().Get("Location") != c.want {
			t.Errorf("%d: leads to %q, want %q", i, w.Header().Get("Location"), c.want)
		}
	}
	for i := range mostAnswered + 10 {
		answering(&a, url.Values{"entry": {fmt.Sprint("more ", i)}}, answer(http.StatusSeeOther))
	}
	if len(a.forms) != mostAnswered || len(a.order) != mostAnswered {
		t.Errorf("%d and %d are remembered, want %d", len(a.forms), len(a.order), mostAnswered)
	}
}
