package web

import (
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"time"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/trials"
)

// Places of trials among the pages.
const (
	trialsPath    = "/workshop/trials"
	newTrialPath  = "/workshop/trials/new"
	trialPictures = "/workshop/pictures"
)

// trialRoutes are trials in the freezer: laid out, made, opened, tasted, judged.
func (s *server) trialRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+trialsPath, s.showTrials)
	mux.HandleFunc("GET /workshop/trials.json", s.showTrialsJSON)
	mux.HandleFunc("GET "+newTrialPath, s.showNewTrial)
	mux.HandleFunc("POST "+newTrialPath, s.entering(s.layTrial))
	mux.HandleFunc("GET "+trialPictures+"/{hash}", s.showPicture)
	mux.HandleFunc("GET "+trialPictures+"/{hash}/small", s.showSmallPicture(&previews{}))
	mux.HandleFunc("GET "+trialsPath+"/{trial}", s.ofTrial(s.showTrial))
	mux.HandleFunc("GET "+trialsPath+"/{trial}/sheet", s.ofTrial(s.showTrialSheet))
	mux.HandleFunc("GET "+trialsPath+"/{trial}/sheet.pdf", s.ofTrial(s.showTrialPDF))
	mux.HandleFunc("GET "+trialsPath+"/{trial}/made", s.ofTrial(s.showTrialBatch))
	mux.HandleFunc("POST "+trialsPath+"/{trial}/made", s.entering(s.ofTrial(s.enterTrialBatch)))
	mux.HandleFunc("GET "+trialsPath+"/{trial}/open", s.ofTrial(s.showTrialPack))
	mux.HandleFunc("POST "+trialsPath+"/{trial}/open", s.entering(s.ofTrial(s.enterTrialPack)))
	mux.HandleFunc("GET "+trialsPath+"/{trial}/taste", s.ofTrial(s.showTasting))
	mux.HandleFunc("POST "+trialsPath+"/{trial}/taste", s.entering(s.ofTrial(s.enterTasting)))
	mux.HandleFunc("POST "+trialsPath+"/{trial}/picture", s.ofTrial(s.enterTrialPicture))
	mux.HandleFunc("GET "+trialsPath+"/{trial}/results", s.ofTrial(s.showTrialResults))
	mux.HandleFunc("GET "+trialsPath+"/{trial}/results.json", s.ofTrial(s.showTrialJSON))
	mux.HandleFunc("GET "+trialsPath+"/{trial}/results.csv", s.ofTrial(s.showTrialCSV))
	mux.HandleFunc("GET "+trialsPath+"/{trial}/chart/{of...}", s.ofTrial(s.showTrialChart))
	mux.HandleFunc("POST "+trialsPath+"/{trial}/close", s.entering(s.ofTrial(s.closeTrial)))
}

// trialURL is the address of a page of a trial; part may be "".
func trialURL(name, part string, query url.Values, pairs ...string) string {
	address := trialsPath + "/" + url.PathEscape(name)
	if part != "" {
		address += "/" + part
	}
	return coldURL(address, query, pairs...)
}

// onTrial is a trial with what a page about it needs.
type onTrial struct {
	t     trials.Trial
	book  kitchen.Book
	rd    reader
	query url.Values // of the address
	today record.Day
}

// ofTrial finds the trial of an address, or answers that there is none.
func (s *server) ofTrial(next func(http.ResponseWriter, *http.Request, onTrial)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		book, _ := s.house.Book()
		if s.records == nil {
			s.refuse(w, r, http.StatusConflict, "No records are kept here, so there are no trials. Start with kettlefrost serve --records kitchen.records.")
			return
		}
		t, known, err := s.records.Trial(r.Context(), r.PathValue("trial"))
		switch {
		case err != nil:
			s.refuse(w, r, http.StatusServiceUnavailable, sentence(err))
		case !known:
			s.missing(w, r, book, "There is no trial of that name.")
		default:
			query := r.URL.Query()
			query.Del("did")
			next(w, r, onTrial{t, book, readerOf(book.Kitchen, r), query, s.today()})
		}
	}
}

func (s *server) today() record.Day { return record.Day(s.house.Now().Format(time.DateOnly)) }

// dish is the name of the dish that is tried.
func (o onTrial) dish() string { return dishCalled(o.book, o.t.Laid.Body.Dish) }

func dishCalled(book kitchen.Book, id string) string {
	if d, ok := book.Dishes[kitchen.DishID(id)]; ok && d.Name != "" {
		return d.Name
	}
	return id
}

// trialDay is a day as people write it.
func trialDay(day record.Day) string {
	at, err := time.Parse(time.DateOnly, string(day))
	if err != nil {
		return string(day)
	}
	return at.Format("Mon 2 Jan 2006")
}

