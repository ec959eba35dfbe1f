package web

import (
	"html/template"
	"maps"
	"net/http"
	"net/url"

	"kettlefrost/internal/app"
	"kettlefrost/internal/calendar"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/roster"
	"kettlefrost/internal/unit"
)

// runDay is the day of a run as a query asks for it: as planned, or timed again with what has changed.
type runDay struct {
	asked
	plan      plan.Plan
	now       *unit.Moment // the moment that is looked at: of the query, or of the clock when the run is on
	ticking   bool         // now is the clock's
	change    changeForm
	retimed   bool
	because   []string // what has changed, when it was timed again
	asPlanned bool     // it should have been timed again, and was not
}

// at is the day of a plan at the moment that a query or the clock says, with nothing changed.
func (s *server) at(a asked, p plan.Plan, query url.Values) runDay {
	d := runDay{asked: a, plan: p}
	if now, err := app.Moment(query.Get("now")); err == nil && query.Get("now") != "" {
		d.now = &now
	} else if now, on := app.MomentOn(p.Day, s.house.Now()); on && now < p.Timetable.End {
		d.now, d.ticking = &now, true
	}
	return d
}

// changed is the day with what a query says has changed.
func (s *server) changed(r *http.Request, d runDay) runDay {
	changes, form := readChanges(d, r.URL.Query())
	d.change = form
	if form.Wrong || !form.Any {
		return d
	}
	d.plan, d.retimed = s.house.Retime(r.Context(), d.book, d.run, changes), true
	d.now, d.because, d.asPlanned = &changes.Now, app.Told(d.book, d.plan.Timetable.Tasks, changes), d.plan.Timetable.Now == nil
	return d
}

// dayOf is the day of a plan as a query asks for it.
func (s *server) dayOf(r *http.Request, a asked, p plan.Plan) runDay {
	return s.changed(r, s.at(a, p, r.URL.Query()))
}

// timed is dayOf with the moment that is looked at in the timetable too, for its drawings.
func (s *server) timed(r *http.Request, a asked, p plan.Plan) runDay {
	d := s.dayOf(r, a, p)
	if d.now != nil && d.plan.Timetable.Now == nil {
		d.plan.Timetable.Now = d.now
	}
	return d
}

// dayFor makes the day for a drawing or a calendar; it has answered when it cannot.
func (s *server) dayFor(w http.ResponseWriter, r *http.Request) (runDay, bool) {
	p, a, ok := s.planFor(w, r)
	if !ok {
		return runDay{}, false
	}
	return s.timed(r, a, p), r.Context().Err() == nil
}

// unread is what is said where there is no form to say it beside.
const unread = "what has changed cannot be used"

// rightDay is dayFor, and refuses changes that cannot be used.
func (s *server) rightDay(w http.ResponseWriter, r *http.Request) (runDay, bool) {
	d, ok := s.dayFor(w, r)
	if ok && d.change.Wrong {
		http.Error(w, unread, http.StatusUnprocessableEntity)
		return d, false
	}
	return d, ok
}

// person is the name that a query asks for, "" for everybody; false when it has answered that there is nobody of it.
func (s *server) person(w http.ResponseWriter, r *http.Request, book kitchen.Book) (string, bool) {
	text := r.URL.Query().Get("person")
	if text == "" {
		return "", true
	}
	name, err := app.Person(book, text)
	if err != nil {
		s.missing(w, r, book, sentence(err))
		return "", false
	}
	return name, true
}

// showDaySVG answers with the whole day as one drawing.
func (s *server) showDaySVG(w http.ResponseWriter, r *http.Request) {
	d, ok := s.rightDay(w, r)
	if !ok {
		return
	}
	picture, ok := draw.WholeDay(d.plan)
	if !ok {
		s.missing(w, r, d.book, "There is no timetable to draw.")
		return
	}
	writeSVG(w, picture, look{})
}

