package web

import (
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/bookform"
	"kettlefrost/internal/dishgraph"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

// stepForm is a step as a form of the book: what was typed stays in it, and is what the page shows as far as it can be read.
type stepForm struct {
	form   bookform.Form
	from   dishDraft // what was changed when the form was opened: what is typed counts from there
	Step   string    // its id then
	Good   string    // what the page shows, if what is typed next cannot be read
	Says   string    // what is wrong with it as a whole
	Mend   []bookMend
	Others []reminder // findings that belong to no field
}

// bookMend leads to a field that is to be mended.
type bookMend struct{ Label, URL string }

// Groups are the fields in their groups.
func (f stepForm) Groups() []bookform.FieldGroup { return f.form.Groups }

// stepPath is where a step stands in the book.
func stepPath(id kitchen.DishID, i int) string {
	return kitchen.PathAt(kitchen.PathTo(kitchen.PathTo("dishes", string(id)), "steps"), i)
}

// postStep takes what was typed about a step: the page follows it, and what can be read is in its address from then on.
func (s *server) postStep(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form could not be read: it may be too long.")
		return
	}
	a, ok := s.askDish(w, r)
	if !ok {
		return
	}
	i := dishgraph.Find(a.dish(), a.query.Get(dishStep))
	if i < 0 || a.problem != "" {
		s.dishPage(w, r, http.StatusUnprocessableEntity, a, "", "")
		return
	}
	typed := typedFields(r.PostForm)
	if ask := r.PostFormValue("row"); ask != "" {
		s.stepAgain(w, r, http.StatusOK, s.lastGood(a), bookform.Reorder(typed, ask), a)
		return
	}
	now, err := s.readStep(a, i, typed)
	if err != nil {
		problem, fix := refusedSays(err)
		good := s.lastGood(a)
		good.refused = strings.TrimSpace(problem + " " + fix)
		s.stepAgain(w, r, http.StatusUnprocessableEntity, good, typed, a)
		return
	}
	became := a.with(now, now.Dishes[a.id].Steps[i].ID)
	address := became.url(url.Values{dishStep: {became.query.Get(dishStep)}})
	if r.Header.Get("HX-Request") == "" {
		http.Redirect(w, r, address+"#open", http.StatusSeeOther)
		return
	}
	w.Header().Set("HX-Replace-Url", address)
	s.stepAgain(w, r, http.StatusOK, s.tried(became), typed, a)
}

// lastGood is the question as the page showed it before what was typed last.
func (s *server) lastGood(a dishAsked) dishAsked {
	d, err := readDishDraft(a.query.Get("good"))
	if err != nil || len(d.changes) == 0 {
		return a
	}
	good := a
	good.draft, good.query = d, url.Values{dishStep: {a.query.Get("open")}, dishScale: a.query[dishScale], dishChanges: {d.text()}}
	if good = s.tried(good); good.problem != "" || dishgraph.Find(good.dish(), good.query.Get(dishStep)) < 0 {
		return a
	}
	return good
}

// typedFields are the fields of the book among those of a form: their names begin with a point.
func typedFields(form url.Values) url.Values {
	typed := url.Values{}
	for key, values := range form {
		if strings.HasPrefix(key, ".") {
			typed[key] = values
		}
	}
	return typed
}

// readStep is the book with a step as it was typed. What cannot be read, or would break the graph, is an error.
func (s *server) readStep(a dishAsked, i int, typed url.Values) (kitchen.Book, error) {
	changes, problems, err := bookform.Changes(a.book, stepPath(a.id, i), typed)
	house, can := s.house.(bookEditor)
	switch {
	case err != nil:
		return a.book, err
	case len(problems) > 0:
		return a.book, &dishgraph.Refused{Says: times(len(problems), "thing cannot be read", "things cannot be read"), Fix: "what is wrong stands beside each; the page follows when it is mended"}
	case len(changes) == 0 || !can:
		return a.book, nil
	}
	edit, err := house.TryBook(append(append([]bookfile.Change{}, a.draft.changes...), changes...)...)
	if err != nil {
		return a.book, err
	}
	step := a.dish().Steps[i]
	return dishgraph.Replace(a.book, a.id, step.ID, edit.Book.Dishes[a.id].Steps[i])
}

// stepAgain shows a dish with a step open, and in its form what was typed, which counts from where the form was opened.
func (s *server) stepAgain(w http.ResponseWriter, r *http.Request, status int, a dishAsked, typed url.Values, from dishAsked) {
	a.typed, a.from = typed, &from
	s.dishPage(w, r, status, a, "", "")
}

// stepFormOf is the form of the step that is open.
func (s *server) stepFormOf(a dishAsked, step string) *stepForm {
	from := a
	if a.from != nil {
		from = *a.from
	}
	i := dishgraph.Find(from.dish(), from.query.Get(dishStep))
	if i < 0 {
		return nil
	}
	path := stepPath(a.id, i)
	form, err := bookform.Make(from.book, path, a.typed)
	if err != nil {
		return nil
	}
	v := &stepForm{from: from.draft, Step: from.query.Get(dishStep), Good: a.draft.text(), Says: a.refused}
	var about finding.List
	for _, f := range a.found {
		if f.Path == path || strings.HasPrefix(f.Path, path+".") || strings.HasPrefix(f.Path, path+"[") {
			about = append(about, f)
		}
	}
	for _, f := range form.Place(about) {
		v.Others = append(v.Others, remind(f))
	}
	if a.refused != "" {
		for _, f := range form.Problems() {
			v.Mend = append(v.Mend, bookMend{f.Label, "#" + f.ID()})
		}
	}
	v.form = form
	return v
}

// From are the hidden fields that say where what is typed counts from.
func (f stepForm) From() string { return f.from.text() }
