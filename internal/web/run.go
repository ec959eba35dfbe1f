package web

import (
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

func runPath(name string) string { return "/run/" + url.PathEscape(name) }

// noRun is what stands on the page of a run that is not in the book.
const noRun = "There is no run of that name in the book."

// asked is a run as the query asks for it.
type asked struct {
	name   string
	book   kitchen.Book
	found  finding.List
	run    kitchen.Request
	fields []field
	status int // what to answer with
}

// ask finds the run and reads its targets. A run that is not in the book is an error.
func (s *server) ask(r *http.Request, name string) (asked, error) {
	book, found := s.house.Book()
	a := asked{name: name, book: book, found: found, status: http.StatusOK}
	run, err := app.Request(book, name)
	if made, is := proposed(book, name, r.URL.Query()); err != nil && is {
		run, err = made, nil
	}
	if err != nil {
		return a, err
	}
	a.run, a.fields = retarget(book, run, r.URL.Query())
	if wrong(a.fields) || found.Worst() >= finding.Stop {
		a.status = http.StatusUnprocessableEntity
	}
	return a, nil
}

// showRun answers with the run at a glance, or with its plan as data.
func (s *server) showRun(w http.ResponseWriter, r *http.Request) {
	if name, isJSON := strings.CutSuffix(r.PathValue("name"), ".json"); isJSON {
		s.showPlanJSON(w, r, name)
		return
	}
	s.partOf("", s.showGlance)(w, r)
}
