package web

import (
	"fmt"
	"net/http"
	"net/url"
	"strconv"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/hazardplan"
	"kettlefrost/internal/hazards"
	"kettlefrost/internal/kitchen"
)

// Addresses of the hazard plans.
const (
	hazardsPath      = "/hazards"
	hazardPlanPath   = hazardsPath + "/plan"
	hazardEditPath   = hazardsPath + "/edit"
	hazardReviewPath = hazardsPath + "/review"
	hazardPrintPath  = hazardsPath + "/print"
	hazardEnterPath  = hazardsPath + "/enter"
	hazardFlowPath   = hazardsPath + "/flow.svg"
	rulesPath        = "/rules"
)

// Fields of their addresses.
const (
	packKey    = "pack"
	versionKey = "version"
)

func (s *server) hazardRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+hazardsPath, s.showHazards)
	mux.HandleFunc("GET "+hazardsPath+".json", s.showHazardsJSON)
	mux.HandleFunc("GET "+hazardPlanPath, s.showHazardPlan)
	mux.HandleFunc("GET "+hazardPlanPath+".json", s.showHazardPlanJSON)
	mux.HandleFunc("GET "+hazardFlowPath, s.showHazardFlow)
	mux.HandleFunc("GET "+hazardPrintPath, s.showHazardPrint)
	mux.HandleFunc("GET "+hazardEditPath, s.showHazardEdit)
	mux.HandleFunc("POST "+hazardEditPath, s.entering(s.enterHazardEdit))
	mux.HandleFunc("POST "+hazardEnterPath, s.entering(s.enterHazardPlan))
	mux.HandleFunc("GET "+hazardReviewPath, s.showHazardReview)
	mux.HandleFunc("POST "+hazardReviewPath, s.entering(s.enterHazardReview))
	mux.HandleFunc("GET "+rulesPath, s.showRules)
	mux.HandleFunc("GET "+rulesPath+".json", s.showRulesJSON)
}

// hazardsPage is all that templates/hazards.html may show: how the plans of all packs stand.
type hazardsPage struct {
	shell
	None   bool // no records are kept, so nothing can be entered
	Judged bool
	Grave  []reminder
	Rows   []hazardRow
}

// hazardRow is the plan of one pack.
type hazardRow struct {
	URL, Name string
	State     verdictView
	Force     string   // which version is in force
	Points    string   // control points
	Open      string   // what is to be settled
	Changed   []string // what opened it again
	Bad       string
}

var hazardsTemplate = parse[hazardsPage]("hazards")

func (s *server) showHazards(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	all, misfits, err := s.hazardPlans(r, book)
	if err != nil {
		s.refuse(w, r, http.StatusInternalServerError, sentence(err))
		return
	}
	v := hazardsPage{shell: s.inShell(r, book.Kitchen, "Hazard plans", "hazards"), None: s.records == nil, Judged: book.Safety.Given()}
	for _, f := range append(misfits, app.PlanFindings(book, all, s.nowMs())...) {
		v.Grave = append(v.Grave, remind(f))
	}
	for _, x := range all {
		v.Rows = append(v.Rows, s.hazardRow(x))
	}
	hazardsTemplate.show(w, http.StatusOK, v)
}

func (s *server) hazardRow(x app.HazardPlan) hazardRow {
	row := hazardRow{URL: hazardURL(hazardPlanPath, string(x.Pack), 0), Name: x.Name, State: hazardState(x.Standing.Word), Bad: x.Bad, Force: "none", Points: strconv.Itoa(len(x.Standing.Today.Plan.Points))}
	if f := x.Standing.InForce; f != nil {
		row.Force = fmt.Sprintf("version %d, since %s", f.Number, s.recallTime(x.Standing.By.At))
	}
	if x.Standing.Waiting && x.Standing.InForce != nil {
		row.State.Says = fmt.Sprintf("version %d waits for a review", x.Standing.Latest.Number)
	}
	stops := 0
	for _, o := range x.Standing.Today.Plan.Open {
		if o.Stop {
			stops++
		}
	}
	row.Open = strconv.Itoa(len(x.Standing.Today.Plan.Open))
	if stops > 0 {
		row.Open += fmt.Sprintf(", %s", times(stops, "of them a stop", "of them stops"))
	}
	for _, c := range x.Standing.Changed {
		row.Changed = append(row.Changed, c.Where+" "+c.Says)
	}
	return row
}

// hazardState is how a plan stands, in a word with a sign.
func hazardState(w hazardplan.Word) verdictView {
	switch w {
	case hazardplan.Accepted:
		return verdictView{Class: "note", Sign: "●", Word: "ACCEPTED"}
	case hazardplan.Reopened:
		return verdictView{Class: "stop", Sign: "■", Word: "RE-OPENED"}
	case hazardplan.Returned:
		return verdictView{Class: "stop", Sign: "■", Word: "SENT BACK"}
	case hazardplan.InReview:
		return verdictView{Class: "caution", Sign: "▲", Word: "IN REVIEW"}
	}
	return verdictView{Class: "caution", Sign: "▲", Word: "DRAFT"}
}

