package web

import (
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/tables"
)

// sheetPage is all that templates/officesheet.html may show: a sheet on its way in.
type officeSheetPage struct {
	shell
	Action  string // where the form goes
	About   string
	Problem string // with the file itself
	Header  string // address of a file with nothing but a header
	Fields  []sheetField
	Preview *previewView
}

// sheetField is a column that is read.
type sheetField struct {
	Name, Also, Hint string
	Needed           bool
}

// previewView is what a sheet would enter, and what keeps it.
type previewView struct {
	File     string // its name
	Kept     []kept // what the next form sends again
	Tally    string // "2 new, 1 as it is already, 3 to mend"
	Read     []string
	Unused   string
	Lines    []previewLine
	More     string // lines that are not shown
	Mistakes []mistakeView
	MoreBad  string
	Asked    []askedView
	Ready    string // what the button says that enters it; "" when it cannot be
	Done     string // it was entered before
	Nothing  bool   // all of it is known already
}

type previewLine struct {
	Rows, Says, Note string
	New              bool
}

// mistakeView is a cell to mend.
type mistakeView struct {
	Where, Text, Problem, Fix string
	Key                       string // of the field that mends it; "" when it is not one cell
	ID                        string
	Beside                    string // what else stands in the row
}

// askedView is a question with its possible answers.
type askedView struct {
	Key, Asks, Because string
	Options            []option
}

const (
	fileField   = "file"
	uploadField = "upload" // what an upload is found by
	mendField   = "mend."  // and the name of the cell
	enterField  = "enter"
)

// A page shows so many lines and mistakes: what a person reads, and what a page may weigh.
const (
	shownLines    = 150
	shownMistakes = 60
)

var officeSheetTemplate = parse[officeSheetPage]("officesheet")

// sheetKind is the kind of an address, or the page that says that there is none.
func (s *server) sheetKind(w http.ResponseWriter, r *http.Request) (app.ImportKind, officeSheetPage, bool) {
	if s.noRecords(w, r) {
		return app.ImportKind{}, officeSheetPage{}, false
	}
	book, _ := s.house.Book()
	kind, known := app.ImportKindOf(r.PathValue("kind"))
	if !known {
		s.missing(w, r, book, "Nothing of that name is entered from a sheet.")
		return kind, officeSheetPage{}, false
	}
	v := officeSheetPage{shell: s.inShell(r, book.Kitchen, capital(kind.Name)+" from a sheet", "office"), Action: sheetPath + kind.Key, About: kind.About, Header: sheetPath + kind.Key + "/header.csv"}
	for _, f := range kind.Form.Fields {
		v.Fields = append(v.Fields, sheetField{Name: f.Name, Also: strings.Join(f.Also, ", "), Hint: f.Hint, Needed: f.Required})
	}
	return kind, v, true
}

func (s *server) showSheetForm(w http.ResponseWriter, r *http.Request) {
	if _, v, ok := s.sheetKind(w, r); ok {
		officeSheetTemplate.show(w, http.StatusOK, v)
	}
}

