package web

import (
	"errors"
	"net/http"
	"net/url"
	"slices"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// Addresses of the book's files.
const (
	bookFilesPath   = "/book/files"
	bookFilePath    = "/book/file"
	bookComparePath = "/book/compare"
)

func (s *server) bookFileRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET /book/files", s.showBookFiles)
	mux.HandleFunc("GET /book/file", s.showBookFile)
	mux.HandleFunc("POST /book/file", s.entering(s.keeping(s.changeBookFile)))
	mux.HandleFunc("POST /book/put-back", s.entering(s.keeping(s.putBookFileBack)))
	mux.HandleFunc("POST /book/drafts", s.entering(s.keeping(s.useBookDrafts)))
	mux.HandleFunc("GET /book/compare", s.showBookCompare)
}

// bookFilesPage is all that templates/officebook.html may show: the files of the book that the records keep.
type bookFilesPage struct {
	shell
	None    bool // no records are kept, or they keep no book
	Place   string
	Problem string
	Saved   string // what was done just now
	Entry   string // number of the form that puts drafts into use
	Files   []bookFileRow
	Drafts  []bookDraftRow
	Log     []changeRow
	More    string // changes that are not shown
}

type bookFileRow struct{ URL, Name, Changed, Version, Size string }

// bookDraftRow is a file that somebody works on.
type bookDraftRow struct {
	URL, Name, Kept string
	Late            string // who changed the file since
}

// changeRow is a change of a file, among those of all files.
type changeRow struct {
	File, URL string
	Says      string // version 3, deleted
	When, Who string
	Compare   string // address of a comparison with the version before; "" for the first
}

// bookVersionRow is a version of the file that is shown.
type bookVersionRow struct {
	File, Says, When, Who string
	Compare               string // as of changeRow
	CompareNow            string // with the one in use; "" for that
	Number                string
	Entry                 string // number of the form that makes it so again; "" for the one in use
}

// mostLogged is how many changes a page shows.
const mostLogged = 60

func bookFileURL(file string) string {
	return bookFilePath + "?" + url.Values{"file": {file}}.Encode()
}

// keeping is a handler of a form that changes the book in the records: there is one, and these pages use it.
func (s *server) keeping(next func(http.ResponseWriter, *http.Request, bookKeeper)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		keeper, can := s.house.(bookKeeper)
		if !can || !keeper.InRecords() {
			s.refuse(w, r, http.StatusConflict, "These pages use a book that is not in the records, so it is changed in its folder.")
			return
		}
		if s.who(w, r) == "" {
			s.askWho(w, r)
			return
		}
		next(w, r, keeper)
	}
}

func (s *server) showBookFiles(w http.ResponseWriter, r *http.Request) {
	if s.noRecords(w, r) {
		return
	}
	v, err := s.bookFiles(r)
	status := http.StatusOK
	if err != nil {
		v.Problem, status = sentence(err), http.StatusInternalServerError
	}
	bookFilesTemplate.show(w, status, v)
}

func (s *server) bookFiles(r *http.Request) (v bookFilesPage, err error) {
	book, _ := s.house.Book()
	v = bookFilesPage{shell: s.inShell(r, book.Kitchen, "The files of the book", "files"), Place: s.bookPlace(r.Context()), Saved: savedText(r.URL.Query()), Entry: newEntryID()}
	files, err := s.records.BookFiles(r.Context())
	if err != nil {
		return v, err
	}
	for _, name := range files.Names() {
		x, _ := files.Version(name)
		v.Files = append(v.Files, bookFileRow{bookFileURL(name), name, s.toldAt(x.When) + ", " + x.Who, numeral(x.Number), fileSize(int64(len(x.Text)))})
	}
	v.None = len(v.Files) == 0
	drafts, err := s.records.Drafts(r.Context())
	if err != nil {
		return v, err
	}
	for _, d := range drafts {
		row := bookDraftRow{URL: bookFileURL(d.File), Name: d.File, Kept: s.toldAt(d.Draft.When) + ", " + d.Draft.Who}
		if d.Late() {
			row.Late = d.Now.Who
		}
		v.Drafts = append(v.Drafts, row)
	}
	log, err := s.records.BookLog(r.Context(), "")
	v.Log, v.More = s.changeRows(log)
	return v, err
}

// changeRows are the latest changes of all files.
func (s *server) changeRows(log []app.BookVersion) (rows []changeRow, more string) {
	shown, more := latest(log)
	for _, x := range shown {
		rows = append(rows, changeRow{x.Path, bookFileURL(x.Path), versionSays(x), s.toldAt(x.When), x.Who, compareBefore(x)})
	}
	return rows, more
}

