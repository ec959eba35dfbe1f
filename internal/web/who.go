package web

import (
	"cmp"
	"net/http"
	"net/url"
)

// Cookies that a device keeps.
const (
	whoCookie    = "kettlefrost-who"
	deviceCookie = "kettlefrost-device"
	cookieDays   = 400
)

// who acts on this device: the form says it, or the last form did. It is "" when nobody said.
func (s *server) who(w http.ResponseWriter, r *http.Request) string {
	if v := visitorOf(r); v != nil {
		return v.actor.Person
	}
	kept := cookie(r, whoCookie)
	said := ""
	if r.Method == http.MethodPost && r.Header.Get("Content-Type") != "application/json" {
		said = tidy(r.PostFormValue(whoField))
	}
	if said != "" && said != kept {
		http.SetCookie(w, &http.Cookie{Name: whoCookie, Value: url.QueryEscape(said), Path: "/", MaxAge: cookieDays * 24 * 3600, HttpOnly: true, SameSite: http.SameSiteStrictMode})
	}
	return cmp.Or(said, kept)
}

// device is what an entry is written with.
func device(r *http.Request) string {
	if v := visitorOf(r); v != nil {
		return v.actor.Device
	}
	return cmp.Or(cookie(r, deviceCookie), "browser")
}

func cookie(r *http.Request, name string) string {
	c, err := r.Cookie(name)
	if err != nil {
		return ""
	}
	value, err := url.QueryUnescape(c.Value)
	if err != nil {
		return ""
	}
	return tidy(value)
}

// whoPage is all that templates/who.html may show: it asks who acts, and keeps the form that was sent.
type whoPage struct {
	shell
	Action string
	Kept   []kept
}

var whoTemplate = parse[whoPage]("who")

// askWho asks who it was that sent a form, and sends all of it again with the answer.
func (s *server) askWho(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	v := whoPage{shell: s.inShell(r, book.Kitchen, "Who are you?", ""), Action: r.URL.RequestURI(), Kept: keep(r.PostForm, whoField)}
	whoTemplate.show(w, http.StatusUnprocessableEntity, v)
}
