package app_test

import (
	"context"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

func house(t testing.TB) (*app.App, kitchen.Book) {
	t.Helper()
	a, err := app.New(demo.Book(), func() time.Time { return time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC) })
	if err != nil {
		t.Fatal(err)
	}
	book, _ := a.Book()
	return a, book
}

// A plan is made once, and anew when a word of the book or of the request is another.
func TestSamePlanOnce(t *testing.T) {
	a, book := house(t)
	run := book.Runs["small-friday"]
	first := a.Plan(context.Background(), book, run)
	if again := a.Plan(context.Background(), book, run); &again.Fill[0] != &first.Fill[0] {
		t.Error("the same request is planned twice")
	}
	other, _ := a.Book() // read again, equal
	if again := a.Plan(context.Background(), other, run); &again.Fill[0] != &first.Fill[0] {
		t.Error("the same book read again is planned again")
	}
	book.Kitchen.Air = new(unit.TempC(30))
	if other := a.Plan(context.Background(), book, run); &other.Fill[0] == &first.Fill[0] {
		t.Error("a warmer kitchen gets the old plan")
	}
	run.Reserve = 10 * unit.PerCent
	if other := a.Plan(context.Background(), book, run); &other.Fill[0] == &first.Fill[0] {
		t.Error("a larger reserve gets the old plan")
	}
}

// A day timed again is another plan than the run's, the same one for the same changes, and another for others.
func TestSameChangesOnce(t *testing.T) {
	a, book := house(t)
	run := book.Runs["small-friday"]
	late := func(now unit.Moment) kitchen.Changes {
		return kitchen.Changes{Now: now, Gone: []kitchen.Gone{{Person: "sam", From: now}}}
	}
	first := a.Retime(t.Context(), book, run, late(600))
	if again := a.Retime(t.Context(), book, run, late(600)); &again.Fill[0] != &first.Fill[0] {
		t.Error("the same changes are timed twice")
	}
	if other := a.Retime(t.Context(), book, run, late(601)); &other.Fill[0] == &first.Fill[0] {
		t.Error("a minute later gets the old plan")
	}
	if plain := a.Plan(t.Context(), book, run); &plain.Fill[0] == &first.Fill[0] {
		t.Error("the plan before the run is that of the changed day")
	}
}

// Somebody who goes away leaves no half plan behind.
func TestCutShortIsNotKept(t *testing.T) {
	a, book := house(t)
	gone, leave := context.WithCancel(context.Background())
	leave()
	cut := a.Plan(gone, book, book.Runs["small-friday"])
	if whole := a.Plan(context.Background(), book, book.Runs["small-friday"]); &whole.Fill[0] == &cut.Fill[0] {
		t.Error("a plan that was cut short is kept")
	}
}

// Finding a plan again, beside making it.
func BenchmarkPlanAgain(b *testing.B) {
	a, book := house(b)
	run := book.Runs["tuesday"]
	a.Plan(context.Background(), book, run)
	for b.Loop() {
		a.Plan(context.Background(), book, run)
	}
}
