package web

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coolforecast"
	"kettlefrost/internal/record"
)

// Places of what cools now.
const (
	coolingPath      = "/cooling"
	coolingJSONPath  = "/cooling.json"
	coolingChartPath = "/cooling/chart"
)

// coolingRoutes are the forecasts of what cools, and what is done about it.
func (s *server) coolingRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+coolingPath, s.onBoard(s.showCooling))
	mux.HandleFunc("POST "+coolingPath, s.entering(s.enterCooling))
	mux.HandleFunc("GET "+coolingJSONPath, s.onBoard(s.showCoolingJSON))
	mux.HandleFunc("GET "+coolingChartPath+"/{file}", s.onBoard(s.showCoolingChart))
}

// coolingsPage is all that templates/coolings.html may show: everything that cools now.
type coolingsPage struct {
	shell
	Events  string
	ClockMs string
	Rule    string
	Unruled bool // the book does not say by what rules: nothing is judged
	Loads   []coolingCard
	Over    []coolingCard
}

// coolingCard is one load in short.
type coolingCard struct {
	URL, Title string
	Load       string
	Way        string
	Class      string // yes, note, caution or stop
	Sign       string
	Headline   string
	Says       string
	Margin     string
	Due        string
	DueMs      string
	Late       bool
	Key        string
}

var coolingsTemplate = parse[coolingsPage]("coolings")

// coolingState is how an outcome is marked: by a sign and a word, and only then by a colour.
func coolingState(c app.Cooling) (class, sign string) {
	switch {
	case c.Problem != "":
		return "caution", "▲"
	case c.Forecast.Outcome == coolforecast.Missed || c.Forecast.Outcome == coolforecast.Misses:
		return "stop", "■"
	case c.Forecast.Outcome == coolforecast.InDoubt:
		return "caution", "▲"
	case c.Forecast.Outcome == coolforecast.Unsaid:
		return "note", "?"
	}
	return "yes", "●"
}

func coolingCardOf(run string, c app.Cooling, voice app.CoolVoice, now record.Instant) coolingCard {
	v := coolingCard{URL: coolingURL(run, c.Ref()), Title: c.Log.Title, Load: loadWord(c.Log.Load, c.Log.Loads), Way: c.Way, Headline: voice.Headline(c), Says: voice.Line(c), Key: run + "/" + c.Ref() + "/read"}
	v.Class, v.Sign = coolingState(c)
	if i := c.Forecast.Decides; i >= 0 && c.Problem == "" && i < len(c.Forecast.Limits) && c.Forecast.Outcome != coolforecast.Over && c.Forecast.Outcome != coolforecast.Missed {
		v.Margin = voice.Margin(c.Forecast.Limits[i].MarginS)
	}
	if at, late, any := c.Due(now); any {
		v.Due, _, v.Late = voice.Due(c, now)
		v.DueMs = strconv.FormatInt(int64(at), 10)
		if late {
			v.Class, v.Sign = graver(v.Class, v.Sign)
		}
	}
	return v
}

// graver is the mark of something that also lacks a reading.
func graver(class, sign string) (string, string) {
	if class == "stop" {
		return class, sign
	}
	return "caution", "▲"
}

func loadWord(load, loads int) string {
	if loads < 2 {
		return ""
	}
	return "load " + strconv.Itoa(load) + " of " + strconv.Itoa(loads)
}

func coolingURL(run, task string) string {
	return coolingPath + "?" + url.Values{"run": {run}, "task": {task}}.Encode()
}

// openCoolings are what cools in the productions that are open; with a name, in that one whether it is open or not.
func (s *server) openCoolings(r *http.Request, name string) (all []openCooling, err error) {
	runs, err := s.boards.Runs(r.Context())
	if err != nil {
		return nil, err
	}
	for _, run := range runs {
		if run.Name != name && (name != "" || !run.Open()) {
			continue
		}
		p, err := s.boards.Production(r.Context(), run.Name, false)
		if err != nil {
			return nil, err
		}
		loads, err := s.boards.Coolings(r.Context(), p)
		if err != nil {
			return nil, err
		}
		all = append(all, openCooling{p, loads})
	}
	return all, nil
}

// openCooling is what cools in one production.
type openCooling struct {
	p     *app.Production
	loads []app.Cooling
}

