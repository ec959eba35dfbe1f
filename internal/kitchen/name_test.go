package kitchen

import "testing"

func TestIsID(t *testing.T) {
	for _, good := range []string{"dal", "ale-sauce", "kettle-60gal", "2", "a-b-c"} {
		if !IsID(good) {
			t.Errorf("%q should be an ID", good)
		}
	}
	for _, bad := range []string{"", "-", "-a", "a-", "a--b", "Dal", "a b", "a.b", "a_b", "crème", "../x"} {
		if IsID(bad) {
			t.Errorf("%q should not be an ID", bad)
		}
	}
}

func TestPathsTellKeysApart(t *testing.T) {
	for _, c := range []struct{ parent, key, want string }{
		{"", "dishes", "dishes"},
		{"dishes", "dal", "dishes.dal"},
		{"ingredients.onion.measures", "cup, chopped", "ingredients.onion.measures.cup, chopped"},
		{"runs", "no. 3", `runs["no. 3"]`},
		{"runs", "", `runs[""]`},
		{"runs", "a[0]", `runs["a[0]"]`},
	} {
		if got := PathTo(c.parent, c.key); got != c.want {
			t.Errorf("PathTo(%q, %q) = %q, want %q", c.parent, c.key, got, c.want)
		}
	}
	if got := PathAt("dishes.dal.steps", 2); got != "dishes.dal.steps[2]" {
		t.Errorf("PathAt gives %q", got)
	}
}
