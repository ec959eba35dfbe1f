package web

import (
	"errors"
	"fmt"
	"net/http"

	"kettlefrost/internal/app"
)

// Fields of a review.
const (
	reviewerKey  = "reviewer"
	qualifiedKey = "qualified"
	outcomeKey   = "outcome"
	authorityKey = "authority"
)

// reviewAsked is the form for a review of a version.
func (a *hazardAsked) reviewAsked() editAsked {
	x := a.version
	e := editAsked{heading: fmt.Sprintf("Review of version %d", x.Number)}
	e.now = []string{fmt.Sprintf("Entered by %s.", x.Who)}
	for _, o := range x.Doc.Plan.Open {
		word := "▲ to settle: "
		if o.Stop {
			word = "■ STOP, cannot be accepted: "
		}
		e.now = append(e.now, word+o.Where+": "+o.Says)
	}
	e.inputs = []editInput{lineInput(reviewerKey, "Who reviewed it", "the name of the qualified person, not of the one who wrote it", ""), lineInput(qualifiedKey, "Why they are qualified", "training with its date, licence", ""),
		choiceInput(outcomeKey, "What they say", "", "", option{Says: "choose"}, option{Value: "accepted", Says: "accepted: the kitchen may work by it"}, option{Value: "returned", Says: "sent back: to be changed first"}),
		lineInput(authorityKey, "Reference of the authority's approval", "of the plan or the variance, where there is one", ""), areaInput(whyKey, "What they found", "needed when it is sent back")}
	return e
}

func (s *server) showHazardReview(w http.ResponseWriter, r *http.Request) {
	a := s.hazardOf(w, r)
	if a == nil {
		return
	}
	if a.version == nil {
		s.missing(w, r, a.book, "A review is of a version that was entered: enter one first.")
		return
	}
	s.hazardReviewPage(w, r, http.StatusOK, a, a.reviewAsked(), "")
}

func (s *server) hazardReviewPage(w http.ResponseWriter, r *http.Request, status int, a *hazardAsked, e editAsked, problem string) {
	v := hazardEditPage{shell: s.inShell(r, a.book.Kitchen, e.heading, "hazards"), Name: a.Name, Back: hazardURL(hazardPlanPath, string(a.Pack), a.version.Number), Heading: e.heading, Now: e.now, Problem: problem,
		Action: hazardReviewPath, Entry: newEntryID(), Kept: []kept{{packKey, string(a.Pack)}, {versionKey, fmt.Sprint(a.version.Number)}}, Inputs: e.inputs, Button: "Enter the review",
		Cares: []string{"The program does not know whether a person is qualified, and what it prints is no approval: your authority decides.", "Packing cooked food under vacuum usually needs a plan that the authority has approved, or a variance."}}
	hazardEditTemplate.show(w, status, v)
}

func (s *server) enterHazardReview(w http.ResponseWriter, r *http.Request) {
	if r.ParseForm() != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	a := s.hazardOf(w, r)
	if a == nil {
		return
	}
	if a.version == nil {
		s.refuse(w, r, http.StatusUnprocessableEntity, "It is not said which version was reviewed.")
		return
	}
	e := a.reviewAsked()
	for i := range e.inputs {
		e.inputs[i].again(r.PostForm)
	}
	get := func(key string) string { return tidy(r.PostFormValue(key)) }
	outcome := get(outcomeKey)
	if outcome != "accepted" && outcome != "returned" {
		s.hazardReviewPage(w, r, http.StatusUnprocessableEntity, a, e, "Choose whether it is accepted or sent back.")
		return
	}
	by, ok := s.sender(w, r)
	if !ok {
		return
	}
	err := s.records.ReviewPlan(r.Context(), by, app.PlanReview{Product: a.Product, Version: a.version.Number, Reviewer: get(reviewerKey), Qualified: get(qualifiedKey), Accepted: outcome == "accepted", Authority: get(authorityKey), Why: tidyLines(r.PostFormValue(whyKey))})
	plan := (*app.PlanError)(nil)
	switch {
	case errors.As(err, &plan):
		s.hazardReviewPage(w, r, http.StatusUnprocessableEntity, a, e, sentence(errors.New(plan.Problem))+" "+sentence(errors.New(plan.Fix)))
	case err != nil:
		status, text := trouble(err)
		s.refuse(w, r, status, text)
	default:
		http.Redirect(w, r, withDid(hazardURL(hazardPlanPath, string(a.Pack), 0), by.ID.String()+"-1"), http.StatusSeeOther)
	}
}
