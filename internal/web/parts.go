package web

import (
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strings"
)

// part is one page of a run: its key is the end of the address, its name stands in the way between the parts, its title on the page.
type part struct{ key, name, title string }

// parts are the pages of a run in the order in which a cook needs them. The first has no key.
var parts = []part{{"", "Glance", "At a glance"}, {"findings", "Findings", "Findings"}, {"buy", "Buy", "Buy"}, {"day", "Day", "The day"}, {"next", "Now", "Now and next"}, {"cook", "Cook", "Cook"},
	{"chill", "Chill", "Chill"}, {"seal", "Seal", "Seal"}, {"freeze", "Freeze", "Freeze"}, {"cards", "Cards", "Heating cards"}, {"labels", "Labels", "Label texts"}, {"money", "Money", "Money"}, {"papers", "Print", "Sheets to print"}}

// runHead is what stands around every page of a run.
type runHead struct {
	shell
	Part          string // the title of the page
	Run           string // the name of the run
	Date          string
	Parts         []partLink
	Before, After link
	Notice        string // the day is not as planned
	NoticeAt      string // address of the page that says more
}

// partLink leads to a page of the run.
type partLink struct {
	link
	Here bool
}

// across is the query as the other pages of a run get it: all that was asked and weighed, for everybody.
func across(query url.Values) url.Values {
	q := maps.Clone(query)
	q.Del("person")
	q.Del("kept") // what was done just now
	return q
}

// partURL is the address of a page of a run.
func partURL(path, key string, query url.Values) string {
	if key != "" {
		path += "/" + key
	}
	return path + queryOf(across(query))
}

// headOf is the head of the page with that key.
func (s *server) headOf(r *http.Request, a asked, key, date string) runHead {
	query := r.URL.Query()
	path := runPath(a.name)
	here := slices.IndexFunc(parts, func(p part) bool { return p.key == key })
	v := runHead{shell: s.inShell(r, a.book.Kitchen, parts[here].title+": "+a.run.Name, "run"), Part: parts[here].title, Run: a.run.Name, Date: date}
	if v.Thing != nil {
		v.Thing.Name = a.run.Name
	}
	for i, p := range parts {
		l := link{p.name, partURL(path, p.key, query)}
		v.Parts = append(v.Parts, partLink{l, i == here})
		switch i {
		case here - 1:
			v.Before = l
		case here + 1:
			v.After = l
		}
	}
	return v
}

// tell says on every page of a run that its day is no longer as planned.
func (v *runHead) tell(d runDay, query url.Values) {
	v.NoticeAt = partURL(runPath(d.name), "day", query)
	switch {
	case d.change.Wrong:
		v.Notice = "What was written about the day cannot be used: this is as planned."
	case d.asPlanned:
		v.Notice = "The rest of the day could not be timed again: this is as planned."
	case d.retimed:
		v.Notice = "Timed again at " + d.now.String() + ": " + strings.Join(d.because, "; ") + "."
	default:
		v.NoticeAt = ""
	}
}

// partOf serves one page of a run. A run that cannot be planned gets the page that says why, with all that was typed.
func (s *server) partOf(key string, show func(http.ResponseWriter, *http.Request, runDay, runHead)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		a, err := s.ask(r, r.PathValue("name"))
		switch {
		case err != nil:
			s.missing(w, r, a.book, missingRun(err))
			return
		case a.status != http.StatusOK:
			glanceTemplate.show(w, a.status, s.viewGlance(r, a, nil, s.headOf(r, a, "", a.run.Day)))
			return
		}
		if !s.longPlan(w, r, a) {
			return
		}
		d := s.timed(r, a, s.house.Plan(r.Context(), a.book, a.run))
		if r.Context().Err() != nil {
			return // nobody waits for it any more
		}
		head := s.headOf(r, a, key, d.plan.Day)
		head.tell(d, r.URL.Query())
		show(w, r, d, head)
	}
}
