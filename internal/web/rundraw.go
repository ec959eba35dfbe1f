package web

import (
	"net/http"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/plan"
)

// planFor makes the plan that a request for a drawing asks for; it has answered when it cannot.
func (s *server) planFor(w http.ResponseWriter, r *http.Request) (p plan.Plan, a asked, ok bool) {
	a, err := s.ask(r, r.PathValue("name"))
	switch {
	case err != nil:
		s.missing(w, r, a.book, missingRun(err))
	case a.status != http.StatusOK:
		http.Error(w, refuse(a).Error, a.status)
	default:
		return s.house.Plan(r.Context(), a.book, a.run), a, true
	}
	return p, a, false
}

// showTimeline answers with the day as one drawing.
func (s *server) showTimeline(w http.ResponseWriter, r *http.Request) {
	if p, _, ok := s.planFor(w, r); ok {
		writeSVG(w, draw.Stack("The day of "+p.Run, "Who does what when, and on what.", 24, draw.Timeline(p.Timetable, draw.NewCodes(p.Dishes), draw.Everyone)), look{})
	}
}

// showMasses answers with a drawing of the masses of one dish, such as masses/soup.svg.
func (s *server) showMasses(w http.ResponseWriter, r *http.Request) {
	p, a, ok := s.planFor(w, r)
	if !ok {
		return
	}
	for _, d := range p.Dishes {
		if d.ID+".svg" == r.PathValue("dish") {
			writeSVG(w, draw.Masses(d, draw.NewCodes(p.Dishes), readerOf(a.book.Kitchen, r).units), look{})
			return
		}
	}
	s.missing(w, r, a.book, "The run has no dish "+strings.TrimSuffix(r.PathValue("dish"), ".svg")+".")
}
