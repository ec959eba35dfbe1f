package web

import (
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
)

// Places of thermometers and of the watch over freezers among the pages.
const (
	thermometersPath = "/thermometers"
	checkPath        = "/thermometers/check"
	watchPath        = "/freezers/watch"
	excursionPath    = "/freezers/watch/excursion"
	lookAtPath       = "/freezers/watch/lot"
)

// watchRoutes are the thermometers, and what they show in freezers and walk-ins.
func (s *server) watchRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+thermometersPath, s.showThermometers)
	mux.HandleFunc("GET /thermometers.json", s.showThermometersJSON)
	mux.HandleFunc("GET "+checkPath, s.showCheck)
	mux.HandleFunc("POST "+checkPath, s.entering(s.enterCheck))
	mux.HandleFunc("GET "+watchPath, s.showWatch)
	mux.HandleFunc("GET /freezers/watch.json", s.showWatchJSON)
	mux.HandleFunc("GET /freezers/watch/chart/{file}", s.showWatchChart)
	mux.HandleFunc("GET "+excursionPath, s.showExcursion)
	mux.HandleFunc("GET /freezers/watch/excursion.json", s.showExcursionJSON)
	mux.HandleFunc("POST /freezers/watch/answer", s.entering(s.answerExcursion))
	mux.HandleFunc("POST /freezers/watch/hold", s.entering(s.holdExposed))
	mux.HandleFunc("GET "+lifePath, s.showLife)
	mux.HandleFunc("GET "+lookAtPath, s.showLookAt)
	mux.HandleFunc("POST "+lookAtPath, s.entering(s.enterLookAt))
}

// thermometersPage is all that templates/thermometers.html may show.
type thermometersPage struct {
	shell
	None     bool // no records are kept
	Problem  string
	Findings findingsView
	Rows     []thermometerRow
	WatchURL string
	JSON     string
}

// thermometerRow is one thermometer in short.
type thermometerRow struct {
	Name, ID    string
	Sign, Class string
	Standing    string
	When        string // last check and next
	Right       string // how far wrong it may read
	Place       string
	Button, URL string
	Checks      []checkRow // the last ones, the latest first
}

// checkRow is a check in words.
type checkRow struct{ At, Who, Says string }

var thermometersTemplate = parse[thermometersPage]("thermometers")

// mostChecks is how many checks of a thermometer its row has.
const mostChecks = 5

func (s *server) showThermometers(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	query.Del("did")
	rd := readerOf(book.Kitchen, r)
	v := thermometersPage{shell: s.inShell(r, book.Kitchen, "Thermometers", "thermometers"), None: s.records == nil, WatchURL: coldURL(watchPath, query), JSON: coldURL("/thermometers.json", query)}
	if v.None {
		thermometersTemplate.show(w, http.StatusOK, v)
		return
	}
	bench, found, err := s.records.Bench(r.Context(), book)
	if err != nil {
		v.Problem = sentence(err)
		thermometersTemplate.show(w, http.StatusInternalServerError, v)
		return
	}
	now := s.instant()
	found = append(bench.Findings(now, rd.units), found...)
	found.Sort()
	v.Findings = viewFindings(found)
	for _, row := range bench.Rows(now) {
		v.Rows = append(v.Rows, s.thermometerRow(row, bench, book, rd, query))
	}
	thermometersTemplate.show(w, http.StatusOK, v)
}

// instant is now, as entries have it.
func (s *server) instant() record.Instant { return record.Instant(s.house.Now().UnixMilli()) }

// dateText is a day on the kitchen's clock.
func (s *server) dateText(at record.Instant) string {
	return time.UnixMilli(int64(at)).In(s.house.Now().Location()).Format("2 Jan 2006")
}

func (s *server) thermometerRow(row thermometers.Row, bench thermometers.Bench, book kitchen.Book, rd reader, query url.Values) thermometerRow {
	v := thermometerRow{Name: row.Name, ID: row.ID, Place: string(row.At), Button: "Check it", URL: coldURL(checkPath, query, "id", row.ID), Right: "may read wrong by up to " + together(thermometers.Difference(row.Trust.AccuracyC, rd.units))}
	v.Sign, v.Class, v.Standing = s.standing(row)
	switch {
	case row.Last == nil:
		v.When = "no check is on record"
	case row.Due == 0:
		v.When = "last checked " + s.dateText(row.Last.At) + ", the book does not say how often"
	default:
		v.When = "last checked " + s.dateText(row.Last.At) + ", next due " + s.dateText(row.Due)
	}
	switch {
	case row.Trust.Unusable:
		v.Right = "what it reads proves nothing until it is checked and taken back into use"
		v.Button = "Check it, to take it back"
	case !row.Trust.Listed:
		v.Right += "; the book does not have it, so this is what the Food Code asks for, or what a check found"
	case !row.Trust.Said:
		v.Right += "; the book does not say how right it is, so this is what the Food Code asks for, or what a check found"
	case row.Trust.AccuracyC > row.Trust.StatedC:
		v.Right += ", as its last check left it"
	}
	if p, ok := book.AllPlaces()[kitchen.PlaceID(row.At)]; ok {
		v.Place = p.Name
	}
	checks := bench.Checks(row.ID)
	for i := len(checks) - 1; i >= max(0, len(checks)-mostChecks); i-- {
		v.Checks = append(v.Checks, checkRow{s.whenText(checks[i].At), checks[i].Who, checkWords(checks[i], rd)})
	}
	return v
}

