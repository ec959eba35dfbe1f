package web

import (
	"cmp"
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

type instant = record.Instant

func dayOn(t time.Time) record.Day { return record.Day(t.Format(time.DateOnly)) }

// logDayPage is all that templates/logday.html may show: a probe's day.
type logDayPage struct {
	shell
	None             bool
	Problem          string
	Probe            string // as it is sent again by the form
	Name             string
	Day, Says        string // the day, and in words
	Before, After    link
	Choices          []logOptionView // other probes
	Found            []stateLine
	Summary          []fact
	Chart            pictureView
	Stays            []probeStayRow
	Typed            []typedRow
	Hours            []hourRow
	Hour             string // the hour whose readings are listed
	Rows             []readingRow
	Odd              []readingRow
	MoreOdd          string
	CSV, JSON, Every string
}

// stateLine is a sentence about the day, with how grave it is.
type stateLine struct{ Sign, Class, Word, Says string }

// fact is a figure with its name.
type fact struct {
	Name  string
	Value figure
	More  string
}

type probeStayRow struct{ When, Stage, Where, Point string }

type typedRow struct {
	When, Who, Where, With string
	Reads                  figure
}

var logDayTemplate = parse[logDayPage]("logday")

// dayAsked is the day of an address, today when it names none.
func (s *server) dayAsked(query url.Values) (day time.Time, ok bool) {
	now := s.house.Now()
	text := strings.TrimSpace(query.Get("day"))
	if text == "" {
		return time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, now.Location()), true
	}
	day, err := time.ParseInLocation(time.DateOnly, text, now.Location())
	return day, err == nil && day.Year() >= 1970 && day.Year() < 10_000
}

// dayOfProbe is the day that an address asks for; false when it was answered why there is none.
func (s *server) dayOfProbe(r *http.Request) (d app.ReadingDay, book kitchen.Book, problem string, err error) {
	book, _ = s.house.Book()
	query := r.URL.Query()
	day, ok := s.dayAsked(query)
	probe := strings.TrimSpace(query.Get("probe"))
	switch {
	case !ok:
		return d, book, "A day is written like 2026-12-01.", nil
	case probe == "" || len(probe) > 200:
		return d, book, "Choose a probe.", nil
	}
	d, err = s.records.ReadingDay(r.Context(), book, probe, day, s.house.Now())
	return d, book, "", err
}

func (s *server) showLogDay(w http.ResponseWriter, r *http.Request) {
	query := r.URL.Query()
	query.Del("did")
	v := logDayPage{shell: s.inShell(r, kitchen.Kitchen{}, "Day of a probe", "logs")}
	if s.records == nil {
		book, _ := s.house.Book()
		v.shell, v.None = s.inShell(r, book.Kitchen, "Day of a probe", "logs"), true
		logDayTemplate.show(w, http.StatusOK, v)
		return
	}
	d, book, problem, err := s.dayOfProbe(r)
	rd := readerOf(book.Kitchen, r)
	v.shell = s.inShell(r, book.Kitchen, "Day of a probe", "logs")
	v.Problem = problem
	status := http.StatusOK
	if err != nil {
		v.Problem, status = sentence(err), http.StatusInternalServerError
	} else if problem != "" {
		status = http.StatusNotFound
	} else {
		s.fillDay(&v, d, rd, query)
	}
	if err := s.chooseProbe(r, &v, book); err != nil && status == http.StatusOK {
		v.Problem, status = sentence(err), http.StatusInternalServerError
	}
	logDayTemplate.show(w, status, v)
}

// chooseProbe offers the probes there are.
func (s *server) chooseProbe(r *http.Request, v *logDayPage, book kitchen.Book) error {
	names, err := s.records.ProbeNames(r.Context(), book)
	for _, n := range names {
		v.Choices = append(v.Choices, logOptionView{n.ID, cmp.Or(n.Name, n.ID), n.ID == v.Probe})
	}
	return err
}

// fillDay puts a day into words.
func (s *server) fillDay(v *logDayPage, d app.ReadingDay, rd reader, query url.Values) {
	v.Probe, v.Name, v.Day = d.Probe, cmp.Or(d.Name, d.Probe), string(d.Day)
	v.Title = v.Name + ", " + string(d.Day)
	v.Says = s.wall(d.From).Format("Monday 2 January 2006")
	if d.Previous != "" {
		v.Before = link{string(d.Previous), dayURL(query, d.Probe, d.Previous)}
	}
	if d.Next != "" {
		v.After = link{string(d.Next), dayURL(query, d.Probe, d.Next)}
	}
	v.Found = s.limitLines(d, rd)
	v.Summary = s.summaryOf(d, rd)
	rest := coldURL("", query, "probe", d.Probe, "day", string(d.Day))
	v.Chart = pictures{path: logDayPath, rest: rest}.at("chart/day").saying("What " + v.Name + " read on " + string(d.Day))
	v.CSV, v.JSON = logDayPath+".csv"+rest, logDayPath+".json"+rest
	for _, x := range d.Stays {
		v.Stays = append(v.Stays, s.probeStayRow(x))
	}
	for _, x := range d.Typed {
		v.Typed = append(v.Typed, typedRow{s.wall(x.At).Format("15:04"), x.Who, x.Where, x.With, rd.readTemp(x.Temp.C())})
	}
	s.fillHours(v, d, rd, query)
	s.fillOdd(v, d, rd)
}

