package web

import (
	"context"
	"errors"
	"net/http"
	"net/url"
	"strconv"

	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/bookform"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// nounHouse is a house whose book can be changed; *app.App is one.
type nounHouse interface {
	InRecords() bool
	TryBook(...bookfile.Change) (app.BookEdit, error)
	EditBook(context.Context, record.ID, app.Author, ...bookfile.Change) (app.BookEdit, error)
}

// Fields of the forms of the book that are no fields of an entry.
const (
	rowField   = "row"  // what a button does with the rows of a list
	shownField = "was"  // the mark of what was shown
	idField    = "id"   // the short name of a new entry
	nameField  = "name" // the name of a copy
	savedKey   = "saved"
)

// entryPage is all that templates/bookentry.html may show: an entry of the book as a form.
type entryPage struct {
	shell
	Section navLink
	One     string
	ID      string
	New     bool
	ShortID string // of a new one, as typed
	Action  string
	Check   string // where what is typed is read as it is typed
	Entry   string
	Was     string
	Form    fieldsView
	Problem string
	Mend    []bookUse // fields to be mended, with their places on the page
	Saved   string
	Changed []changedField
	Before  string // the version before what was saved just now, to take that back
	Back    string // the number of the form for that
	Runs    []bookUse
	Found   findingsView // about the entry as a whole, or that stop the book elsewhere
	Uses    []bookUse
	Edit    *editView // what to write into the files of a book in a folder
	Folder  bool      // the book is written by hand
	Links   []navLink
}

// fieldsView is a form; its fields are held by a test of their own.
type fieldsView struct{ form bookform.Form }

// Groups are the fields in their groups.
func (v fieldsView) Groups() []bookform.FieldGroup { return v.form.Groups }

// changedField is a field of an entry before and after.
type changedField struct{ Label, From, To string }

func (s *server) showEntry(w http.ResponseWriter, r *http.Request) {
	book, found := s.house.Book()
	x, ok := s.nounOf(w, r, book)
	switch {
	case !ok:
		return
	case !x.there:
		s.missing(w, r, book, "The book has no "+x.section.One+" "+x.id+".")
		return
	}
	v := s.entryPage(r, book, x)
	v.Saved, v.Before, v.Changed = s.savedEntry(r, x)
	s.entry(w, r, http.StatusOK, v, book, x, nil, found)
}

// entryPage is the page of an entry without its form.
func (s *server) entryPage(r *http.Request, book kitchen.Book, x nounAsked) entryPage {
	v := entryPage{shell: s.inShell(r, book.Kitchen, x.name, "book"), Section: navLink{Name: x.section.Name, URL: sectionURL(x.section.Key)}, One: x.section.One, ID: x.id,
		Action: x.url, Check: x.url + "/check", Entry: newEntryID(), Back: newEntryID(), Was: markOfNoun(book, x.path)}
	if x.section.Single {
		v.Section = navLink{Name: "The book", URL: bookPath}
	}
	if house, can := s.house.(nounHouse); !can || s.records == nil || !house.InRecords() {
		v.Folder = true
	}
	if !x.section.Single {
		v.Links = append(v.Links, navLink{Name: "Copy", URL: x.url + "/copy"})
	}
	v.Links = append(v.Links, navLink{Name: "Compare with…", URL: x.url + "/compare"})
	if !v.Folder {
		v.Links = append(v.Links, navLink{Name: "Versions", URL: x.url + "/versions"})
	}
	if !x.section.Single {
		v.Links = append(v.Links, navLink{Name: "Retire", URL: x.url + "/retire"})
	}
	names := bookform.NamesIn(book)
	v.Uses, v.Runs = usesOf(names, x.path), runLinks(book, names.Reach(x.path, "runs"))
	return v
}

// entry shows a form, with what was typed and what is found beside its fields.
func (s *server) entry(w http.ResponseWriter, r *http.Request, status int, v entryPage, book kitchen.Book, x nounAsked, typed url.Values, found finding.List) {
	form, err := bookform.Make(book, x.path, typed)
	if err != nil {
		s.missing(w, r, book, sentence(err))
		return
	}
	form = form.Without(hiddenMoney(r))
	if x.section.Key == "dishes" {
		form = form.Without(func(f bookform.Field) bool { return f.Name == ".steps" })
	}
	s.tellFoods(&form)
	rest := form.Place(within(found, x.path))
	for _, f := range found { // what stops the book elsewhere is told here, too, after a change
		if status == http.StatusUnprocessableEntity && f.Severity == finding.Stop && len(within(finding.List{f}, x.path)) == 0 {
			rest = append(rest, f)
		}
	}
	v.Found = viewFindings(rest)
	for _, f := range form.Problems() {
		if status == http.StatusUnprocessableEntity {
			v.Mend = append(v.Mend, bookUse{f.Label, "#" + f.ID()})
		}
	}
	v.Form = fieldsView{form}
	bookEntryTemplate.show(w, status, v)
}

// postSingle saves one of the things of which there is one alone.
func (s *server) postSingle(w http.ResponseWriter, r *http.Request) { s.postEntry(w, r) }

// postEntry saves an entry, or does with the rows of its form what a button says.
func (s *server) postEntry(w http.ResponseWriter, r *http.Request) {
	typed, ok := s.typed(w, r)
	if !ok {
		return
	}
	book, found := s.house.Book()
	x, ok := s.nounOf(w, r, book)
	switch {
	case !ok:
	case typed.Get(rowField) != "":
		v := s.entryPage(r, book, x)
		v.Entry, v.Was = r.PostFormValue(entryField), r.PostFormValue(shownField)
		s.entry(w, r, http.StatusOK, v, book, x, bookform.Reorder(typed, typed.Get(rowField)), found)
	default:
		s.saveEntry(w, r, book, found, x, typed)
	}
}

// typed is what a form of the book sent.
func (s *server) typed(w http.ResponseWriter, r *http.Request) (url.Values, bool) {
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form could not be read: it may be too long.")
		return nil, false
	}
	return r.PostForm, true
}

