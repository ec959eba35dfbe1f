package app

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/hazardplan"
	"kettlefrost/internal/hazards"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// HazardPlan is the plan of a pack beside the dish as the book has it today. It is to be kept: what is entered later does not change it.
type HazardPlan struct {
	Pack     kitchen.PackID
	Name     string
	Product  haccp.Product
	Asked    finding.List // what nobody has said of its ingredients
	Bad      string       // why nothing can be drafted; then Standing is empty
	Standing hazardplan.Standing
	Versions []hazardplan.Version
}

func followPlans(r *Records) *follower[*hazardplan.State] {
	return follow(r, fold[*hazardplan.State]{empty: func() *hazardplan.State { return &hazardplan.State{} }, take: (*hazardplan.State).Take, heeds: hazardplan.Heeds})
}

// HazardPlans are the plans of all packs of a book as of a time, in the order of their names, and what does not fit of the entries. Without
// records (nil) they are drafts.
func HazardPlans(ctx context.Context, r *Records, book kitchen.Book, foods *foodtable.Table, at record.Instant) (all []HazardPlan, found finding.List, err error) {
	state, found, err := r.plansNow(ctx)
	if err != nil {
		return nil, nil, err
	}
	for _, id := range slices.Sorted(maps.Keys(book.Packs)) {
		all = append(all, planOf(state, book, foods, id, at))
	}
	return all, found, nil
}

// HazardPlanOf is the plan of one pack; false when the book has no such pack.
func HazardPlanOf(ctx context.Context, r *Records, book kitchen.Book, foods *foodtable.Table, pack kitchen.PackID, at record.Instant) (HazardPlan, bool, error) {
	if _, known := book.Packs[pack]; !known {
		return HazardPlan{}, false, nil
	}
	state, _, err := r.plansNow(ctx)
	return planOf(state, book, foods, pack, at), true, err
}

// plansNow is a copy of what is entered of plans; without records there is nothing.
func (r *Records) plansNow(ctx context.Context) (state *hazardplan.State, found finding.List, err error) {
	state = &hazardplan.State{}
	if r == nil {
		return state, nil, nil
	}
	err = look(ctx, r, r.plans, func(s *hazardplan.State, misfits finding.List) error {
		state, found = s.Copy(), slices.Clone(misfits)
		return nil
	})
	return state, found, err
}

func planOf(state *hazardplan.State, book kitchen.Book, foods *foodtable.Table, id kitchen.PackID, at record.Instant) HazardPlan {
	x := HazardPlan{Pack: id, Name: book.Packs[id].Name, Versions: state.Versions(string(id))}
	x.Product, x.Asked = hazards.Of(book, foods, id)
	var err error
	if x.Standing, err = state.Stand(x.Product, at); err != nil {
		x.Bad = err.Error()
	}
	return x
}

// PlanError says why a version or a review of a hazard plan was not taken in.
type PlanError struct{ Problem, Fix string }

func (e *PlanError) Error() string { return "hazard plan: " + e.Problem + ": " + e.Fix }

// PlanChange is what somebody makes of a plan.
type PlanChange struct {
	Product haccp.Product
	From    int          // the version that they saw; 0 for the draft of the program
	Edits   []haccp.Edit // added, or in the place of earlier ones; who and when are filled in
	Back    []haccp.Edit // as drafted again: what is named by Do, At and What
	Note    string
}

// WritePlan enters a new version: the draft of today's dish with the edits of the version before, and these. Nothing is entered when one of them
// cannot be made, or somebody has entered a version meanwhile. Errors are *PlanError, *haccp.EditError, *haccp.ProductError and as of Enter.
func (r *Records) WritePlan(ctx context.Context, said Said, c PlanChange) error {
	r.planning.Lock() // no two versions follow on one
	defer r.planning.Unlock()
	if _, there, err := r.Taken(ctx, said.ID); there || err != nil {
		return err // sent twice
	}
	state, _, err := r.plansNow(ctx)
	if err != nil {
		return err
	}
	versions := state.Versions(c.Product.ID)
	if len(versions) != c.From {
		return &PlanError{fmt.Sprintf("version %d was entered while you wrote", len(versions)), "look at it, and make your change to that"}
	}
	var edits []haccp.Edit
	if c.From > 0 {
		edits = versions[c.From-1].Doc.Edits
	}
	for _, e := range c.Back {
		edits = haccp.Without(edits, e.Do, e.At, e.What)
	}
	for _, e := range c.Edits {
		e.By, e.AtMs = said.Who, said.At.UnixMilli()
		if err := haccp.Try(c.Product, edits, e); err != nil {
			return err
		}
		edits = haccp.Add(edits, e)
	}
	doc, err := haccp.Write(c.Product, edits)
	if err != nil {
		return err
	}
	said.Body = record.HazardPlan{Pack: c.Product.ID, Basis: doc.Plan.Basis, Text: record.Text(doc.Text()), Note: record.Text(c.Note)}
	_, err = r.Enter(ctx, said)
	return err
}

