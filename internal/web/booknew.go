package web

import (
	"cmp"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/bookform"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

// newNoun is what an address for a new entry is about; false when it was answered.
func (s *server) newNoun(w http.ResponseWriter, r *http.Request, book kitchen.Book, name, id string) (x nounAsked, ok bool) {
	if x.section, ok = bookform.SectionOf(r.PathValue("section")); !ok || x.section.Single {
		s.missing(w, r, book, "There is nothing to be made new here.")
		return x, false
	}
	x.path = bookform.New(book, x.section.Key, cmp.Or(name, "new "+x.section.One))
	if id != "" {
		x.path = kitchen.PathTo(x.section.Key, id)
	}
	x.name, x.url = "A new "+x.section.One, sectionURL(x.section.Key)+"/new"
	return x, true
}

// newPage is the page of an entry that is to be made.
func (s *server) newPage(r *http.Request, book kitchen.Book, x nounAsked, shortID string) entryPage {
	v := s.entryPage(r, book, x)
	v.New, v.ShortID, v.Links, v.Uses, v.Runs = true, shortID, nil, nil, nil
	v.Check = sectionURL(x.section.Key) + "/check"
	return v
}

func (s *server) showNewEntry(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	x, ok := s.newNoun(w, r, book, "", "")
	if !ok {
		return
	}
	if x.section.Key == "dishes" {
		http.Redirect(w, r, "/dish/first", http.StatusSeeOther)
		return
	}
	s.entry(w, r, http.StatusOK, s.newPage(r, book, x, ""), book, x, nil, nil)
}

// postNewEntry puts a new entry into the book.
func (s *server) postNewEntry(w http.ResponseWriter, r *http.Request) {
	typed, ok := s.typed(w, r)
	if !ok {
		return
	}
	book, _ := s.house.Book()
	shortID := tidy(typed.Get(idField))
	x, ok := s.newNoun(w, r, book, tidy(typed.Get(".name")), shortID)
	if !ok {
		return
	}
	again := func(status int, problem string, typed url.Values, found finding.List) {
		v := s.newPage(r, book, x, shortID)
		v.Entry, v.Problem = cmp.Or(r.PostFormValue(entryField), v.Entry), problem
		s.entry(w, r, status, v, book, x, typed, found)
	}
	if ask := typed.Get(rowField); ask != "" {
		again(http.StatusOK, "", bookform.Reorder(typed, ask), nil)
		return
	}
	taken := s.taken(book, x, shortID)
	if s.tookIn(r) {
		http.Redirect(w, r, s.madeURL(book, x, shortID, typed)+"?"+savedKey+"=new", http.StatusSeeOther)
		return
	}
	changes, problems, err := bookform.Changes(book, x.path, typed)
	switch {
	case taken != "":
		again(http.StatusUnprocessableEntity, taken, typed, nil)
		return
	case err != nil:
		again(http.StatusUnprocessableEntity, sentence(err), typed, nil)
		return
	case len(problems) > 0:
		again(http.StatusUnprocessableEntity, "Nothing was saved: "+times(len(problems), "thing is to be mended first.", "things are to be mended first."), typed, nil)
		return
	}
	edit, err := s.editNoun(w, r, changes)
	switch stops := (*app.StopsError)(nil); {
	case errors.Is(err, errAnswered):
	case errors.As(err, &stops):
		again(http.StatusUnprocessableEntity, "Nothing was saved: the book could not be planned with after this. What is wrong stands below, and beside its fields.", typed, stops.Found)
	case err != nil:
		again(http.StatusUnprocessableEntity, s.bookTrouble(err), typed, nil)
	case edit.Saved:
		http.Redirect(w, r, bookPath+"/"+strings.Join(addressOf(x.path), "/")+"?"+savedKey+"=new", http.StatusSeeOther)
	default:
		s.showByHand(w, r, book, x, typed, edit)
	}
}

// taken says that a short name cannot be had; "" when it can.
func (s *server) taken(book kitchen.Book, x nounAsked, id string) string {
	if id == "" {
		return ""
	}
	if !kitchen.IsID(id) && x.section.Key != "runs" {
		return fmt.Sprintf("%q can be no short name: lower-case letters, digits and single hyphens, as in ale-sauce. Leave it empty, and it is made from the name.", id)
	}
	for _, e := range bookform.Entries(book, x.section.Key) {
		if e.ID == id {
			return "There is a " + x.section.One + " " + id + " already: give this one another short name, or none."
		}
	}
	return ""
}

// madeURL is where an entry is that was made by this form when it was sent first: the one of its name.
func (s *server) madeURL(book kitchen.Book, x nounAsked, id string, typed url.Values) string {
	for _, e := range bookform.Entries(book, x.section.Key) {
		if e.ID == id || id == "" && e.Name == tidy(typed.Get(".name")) {
			return entryPageURL(x.section.Key, e.ID)
		}
	}
	return sectionURL(x.section.Key)
}

// entryPageURL is the form of an entry, also of a dish.
func entryPageURL(section, id string) string {
	if id == "" {
		return sectionURL(section)
	}
	return sectionURL(section) + "/" + url.PathEscape(id)
}

// addressOf is the path of an entry as parts of an address.
func addressOf(path string) []string {
	section, id, _ := strings.Cut(path, ".")
	if i := strings.Index(path, `["`); i > 0 && !strings.Contains(path[:i], ".") {
		section, id = path[:i], strings.Trim(path[i:], `[]"`)
	}
	return []string{section, url.PathEscape(id)}
}

// copyPage is all that templates/bookcopy.html may show.
type copyPage struct {
	shell
	Of      navLink
	One     string
	Action  string
	Entry   string
	Name    string
	ID      string
	Left    string // what a copy is made without
	Problem string
	Edit    *editView
}

func (s *server) showCopy(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	if x, ok := s.known(w, r, book); ok {
		s.copyForm(w, r, http.StatusOK, book, x, x.name+", another", "", "", nil)
	}
}

// known is the entry that an address is about, if the book has it.
func (s *server) known(w http.ResponseWriter, r *http.Request, book kitchen.Book) (nounAsked, bool) {
	x, ok := s.nounOf(w, r, book)
	if ok && !x.there {
		s.missing(w, r, book, "The book has no "+x.section.One+" "+x.id+".")
		return x, false
	}
	return x, ok
}

func (s *server) copyForm(w http.ResponseWriter, r *http.Request, status int, book kitchen.Book, x nounAsked, name, id, problem string, edit *editView) {
	v := copyPage{shell: s.inShell(r, book.Kitchen, "Copy "+x.name, "book"), Of: navLink{Name: x.name, URL: entryURL(x.section.Key, x.id)}, One: x.section.One, Action: x.url + "/copy", Entry: newEntryID(),
		Name: name, ID: id, Left: bookform.Left(x.section.Key), Problem: problem, Edit: edit}
	bookCopyTemplate.show(w, status, v)
}

// postCopy makes a copy of an entry.
func (s *server) postCopy(w http.ResponseWriter, r *http.Request) {
	typed, ok := s.typed(w, r)
	if !ok {
		return
	}
	book, _ := s.house.Book()
	x, ok := s.known(w, r, book)
	if !ok {
		return
	}
	name, id := tidy(typed.Get(nameField)), tidy(typed.Get(idField))
	if s.tookIn(r) {
		http.Redirect(w, r, s.madeURL(book, x, id, url.Values{".name": {name}})+"?"+savedKey+"=copy", http.StatusSeeOther)
		return
	}
	to := bookform.New(book, x.section.Key, cmp.Or(name, x.name))
	problem := s.taken(book, x, id)
	switch {
	case problem != "":
	case name == "":
		problem = "Say what the copy is called."
	case id != "":
		to = kitchen.PathTo(x.section.Key, id)
	}
	if problem != "" {
		s.copyForm(w, r, http.StatusUnprocessableEntity, book, x, name, id, problem, nil)
		return
	}
	changes, err := bookform.Copy(book, x.path, to, name)
	if err == nil {
		edit, wrong := s.editNoun(w, r, changes)
		switch err = wrong; {
		case errors.Is(err, errAnswered):
			return
		case err == nil && edit.Saved:
			http.Redirect(w, r, bookPath+"/"+strings.Join(addressOf(to), "/")+"?"+savedKey+"=copy", http.StatusSeeOther)
			return
		case err == nil:
			s.copyForm(w, r, http.StatusOK, book, x, name, id, "", editOf(edit))
			return
		}
	}
	s.copyForm(w, r, http.StatusUnprocessableEntity, book, x, name, id, s.bookTrouble(err), nil)
}

var bookCopyTemplate = parse[copyPage]("bookcopy")
