package web

import (
	"cmp"
	"fmt"
	"maps"
	"net/http"
	"slices"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/critical"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// readForm is one temperature that somebody typed, with the time at which it was read.
type readForm struct {
	Entry, Point    string
	Temp, Where, At field
	Instrument      field
	Problem         string
	Sure            bool // what is odd about it was asked, and it is sent once more
	Unit            string
}

// probeForm is which probe is in the food, and from when to when.
type probeForm struct {
	Entry, Point string
	Probe, Where field
	From, Until  field
	None         bool // the book has no probes and none has sent anything
}

// watchedRow is a probe that is, or was, in the food.
type watchedRow struct {
	Name, Where, From, Until string
	In                       bool
	Entry, ID                string // to say that it is out
	Now                      string
	LogURL                   string
}

func (s *server) readFormOf(v critical.Verdict, book kitchen.Book, rd reader) *readForm {
	f := &readForm{Entry: newEntryID(), Point: v.Point, Unit: map[bool]string{true: "°F", false: "°C"}[rd.units == unit.US]}
	f.Temp = field{Key: "temp", Label: "What it reads", Hint: "such as 68 or 20 °C; a bare number is in " + f.Unit}
	f.At = field{Key: "at", Label: "When", Hint: "now, or as it stands on paper", Value: s.formClock(s.house.Now())}
	f.Where = field{Key: "where", Label: "Where in the food", Hint: "the warmest spot: the middle of the deepest pan", Value: lastWhere(v)}
	if v.What == critical.Cooking {
		f.Where.Hint = "the coldest spot: the middle of the largest piece"
	}
	f.Instrument = field{Key: "instrument", Label: "Thermometer", Hint: "one of the book; its checks are looked at", Options: instruments(book, kitchen.Handheld)}
	return f
}

func lastWhere(v critical.Verdict) string {
	for _, l := range v.Logs {
		return strings.TrimPrefix(l.Where, "probe ")
	}
	return ""
}

// instruments are thermometers of the book of a kind to choose from, with none first.
func instruments(book kitchen.Book, kinds ...kitchen.ThermometerKind) []option {
	all := []option{{Value: "", Says: "nobody wrote it down"}}
	for _, id := range slices.Sorted(maps.Keys(book.Thermometers)) {
		t := book.Thermometers[id]
		if slices.Contains(kinds, cmp.Or(t.Kind, kitchen.Handheld)) {
			all = append(all, option{Value: string(id), Says: t.Name + " (" + string(id) + ")"})
		}
	}
	return all
}

// enterReading enters a typed temperature of a load at its time.
func (s *server) enterReading(w http.ResponseWriter, r *http.Request) {
	v, run, ok := s.pointOf(w, r, r.PostFormValue("point"))
	if !ok {
		return
	}
	if v.Task == "" {
		s.refuse(w, r, http.StatusUnprocessableEntity, "That is no record of temperatures.")
		return
	}
	book, _ := s.house.Book()
	rd := readerOf(book.Kitchen, r)
	f := s.readFormOf(v, book, rd)
	f.Entry = r.PostFormValue(entryField)
	for _, x := range []*field{&f.Temp, &f.At, &f.Where, &f.Instrument} {
		x.Value = strings.TrimSpace(r.PostFormValue(x.Key))
		choose(x)
	}
	temp, err := unit.ParseTemp(inUsual(f.Temp.Value, f.Unit))
	switch {
	case f.Temp.Value == "":
		f.Temp.Problem = "Write what the thermometer reads."
	case err != nil:
		f.Temp.Problem = sentence(err)
	case (temp.C() < -40 || temp.C() > 130) && r.PostFormValue("sure") == "":
		f.Temp.Problem, f.Sure = "That is "+degrees(temp.C(), rd)+". Is it right? Then send it once more.", true
	}
	at, known := s.readTime(f.At.Value)
	switch {
	case !known:
		f.At.Problem = "Write the time, such as 14:05."
	case at.After(s.house.Now().Add(2 * time.Minute)):
		f.At.Problem = "That is in the future."
	}
	if f.Temp.Problem != "" || f.At.Problem != "" {
		s.writeSafetyStage(w, r, http.StatusUnprocessableEntity, v, run, f, nil)
		return
	}
	s.enterThen(w, r, stageURL(v, r.URL.Query()), at, record.Measured{Run: v.Run, Dish: v.Dish, Task: v.Task, Point: tidy(f.Where.Value), Temp: temp, Instrument: f.Instrument.Value})
}

// inUnit gives a bare number the kitchen's unit.
func inUsual(text, unit string) string {
	if text != "" && strings.Trim(text, "-+.,0123456789") == "" {
		return text + " " + unit
	}
	return text
}

func choose(f *field) {
	for i := range f.Options {
		f.Options[i].Here = f.Options[i].Value == f.Value
	}
}

// enterThen enters something as of an earlier time.
func (s *server) enterThen(w http.ResponseWriter, r *http.Request, back string, at time.Time, body record.Body) {
	by, ok := s.sender(w, r)
	if !ok {
		return
	}
	by.Body = body
	if at.Before(by.At) {
		by.At = at
	}
	by.ID = app.PartID(by.ID, 0)
	if _, err := s.records.Enter(r.Context(), by); err != nil {
		status, text := trouble(err)
		s.refuse(w, r, status, text)
		return
	}
	http.Redirect(w, r, withDid(back, fmt.Sprintf("%s-1", r.PostFormValue(entryField))), http.StatusSeeOther)
}

func (s *server) probeFormOf(r *http.Request, v critical.Verdict, book kitchen.Book) *probeForm {
	f := &probeForm{Entry: newEntryID(), Point: v.Point}
	f.Probe = field{Key: "probe", Label: "Which probe", Hint: "one that sends by itself, or a logger that is read out later", Options: instruments(book, kitchen.Probe, kitchen.Logger)[1:]}
	f.Probe.Options = slices.DeleteFunc(f.Probe.Options, func(o option) bool { return book.Thermometers[kitchen.ThermometerID(o.Value)].At != "" })
	if list, err := s.records.ProbeList(r.Context(), book, s.house.Now()); err == nil {
		for _, p := range list.Probes {
			if !slices.ContainsFunc(f.Probe.Options, func(o option) bool { return o.Value == p.Probe }) && book.Thermometers[kitchen.ThermometerID(p.Probe)].At == "" {
				f.Probe.Options = append(f.Probe.Options, option{Value: p.Probe, Says: p.Probe})
			}
		}
	}
	f.None = len(f.Probe.Options) == 0
	f.Where = field{Key: "where", Label: "Where in the food", Hint: "the middle of the deepest pan"}
	f.From = field{Key: "from", Label: "In since", Hint: "now, or when it went in", Value: s.formClock(s.house.Now())}
	f.Until = field{Key: "until", Label: "Out since", Hint: "leave it empty while it is in"}
	return f
}

// putProbe enters which probe is in the food, or that it was taken out.
func (s *server) putProbe(w http.ResponseWriter, r *http.Request) {
	v, run, ok := s.pointOf(w, r, r.PostFormValue("point"))
	if !ok {
		return
	}
	if v.Task == "" {
		s.refuse(w, r, http.StatusUnprocessableEntity, "That is no record of temperatures.")
		return
	}
	if id := r.PostFormValue("out"); id != "" {
		s.takeProbeOut(w, r, v, id)
		return
	}
	book, _ := s.house.Book()
	f := s.probeFormOf(r, v, book)
	f.Entry = r.PostFormValue(entryField)
	for _, x := range []*field{&f.Probe, &f.Where, &f.From, &f.Until} {
		x.Value = strings.TrimSpace(r.PostFormValue(x.Key))
		choose(x)
	}
	from, known := s.readTime(f.From.Value)
	until, ended := s.readTime(f.Until.Value)
	switch {
	case f.Probe.Value == "":
		f.Probe.Problem = "Say which probe it is."
	case !known:
		f.From.Problem = "Write when it went in, such as 14:05."
	case from.After(s.house.Now().Add(2 * time.Minute)):
		f.From.Problem = "That is in the future."
	case f.Until.Value != "" && (!ended || until.Before(from)):
		f.Until.Problem = "Write when it came out, after it went in; or leave it empty."
	}
	if f.Probe.Problem+f.From.Problem+f.Until.Problem != "" {
		s.writeSafetyStage(w, r, http.StatusUnprocessableEntity, v, run, nil, f)
		return
	}
	b := record.Watched{Probe: f.Probe.Value, Run: v.Run, Dish: v.Dish, Task: v.Task, Stage: stageFor(v), Point: tidy(f.Where.Value), From: record.Instant(from.UnixMilli())}
	if ended {
		b.Until = record.Instant(until.UnixMilli())
	}
	s.enterThen(w, r, stageURL(v, r.URL.Query()), from, b)
}

func stageFor(v critical.Verdict) record.Stage {
	if v.What == critical.Cooking {
		return record.StageCooking
	}
	return record.StageCooling
}

// takeProbeOut corrects the entry that says where a probe is: it is out since now, or since a time.
func (s *server) takeProbeOut(w http.ResponseWriter, r *http.Request, v critical.Verdict, id string) {
	entry, err := record.ParseID(id)
	e, there, err2 := s.records.Entry(r.Context(), entry)
	if err = cmp.Or(err, err2); err != nil || !there {
		s.refuse(w, r, http.StatusUnprocessableEntity, "Nothing says that this probe is in the food: load the page again.")
		return
	}
	body, err := record.Decode(e.Kind, e.Body)
	b, watched := body.(record.Watched)
	at, known := s.readTime(cmp.Or(r.PostFormValue("at"), s.formClock(s.house.Now())))
	if err != nil || !watched || !known || record.Instant(at.UnixMilli()) < b.From {
		s.refuse(w, r, http.StatusUnprocessableEntity, "Write when it came out, after it went in, such as 14:05.")
		return
	}
	b.Until = record.Instant(at.UnixMilli())
	s.correct(w, r, stageURL(v, r.URL.Query()), entry, b)
}

// probesIn are the probes that are or were in the food of a record.
func (s *server) probesIn(r *http.Request, v critical.Verdict) []watchedRow {
	watches, err := s.records.WatchesOf(r.Context(), v)
	if err != nil {
		return nil
	}
	var rows []watchedRow
	for _, x := range watches {
		row := watchedRow{Name: x.Probe, Where: x.Point, From: s.nearText(x.From), In: x.Until == 0, Entry: newEntryID(), ID: x.Entry, Now: s.formClock(s.house.Now())}
		if x.Until != 0 {
			row.Until = s.nearText(x.Until)
		}
		day := time.UnixMilli(int64(x.From)).In(s.house.Now().Location()).Format(time.DateOnly)
		row.LogURL = coldURL("/logs/day", nil, "probe", x.Probe, "day", day)
		rows = append(rows, row)
	}
	return rows
}