// showDayJSON answers with the day as data.
func (s *server) showDayJSON(w http.ResponseWriter, r *http.Request) {
	a, ok := s.askJSON(w, r, r.PathValue("name"))
	if !ok {
		return
	}
	d := s.dayOf(r, a, s.house.Plan(r.Context(), a.book, a.run))
	if d.change.Wrong {
		writeJSON(w, http.StatusUnprocessableEntity, refusal{Error: unread, Fields: badFields(d.change.fields())})
		return
	}
	writeJSON(w, http.StatusOK, roster.DayOf(d.plan))
}

// showDayCalendar answers with the day as a calendar, everybody's or one person's.
func (s *server) showDayCalendar(w http.ResponseWriter, r *http.Request) {
	d, ok := s.rightDay(w, r)
	if !ok {
		return
	}
	name, ok := s.person(w, r, d.book)
	if !ok {
		return
	}
	text, err := calendar.Text(d.plan, name, s.house.Now())
	if err != nil {
		s.missing(w, r, d.book, sentence(err))
		return
	}
	w.Header().Set("Content-Type", calendar.ContentType)
	w.Header().Set("Content-Disposition", `attachment; filename="day.ics"`)
	w.Header().Set("Cache-Control", "no-store")
	w.Write(text)
}

// dayPage is all that templates/day.html may show.
type dayPage struct {
	runHead
	Links     []link
	Retimed   bool
	AsPlanned bool   // it should have been timed again, and was not
	Since     string // the time at which it was timed again
	Because   []string
	Moves     []moveView
	Next      nextView
	Day       dayView
	Change    changeForm
	Open      []openingRow // packs that are to be opened and tasted by this day
}

// link is an address with its name.
type link struct{ Name, URL string }

func (s *server) showDay(w http.ResponseWriter, r *http.Request, d runDay, head runHead) {
	status := http.StatusOK
	if d.change.Wrong {
		status = http.StatusUnprocessableEntity
	}
	v := viewDayPage(r, d, head)
	if day := record.Day(d.plan.Day); day >= s.stockDay() {
		v.Open = s.openings(r, d.book, day)
	}
	dayTemplate.show(w, status, v)
}

func viewDayPage(r *http.Request, d runDay, head runHead) dayPage {
	query := r.URL.Query()
	path, rest := runPath(d.name), queryOf(query)
	codes := draw.NewCodes(d.plan.Dishes)
	head.Notice = "" // said below, with what moved
	v := dayPage{runHead: head, Links: dayLinks(path, rest), Change: d.change, Retimed: d.retimed, Next: viewNext(d, path, rest), Day: viewDay(d.plan, codes, pictures{path, rest})}
	for _, name := range roster.Names(d.plan.Timetable) {
		v.Links = append(v.Links, link{"Calendar of " + name, path + "/day.ics" + with(query, "person", name)})
	}
	if d.retimed {
		v.Since, v.Because, v.AsPlanned, v.Moves = d.now.String(), d.because, d.asPlanned, viewMoves(d.plan, readerOf(d.book.Kitchen, r))
	}
	return v
}

// sheetPage is all that templates/sheet.html may show: the day for the wall, to print across.
type sheetPage struct {
	runHead
	Day   string          // address of the page of the day
	Whole []template.HTML // drawings of the whole day, one for each page of paper
	Next  nextView
	Facts dayFacts
}

func (s *server) showSheet(w http.ResponseWriter, r *http.Request, d runDay, head runHead) {
	path, rest := runPath(d.name), queryOf(r.URL.Query())
	v := sheetPage{runHead: head, Day: path + "/day" + rest, Whole: drawings(draw.DayPages(d.plan), "w"), Next: viewNext(d, path, rest), Facts: viewFacts(d.plan, draw.NewCodes(d.plan.Dishes))}
	v.Facts.Key, v.Facts.Signs = nil, nil // they stand in the drawing
	sheetTemplate.show(w, http.StatusOK, v)
}

// queryOf is a query as it stands in an address, with its question mark.
func queryOf(query url.Values) string {
	if len(query) == 0 {
		return ""
	}
	return "?" + query.Encode()
}

// with is a query with one more thing in it, or without it when it is empty.
func with(query url.Values, key, value string) string {
	q := maps.Clone(query)
	if q.Set(key, value); value == "" {
		q.Del(key)
	}
	return queryOf(q)
}
