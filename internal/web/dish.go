package web

import (
	"cmp"
	"context"
	"net/http"
	"net/url"

	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
)

// dishPath is where dishes are built: below it stands the dish.
const dishPath = "/dish"

// bookEditor is a house whose book can be changed; *app.App is one.
type bookEditor interface {
	TryBook(...bookfile.Change) (app.BookEdit, error)
	EditBook(context.Context, record.ID, app.Author, ...bookfile.Change) (app.BookEdit, error)
	InRecords() bool
}

// dishRoutes are the pages on which dishes are built. Until it is saved, all that was changed is in the address: nothing is entered by looking.
func (s *server) dishRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+dishNewPath, s.newDish)
	mux.HandleFunc("GET "+dishFirstPath, s.showFirst)
	mux.HandleFunc("POST "+dishFirstPath, s.entering(s.saveFirst))
	mux.HandleFunc("GET "+dishPath+"/{id}", s.showDish)
	mux.HandleFunc("POST "+dishPath+"/{id}", s.postStep)
	mux.HandleFunc("GET "+dishPath+"/{id}/do", s.doToDish)
	mux.HandleFunc("GET "+dishPath+"/{id}/plan", s.showDishPlan)
	mux.HandleFunc("POST "+dishPath+"/{id}/save", s.entering(s.saveDish))
}

// dishAsked is a dish as an address has it: as the book says, with the changes that are not saved yet.
type dishAsked struct {
	id      kitchen.DishID
	query   url.Values
	base    kitchen.Book // as it is
	book    kitchen.Book // with the changes
	found   finding.List // in that
	edit    app.BookEdit // what saving would do; empty when nothing is changed
	draft   dishDraft
	problem string // why the changes cannot be made any more; book is then as it is
	rd      reader

	typed   url.Values // into the form of the step that is open; nil for nothing
	from    *dishAsked // where what is typed counts from
	refused string     // why it is not part of what is shown
}

// dish is the dish with the changes.
func (a dishAsked) dish() kitchen.Dish { return a.book.Dishes[a.id] }

// askDish reads an address; false when it was answered because there is no such dish.
func (s *server) askDish(w http.ResponseWriter, r *http.Request) (dishAsked, bool) {
	a := dishAsked{id: kitchen.DishID(r.PathValue("id")), query: r.URL.Query()}
	if r.Method == http.MethodPost {
		a.query = r.PostForm
	}
	a.base, a.found = s.house.Book()
	a.book, a.rd = a.base, readerOf(a.base.Kitchen, r)
	var err error
	if a.draft, err = readDishDraft(a.query.Get(dishChanges)); err != nil {
		a.problem = "What was changed cannot be read from this address: it may have been cut short. The dish is shown as the book has it."
	}
	a = s.tried(a)
	if _, there := a.book.Dishes[a.id]; !there {
		s.missing(w, r, a.base, cmp.Or(a.problem, "The book has no dish of that name."))
		return a, false
	}
	return a, true
}

// late says that the dish is otherwise in the book than when it began to be changed.
func (a dishAsked) late() bool {
	return len(a.draft.changes) > 0 && a.draft.base != "" && a.draft.base != dishMark(a.base, a.id)
}

// tried is a question with the book as its changes make it.
func (s *server) tried(a dishAsked) dishAsked {
	house, can := s.house.(bookEditor)
	if !can || len(a.draft.changes) == 0 {
		a.book, a.found = s.house.Book()
		return a
	}
	edit, err := house.TryBook(a.draft.changes...)
	if err != nil {
		a.problem = "What was changed does not fit the book any more, as somebody changed it meanwhile: " + err.Error() + ". The dish is shown as the book has it."
		return a
	}
	a.edit, a.book, a.found = edit, edit.Book, edit.Found
	return a
}

// with is the question after the dish became what it is in another book: what is not saved then, as few changes as say it, and the step that is
// open then.
func (a dishAsked) with(now kitchen.Book, step string) dishAsked {
	a.draft = dishDraft{base: cmp.Or(a.draft.base, dishMark(a.base, a.id)), changes: bookfile.Between(a.base, now)}
	scale := a.query[dishScale]
	a.query = url.Values{}
	for key, value := range map[string]string{dishChanges: a.draft.text(), dishStep: step} {
		if value != "" {
			a.query.Set(key, value)
		}
	}
	if len(scale) > 0 {
		a.query[dishScale] = scale
	}
	return a
}

// dishURL is the address of a dish with changes.
func dishURL(id kitchen.DishID, d dishDraft, scale string, more url.Values) string {
	q := url.Values{}
	for key, values := range more {
		q[key] = values
	}
	if text := d.text(); text != "" {
		q.Set(dishChanges, text)
	}
	if scale != "" {
		q.Set(dishScale, scale)
	}
	return dishPath + "/" + url.PathEscape(string(id)) + queryOf(q)
}

// url is the address of another place of the page, with the same changes.
func (a dishAsked) url(more url.Values) string {
	return dishURL(a.id, a.draft, a.query.Get(dishScale), more)
}

// masses are those of the dish at the scale that it is written for.
func (s *server) masses(a dishAsked) (plan.Dish, finding.List, error) {
	return plan.AsWritten(a.book, s.house.Foods(), a.id)
}
