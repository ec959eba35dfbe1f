package allergen

import (
	"errors"
	"slices"
	"testing"
)

// The nine of 21 U.S.C. 321(qq) with sesame, as read.
func TestTheNine(t *testing.T) {
	want := []string{"milk", "egg", "fish", "crustacean shellfish", "tree nuts", "wheat", "peanuts", "soybeans", "sesame"}
	if got := Words(); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestParse(t *testing.T) {
	for word, want := range map[string]Allergen{"milk": {0, ""}, " Milk ": {0, ""}, "fish: trout": {2, "trout"}, "tree nuts:cashew": {4, "cashew"}, "Crustacean  shellfish: crab": {3, "crab"}} {
		if got, err := Parse(word); err != nil || got != want {
			t.Errorf("%q: got %+v, %v; want %+v", word, got, err, want)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	all := Words()
	for _, c := range []struct {
		word    string
		problem Problem
		near    []string
	}{
		{"mlik", Unknown, []string{"milk"}}, {"wheet", Unknown, []string{"wheat"}}, {"soya", Unknown, []string{"soybeans"}}, {"shrimp", Unknown, []string{"crustacean shellfish: shrimp"}},
		{"celery", Unknown, all}, {"", Unknown, all}, {"mustard", Unknown, all},
		{"fish", KindMissing, []string{"fish: trout"}}, {"tree nuts:", KindMissing, []string{"tree nuts: cashew"}},
		{"milk: goat", KindUnwanted, []string{"milk"}}, {"fish: cod, hake", KindMalformed, nil},
	} {
		_, err := Parse(c.word)
		var bad *Error
		if !errors.As(err, &bad) || bad.Problem != c.problem || !slices.Equal(bad.Near, c.near) || bad.Word != c.word || bad.Reason() == "" || bad.Hint() == "" {
			t.Errorf("%q: got %+v, want problem %d and %v offered", c.word, bad, c.problem, c.near)
		}
	}
}

// Any word is one of the nine, or refused with a reason.
func FuzzParse(f *testing.F) {
	for _, word := range []string{"milk", "fish: cod", "Tree nuts:  pecan", "nuts", ":", "fish: a, b", "\xff"} {
		f.Add(word)
	}
	f.Fuzz(func(t *testing.T, word string) {
		a, err := Parse(word)
		if err == nil && (a.Major < 0 || a.Major >= len(majors) || (a.Kind == "") != (majors[a.Major].Example == "")) {
			t.Errorf("%q: %+v", word, a)
		}
	})
}
