package app

import (
	"context"
	"time"

	"kettlefrost/internal/folder"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// PlanPaper is a hazard plan for paper: the version in force; where none is, the last that was entered, or else the draft of today's dish, and then
// every page is marked as a draft.
func (x HazardPlan) PlanPaper(book kitchen.Book, zone *time.Location, at record.Instant) folder.PlanPaper {
	s := x.Standing
	p := folder.PlanPaper{Kitchen: kitchenOf(book), Name: x.Name, Plan: s.Today.Plan, AsOf: at, Clock: folderClock(zone)}
	switch {
	case s.InForce != nil && s.InForce.Bad == "":
		p.Version, p.Plan, p.InForce = *s.InForce, s.InForce.Doc.Plan, &s.By
		for _, c := range s.Changed {
			p.Reopened = append(p.Reopened, c.Where+" "+c.Says)
		}
	case s.Latest != nil && s.Latest.Bad == "":
		p.Version, p.Plan = *s.Latest, s.Latest.Doc.Plan
	}
	return p
}

// ThermometerPaper is the log of all thermometers for paper. Errors are *store.Error.
func (r *Records) ThermometerPaper(ctx context.Context, book kitchen.Book, zone *time.Location, at record.Instant) (folder.ThermometerPaper, error) {
	bench, _, err := r.Bench(ctx, book)
	return folder.ThermometerPaper{Kitchen: kitchenOf(book), Bench: bench, AsOf: at, Clock: folderClock(zone)}, err
}
