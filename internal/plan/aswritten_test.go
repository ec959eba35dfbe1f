package plan_test

import (
	"math"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// As written, a dish uses the amounts that are written, and what goes in comes out or is lost.
func TestAsWritten(t *testing.T) {
	book, foods := bookfile.Read(demo.Book()).Book, table(t)
	for id := range book.Dishes {
		d, _, err := plan.AsWritten(book, foods, id)
		if err != nil {
			t.Fatal(id, err)
		}
		if off := math.Abs((d.In - d.Out - d.Lost).Kg()); off > 1e-3 {
			t.Errorf("%s: %s in, %s out and %s lost", id, d.In, d.Out, d.Lost)
		}
		if len(d.Steps) != len(book.Dishes[id].Steps) {
			t.Errorf("%s: %d steps", id, len(d.Steps))
		}
	}
	d, _, err := plan.AsWritten(book, foods, "ale-cheddar")
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range d.Steps {
		if s.ID == "grate" && (s.In[0].Mass != 8*unit.Pound || s.Out[0].Mass != 8*unit.Pound) { // 8 lb of cheddar in the book, nothing lost
			t.Errorf("grate: %s in and %s out, want 8 lb", s.In[0].Mass, s.Out[0].Mass)
		}
		if s.ID == "reduce-ale" && math.Abs(s.Out[0].Mass.Kg()/s.In[0].Mass.Kg()-0.7) > 1e-6 { // reduce-to: 70 %
			t.Errorf("reduce-ale: %s in and %s out, want 70 %%", s.In[0].Mass, s.Out[0].Mass)
		}
	}
}

func TestAsWrittenOfNothing(t *testing.T) {
	foods := table(t)
	if _, _, err := plan.AsWritten(kitchen.Book{}, foods, "soup"); err != plan.ErrNoDish {
		t.Errorf("%v", err)
	}
	book := kitchen.Book{Dishes: map[kitchen.DishID]kitchen.Dish{"soup": {Steps: []kitchen.Step{{ID: "boil", Use: []kitchen.Use{{From: "boil", Take: kitchen.Take{Given: true, Share: unit.Whole}}}}}}}}
	if _, _, err := plan.AsWritten(book, foods, "soup"); err == nil {
		t.Error("a step that uses itself was solved")
	}
}
