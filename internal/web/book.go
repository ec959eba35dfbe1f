package web

import (
	"net/http"

	"kettlefrost/internal/bookform"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/people"
)

// bookPath is the book; below it are its sections, by their keys, and their entries.
const bookPath = "/book"

// bookPage is all that templates/book.html may show.
type bookPage struct {
	shell
	Findings findingsView
	Kinds    []bookKind
	Files    bool // the text of the book may be seen
}

// bookKind is a section of the book: a kind of things, or one thing.
type bookKind struct {
	Name, About, URL string
	Count            string
	Wrong            string // what is wrong in it
	Sign, Class      string
}

// bookRoutes are the pages of what the book holds.
func (s *server) bookRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+bookPath, s.showBook)
	mux.HandleFunc("GET "+bookPath+"/{section}", s.showSection)
	mux.HandleFunc("POST "+bookPath+"/{section}", s.postSingle)
	mux.HandleFunc("GET "+bookPath+"/{section}/new", s.showNewEntry)
	mux.HandleFunc("POST "+bookPath+"/{section}/new", s.postNewEntry)
	mux.HandleFunc("GET "+bookPath+"/{section}/{id}", s.showEntry)
	mux.HandleFunc("POST "+bookPath+"/{section}/{id}", s.postEntry)
	mux.HandleFunc("POST "+bookPath+"/{section}/check", s.checkEntry)
	mux.HandleFunc("POST "+bookPath+"/{section}/{id}/check", s.checkEntry)
	mux.HandleFunc("GET "+bookPath+"/{section}/{id}/copy", s.showCopy)
	mux.HandleFunc("POST "+bookPath+"/{section}/{id}/copy", s.postCopy)
	mux.HandleFunc("GET "+bookPath+"/{section}/{id}/retire", s.showRetire)
	mux.HandleFunc("POST "+bookPath+"/{section}/{id}/retire", s.postRetire)
	for _, of := range []string{"/{section}/{id}", "/{section}"} {
		mux.HandleFunc("GET "+bookPath+of+"/versions", s.showEntryVersions)
		mux.HandleFunc("POST "+bookPath+of+"/versions", s.bringBack)
	}
	mux.HandleFunc("GET "+bookPath+"/{section}/{id}/compare", s.showEntryCompare)
	mux.HandleFunc("GET "+bookPath+"/{section}/compare", s.showEntryCompare)
}

func (s *server) showBook(w http.ResponseWriter, r *http.Request) {
	book, found := s.house.Book()
	v := bookPage{shell: s.inShell(r, book.Kitchen, "The book", "book"), Findings: viewFindings(found), Files: sees(r, people.Office)}
	for _, x := range bookform.Sections() {
		if !sees(r, areaOf(sectionURL(x.Key))) {
			continue
		}
		k := bookKind{Name: x.Name, About: x.About, URL: sectionURL(x.Key)}
		if !x.Single {
			k.Count = numeral(len(bookform.Entries(book, x.Key)))
		}
		worst := within(found, x.Key)
		k.Wrong = viewFindings(worst).Tally
		k.Class, k.Sign = worstMark(worst)
		v.Kinds = append(v.Kinds, k)
	}
	bookTemplate.show(w, http.StatusOK, v)
}

// sees says whether who asks may see an area; where nobody signs in, everybody does.
func sees(r *http.Request, a people.Area) bool {
	v := visitorOf(r)
	return v == nil || people.MaySee(v.person.Role, a)
}

// houseOf is what readings of a form depend on.
func houseOf(k kitchen.Kitchen) bookform.House {
	return bookform.House{Units: k.Units, Currency: k.Currency}
}
