package web

import (
	"net/http"
	"strings"
)

// bookPage is all that templates/book.html may show.
type bookPage struct {
	shell
	Findings findingsView
	Counts   []countOf
}

// countOf is how many of something the book has.
type countOf struct{ Name, Count string }

// bookRoutes are the pages of what the book holds.
func (s *server) bookRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET /book", s.showBook)
}

func (s *server) showBook(w http.ResponseWriter, r *http.Request) {
	book, found := s.house.Book()
	count := func(n int, one, more string) countOf {
		number, name, _ := strings.Cut(times(n, one, more), " ")
		return countOf{Name: name, Count: number}
	}
	bookTemplate.show(w, http.StatusOK, bookPage{shell: s.inShell(r, book.Kitchen, "The book", "book"), Findings: viewFindings(found), Counts: []countOf{
		count(len(book.Dishes), "dish", "dishes"), count(len(book.Packs), "pack", "packs"), count(len(book.Ingredients), "ingredient", "ingredients"),
		count(len(book.Equipment), "kind of equipment", "kinds of equipment"), count(len(book.People), "person", "people"), count(len(book.Runs), "run", "runs"),
	}})
}
