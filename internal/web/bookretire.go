package web

import (
	"errors"
	"net/http"

	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/bookform"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
)

// retirePage is all that templates/bookretire.html may show.
type retirePage struct {
	shell
	Of      navLink
	Section navLink
	One     string
	Action  string
	Entry   string
	Uses    []bookUse // what must be changed first
	Records string    // how the records name it
	Kept    bool      // its versions stay
	Problem string
	Found   findingsView
	Edit    *editView
}

func (s *server) showRetire(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	if x, ok := s.known(w, r, book); ok {
		s.retireForm(w, r, http.StatusOK, book, x, "", nil, nil)
	}
}

func (s *server) retireForm(w http.ResponseWriter, r *http.Request, status int, book kitchen.Book, x nounAsked, problem string, found finding.List, edit *editView) {
	v := retirePage{shell: s.inShell(r, book.Kitchen, "Retire "+x.name, "book"), Of: navLink{Name: x.name, URL: entryURL(x.section.Key, x.id)}, Section: navLink{Name: x.section.Name, URL: sectionURL(x.section.Key)},
		One: x.section.One, Action: x.url + "/retire", Entry: newEntryID(), Uses: usesOf(bookform.NamesIn(book), x.path), Records: s.inRecords(r, x), Problem: problem, Edit: edit}
	house, can := s.house.(nounHouse)
	v.Kept = can && s.records != nil && house.InRecords()
	for _, f := range found {
		if f.Severity == finding.Stop {
			v.Found.Grave = append(v.Found.Grave, viewFinding(f))
		}
	}
	bookRetireTemplate.show(w, status, v)
}

// postRetire takes an entry out of the book, where nothing names it any more.
func (s *server) postRetire(w http.ResponseWriter, r *http.Request) {
	if _, ok := s.typed(w, r); !ok {
		return
	}
	book, _ := s.house.Book()
	x, ok := s.nounOf(w, r, book)
	if !ok {
		return
	}
	gone := sectionURL(x.section.Key) + "?" + savedKey + "=retired"
	switch {
	case s.tookIn(r):
		http.Redirect(w, r, gone, http.StatusSeeOther)
		return
	case !x.there || x.section.Single:
		s.missing(w, r, book, "The book has no such entry.")
		return
	case len(usesOf(bookform.NamesIn(book), x.path)) > 0:
		s.retireForm(w, r, http.StatusConflict, book, x, "Nothing was taken out: it is still named where it says below.", nil, nil)
		return
	}
	edit, err := s.editNoun(w, r, []bookfile.Change{bookfile.Delete(x.path)})
	switch stops := (*app.StopsError)(nil); {
	case errors.Is(err, errAnswered):
	case errors.As(err, &stops):
		s.retireForm(w, r, http.StatusUnprocessableEntity, book, x, "Nothing was taken out: the book could not be planned with without it.", stops.Found, nil)
	case err != nil:
		s.retireForm(w, r, http.StatusUnprocessableEntity, book, x, s.bookTrouble(err), nil, nil)
	case edit.Saved:
		http.Redirect(w, r, gone, http.StatusSeeOther)
	default:
		s.retireForm(w, r, http.StatusOK, book, x, "", nil, editOf(edit))
	}
}

// inRecords says how the records name an entry: they stay as they are. "" when they do not, or are not kept.
func (s *server) inRecords(r *http.Request, x nounAsked) string {
	if s.records == nil {
		return ""
	}
	n := 0
	err := s.records.Lots(r.Context(), func(state *lots.State, _ finding.List) error {
		for l := range state.All() {
			if l.What == x.id && (l.Sort == lots.Goods && x.section.Key == "ingredients" || l.Sort == lots.Packs && x.section.Key == "packs") {
				n++
			}
		}
		return nil
	})
	switch {
	case err != nil:
		return sentence(err)
	case n == 0:
		return ""
	}
	return times(n, "lot in the records is of it, and stays as it is.", "lots in the records are of it, and stay as they are.")
}

var bookRetireTemplate = parse[retirePage]("bookretire")
