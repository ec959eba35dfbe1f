package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

func runPath(name string) string { return "/run/" + url.PathEscape(name) }

// errNoRun is a run that is not in the book.
var errNoRun = errors.New("there is no run of that name in the book")

// missingRun says on a page why there is no such run: its runs stand there anyway.
func missingRun(err error) string {
	if errors.Is(err, errNoRun) {
		err = errNoRun
	}
	return sentence(err)
}

// asked is a run as the query asks for it.
type asked struct {
	name   string
	book   kitchen.Book
	found  finding.List
	run    kitchen.Request // with the targets of the query
	booked kitchen.Request // with those of the book
	made   bool            // it is not in the book
	fields []field
	status int // what to answer with
}

// ask finds the run and reads its targets. A run that is not in the book, nor described by its address, is an error.
func (s *server) ask(r *http.Request, name string) (a asked, err error) {
	book, found := s.house.Book()
	a = asked{name: name, book: book, found: found, status: http.StatusOK}
	if isMade(book, name) {
		a.made = true
		a.run, err = proposed(book, name, r.URL.Query())
	} else if a.run, err = app.Request(book, name); err != nil {
		err = fmt.Errorf("%w: %w", errNoRun, err)
	}
	if err != nil {
		return a, err
	}
	a.booked = a.run
	a.run, a.fields = retarget(book, a.run, r.URL.Query())
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