// hazardURL is the address of something of the plan of a pack; version 0 is what it would be today.
func hazardURL(path, pack string, version int, more ...string) string {
	q := url.Values{packKey: {pack}}
	if version > 0 {
		q.Set(versionKey, strconv.Itoa(version))
	}
	for i := 0; i+1 < len(more); i += 2 {
		q.Set(more[i], more[i+1])
	}
	return path + "?" + q.Encode()
}

func (s *server) hazardPlans(r *http.Request, book kitchen.Book) ([]app.HazardPlan, finding.List, error) {
	return app.HazardPlans(r.Context(), s.records, book, s.house.Foods(), s.nowMs())
}

// hazardCard leads from the kitchen's page to the plans, when something is to be done about them.
func (s *server) hazardCard(r *http.Request, book kitchen.Book) []todayCard {
	if s.records == nil || !book.Safety.Given() {
		return nil
	}
	all, _, err := s.hazardPlans(r, book)
	if err != nil {
		return nil // the board's card says what is wrong with the records
	}
	c := todayCard{URL: hazardsPath, Name: "Hazard plans"}
	without := 0
	for _, x := range all {
		switch {
		case x.Standing.Word == hazardplan.Reopened:
			c.Grave = true
			c.Says = append(c.Says, x.Name+": opened again by a change")
		case x.Standing.InForce == nil:
			without++
		case x.Standing.Waiting:
			c.Says = append(c.Says, fmt.Sprintf("%s: version %d waits for a review", x.Name, x.Standing.Latest.Number))
		}
	}
	if without > 0 {
		c.Says = append(c.Says, fmt.Sprintf("%d of %d packs have no accepted plan", without, len(all)))
	}
	if len(c.Says) == 0 {
		return nil
	}
	return []todayCard{c}
}

// hazardReminders are what is to be done about plans, where lots are judged.
func (s *server) hazardReminders(r *http.Request, book kitchen.Book) (all []reminder) {
	if !book.Safety.Given() {
		return nil
	}
	plans, _, err := s.hazardPlans(r, book)
	if err != nil {
		return nil // what is wrong with the records is told already
	}
	for _, f := range app.PlanFindings(book, plans, s.nowMs()) {
		all = append(all, remind(f))
	}
	return all
}

// hazardOf is the plan that an address asks for, with the version that it names; nil when it was answered because there is none.
func (s *server) hazardOf(w http.ResponseWriter, r *http.Request) *hazardAsked {
	book, _ := s.house.Book()
	x, known, err := app.HazardPlanOf(r.Context(), s.records, book, s.house.Foods(), kitchen.PackID(r.FormValue(packKey)), s.nowMs())
	switch {
	case err != nil:
		s.refuse(w, r, http.StatusInternalServerError, sentence(err))
		return nil
	case !known:
		s.missing(w, r, book, "There is no pack of that name, so it has no hazard plan.")
		return nil
	case x.Bad != "":
		s.missing(w, r, book, "No hazard plan can be drafted: "+x.Bad)
		return nil
	}
	a := &hazardAsked{HazardPlan: x, book: book}
	text := r.FormValue(versionKey)
	if text == "" {
		a.doc, a.inForce = x.Standing.Shown()
		if a.inForce {
			a.version = x.Standing.InForce
		}
		return a
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > len(x.Versions) || x.Versions[n-1].Bad != "" {
		s.missing(w, r, book, "There is no such version of this plan that can be read.")
		return nil
	}
	a.version, a.doc, a.old = &x.Versions[n-1], x.Versions[n-1].Doc, n != len(x.Versions)
	a.inForce = x.Standing.Word == hazardplan.Accepted && x.Standing.InForce.Entry == a.version.Entry
	return a
}

// hazardAsked is the plan that is shown.
type hazardAsked struct {
	app.HazardPlan
	book    kitchen.Book
	doc     haccp.Document
	version *hazardplan.Version // that doc is of; nil for what it would be today
	inForce bool                // it is accepted, and the dish is as it was
	old     bool                // there is a later version
}

func (s *server) showHazardsJSON(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	all, misfits, err := s.hazardPlans(r, book)
	if err != nil {
		writeJSON(w, http.StatusInternalServerError, refusal{Error: sentence(err)})
		return
	}
	writeJSON(w, http.StatusOK, app.HazardReport(book, all, misfits))
}

func (s *server) showHazardPlanJSON(w http.ResponseWriter, r *http.Request) {
	if a := s.hazardOf(w, r); a != nil {
		writeJSON(w, http.StatusOK, a.doc)
	}
}

func (s *server) showRulesJSON(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	writeJSON(w, http.StatusOK, hazards.SheetOf(book))
}
