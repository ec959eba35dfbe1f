package web

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// bookHouse is a house that changes its book, or says what its files should be; *app.App is one.
type bookHouse interface {
	InRecords() bool
	TryBook(...bookfile.Change) (app.BookEdit, error)
	EditBook(context.Context, record.ID, app.Author, ...bookfile.Change) (app.BookEdit, error)
}

// keepRun is the form that puts a run into the book as it is shown, changes it there, copies it to another day or takes it out.
type keepRun struct {
	Action  string // with all targets in its address
	Entry   string // number of the form
	Was     string // a mark of the run in the book as it was shown
	Made    bool   // it is not in the book
	Changed bool   // its targets are not those of the book
	Name    field
	Day     field  // of a copy
	Again   string // address of the form on the home page
	Rare    string // address of the form of all that a run may say
	Kept    bool   // the book is in the records, and is changed at once
	Open    bool
}

// What the form does.
const (
	doNew      = "new"
	doRetire   = "retire"
	runNameKey = "run-name"
	runMarkKey = "was"
	runOnKey   = "on"
)

// keepRunOf is the form for a run as it is shown.
func (s *server) keepRunOf(r *http.Request, a asked) keepRun {
	query := across(r.URL.Query())
	for _, key := range []string{"kept", "did"} {
		query.Del(key)
	}
	house, can := s.house.(bookHouse)
	v := keepRun{Action: runPath(a.name) + "/keep" + queryOf(query), Entry: newEntryID(), Was: runMark(a), Made: a.made, Changed: !a.made && len(runChanges(a)) > 0, Again: planAgain(a, query), Kept: can && house.InRecords(),
		Name: field{Key: runNameKey, Label: "Name", Hint: "what the crew calls it"},
		Day:  field{Key: runOnKey, Label: "On another day", Hint: "the copy begins then", Value: "", Date: true}}
	v.Name.Value = a.run.Name
	if a.made {
		v.Name.Value = freeName(a.book, proposedName(a))
	} else {
		v.Rare = "/book/runs/" + url.PathEscape(a.name)
	}
	return v
}

// proposedName calls a run after its day and what is made most of.
func proposedName(a asked) string {
	what, most := "", 0
	for _, w := range a.run.Want {
		name := a.book.Dishes[w.Dish].Name
		if w.Pack != "" {
			name = a.book.Dishes[a.book.Packs[w.Pack].Dish].Name
		}
		if n := max(1, w.Count); n > most {
			what, most = name, n
		}
	}
	return strings.TrimSpace(a.run.Day + " " + what)
}

// freeName is a name, with a number where the book has a run of it already.
func freeName(book kitchen.Book, name string) string {
	for n := 1; ; n++ {
		try := name
		if n > 1 {
			try = fmt.Sprintf("%s %d", name, n)
		}
		if _, taken := book.Runs[runID(try)]; !taken {
			return try
		}
	}
}

// runID is a name as the book's files have it: lower-case letters, digits and hyphens.
func runID(name string) string {
	var id strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			id.WriteRune(r)
		case id.Len() > 0 && !strings.HasSuffix(id.String(), "-"):
			id.WriteByte('-')
		}
		if id.Len() >= mostRunID {
			break
		}
	}
	text := strings.Trim(id.String(), "-")
	if text == "" || text == newRun || text == proposedRun {
		text = strings.Trim("run-"+text, "-")
	}
	return text
}

// mostRunID keeps addresses readable.
const mostRunID = 60

// runMark is one word for a run of the book as it stands there.
func runMark(a asked) string {
	if a.made {
		return ""
	}
	sum := sha256.Sum256([]byte(runText(a.booked)))
	return hex.EncodeToString(sum[:8])
}

// runText is a run as a file would have it.
func runText(req kitchen.Request) string {
	text, err := bookfile.WriteRun("run", req)
	if err != nil {
		return err.Error() // differs from every run
	}
	return string(text)
}

