package nutrition

import (
	"testing"

	"kettlefrost/internal/foodtable"
)

// 21 CFR 101.9(g): the sodium of 610 mg may be 732 at most (quoted); 4 g of fibre 3.2 at least, or 4 if it was added (from memory).
func TestTolerancesUS(t *testing.T) {
	none := foodtable.Value{}
	for _, c := range []struct {
		n           Nutrient
		declared    float64
		added       bool
		least, most foodtable.Value
	}{
		{Sodium, 610, false, none, foodtable.Given(732)}, {AddedSugars, 10, true, none, foodtable.Given(12)}, {Energy, 190, false, none, foodtable.Given(228)},
		{Fibre, 4, false, foodtable.Given(3.2), none}, {Fibre, 4, true, foodtable.Given(4), none}, {Calcium, 100, false, foodtable.Given(80), none},
	} {
		got, ok := c.n.Tolerance(c.declared, c.added)
		if !ok || got.Least != c.least || got.Most != c.most || got.Source == "" {
			t.Errorf("%v: %+v, want %v to %v", c.n, got, c.least, c.most)
		}
	}
	if _, ok := Water.Tolerance(1, false); ok {
		t.Error("a tolerance of water")
	}
}
