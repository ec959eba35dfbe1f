package timetable_test

import (
	"context"
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"kettlefrost/internal/timetable"
	"kettlefrost/internal/timetable/check"
	"kettlefrost/internal/timetable/psplib"
)

// bestKnown is a published makespan; proven tells that no better one exists.
type bestKnown struct {
	makespan int
	proven   bool
}

func readInstance(t testing.TB, path string) timetable.Problem {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	p, err := psplib.Read(f)
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return p
}

// published compares one result with the published makespan and returns by how much it is above, in per cent.
func published(t *testing.T, p timetable.Problem, best bestKnown) (float64, timetable.Result) {
	t.Helper()
	r, err := timetable.Solve(context.Background(), p, timetable.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := check.Check(p, r.Start, r.Ways); err != nil {
		t.Fatal(err)
	}
	if best.proven && r.End < best.makespan {
		t.Errorf("ends at %d, but %d is proven to be the optimum", r.End, best.makespan)
	}
	if r.Bound > best.makespan {
		t.Errorf("bound %d (%s) is above the published makespan %d", r.Bound, r.BoundWhy.Kind, best.makespan)
	}
	if r.Status == timetable.Optimal && r.End > best.makespan {
		t.Errorf("%d called optimal, but %d is published", r.End, best.makespan)
	}
	return 100 * float64(r.End-best.makespan) / float64(best.makespan), r
}

// TestPublishedProjects: six J30 instances of PSPLIB (R. Kolisch and A. Sprecher, "PSPLIB - a project scheduling problem library",
// European Journal of Operational Research 96 (1997) 205-216) with their proven optima as collected by the kobe-scheduling project.
func TestPublishedProjects(t *testing.T) {
	for name, makespan := range map[string]int{
		"j301_5": 39, "j3011_7": 36, "j3013_1": 58, "j3015_2": 47, "j3017_10": 66, "j3029_8": 80,
	} {
		t.Run(name, func(t *testing.T) {
			above, r := published(t, readInstance(t, filepath.Join("testdata", "psplib", name+".sm")), bestKnown{makespan, true})
			if above > 5 {
				t.Errorf("%.1f %% above the optimum %d", above, makespan)
			}
			t.Logf("%s: %d, bound %d (%s), optimum %d", r.Status, r.End, r.Bound, r.BoundWhy.Kind, makespan)
		})
	}
}

// TestWholeLibrary reads a larger part of PSPLIB when it lies beside the project.
func TestWholeLibrary(t *testing.T) {
	const dir = "../../../shared/data/psplib"
	best := readBestKnown(t, filepath.Join(dir, "best_known.csv"))
	if best == nil {
		t.Skip("the library is not there")
	}
	for _, set := range []string{"j30", "j60", "j120"} {
		t.Run(set, func(t *testing.T) {
			files, err := filepath.Glob(filepath.Join(dir, set, "*.sm"))
			if err != nil || len(files) == 0 {
				t.Skipf("no instances of %s: %v", set, err)
			}
			above, optimal := 0.0, 0
			for _, path := range files {
				name := filepath.Base(path[:len(path)-len(".sm")])
				known, ok := best[name]
				if !ok {
					t.Errorf("%s: no published makespan", name)
					continue
				}
				more, r := published(t, readInstance(t, path), known)
				above += more
				if r.Status == timetable.Optimal {
					optimal++
				}
			}
			t.Logf("%d instances: on average %.2f %% above the published makespans, %d proved optimal", len(files), above/float64(len(files)), optimal)
		})
	}
}

func readBestKnown(t *testing.T, path string) map[string]bestKnown {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		return nil
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	best := map[string]bestKnown{}
	for _, row := range rows[1:] {
		makespan, err := strconv.Atoi(row[1])
		if err != nil {
			t.Fatalf("%s: %v", row[0], err)
		}
		best[row[0]] = bestKnown{makespan, row[2] == "true"}
	}
	return best
}