func (s *server) showCooling(w http.ResponseWriter, r *http.Request) {
	query := r.URL.Query()
	if query.Get("task") != "" {
		s.showOneCooling(w, r, http.StatusOK, coolingSent{})
		return
	}
	open, err := s.openCoolings(r, query.Get("run"))
	if err != nil {
		s.refuse(w, r, http.StatusServiceUnavailable, sentence(err))
		return
	}
	book, _ := s.house.Book()
	now := s.instant()
	v := coolingsPage{shell: s.inShell(r, book.Kitchen, "Cooling now", "cooling"), ClockMs: strconv.FormatInt(int64(now), 10), Unruled: !book.Safety.Given()}
	v.Refresh = refreshS
	seq := uint64(0)
	for _, o := range open {
		voice := app.VoiceOf(o.p)
		seq = max(seq, o.p.Seq)
		for _, c := range o.loads {
			card := coolingCardOf(o.p.Run.Name, c, voice, now)
			if v.Rule = c.Case.Rule.Title; c.Over {
				v.Over = append(v.Over, card)
			} else {
				v.Loads = append(v.Loads, card)
			}
		}
	}
	slices.SortStableFunc(v.Loads, func(a, b coolingCard) int { return cardRank[a.Class] - cardRank[b.Class] })
	v.Events = "/events?" + url.Values{"after": {strconv.FormatUint(seq, 10)}}.Encode()
	coolingsTemplate.show(w, http.StatusOK, v)
}

// cardRank puts what has to be looked at first.
var cardRank = map[string]int{"stop": 0, "caution": 1, "note": 2, "yes": 3}

// coolingOf is the load that an address names; it has answered when there is none.
func (s *server) coolingOf(w http.ResponseWriter, r *http.Request, run, task string) (*app.Production, app.Cooling, bool) {
	book, _ := s.house.Book()
	p, err := s.boards.Production(r.Context(), run, false)
	if err != nil {
		if _, unknown := err.(*app.UnknownRunError); unknown {
			s.missing(w, r, book, sentence(err))
		} else {
			s.refuse(w, r, http.StatusServiceUnavailable, sentence(err))
		}
		return nil, app.Cooling{}, false
	}
	all, err := s.boards.Coolings(r.Context(), p)
	if err != nil {
		s.refuse(w, r, http.StatusServiceUnavailable, sentence(err))
		return nil, app.Cooling{}, false
	}
	c, there := app.CoolingOf(all, task)
	if !there {
		says := "Nothing of that name cools in this production yet: its cooling begins when somebody starts the task on the board, or reads it."
		if !p.Book.Safety.Given() {
			says = "The book of this kitchen does not say by what rules food is judged, so no cooling is followed. Write safety: into kitchen.yaml."
		}
		s.missing(w, r, p.Book, says)
	}
	return p, c, there
}

// cools tells whether something of a production cools that has a page of its own: its cooling has begun.
func (s *server) cools(r *http.Request, run, task string) bool {
	p, err := s.boards.Production(r.Context(), run, false)
	if err != nil {
		return false
	}
	all, err := s.boards.Coolings(r.Context(), p)
	if err != nil {
		return false
	}
	_, there := app.CoolingOf(all, task)
	return there
}

func (s *server) showCoolingJSON(w http.ResponseWriter, r *http.Request) {
	query := r.URL.Query()
	p, err := s.boards.Production(r.Context(), query.Get("run"), false)
	if err != nil {
		writeJSON(w, http.StatusNotFound, refusal{Error: sentence(err)})
		return
	}
	report, err := s.boards.CoolingsReport(r.Context(), p, query.Get("task"))
	if err != nil {
		writeJSON(w, http.StatusNotFound, refusal{Error: sentence(err)})
		return
	}
	writeJSON(w, http.StatusOK, report)
}

// coolingToday is what cools now, for the kitchen's page; nothing when nothing does.
func (s *server) coolingToday(r *http.Request, _ record.Day) (todayCard, error) {
	open, err := s.openCoolings(r, "")
	c := todayCard{URL: coolingPath}
	now, fine := s.instant(), 0
	for _, o := range open {
		voice := app.VoiceOf(o.p)
		for _, f := range app.CoolingFindings(o.p.Run.Name, o.loads, voice, now) {
			c.Grave, c.Says = true, append(c.Says, f.Where+": "+f.Message)
		}
		for _, x := range o.loads {
			if !x.Over && !x.Grave(now) {
				fine++
			}
		}
	}
	if fine > 0 {
		c.Says = append(c.Says, times(fine, "load is", "loads are")+" cooling, and being read")
	}
	if len(c.Says) > 0 {
		c.Name = "Cooling"
	}
	return c, err
}
