package web

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/draftdish"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// draftPath is where a home recipe becomes a draft of a dish; draftJSONPath answers with the draft as data.
const (
	draftPath     = "/workshop/draft"
	draftJSONPath = "/workshop/draft.json"
)

// draftHouse is a house that drafts dishes; *app.App is one.
type draftHouse interface {
	DraftDish(draftdish.Recipe, draftdish.Answers) (draftdish.Draft, error)
	SaveDraft(context.Context, record.ID, app.Author, draftdish.Draft) (app.BookEdit, error)
	TryBook(...bookfile.Change) (app.BookEdit, error)
	InRecords() bool
}

// draftRoutes are drafts of dishes. Reading a recipe enters nothing, so that it works without records.
func (s *server) draftRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+draftPath, func(w http.ResponseWriter, r *http.Request) { s.showDraft(w, r, http.StatusOK, draftTyped{}, "") })
	mux.HandleFunc("POST "+draftPath, s.readDraft)
	mux.HandleFunc("POST "+draftJSONPath, s.draftJSON)
}

// draftTyped is all that was typed: the recipe, and answers by the keys of what is asked.
type draftTyped struct {
	recipe  string
	answers draftdish.Answers
	sent    bool
}

// draftAnswer is how the fields of answers begin.
const draftAnswer = "a-"

func typedDraft(form url.Values) draftTyped {
	t := draftTyped{answers: draftdish.Answers{}, sent: true}
	t.recipe = strings.ToValidUTF8(form.Get("recipe"), "\uFFFD")
	for key, values := range form {
		if name, is := strings.CutPrefix(key, draftAnswer); is && len(values) > 0 && len(t.answers) < 400 {
			if text := tidy(values[0]); text != "" {
				t.answers[tidy(name)] = text
			}
		}
	}
	return t
}

// draftPage is all that templates/draftdish.html may show.
type draftPage struct {
	shell
	Recipe  string
	Entry   string
	Problem string
	Fix     string
	Blocked findingsView // what is wrong with the book
	Shown   *draftView
}

// draftView is a draft in words.
type draftView struct {
	Title, ID, Makes, Gives string
	Grave, Asks             []field
	Settled                 []field // what was answered, to be changed
	Lines                   []draftLine
	Steps                   []draftStep
	Concerns                []draftConcern
	LeftOut                 []string
	Unused                  []string
	Findings                findingsView
	Savable, Kept           bool
	Files                   []draftFile // to be written by somebody, of a book that is a folder
}

type draftLine struct{ Text, Is, Sure, Amount, Mass, Steps, Class, Sign, Problem string }

type draftStep struct {
	Number, Text, How, In, Facts string
	Assumed                      []string
}

type draftConcern struct{ Class, Sign, Word, About, Says, Fix, Source string }

// draftFile is a file of the book with the lines that come and go.
type draftFile struct {
	Name  string
	Lines []draftFileLine
}

type draftFileLine struct{ Class, Sign, Text string }

var draftTemplate = parse[draftPage]("draftdish")

// readDraft reads what was sent and shows the draft, or puts it into the book.
func (s *server) readDraft(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form could not be read: it may be too long.")
		return
	}
	t := typedDraft(r.PostForm)
	if r.PostFormValue("do") == "save" {
		s.saveDraft(w, r, t)
		return
	}
	s.showDraft(w, r, http.StatusOK, t, "")
}

// saveDraft puts a draft into the book of the records.
func (s *server) saveDraft(w http.ResponseWriter, r *http.Request, t draftTyped) {
	house, can := s.house.(draftHouse)
	switch {
	case !can || s.records == nil || !house.InRecords():
		s.showDraft(w, r, http.StatusConflict, t, "The book is a folder, which these pages do not write: write the lines below into its files.")
		return
	}
	by, ok := s.sender(w, r)
	if !ok {
		return
	}
	d, err := house.DraftDish(draftdish.Split(t.recipe), t.answers)
	if err == nil && !d.Savable {
		s.showDraft(w, r, http.StatusUnprocessableEntity, t, "The book would not take it: what is wrong stands below. Nothing was entered.")
		return
	}
	var edit app.BookEdit
	if err == nil {
		edit, err = house.SaveDraft(r.Context(), by.ID, app.Author{Who: by.Who, Device: by.Device, At: by.At}, d)
	}
	if err != nil {
		s.showDraft(w, r, http.StatusUnprocessableEntity, t, s.bookTrouble(err))
		return
	}
	back := "/workshop/dish?dish=" + url.QueryEscape(string(d.ID))
	if len(edit.Files) == 0 { // sent twice: it is there already, under the name that it got first
		back = "/workshop"
	}
	http.Redirect(w, r, withDid(back, by.ID.String()), http.StatusSeeOther)
}

func (s *server) showDraft(w http.ResponseWriter, r *http.Request, status int, t draftTyped, problem string) {
	book, found := s.house.Book()
	v := draftPage{shell: s.inShell(r, book.Kitchen, "From a home recipe", "draft"), Recipe: t.recipe, Problem: problem}
	house, can := s.house.(draftHouse)
	switch {
	case found.Worst() == finding.Stop:
		v.Blocked = viewFindings(found)
	case !can:
		v.Problem = "There is no book here to put a dish into."
	case t.sent:
		d, err := house.DraftDish(draftdish.Split(t.recipe), t.answers)
		if bad, is := errors.AsType[*draftdish.RecipeError](err); is {
			v.Problem, v.Fix = capital(bad.Field+" "+bad.Problem)+".", capital(bad.Fix)+"."
			status = max(status, http.StatusUnprocessableEntity)
			break
		}
		if err != nil {
			v.Problem, status = sentence(err), http.StatusUnprocessableEntity
			break
		}
		v.Shown = viewDraft(d, book.Kitchen.Units)
		v.Shown.Kept = house.InRecords() && s.records != nil
		if v.Shown.Kept {
			v.Entry = newEntryID()
		} else {
			v.Shown.Files = draftFiles(house, d)
		}
	}
	draftTemplate.show(w, status, v)
}

