package web

import (
	"maps"
	"net/http"
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
)

// homePage is all that templates/home.html may show.
type homePage struct {
	shell
	Place string
	Note  string
	Today []todayCard // nil when no records are kept
	Runs  []runCard
	Grave []findingView // about the book
	Notes int
}

// runCard is one run of the book.
type runCard struct {
	URL   string
	Name  string
	Day   string
	Wants []string
}

func (s *server) showHome(w http.ResponseWriter, r *http.Request) {
	book, found := s.house.Book()
	all := viewFindings(found)
	homeTemplate.show(w, http.StatusOK, homePage{shell: s.inShell(r, book.Kitchen, "Runs", "home"), Place: book.Kitchen.Place, Note: book.Kitchen.Note, Today: append(s.todayCards(r), append(s.hazardCard(r, book), s.workshopCard(book)...)...),
		Runs: runCards(book), Grave: all.Grave, Notes: len(all.Notes)})
}

// runCards are the runs of a book, the earliest day first.
func runCards(book kitchen.Book) []runCard {
	names := slices.Sorted(maps.Keys(book.Runs))
	slices.SortStableFunc(names, func(a, b string) int {
		if da, db := book.Runs[a].Day, book.Runs[b].Day; da < db {
			return -1
		} else if da > db {
			return 1
		}
		return 0
	})
	var cards []runCard
	for _, name := range names {
		run := book.Runs[name]
		c := runCard{URL: runPath(name), Name: run.Name, Day: run.Day, Wants: wants(book, run)}
		if c.Name == "" {
			c.Name = name
		}
		cards = append(cards, c)
	}
	return cards
}

// wants says in words what a run should make.
func wants(book kitchen.Book, run kitchen.Request) []string {
	_, fields := retarget(book, run, nil)
	var lines []string
	for _, f := range fields {
		switch {
		case f.Number:
			lines = append(lines, f.Value+" × "+f.Label)
		case strings.HasPrefix(f.Key, "use."):
			lines = append(lines, f.Label+", "+f.Value)
		}
	}
	return append(lines, fixed(book, run)...)
}
