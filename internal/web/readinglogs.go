package web

import (
	"cmp"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/kitchen"
)

// logsPage is all that templates/logs.html may show: every probe as it stands now.
type logsPage struct {
	shell
	None     bool
	Problem  string
	Findings findingsView
	Rows     []probeRow
	Import   string
	JSON     string
}

// probeRow is a probe in the list.
type probeRow struct {
	Name, ID    string
	URL         string
	Where, In   string
	Sign, Class string
	Word        string // how it is heard
	Reads       figure
	Old         bool // so long ago that it says nothing of now
	When, Age   string
	Day         string // readings of the last 24 hours
	Flags       []string
}

var logsTemplate = parse[logsPage]("logs")

func (s *server) showLogs(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	query.Del("did")
	rd := readerOf(book.Kitchen, r)
	v := logsPage{shell: s.inShell(r, book.Kitchen, "Logs", "logs"), Import: logImportPath, JSON: coldURL(logsPath+".json", query)}
	if v.None = s.records == nil; v.None {
		logsTemplate.show(w, http.StatusOK, v)
		return
	}
	list, err := s.records.ProbeList(r.Context(), book, s.house.Now())
	if err != nil {
		v.Problem = sentence(err)
		logsTemplate.show(w, http.StatusInternalServerError, v)
		return
	}
	v.Findings = viewFindings(list.Findings)
	slices.SortStableFunc(list.Probes, func(a, b app.ProbeRow) int { return cmp.Compare(standing(a), standing(b)) })
	for _, p := range list.Probes {
		v.Rows = append(v.Rows, s.probeRow(p, rd, query))
	}
	v.Refresh = 60
	logsTemplate.show(w, http.StatusOK, v)
}

func (s *server) showLogsJSON(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		logsRefused(w, nil)
		return
	}
	book, _ := s.house.Book()
	list, err := s.records.ProbeList(r.Context(), book, s.house.Now())
	if err != nil {
		logsRefused(w, err)
		return
	}
	writeJSON(w, http.StatusOK, list)
}

func (s *server) probeRow(p app.ProbeRow, rd reader, query url.Values) probeRow {
	v := probeRow{Name: cmp.Or(p.Name, p.Probe), ID: p.Probe, Where: p.Where, Day: times(p.Day, "reading", "readings"), Sign: "●", Class: "note", Word: heardWord(p), URL: dayURL(query, p.Probe, "")}
	if p.Silent {
		v.Sign, v.Class = "▲", "caution"
	}
	if p.In != nil {
		v.In = string(p.In.Stage) + ": " + p.In.Where
	}
	if p.Last != nil {
		v.Reads, v.When, v.Age = rd.readTemp(*p.Last.TempC), s.nearly(p.Last.At), coldwatch.Length(p.AgeS*1000)+" ago"
		v.URL = dayURL(query, p.Probe, dayOn(s.wall(p.Last.At)))
		v.Old = p.Old
	}
	for _, f := range p.Flags {
		v.Flags = append(v.Flags, f.Says+" "+strconv.Itoa(f.Count))
	}
	if p.Future > 0 {
		v.Flags = append(v.Flags, "in the future "+strconv.Itoa(p.Future))
	}
	return v
}

// heardWord is how a probe is heard, in a word or two. None of them says that anything is well.
func heardWord(p app.ProbeRow) string {
	switch {
	case p.Last == nil && p.Kind == kitchen.Logger:
		return "nothing taken in yet"
	case p.Last == nil && p.Silent:
		return "NEVER HEARD"
	case p.Last == nil:
		return "not heard yet"
	case p.Silent && p.Kind == kitchen.Logger && p.In == nil:
		return "NOT READ OUT"
	case p.Silent:
		return "SILENT"
	case !p.Listed:
		return "not in the book"
	case p.Kind == kitchen.Logger:
		return "as last read out"
	case p.Place == "" && p.In == nil:
		return "goes from pot to pot"
	}
	return "heard"
}

// standing is the place of a probe in the list: the silent ones first, then those that are heard, then those that nobody waits for.
func standing(p app.ProbeRow) int {
	switch {
	case p.Silent:
		return 0
	case p.Last != nil && !p.Old:
		return 1
	}
	return 2
}

// patienceDays is how far another day may be before its year is told.
const patienceDays = 200

// nearly is a time on the kitchen's clock, as short as it is clear.
func (s *server) nearly(at instant) string {
	now, t := s.house.Now(), s.wall(at)
	switch {
	case t.Format(time.DateOnly) == now.Format(time.DateOnly):
		return "today " + t.Format("15:04")
	case now.Sub(t).Abs() < patienceDays*24*time.Hour:
		return t.Format("Mon 2 Jan 15:04")
	}
	return t.Format("2 Jan 2006 15:04")
}
