package web

import (
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strconv"

	"kettlefrost/internal/app"
	"kettlefrost/internal/haccp"
)

// hazardEditPage is all that templates/hazardedit.html may show: one change of a plan, or a review of it.
type hazardEditPage struct {
	shell
	Name    string
	Back    string
	Heading string
	Now     []string
	Problem string
	Action  string
	Entry   string
	Kept    []kept
	Inputs  []editInput
	Button  string
	Reset   *hazardEnter // takes what a person changed back; nil where nobody has
	Cares   []string
}

var hazardEditTemplate = parse[hazardEditPage]("hazardedit")

func (s *server) showHazardEdit(w http.ResponseWriter, r *http.Request) {
	a := s.hazardOf(w, r)
	if a == nil {
		return
	}
	a.doc = a.Standing.Today // a change is made to what the plan would be today
	e, ok := a.asked(haccp.EditKind(r.FormValue(doKey)), r.FormValue(atKey))
	if !ok {
		s.missing(w, r, a.book, "There is nothing of that kind in the plan to change.")
		return
	}
	s.hazardEditPage(w, r, http.StatusOK, a, e, "")
}

func (s *server) hazardEditPage(w http.ResponseWriter, r *http.Request, status int, a *hazardAsked, e editAsked, problem string) {
	what := []kept{{doKey, string(e.do)}, {atKey, e.at}}
	v := hazardEditPage{shell: s.inShell(r, a.book.Kitchen, e.heading, "hazards"), Name: a.Name, Back: hazardURL(hazardPlanPath, string(a.Pack), 0), Heading: e.heading, Now: e.now, Problem: problem, Action: hazardEditPath,
		Entry: newEntryID(), Kept: append(a.kept(), what...), Inputs: e.inputs, Button: fmt.Sprintf("Enter it as version %d", len(a.Versions)+1)}
	v.Cares = []string{"Every change is a new version, with who made it and when. What was accepted before stays in force until a qualified person accepts the new one."}
	if !e.has(noteKey) {
		note := areaInput(noteKey, "Note", "for the list of versions; may be left empty")
		note.again(r.Form)
		v.Inputs = append(slices.Clone(v.Inputs), note)
	}
	if a.changedBefore(e) {
		v.Reset = &hazardEnter{Action: hazardEditPath, Entry: newEntryID(), Says: "As drafted again", Kept: append(append(a.kept(), what...), kept{"reset", "yes"})}
	}
	hazardEditTemplate.show(w, status, v)
}

// changedBefore says whether a person has changed the same thing.
func (a *hazardAsked) changedBefore(e editAsked) bool {
	return slices.ContainsFunc(a.doc.Edits, func(x haccp.Edit) bool {
		return x.Do == e.do && x.At == e.at && x.Do != haccp.AddHazard && x.Do != haccp.AddTraining
	})
}

func (s *server) enterHazardEdit(w http.ResponseWriter, r *http.Request) {
	if r.ParseForm() != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	a := s.hazardOf(w, r)
	if a == nil {
		return
	}
	a.doc = a.Standing.Today
	e, ok := a.asked(haccp.EditKind(r.PostFormValue(doKey)), r.PostFormValue(atKey))
	if !ok && r.PostFormValue("reset") == "" {
		s.refuse(w, r, http.StatusUnprocessableEntity, "There is nothing of that kind in the plan to change.")
		return
	}
	change := app.PlanChange{Product: a.Product, From: fromVersion(r), Note: tidyLines(r.PostFormValue(noteKey))}
	if r.PostFormValue("reset") != "" {
		change.Back = []haccp.Edit{{Do: e.do, At: e.at}}
	} else {
		edit, read := e.read(r.PostForm, a.book.Kitchen.Units)
		if !read {
			s.hazardEditPage(w, r, http.StatusUnprocessableEntity, a, e, "")
			return
		}
		change.Edits = []haccp.Edit{edit}
	}
	s.writeHazardPlan(w, r, a, change, func(problem string) {
		s.hazardEditPage(w, r, http.StatusUnprocessableEntity, a, e, problem)
	})
}

func (s *server) enterHazardPlan(w http.ResponseWriter, r *http.Request) {
	if r.ParseForm() != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	if a := s.hazardOf(w, r); a != nil {
		change := app.PlanChange{Product: a.Product, From: fromVersion(r), Note: tidyLines(r.PostFormValue(noteKey))}
		s.writeHazardPlan(w, r, a, change, func(problem string) { s.refuse(w, r, http.StatusUnprocessableEntity, problem) })
	}
}

// fromVersion is the version that a form was shown for; one that says none fits no plan.
func fromVersion(r *http.Request) int {
	n, err := strconv.Atoi(r.PostFormValue(fromVersionKey))
	if err != nil {
		return -1
	}
	return n
}

// writeHazardPlan enters a version, and goes back to the plan.
func (s *server) writeHazardPlan(w http.ResponseWriter, r *http.Request, a *hazardAsked, change app.PlanChange, again func(problem string)) {
	by, ok := s.sender(w, r)
	if !ok {
		return
	}
	err := s.records.WritePlan(r.Context(), by, change)
	edit, plan := (*haccp.EditError)(nil), (*app.PlanError)(nil)
	switch {
	case errors.As(err, &edit):
		again(sentence(errors.New(edit.Problem)) + " " + sentence(errors.New(edit.Fix)))
	case errors.As(err, &plan):
		again(sentence(errors.New(plan.Problem)) + " " + sentence(errors.New(plan.Fix)))
	case err != nil:
		status, text := trouble(err)
		s.refuse(w, r, status, text)
	default:
		http.Redirect(w, r, withDid(hazardURL(hazardPlanPath, string(a.Pack), 0), by.ID.String()+"-1"), http.StatusSeeOther)
	}
}
