package web

import (
	"net/http"
	"net/url"
	"slices"
	"time"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// Places of the cold store among the pages.
const (
	stockPath   = "/stock"
	placePath   = "/stock/place"
	handlePath  = "/stock/handle"
	countPath   = "/stock/count"
	countedPath = "/stock/counted"
	putPath     = "/stock/put"
	labelPath   = "/stock/label"
	receivePath = "/receive"
)

// coldRoutes are places and what is in them.
func (s *server) coldRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+stockPath, s.showStock)
	mux.HandleFunc("GET /stock.json", s.showStockJSON)
	mux.HandleFunc("GET /stock/map/{file}", s.showFreezerMap)
	mux.HandleFunc("GET "+placePath, s.showPlace)
	mux.HandleFunc("GET "+handlePath, s.showHandle)
	mux.HandleFunc("POST "+handlePath, s.entering(s.handle))
	mux.HandleFunc("GET "+countPath, s.showCount)
	mux.HandleFunc("POST "+countPath, s.entering(s.finishCount))
	mux.HandleFunc("GET "+countedPath, s.showCounted)
	mux.HandleFunc("GET "+putPath, s.showPut)
	mux.HandleFunc("GET "+labelPath, s.showTubLabels)
	mux.HandleFunc("GET "+receivePath, s.showReceive)
	mux.HandleFunc("POST "+receivePath, s.entering(s.receive))
}

// cold is what lies where, looked at for one page. It is lent while a page is made, and not to be kept.
type cold struct {
	book  kitchen.Book
	rd    reader
	query url.Values
	store coldstore.Store
	state *lots.State
	found finding.List // about entries
}

// ofCold makes a page of what lies where: at returns what then shows it, to however slow a browser. Without records the page of the stock says
// how to keep them.
func (s *server) ofCold(w http.ResponseWriter, r *http.Request, at func(cold) (show func())) {
	book, _ := s.house.Book()
	if s.records == nil {
		stockTemplate.show(w, http.StatusOK, stockPage{shell: s.inShell(r, book.Kitchen, "Stock", "stock"), None: true})
		return
	}
	var show func()
	err := s.records.Cold(r.Context(), book, s.stockDay(), func(store coldstore.Store, state *lots.State, found finding.List) error {
		show = at(cold{book: book, rd: readerOf(book.Kitchen, r), query: r.URL.Query(), store: store, state: state, found: found})
		return nil
	})
	if err != nil {
		stockTemplate.show(w, http.StatusInternalServerError, stockPage{shell: s.inShell(r, book.Kitchen, "Stock", "stock"), Problem: sentence(err)})
		return
	}
	show()
}

// typedField is one that is scanned or typed, and larger or with more to it than others.
type typedField struct{ Key, Label, Hint, Value, Problem string }

// ID is fit for an id attribute.
func (f typedField) ID() string { return "f-" + f.Key }

// stockDay is the day on the kitchen's clock.
func (s *server) stockDay() record.Day { return record.Day(s.house.Now().Format(time.DateOnly)) }

// coldURL is an address with the units that are read now.
func coldURL(path string, query url.Values, pairs ...string) string {
	q := url.Values{}
	if units := query.Get("units"); units != "" {
		q.Set("units", units)
	}
	for i := 0; i+1 < len(pairs); i += 2 {
		q.Add(pairs[i], pairs[i+1])
	}
	return path + queryOf(q)
}

// mapView is the picture of places; of all when none is named.
func mapView(query url.Values, alt string, places ...string) pictureView {
	var pairs []string
	for _, p := range places {
		pairs = append(pairs, "place", p)
	}
	return pictures{path: stockPath, rest: coldURL("", query, pairs...)}.at("map/places").saying(alt)
}

// showFreezerMap answers with a drawing of what is where.
func (s *server) showFreezerMap(w http.ResponseWriter, r *http.Request) {
	looks := []look{{}, {narrow: true}, {dark: true}, {narrow: true, dark: true}}
	i := slices.IndexFunc(looks, func(l look) bool { return "places"+l.suffix() == r.PathValue("file") })
	if i < 0 || s.records == nil {
		book, _ := s.house.Book()
		s.missing(w, r, book, "There is no such drawing.")
		return
	}
	s.ofCold(w, r, func(c cold) func() {
		m := draw.MapOf(c.store, c.rd.units, c.query["place"]...)
		m.Width = looks[i].width()
		return func() { writeSVG(w, m.Picture(), looks[i]) }
	})
}

// showStockJSON answers with what is where, for programs; of one place and its parts when it is named.
func (s *server) showStockJSON(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		writeJSON(w, http.StatusConflict, refusal{Error: "no records are kept here: start with kettlefrost serve --records kitchen.records"})
		return
	}
	s.ofCold(w, r, func(c cold) func() {
		report := c.store.Report(c.rd.units, c.found)
		if text := c.query.Get("place"); text != "" {
			p, ok := c.store.Layout.Find(text)
			if !ok {
				return func() { writeJSON(w, http.StatusNotFound, refusal{Error: "there is no such place: " + text}) }
			}
			report, _ = report.Only(p.ID)
		}
		return func() { writeJSON(w, http.StatusOK, report) }
	})
}

// whenText is a time on the kitchen's clock.
func (s *server) whenText(at record.Instant) string {
	return time.UnixMilli(int64(at)).In(s.house.Now().Location()).Format("2 Jan 2006, 15:04")
}