func (s *server) standing(row thermometers.Row) (sign, class, words string) {
	days := func(ms record.Instant) string { return times(int(ms/(24*3600*1000)), "day", "days") }
	now := s.instant()
	switch row.Standing {
	case thermometers.Never:
		return "▲", "caution", "Never checked"
	case thermometers.Overdue:
		return "▲", "caution", "Overdue by " + days(now-row.Due)
	case thermometers.DueSoon:
		return "●", "note", "Due in " + days(row.Due-now+24*3600*1000-1)
	case thermometers.Gone:
		return "■", "stop", "Withdrawn"
	case thermometers.Unplanned:
		return "●", "note", "Checked"
	}
	return "●", "note", "Checked, due in " + days(row.Due-now)
}

// methodNames are the ways to check a thermometer in words.
var methodNames = map[record.CheckMethod]string{record.IcePoint: "in ice water", record.BoilingPoint: "in boiling water", record.AgainstReference: "beside another"}

func checkWords(c thermometers.Check, rd reader) string {
	text := fmt.Sprintf("%s: read %s for %s", methodNames[c.Method], coldwatch.Degrees(c.ReadC, rd.units), coldwatch.Degrees(c.TrueC, rd.units))
	switch {
	case c.AfterC != nil:
		text += ", adjusted, then read " + coldwatch.Degrees(*c.AfterC, rd.units)
	case c.Kept == record.Withdrawn:
		text += ", withdrawn"
	}
	if c.Note != "" {
		text += "; " + oneLine(string(c.Note))
	}
	return text
}

func (s *server) showThermometersJSON(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		writeJSON(w, http.StatusConflict, refusal{Error: noRecords})
		return
	}
	book, _ := s.house.Book()
	bench, found, err := s.records.Bench(r.Context(), book)
	if err != nil {
		writeJSON(w, http.StatusInternalServerError, refusal{Error: err.Error()})
		return
	}
	writeJSON(w, http.StatusOK, bench.Report(s.instant(), readerOf(book.Kitchen, r).units, found))
}

const noRecords = "no records are kept here: start with kettlefrost serve --records kitchen.records"

// thermometersToday says which thermometers have to be checked; nothing where there is none.
func (s *server) thermometersToday(r *http.Request, _ record.Day) (todayCard, error) {
	book, _ := s.house.Book()
	if len(book.Thermometers) == 0 {
		return todayCard{}, nil
	}
	bench, _, err := s.records.Bench(r.Context(), book)
	if err != nil {
		return todayCard{}, err
	}
	due := 0
	for _, row := range bench.Rows(s.instant()) {
		if row.Standing == thermometers.Never || row.Standing == thermometers.Overdue {
			due++
		}
	}
	if due == 0 {
		return todayCard{}, nil
	}
	return todayCard{URL: thermometersPath, Name: "Thermometers", Says: []string{times(due, "thermometer has", "thermometers have") + " to be checked"}, Grave: true}, nil
}

// coldAlarms are what is wrong in freezers and walk-ins now, or was and nobody has answered; none where no probe watches one.
func (s *server) coldAlarms(r *http.Request) (finding.List, error) {
	book, _ := s.house.Book()
	return s.records.ColdAlarms(r.Context(), book, s.instant(), readerOf(book.Kitchen, r).units, s.nearText)
}

// coldOnBoard is the same for the board, where it is said beside what is being made.
func (s *server) coldOnBoard(r *http.Request) finding.List {
	found, err := s.coldAlarms(r)
	if err != nil {
		return finding.List{{Code: "freezers-not-read", Severity: finding.Caution, Where: "freezers", Message: err.Error(), Fix: "look at " + watchPath}}
	}
	return found
}

// freezersToday says what is wrong in the freezers now, and what nobody has answered; nothing where no probe watches one.
func (s *server) freezersToday(r *http.Request, _ record.Day) (todayCard, error) {
	book, _ := s.house.Book()
	found, err := s.coldAlarms(r)
	if err != nil || len(found) == 0 {
		return todayCard{}, err
	}
	c := todayCard{URL: watchPath, Name: "Freezers", Grave: found.Worst() > finding.Note}
	layout := app.PlacesOf(book)
	for _, f := range found[:min(len(found), mostAlarms)] {
		c.Says = append(c.Says, layout.FullName(record.Place(strings.TrimPrefix(f.Where, "place ")))+": "+f.Message)
	}
	if n := len(found) - mostAlarms; n > 0 {
		c.Says = append(c.Says, fmt.Sprintf("and %d more", n))
	}
	return c, nil
}

// mostAlarms is how many alarms a card has.
const mostAlarms = 4
