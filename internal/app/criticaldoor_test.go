package app

import (
	"testing"

	"kettlefrost/internal/kitchen"
)

// Whole carrots are chilled to keep; milk is for safety, and so is what nobody has classed (FDA Food Code 1-201.10: raw plants need no temperature
// unless they are cut leafy greens, cut tomatoes, cut melons or sprouts).
func TestWhatMustComeCold(t *testing.T) {
	for _, c := range []struct {
		class   kitchen.IngredientClass
		storage string
		want    string
	}{
		{"produce", "chilled", ""}, {"dry", "chilled", ""}, {"produce", "frozen", "frozen"}, {"dairy", "chilled", "chilled"}, {"poultry", "chilled", "chilled"},
		{"eggs", "chilled", "chilled"}, {"cooked-meat", "chilled", "chilled"}, {"starch", "chilled", "chilled"}, {"", "chilled", "chilled"}, {"dry", "dry", "dry"},
	} {
		if got := keptAtTheDoor(kitchen.Ingredient{Class: c.class, Storage: c.storage}); got != c.want {
			t.Errorf("%s, stored %s: %q, want %q", c.class, c.storage, got, c.want)
		}
	}
}
