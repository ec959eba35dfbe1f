package web

import (
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

// runPage is all that templates/run.html may show.
type runPage struct {
	shell
	Units   []unitLink
	Name    string
	Day     string
	Note    string
	Fixed   []string
	Form    form
	Blocked findingsView // what is wrong with the book, when it cannot be planned with
	Plan    *planView    // nil when it cannot be made
	JSON    string
}

// form changes the targets of a run.
type form struct {
	Action string
	Units  string // kept when the form is sent; "" when the kitchen's own
	Fields []field
	Wrong  bool
}

func runPath(name string) string { return "/run/" + url.PathEscape(name) }

// noRun is what stands on the page of a run that is not in the book.
const noRun = "There is no run of that name in the book."

// asked is a run as the query asks for it.
type asked struct {
	name   string
	book   kitchen.Book
	found  finding.List
	run    kitchen.Request
	fields []field
	status int // what to answer with
}

// ask finds the run and reads its targets. A run that is not in the book is an error.
func (s *server) ask(r *http.Request, name string) (asked, error) {
	book, found := s.house.Book()
	a := asked{name: name, book: book, found: found, status: http.StatusOK}
	run, err := app.Request(book, name)
	if err != nil {
		return a, err
	}
	a.run, a.fields = retarget(book, run, r.URL.Query())
	if wrong(a.fields) || found.Worst() >= finding.Stop {
		a.status = http.StatusUnprocessableEntity
	}
	return a, nil
}

func (s *server) showRun(w http.ResponseWriter, r *http.Request) {
	if name, isJSON := strings.CutSuffix(r.PathValue("name"), ".json"); isJSON {
		s.showPlanJSON(w, r, name)
		return
	}
	a, err := s.ask(r, r.PathValue("name"))
	if err != nil {
		missing(w, a.book, noRun)
		return
	}
	var made *runDay
	if a.status == http.StatusOK {
		d := s.at(a, s.house.Plan(r.Context(), a.book, a.run), r.URL.Query())
		if r.Context().Err() != nil {
			return // nobody waits for it any more
		}
		made = &d
	}
	runTemplate.show(w, a.status, viewRun(r, a, made))
}

// viewRun is the page of a run, with its plan if there is one.
func viewRun(r *http.Request, a asked, made *runDay) runPage {
	query := r.URL.Query()
	rd := readerOf(a.book.Kitchen, query)
	v := runPage{shell: inShell(a.book.Kitchen, a.run.Name, ""), Units: unitLinks(runPath(a.name), query, rd.units), Name: a.run.Name, Day: a.run.Day, Note: a.book.Kitchen.Note, Fixed: fixed(a.book, a.run),
		Form: form{Action: runPath(a.name), Units: query.Get("units"), Fields: a.fields, Wrong: wrong(a.fields)}}
	if made != nil {
		v.add(*made, rd, query)
		return v
	}
	if a.found.Worst() >= finding.Stop {
		v.Blocked = viewFindings(a.found)
	}
	return v
}

// add puts the plan of a run on its page.
func (v *runPage) add(d runDay, rd reader, query url.Values) {
	path, rest := v.Form.Action, queryOf(query)
	p := d.plan
	p.Timetable.Now = d.now
	v.Plan = viewPlan(p, d.book, rd, pictures{path, rest})
	for i, dish := range p.Dishes {
		v.Plan.Dishes[i].Masses = path + "/masses/" + url.PathEscape(dish.ID) + ".svg" + rest
	}
	v.Plan.Cost.Money = path + "/money" + rest
	v.Plan.Fill.Table = path + "/seal" + rest
	v.Plan.Buy.List = path + "/buy" + rest
	v.Day, v.JSON = p.Day, path+".json"+rest
	v.Plan.UnderWay = underWay{Next: viewNext(d, path, rest), Links: dayLinks(path, rest)}
	_, v.Plan.UnderWay.Change = readChanges(d, query)
}
