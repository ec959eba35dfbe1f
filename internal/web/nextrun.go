package web

import (
	"cmp"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/nextrun"
	"kettlefrost/internal/record"
)

// nextRunPage is all that templates/nextrun.html may show: what to make next, and why.
type nextRunPage struct {
	shell
	Fields   []field
	Sure     bool
	Runs     []plannedRun
	Findings findingsView
	Heading  string
	Make     []makeRow
	Enough   []makeRow // of which nothing is to be made
	Open     string    // address of the proposal as a run; "" when nothing is to be made
	YAML     string
	JSON     string
	Period   string
}

// makeRow is one pack.
type makeRow struct {
	Name, Make, Batches, Sum  string
	Error, Range, Later, Due  string
	Expected, Ordered, Keep   string
	OnHand, Planned, Forecast string
	Weeks                     []weekBar
	Wide                      int    // of their drawing
	Most                      string // of a week
	Short                     bool   // too short a history
}

// weekBar is what was sold in a week, as a column of a small chart that is barHigh high.
type weekBar struct {
	Sold         string
	X, Y, Height int
}

// How high a column can be, and how far one is from the next.
const (
	barHigh = 40
	barStep = 10
)

// plannedRun is a run of the book that brings packs before then.
type plannedRun struct {
	Name, Says string
	Leave      bool
}

var nextRunTemplate = parse[nextRunPage]("nextrun")

// readNextRun reads what is asked, and puts what is wrong beside its field.
func readNextRun(q url.Values, today string) (nextrun.Ask, []field) {
	day := field{Key: "day", Label: "Made on", Hint: "empty: a week from today", Value: tidy(q.Get("day")), Date: true}
	weeks := field{Key: "weeks", Label: "It should last for weeks", Hint: "from today on", Value: cmp.Or(tidy(q.Get("weeks")), strconv.Itoa(nextrun.UsualWeeks)), Number: true}
	ask := nextrun.Ask{Today: today, Day: day.Value, Sure: q.Has("sure"), Leave: q["without"]}
	n, err := strconv.Atoi(weeks.Value)
	if err != nil || n < 1 {
		weeks.Problem = "Write a number of weeks, 1 or more."
	}
	ask.Weeks = n
	return ask, []field{day, weeks}
}

// propose works the proposal out. What is wrong with the ask stands beside its field.
func (s *server) propose(r *http.Request, book kitchen.Book) (nextrun.Proposal, []field, error) {
	ask, fields := readNextRun(r.URL.Query(), string(app.Today(s.house.Now())))
	if wrong(fields) {
		return nextrun.Proposal{}, fields, nil
	}
	p, err := app.NextRun(r.Context(), s.records, book, ask)
	if bad := (*nextrun.AskError)(nil); errors.As(err, &bad) {
		for i := range fields {
			if fields[i].Key == bad.Where {
				fields[i].Problem = capital(bad.Problem) + ": " + bad.Fix + "."
			}
		}
		return p, fields, nil
	}
	return p, fields, err
}

func (s *server) showNextRun(w http.ResponseWriter, r *http.Request) {
	book, found := s.house.Book()
	v := nextRunPage{shell: s.inShell(r, book.Kitchen, "What to make next", "nextrun"), Sure: r.URL.Query().Has("sure")}
	if found.Worst() == finding.Stop {
		v.Findings = viewFindings(found)
		nextRunTemplate.show(w, http.StatusUnprocessableEntity, v)
		return
	}
	p, fields, err := s.propose(r, book)
	if err != nil {
		s.refuse(w, r, http.StatusInternalServerError, sentence(err))
		return
	}
	v.Fields = fields
	if wrong(fields) {
		nextRunTemplate.show(w, http.StatusUnprocessableEntity, v)
		return
	}
	v.fill(p, r.URL.Query())
	nextRunTemplate.show(w, http.StatusOK, v)
}

