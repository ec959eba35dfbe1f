package folder

import (
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/haccp"
	"kettlefrost/internal/hazardplan"
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
	"kettlefrost/internal/unit"
)

// stewPlan is a plan of a stew of beef, in vacuum bags.
func stewPlan(t testing.TB) haccp.Document {
	t.Helper()
	heat := 95.0
	doc, err := haccp.Write(haccp.Product{ID: "stew-2lb", Name: "Stew, 2 lb", Vacuum: true, Frozen: true,
		Ingredients: []haccp.Ingredient{{ID: "beef", Name: "beef", Class: haccp.IntactMeat, AllergensKnown: true}},
		Steps:       []haccp.Step{{ID: "simmer", Do: "Simmer", Uses: []string{"beef"}, HeatToC: &heat, HoldS: 3600}}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func pagesOf(doc pdf.Document) (pages []string) {
	for _, page := range pdf.Pages(doc) {
		var p paper
		page.Draw(&p)
		pages = append(pages, strings.Join(p.words, " "))
	}
	return pages
}

// The plan in a folder is the version that was in force when the lot was packed: not one that was accepted later. One that nobody accepted is shown
// as a draft, and is missing.
func TestPlanInForce(t *testing.T) {
	doc := stewPlan(t)
	body := record.HazardPlan{Pack: "stew-2lb", Basis: doc.Plan.Basis, Text: record.Text(doc.Text())}
	accept := func(id record.ID) record.PlanReviewed {
		return record.PlanReviewed{Pack: "stew-2lb", Plan: id, Reviewer: "Dr. Ko", Qualified: "process authority", Outcome: record.Accepted, Authority: "VT-7"}
	}
	for _, c := range []struct {
		name          string
		first, second bool // accepted before the lot was packed, and after
		version       int
		accepted      bool
		missing       string
	}{{"written only", false, false, 1, false, PlanNotTaken}, {"accepted before", true, false, 1, true, ""}, {"accepted too late", false, true, 1, false, PlanNotTaken}} {
		t.Run(c.name, func(t *testing.T) {
			x := &chain{t: t}
			id := x.say(clock(-30, 0), "Ann", body)
			if c.first {
				x.say(clock(-29, 0), "Ann", accept(id))
			}
			for _, e := range tuesday(t).all {
				says, err := record.Decode(e.Kind, e.Body)
				if err != nil {
					t.Fatal(err)
				}
				if e.Corrects == (record.ID{}) {
					x.say(e.Happened, e.Who, says)
				}
			}
			if c.second {
				x.say(clock(13, 0), "Ann", accept(id))
			}
			x.say(clock(14, 0), "Ann", body)
			got := made(t, material(t, x, "P-1"))
			if len(got.Plans) != 1 || got.Plans[0].Version != c.version || got.Plans[0].Accepted != c.accepted || !got.Plans[0].Readable {
				t.Fatalf("plans are %+v", got.Plans)
			}
			for _, code := range []string{NoPlan, PlanNotTaken, PlanUnreadable} {
				if is := slices.ContainsFunc(got.Missing, func(m Missing) bool { return m.Code == code }); is != (code == c.missing) {
					t.Errorf("%s is missing: %v", code, is)
				}
			}
		})
	}
}

// A plan that is not in force has DRAFT on every page; one that is has its review.
func TestPlanOnPaper(t *testing.T) {
	doc := stewPlan(t)
	x := PlanPaper{Kitchen: Kitchen{Name: "Small Kitchen", Units: unit.US}, Name: "Stew, 2 lb", Plan: doc.Plan, AsOf: clock(0, 0), Clock: wallClock}
	pages := pagesOf(x.Document())
	for i, page := range pages {
		if strings.Count(page, "DRAFT") < 2 {
			t.Errorf("page %d is not marked as a draft", i+1)
		}
	}
	all := strings.Join(pages, " ")
	for _, want := range []string{"CCP 1", "145 °F", "Codex CXC 1-1969", "nobody is named", "reviewed by, and why they are qualified", "Nobody has reviewed this version."} {
		if !strings.Contains(all, want) {
			t.Errorf("nowhere is %q", want)
		}
	}
	x.InForce = &hazardplan.Review{At: clock(1, 0), Reviewer: "Dr. Ko", Qualified: "process authority", Accepted: true, Authority: "VT-7"}
	x.Version = hazardplan.Version{Number: 3, At: clock(0, 0), Who: "Ann", Reviews: []hazardplan.Review{*x.InForce}}
	x.Reopened = []string{"beef is ground now"}
	all = strings.Join(pagesOf(x.Document()), " ")
	for _, want := range []string{"version 3 of", "Accepted on 1 Dec 2026 13:00 by Dr. Ko (process authority). Authority: VT-7", "THE DISH HAS CHANGED", "beef is ground now"} {
		if !strings.Contains(all, want) {
			t.Errorf("nowhere is %q", want)
		}
	}
	if strings.Contains(all, "DRAFT") {
		t.Error("a plan in force is marked as a draft")
	}
}

func TestThermometersOnPaper(t *testing.T) {
	var checks thermometers.State
	c := &chain{t: t}
	c.say(clock(0, 0), "Ann", record.Calibrated{Instrument: "T-1", Method: record.IcePoint, Read: tempF(36), True: tempF(32), Kept: record.Withdrawn, Note: "fell"})
	for _, e := range c.all {
		checks.Take(e)
	}
	x := ThermometerPaper{Kitchen: Kitchen{Name: "Small Kitchen", Units: unit.US}, Bench: thermometers.Look([]thermometers.Instrument{{ID: "T-1", Name: "pen"}, {ID: "T-2", Name: "red pen", EveryDays: 7}}, &checks), AsOf: clock(1, 0), Clock: wallClock}
	all := strings.Join(pagesOf(x.Document()), " ")
	for _, want := range []string{"proves nothing", "never-checked", "36 °F", "4 °F", "withdrawn fell", "red pen"} {
		if !strings.Contains(all, want) {
			t.Errorf("nowhere is %q: %s", want, all)
		}
	}
}
