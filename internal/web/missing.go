package web

import (
	"net/http"

	"kettlefrost/internal/kitchen"
)

// missingPage is all that templates/missing.html may show.
type missingPage struct {
	shell
	Message string
	Runs    []runCard
}

// showNothing answers whatever no other route takes.
func (s *server) showNothing(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD")
		http.Error(w, "Nothing here can be changed.", http.StatusMethodNotAllowed)
		return
	}
	book, _ := s.house.Book()
	s.missing(w, r, book, "There is no such page.")
}

// missing says what is not there, and what is.
func (s *server) missing(w http.ResponseWriter, r *http.Request, book kitchen.Book, message string) {
	missingTemplate.show(w, http.StatusNotFound, missingPage{shell: s.inShell(r, book.Kitchen, "Not found", ""), Message: message, Runs: runCards(book)})
}
