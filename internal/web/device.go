package web

import (
	"net/http"
	"net/url"

	"kettlefrost/internal/language"
	"kettlefrost/internal/unit"
)

// What a device keeps for itself about how pages are shown: nothing about anybody.
const (
	unitsCookie    = "units"    // us or metric
	languageCookie = "language" // a tag such as es-US
	yearSeconds    = 365 * 24 * 3600
)

const (
	unitsKey   = "units" // of an address that says in which units a page is wanted
	shownUnits = "shown" // of a form: the units of the page on which it was filled in, so that a bare number means what it said there
)

// Addresses of what a device chooses for itself.
const (
	devicePath = "/device"
	unitsPath  = devicePath + "/units"
)

// deviceRoutes are what each device keeps for itself: units, language, looks, keys.
func (s *server) deviceRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+devicePath, s.showDevice)
	mux.HandleFunc("POST "+devicePath, s.keepDevice)
	mux.HandleFunc("POST "+unitsPath, s.switchUnits)
	mux.HandleFunc("GET "+keysPath, s.showKeys)
	mux.HandleFunc("GET "+componentsPath, s.showComponents)
	mux.HandleFunc("POST "+componentsPath, showComponentsAgain)
}

// switchUnits keeps the units that this device was told, and goes back to the page on which it was told.
func (s *server) switchUnits(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	system, err := unit.ParseSystem(r.PostFormValue(unitsKey))
	if err != nil {
		s.refuse(w, r, http.StatusBadRequest, "Units are °F and lb first, or °C and kg first: press one of the two. Nothing was changed.")
		return
	}
	keepOnDevice(w, unitsCookie, system.String())
	http.Redirect(w, r, ours(r.PostFormValue(backField)), http.StatusSeeOther)
}

// keepOnDevice has the device that asked keep something for a year, or forget it when it is empty.
func keepOnDevice(w http.ResponseWriter, name, value string) {
	c := http.Cookie{Name: name, Value: url.QueryEscape(value), Path: "/", MaxAge: yearSeconds, HttpOnly: true, SameSite: http.SameSiteLaxMode}
	if value == "" {
		c.MaxAge = -1
	}
	http.SetCookie(w, &c)
}

// backTo is the address of a page as it is asked for again: without the units that this device chooses, and without what was just entered. A
// form that was sent is not sent again: it says where it came from, or stands at an address of its own. It is "" where there is none.
func (s *server) backTo(r *http.Request) string {
	query := r.URL.Query()
	if said := r.PostForm.Get(backField); r.Method != http.MethodGet && said != "" {
		return ours(said)
	}
	query.Del(unitsKey)
	query.Del("did")
	if _, pattern := s.mux.Handler(&http.Request{Method: http.MethodGet, URL: &url.URL{Path: r.URL.Path}}); r.Method != http.MethodGet && (pattern == "" || pattern == "/") {
		return ""
	}
	return ours(r.URL.EscapedPath() + queryOf(query))
}

// speaks is the language that a page is written in: the one that this device was told, or the best of those that its browser asks for.
func (s *server) speaks(r *http.Request) language.Language {
	if l, err := language.Parse(cookie(r, languageCookie)); err == nil {
		return l
	}
	return language.Match(r.Header.Get("Accept-Language"))
}