// PlanReview is the word of a qualified person on a version.
type PlanReview struct {
	Product             haccp.Product
	Version             int
	Reviewer, Qualified string
	Accepted            bool
	Authority, Why      string
}

// ReviewPlan enters a review. A version is only accepted while it is the last, the dish is as it was when it was written, and nothing in it says
// that it must not be made so. Errors are *PlanError and as of Enter.
func (r *Records) ReviewPlan(ctx context.Context, said Said, p PlanReview) error {
	r.planning.Lock()
	defer r.planning.Unlock()
	if _, there, err := r.Taken(ctx, said.ID); there || err != nil {
		return err
	}
	state, _, err := r.plansNow(ctx)
	if err != nil {
		return err
	}
	v, ok := state.Version(p.Product.ID, p.Version)
	if !ok {
		return &PlanError{"there is no such version", "choose one that is there"}
	}
	if err := p.fits(state, v, record.Instant(said.At.UnixMilli())); err != nil {
		return err
	}
	outcome := record.SentBack
	if p.Accepted {
		outcome = record.Accepted
	}
	said.Body = record.PlanReviewed{Pack: p.Product.ID, Plan: v.Entry, Reviewer: p.Reviewer, Qualified: p.Qualified, Outcome: outcome, Authority: p.Authority, Why: record.Text(p.Why)}
	_, err = r.Enter(ctx, said)
	return err
}

// fits says what speaks against a review.
func (p PlanReview) fits(state *hazardplan.State, v hazardplan.Version, at record.Instant) error {
	switch {
	case p.Reviewer == "" || p.Qualified == "":
		return &PlanError{"it is not said who reviewed it, and why they are qualified", "write both"}
	case !p.Accepted && p.Why == "":
		return &PlanError{"it is not said why it is sent back", "write what is to be changed"}
	case !p.Accepted:
		return nil
	case v.Bad != "":
		return &PlanError{"this version cannot be read: " + v.Bad, "write a new one"}
	case v.Number != len(state.Versions(p.Product.ID)):
		return &PlanError{"a later version was entered", "review the last one"}
	}
	now, err := state.Stand(p.Product, at)
	if err != nil {
		return err
	}
	if v.Basis != now.Today.Plan.Basis {
		return &PlanError{"the dish has changed since this version was written: " + changesText(now.SinceNow), "enter a version of the dish as it is now, and review that"}
	}
	if i := slices.IndexFunc(v.Doc.Plan.Open, func(o haccp.Open) bool { return o.Stop }); i >= 0 {
		o := v.Doc.Plan.Open[i]
		return &PlanError{o.Where + ": " + o.Says, o.Fix}
	}
	return nil
}

func changesText(all []haccp.Change) string {
	var words []string
	for _, c := range all {
		if c.Basis {
			words = append(words, c.Where+" "+c.Says)
		}
	}
	return strings.Join(words, "; ")
}

// PlanInForce is the version of a pack's plan that was accepted at a time, and by whom; false when none was.
func (r *Records) PlanInForce(ctx context.Context, pack string, at record.Instant) (v hazardplan.Version, by hazardplan.Review, ok bool, err error) {
	state, _, err := r.plansNow(ctx)
	if err != nil {
		return v, by, false, err
	}
	v, by, ok = state.InForce(pack, at)
	return v, by, ok, nil
}

// PlanOfLot is the version that was accepted when a lot of packs was filled; false when none was, or the lot is none of packs.
func (r *Records) PlanOfLot(ctx context.Context, lot record.Lot) (v hazardplan.Version, by hazardplan.Review, ok bool, err error) {
	pack, born := "", record.Instant(0)
	err = r.Lots(ctx, func(s *lots.State, _ finding.List) error {
		if l := s.Lot(lot); l != nil && l.Sort == lots.Packs {
			pack, born = l.What, l.Born
		}
		return nil
	})
	if err != nil || pack == "" {
		return v, by, false, err
	}
	return r.PlanInForce(ctx, pack, born)
}

// PlanPoints are the control points by which lots of a product are judged at a time, and the version of the plan that was in force; 0 for none.
// The error of a product of which nothing can be drafted is *haccp.ProductError.
func (r *Records) PlanPoints(ctx context.Context, p haccp.Product, at record.Instant) ([]haccp.Point, int, error) {
	state, _, err := r.plansNow(ctx)
	if err != nil {
		return nil, 0, err
	}
	return state.Points(p, at)
}
