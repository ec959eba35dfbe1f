package plan_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/plan"
)

// Whatever the demo kitchen makes, the loads that are found without a timetable are those of the timetable.
func TestHandlesAreTheTasksOfTheTimetable(t *testing.T) {
	book := bookfile.Read(demo.Book()).Book
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range slices.Sorted(maps.Keys(book.Runs)) {
		req := book.Runs[name]
		want, cooked := map[string]bool{}, map[string]bool{}
		for _, x := range plan.Make(t.Context(), book, foods, req).Timetable.Tasks {
			if x.Kind == plan.Cool {
				want[strings.Join(strings.Split(x.Key, "/")[:3], "/")] = true
			}
			cooked[x.Key] = x.Kind == plan.Cook
		}
		got := map[string]bool{}
		cooks := 0
		for _, h := range plan.Handles(t.Context(), book, foods, req) {
			if h.Kind == plan.Cook {
				cooks++
				for _, key := range h.Loads {
					if !cooked[key] {
						t.Errorf("%s: the timetable cooks no %s", name, key)
					}
				}
				continue
			}
			for i, key := range h.Loads {
				got[key] = true
				if !cooked[h.From[i]] {
					t.Errorf("%s: %s comes from %s, which the timetable does not cook", name, key, h.From[i])
				}
			}
		}
		if !maps.Equal(got, want) || len(want) == 0 || cooks == 0 {
			t.Errorf("%s: chills %v, want %v; %d heated steps", name, slices.Sorted(maps.Keys(got)), slices.Sorted(maps.Keys(want)), cooks)
		}
	}
}

func BenchmarkHandles(b *testing.B) {
	book := bookfile.Read(demo.Book()).Book
	foods, err := foodtable.Default()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		plan.Handles(b.Context(), book, foods, book.Runs["tuesday"])
	}
}