func (v *nextRunPage) fill(p nextrun.Proposal, q url.Values) {
	v.Findings = viewFindings(p.Findings)
	v.Period = fmt.Sprintf("Made on %s, to last until %s", dateText(record.Day(p.Day)), dateText(record.Day(p.Until)))
	for _, r := range p.Rows {
		if row := viewMake(r, p.Weeks); r.Make > 0 {
			v.Make = append(v.Make, row)
		} else {
			v.Enough = append(v.Enough, row)
		}
	}
	for _, c := range p.Runs {
		says := times(int(c.Packs), "pack", "packs") + " on " + dateText(record.Day(c.Day))
		if c.Not != "" {
			says += "; not counted: " + c.Not
		}
		v.Runs = append(v.Runs, plannedRun{c.Run, says, slices.Contains(q["without"], c.Run)})
	}
	v.JSON, v.YAML = nextRunPath+".json"+queryOf(q), nextRunPath+".yaml"+queryOf(q)
	if len(p.Request.Want) > 0 {
		v.Open = runPath(proposedRun) + "?" + proposedQuery(p.Request).Encode()
	}
}

func viewMake(r nextrun.Row, weeks int) makeRow {
	n := func(x int64) string { return strconv.FormatInt(x, 10) }
	less := func(x int64) string { return strings.Replace(n(-x), "-", "−", 1) }
	row := makeRow{Name: cmp.Or(r.Name, string(r.Pack)), Make: n(r.Make), Sum: r.Sum(), Error: r.Error(), Range: r.Range(), Ordered: n(r.Ordered), Keep: n(r.Keep), OnHand: less(r.OnHand), Planned: less(r.Planned), Expected: n(r.Expected), Short: r.Forecast == nil}
	if r.Batch > 1 && r.Make > 0 {
		row.Batches = fmt.Sprintf("%s of %d", times(int(r.Make/r.Batch), "batch", "batches"), r.Batch)
	}
	if r.Later > 0 {
		row.Later = fmt.Sprintf("%d more are ordered for later", r.Later)
	}
	if r.First != "" {
		row.Due = "The first is due " + dateText(record.Day(r.First))
	}
	shown := r.Sold[max(0, len(r.Sold)-yearOfWeeks):]
	most := 1.0
	for _, sold := range shown {
		most = max(most, sold)
	}
	for i, sold := range shown {
		high := int(barHigh*sold/most + 0.5)
		row.Weeks = append(row.Weeks, weekBar{strconv.FormatFloat(sold, 'f', -1, 64), i * barStep, barHigh - high, high})
	}
	row.Wide, row.Most = len(shown)*barStep, strconv.FormatFloat(most, 'f', -1, 64)
	return row
}

// yearOfWeeks is how many weeks are drawn at most.
const yearOfWeeks = 52

func (s *server) showNextRunJSON(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	p, fields, err := s.propose(r, book)
	if why := firstProblem(fields, err); why != "" {
		writeJSON(w, http.StatusUnprocessableEntity, refusal{Error: why})
		return
	}
	writeJSON(w, http.StatusOK, p.View())
}

// showNextRunYAML gives the proposal as a file for the book.
func (s *server) showNextRunYAML(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	p, fields, err := s.propose(r, book)
	text, err2 := app.RunFile(p.Request)
	if why := firstProblem(fields, cmp.Or(err, err2)); why != "" {
		s.refuse(w, r, http.StatusUnprocessableEntity, why)
		return
	}
	w.Header().Set("Content-Type", "text/yaml; charset=utf-8")
	w.Header().Set("Content-Disposition", fmt.Sprintf("attachment; filename=%q", "next-"+p.Day+".yaml"))
	w.Write(text)
}

func firstProblem(fields []field, err error) string {
	if err != nil {
		return sentence(err)
	}
	for _, f := range fields {
		if f.Problem != "" {
			return f.Label + ": " + f.Problem
		}
	}
	return ""
}

// Beginnings of the keys under which an address has how many packs are made, as for runs of the book, and how many of them are promised.
const (
	countKey    = "count."
	promisedKey = "promised."
)

func proposedQuery(req kitchen.Request) url.Values {
	q := url.Values{"day": {req.Day}}
	for _, w := range req.Want {
		q.Set(countKey+string(w.Pack), strconv.Itoa(w.Count))
	}
	for pack, n := range req.Orders {
		q.Set(promisedKey+string(pack), strconv.Itoa(n))
	}
	return q
}
