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

// deviceRoutes are what each device keeps for itself: units, language, looks.
func (s *server) deviceRoutes(mux *http.ServeMux) {
	mux.HandleFunc("POST "+unitsPath, s.switchUnits)
}

// switchUnits keeps the units that this device was told, and goes back to the page on which it was told.
func (s *server) switchUnits(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	system, err := unit.ParseSystem(r.PostFormValue(unitsKey))
	if err != nil {
		s.refuse(w, r, http.StatusBadRequest, "Units are °F and lb first, or °C and kg first: press one of the two. Nothing was changed.")
		return
	}
	onDevice(w, unitsCookie, system.String())
	http.Redirect(w, r, ours(r.PostFormValue(backField)), http.StatusSeeOther)
}

// onDevice has the device that asked keep something for a year.
func onDevice(w http.ResponseWriter, name, value string) {
	http.SetCookie(w, &http.Cookie{Name: name, Value: url.QueryEscape(value), Path: "/", MaxAge: yearSeconds, HttpOnly: true, SameSite: http.SameSiteLaxMode})
}

// backTo is the address of a page as it is asked for again: without the units that this device chooses, and without what was just entered.
// A form that was sent is not sent again: where it came from is said by the form.
func backTo(r *http.Request) string {
	query := r.URL.Query()
	if said := r.PostForm.Get(backField); r.Method != http.MethodGet && said != "" {
		return ours(said)
	}
	query.Del(unitsKey)
	query.Del("did")
	return ours(r.URL.EscapedPath() + queryOf(query))
}

// speaks is the language that a page is written in: the one that this device was told, or the best of those that its browser asks for.
func (s *server) speaks(r *http.Request) language.Language {
	if l, err := language.Parse(cookie(r, languageCookie)); err == nil {
		return l
	}
	return language.Match(r.Header.Get("Accept-Language"))
}
