package web

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
)

// folderPage is all that templates/folder.html may show: which lots an inspector's folder is about, what it holds and what is missing.
type folderPage struct {
	shell
	None    bool   // no records are kept
	Problem string // why there is no folder
	Asking  []field
	Folder  *folderView
}

const (
	folderPath = "/folder"
	asOfKey    = "as-of"
	onlyKey    = "only-theirs"
	hashKey    = "hash"
)

var folderTemplate = parse[folderPage]("folder")

// folderRoutes are the inspector's folder.
func (s *server) folderRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET /folder", s.showFolder)
	mux.HandleFunc("GET /folder.json", s.folderAs("application/json", "folder.json", func(w io.Writer, f app.InspectorFolder) error {
		text, err := f.JSON()
		w.Write(text) // whoever went away does not hear of it
		return err
	}))
	mux.HandleFunc("GET /folder.pdf", s.folderAs("application/pdf", "folder.pdf", func(w io.Writer, f app.InspectorFolder) error { return f.WritePDF(w, f.Clock) }))
	mux.HandleFunc("GET /folder.zip", s.folderAs("application/zip", "folder.zip", func(w io.Writer, f app.InspectorFolder) error { return f.WriteZIP(w, f.Chain, f.Clock) }))
	mux.HandleFunc("POST /folder/sign", s.entering(s.signFolder))
	mux.HandleFunc("GET "+hazardPlanPath+".pdf", s.showPlanPDF)
	mux.HandleFunc("GET "+thermometersPath+".pdf", s.showThermometersPDF)
}

// folderAsked is which lots a folder is about, and as of when, with the fields that ask.
type folderAsked struct {
	app.FolderAsk
	asking []field
	key    string // the question as an address says it
	wrong  bool
}

// askFolder reads which lots a folder is about.
func (s *server) askFolder(query url.Values) folderAsked {
	zone := s.house.Now().Location()
	q := url.Values{}
	for _, key := range []string{codeKey, madeInKey, fromKey, untilKey} {
		q.Set(key, query.Get(key))
	}
	a := askLots(q, zone)
	x := folderAsked{FolderAsk: app.FolderAsk{Ask: a.Ask, Zone: zone, Says: sheet.EntryText, Only: query.Get(onlyKey) != ""}, wrong: a.wrong}
	for _, f := range a.fields {
		if q.Has(f.Key) {
			x.asking = append(x.asking, f)
		}
	}
	x.key = folderQuery(query, 0).Encode()
	x.Words = app.DaysInWords(a.Ask, tidy(q.Get(fromKey)), tidy(q.Get(untilKey)))
	if ms, err := strconv.ParseInt(query.Get(asOfKey), 10, 64); err == nil && ms > 0 {
		x.AsOf = record.Instant(ms)
	}
	return x
}

// folderOf makes the folder that an address asks for. Problem says why there is none, with its status; a status of 0 says that it takes long, and
// that it was answered with how far it is.
func (s *server) folderOf(w http.ResponseWriter, r *http.Request, a folderAsked) (f app.InspectorFolder, status int, problem string) {
	book, _ := s.house.Book()
	head, err := s.records.Head(r.Context())
	if err == nil && a.AsOf == 0 {
		a.AsOf, err = s.records.LastEntered(r.Context())
	}
	if err != nil {
		return f, http.StatusInternalServerError, sentence(err)
	}
	ask := app.JobAsk{Key: keyOf("folder", a.key, a.AsOf, a.Only, head, book), Name: "The inspector's folder", Lane: app.HeavyLane, Keep: true, File: strings.Contains(r.URL.Path, ".")}
	f, err, ok := long(s, w, r, ask, func(ctx context.Context) (app.InspectorFolder, error) {
		return s.records.Folder(ctx, book, a.FolderAsk)
	})
	unknown, isUnknown := unknownLot(err)
	switch {
	case !ok:
		return f, 0, ""
	case err == nil:
		return f, http.StatusOK, ""
	case isUnknown:
		return f, http.StatusNotFound, fmt.Sprintf("No entry names a lot “%s”: check how it is written on the tub or the bag, or ask for it by run or day.", unknown)
	case app.IsNoLot(err):
		return f, http.StatusNotFound, fmt.Sprintf("No lot fits “%s”: ask for a wider time, or for a run by its whole name.", a.Words)
	case misread(err):
		return f, http.StatusNotFound, sentence(err)
	}
	return f, http.StatusInternalServerError, sentence(err)
}

