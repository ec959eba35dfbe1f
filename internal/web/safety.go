package web

import (
	"fmt"
	"net/http"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/critical"
	"kettlefrost/internal/record"
)

// Places of the critical records among the pages.
const (
	safetyPath      = "/safety"
	safetyRunPath   = "/safety/run"
	safetyStagePath = "/safety/stage"
	decidePath      = "/safety/decide"
	readPath        = "/safety/read"
	putProbePath    = "/safety/probe"
	signPath        = "/safety/sign"
)

// safetyRoutes are the critical records of runs, and what is decided on them.
func (s *server) safetyRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+safetyPath, s.showSafety)
	mux.HandleFunc("GET /safety.json", s.showSafetyJSON)
	mux.HandleFunc("GET "+safetyRunPath, s.showSafetyRun)
	mux.HandleFunc("GET /safety/run.json", s.showSafetyRunJSON)
	mux.HandleFunc("GET "+safetyStagePath, s.showSafetyStage)
	mux.HandleFunc("GET /safety/stage.json", s.showSafetyStageJSON)
	mux.HandleFunc("GET /safety/stage/chart/{file}", s.showSafetyChart)
	mux.HandleFunc("POST "+decidePath, s.entering(s.decide))
	mux.HandleFunc("POST "+readPath, s.entering(s.enterReading))
	mux.HandleFunc("POST "+putProbePath, s.entering(s.putProbe))
	mux.HandleFunc("POST "+signPath, s.entering(s.signCheck))
}

// safetyPage is all that templates/safety.html may show.
type safetyPage struct {
	shell
	None    bool // no records are kept
	Problem string
	Judged  bool
	By      string // by what rules, in words
	Next    *safetyNext
	Open    []safetyRunRow // runs with something that is not passed
	Passed  []safetyRunRow
	Before  []string // runs that are not judged
	Goods   []recordRow
	Decide  *decideForm
	Plans   []reminder // about hazard plans
	JSON    string
	Entry   string
}

// safetyNext is the one thing to do next.
type safetyNext struct {
	signMark
	Says, Fix, Button, URL string
}

// safetyRunRow is one run in short.
type safetyRunRow struct {
	signMark
	Name, Day, URL string
	Says           string
	Held           string
}

var safetyTemplate = parse[safetyPage]("safety")

func (s *server) showSafety(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	v := safetyPage{shell: s.inShell(r, book.Kitchen, "What is open", "safety"), None: s.records == nil, JSON: "/safety.json", Entry: newEntryID()}
	if v.None {
		safetyTemplate.show(w, http.StatusOK, v)
		return
	}
	x, err := s.records.Safety(r.Context())
	if err != nil {
		v.Problem = sentence(err)
		safetyTemplate.show(w, http.StatusInternalServerError, v)
		return
	}
	v.Judged, v.By, v.Plans = x.Judged, s.judgedBy(x), s.hazardReminders(r, book)
	for _, run := range x.Runs {
		row := safetyRow(run, query)
		switch {
		case !run.Judged:
			v.Before = append(v.Before, run.Run)
		case run.Outcome == critical.Pass || run.Outcome == "":
			v.Passed = append(v.Passed, row)
		default:
			v.Open = append(v.Open, row)
			if next := nextOf(run, query); v.Next == nil && next != nil {
				v.Next = next
			}
		}
	}
	for _, g := range x.Goods {
		v.Goods = append(v.Goods, s.recordRow(g, query))
	}
	v.Decide = s.decideForm(r, x.GoodsHeld, safetyPath)
	safetyTemplate.show(w, http.StatusOK, v)
}

// judgedBy says by what rules lots are judged.
func (s *server) judgedBy(x app.Safety) string {
	if !x.Judged {
		return ""
	}
	title := x.Cooling
	for _, r := range coolrule.All() {
		if r.ID == x.Cooling {
			title = r.Title
		}
	}
	from := "all runs"
	if x.From != "" {
		from = "runs from " + string(x.From) + " on"
	}
	return fmt.Sprintf("Lots of %s are judged by the rules of %s; cooling by %s.", from, x.Jurisdiction, title)
}

// checkForm is a check that somebody signs.
type checkForm struct{ About, Entry, Back string }

// signCheck enters that somebody stands for a check.
func (s *server) signCheck(w http.ResponseWriter, r *http.Request) {
	about := r.PostFormValue("about")
	v, _, ok := s.pointOf(w, r, about)
	if !ok {
		return
	}
	if v.What != critical.Label && v.What != critical.Own {
		s.refuse(w, r, http.StatusUnprocessableEntity, "That is a record of temperatures: it is not signed, it is measured.")
		return
	}
	s.enter(w, r, r.PostFormValue(backField), record.Signed{About: about, As: record.AsVerifier, Text: record.Text(tidy(r.PostFormValue("text")))})
}

// pointOf is the record that a point names, with its run. It answers when there is none.
func (s *server) pointOf(w http.ResponseWriter, r *http.Request, point string) (critical.Verdict, app.SafetyRun, bool) {
	book, _ := s.house.Book()
	if s.records == nil {
		s.missing(w, r, book, "No records are kept here.")
		return critical.Verdict{}, app.SafetyRun{}, false
	}
	x, err := s.records.Safety(r.Context())
	if err != nil {
		s.refuse(w, r, http.StatusInternalServerError, sentence(err))
		return critical.Verdict{}, app.SafetyRun{}, false
	}
	if v, run, ok := x.Point(point); ok {
		return v, run, true
	}
	s.missing(w, r, book, "There is no critical record of that name.")
	return critical.Verdict{}, app.SafetyRun{}, false
}

func (s *server) showSafetyJSON(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		writeJSON(w, http.StatusConflict, refusal{Error: noRecords})
		return
	}
	x, err := s.records.Safety(r.Context())
	if err != nil {
		writeJSON(w, http.StatusInternalServerError, refusal{Error: err.Error()})
		return
	}
	writeJSON(w, http.StatusOK, x.Short())
}

// safetyToday says what is open about critical records; nothing where nothing is judged.
func (s *server) safetyToday(r *http.Request, _ record.Day) (todayCard, error) {
	x, err := s.records.Safety(r.Context())
	if err != nil || !x.Judged {
		return todayCard{}, err
	}
	c := todayCard{URL: safetyPath, Name: "Safety"}
	troubles, held := 0, 0
	for _, run := range x.Runs {
		n, _ := run.Troubles()
		if run.Held() > 0 || run.Open {
			troubles += n
		}
		held += run.Held()
	}
	held += len(x.GoodsHeld)
	if troubles > 0 {
		c.Says, c.Grave = append(c.Says, times(troubles, "critical record is", "critical records are")+" failed, incomplete or missing"), true
	}
	if held > 0 {
		c.Says, c.Grave = append(c.Says, times(held, "lot is", "lots are")+" held for it"), true
	}
	if len(c.Says) == 0 {
		return todayCard{}, nil
	}
	return c, nil
}
