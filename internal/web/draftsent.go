package web

import (
	"net/http"
	"net/url"
)

// A device keeps what is typed into a form until it is sent (static/drafts.js): the form says under which name, and when it was taken the answer
// says that name again in a cookie that the script reads. A form without that script has no such field.
const (
	draftField    = "draft"
	sentCookie    = "kettlefrost-sent"
	longestDraft  = 400 // bytes of a name
	sentCookieAge = 3600
)

// tellSent tells a device which of its forms was taken.
func tellSent(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method == http.MethodPost {
			w = &sentTeller{ResponseWriter: w, request: r}
		}
		next.ServeHTTP(w, r)
	})
}

// sentTeller decides when the status is known.
type sentTeller struct {
	http.ResponseWriter
	request *http.Request
	decided bool
}

func (t *sentTeller) WriteHeader(status int) {
	if !t.decided {
		t.decided = true
		// whoever read the form has parsed it; a form that nobody read was not taken
		if name := t.request.PostForm.Get(draftField); status < http.StatusBadRequest && name != "" && len(name) <= longestDraft {
			http.SetCookie(t, &http.Cookie{Name: sentCookie, Value: url.QueryEscape(name), Path: "/", MaxAge: sentCookieAge, SameSite: http.SameSiteStrictMode})
		}
	}
	t.ResponseWriter.WriteHeader(status)
}

func (t *sentTeller) Write(p []byte) (int, error) {
	if !t.decided {
		t.WriteHeader(http.StatusOK)
	}
	return t.ResponseWriter.Write(p)
}

// Unwrap is for http.ResponseController.
func (t *sentTeller) Unwrap() http.ResponseWriter { return t.ResponseWriter }
