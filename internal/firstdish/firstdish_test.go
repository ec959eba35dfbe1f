package firstdish_test

import (
	"context"
	"testing"
	"testing/fstest"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/firstdish"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
)

func soup() firstdish.Answers {
	return firstdish.Answers{"name": "Lentil soup", "lines": "5 lb lentils\n3 gal water\n2 lb carrots", "pot": "60 qt pot", "holds": "60 qt", "across": "16 in", "power": "30,000 Btu/h", "hot": "200 °F", "time": "45 min",
		"lid": "on", "cooling": "ice-bath", "fill": "1 lb", "who": "Ada", "count": "30"}
}

// An empty kitchen and the answers: the book takes it without a stop, and a plan fills the packs.
func TestAFirstDishIsPlanned(t *testing.T) {
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	for _, way := range []string{firstdish.IceBath, firstdish.Pans} {
		answers := soup()
		answers["cooling"] = way
		book := kitchen.Book{Kitchen: kitchen.Kitchen{Name: "Test"}}
		r := firstdish.Read(answers, book, foods)
		if len(r.Missing) > 0 {
			t.Fatalf("missing: %v", r.Missing)
		}
		edited, err := bookfile.Edit(fstest.MapFS{"kitchen.yaml": {Data: []byte("kitchen: {name: Test}\n")}}, bookfile.Between(book, r.Book)...)
		if err != nil {
			t.Fatal(err)
		}
		found := kitchen.Check(edited.Book, func(ndb string) bool { _, ok := foods.Lookup(ndb); return ok })
		for _, f := range found {
			if f.Severity == finding.Stop {
				t.Errorf("%s: %s", way, f)
			}
		}
		p := plan.Make(context.Background(), edited.Book, foods, edited.Book.Runs[r.Run])
		if p.Summary.Packs != 30 || p.Summary.HandsOn == 0 {
			t.Errorf("%s: %d packs and %s of work, want 30 packs: %v", way, p.Summary.Packs, p.Summary.HandsOn, p.Findings)
		}
	}
}

// At any point it is said what is missing, and what cannot be read.
func TestWhatIsMissingIsSaid(t *testing.T) {
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	none := firstdish.Read(nil, kitchen.Book{}, foods)
	if len(none.Missing) != 9 { // of 19 fields 9 have something usual and one may stay empty
		t.Errorf("%d are missing of nothing: %v", len(none.Missing), none.Missing)
	}
	for key, bad := range map[string]string{"holds": "big", "time": "a while", "lines": "\x00", "count": "many", "from": "early", "fill": "3", "price": "cheap"} {
		answers := soup()
		answers[key] = bad
		r := firstdish.Read(answers, kitchen.Book{}, foods)
		said := false
		for _, m := range r.Missing {
			said = said || m.Key == key && m.Says != ""
		}
		if !said || r.Run != "" {
			t.Errorf("%s %q: %v", key, bad, r.Missing)
		}
	}
}