func (s *server) showFolder(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	a := s.askFolder(r.URL.Query())
	v := folderPage{shell: s.inShell(r, book.Kitchen, "Folder", "folder"), None: s.records == nil, Asking: a.asking}
	status := http.StatusOK
	switch {
	case a.wrong:
		status = http.StatusUnprocessableEntity
	case !v.None && !a.Empty():
		var f app.InspectorFolder
		if f, status, v.Problem = s.folderOf(w, r, a); status == 0 {
			return
		}
		if v.Problem == "" {
			v.Folder = s.viewFolder(f, folderQuery(r.URL.Query(), f.AsOf))
		}
	}
	folderTemplate.show(w, status, v)
}

// folderQuery is what of a query asks for a folder, as of a time: what is downloaded is what was shown.
func folderQuery(query url.Values, asOf record.Instant) url.Values {
	q := url.Values{asOfKey: {strconv.FormatInt(int64(asOf), 10)}}
	for _, key := range []string{codeKey, madeInKey, fromKey, untilKey} {
		if v := query.Get(key); v != "" {
			q.Set(key, v)
		}
	}
	return q
}

// folderAs answers with a folder as a file.
func (s *server) folderAs(kind, name string, write func(io.Writer, app.InspectorFolder) error) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		a := s.askFolder(r.URL.Query())
		switch {
		case s.records == nil:
			writeJSON(w, http.StatusNotFound, refusal{Error: "no records are kept here"})
			return
		case a.wrong:
			writeJSON(w, http.StatusUnprocessableEntity, refusal{Error: "the question cannot be read", Fields: badFields(a.asking)})
			return
		case a.Empty():
			writeJSON(w, http.StatusNotFound, refusal{Error: "nobody said which lots are meant"})
			return
		}
		f, status, problem := s.folderOf(w, r, a)
		if status == 0 {
			return
		}
		if problem != "" {
			writeJSON(w, status, refusal{Error: problem})
			return
		}
		w.Header().Set("Content-Type", kind)
		w.Header().Set("Cache-Control", "no-store")
		if kind != "application/json" {
			w.Header().Set("Content-Disposition", `attachment; filename="`+name+`"`)
		}
		if err := write(w, f); err != nil {
			panic(http.ErrAbortHandler) // half a file must not look like a whole one
		}
	}
}

// signFolder enters a signature on a folder as it was shown.
func (s *server) signFolder(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "The form cannot be read.")
		return
	}
	a := s.askFolder(r.PostForm)
	shown, err := record.ParseHash(r.PostForm.Get(hashKey))
	if a.wrong || a.Empty() || a.AsOf == 0 || err != nil {
		s.refuse(w, r, http.StatusUnprocessableEntity, "It is not said what is to be signed: open the folder, and sign it there.")
		return
	}
	f, status, problem := s.folderOf(w, r, a)
	if status == 0 {
		return
	}
	if problem != "" {
		s.refuse(w, r, status, problem)
		return
	}
	as := record.AsVerifier
	if r.PostForm.Get("as") == string(record.AsReviewer) {
		as = record.AsReviewer
	}
	body, err := f.Signature(shown, as, tidy(r.PostForm.Get("text")))
	changed := (*app.ChangedFolderError)(nil)
	switch {
	case errors.As(err, &changed):
		s.refuse(w, r, http.StatusConflict, sentence(err))
	case err != nil:
		s.refuse(w, r, http.StatusUnprocessableEntity, sentence(err))
	default:
		s.enter(w, r, folderPath+queryOf(folderQuery(r.PostForm, a.AsOf)), body)
	}
}
