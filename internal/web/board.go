package web

import (
	"cmp"
	"errors"
	"net/http"
	"net/url"
	"slices"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/board"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

const boardPath = "/board"

// boardRoutes are the day as it happens.
func (s *server) boardRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+boardPath, s.onBoard(s.showBoards))
	mux.HandleFunc("POST "+boardPath, s.entering(s.openBoard))
	mux.HandleFunc("GET "+boardPath+"/{run}", s.onBoard(s.showBoard))
	mux.HandleFunc("GET "+boardPath+"/{run}/board.json", s.onBoard(s.showBoardJSON))
	mux.HandleFunc("GET "+boardPath+"/{run}/report.pdf", s.onBoard(s.showRunReport))
	mux.HandleFunc("GET "+boardPath+"/{run}/task", s.onBoard(s.showBoardTask))
	mux.HandleFunc("POST "+boardPath+"/{run}", s.entering(s.enterOnBoard))
	mux.HandleFunc("GET /events", s.onBoard(s.showEvents))
}

// onBoard is a page that needs records.
func (s *server) onBoard(next http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if s.records == nil {
			s.showNoBoards(w, r)
			return
		}
		next(w, r)
	}
}

// boardsPage is all that templates/boards.html may show: productions that are open, and what can be opened.
type boardsPage struct {
	shell
	None   bool // no records are kept
	Open   []boardLink
	Closed []boardLink
	Form   boardForm
}

// boardLink leads to the board of a production.
type boardLink struct{ URL, Name, What, Day, By string }

var boardsTemplate = parse[boardsPage]("boards")

// mostClosed is how many productions that are over are listed.
const mostClosed = 30

func (s *server) showNoBoards(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	boardsTemplate.show(w, http.StatusOK, boardsPage{shell: s.inShell(r, book.Kitchen, "Board", "board"), None: true})
}

func (s *server) showBoards(w http.ResponseWriter, r *http.Request) {
	s.showBoardsWith(w, r, http.StatusOK, nil)
}

// showBoardsWith lists the productions, and what is wrong with the form that opens one.
func (s *server) showBoardsWith(w http.ResponseWriter, r *http.Request, status int, wrong map[string]string) {
	book, _ := s.house.Book()
	v := boardsPage{shell: s.inShell(r, book.Kitchen, "Board", "board"), Form: s.openingForm(r, book, wrong)}
	runs, err := s.boards.Runs(r.Context())
	if err != nil {
		s.refuse(w, r, http.StatusServiceUnavailable, sentence(err))
		return
	}
	for _, run := range runs {
		t, opened, ok := run.Opened()
		link := boardLink{URL: boardURL(run.Name), Name: run.Name, What: opened.Request, Day: string(opened.Day), By: t.Who}
		switch {
		case run.Open():
			v.Open = append(v.Open, link)
		case ok && len(v.Closed) < mostClosed:
			v.Closed = append(v.Closed, link)
		}
	}
	boardsTemplate.show(w, status, v)
}

func boardURL(run string) string { return boardPath + "/" + url.PathEscape(run) }

// openingForm is the form that opens a production.
func (s *server) openingForm(r *http.Request, book kitchen.Book, wrong map[string]string) boardForm {
	f := boardForm{ID: "open", Title: "Open a production", Action: boardPath, Button: "Open its board", Kept: []kept{{entryField, newEntryID()}}}
	var runs []option
	for name, run := range book.Runs {
		runs = append(runs, option{Value: name, Says: cmp.Or(run.Name, name), Here: name == r.FormValue("run")})
	}
	slices.SortFunc(runs, func(a, b option) int { return cmp.Compare(a.Value, b.Value) })
	f.Fields = []field{
		{Key: "run", Label: "Run of the book", Hint: "what is made", Options: runs, Value: r.FormValue("run"), Problem: wrong["run"]},
		{Key: "day", Label: "Day", Hint: "on which it begins", Date: true, Value: cmp.Or(r.FormValue("day"), s.house.Now().Format(time.DateOnly)), Problem: wrong["day"]},
		{Key: "name", Label: "Its name", Hint: "left empty it is called after the run and the day", Value: r.FormValue("name"), Problem: wrong["name"]},
	}
	return f
}

// openBoard opens a production.
func (s *server) openBoard(w http.ResponseWriter, r *http.Request) {
	day := tidy(r.PostFormValue("day"))
	if !isDay(day) {
		s.showBoardsWith(w, r, http.StatusUnprocessableEntity, map[string]string{"day": "This is no day: write it like 2026-12-01."})
		return
	}
	opened, err := s.boards.Opening(r.Context(), tidy(r.PostFormValue("run")), day, tidy(r.PostFormValue("name")))
	if err != nil {
		s.showBoardsWith(w, r, http.StatusUnprocessableEntity, map[string]string{"name": sentence(err)})
		return
	}
	s.enter(w, r, boardURL(opened.Run), opened)
}

// boardOf is the production that an address names; it has answered when there is none.
func (s *server) boardOf(w http.ResponseWriter, r *http.Request) (*app.Production, bool) {
	p, err := s.boards.Production(r.Context(), r.PathValue("run"), r.URL.Query().Get("wait") != "")
	if err == nil {
		return p, true
	}
	if unknown := (*app.UnknownRunError)(nil); errors.As(err, &unknown) {
		book, _ := s.house.Book()
		s.missing(w, r, book, sentence(err))
	} else {
		s.refuse(w, r, http.StatusServiceUnavailable, sentence(err))
	}
	return nil, false
}

func (s *server) showBoardJSON(w http.ResponseWriter, r *http.Request) {
	p, err := s.boards.Production(r.Context(), r.PathValue("run"), true)
	if err != nil {
		writeJSON(w, http.StatusNotFound, refusal{Error: sentence(err)})
		return
	}
	writeJSON(w, http.StatusOK, app.BoardReport(p))
}

// clockText is a time of a production as people say it.
func clockText(c board.Clock, at record.Instant) string {
	if at == 0 {
		return ""
	}
	return c(at).String()
}

// later says by how much a day ends later, or earlier, than planned.
func later(now, planned unit.Moment) string {
	by := unit.Span(now-planned) * unit.Minute
	switch {
	case by > 0:
		return by.String() + " later"
	case by < 0:
		return (-by).String() + " earlier"
	}
	return ""
}

func isDay(text string) bool {
	_, err := time.Parse(time.DateOnly, text)
	return err == nil
}
