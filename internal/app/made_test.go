package app

import (
	"strings"
	"testing"

	"kettlefrost/internal/plan"
)

func TestMadeFoodByName(t *testing.T) {
	made := []plan.MadeFood{{Dish: "leek-soup", Output: "base"}, {Dish: "leek-soup", Output: "soup"}, {Dish: "tomato-sauce", Output: "sauce"}}
	for _, c := range []struct{ name, id, says string }{
		{"leek-soup/base", "leek-soup/base", ""},
		{"tomato-sauce", "tomato-sauce/sauce", ""}, // it has one output
		{"leek-soup", "", "near it are leek-soup/base, leek-soup/soup"},
		{"tomato-sauce/sacue", "", "near it are tomato-sauce/sauce"},
		{"leek-soup/whatever-else-there-is", "", "near it are leek-soup/base, leek-soup/soup"},
		{"x", "", "it makes leek-soup/base, leek-soup/soup, tomato-sauce/sauce"},
		{"", "", `makes no ""`},
	} {
		m, err := MadeFood(made, c.name)
		switch {
		case c.says == "" && (err != nil || m.ID() != c.id):
			t.Errorf("%q is %s, %v; want %s", c.name, m.ID(), err, c.id)
		case c.says != "" && (err == nil || !strings.Contains(err.Error(), c.says)):
			t.Errorf("%q: %v, want %q in it", c.name, err, c.says)
		}
	}
	if _, err := MadeFood(nil, "soup"); err == nil || !strings.Contains(err.Error(), "nor anything else") {
		t.Errorf("of nothing: %v", err)
	}
}