// saveEntry puts what was typed into the book.
func (s *server) saveEntry(w http.ResponseWriter, r *http.Request, book kitchen.Book, found finding.List, x nounAsked, typed url.Values) {
	again := func(status int, problem string, found finding.List) {
		v := s.entryPage(r, book, x)
		v.Problem = problem
		s.entry(w, r, status, v, book, x, typed, found)
	}
	changes, problems, err := bookform.Changes(book, x.path, typed)
	switch {
	case err != nil:
		again(http.StatusUnprocessableEntity, sentence(err), found)
		return
	case len(problems) > 0:
		again(http.StatusUnprocessableEntity, "Nothing was saved: "+times(len(problems), "thing is to be mended first.", "things are to be mended first."), nil)
		return
	case s.tookIn(r):
		http.Redirect(w, r, x.url+"?"+savedKey+"=yes", http.StatusSeeOther)
		return
	case len(changes) == 0:
		http.Redirect(w, r, x.url+"?"+savedKey+"=nothing", http.StatusSeeOther)
		return
	case r.PostFormValue(shownField) != markOfNoun(book, x.path):
		again(http.StatusConflict, overtaken(x), found)
		return
	}
	edit, err := s.editNoun(w, r, changes)
	switch stops := (*app.StopsError)(nil); {
	case errors.Is(err, errAnswered):
	case errors.As(err, &stops):
		again(http.StatusUnprocessableEntity, "Nothing was saved: the book could not be planned with after this. What is wrong stands below, and beside its fields.", stops.Found)
	case err != nil:
		again(http.StatusUnprocessableEntity, s.bookTrouble(err), found)
	case edit.Saved:
		http.Redirect(w, r, x.url+"?"+savedKey+"=yes", http.StatusSeeOther)
	default:
		s.showByHand(w, r, book, x, typed, edit)
	}
}

// overtaken says what somebody else did while a form was filled in.
func overtaken(x nounAsked) string {
	if !x.there {
		return "Somebody else took this out of the book meanwhile, or it was never there. Nothing was saved: what you typed stands below; save again to put it into the book."
	}
	return "Somebody else changed this meanwhile. Nothing was saved: what you typed stands below; save again to have it in place of theirs. Versions shows what they changed."
}

// errAnswered says that who sent a form was answered already.
var errAnswered = errors.New("answered")

