package web

import (
	"context"
	"fmt"
	"net/http"
	"net/url"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
)

// bookKeeper is a house that can change the book which the records keep; *app.App is one.
type bookKeeper interface {
	InRecords() bool
	CheckEdits(ctx context.Context, r *app.Records, edits ...app.Edit) (app.BookCheck, error)
	SaveBook(ctx context.Context, r *app.Records, id record.ID, by app.Author, edits ...app.Edit) error
	UseDrafts(ctx context.Context, r *app.Records, id record.ID, by app.Author) error
	EnterPrices(ctx context.Context, r *app.Records, f app.ImportFile, by app.Author) (app.ImportPreview, error)
}

// Addresses of the office.
const (
	officePath = "/office"
	sheetPath  = "/office/sheet/"
	tablePath  = "/office/table/"
)

// officeRoutes are files in and out, the book as files, and backups.
func (s *server) officeRoutes(mux *http.ServeMux) {
	u := newUploads()
	mux.HandleFunc("GET /office", s.showOffice)
	mux.HandleFunc("GET /office/sheet/{kind}", s.showSheetForm)
	mux.HandleFunc("POST /office/sheet/{kind}", func(w http.ResponseWriter, r *http.Request) { s.takeSheet(w, r, u) })
	mux.HandleFunc("GET /office/sheet/{kind}/header.csv", showSheetHeader)
	mux.HandleFunc("GET /office/everything.zip", s.sendEverything)
	mux.HandleFunc("GET /office/entries.jsonl", s.sendEntries)
	mux.HandleFunc("GET /office/tables.xlsx", s.sendWorkbook)
	mux.HandleFunc("GET /office/table/{name}", s.sendTable)
	s.bookFileRoutes(mux)
}

// officePage is all that templates/office.html may show.
type officePage struct {
	shell
	None     bool // no records are kept
	Problem  string
	Sheets   []sheetLink
	Tables   []tableLink
	Entries  string
	Hash     string
	Backup   backupView
	Book     string // where the book is kept
	Imported *importedView
}

// sheetLink leads to where a sheet is entered.
type sheetLink struct{ URL, Name, About string }

// tableLink leads to a table.
type tableLink struct{ Name, About, CSV, XLSX string }

// backupView is how the backups stand.
type backupView struct {
	On       bool
	Folder   string
	Every    string
	Keep     string
	Last     string // when, and how large
	Findings []findingView
}

// importedView is what was entered from a sheet just now.
type importedView struct {
	Says  string
	Entry string // for taking it back; "" when it is too much for that
}

func (s *server) showOffice(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	v := officePage{shell: s.inShell(r, book.Kitchen, "Office", "office"), None: s.records == nil}
	for _, k := range app.ImportKinds() {
		v.Sheets = append(v.Sheets, sheetLink{sheetPath + k.Key, capital(k.Name), k.About})
	}
	if s.records == nil {
		officeTemplate.show(w, http.StatusOK, v)
		return
	}
	head, err := s.records.Head(r.Context())
	if err != nil {
		v.Problem = sentence(err)
		officeTemplate.show(w, http.StatusInternalServerError, v)
		return
	}
	v.Entries, v.Hash = times(int(head.Seq), "entry", "entries"), head.Hash.String()
	for _, t := range app.EmptyTables() {
		name := app.FileName(t)
		v.Tables = append(v.Tables, tableLink{capital(t.Name), t.About, tablePath + name + ".csv", tablePath + name + ".xlsx"})
	}
	v.Backup, v.Book, v.Imported = s.backupView(), s.bookPlace(r.Context()), imported(r.URL.Query())
	officeTemplate.show(w, http.StatusOK, v)
}

func (s *server) backupView() backupView {
	now := s.house.Now()
	state, found := s.records.BackupState(now)
	v := backupView{On: state.On, Folder: state.Folder}
	for _, f := range found {
		v.Findings = append(v.Findings, viewFinding(f))
	}
	if !state.On {
		return v
	}
	v.Every, v.Keep, v.Last = app.Roughly(state.Every), times(state.Keep, "backup", "backups"), "none yet"
	if state.Found {
		v.Last = fmt.Sprintf("%s, %s", wallTime(state.Last.At, now), fileSize(state.Last.Size))
	}
	return v
}

// wallTime is a time by the clock on the wall.
func wallTime(at, now time.Time) string {
	at = at.In(now.Location())
	if at.Format(time.DateOnly) == now.Format(time.DateOnly) {
		return "today at " + at.Format("15:04")
	}
	return at.Format("2006-01-02 15:04")
}

// toldAt is when something was told.
func (s *server) toldAt(at record.Instant) string {
	return wallTime(time.UnixMilli(int64(at)), s.house.Now())
}

func fileSize(bytes int64) string {
	switch {
	case bytes < 1000:
		return fmt.Sprintf("%d bytes", bytes)
	case bytes < 1_000_000:
		return fmt.Sprintf("%.0f kB", float64(bytes)/1000)
	}
	return fmt.Sprintf("%.1f MB", float64(bytes)/1e6)
}

// bookPlace is where the book that is planned with is kept.
func (s *server) bookPlace(ctx context.Context) string {
	has, err := s.records.HasBook(ctx)
	keeper, can := s.house.(bookKeeper)
	switch {
	case err != nil:
		return sentence(err)
	case can && keeper.InRecords():
		return "The book is kept in the records, with every change of it."
	case has:
		return "The records keep a book, and these pages use another: the folder that they were started with."
	}
	return "The book is a folder of text files on this computer; the records keep none."
}

// imported is what an address says was entered from a sheet.
func imported(query url.Values) *importedView {
	first, n, ok := readDid(query.Get("entered"))
	if !ok {
		return nil
	}
	return &importedView{Says: times(n, "entry", "entries") + " from the sheet", Entry: fmt.Sprintf("%s-%d", first, n)}
}

// author is who changes something through a form, or "" in Who.
func (s *server) author(w http.ResponseWriter, r *http.Request) app.Author {
	return app.Author{Who: s.who(w, r), Device: device(r), At: s.house.Now()}
}

var officeTemplate = parse[officePage]("office")