// draftFiles are the lines that a book in a folder needs.
func draftFiles(house draftHouse, d draftdish.Draft) []draftFile {
	edit, err := house.TryBook(app.DraftChanges(d)...)
	if err != nil {
		return nil
	}
	return editFiles(edit)
}

// editFiles are the files that changes of the book make otherwise, with the lines that come and go.
func editFiles(edit app.BookEdit) []draftFile {
	var files []draftFile
	for _, f := range edit.Files {
		file := draftFile{Name: f.Name}
		for _, l := range f.Lines() {
			if class := map[rune]string{'+': "added", '-': "removed", ' ': "same"}[l.Sign]; class != "" {
				file.Lines = append(file.Lines, draftFileLine{class, strings.TrimSpace(string(l.Sign)), l.Text})
			}
		}
		files = append(files, file)
	}
	return files
}

func viewDraft(d draftdish.Draft, units unit.System) *draftView {
	v := &draftView{Title: d.Title, ID: string(d.ID), Makes: cmp.Or(d.Makes, "not said"), Gives: "not known", LeftOut: d.LeftOut, Unused: d.Unused, Findings: viewFindings(d.Findings), Savable: d.Savable}
	if d.Gives > 0 {
		v.Gives = d.Gives.Show(units)
	}
	for _, q := range d.Asks {
		f := askField(q)
		switch {
		case q.Answered:
			v.Settled = append(v.Settled, f)
		case q.Grave:
			v.Grave = append(v.Grave, f)
		default:
			v.Asks = append(v.Asks, f)
		}
	}
	for _, l := range d.Lines {
		v.Lines = append(v.Lines, viewDraftLine(l, units))
	}
	for _, x := range d.Steps {
		v.Steps = append(v.Steps, viewDraftStep(x))
	}
	for _, c := range d.Concerns {
		v.Concerns = append(v.Concerns, draftConcern{Class: c.Severity.String(), Sign: signs[c.Severity], Word: strings.ToUpper(c.Severity.String()), About: c.About, Says: c.Says, Fix: c.Fix, Source: c.Source})
	}
	slices.SortStableFunc(v.Concerns, func(a, b draftConcern) int { return cmp.Compare(a.Class, b.Class) })
	return v
}

func askField(q draftdish.Ask) field {
	f := field{Key: draftAnswer + q.Key, Label: strings.TrimSuffix(q.About, ".") + ": " + capital(q.Question), Value: q.Answer, Problem: q.Problem}
	f.Hint = "nothing is assumed"
	if q.Assumed != "" {
		f.Hint = "assumed: " + q.Assumed
	}
	if q.Source != "" {
		f.Hint += " (" + q.Source + ")"
	}
	if len(q.Options) > 0 {
		f.Options = []option{{"", cmp.Or(q.Assumed, "open") + map[bool]string{true: ", as assumed"}[q.Assumed != ""], q.Answer == ""}}
		for _, o := range q.Options {
			f.Options = append(f.Options, option{o.Is, o.Says, q.Answer == o.Is})
		}
	}
	return f
}

func viewDraftLine(l *draftdish.Line, units unit.System) draftLine {
	x := draftLine{Text: l.Text, Is: l.Name, Sure: l.Sure.String(), Amount: l.Says, Problem: l.Problem, Class: "yes", Sign: "●"}
	if l.New {
		x.Is += " (new)"
	}
	if l.Mass > 0 {
		x.Mass = l.Mass.Show(units)
	}
	var at []string
	for _, n := range l.Steps {
		at = append(at, fmt.Sprint(n))
	}
	x.Steps = strings.Join(at, ", ")
	switch {
	case l.Out:
		x.Class, x.Sign, x.Amount = "stop", "■", cmp.Or(x.Amount, "not in the dish: nothing says how much")
	case l.Assumed || l.Sure < draftdish.Certain:
		x.Class, x.Sign = "caution", "▲"
	}
	return x
}

func viewDraftStep(x *draftdish.Step) draftStep {
	var facts []string
	if x.HeatF > 0 {
		facts = append(facts, fmt.Sprintf("to %d °F", x.HeatF))
	}
	if x.Minutes > 0 {
		facts = append(facts, fmt.Sprintf("%d min", x.Minutes))
	}
	if len(x.From) > 0 {
		var from []string
		for _, n := range x.From {
			from = append(from, fmt.Sprint(n))
		}
		facts = append(facts, "from step "+strings.Join(from, " and "))
	}
	return draftStep{Number: fmt.Sprint(x.Number), Text: x.Text, How: x.How, In: cmp.Or(x.In, "where it is"), Facts: strings.Join(facts, ", "), Assumed: x.Assumed}
}

// draftJSON answers with a draft as data: the form of the page, or a recipe as text.
func (s *server) draftJSON(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	house, can := s.house.(draftHouse)
	if err := r.ParseForm(); err != nil || !can {
		writeJSON(w, http.StatusBadRequest, refusal{Error: "send a form with recipe, and answers as a-KEY"})
		return
	}
	t := typedDraft(r.PostForm)
	d, err := house.DraftDish(draftdish.Split(t.recipe), t.answers)
	if err != nil {
		writeJSON(w, http.StatusUnprocessableEntity, refusal{Error: err.Error()})
		return
	}
	writeJSON(w, http.StatusOK, d)
}
