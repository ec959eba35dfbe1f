package plan_test

import (
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// TestWeekByHand: one soup in batches of 20 packs, of which 200 are sold. A batch takes 20 min of hands: 5 to cook, 5 to set the bath, 10 to fill.
// One hour of hands a week is three batches; one hour more is three more.
func TestWeekByHand(t *testing.T) {
	book := soupKitchen(t)
	book.Kitchen.Days = 1
	edit(book.Packs, "soup-650", func(p *kitchen.Pack) { p.Batch, p.Sells = 20, 200 })
	edit(book.People, "ada", func(p *kitchen.Person) { // fourteen hours less thirteen of breaks
		p.Shift.Breaks = []kitchen.Break{{From: p.Shift.From + 60, To: p.Shift.To}}
	})
	book.People["bo"] = kitchen.Person{Name: "Bo", Shift: kitchen.Shift{From: 6 * 60, To: 20 * 60, Breaks: []kitchen.Break{{From: 6*60 + 1, To: 20*60 - 1}}}} // a minute at either end
	w := plan.PlanWeek(t.Context(), book, table(t))
	if len(w.Packs) != 1 || len(w.Resources) != 3 {
		t.Fatalf("%+v", w)
	}
	x, hands := w.Packs[0], w.Resources[0]
	near(t, "hands for a batch, h", x.Uses[0], 20.0/60, 1e-9)
	near(t, "hands there, h", hands.Have, 62.0/60, 1e-9)
	if x.Batches != 3 || x.Count != 60 || w.Gap != 0 || w.Contribution != 3*x.Contribution || x.Stops != "not enough of: hands on" {
		t.Errorf("%+v for %v, gap %v; want three batches", x, w.Contribution, w.Gap)
	}
	if hands.More != 3*x.Contribution || hands.Less != 3*x.Contribution || hands.Pays != 1 {
		t.Errorf("one more hour earns %v, one less costs %v; want three batches of %v", hands.More, hands.Less, x.Contribution)
	}
	if per := x.Contribution.Times(3, 1); x.Per[0] != per {
		t.Errorf("it leaves %v for an hour of hands, want %v", x.Per[0], per)
	}
}

// TestWeekLeavesOut what has no price, and says so.
func TestWeekLeavesOut(t *testing.T) {
	book := soupKitchen(t)
	edit(book.Packs, "soup-650", func(p *kitchen.Pack) { p.Price, p.Batch = 0, 20 })
	w := plan.PlanWeek(t.Context(), book, table(t))
	if f := has(w.Findings, plan.CodeLeftOut); f == nil || len(w.Packs) != 0 || w.Contribution != unit.Money(0) {
		t.Errorf("%+v", w)
	}
}