// editNoun makes changes of the book; of a book that is written by hand it says what its files should be.
func (s *server) editNoun(w http.ResponseWriter, r *http.Request, changes []bookfile.Change) (app.BookEdit, error) {
	house, can := s.house.(nounHouse)
	if !can {
		return app.BookEdit{}, errors.New("the book cannot be changed from here")
	}
	if s.records == nil || !house.InRecords() {
		edit, err := house.TryBook(changes...)
		if err == nil && edit.Stops {
			err = &app.StopsError{Found: edit.Found}
		}
		return edit, err
	}
	by, ok := s.sender(w, r)
	if !ok {
		return app.BookEdit{}, errAnswered
	}
	return house.EditBook(r.Context(), by.ID, app.Author{Who: by.Who, Device: by.Device, At: by.At}, changes...)
}

// tookIn says that this form was taken in already: sent again, it is answered as it was.
func (s *server) tookIn(r *http.Request) bool {
	id, err := record.ParseID(r.PostFormValue(entryField))
	if err != nil || s.records == nil {
		return false
	}
	_, there, err := s.records.Entry(r.Context(), app.PartID(id, 0))
	return there && err == nil
}

// showByHand says what to write into the files of a book that is a folder.
func (s *server) showByHand(w http.ResponseWriter, r *http.Request, book kitchen.Book, x nounAsked, typed url.Values, edit app.BookEdit) {
	v := s.entryPage(r, book, x)
	v.Edit = editOf(edit)
	v.New = !x.there
	s.entry(w, r, http.StatusOK, v, book, x, typed, edit.Found)
}

// savedEntry tells what was done just now, and with which fields.
func (s *server) savedEntry(r *http.Request, x nounAsked) (says, before string, changed []changedField) {
	switch r.URL.Query().Get(savedKey) {
	case "yes":
		says = "Saved, and in use at once."
	case "new":
		return "It is in the book now.", "", nil
	case "copy":
		return "The copy is in the book.", "", nil
	case "back":
		says = "It is again as it was."
	case "nothing":
		return "Nothing was changed, so nothing was saved.", "", nil
	default:
		return "", "", nil
	}
	if s.records == nil {
		return says, "", nil
	}
	all, err := s.records.EntryVersions(r.Context(), x.path)
	if err != nil || len(all) < 2 {
		return says, "", nil
	}
	book, _ := s.house.Book()
	if old := all[len(all)-2]; old.Value != nil {
		before = strconv.FormatUint(old.Seq, 10)
	}
	return says, before, s.changedFields(r, all[len(all)-2].Value, all[len(all)-1].Value, houseOf(book.Kitchen))
}

// changedFields are the fields in which two versions of an entry differ.
func (s *server) changedFields(r *http.Request, a, b any, h bookform.House) []changedField {
	var all []changedField
	for _, p := range bookform.Compare(a, b, h) {
		if p.Differs() && !hiddenMoney(r)(bookform.Field{Kind: p.Kind}) {
			all = append(all, changedField{p.Label, orNone(p.A), orNone(p.B)})
		}
	}
	return all
}

func orNone(text string) string {
	if text == "" {
		return "nothing"
	}
	return text
}

// readPage is all that templates/bookcheck.html may show: what is said beside fields as they are typed in.
type readPage struct {
	Form  fieldsView
	State string
}

// checkEntry reads a form as it is typed, and says beside each field how it was understood or what is wrong.
func (s *server) checkEntry(w http.ResponseWriter, r *http.Request) {
	typed, ok := s.typed(w, r)
	if !ok {
		return
	}
	book, _ := s.house.Book()
	section, known := bookform.SectionOf(r.PathValue("section"))
	path := kitchen.PathTo(section.Key, r.PathValue("id"))
	if section.Single {
		path = section.Key
	} else if r.PathValue("id") == "" {
		path = bookform.New(book, section.Key, "new entry")
	}
	form, err := bookform.Make(book, path, typed)
	if !known || err != nil {
		http.Error(w, "The book has no such entry.", http.StatusNotFound)
		return
	}
	form = form.Without(hiddenMoney(r))
	s.tellFoods(&form)
	v := readPage{Form: fieldsView{form}}
	if n := len(form.Problems()); n > 0 {
		v.State = times(n, "thing to mend", "things to mend")
	}
	bookCheckTemplate.show(w, http.StatusOK, v)
}

// Fields are all fields that have a place for what is said of them.
func (v readPage) Fields() []bookform.Field { return v.Form.form.All() }

var (
	bookEntryTemplate = parse[entryPage]("bookentry")
	bookCheckTemplate = parse[readPage]("bookcheck")
)