// weekText is a week of a trial in words.
func weekText(w record.Week) string {
	if w == 0 {
		return "The day it is frozen"
	}
	return fmt.Sprintf("Week %d", w)
}

// trialsPage is all that templates/trials.html may show.
type trialsPage struct {
	shell
	None    bool // no records are kept
	Problem string
	Due     []trialDue
	Rows    []trialRow
	Misfits findingsView
	NewURL  string
	JSON    string
}

// trialDue is packs that are to be opened.
type trialDue struct{ Sign, Class, URL, Name, When, Says string }

// trialRow is a trial in short.
type trialRow struct {
	URL, Name, Dish, Asks string
	Stands                string
	Weeks                 string
	Closed                bool
}

var trialsTemplate = parse[trialsPage]("trials")

func (s *server) showTrials(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	v := trialsPage{shell: s.inShell(r, book.Kitchen, "Trials", "trials"), None: s.records == nil, NewURL: newTrialPath, JSON: "/workshop/trials.json"}
	if v.None {
		trialsTemplate.show(w, http.StatusOK, v)
		return
	}
	all, found, err := s.records.Trials(r.Context())
	if err != nil {
		v.Problem = sentence(err)
		trialsTemplate.show(w, http.StatusServiceUnavailable, v)
		return
	}
	today := s.today()
	for _, o := range trials.Due(all, today) {
		v.Due = append(v.Due, viewDue(book, o, query))
	}
	for _, t := range all {
		v.Rows = append(v.Rows, viewTrialRow(book, t, today, query))
		found = append(found, t.Found...)
	}
	v.Misfits = viewFindings(found)
	trialsTemplate.show(w, http.StatusOK, v)
}

func viewDue(book kitchen.Book, o trials.Opening, query url.Values) trialDue {
	d := trialDue{Sign: "●", Class: "note", URL: trialURL(o.Trial, "", query) + fmt.Sprintf("#week-%d", o.Week), Name: o.Trial, When: "today"}
	if o.Stands == trials.Overdue {
		d.Sign, d.Class, d.When = "▲", "caution", "since "+trialDay(o.Due)
	}
	d.Says = dishCalled(book, o.Dish) + ", " + strings.ToLower(weekText(o.Week)) + ": " + openingLeft(o)
	return d
}

// openingLeft is what is left to be done of an opening.
func openingLeft(o trials.Opening) string {
	var left []string
	if n := len(o.Left); n > 0 {
		left = append(left, fmt.Sprintf("%d of %s to measure", n, times(o.Packs, "pack", "packs")))
	}
	if len(o.Tasters) > 0 {
		left = append(left, trials.Waiting(o.Tasters)+" to taste")
	}
	if len(left) == 0 {
		return "all done"
	}
	return strings.Join(left, "; ")
}

func viewTrialRow(book kitchen.Book, t trials.Trial, today record.Day, query url.Values) trialRow {
	b := t.Laid.Body
	row := trialRow{URL: trialURL(t.Name, "", query), Name: t.Name, Dish: dishCalled(book, b.Dish), Asks: string(b.Asks), Closed: t.Closed != nil, Stands: trialStands(t, today)}
	var weeks []string
	for _, w := range b.Weeks {
		weeks = append(weeks, fmt.Sprint(w))
	}
	row.Weeks = fmt.Sprintf("%s, weeks %s", times(len(b.Variants), "variant", "variants"), strings.Join(weeks, ", "))
	return row
}

// trialStands is how a trial stands, in a few words.
func trialStands(t trials.Trial, today record.Day) string {
	if t.Closed != nil {
		if a := t.Closed.Body.Adopted; a != "" {
			return "closed: made as " + a
		}
		return "closed: nothing taken over"
	}
	if missing := len(t.Laid.Body.Variants) - len(t.Made); missing > 0 {
		return times(missing, "batch", "batches") + " to be made"
	}
	for _, o := range t.Openings(today) {
		switch o.Stands {
		case trials.Overdue:
			return fmt.Sprintf("week %d was due %s", o.Week, trialDay(o.Due))
		case trials.DueToday:
			return fmt.Sprintf("week %d is due today", o.Week)
		case trials.Ahead:
			return fmt.Sprintf("next: week %d, %s", o.Week, trialDay(o.Due))
		}
	}
	return "all opened: look at the results, and close it"
}

func (s *server) showTrialsJSON(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		writeJSON(w, http.StatusConflict, refusal{Error: noRecords})
		return
	}
	report, err := s.records.TrialsReport(r.Context(), s.today())
	if err != nil {
		writeJSON(w, http.StatusServiceUnavailable, refusal{Error: err.Error()})
		return
	}
	writeJSON(w, http.StatusOK, report)
}
