package web

import (
	"net/http"
	"net/url"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
)

// recallPage is all that templates/recall.html may show: a question which lots are meant, and everything that contains any of them.
type recallPage struct {
	shell
	None    bool   // no records are kept
	Problem string // why they cannot be read
	Unknown string // a lot that nobody named
	NoLot   string // what was asked, when no lot fits
	Groups  []askGroup
	Kept    []kept
	Drill   *runningDrill
	Report  *recallView
	Fits    findingsView // what does not fit about those lots
	Hold    holdForm
	Drills  string // address
}

// holdForm holds everything on hand that is not held.
type holdForm struct {
	Entry string // its id
	Kept  []kept
	Why   string
	Count string // of lots that are not held; none: all are
}

const (
	recallReportPath = recallPath + "/report"
	recallRulePath   = recallPath + "/rule"
	drillsPath       = recallPath + "/drills"
)

// recallRoutes are lots and recalls.
func (s *server) recallRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET /lot", s.showLot)
	mux.HandleFunc("GET /lot.json", s.showLotJSON)
	mux.HandleFunc("GET /lot/drawing/{look}", s.showLotDrawing)
	mux.HandleFunc("POST /lot/release", s.entering(s.releaseLot))
	mux.HandleFunc("GET /recall", s.showRecall)
	mux.HandleFunc("GET /recall.json", s.recallAs(func(w http.ResponseWriter, _ *http.Request, r lots.Report) { writeJSON(w, http.StatusOK, r) }))
	mux.HandleFunc("GET /recall.csv", s.recallAs(s.writeCalls))
	mux.HandleFunc("GET /recall/drawing/{look}", s.recallAs(s.drawRecall))
	mux.HandleFunc("POST /recall/hold", s.entering(s.holdRecalled))
	mux.HandleFunc("GET /recall/report", s.showRecallReport)
	mux.HandleFunc("GET /recall/rule", s.showRule)
	mux.HandleFunc("GET /recall/rule/{event}", s.showRuleCSV)
	mux.HandleFunc("GET /recall/drills", s.showDrills)
	mux.HandleFunc("POST /recall/drills", s.entering(s.beginDrill))
	mux.HandleFunc("POST /recall/drills/end", s.entering(s.endDrill))
}

func (s *server) showRecall(w http.ResponseWriter, r *http.Request) {
	query := r.URL.Query()
	a := askLots(query, s.house.Now().Location())
	v, status := s.recallPage(r, a)
	if s.records == nil || a.wrong || a.Empty() {
		recallTemplate.show(w, status, v)
		return
	}
	report, found, err := s.records.Recall(r.Context(), a.Ask, s.nowMs())
	lot, unknown := unknownLot(err)
	switch {
	case unknown:
		v.Unknown, status = string(lot), http.StatusNotFound
	case misread(err):
		v.Problem, status = sentence(err), http.StatusNotFound
	case err != nil:
		v.Problem, status = sentence(err), http.StatusInternalServerError
	case len(report.Of)+len(report.Unsure) == 0:
		v.NoLot, status = a.words(), http.StatusNotFound
	default:
		s.answer(r, &v, report, a)
		v.Fits = viewFindings(atMost(found, mostLotRows))
	}
	recallTemplate.show(w, status, v)
}

// recallPage is the page with the question alone.
func (s *server) recallPage(r *http.Request, a lotsAsked) (recallPage, int) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	v := recallPage{shell: s.inShell(r, book.Kitchen, "Recall", "recall"), None: s.records == nil, Groups: a.groups(), Drills: drillsPath}
	for _, key := range []string{"units", drillKey} {
		if x := query.Get(key); x != "" {
			v.Kept = append(v.Kept, kept{key, x})
		}
	}
	if a.wrong {
		return v, http.StatusUnprocessableEntity
	}
	return v, http.StatusOK
}

// answer puts an answer on the page.
func (s *server) answer(r *http.Request, v *recallPage, report lots.Report, a lotsAsked) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	query.Del("did")
	x := recallShower{readerOf(book.Kitchen, r), query, s.recallTime}
	v.Report = x.view(report, a.words())
	v.Report.shorten()
	v.Report.Picture = drawingAt(recallPath, query, "What contains any of it")
	v.Report.Links = append([]choiceLink{{Name: "Print: whom to call, what to hold", URL: recallReportPath + queryOf(query)}}, recallLinks(query)...)
	v.Hold = holdForm{Entry: newEntryID(), Kept: keep(query, "units"), Why: "recall: " + a.words()}
	if n := len(report.ToHold()); n > 0 {
		v.Hold.Count = times(n, "lot", "lots")
	}
	v.Drill = s.runningDrill(r, query, a)
}