// bookVersionRows are the latest versions of one file. Each but the one in use can be made so again.
func (s *server) bookVersionRows(log []app.BookVersion) (rows []bookVersionRow, more string) {
	shown, more := latest(log)
	for i, x := range shown {
		row := bookVersionRow{File: x.Path, Says: versionSays(x), When: s.toldAt(x.When), Who: x.Who, Compare: compareBefore(x), Number: numeral(x.Number)}
		if i > 0 {
			row.CompareNow, row.Entry = compareURL(x.Path, x.Number, log[0].Number), newEntryID()
		}
		rows = append(rows, row)
	}
	return rows, more
}

// latest are the versions that a page shows, and words for the others.
func latest(log []app.BookVersion) (shown []app.BookVersion, more string) {
	if n := len(log) - mostLogged; n > 0 {
		return log[:mostLogged], times(n, "earlier change is not shown", "earlier changes are not shown")
	}
	return log, ""
}

func versionSays(v app.BookVersion) string {
	if v.Deleted {
		return "version " + numeral(v.Number) + ", deleted"
	}
	return "version " + numeral(v.Number)
}

func compareBefore(v app.BookVersion) string {
	if v.Number == 1 {
		return ""
	}
	return compareURL(v.Path, v.Number-1, v.Number)
}

func compareURL(file string, from, to int) string {
	return bookComparePath + "?" + url.Values{"file": {file}, "from": {numeral(from)}, "to": {numeral(to)}}.Encode()
}

// saved are the words for what was done just now, by what an address says.
var saved = map[string]string{"saved": "is saved and in use", "draft": "is kept as a draft; it is not in use", "deleted": "is deleted", "back": "is again what it was", "drafts": "All drafts are in use", "dropped": "The draft is gone"}

func savedText(query url.Values) string {
	says, known := saved[query.Get("did-book")]
	file := tidy(query.Get("of"))
	switch {
	case !known:
		return ""
	case file == "":
		return says + "."
	}
	return file + " " + says + "."
}

func savedAt(path, what, file string) string {
	q := url.Values{"did-book": {what}}
	if file != "" {
		q.Set("of", file)
	}
	if path == bookFilePath {
		q.Set("file", file)
	}
	return path + "?" + q.Encode()
}

// useBookDrafts puts all drafts into use at once.
func (s *server) useBookDrafts(w http.ResponseWriter, r *http.Request, keeper bookKeeper) {
	id, err := record.ParseID(r.PostFormValue(entryField))
	if err == nil {
		err = keeper.UseDrafts(r.Context(), s.records, id, s.author(w, r))
	}
	if err == nil {
		http.Redirect(w, r, savedAt(bookFilesPath, "drafts", ""), http.StatusSeeOther)
		return
	}
	v, err2 := s.bookFiles(r)
	if err2 != nil {
		err = err2
	}
	v.Problem = s.bookTrouble(err)
	bookFilesTemplate.show(w, http.StatusUnprocessableEntity, v)
}

// bookTrouble says what kept a change of the book out.
func (s *server) bookTrouble(err error) string {
	if changed := (*app.ChangedError)(nil); errors.As(err, &changed) {
		if changed.Now.Seq == 0 {
			return changed.Change.Path + " is not there any more. Nothing was changed."
		}
		return changed.Change.Path + " was changed by " + changed.Now.Who + " meanwhile, " + s.toldAt(changed.Now.When) + ". Nothing was changed: look at it first."
	}
	if stops := (*app.StopsError)(nil); errors.As(err, &stops) {
		text := sentence(err)
		for _, f := range stops.Found {
			if f.Severity == finding.Stop {
				return text + " First: " + f.String()
			}
		}
		return text
	}
	_, text := trouble(err)
	return text
}

// putBookFileBack makes a file what it was in an earlier version, as a new version.
func (s *server) putBookFileBack(w http.ResponseWriter, r *http.Request, keeper bookKeeper) {
	file := r.PostFormValue("file")
	id, err := record.ParseID(r.PostFormValue(entryField))
	log, err2 := s.records.BookLog(r.Context(), file)
	i := slices.IndexFunc(log, func(x app.BookVersion) bool { return numeral(x.Number) == r.PostFormValue("version") })
	if err != nil || err2 != nil || i < 0 {
		s.refuse(w, r, http.StatusBadRequest, "There is no such version of this file: load the page again.")
		return
	}
	edit := app.Edit{Path: file, Text: log[i].Text, Deleted: log[i].Deleted}
	if !log[0].Deleted {
		edit.Base = log[0].Seq
	}
	if err := keeper.SaveBook(r.Context(), s.records, id, s.author(w, r), edit); err != nil {
		s.refuse(w, r, http.StatusUnprocessableEntity, s.bookTrouble(err))
		return
	}
	http.Redirect(w, r, savedAt(bookFilePath, "back", file), http.StatusSeeOther)
}

var bookFilesTemplate = parse[bookFilesPage]("officebook")
