package app_test

import (
	"errors"
	"strings"
	"sync"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/hazardplan"
	"kettlefrost/internal/hazards"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

func tableOfFoods(t *testing.T) *foodtable.Table {
	t.Helper()
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	return foods
}

const meatballs = "meatballs-six"

// The plan of the meatballs: entered, reviewed, accepted; a change of the dish opens it again and is told in words; a version of the old dish is
// not accepted for the new one, and a lot keeps the plan that it was made by.
func TestAHazardPlanIsEnteredReviewedAndOpenedAgain(t *testing.T) {
	r, foods := counter(t), tableOfFoods(t)
	book := bookfile.Read(demo.Book()).Book
	product := func() haccp.Product { p, _ := hazards.Of(book, foods, meatballs); return p }
	plan := func() app.HazardPlan {
		t.Helper()
		x, known, err := app.HazardPlanOf(t.Context(), r, book, foods, meatballs, record.Instant(said(99).At.UnixMilli()))
		if err != nil || !known || x.Bad != "" {
			t.Fatal(known, x.Bad, err)
		}
		return x
	}
	refused := func(err error, want string) {
		t.Helper()
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
	if x := plan(); x.Standing.Word != hazardplan.Draft || len(x.Asked) > 0 {
		t.Errorf("%s %v", x.Standing.Word, x.Asked)
	}
	hotter := haccp.Edit{Do: haccp.SetLimit, At: "bake/cooking", Figures: []haccp.Figure{{TempC: unit.TempF(170).C()}}}
	colder := haccp.Edit{Do: haccp.SetLimit, At: "bake/cooking", Figures: []haccp.Figure{{TempC: unit.TempF(160).C()}}}
	laxer := (*haccp.EditError)(nil)
	if err := r.WritePlan(t.Context(), said(1), app.PlanChange{Product: product(), Edits: []haccp.Edit{colder}}); !errors.As(err, &laxer) {
		t.Errorf("%v", err)
	}
	for range 2 { // sent twice
		if err := r.WritePlan(t.Context(), said(2), app.PlanChange{Product: product(), Edits: []haccp.Edit{hotter}, Note: "first"}); err != nil {
			t.Fatal(err)
		}
	}
	refused(r.WritePlan(t.Context(), said(3), app.PlanChange{Product: product(), Edits: []haccp.Edit{hotter}}), "while you wrote")
	review := app.PlanReview{Product: product(), Version: 1, Reviewer: "R. Vance", Qualified: "HACCP course of 2025", Accepted: true, Authority: "VT-HP-12"}
	refused(r.ReviewPlan(t.Context(), said(4), app.PlanReview{Product: product(), Version: 1, Reviewer: "R. Vance", Accepted: true}), "qualified")
	refused(r.ReviewPlan(t.Context(), said(4), app.PlanReview{Product: product(), Version: 7, Reviewer: "R", Qualified: "q", Accepted: true}), "no such version")
	refused(r.ReviewPlan(t.Context(), said(4), app.PlanReview{Product: product(), Version: 1, Reviewer: "R", Qualified: "q"}), "sent back")
	if err := r.ReviewPlan(t.Context(), said(5), review); err != nil {
		t.Fatal(err)
	}
	if x := plan(); x.Standing.Word != hazardplan.Accepted || x.Standing.By.Authority != "VT-HP-12" || x.Versions[0].Who != "Ada" || x.Standing.Today.Plan.Points[0].Limit.Text != "170 °F at once" {
		t.Errorf("%s %+v", x.Standing.Word, x.Standing.Today.Plan.Points[0].Limit)
	}
	if found := app.PlanFindings(book, []app.HazardPlan{plan()}, record.Instant(said(99).At.UnixMilli())); len(found) != 0 {
		t.Errorf("%v", found)
	}
	if found := app.PlanFindings(book, []app.HazardPlan{plan()}, record.Instant(said(99).At.AddDate(1, 0, 2).UnixMilli())); len(found) != 1 || found[0].Code != app.CodePlanOld {
		t.Errorf("%v", found)
	}
	dish := book.Dishes["turkey-meatballs"]
	dish.Steps = append([]kitchen.Step{}, dish.Steps...)
	hot := unit.TempF(180)
	for i := range dish.Steps {
		if dish.Steps[i].ID == "bake" {
			dish.Steps[i].ReadyAt = &hot
		}
	}
	book.Dishes["turkey-meatballs"] = dish
	found := app.PlanFindings(book, []app.HazardPlan{plan()}, record.Instant(said(99).At.UnixMilli()))
	if len(found) != 1 || found[0].Code != app.CodePlanReopened || !strings.Contains(found[0].Message, "step bake is heated to 180 °F, was 170 °F") {
		t.Errorf("%v", found)
	}
	refused(r.ReviewPlan(t.Context(), said(6), app.PlanReview{Product: product(), Version: 1, Reviewer: "R", Qualified: "q", Accepted: true}), "the dish has changed")
	if err := r.WritePlan(t.Context(), said(7), app.PlanChange{Product: product(), From: 1, Back: []haccp.Edit{hotter}}); err != nil {
		t.Fatal(err)
	}
	if x := plan(); x.Standing.Word != hazardplan.Reopened || !x.Standing.Waiting || x.Standing.Today.Plan.Points[0].Limit.Text != "165 °F at once" {
		t.Errorf("%s %+v", x.Standing.Word, x.Standing.Today.Plan.Points[0].Limit)
	}
	enter := func(n byte, b record.Body) {
		t.Helper()
		x := said(n)
		x.Body = b
		if _, err := r.Enter(t.Context(), x); err != nil {
			t.Fatal(err)
		}
	}
	enter(8, record.Packed{Run: "run", Pack: meatballs, Lot: "M-1", Numbers: numbers(t, "1-20"), Label: 500 * unit.Gram, Mass: 10 * unit.Kilogram, From: []record.Part{{Lot: "M", Mass: 10 * unit.Kilogram}}, BestBefore: "2027-06-01"})
	if err := r.ReviewPlan(t.Context(), said(9), app.PlanReview{Product: product(), Version: 2, Reviewer: "R. Vance", Qualified: "HACCP course of 2025", Accepted: true}); err != nil {
		t.Fatal(err)
	}
	if v, by, ok, err := r.PlanOfLot(t.Context(), "M-1"); err != nil || !ok || v.Number != 1 || by.Reviewer != "R. Vance" {
		t.Errorf("%d %+v %v %v", v.Number, by, ok, err)
	}
	if _, _, ok, err := r.PlanOfLot(t.Context(), "S-1"); err != nil || ok { // of a soup without a plan
		t.Errorf("%v %v", ok, err)
	}
}

// What must not be made so is not accepted, whoever says so; and without records there are drafts.
func TestWhatMustNotBeMadeIsNotAccepted(t *testing.T) {
	r, foods := counter(t), tableOfFoods(t)
	book := bookfile.Read(demo.Book()).Book
	turkey := book.Ingredients["turkey"]
	turkey.Class = "" // nobody has said: it is guessed to be poultry, and raw food of animals is not guessed at
	book.Ingredients["turkey"] = turkey
	product, _ := hazards.Of(book, foods, meatballs)
	if err := r.WritePlan(t.Context(), said(1), app.PlanChange{Product: product}); err != nil {
		t.Fatal(err)
	}
	bad := (*app.PlanError)(nil)
	if err := r.ReviewPlan(t.Context(), said(2), app.PlanReview{Product: product, Version: 1, Reviewer: "R", Qualified: "q", Accepted: true}); !errors.As(err, &bad) || !strings.Contains(err.Error(), "ground turkey") || bad.Fix == "" {
		t.Errorf("%v", err)
	}
	all, _, err := app.HazardPlans(t.Context(), nil, book, foods, 0)
	if err != nil || len(all) != len(book.Packs) || all[0].Standing.Word != hazardplan.Draft {
		t.Errorf("%v %v", all, err)
	}
	if found := app.PlanFindings(book, all, 0); len(found) != 1 || found[0].Code != app.CodePlanMissing {
		t.Errorf("%v", found)
	}
}

// Two who write at once do not write over each other.
func TestNoTwoVersionsFollowOnOne(t *testing.T) {
	r, foods := counter(t), tableOfFoods(t)
	product, _ := hazards.Of(bookfile.Read(demo.Book()).Book, foods, meatballs)
	var wg sync.WaitGroup
	errs := make([]error, 6)
	for i := range errs {
		wg.Go(func() {
			errs[i] = r.WritePlan(t.Context(), said(byte(i+1)), app.PlanChange{Product: product, Edits: []haccp.Edit{{Do: haccp.SetTeam, Lines: []string{string(rune('A' + i))}}}})
		})
	}
	wg.Wait()
	taken := 0
	for _, err := range errs {
		if err == nil {
			taken++
		} else if bad := (*app.PlanError)(nil); !errors.As(err, &bad) {
			t.Error(err)
		}
	}
	if taken != 1 {
		t.Errorf("%d of six were taken in", taken)
	}
}

// BenchmarkHazardPlans is what the list of plans costs: the draft of each of the demo's seven packs, from its dish.
func BenchmarkHazardPlans(b *testing.B) {
	foods, err := foodtable.Default()
	if err != nil {
		b.Fatal(err)
	}
	book := bookfile.Read(demo.Book()).Book
	for b.Loop() {
		if _, _, err := app.HazardPlans(b.Context(), nil, book, foods, 0); err != nil {
			b.Fatal(err)
		}
	}
}