func (s *server) probeStayRow(x app.DayStay) probeStayRow {
	when := s.nearly(x.From) + " until now"
	if x.Until != 0 {
		when = s.nearly(x.From) + " to " + s.nearly(x.Until)
	}
	where := x.Where
	if x.Run != "" {
		where += ", run " + x.Run
	}
	return probeStayRow{when, string(x.Stage), where, x.Point}
}

// limitLines say how the day stands to the limit of the place: what was read over it, and of what nothing is known. They never say more than
// the readings do.
func (s *server) limitLines(d app.ReadingDay, rd reader) []stateLine {
	if d.Summary.Readings == 0 {
		return []stateLine{{"▲", "caution", "NOT KNOWN", "nothing was read on this day"}}
	}
	if d.Limit == nil {
		return nil
	}
	limit := rd.readTemp(d.Limit.TempC).both()
	var lines []stateLine
	for _, x := range d.Limit.Stretches {
		until := " to " + s.wall(x.Until).Format("15:04")
		if !x.Ended && x.Until >= min(d.Before, d.Now)-1 {
			until = " on"
		}
		when := s.wall(x.From).Format("15:04") + until
		if x.Kind == coldwatch.TooWarm {
			lines = append(lines, stateLine{"■", "stop", "OVER THE LIMIT", fmt.Sprintf("from %s, warmest %s; by the error of the probe up to %s", when, rd.readTemp(*x.PeakC).both(), rd.readTemp(*x.MayC).both())})
		} else {
			lines = append(lines, stateLine{"▲", "caution", "NOT KNOWN", "from " + when + ": no reading that can be used"})
		}
	}
	if len(lines) == 0 && d.Summary.Counting > 0 {
		lines = append(lines, stateLine{"●", "note", "", "No reading of this day is over " + limit + ", and none is missing for long."})
	}
	return lines
}

func (s *server) summaryOf(d app.ReadingDay, rd reader) []fact {
	all := []fact{{Name: "Readings", Value: figure{First: thousands(d.Summary.Readings)}, More: flaggedText(d.Summary)}}
	if d.Limit != nil {
		all = append(all, fact{"Limit of " + d.Limit.Name, rd.readTemp(d.Limit.TempC), d.Limit.Source})
	}
	if x := d.Summary.Low; x != nil {
		all = append(all, fact{"Lowest", rd.readTemp(*x.TempC), "at " + s.wall(x.At).Format("15:04")})
	}
	if x := d.Summary.High; x != nil {
		all = append(all, fact{"Highest", rd.readTemp(*x.TempC), "at " + s.wall(x.At).Format("15:04")})
	}
	return all
}

func flaggedText(d app.DaySummary) string {
	if d.Flagged == 0 {
		return "none flagged"
	}
	var words []string
	for _, f := range d.Flags {
		words = append(words, f.Says+" "+thousands(f.Count))
	}
	return thousands(d.Flagged) + " flagged: " + strings.Join(words, ", ")
}

func (s *server) showLogDayJSON(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		logsRefused(w, nil)
		return
	}
	d, _, problem, err := s.dayOfProbe(r)
	switch {
	case err != nil:
		logsRefused(w, err)
	case problem != "":
		writeJSON(w, http.StatusNotFound, refusal{Error: problem})
	default:
		writeJSON(w, http.StatusOK, d)
	}
}

// showLogDayCSV is a day as it was received, a line for each reading.
func (s *server) showLogDayCSV(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		logsRefused(w, nil)
		return
	}
	d, _, problem, err := s.dayOfProbe(r)
	if err != nil || problem != "" {
		http.Error(w, cmp.Or(problem, fmt.Sprint(err)), http.StatusNotFound)
		return
	}
	w.Header().Set("Content-Type", typeCSV)
	w.Header().Set("Content-Disposition", `attachment; filename="readings-`+string(d.Day)+`.csv"`)
	w.Write(d.CSV(s.house.Now().Location()))
}
