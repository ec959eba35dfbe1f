package app

import (
	"testing"

	"kettlefrost/internal/language"
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// What was entered of a production is in its report, beside the plan; what was not is said to be missing.
func TestRunReport(t *testing.T) {
	boards, records, h := kettleDay(t)
	const name = "kettle-2026-12-01"
	p := look1(t, boards, name)
	first, dish := p.First.Timetable.Tasks[0], p.First.Dishes[0]
	out := dish.Steps[len(dish.Steps)-1].Out[0]
	h.set(first.Start.String())
	say(t, records, h, record.Started{Run: name, Task: first.Key})
	h.set((first.Start + 7).String())
	say(t, records, h, record.Finished{Run: name, Task: first.Key})
	say(t, records, h, record.Weighed{Run: name, Dish: dish.ID, Output: out.ID, Net: 100 * unit.Kilogram})
	say(t, records, h, record.Wasted{Run: name, Dish: dish.ID, Output: out.ID, Mass: unit.Kilogram, Why: "burnt"})
	r, _, err := boards.RunReport(t.Context(), name)
	if err != nil {
		t.Fatal(err)
	}
	if !r.Open || r.After != nil || len(r.Weighed) != 1 || r.Weighed[0].Planned != out.Mass || r.Weighed[0].Real != 100*unit.Kilogram || len(r.Thrown) != 1 {
		t.Errorf("open %v, after %v, weighed %v, thrown %v", r.Open, r.After, r.Weighed, r.Thrown)
	}
	if x := r.Tasks[0]; x.Is != "done" || *x.Began != first.Start || *x.Ended != first.Start+7 {
		t.Errorf("the first task: %+v", x)
	}
	if x := r.Tasks[1]; x.Is != "" || x.Began != nil {
		t.Errorf("of the second nothing was said: %+v", x)
	}
	fill := p.First.Fill[0]
	numbers, err := record.ParseNumbers("1-10")
	if err != nil {
		t.Fatal(err)
	}
	say(t, records, h, record.Made{Run: name, Dish: dish.ID, Output: out.ID, Lot: "M-1", Mass: 100 * unit.Kilogram})
	say(t, records, h, record.Packed{Run: name, Pack: fill.Pack, Lot: "P-1", Numbers: numbers, Label: fill.Net, Mass: 10 * fill.Net, From: []record.Part{{Lot: "M-1", Mass: 10 * fill.Net}}, BestBefore: "2027-03-01"})
	say(t, records, h, record.Closed{Run: name})
	r, p, err = boards.RunReport(t.Context(), name)
	if err != nil || r.Open || r.After == nil || r.After.Packs[0].Made != 10 || r.After.Packs[0].Planned != fill.Count {
		t.Fatalf("open %v, after %+v, %v", r.Open, r.After, err)
	}
	for _, in := range language.Languages() {
		if n := len(pdf.Pages(r.Document(ReportFor(p, in)))); n == 0 {
			t.Errorf("no pages in %s", in)
		}
	}
	if _, _, err := boards.RunReport(t.Context(), "no-such-run"); err == nil {
		t.Error("a production that there is not has a report")
	}
}
