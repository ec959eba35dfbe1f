package web

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"strconv"

	"kettlefrost/internal/app"
	"kettlefrost/internal/folder"
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
	x.Words = app.DaysInWords(a.Ask, tidy(q.Get(fromKey)), tidy(q.Get(untilKey)))
	if ms, err := strconv.ParseInt(query.Get(asOfKey), 10, 64); err == nil && ms > 0 {
		x.AsOf = record.Instant(ms)
	}
	return x
}

// folderOf makes the folder that an address asks for. Problem says why there is none, with its status.
func (s *server) folderOf(r *http.Request, a folderAsked) (f app.InspectorFolder, status int, problem string) {
	book, _ := s.house.Book()
	f, err := s.records.Folder(r.Context(), book, a.FolderAsk)
	unknown, isUnknown := unknownLot(err)
	switch {
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
		if f, status, v.Problem = s.folderOf(r, a); v.Problem == "" {
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
		f, status, problem := s.folderOf(r, a)
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
	f, status, problem := s.folderOf(r, a)
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

// folderView is a folder in short.
type folderView struct {
	Words, AsOf string
	Verdict     verdictView
	Facts       []countFact
	Missing     []missingRow
	MoreMissing int
	Records     []judgedRow
	MoreRecords int
	Lots        []lotLink
	MoreLots    int
	Chain       string
	Broken      bool
	Hash        string
	Signatures  []string
	Sign        folderSign
	Links       []unitLink
	Entries     uint64 // of the whole chain
}

// countFact is how much of something a folder holds.
type countFact struct{ Name, Count, More string }

// missingRow is something that is missing.
type missingRow struct {
	Grave            bool
	Where, Says, Fix string
}

// judgedRow is a critical record.
type judgedRow struct{ Name, Point, Class, Sign, Outcome, Says string }

// folderSign signs what is shown.
type folderSign struct {
	Entry string
	Kept  []kept
}

// Most rows that a page shows; the files have all of them.
const (
	mostMissing    = 60
	mostJudged     = 60
	mostFolderLots = 40
)

func (s *server) viewFolder(f app.InspectorFolder, query url.Values) *folderView {
	at := f.Clock.Time
	v := &folderView{Words: f.Asked, AsOf: at(f.AsOf), Chain: f.Seal.Chain.Says(), Broken: !f.Seal.Chain.Verified, Hash: f.Seal.Contents.String(), Entries: f.Seal.Chain.Seq}
	grave := 0
	for i, m := range f.Missing {
		if m.Grave {
			grave++
		}
		if i < mostMissing {
			v.Missing = append(v.Missing, missingRow{m.Grave, m.Where, m.Says, m.Fix})
		}
	}
	v.MoreMissing = len(f.Missing) - len(v.Missing)
	v.Verdict = folderVerdict(grave, len(f.Missing))
	for i, r := range f.Records {
		if i < mostJudged {
			v.Records = append(v.Records, judged(r))
		}
	}
	v.MoreRecords = len(f.Records) - len(v.Records)
	asked := 0
	for _, l := range f.Lots {
		if !l.Asked {
			continue
		}
		if asked++; asked <= mostFolderLots {
			v.Lots = append(v.Lots, lotLink{lotURL(lotPath, l.Lot, nil), string(l.Lot), l.What})
		}
	}
	v.MoreLots = asked - len(v.Lots)
	v.Facts = folderFacts(f)
	for _, x := range f.Seal.Signatures {
		v.Signatures = append(v.Signatures, x.Says(at))
	}
	v.Sign = folderSign{newEntryID(), append(keep(query), kept{hashKey, v.Hash})}
	only := url.Values{onlyKey: {"1"}}
	for k, x := range query {
		only[k] = x
	}
	v.Links = []unitLink{{Name: "PDF, to print", URL: "/folder.pdf" + queryOf(query)}, {Name: "Bundle with all entries", URL: "/folder.zip" + queryOf(query)}, {Name: "Bundle with only the entries of these lots", URL: "/folder.zip" + queryOf(only)}, {Name: "JSON", URL: "/folder.json" + queryOf(query)}}
	return v
}

// folderVerdict says whether something is missing on which nobody has decided.
func folderVerdict(grave, all int) verdictView {
	switch {
	case grave > 0:
		return verdictView{"stop", "■", "NOT COMPLETE", times(grave, "matter", "matters") + " on which nobody has decided."}
	case all > 0:
		return verdictView{"caution", "▲", "LOOK AT THESE", "What is listed was decided by a named person, or holds no lot."}
	}
	return verdictView{"note", "●", "NOTHING FOUND MISSING", "The program cannot find what nobody wrote down and no rule asks for."}
}

func judged(r folder.Record) judgedRow {
	x := judgedRow{Name: cmp.Or(r.Title, r.Point), Point: r.Point, Class: "yes", Sign: "●", Outcome: "meets the rule", Says: sentence(errors.New(r.Says))}
	if r.Outcome != "pass" {
		x.Class, x.Sign, x.Outcome = "no", "■", map[string]string{"fail": "does not meet the rule", "missing": "missing", "incomplete": "incomplete"}[string(r.Outcome)]
	}
	if r.Loads > 1 {
		x.Name += fmt.Sprintf(", load %d of %d", r.Load, r.Loads)
	}
	for _, d := range r.Decided {
		x.Says += fmt.Sprintf(" %s decided for %s: %s (%s).", d.Who, d.Lot, d.Did, d.Why)
	}
	return x
}

func folderFacts(f app.InspectorFolder) []countFact {
	asked, pass := 0, 0
	for _, l := range f.Lots {
		if l.Asked {
			asked++
		}
	}
	for _, r := range f.Records {
		if r.Outcome == "pass" {
			pass++
		}
	}
	n := strconv.Itoa
	return []countFact{{"Lots", n(asked), times(len(f.Lots)-asked, "lot behind them", "lots behind them")}, {"Critical records", n(len(f.Records)), n(pass) + " meet their rule"}, {"Readings", n(f.Readings.Rows), ""},
		{"Hazard plans", n(len(f.Plans)), ""}, {"Corrective actions", n(len(f.Actions)), ""}, {"Holds and decisions", n(len(f.Holds)), ""}, {"Thermometers", n(len(f.Thermometers)), ""}, {"Cold places watched", n(len(f.Cold)), ""},
		{"Corrections", n(len(f.Corrections)), ""}, {"Entries it rests on", n(len(f.Entries)), ""}}
}
