package web

import (
	"net/http"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/critical"
)

// safetyStagePage is all that templates/safetystage.html may show.
type safetyStagePage struct {
	shell
	Run     string
	RunURL  string
	Record  recordRow
	Point   string
	Chart   *pictureView
	Margin  []string
	Right   string // how far wrong the thermometers may have been
	Rules   []cooledRow
	Kill    *killView
	Growth  *growthView
	Acted   []string
	Logs    []readLog
	Read    *readForm
	Probe   *probeForm
	Watched []watchedRow
	Forward string // the page that tells how it will go on
	JSON    string
}

// readLog is what was read at one point of the food.
type readLog struct {
	Where string
	Rows  []tempRow
	More  string // how many are not listed
}

type tempRow struct{ At, Temp, By, Odd string }

// mostReadRows are as many readings of a point as the page lists; the JSON has all.
const mostReadRows = 60

var safetyStageTemplate = parse[safetyStagePage]("safetystage")

func (s *server) showSafetyStage(w http.ResponseWriter, r *http.Request) {
	v, run, ok := s.pointOf(w, r, r.URL.Query().Get("point"))
	if ok {
		s.writeSafetyStage(w, r, http.StatusOK, v, run, nil, nil)
	}
}

// writeSafetyStage shows a record; forms that were refused are shown again as they were filled in.
func (s *server) writeSafetyStage(w http.ResponseWriter, r *http.Request, status int, v critical.Verdict, run app.SafetyRun, read *readForm, probe *probeForm) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	rd := readerOf(book.Kitchen, r)
	p := safetyStagePage{shell: s.inShell(r, book.Kitchen, titleOf(v), "safety"), Run: run.Run, RunURL: coldURL(safetyPath, query), Record: s.recordRow(v, query), Point: v.Point, JSON: coldURL("/safety/stage.json", query, "point", v.Point)}
	if run.Run != "" {
		p.RunURL = coldURL(safetyRunPath, query, "run", run.Run)
	}
	if len(v.Logs) > 0 {
		chart := pictures{path: safetyStagePath, rest: coldURL("", query, "point", v.Point)}.at("chart/log").saying("What was read: " + titleOf(v))
		p.Chart = &chart
	}
	if v.Accuracy != nil {
		p.Right = v.Accuracy.Says
	}
	p.Margin = margins(v, rd)
	for _, x := range v.Rules {
		p.Rules = append(p.Rules, cooledRowOf(x))
	}
	p.Kill, p.Growth = killViewOf(v.Lethality, rd), growthViewOf(v.Growth)
	for _, a := range v.Acted {
		text := s.nearText(a.At) + ", " + a.Who + ": " + deeds[a.Did]
		if a.Temp != nil {
			text += " (" + degrees(a.Temp.C(), rd) + ")"
		}
		p.Acted = append(p.Acted, strings.TrimSuffix(text+": "+oneLine(string(a.Text)), ": "))
	}
	for _, l := range v.Logs {
		p.Logs = append(p.Logs, s.readLogOf(l, rd))
	}
	if v.Task != "" {
		if p.Read, p.Probe = read, probe; read == nil {
			p.Read = s.readFormOf(v, book, rd)
		}
		if probe == nil {
			p.Probe = s.probeFormOf(r, v, book)
		}
		p.Watched = s.probesIn(r, v)
		if v.What == critical.Cooling && run.Open && v.Outcome != critical.Pass && s.cools(r, v.Run, v.Task) {
			p.Forward = coldURL("/cooling", query, "run", v.Run, "task", v.Task)
		}
	}
	safetyStageTemplate.show(w, status, p)
}

func (s *server) showSafetyStageJSON(w http.ResponseWriter, r *http.Request) {
	v, _, ok := s.pointOf(w, r, r.URL.Query().Get("point"))
	if ok {
		writeJSON(w, http.StatusOK, app.SafetyRecordSheet{Schema: app.SafetyRecordSchema, Verdict: v})
	}
}

// formClock is a time as a form has it, by the kitchen's clock.
func (s *server) formClock(at time.Time) string {
	return at.In(s.house.Now().Location()).Format(formTime)
}

// formTime is how a time stands in a form: as browsers write it.
const formTime = "2006-01-02T15:04"

// readTime reads a time of a form by the kitchen's clock; what browsers that know no such field let people write is read too.
func (s *server) readTime(text string) (time.Time, bool) {
	place := s.house.Now().Location()
	for _, layout := range []string{formTime, "2006-01-02T15:04:05", "2006-01-02 15:04"} {
		if t, err := time.ParseInLocation(layout, strings.TrimSpace(text), place); err == nil {
			return t, true
		}
	}
	if t, err := time.ParseInLocation("15:04", strings.TrimSpace(text), place); err == nil {
		now := s.house.Now()
		return time.Date(now.Year(), now.Month(), now.Day(), t.Hour(), t.Minute(), 0, 0, place), true
	}
	return time.Time{}, false
}