// runChanges are what a page's targets change in the run of the book.
func runChanges(a asked) []bookfile.Change {
	at := kitchen.PathTo("runs", a.name)
	var all []bookfile.Change
	set := func(path, was, is string) {
		if was != is {
			all = append(all, bookfile.Set(path, is))
		}
	}
	was, is := a.booked, a.run
	set(at+".name", was.Name, is.Name)
	set(at+".day", was.Day, is.Day)
	set(at+".today", was.Today, is.Today)
	set(at+".finish", clockOrNone(was.Finish), clockOrNone(is.Finish))
	set(at+".reserve", shareOrNone(was.Reserve), shareOrNone(is.Reserve))
	set(at+".aims", aimWords(was.Aims), aimWords(is.Aims))
	for i := range is.Want {
		here := kitchen.PathAt(at+".want", i)
		if w, n := was.Want[i], is.Want[i]; n.Pack != "" {
			set(here+".count", fmt.Sprint(w.Count), fmt.Sprint(n.Count))
		} else if n.Use != nil {
			set(here+".use.amount", w.Use.Amount.String(), n.Use.Amount.String())
		}
	}
	return all
}

func aimWords(aims []kitchen.Aim) string {
	var words []string
	for _, a := range aims {
		words = append(words, string(a))
	}
	return strings.Join(words, ", ")
}

// changeRun puts a run into the book, changes it there or takes it out, as the form says.
func (s *server) changeRun(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	a, err := s.ask(r, r.PathValue("name"))
	switch {
	case err != nil:
		s.missing(w, r, a.book, missingRun(err))
		return
	case a.status != http.StatusOK:
		glanceTemplate.show(w, a.status, s.viewGlance(r, a, nil, s.headOf(r, a, "", a.run.Day)))
		return
	}
	house, can := s.house.(bookHouse)
	if !can {
		s.refuse(w, r, http.StatusConflict, "These pages use a book that cannot be changed.")
		return
	}
	do := r.PostFormValue("do")
	if do != doNew && r.PostFormValue(runMarkKey) != runMark(a) {
		s.runAgain(w, r, a, "", "The run was changed by somebody else since this page was shown. Nothing was changed: look at it as it is now.")
		return
	}
	switch do {
	case doNew:
		s.keepAsNew(w, r, a, house)
	case doSave:
		a.run.Name = cmp.Or(tidy(r.PostFormValue(runNameKey)), a.run.Name)
		s.editRun(w, r, a, house, a.name, runPath(a.name)+"?kept=saved", runChanges(a)...)
	case doRetire:
		if open := s.openOf(r, a.name); open != "" {
			s.runAgain(w, r, a, "", "The production "+open+" of this run is under way: close it on its board first. Nothing was changed.")
			return
		}
		s.editRun(w, r, a, house, a.name, "/?"+url.Values{"retired": {a.run.Name}}.Encode(), bookfile.Delete(kitchen.PathTo("runs", a.name)))
	default:
		s.runAgain(w, r, a, "", "It is not said what to do with the run. Nothing was changed.")
	}
}

// keepAsNew puts a run into the book under a name of its own. The same run under the same name is there once, however often it is sent.
func (s *server) keepAsNew(w http.ResponseWriter, r *http.Request, a asked, house bookHouse) {
	req := a.run
	req.Name = tidy(r.PostFormValue(runNameKey))
	if req.Name == "" {
		s.runAgain(w, r, a, "Give it a name, such as “Tuesday’s sauces”.", "")
		return
	}
	if day := tidy(r.PostFormValue(runOnKey)); day != "" {
		if _, err := readRunDay(day); err != nil {
			s.runAgain(w, r, a, "", sentence(err))
			return
		}
		req.Day, req.Today = day, ""
	}
	id := runID(req.Name)
	for n := 2; ; n++ {
		there, taken := a.book.Runs[id]
		if !taken {
			break
		}
		if runText(there) == runText(req) {
			http.Redirect(w, r, runPath(id)+"?kept=there", http.StatusSeeOther)
			return
		}
		id = fmt.Sprintf("%s-%d", runID(req.Name), n)
	}
	s.editRun(w, r, a, house, id, runPath(id)+"?kept=new", bookfile.Set(kitchen.PathTo("runs", id), req))
}

