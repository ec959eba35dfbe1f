package web

import (
	"errors"
	"net/http"
	"net/url"
	"slices"

	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/heatcase/heatshow"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// heatPage is all that templates/heat.html may show.
type heatPage struct {
	shell
	Form   heatForm
	Answer *heatView // nil when the question cannot be answered
	JSON   string
	SVG    string
}

const heatPath = "/heat"

// showHeat answers one question about heat. The whole question is in the address, so that it can be kept and linked.
func (s *server) showHeat(w http.ResponseWriter, r *http.Request) {
	book, found := s.house.Book()
	query := r.URL.Query()
	rd := readerOf(book.Kitchen, r)
	made := s.madeFoods(book, found)
	q := askHeat(query, made, rd.units)
	answer, ok := q.answer()
	own := q.query()
	byScript := r.Header.Get("HX-Request") != ""
	moving := byScript && r.Header.Get("HX-Source") == slideSource
	switch {
	case moving:
		w.Header().Set("HX-Replace-Url", "false") // browsers allow only so many a second; the end of the drag is kept
	case byScript && ok:
		w.Header().Set("HX-Replace-Url", heatPath+"?"+own.Encode())
	case !byScript && ok && (query.Has(wasKey) || query.Has(ofKey)): // a form sent without script, or a food named: to the whole address
		http.Redirect(w, r, heatPath+"?"+own.Encode(), http.StatusSeeOther)
		return
	}
	p := heatPage{shell: s.inShell(r, book.Kitchen, "Ask about heat", "heat"), Form: q.form(s.house.Foods(), made)}
	p.Form.Dial.Moving = moving
	if !ok {
		heatTemplate.show(w, http.StatusUnprocessableEntity, p)
		return
	}
	v := viewHeat(answer, rd)
	p.Answer = &v
	p.JSON, p.SVG = heatPath+".json?"+own.Encode(), heatPath+".svg?"+own.Encode()
	heatTemplate.show(w, http.StatusOK, p)
}

// answer computes the question; without one, the problems say why.
func (q *heatQuestion) answer() (heatcase.Answer, bool) {
	if len(q.problems) > 0 {
		return heatcase.Answer{}, false
	}
	a, err := q.asked.Answer()
	if bad, ok := errors.AsType[*heatcase.CaseError](err); ok {
		for _, f := range bad.Found {
			q.problem(f.Path, f.Message, f.Fix)
		}
	} else if err != nil {
		q.problem("", err.Error(), "")
	}
	return a, err == nil
}

// showHeatJSON answers with the same answer as data.
func (s *server) showHeatJSON(w http.ResponseWriter, r *http.Request) {
	q, a, ok := s.heat(r)
	if !ok {
		no := refusal{Error: noHeat}
		for _, p := range q.problems {
			no.Fields = append(no.Fields, badField{Field: p.key, Text: q.texts[p.key], Problem: p.text})
		}
		writeJSON(w, http.StatusUnprocessableEntity, no)
		return
	}
	writeJSON(w, http.StatusOK, a)
}

// showHeatSVG answers with the curves alone.
func (s *server) showHeatSVG(w http.ResponseWriter, r *http.Request) {
	_, a, ok := s.heat(r)
	if !ok {
		http.Error(w, noHeat, http.StatusUnprocessableEntity)
		return
	}
	writeSVG(w, heatshow.Curves(a).Picture(), look{})
}

const noHeat = "the question cannot be answered as it stands"

func (s *server) heat(r *http.Request) (heatQuestion, heatcase.Answer, bool) {
	book, found := s.house.Book()
	query := r.URL.Query()
	var made []plan.MadeFood
	if query.Has(ofKey) {
		made = s.madeFoods(book, found)
	}
	q := askHeat(query, made, readerOf(book.Kitchen, r).units)
	a, ok := q.answer()
	return q, a, ok
}

// askHeat reads a question that may name a food of the book.
func askHeat(query url.Values, made []plan.MadeFood, units unit.System) heatQuestion {
	filled, wrong := fillFood(query, made, units)
	q := readHeat(filled, units)
	if wrong != nil {
		q.problems = append(slices.DeleteFunc(q.problems, func(p heatProblem) bool { return p.key == wrong.key }), *wrong)
	}
	return q
}
