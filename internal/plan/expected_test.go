package plan_test

import (
	"math"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/plan"
)

// What is expected is what is planned: the same masses, loads and keys.
func TestExpectedIsThePlan(t *testing.T) {
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	book := bookfile.Read(demo.Book()).Book
	for _, name := range []string{"tuesday", "small-friday"} {
		made := plan.Make(t.Context(), book, foods, book.Runs[name])
		got := plan.Expect(t.Context(), book, foods, book.Runs[name])
		steps, length := map[string]plan.ExpectedStep{}, map[string]int{}
		for _, d := range got.Dishes {
			for _, s := range d.Steps {
				steps[d.ID+"/"+s.ID] = s
				for _, key := range s.Tasks {
					length[key] += s.HeatMin + s.WorkMin
				}
			}
		}
		for _, d := range made.Dishes {
			for _, s := range d.Steps {
				e, ok := steps[d.ID+"/"+s.ID]
				if !ok {
					if s.Scale > 0 {
						t.Errorf("%s: step %s/%s is not expected", name, d.ID, s.ID)
					}
					continue
				}
				for i, o := range s.Out {
					if math.Abs(o.Mass.Kg()-e.Out[i].Kg) > 1e-6 {
						t.Errorf("%s: %s/%s gives %g kg, planned %s", name, d.ID, s.ID, e.Out[i].Kg, o.Mass)
					}
				}
				if s.Loads.Count > 0 && e.Loads != s.Loads.Count {
					t.Errorf("%s: %s/%s: %d loads, planned %d", name, d.ID, s.ID, e.Loads, s.Loads.Count)
				}
			}
		}
		packs := map[string]int{}
		for _, p := range got.Packs {
			for _, key := range p.Tasks {
				packs[key]++
			}
		}
		for _, task := range made.Timetable.Tasks {
			switch task.Kind {
			case plan.Cook:
				if length[task.Key] == 0 {
					t.Errorf("%s: task %s is not expected", name, task.Key)
				}
			case plan.Filling:
				if packs[task.Key] != 1 {
					t.Errorf("%s: filling %s is expected %d times", name, task.Key, packs[task.Key])
				}
			}
		}
	}
}