// editRun changes the book: at once when the records keep it, else it shows what to write into which file.
func (s *server) editRun(w http.ResponseWriter, r *http.Request, a asked, house bookHouse, id, to string, changes ...bookfile.Change) {
	if len(changes) == 0 {
		s.runAgain(w, r, a, "", "Nothing is otherwise than in the book.")
		return
	}
	if !house.InRecords() || s.records == nil {
		edit, err := house.TryBook(changes...)
		s.showRunFiles(w, r, a, id, edit, err)
		return
	}
	by, ok := s.sender(w, r)
	if !ok {
		return
	}
	if _, err := house.EditBook(r.Context(), by.ID, app.Author{Who: by.Who, Device: by.Device, At: by.At}, changes...); err != nil {
		s.runAgain(w, r, a, "", s.bookTrouble(err))
		return
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
}

// openOf is a production of a run that is under way, "" for none.
func (s *server) openOf(r *http.Request, run string) string {
	if s.boards == nil {
		return ""
	}
	runs, err := s.boards.Runs(r.Context())
	if err != nil {
		return ""
	}
	for _, x := range runs {
		if _, opened, ok := x.Opened(); ok && x.Open() && opened.Request == run {
			return x.Name
		}
	}
	return ""
}

// keptRunPage is all that templates/keeprun.html may show: the form again with what was wrong, or what to write into the files of a book that is
// a folder.
type keptRunPage struct {
	shell
	Run     string
	Back    string // address of the run as it was asked for
	Problem string
	Form    keepRun
	Files   []draftFile
	Found   findingsView
	Demo    bool
}

var keptRunTemplate = parse[keptRunPage]("keeprun")

// runAgain shows the form again with what was typed: the problem of its name, or of all of it.
func (s *server) runAgain(w http.ResponseWriter, r *http.Request, a asked, name, problem string) {
	v := keptRunPage{shell: s.inShell(r, a.book.Kitchen, "Not changed", "run"), Run: cmp.Or(a.run.Name, a.name), Back: runPath(a.name) + queryOf(across(r.URL.Query())), Problem: problem, Form: s.keepRunOf(r, a)}
	v.Form.Name.Value, v.Form.Name.Problem = tidy(r.PostFormValue(runNameKey)), name
	v.Form.Day.Value, v.Form.Open = tidy(r.PostFormValue(runOnKey)), true
	keptRunTemplate.show(w, http.StatusUnprocessableEntity, v)
}

// showRunFiles shows what to write into which file.
func (s *server) showRunFiles(w http.ResponseWriter, r *http.Request, a asked, id string, edit app.BookEdit, err error) {
	if err != nil {
		s.runAgain(w, r, a, "", sentence(err))
		return
	}
	v := keptRunPage{shell: s.inShell(r, a.book.Kitchen, "To write into the book", "run"), Run: cmp.Or(a.run.Name, id), Back: runPath(a.name) + queryOf(across(r.URL.Query())), Form: s.keepRunOf(r, a), Demo: s.isDemo()}
	v.Files = editFiles(edit)
	if edit.Found.Worst() >= finding.Stop {
		v.Found = viewFindings(edit.Found)
	}
	keptRunTemplate.show(w, http.StatusOK, v)
}

// keptRunText says what was done with a run just now.
func keptRunText(r *http.Request) string {
	return map[string]string{"new": "Kept: this run is in the book.", "saved": "Saved: the book has it like this now.", "there": "This run is in the book already, just like this: nothing was added."}[r.URL.Query().Get("kept")]
}
