package plan_test

import (
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// BenchmarkMake plans each run of the demo book end to end; the request and the book are read beforehand.
func BenchmarkMake(b *testing.B) {
	book := bookfile.Read(demo.Book()).Book
	foods, err := foodtable.Default()
	if err != nil {
		b.Fatal(err)
	}
	for name, req := range book.Runs {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if p := plan.Make(b.Context(), book, foods, req); len(p.Fill) == 0 {
					b.Fatal("no packs")
				}
			}
		})
	}
}

// BenchmarkRetime times the rest of the largest demo day again: something late, somebody gone, something broken.
func BenchmarkRetime(b *testing.B) {
	book := bookfile.Read(demo.Book()).Book
	foods, err := foodtable.Default()
	if err != nil {
		b.Fatal(err)
	}
	run := plan.Open(b.Context(), book, foods, book.Runs["tuesday"])
	for name, changes := range map[string]kitchen.Changes{
		"late":   {Now: 9 * 60, Late: []kitchen.Late{{Task: "turkey-meatballs/sweat/1", By: 25 * unit.Minute}}},
		"gone":   {Now: 9 * 60, Gone: []kitchen.Gone{{Person: "sam", From: 11 * 60}}},
		"told":   toldLate(run.Plan(), 9*60),
		"broken": {Now: 9 * 60, Out: []kitchen.Outage{{Equipment: "burner", Count: 3, From: 9 * 60}}},
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if p := run.Retime(b.Context(), changes); p.Timetable.Now == nil {
					b.Fatal("not timed again")
				}
			}
		})
	}
}

// BenchmarkDraws draws the largest demo day 10,000 times.
func BenchmarkDraws(b *testing.B) {
	book := bookfile.Read(demo.Book()).Book
	foods, err := foodtable.Default()
	if err != nil {
		b.Fatal(err)
	}
	run := plan.Open(b.Context(), book, foods, book.Runs["tuesday"])
	for b.Loop() {
		if r := run.Drawn(10_000); r.Draws != 10_000 || r.Earned.Low >= r.Earned.High {
			b.Fatalf("%+v", r)
		}
	}
}

// toldLate is a day that was told up to a moment, each task five minutes late.
func toldLate(p plan.Plan, now unit.Moment) kitchen.Changes {
	c := kitchen.Changes{Now: now, Told: true}
	for _, t := range p.Timetable.Tasks {
		if begin := t.Start + 5; begin <= now {
			c.Real = append(c.Real, kitchen.Real{Task: t.Key, Begin: begin, End: min(now, t.End+5), Over: t.End+5 <= now})
		}
	}
	return c
}