// recallLinks are a recall as files.
func recallLinks(query url.Values) []choiceLink {
	return []choiceLink{{Name: "Call list for a spreadsheet", URL: "/recall.csv" + queryOf(query)}, {Name: "Everything as JSON", URL: "/recall.json" + queryOf(query)}, {Name: "Tables of the traceability rule", URL: recallRulePath + queryOf(query)}}
}

// drawingAt is a drawing below an address, for a light and a dark screen.
func drawingAt(path string, query url.Values, says string) pictureView {
	at := func(look string) string { return path + "/drawing/" + look + queryOf(query) }
	return pictureView{Src: at("light"), Night: at("dark"), Alt: says + "; the table has each lot"}
}

// recallAs answers with a recall in another shape than the page; what cannot be asked for is told as data.
func (s *server) recallAs(write func(http.ResponseWriter, *http.Request, lots.Report)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if report, ok := s.reportFor(w, r); ok {
			write(w, r, report)
		}
	}
}

// reportFor is the recall that an address asks for; false when it was answered with why there is none.
func (s *server) reportFor(w http.ResponseWriter, r *http.Request) (lots.Report, bool) {
	a := askLots(r.URL.Query(), s.house.Now().Location())
	switch {
	case s.records == nil:
		writeJSON(w, http.StatusNotFound, refusal{Error: "no records are kept here"})
		return lots.Report{}, false
	case a.wrong:
		writeJSON(w, http.StatusUnprocessableEntity, refusal{Error: "the question cannot be read", Fields: badFields(a.fields)})
		return lots.Report{}, false
	case a.Empty():
		writeJSON(w, http.StatusNotFound, refusal{Error: "nobody said which lots are meant"})
		return lots.Report{}, false
	}
	report, _, err := s.records.Recall(r.Context(), a.Ask, s.nowMs())
	if lot, unknown := unknownLot(err); unknown {
		writeJSON(w, http.StatusNotFound, refusal{Error: "no entry names a lot " + string(lot)})
		return report, false
	}
	if misread(err) {
		writeJSON(w, http.StatusNotFound, refusal{Error: err.Error()})
		return report, false
	}
	if err != nil {
		writeJSON(w, http.StatusInternalServerError, refusal{Error: err.Error()})
		return report, false
	}
	report.Asked = a.words()
	return report, true
}

func (s *server) writeCalls(w http.ResponseWriter, _ *http.Request, r lots.Report) {
	writeCSV(w, "recall.csv", sheet.CallsCSV(r, s.recallTime))
}

// writeCSV answers with a table for a spreadsheet.
func writeCSV(w http.ResponseWriter, name string, data []byte) {
	w.Header().Set("Content-Type", "text/csv; charset=utf-8; header=present")
	w.Header().Set("Content-Disposition", `attachment; filename="`+name+`"`)
	w.Header().Set("Cache-Control", "no-store")
	w.Write(data)
}

func (s *server) drawRecall(w http.ResponseWriter, r *http.Request, report lots.Report) {
	book, _ := s.house.Book()
	writeSVG(w, draw.RecallGraph(report, readerOf(book.Kitchen, r).units).Picture(), look{dark: r.PathValue("look") == "dark"})
}

// holdRecalled holds everything that is on hand of a recall and not held yet: whole lots, so that what is brought back is held too.
func (s *server) holdRecalled(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "The form cannot be read.")
		return
	}
	a := askLots(r.PostForm, s.house.Now().Location())
	if a.wrong || a.Empty() {
		s.refuse(w, r, http.StatusUnprocessableEntity, "It is not said which lots are meant.")
		return
	}
	report, _, err := s.records.Recall(r.Context(), a.Ask, s.nowMs())
	if err != nil {
		s.refuse(w, r, http.StatusUnprocessableEntity, sentence(err))
		return
	}
	why := tidy(r.PostForm.Get("why"))
	if why == "" {
		why = "recall: " + a.words()
	}
	back := recallPath + queryOf(askAndDrill(r.PostForm))
	var bodies []record.Body
	for _, lot := range report.ToHold() {
		bodies = append(bodies, record.Held{Lot: lot, Why: why})
	}
	if len(bodies) == 0 { // somebody else was faster
		http.Redirect(w, r, back, http.StatusSeeOther)
		return
	}
	s.enter(w, r, back, bodies...)
}

// askAndDrill is what of a form says which lots are meant, and which drill it belongs to.
func askAndDrill(form url.Values) url.Values {
	q := askOnly(form)
	if d := form.Get(drillKey); d != "" {
		q.Set(drillKey, d)
	}
	return q
}
