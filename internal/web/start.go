package web

import (
	"cmp"
	"context"
	"errors"
	"net/http"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Addresses of the first start.
const (
	startPath      = "/start"
	startFilesPath = "/start/files"
	dishFirstPath  = "/dish/first" // leads through the first dish of a kitchen
	demoDayPath    = "/tutorial"   // leads through a day of the demo
)

// beginHouse is a house in which a kitchen can begin while it is served; *app.App is one.
type beginHouse interface {
	MayBegin() bool
	Demo() bool
	InRecords() bool
	Begin(ctx context.Context, id record.ID, by app.Author, ours bool, files map[string]string) error
	BeginDemo(ctx context.Context, id record.ID, by app.Author, ours bool) error
	CheckFiles(ctx context.Context, files map[string]string) (finding.List, error)
	Restore(ctx context.Context, by app.Author, s app.Sent) (record.Head, error)
}

// startRoutes are the ways into a kitchen and into a run.
func (s *server) startRoutes(mux *http.ServeMux) {
	u := newUploads()
	mux.HandleFunc("GET "+planPath, s.planRun)
	mux.HandleFunc("POST /run/{name}/keep", s.changeRun)
	mux.HandleFunc("GET "+startPath, s.showStart)
	mux.HandleFunc("POST "+startPath, s.entering(s.begin))
	mux.HandleFunc("POST "+startFilesPath, func(w http.ResponseWriter, r *http.Request) { s.beginFromFiles(w, r, u) })
}

// startPage is all that templates/start.html may show: the ways to begin.
type startPage struct {
	shell
	Own      string // the kitchen that has begun, where it is one of one's own
	OwnAt    string // where its book is
	Demo     bool   // the book in use is the demo's
	Kept     bool   // it is in the records
	None     bool   // no records are kept
	Passing  bool   // what is entered is thrown away when the program stops
	May      bool   // a kitchen can begin here
	Happened string // how many entries there are
	Problem  string
	Ask      startAsk
	Check    *startCheck // what was sent, looked at
}

// startAsk are the forms of the page with what was typed.
type startAsk struct {
	Demo, Files, Own startSender
	Ours             bool // the box for entries that are there already is ticked
	Try              bool // the box for records that are thrown away is ticked
	Fields           []field
}

// startSender is who sends a form.
type startSender struct {
	Entry string // number of the form
	Who   bool   // who acts is not known yet
	Value string // as typed
}

// Fields of the forms.
const (
	wayKey  = "way"
	oursKey = "ours"
	tryKey  = "try"
	wayDemo = "demo"
	wayOwn  = "own"
)

// startFields ask for the kitchen.
func startFields(r *http.Request) []field {
	at := func(key string) string { return tidy(r.PostFormValue(key)) }
	units := cmp.Or(at("units"), unit.US.String())
	return []field{
		{Key: "kitchen", Label: "Name of the kitchen", Hint: "as it stands on labels and prints", Value: at("kitchen")},
		{Key: "place", Label: "Place", Hint: "town and state, for labels; may be empty", Value: at("place")},
		{Key: "units", Label: "Units", Hint: "how figures are shown first; both are read", Value: units, Options: []option{{unit.US.String(), "pounds, quarts and °F", units == unit.US.String()}, {unit.Metric.String(), "kilograms, litres and °C", units == unit.Metric.String()}}},
		{Key: "currency", Label: "Sign of the money", Hint: "such as $ or €", Value: cmp.Or(at("currency"), "$")},
	}
}

func (s *server) startSender(r *http.Request) startSender {
	return startSender{Entry: newEntryID(), Who: s.actsHere(r) == "", Value: tidy(r.PostFormValue(whoField))}
}

// startOf is the page as things stand.
func (s *server) startOf(r *http.Request) startPage {
	book, _ := s.house.Book()
	v := startPage{shell: s.inShell(r, book.Kitchen, "Begin", "start"), None: s.records == nil, Passing: s.passing, Ask: startAsk{Demo: s.startSender(r), Files: s.startSender(r), Own: s.startSender(r), Ours: r.PostFormValue(oursKey) != "", Try: r.PostFormValue(tryKey) != "", Fields: startFields(r)}}
	house, can := s.house.(beginHouse)
	if !can {
		return v
	}
	v.Demo, v.Kept, v.May = house.Demo(), house.InRecords(), s.records != nil && house.MayBegin()
	if !v.Demo {
		v.Own, v.OwnAt = cmp.Or(book.Kitchen.Name, "Kitchen"), "in a folder, which these pages do not write: kettlefrost book import puts it into the records"
		if v.Kept {
			v.OwnAt = "in the records"
		}
	}
	if v.May {
		if n, err := s.records.Happened(r.Context()); err != nil {
			v.Problem = sentence(err)
		} else if n > 0 {
			v.Happened = times(n, "entry", "entries")
		}
	}
	return v
}

func (s *server) showStart(w http.ResponseWriter, r *http.Request) {
	startTemplate.show(w, http.StatusOK, s.startOf(r))
}

// begin begins with the demo, or with an empty kitchen.
func (s *server) begin(w http.ResponseWriter, r *http.Request) {
	house, can := s.house.(beginHouse)
	if !can {
		s.refuse(w, r, http.StatusConflict, "No kitchen can begin here.")
		return
	}
	v := s.startOf(r)
	demo := r.PostFormValue(wayKey) == wayDemo
	k := kitchen.Kitchen{}
	if !demo {
		k = readKitchen(v.Ask.Fields)
	}
	if wrong(v.Ask.Fields) && !demo {
		startTemplate.show(w, http.StatusUnprocessableEntity, v)
		return
	}
	if v.Passing && !demo && !v.Ask.Try {
		v.Problem = passingProblem
		startTemplate.show(w, http.StatusUnprocessableEntity, v)
		return
	}
	by, ok := s.sender(w, r)
	if !ok {
		return
	}
	author := app.Author{Who: by.Who, Device: by.Device, At: by.At}
	to, err := "/", error(nil)
	if demo {
		to, err = demoDayPath, house.BeginDemo(r.Context(), by.ID, author, v.Ask.Ours)
	} else {
		var files map[string]string
		if files, err = app.EmptyBook(k); err == nil {
			to, err = dishFirstPath, house.Begin(r.Context(), by.ID, author, v.Ask.Ours, files)
		}
	}
	if err != nil {
		s.beginAgain(w, r, v, err)
		return
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
}

// passingProblem asks for the tick that says that somebody knows.
const passingProblem = "What is entered here is thrown away when the program stops. Start it with a file for the records, as it says below, or tick that you only want to try."

// readKitchen reads the fields, and puts what is wrong beside each.
func readKitchen(fields []field) kitchen.Kitchen {
	k := kitchen.Kitchen{Name: fields[0].Value, Place: fields[1].Value, Currency: fields[3].Value}
	if k.Name == "" {
		fields[0].Problem = "Give the kitchen a name."
	}
	units, err := unit.ParseSystem(fields[2].Value)
	if err != nil {
		fields[2].Problem = "Choose one of the two."
	}
	if k.Currency == "" || len([]rune(k.Currency)) > 4 || strings.ContainsAny(k.Currency, "0123456789") {
		fields[3].Problem = "Write the sign or letters that stand before an amount, such as $, € or CHF."
	}
	k.Units = units
	return k
}

// beginAgain shows the page again with what kept a kitchen from beginning.
func (s *server) beginAgain(w http.ResponseWriter, r *http.Request, v startPage, err error) {
	status := http.StatusUnprocessableEntity
	begun, mixed, stops, denied := (*app.BegunError)(nil), (*app.MixedError)(nil), (*app.StopsError)(nil), (*people.DeniedError)(nil)
	switch {
	case errors.As(err, &begun):
		status, v.Problem = http.StatusConflict, sentence(err)
	case errors.As(err, &mixed):
		status, v.Problem = http.StatusConflict, sentence(err)+" Entries are never taken out: begin with a new file for the records, or tick that they are this kitchen’s own."
	case errors.As(err, &stops):
		v.Problem = "There is something to mend before this can be used. Nothing was taken."
	case errors.As(err, &denied):
		status, v.Problem = http.StatusForbidden, sentence(err)
	default:
		_, v.Problem = trouble(err)
	}
	startTemplate.show(w, status, v)
}

var startTemplate = parse[startPage]("start")

// mayBegin says whether a kitchen can begin here.
func (s *server) mayBegin() bool {
	house, can := s.house.(beginHouse)
	return can && s.records != nil && house.MayBegin()
}

// isDemo says whether the book in use is that of the demo kitchen.
func (s *server) isDemo() bool {
	house, can := s.house.(interface{ Demo() bool })
	return can && house.Demo()
}