func showSheetHeader(w http.ResponseWriter, r *http.Request) {
	kind, known := app.ImportKindOf(r.PathValue("kind"))
	if !known {
		http.NotFound(w, r)
		return
	}
	csv, err := kind.HeaderCSV()
	if err != nil {
		http.Error(w, sentence(err), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", typeCSV)
	w.Header().Set("Content-Disposition", `attachment; filename="`+kind.Key+`.csv"`)
	w.Write(csv)
}

// takeSheet shows what a sheet would enter, and enters it when that is asked for.
func (s *server) takeSheet(w http.ResponseWriter, r *http.Request, u *uploads) {
	r.Body = http.MaxBytesReader(w, r.Body, mostSheet)
	kind, v, ok := s.sheetKind(w, r)
	if !ok {
		return
	}
	file, key, problem := received(r, u)
	if problem != "" {
		v.Problem = problem
		officeSheetTemplate.show(w, http.StatusUnprocessableEntity, v)
		return
	}
	f := sheetFrom(file, r.PostForm)
	if err := f.Settings.Check(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, sentence(err))
		return
	}
	if r.PostFormValue(enterField) != "" {
		s.enterSheet(w, r, kind, v, f, key)
		return
	}
	book, _ := s.house.Book()
	p, err := s.records.PreviewImport(r.Context(), book, kind, f, s.house.Now())
	s.showPreview(w, v, f, key, p, err)
}

// showPreview shows what a sheet would enter.
func (s *server) showPreview(w http.ResponseWriter, v officeSheetPage, f app.ImportFile, key string, p app.ImportPreview, err error) {
	status := http.StatusOK
	if err != nil {
		v.Problem, status = sentence(err), http.StatusInternalServerError
	} else {
		v.Preview = s.viewPreview(p, f, key)
		if len(p.Mistakes)+len(p.Questions) > 0 {
			status = http.StatusUnprocessableEntity
		}
	}
	officeSheetTemplate.show(w, status, v)
}

// received is the file that was sent with a form, or with one before it.
func received(r *http.Request, u *uploads) (file upload, key, problem string) {
	f, head, err := r.FormFile(fileField) // reads the whole form
	if tooBig := (*http.MaxBytesError)(nil); errors.As(err, &tooBig) {
		return file, "", "The file is too large: divide it into several."
	}
	if err != nil {
		if err := r.ParseForm(); err != nil {
			return file, "", "The form cannot be read: send it again."
		}
		key = r.PostFormValue(uploadField)
		file, ok := u.find(key)
		if !ok && key != "" {
			return file, "", "The file is not here any more: choose it again. Nothing was entered."
		} else if !ok {
			return file, "", "Choose a file first."
		}
		return file, key, ""
	}
	defer f.Close()
	if file.data, err = io.ReadAll(f); err != nil {
		return file, "", "The file did not come through whole: send it again."
	}
	file.name = tidy(head.Filename)
	return file, u.keep(file), ""
}

// sheetFrom is the file with the answers and the mended cells of a form.
func sheetFrom(file upload, form url.Values) app.ImportFile {
	f := app.ImportFile{Name: file.name, Data: file.data, Sheet: form.Get(app.AskSheet), Settings: tables.Settings{}, Mended: map[string]string{}}
	for _, key := range tables.Asked() {
		if answer := form.Get(key); answer != "" {
			f.Settings[key] = answer
		}
	}
	for key, values := range form {
		if cell, mends := strings.CutPrefix(key, mendField); mends {
			f.Mended[cell] = values[0]
		}
	}
	return f
}

func (s *server) enterSheet(w http.ResponseWriter, r *http.Request, kind app.ImportKind, v officeSheetPage, f app.ImportFile, key string) {
	by := s.author(w, r)
	if by.Who == "" {
		s.askWho(w, r)
		return
	}
	book, _ := s.house.Book()
	var p app.ImportPreview
	var err error
	if keeper, can := s.house.(bookKeeper); kind.Books && can && keeper.InRecords() {
		p, err = keeper.EnterPrices(r.Context(), s.records, f, by)
	} else if kind.Books {
		s.refuse(w, r, http.StatusConflict, "Prices are a part of the book, and these pages use a book that is not in the records: put it there first with kettlefrost book import.")
		return
	} else {
		p, err = s.records.EnterImport(r.Context(), book, kind, f, by)
	}
	if notReady := (*app.NotReadyError)(nil); errors.As(err, &notReady) {
		s.showPreview(w, v, f, key, notReady.Preview, nil)
		return
	}
	if stops := (*app.StopsError)(nil); errors.As(err, &stops) {
		s.refuse(w, r, http.StatusUnprocessableEntity, sentence(err))
		return
	}
	if err != nil {
		status, text := trouble(err)
		s.refuse(w, r, status, text)
		return
	}
	http.Redirect(w, r, enteredAt(kind, p), http.StatusSeeOther)
}

// enteredAt is where it is told what was entered: few entries one by one, many as a count. The book is put back in its own way.
func enteredAt(kind app.ImportKind, p app.ImportPreview) string {
	entry := fmt.Sprintf("%s-%d", p.ID(), p.Entries)
	switch {
	case kind.Books:
		return bookFilesPath
	case p.Entries <= 12:
		return withDid(officePath, entry)
	}
	return officePath + "?" + url.Values{"entered": {entry}}.Encode()
}
