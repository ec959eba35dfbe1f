package web

import (
	"net/http"
	"net/url"
	"slices"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/roster"
)

// nextPage is all that templates/next.html may show.
type nextPage struct {
	runHead
	Action string
	Kept   []kept
	Now    field
	People []link // the same page of one person
	All    string // the same page of everybody, when it is of one
	Next   nextView
}

// showNext is the page that hangs on the wall: what everybody does now and next, in large type. Of a run that is not on, it starts
// where the run does.
func (s *server) showNext(w http.ResponseWriter, r *http.Request, d runDay, head runHead) {
	name, ok := s.person(w, r, d.book)
	if !ok {
		return
	}
	query := r.URL.Query()
	path := runPath(d.name)
	v := nextPage{runHead: head, Action: path + "/next", Kept: keep(query, "now"), Now: nowField(query)}
	if d.now == nil && len(d.plan.Timetable.Tasks) > 0 {
		d.now = &d.plan.Timetable.Start
	}
	if d.ticking && !d.retimed {
		v.Refresh = refreshS
	}
	v.Next = viewNext(d, path, queryOf(query))
	v.only(d.plan, path, query, name)
	status := http.StatusOK
	if v.Now.Problem != "" || d.change.Wrong {
		status = http.StatusUnprocessableEntity
	}
	nextTemplate.show(w, status, v)
}

// only leaves one person on the page, if one is named, and links to the same page of the others.
func (v *nextPage) only(p plan.Plan, path string, query url.Values, person string) {
	for _, name := range roster.Names(p.Timetable) {
		v.People = append(v.People, link{name, path + "/next" + with(query, "person", name)})
	}
	if person == "" {
		return
	}
	v.All = path + "/next" + with(query, "person", "")
	v.Next.People = slices.DeleteFunc(v.Next.People, func(o outlookView) bool { return o.Name != person })
}
