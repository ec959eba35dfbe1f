package app_test

import (
	"errors"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/dispersal"
	"kettlefrost/internal/record"
)

// The demo's sauce does it already: it is planned, and nothing would be otherwise in the book.
func TestDisperseWhatADishDoesAlready(t *testing.T) {
	a, err := app.New(demo.Book(), noon)
	if err != nil {
		t.Fatal(err)
	}
	d, err := a.Disperse(t.Context(), app.DisperseTyped{Dish: "ale-cheddar", Of: "xanthan"})
	if err != nil {
		t.Fatal(err)
	}
	v := d.View()
	if v.State != dispersal.Fine || v.Changes || v.Now == nil || v.Then == nil || v.Then.Jars < 1 || v.Longer != 0 || v.Then.Powder == 0 || !strings.Contains(v.Then.Label, "xanthan") {
		t.Errorf("%+v\n%+v", v, v.Then)
	}
}

// A gum that is new to a dish: planned on a day it takes hands for its jars, stands on the label, and put in it is in the book.
func TestDisperseIsPlannedAndPutIn(t *testing.T) {
	a, r := kitchenOf(t)
	d, err := a.Disperse(t.Context(), app.DisperseTyped{Dish: "mushroom-filling", Of: "xanthan", Dose: "0.2 %"})
	if err != nil {
		t.Fatal(err)
	}
	v := d.View()
	if v.State != dispersal.Added || !v.Changes || v.Stops || v.Now == nil || v.Then == nil {
		t.Fatalf("%+v", v)
	}
	if v.Now.Jars != 0 || v.Then.Jars < 1 || v.Hands < v.Then.Time || strings.Contains(v.Now.Label, "xanthan") || !strings.Contains(v.Then.Label, "xanthan") || v.Then.Closure > 1e-9 {
		t.Errorf("now %+v\nthen %+v", v.Now, v.Then)
	}
	typed := app.DisperseTyped{Dish: "mushroom-filling", Of: "xanthan", Dose: "0.2 %"}
	for range 2 { // sent twice it is done once
		if edit, err := a.PutIn(t.Context(), record.ID{5}, ada, typed, d.Edit.Mark()); err != nil || !edit.Saved {
			t.Fatal(edit.Saved, err)
		}
	}
	if _, err := a.PutIn(t.Context(), record.ID{6}, ada, typed, d.Edit.Mark()); err == nil || !strings.Contains(err.Error(), "changed meanwhile") {
		t.Errorf("what was shown of another dish: %v", err)
	}
	if again, err := a.Disperse(t.Context(), app.DisperseTyped{Dish: "mushroom-filling", Of: "xanthan"}); err != nil || again.State != dispersal.Fine {
		t.Errorf("put in, it is %s: %v", again.State, err)
	}
	text, _ := textOf(t, r, "dishes/mushroom-filling.yaml")
	if !strings.Contains(text, "      - id: hydrate-xanthan\n") || !strings.Contains(text, "load: {surface: 16 kg/m2} # two fingers deep; they shrink at once") {
		t.Error(text)
	}
}

func TestDisperseSaysWhatIsWrong(t *testing.T) {
	a, err := app.New(demo.Book(), noon)
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []app.DisperseTyped{{Dish: "mushroom-filling", Of: "xanthan"}, {Dish: "mushroom-filling", Of: "xanthan", Dose: "a pinch"}, {Dish: "mushroom-filling", Of: "xanthan", Dose: "1 g per cup", Run: "yesterday"}} {
		if _, err := a.Disperse(t.Context(), x); err == nil {
			t.Errorf("%+v went", x)
		} else if wrong, ok := errors.AsType[*dispersal.InputError](err); !ok || wrong.Fix == "" {
			t.Error(err)
		}
	}
	if _, err := a.TryBook(bookfile.Set("dishes.ale-cheddar.steps[bse].time", "5 min")); err == nil || !strings.Contains(err.Error(), "did you mean base") {
		t.Error(err)
	}
}
