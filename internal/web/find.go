package web

import (
	"fmt"
	"net/http"
	"net/url"

	"kettlefrost/internal/app"
	"kettlefrost/internal/find"
	"kettlefrost/internal/people"
)

const (
	findPath = "/find"
	findKey  = "q"
	kindKey  = "kind"
)

// findPage is all that templates/find.html may show.
type findPage struct {
	shell
	Query   string
	Problem string
	Asked   bool
	Tally   string
	Notes   []string
	Scanned string // what a scanner read, in words
	Groups  []foundGroup
	JSON    string // address
}

// foundGroup is what was found of one kind.
type foundGroup struct {
	Name  string
	Count string
	Rows  []foundRow
	More  string // address of all of them; "" when they are all here
	Says  string // how many those are
}

// foundRow is one thing that was found.
type foundRow struct {
	URL, Name, Code, About, Day string
	Near                        bool
}

var findTemplate = parse[findPage]("find")

// ofAKind is how many of each kind stand on a page of all kinds.
const ofAKind = 8

func (s *server) findRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+findPath, s.showFind)
	mux.HandleFunc("GET "+findPath+".json", s.showFindJSON)
}

// lookFor is what an address looks for, on behalf of who asks.
func (s *server) lookFor(r *http.Request) (app.FindAsk, app.FoundSheet, error) {
	query := r.URL.Query()
	a := app.FindAsk{Words: tidy(query.Get(findKey)), Kind: find.Kind(query.Get(kindKey))}
	if v := visitorOf(r); v != nil {
		a.Sees = func(area people.Area) bool { return people.MaySee(v.person.Role, area) }
	}
	found, err := s.finder.Find(r.Context(), a)
	return a, found, err
}

func (s *server) showFind(w http.ResponseWriter, r *http.Request) {
	a, found, err := s.lookFor(r)
	if err == nil && found.Lot != "" && a.Kind == "" {
		http.Redirect(w, r, coldURL(lotPath, r.URL.Query(), codeKey, found.Lot), http.StatusSeeOther)
		return
	}
	book, _ := s.house.Book()
	v := findPage{shell: s.inShell(r, book.Kitchen, "Find", ""), Query: a.Words, Asked: a.Words != "", JSON: findPath + ".json" + queryOf(r.URL.Query())}
	if err != nil {
		v.Problem = sentence(err)
		findTemplate.show(w, http.StatusServiceUnavailable, v)
		return
	}
	if v.Asked {
		v.Title = "Find " + a.Words
	}
	v.Tally, v.Notes, v.Scanned = times(found.Total, "thing found", "things found"), foundNotes(found), scannedWords(found.Scanned)
	for _, g := range found.Groups {
		v.Groups = append(v.Groups, s.foundGroup(r.URL.Query(), a, g))
	}
	findTemplate.show(w, http.StatusOK, v)
}

func (s *server) showFindJSON(w http.ResponseWriter, r *http.Request) {
	_, found, err := s.lookFor(r)
	if err != nil {
		writeJSON(w, http.StatusServiceUnavailable, refusal{Error: err.Error()})
		return
	}
	writeJSON(w, http.StatusOK, found)
}

// foundNotes are what is to be known of a list.
func foundNotes(found app.FoundSheet) []string {
	var notes []string
	if found.Left {
		notes = append(notes, "That was more than can be looked for at once: only the beginning counts.")
	}
	if found.Total > found.Listed {
		notes = append(notes, fmt.Sprintf("The best %d are listed. Another word makes them fewer.", found.Listed))
	}
	return notes
}

// scannedWords says what a scanner read.
func scannedWords(scan *find.Scan) string {
	switch {
	case scan == nil:
		return ""
	case scan.Lot == "":
		return "A scanner read item " + scan.GTIN + " and no lot."
	}
	return "A scanner read lot " + scan.Code() + ", which the records do not name."
}

func (s *server) foundGroup(query url.Values, a app.FindAsk, g app.FoundGroup) foundGroup {
	v := foundGroup{Name: kindNames[g.Kind], Count: fmt.Sprint(g.Total)}
	most := ofAKind
	if a.Kind != "" {
		most = len(g.Results)
	}
	if len(g.Results) > most || a.Kind == "" && g.Total > len(g.Results) {
		v.More, v.Says = findPath+with(query, kindKey, string(g.Kind)), fmt.Sprintf("All %d", g.Total)
	}
	for _, x := range g.Results[:min(most, len(g.Results))] {
		row := foundRow{URL: s.foundURL(query, g.Kind, x), Name: x.Name, Code: x.ID, About: x.About, Day: x.Day, Near: x.Near}
		if row.Name == "" {
			row.Name, row.Code = x.ID, ""
		}
		v.Rows = append(v.Rows, row)
	}
	return v
}
