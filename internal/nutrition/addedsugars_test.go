package nutrition_test

import (
	"testing"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/nutrition"
)

// The definition of added sugars, 21 CFR 101.9(c)(6)(iii), is from memory: what grew in a raw food is none, sugar and honey are all added, and of
// what a factory made one asks.
func TestAddedSugars(t *testing.T) {
	table, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	none, ask := foodtable.Given(0), foodtable.Value{}
	for query, want := range map[string]foodtable.Value{
		"onions raw": none, "carrots boiled": none, "cream heavy": none, "cheddar": none, "milk whole": none, "egg whole raw": none, "lentils raw": none, "wheat flour all-purpose": none,
		"chicken thigh raw": none, "cumin": none, "sugars granulated": foodtable.Given(99.80), "honey": foodtable.Given(82.12), // SR28 (read)
		"catsup": ask, "bacon": ask, "curry powder": ask, "tomato paste": ask, "hominy": ask, "barbecue sauce": ask, "beer": ask, "bread white": ask,
	} {
		found := table.Search(query, 1)
		if len(found) != 1 {
			t.Fatalf("%q finds nothing", query)
		}
		got := nutrition.AddedSugarsOf(found[0].Food)
		if got.Per100g != want || want.IsGiven() && (got.Why == "" || got.Confirm == "") {
			t.Errorf("%s (%s): %+v, want %v", query, found[0].Food.Description, got, want)
		}
		if nutrition.FromTable(found[0].Food.Per100g)[nutrition.AddedSugars].IsGiven() {
			t.Errorf("%s: the table gives no added sugars, its composition does", query)
		}
	}
}
